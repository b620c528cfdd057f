//! A bake under way: what is in hand, what stands by itself, what comes next and when, from what was done so far.
//!
//! Every moment is counted from the moment at which the bake was begun. Steps of one stage or product
//! follow one another; stages go into stages, products come from them. Hands do one thing at a time; a
//! dough, an oven and a rack look after themselves. Things that are done beside a step (butter taken out,
//! the oven heated, a fold within a rise) are due at a moment and hold nothing up.

mod ahead;
mod tap;

pub use ahead::{ahead, in_hand};
pub use tap::{Change, Tap, tapped};

use bake::simulate::Course;
use numerics::quantity::{Duration, Range, Temperature};
use recipe::document::model::{Action, Product, Recipe, Stage, Step, Tool};

/// Whether a step needs hands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manner {
    /// Somebody works at it all the time.
    Hands,
    /// It goes by itself, and a bell rings when it may be over.
    Waits,
    /// It is done beside others, at its moment.
    Beside,
}

/// How long a step takes here, and from when to when it may be over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Length {
    /// As it is expected.
    pub usual: Duration,
    /// From and to.
    pub range: Option<Range<Duration>>,
}

/// A step of the work.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Its number on the page.
    pub number: usize,
    /// The stage or product.
    pub of: String,
    /// Whether it needs hands.
    pub manner: Manner,
    /// Numbers of the steps that must be over before it.
    pub after: Vec<usize>,
    /// For what is done beside others: the step that it hangs on, and how long before that begins
    /// (negative: after).
    pub before: Option<(usize, Duration)>,
    /// How long it takes.
    pub length: Length,
    /// Dial and rack of a bake.
    pub oven: Option<(Temperature, Option<String>)>,
    /// Whether it begins with the end of the step before it. A bake, a mixer and woken yeast begin when the
    /// cook says so: something is put in first, and their minutes count.
    pub follows_on: bool,
}

/// What was done at a step so far.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Done {
    /// When it was begun.
    pub began: Option<Duration>,
    /// When it was over.
    pub ended: Option<Duration>,
    /// What was added to its time.
    pub longer: Duration,
    /// Whether its bell was stopped.
    pub quiet: bool,
    /// A length that the readings of this bake gave, from the beginning of the step, begun or not. What was added
    /// to the step's time is in it.
    pub told: Option<Length>,
}

/// How it stands with a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stands {
    /// Not begun; when it is expected to.
    Ahead {
        /// Expected beginning.
        begins: Duration,
        /// Expected end.
        ends: Duration,
        /// Whether everything before it is over.
        ready: bool,
    },
    /// Begun.
    Running {
        /// When.
        began: Duration,
        /// When it is expected to be over.
        ends: Duration,
        /// Between when and when, where that is known.
        within: Option<Range<Duration>>,
    },
    /// Over.
    Over {
        /// From.
        began: Duration,
        /// To.
        ended: Duration,
    },
}

/// The pieces of a recipe's work, in written order; `length`: how long each step takes here.
pub fn pieces(recipe: &Recipe, length: impl Fn(usize) -> Option<Length>) -> Vec<Piece> {
    let mut all: Vec<Piece> = Vec::new();
    let mut ends: Vec<(String, Vec<usize>)> = Vec::new();
    for stage in &recipe.stages {
        let feeds: Vec<usize> = stage
            .items
            .iter()
            .filter_map(|item| ends.iter().find(|(name, _)| *name == item.of.value))
            .flat_map(|(_, last)| last.clone())
            .collect();
        let last = chain(&mut all, &stage.name.value, &stage.steps, feeds, &length);
        ends.push((stage.name.value.clone(), last));
    }
    for product in &recipe.products {
        let feeds = ends
            .iter()
            .filter(|(name, _)| *name == product.from.value)
            .flat_map(|(_, last)| last.clone())
            .collect();
        chain(
            &mut all,
            &product.name.value,
            &product.steps,
            feeds,
            &length,
        );
    }
    all
}

