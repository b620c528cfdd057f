//! What came of a run of kitchens: one row each, in the order of their numbers, put together without loss.

use super::audience::Audience;
use super::cause::{Cause, cause};
use super::departure::{Departure, departure, of};
use super::judge::{Flaw, Limits, breads, flaws, past_lines};
use super::met::Met;
use super::setup::{Setup, how};
use super::variable::Group;
use crate::simulate::{Anchor, Course, Ended, simulate_paced};
use std::ops::Range;

/// What came of one kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its number.
    pub number: u64,
    /// The share at which each variable lies, in the order of [`Variable::ALL`](super::variable::Variable::ALL).
    pub at: Vec<f64>,
    /// What is wrong with each product, as bits of [`Flaw`].
    pub flaws: Vec<u16>,
    /// What each flaw comes from: product, flaw, cause.
    pub causes: Vec<(usize, Flaw, Cause)>,
    /// How long each step took whose reader waited for its sign, s, by its place; not a number where it was not.
    pub took_s: Vec<f64>,
    /// Counts for safety that are past a line that warns, by their places in the setup's list.
    pub past_lines: u32,
    /// The dough of the products after its mix, °C.
    pub dough_celsius: Option<f64>,
    /// Flour taken against flour written.
    pub flour: f64,
    /// Water that the flour feels, share of the flour.
    pub hydration: f64,
    /// Salt, share of the flour.
    pub salt: f64,
}

impl Row {
    /// Whether all of it comes out well.
    pub fn well(&self) -> bool {
        self.flaws.iter().all(|set| *set == 0)
    }
}

/// What came of a run of kitchens.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tally {
    /// A row for each, in order.
    pub rows: Vec<Row>,
}

impl Tally {
    /// The rows of the next kitchens put behind these.
    pub fn merge(&mut self, next: Self) {
        debug_assert!(
            self.rows
                .last()
                .zip(next.rows.first())
                .is_none_or(|(one, other)| one.number < other.number),
            "kitchens are put together in the order of their numbers"
        );
        self.rows.extend(next.rows);
    }
}

/// The day of one departure: the one seam between what is drawn and the simulator. Who has no thermometer and
/// goes by the colour looks for it from the shortest written time on, or from when the recipe says to look.
fn run(setup: &Setup<'_>, departure: &Departure, anchor: Anchor) -> Course {
    let by_colour = !departure.facts.probe;
    let (recipe, formula) = (&departure.recipe, &departure.formula);
    let how = how(setup.grid, anchor, by_colour);
    simulate_paced(recipe, formula, &departure.kitchen, &how, &setup.pace).output
}

/// What came of one departure.
pub fn outcome(
    setup: &Setup<'_>,
    departure: &Departure,
    number: u64,
    anchor: Anchor,
    limits: &Limits,
) -> Row {
    let course = run(setup, departure, anchor);
    let facts = &departure.facts;
    let made = breads(&departure.recipe, &course);
    let mut sets = Vec::with_capacity(made.len());
    let mut causes = Vec::new();
    for (place, bread) in made.iter().enumerate() {
        let set = bread
            .as_ref()
            .map_or(0, |bread| flaws(setup, facts, place, bread, limits));
        for flaw in Flaw::ALL {
            if set & flaw.bit() != 0 {
                causes.push((place, flaw, cause(setup, facts, place, flaw)));
            }
        }
        sets.push(set);
    }
    let first = setup.recipe.products.first();
    let from = first.map_or("", |product| &product.from.value);
    let mixed = course
        .steps
        .iter()
        .filter(|step| step.of.eq_ignore_ascii_case(from));
    Row {
        number,
        at: departure.at.clone(),
        flaws: sets,
        causes,
        took_s: course
            .steps
            .iter()
            .map(|step| match step.ended {
                // What is not reached by the limit took that long at the least.
                Ended::Cue | Ended::Limit => step.lasts.si(),
                Ended::Clock => f64::NAN,
            })
            .collect(),
        past_lines: past_lines(setup, &course),
        dough_celsius: mixed
            .filter_map(|step| step.dough)
            .map(numerics::quantity::Temperature::celsius)
            .next(),
        flour: facts.flour,
        hydration: facts.hydration_of_flour,
        salt: facts.salt_of_flour,
    }
}

/// What comes of the kitchens of some numbers. A kitchen is the same alone and among ten thousand.
pub fn kitchens(setup: &Setup<'_>, audience: &Audience, seed: u64, numbers: Range<u64>) -> Tally {
    anew(setup, audience, seed, numbers, &[])
}

/// The same with some groups drawn a second time.
pub fn anew(
    setup: &Setup<'_>,
    audience: &Audience,
    seed: u64,
    numbers: Range<u64>,
    groups: &[Group],
) -> Tally {
    let rows = numbers
        .map(|number| {
            let departure = departure(setup, audience, seed, number, groups);
            outcome(setup, &departure, number, setup.anchor, &Limits::USUAL)
        })
        .collect();
    Tally { rows }
}

/// What comes of one kitchen that somebody describes.
pub fn one(setup: &Setup<'_>, met: &Met) -> Row {
    outcome(
        setup,
        &of(setup, met),
        met.number,
        setup.anchor,
        &Limits::USUAL,
    )
}
