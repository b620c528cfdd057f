//! How long every step takes in this kitchen, and how long its dough may go on standing.

use super::mixing::mixing;
use bake::kitchen::Kitchen;
use bake::simulate::{Course, Ended, Grid, Happening, How, Through, simulate};
use numerics::quantity::Duration;
use recipe::document::model::{Action, Recipe, Standing, Step, Timing};
use recipe::formula::Formula;

/// Minutes of one step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Length {
    /// As it goes here.
    pub lasts: i32,
    /// It may be ended so early where nobody could come at its end: the written early end, or the same in proportion.
    pub early: i32,
    /// Its `lasts` ends so much before its sign, because nobody could come at it.
    pub cut: i32,
    /// From here on a dough that goes on standing is past its best.
    pub best: i32,
    /// No longer than this.
    pub most: i32,
    /// Its sign does not come here within the longest that a cook waits for it.
    pub no_sign: bool,
}

impl Length {
    const fn fixed(lasts: i32) -> Self {
        Self {
            lasts,
            early: lasts,
            cut: 0,
            best: lasts,
            most: lasts,
            no_sign: false,
        }
    }
}

/// A dough laid flat and cold may wait so long (common practice), if it is not past its best before.
const COLD_HOLD_MIN: i32 = 600;
/// A dough past its best is not left standing for longer than this: an hour (ours).
const PAST_MIN: i32 = 60;
/// A step without a written range may go on for so much of its time, or end so much earlier (common practice).
const SHARE_WITHOUT_RANGE: f64 = 0.15;

/// Every step of a recipe in the order in which a page numbers them.
pub fn steps(recipe: &Recipe) -> impl Iterator<Item = &Step> {
    let stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    stages.chain(recipe.products.iter().flat_map(|product| &product.steps))
}

/// Minutes as they are planned: whole ones, and never less than a step needs.
pub fn minutes(of: Duration) -> i32 {
    // A tenth of a second less is still the same minute.
    let whole = (of.minutes() - 1.0 / 600.0).ceil().clamp(0.0, 100_000.0);
    #[allow(clippy::cast_possible_truncation)] // clamped above
    let whole = whole as i32;
    whole
}

/// The minutes of every step, the first at place 0.
///
/// What a step takes is told by the simulator, by the clock or by its sign as `how` says. How much longer a
/// dough may stand is the written range in proportion, or less where its gas begins to leave before that; a
/// dough in the refrigerator may wait for ten hours if it does not pass its best there.
pub fn lengths(recipe: &Recipe, formula: &Formula, kitchen: &Kitchen, how: &How) -> Vec<Length> {
    let course = simulate(recipe, formula, kitchen, how).output;
    let mixing = mixing(recipe, formula, kitchen);
    steps(recipe)
        .enumerate()
        .map(|(at, step)| match mixing.get(at).copied().flatten() {
            Some(minutes) => Length::fixed(minutes),
            None => length(recipe, formula, kitchen, how, &course, at, step),
        })
        .collect()
}

fn length(
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    how: &How,
    course: &Course,
    at: usize,
    step: &Step,
) -> Length {
    let number = at + 1;
    let here = course.steps.iter().find(|step| step.number == number);
    let goes = |timing: &Timing| {
        let lasts = here.map_or(timing.usual.value, |step| step.lasts);
        if lasts > Duration::ZERO {
            lasts
        } else {
            timing.usual.value
        }
    };
    match &step.action {
        Action::Bake { phases, .. } => {
            let written: Duration = phases.iter().map(|phase| phase.timing.usual.value).sum();
            let lasts = here.map_or(written, |step| step.lasts);
            Length::fixed(minutes(lasts).max(1))
        }
        Action::Rest { timing, place, .. } => {
            let cold = place.value == Standing::Refrigerator;
            // What never gets as cold as is written is cold enough by the clock.
            let no_sign = here.is_some_and(|step| step.ended == Ended::Limit);
            let lasts = if cold && no_sign {
                timing.usual.value
            } else {
                goes(timing)
            };
            let least = minutes(lasts);
            let mut best = late(timing, lasts).max(least);
            let past = past(recipe, formula, kitchen, how, at, timing, lasts);
            if cold {
                best = best.max(COLD_HOLD_MIN);
            }
            if let Some(past) = past {
                best = best.min(past).max(least);
            }
            Length {
                lasts: least,
                early: early(timing, lasts).min(least),
                cut: 0,
                best,
                most: best + PAST_MIN,
                no_sign,
            }
        }
        Action::Cool { timing, .. } => {
            let lasts = goes(timing);
            let best = late(timing, lasts).max(minutes(lasts));
            Length {
                lasts: minutes(lasts),
                early: minutes(lasts),
                cut: 0,
                best,
                most: best + 2 * PAST_MIN,
                no_sign: false,
            }
        }
        // Said by `mixing`.
        Action::Mix { .. } => Length::fixed(1),
        Action::Wake { timing, .. }
        | Action::Heat { timing, .. }
        | Action::Divide { timing, .. }
        | Action::Shape { timing }
        | Action::Finish { timing }
        | Action::Fold { timing, .. }
        | Action::Ready { timing, .. }
        | Action::Preheat { timing, .. } => Length::fixed(minutes(timing.usual.value).max(1)),
    }
}

