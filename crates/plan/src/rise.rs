//! The last rise of one product after the waits of a plan: how long it takes, and when its gas begins to leave.
//!
//! A bake day and a filming day ask here alike. The product is followed alone in the simulator, every rest before
//! its last rise as long as the plan makes it and every hold in the cold written as a step of the recipe. What a
//! hold does to the rise is the ratio of two such runs, with the hold and without it.

use crate::day::lengths::{step_mut, steps};
use bake::kitchen::Kitchen;
use bake::simulate::{Ended, Follows, Grid, Happening, How, StepCourse, Through, simulate};
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::{Action, Recipe, Standing, Step, Timing};
use recipe::formula::Formula;
use recipe::source::Located;

/// Where and of what a dough is asked how it rises.
#[derive(Clone, Copy)]
pub struct Asked<'a> {
    /// The recipe's sums.
    pub formula: &'a Formula,
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// How it is followed, the tested bakes among it.
    pub how: How,
}

/// How a dough stands before its last rise.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wait {
    /// A written rest, by its place among all steps from 0, lasts so many minutes.
    Rests {
        /// Which.
        step: usize,
        /// How long.
        minutes: i64,
    },
    /// It stands in the refrigerator, as it is not written, before a step.
    Held {
        /// Before which.
        before: usize,
        /// How long.
        minutes: i64,
    },
}

/// One product whose last rise is asked for.
#[derive(Clone, Debug)]
pub struct Alone {
    recipe: Recipe,
    /// Place of the last rise among the steps of that recipe.
    rise: usize,
    /// Whether the step before it is a hold of the shaped dough.
    shaped: bool,
}

/// What a last rise came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rise {
    /// How long it took as it was followed.
    pub lasts: Duration,
    /// Whether it ended where nothing was reached: it had not risen by the limit.
    pub never: bool,
    /// When its gas begins to leave, from its beginning.
    pub past: Option<Duration>,
    /// Times its size at its beginning.
    pub grown: f64,
    /// The dough at its end.
    pub dough: Option<Temperature>,
}

/// The place of a product's last rest among all steps from 0.
pub fn last_rise(recipe: &Recipe, product: usize) -> Option<usize> {
    let own = &recipe.products.get(product)?.steps;
    let last = own
        .iter()
        .rposition(|step| matches!(step.action, Action::Rest { .. }))?;
    Some(of_stages(recipe) + before(recipe, product) + last)
}

fn of_stages(recipe: &Recipe) -> usize {
    recipe.steps_before(recipe.stages.len())
}

fn before(recipe: &Recipe, product: usize) -> usize {
    let others = &recipe.products[..product];
    others.iter().map(|product| product.steps.len()).sum()
}

impl Alone {
    /// A product as written, but for what waits say.
    pub fn new(recipe: &Recipe, product: usize, waits: &[Wait]) -> Option<Self> {
        Self::at(recipe, product, last_rise(recipe, product)?, waits)
    }

    /// The same, where another rest of it is asked for than its last, by its place among all steps from 0.
    pub fn at(recipe: &Recipe, product: usize, rise: usize, waits: &[Wait]) -> Option<Self> {
        let (first, skipped) = (of_stages(recipe), before(recipe, product));
        let own = first + skipped..first + skipped + recipe.products[product].steps.len();
        let mut alone = recipe.clone();
        alone.products = vec![recipe.products[product].clone()];
        // Steps of the only product left follow those of the stages.
        let there = |step: usize| match step {
            step if step < first => Some(step),
            step if own.contains(&step) => Some(step - skipped),
            _ => None,
        };
        for wait in waits {
            if let Wait::Rests { step, minutes } = *wait
                && let Some(at) = there(step)
            {
                by_the_clock(step_mut(&mut alone, at)?, minutes);
            }
        }
        let mut held: Vec<(usize, i64)> = waits
            .iter()
            .filter_map(|wait| match *wait {
                Wait::Held { before, minutes } if minutes > 0 => Some((there(before)?, minutes)),
                _ => None,
            })
            .collect();
        // From behind, so that the places before stay what they are.
        held.sort_unstable_by_key(|one| std::cmp::Reverse(one.0));
        let mut made = Self {
            recipe: alone,
            rise: there(rise)?,
            shaped: false,
        };
        for (at, minutes) in held {
            let cold = made.in_the_cold(at, minutes)?;
            made.shaped |= at == made.rise;
            made.insert(at, cold);
            made.rise += usize::from(at <= made.rise);
        }
        Some(made)
    }