/// Lays one chain of steps; gives what must be over before whatever comes of it.
fn chain(
    all: &mut Vec<Piece>,
    of: &str,
    steps: &[Step],
    feeds: Vec<usize>,
    length: &impl Fn(usize) -> Option<Length>,
) -> Vec<usize> {
    let mut after = feeds;
    let first = all.len() + 1;
    let numbers: Vec<usize> = (first..first + steps.len()).collect();
    for (at, step) in steps.iter().enumerate() {
        let number = numbers[at];
        let later = |wanted: fn(&Action) -> bool| {
            let next = steps.iter().zip(&numbers).skip(at + 1);
            next.filter(|(step, _)| wanted(&step.action))
                .map(|(_, number)| *number)
                .next()
        };
        let before = match &step.action {
            Action::Ready { before, .. } => {
                later(|action| !beside(action)).map(|number| (number, before.value))
            }
            Action::Preheat { timing, .. } => later(|action| matches!(action, Action::Bake { .. }))
                .map(|number| (number, timing.usual.value)),
            Action::Fold { into_rest, .. } => {
                let rest = steps[..at]
                    .iter()
                    .rposition(|step| matches!(step.action, Action::Rest { .. }));
                let into = into_rest.first().map_or(Duration::ZERO, |into| into.value);
                rest.map(|rest| (numbers[rest], Duration::ZERO - into))
            }
            _ => None,
        };
        let aside = beside(&step.action);
        all.push(Piece {
            number,
            of: of.to_owned(),
            manner: manner(&step.action),
            after: if aside { Vec::new() } else { after.clone() },
            before,
            length: length(number).unwrap_or_else(|| written(&step.action)),
            oven: oven(&step.action),
            follows_on: follows_on(&step.action),
        });
        if !aside {
            after = vec![number];
        }
    }
    after
}

const fn beside(action: &Action) -> bool {
    matches!(
        action,
        Action::Ready { .. } | Action::Preheat { .. } | Action::Fold { .. }
    )
}

fn follows_on(action: &Action) -> bool {
    match action {
        Action::Rest { .. } | Action::Cool { .. } => true,
        other => manner(other) == Manner::Hands,
    }
}

fn manner(action: &Action) -> Manner {
    match action {
        _ if beside(action) => Manner::Beside,
        Action::Wake { .. } | Action::Rest { .. } | Action::Bake { .. } | Action::Cool { .. } => {
            Manner::Waits
        }
        Action::Mix { by, .. } if by.value == Tool::Mixer => Manner::Waits,
        _ => Manner::Hands,
    }
}

fn oven(action: &Action) -> Option<(Temperature, Option<String>)> {
    match action {
        Action::Bake { phases, rack, .. } => Some((
            phases.first()?.at.value,
            rack.as_ref().map(|rack| rack.value.clone()),
        )),
        _ => None,
    }
}

/// The length of a step as it is written.
pub fn written(action: &Action) -> Length {
    let timing = match action {
        Action::Mix { phases, .. } => {
            return summed(phases.iter().map(|phase| &phase.timing));
        }
        Action::Bake { phases, .. } => {
            return summed(phases.iter().map(|phase| &phase.timing));
        }
        Action::Ready { timing, .. }
        | Action::Wake { timing, .. }
        | Action::Heat { timing, .. }
        | Action::Rest { timing, .. }
        | Action::Fold { timing, .. }
        | Action::Divide { timing, .. }
        | Action::Shape { timing }
        | Action::Finish { timing }
        | Action::Preheat { timing, .. }
        | Action::Cool { timing, .. } => timing,
    };
    summed(std::iter::once(timing))
}

fn summed<'a>(timings: impl Iterator<Item = &'a recipe::document::model::Timing>) -> Length {
    let mut usual = Duration::ZERO;
    let mut range = Range {
        low: Duration::ZERO,
        high: Duration::ZERO,
    };
    let mut ranged = false;
    for timing in timings {
        let own = timing.usual.value;
        usual += own;
        ranged |= timing.range.is_some();
        let ends = timing.range.as_ref().map_or(
            Range {
                low: own,
                high: own,
            },
            |range| range.value,
        );
        range.low += ends.low;
        range.high += ends.high;
    }
    Length {
        usual,
        range: ranged.then_some(range),
    }
}

/// The steps of a recipe with the stage or product of each, in the order in which a page numbers them.
pub fn steps(recipe: &Recipe) -> impl Iterator<Item = &Step> {
    let of_stages = recipe.stages.iter().flat_map(|stage: &Stage| &stage.steps);
    of_stages.chain(
        recipe
            .products
            .iter()
            .flat_map(|product: &Product| &product.steps),
    )
}

/// What a thermometer is expected to read in a step, so many minutes into it: the middle of what bakes or
/// cools, the mean of a dough that stands.
pub fn reads(
    recipe: &Recipe,
    course: &Course,
    number: usize,
    into: Duration,
) -> Option<Temperature> {
    let step = steps(recipe).nth(number.checked_sub(1)?)?;
    let goes = course.steps.iter().find(|goes| goes.number == number)?;
    let hot = matches!(step.action, Action::Bake { .. } | Action::Cool { .. });
    let at = goes.begins + into;
    let own = course.doughs.iter().find(|dough| dough.of == goes.of);
    let moments = own.into_iter().flat_map(|dough| &dough.moments);
    let moment = moments
        .filter(|moment| moment.step == number)
        .min_by(|a, b| (a.at - at).abs().order((b.at - at).abs()));
    let read = moment.map(|moment| if hot { moment.middle } else { moment.mean });
    read.or(goes.dough)
}