/// Minutes into a rest as they are written; where the rest is over before that here, in proportion.
pub(super) fn into_rest(rest: &Step, lasts: i32, written: Duration) -> i32 {
    let at = minutes(written);
    match &rest.action {
        Action::Rest { timing, .. } if at >= lasts => {
            let usual = minutes(timing.usual.value).max(1);
            lasts * at.min(usual) / usual
        }
        _ => at,
    }
}

/// The written late end in proportion to how long the step takes here.
fn late(timing: &Timing, lasts: Duration) -> i32 {
    let usual = timing.usual.value.si().max(1.0);
    let high = timing
        .range
        .as_ref()
        .map_or(usual * (1.0 + SHARE_WITHOUT_RANGE), |range| {
            range.value.high.si()
        });
    minutes(Duration::from_si(lasts.si() * (high / usual).max(1.0)))
}

/// The written early end, or the same in proportion where that is sooner here.
fn early(timing: &Timing, lasts: Duration) -> i32 {
    let usual = timing.usual.value.si().max(1.0);
    let low = timing
        .range
        .as_ref()
        .map_or(usual * (1.0 - SHARE_WITHOUT_RANGE), |range| {
            range.value.low.si()
        });
    let share = (low / usual).min(1.0);
    let written = timing.range.as_ref().map_or(f64::INFINITY, |_| low);
    minutes(Duration::from_si((lasts.si() * share).min(written)))
}

/// Minutes after which the gas of this step's dough begins to leave, when it is left standing for twice
/// its time (a cold one for ten hours); none when it does not.
fn past(
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    how: &How,
    at: usize,
    timing: &Timing,
    lasts: Duration,
) -> Option<i32> {
    let mut left = recipe.clone();
    let longest = (lasts.si() * 2.0).max(f64::from(COLD_HOLD_MIN) * 60.0 * chilled(recipe, at));
    let long = Timing {
        usual: recipe::source::Located::new(Duration::from_si(longest), timing.usual.span),
        range: None,
    };
    let step = step_mut(&mut left, at)?;
    step.until = None;
    if let Action::Rest { timing, .. } = &mut step.action {
        *timing = long;
    }
    // Only this dough and what comes before it is followed.
    let of_product = at >= recipe.steps_before(recipe.stages.len());
    if !of_product {
        left.products.clear();
    }
    let how = How {
        grid: Grid::Coarse,
        through: Through::Rises,
        ..*how
    };
    let course = simulate(&left, formula, kitchen, &how).output;
    let step = course.steps.iter().find(|step| step.number == at + 1)?;
    step.events
        .iter()
        .find(|event| event.what == Happening::PastItsBest)
        .map(|event| minutes(event.after))
}

/// One for a step in the refrigerator, otherwise nothing.
fn chilled(recipe: &Recipe, at: usize) -> f64 {
    match steps(recipe).nth(at).map(|step| &step.action) {
        Some(Action::Rest { place, .. }) if place.value == Standing::Refrigerator => 1.0,
        _ => 0.0,
    }
}

/// A step by its place, to be changed.
pub fn step_mut(recipe: &mut Recipe, at: usize) -> Option<&mut Step> {
    let stages = recipe.stages.iter_mut().flat_map(|stage| &mut stage.steps);
    let products = recipe.products.iter_mut();
    stages
        .chain(products.flat_map(|product| &mut product.steps))
        .nth(at)
}