    /// A stay in the refrigerator like the rest that is next to it: the last rise where it is held shaped,
    /// otherwise what it stood in before.
    fn in_the_cold(&self, before: usize, minutes: i64) -> Option<Step> {
        let rests = |step: &&Step| matches!(step.action, Action::Rest { .. });
        let all: Vec<&Step> = steps(&self.recipe).collect();
        let like = if before == self.rise {
            all[self.rise]
        } else {
            all[..before].iter().copied().rfind(rests)?
        };
        let mut cold = like.clone();
        if let Action::Rest { place, .. } = &mut cold.action {
            place.value = Standing::Refrigerator;
        }
        by_the_clock(&mut cold, minutes);
        Some(cold)
    }

    fn insert(&mut self, at: usize, step: Step) {
        let mut first = 0;
        for stage in &mut self.recipe.stages {
            let last = first + stage.steps.len();
            if at < last {
                stage.steps.insert(at - first, step);
                return;
            }
            first = last;
        }
        self.recipe.products[0].steps.insert(at - first, step);
    }

    /// Followed by its signs, or as `how` says.
    ///
    /// A sign that is a volume is one of the dough as it was shaped: what it has grown in a hold since counts.
    pub fn asked(&self, asked: &Asked<'_>, follows: Follows) -> Option<Rise> {
        if !self.shaped {
            return Self::followed(&self.recipe, self.rise, asked, follows);
        }
        let grown = Self::followed(&self.recipe, self.rise - 1, asked, Follows::Clock)?.grown;
        let mut recipe = self.recipe.clone();
        let until = step_mut(&mut recipe, self.rise)?.until.as_mut();
        if let Some(volume) = until.and_then(|until| until.volume.as_mut()) {
            volume.value /= grown.max(1.0);
        }
        Self::followed(&recipe, self.rise, asked, follows)
    }

    /// The last rise stands so long by the clock.
    pub fn stood(&self, asked: &Asked<'_>, minutes: i64) -> Option<Rise> {
        let mut recipe = self.recipe.clone();
        by_the_clock(step_mut(&mut recipe, self.rise)?, minutes);
        Self::followed(&recipe, self.rise, asked, Follows::Clock)
    }

    fn followed(
        recipe: &Recipe,
        place: usize,
        asked: &Asked<'_>,
        follows: Follows,
    ) -> Option<Rise> {
        let how = How {
            grid: Grid::Coarse,
            through: Through::Rises,
            follows,
            ..asked.how
        };
        let course = simulate(recipe, asked.formula, asked.kitchen, &how).output;
        let number = place + 1;
        course
            .steps
            .iter()
            .find(|step| step.number == number)
            .map(said)
    }
}

fn said(step: &StepCourse) -> Rise {
    Rise {
        lasts: step.lasts,
        never: step.ended == Ended::Limit,
        past: step
            .events
            .iter()
            .find(|event| event.what == Happening::PastItsBest)
            .map(|event| event.after),
        grown: step.grown,
        dough: step.dough,
    }
}

/// The step's time is so many minutes by the clock, whatever its sign.
fn by_the_clock(step: &mut Step, minutes: i64) {
    if let Action::Rest { timing, .. } | Action::Cool { timing, .. } = &mut step.action {
        *timing = Timing {
            usual: Located::new(Duration::from_minutes(minutes as f64), timing.usual.span),
            range: None,
        };
        step.until = None;
    }
}

/// Minutes of a last rise after the waits of a plan, where it takes `usual_min` without them: longer from the
/// cold, shorter where the hold itself has fermented it. None where either run does not come to its sign.
pub fn after_waits(
    recipe: &Recipe,
    asked: &Asked<'_>,
    product: usize,
    without: &[Wait],
    with: &[Wait],
    usual_min: i64,
) -> Option<i64> {
    let rise = last_rise(recipe, product)?;
    after_waits_at(recipe, asked, (product, rise), without, with, usual_min)
}

/// The same of any rest of a product's line: the product, and the place of the rest among all steps from 0.
pub fn after_waits_at(
    recipe: &Recipe,
    asked: &Asked<'_>,
    (product, rise): (usize, usize),
    without: &[Wait],
    with: &[Wait],
    usual_min: i64,
) -> Option<i64> {
    let takes = |waits: &[Wait]| {
        let rise = Alone::at(recipe, product, rise, waits)?.asked(asked, Follows::Cue)?;
        let minutes = rise.lasts.minutes();
        (!rise.never && minutes > 0.0).then_some(minutes)
    };
    let longer = takes(with)? / takes(without)? * usual_min as f64;
    #[allow(clippy::cast_possible_truncation)] // a rise of hours
    let whole = (longer - 1e-6).ceil().clamp(1.0, 1e5) as i64;
    Some(whole)
}
