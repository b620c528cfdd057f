//! What a dough goes through, as points where it can be filmed and runs of minutes between them.
//!
//! A process is a tree: what is mixed the evening before joins it at its mix, and it parts into products
//! where it is divided. A point has the name of the state that a dough has there ("dough risen", "loaf
//! proofed"); the beginning of work has one of its own ("dough mixing", "loaf shaping").

use super::holds::Place;
use super::walk::build;
use bake::simulate::Course;
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::Recipe;

/// Whose minutes are planned with.
#[derive(Clone, Copy, Debug)]
pub enum Times<'a> {
    /// The author's usual times.
    Written,
    /// What rises, rests, bakes and cooling take in a kitchen, worked out; hands' work as written.
    Reckoned(&'a Course),
}

/// What a dough goes through.
#[derive(Clone, Debug, PartialEq)]
pub struct Process {
    /// The stage whose making it is.
    pub of: String,
    /// Whether it is the dough that products are made of; otherwise something small.
    pub dough: bool,
    /// Points, each after those that it comes from.
    pub points: Vec<Point>,
    /// Runs of minutes from one point to another.
    pub runs: Vec<Run>,
    /// The point at which its own mixing begins.
    pub start: usize,
    /// How long the mixer is taken from there; none when it is mixed by hand or not at all.
    pub mixer_min: Option<i64>,
    /// What goes into it, made before.
    pub feeds: Vec<Process>,
    /// Where it is begun the evening before: what the night asks of it.
    pub night: Option<Night>,
}

/// A stand in the cold that carries a dough over the night before the day. Minutes count from midnight.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Night {
    /// The point that it leaves by midnight, for the cold.
    pub into: usize,
    /// The point from which its work goes on.
    pub until: usize,
    /// Work goes on no sooner than at this minute.
    pub from_min: i64,
}

/// A state and how long it keeps.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// The stage or product.
    pub of: String,
    /// "risen"; empty where there is nothing to film.
    pub state: String,
    /// The work that begins there: "shaping".
    pub begins: Vec<String>,
    /// How long it keeps, minutes.
    pub keeps_min: i64,
    /// Where it keeps.
    pub place: Place,
    /// Whether it is held while it stands before the camera; otherwise it goes on meanwhile.
    pub stands_still: bool,
    /// Which product, by its place in the recipe.
    pub product: Option<usize>,
    /// Minutes from the beginning of its own process.
    pub age_min: i64,
    /// Number on the page of the step that ends there.
    pub step: Option<usize>,
    /// Number of the step that begins there.
    pub next_step: Option<usize>,
}

impl Point {
    /// "loaf proofed".
    pub fn name(&self) -> String {
        format!("{} {}", self.of, self.state)
    }
}

/// From one point to another.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// From.
    pub from: usize,
    /// To.
    pub to: usize,
    /// Minutes.
    pub takes_min: i64,
    /// What goes on.
    pub what: Doing,
    /// Number on the page.
    pub step: usize,
    /// The author's lowest time of a rest, minutes.
    pub least_min: i64,
}

/// What goes on in a run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Doing {
    /// Mixed by the machine.
    Mixes,
    /// Hands at work: the word of it.
    Hands(&'static str),
    /// It stands, in the cold or not.
    Stands {
        /// In the refrigerator.
        cold: bool,
        /// In a warm place.
        warm: bool,
    },
    /// In the oven.
    Bakes {
        /// Dial at the beginning.
        first: Temperature,
        /// Dial at the end.
        last: Temperature,
    },
    /// On the rack.
    Cools,
}

/// Whole minutes, up: nobody looks at a dough in between.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a step takes at most thirty days"
)]
pub fn whole_minutes(lasts: Duration) -> i64 {
    (lasts.minutes() - 1e-6).ceil().clamp(0.0, 1e6) as i64
}

/// Every process of a recipe: first the doughs that products are made of, then what is small.
pub fn processes(recipe: &Recipe, times: Times<'_>, load_min: i64) -> Vec<Process> {
    let mut all = Vec::new();
    let mut inside: Vec<usize> = Vec::new();
    let made_of = |place: usize| {
        let name = &recipe.stages[place].name.value;
        recipe.products.iter().any(|p| p.from.value == *name)
    };
    for place in (0..recipe.stages.len()).filter(|place| made_of(*place)) {
        all.push(build(recipe, times, load_min, place, true, &mut inside));
    }
    for place in 0..recipe.stages.len() {
        if !made_of(place) && !inside.contains(&place) {
            all.push(build(recipe, times, load_min, place, false, &mut inside));
        }
    }
    all
}

/// Number on the page of the first step of a stage, and of a product.
pub(super) fn first_numbers(recipe: &Recipe) -> (Vec<usize>, Vec<usize>) {
    let mut number = 1;
    let mut next = |steps: usize| {
        let first = number;
        number += steps;
        first
    };
    let stages = recipe.stages.iter().map(|s| next(s.steps.len())).collect();
    let products = recipe
        .products
        .iter()
        .map(|p| next(p.steps.len()))
        .collect();
    (stages, products)
}
