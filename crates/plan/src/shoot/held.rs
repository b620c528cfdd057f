//! What a hold does to the rise after it: shaped dough that comes from the refrigerator rises longer, so it
//! comes out sooner.
//!
//! The kitchen is asked twice for the last rise, after shaping and after the hold; the author's minutes, or
//! the reckoned ones, are lengthened in that proportion. What the hold is shorter by then changes the rise a
//! little again: it is asked until both stay as they are.

use super::batch::Need;
use super::holds::Place;
use super::model::{Batch, FilmDay};
use super::process::{Doing, Process, Run};
use bake::kitchen::Kitchen;
use bake::simulate::{Follows, Grid, How, Through, simulate};
use numerics::quantity::Duration;
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

/// A rise that a hold makes longer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Slowed {
    /// The batch, by its place.
    pub batch: usize,
    /// The state that waits in the cold: "loaf shaped".
    pub state: String,
    /// Minutes of the rise where nothing is held.
    pub usual_min: i64,
    /// Minutes that it takes after the hold.
    pub takes_min: i64,
    /// Minutes in the refrigerator as first planned.
    pub held_min: i64,
    /// Whether the plan takes it out so much sooner; otherwise the hold is too short for that.
    pub planned: bool,
}

/// So often a rise is asked anew because the hold before it became shorter.
const ROUNDS: usize = 4;

/// Takes doughs out of the refrigerator as much sooner as their rise takes longer.
pub fn held(recipe: &Recipe, asked: &Asked<'_>, day: &mut FilmDay) -> Vec<Slowed> {
    let mut all = Vec::new();
    for nth in 0..day.batches.len() {
        let mut batch = day.batches[nth].clone();
        let mut process = day.processes[batch.process].clone();
        let before = all.len();
        for run in 0..process.runs.len() {
            let slowed = slow(
                recipe,
                asked,
                nth,
                &day.needs,
                &mut batch,
                &mut process,
                run,
            );
            if let Some(slowed) = slowed {
                all.push(slowed);
            }
        }
        if all[before..].iter().any(|slowed| slowed.planned) {
            batch.process = day.processes.len();
            day.processes.push(process);
            day.batches[nth] = batch;
        }
    }
    all
}

/// Lengthens one rise, if its dough comes from the cold.
fn slow(
    recipe: &Recipe,
    asked: &Asked<'_>,
    nth: usize,
    needs: &[Need],
    batch: &mut Batch,
    process: &mut Process,
    run: usize,
) -> Option<Slowed> {
    let Run { from, to, step, .. } = process.runs[run];
    let warm = matches!(process.runs[run].what, Doing::Stands { cold: false, .. });
    let product = process.points[to].product?;
    let last = process.points[to].state == "proofed";
    if !warm || !last || !batch.followed[to] {
        return None;
    }
    let stay = batch.stays[from];
    if stay.place(&process.points[from]) != Place::Refrigerator {
        return None;
    }
    let usual = process.runs[run].takes_min;
    let held = stay.leaves_min - stay.arrives_min;
    let plain = rise(recipe, asked, product, step, 0)?;
    let after = |minutes: i64| -> Option<i64> {
        let cold = rise(recipe, asked, product, step, minutes)?;
        let longer = (cold / plain).max(1.0) * minutes_of(usual);
        #[expect(clippy::cast_possible_truncation, reason = "a rise of hours")]
        let whole = (longer - 1e-6).ceil() as i64;
        Some(whole)
    };
    let mut takes = after(held)?;
    for _ in 0..ROUNDS {
        let next = after((held - (takes - usual)).max(0))?;
        if next == takes {
            break;
        }
        takes = next;
    }
    let sooner = takes - usual;
    if sooner <= 0 {
        return None;
    }
    // A scene that looks at it in the cold keeps it there.
    let leaves = stay.leaves_min - sooner;
    let mut scenes = batch.serves.iter().map(|need| &needs[*need]);
    let kept = scenes
        .any(|need| need.point == from && (need.works || leaves < need.at_min + need.held_min));
    let planned = sooner <= held && !kept;
    if planned {
        process.runs[run].takes_min = takes;
        batch.stays[from].leaves_min -= sooner;
        batch.stays[from].latest_min -= sooner;
    }
    Some(Slowed {
        batch: nth,
        state: process.points[from].name(),
        usual_min: usual,
        takes_min: takes,
        held_min: held,
        planned,
    })
}

fn minutes_of(whole: i64) -> f64 {
    whole as f64
}

/// Minutes until the sign of a product's last rise, by the number of its step, after so many minutes in the
/// refrigerator.
fn rise(
    recipe: &Recipe,
    asked: &Asked<'_>,
    product: usize,
    step: usize,
    cold_min: i64,
) -> Option<f64> {
    let stages: usize = recipe.stages.iter().map(|stage| stage.steps.len()).sum();
    let before: usize = recipe.products[..product]
        .iter()
        .map(|product| product.steps.len())
        .sum();
    let place = step.checked_sub(1 + stages + before)?;
    let mut alone = recipe.clone();
    let mut own = recipe.products[product].clone();
    let mut number = 1 + stages + place;
    if cold_min > 0 {
        let night = in_the_cold(own.steps.get(place)?, cold_min)?;
        own.steps.insert(place, night);
        number += 1;
    }
    alone.products = vec![own];
    let how = How {
        grid: Grid::Coarse,
        through: Through::Rises,
        follows: Follows::Cue,
        ..asked.how
    };
    let course = simulate(&alone, asked.formula, asked.kitchen, &how).output;
    let rise = course.steps.iter().find(|one| one.number == number)?;
    Some(rise.lasts.minutes()).filter(|minutes| *minutes > 0.0)
}

/// The same rest in the refrigerator, by the clock.
fn in_the_cold(rest: &Step, minutes: i64) -> Option<Step> {
    let mut cold = rest.clone();
    let Action::Rest { timing, place, .. } = &mut cold.action else {
        return None;
    };
    *timing = Timing {
        usual: Located::new(
            Duration::from_minutes(minutes_of(minutes)),
            timing.usual.span,
        ),
        range: None,
    };
    place.value = Standing::Refrigerator;
    cold.until = None;
    Some(cold)
}
