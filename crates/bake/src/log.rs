//! A log of bakes held against a recipe: each bake set up in the kitchen of its day, with what was read of it.

use crate::code;
use crate::condition::{By, ByClock, Reading, What, here};
use crate::kitchen::{Kitchen, in_room};
use crate::learn::Noted;
use crate::simulate::Anchored;
use recipe::document::model::{LogBake, LogFile, Logged, Recipe};
use recipe::formula::Formula;
use recipe::source::{Checked, Diagnostic};

/// Sets up the bakes of a log. `known`: whether a bake is in the kitchen's figures already and is left out; `pace`: see
/// [`Here::at_pace`](crate::condition::Here::at_pace); `seed`: which draws.
#[allow(clippy::too_many_arguments)] // what it stands on, each its own
pub fn noted(
    log: &LogFile,
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    anchored: &Anchored,
    known: impl Fn(&LogBake) -> bool,
    pace: impl Fn(usize) -> Option<f64>,
    seed: u64,
) -> Checked<Vec<Noted>> {
    let stages = recipe.stages.iter().map(|stage| stage.steps.len());
    let products = recipe.products.iter().map(|product| product.steps.len());
    let steps: usize = stages.chain(products).sum();
    let mut said = Vec::new();
    let mut all = Vec::new();
    let mut known_already = 0;
    for bake in &log.bakes {
        let mut readings = Vec::new();
        let mut by_clock = Vec::new();
        for one in &bake.readings {
            let number = usize::try_from(one.step.value).unwrap_or(0);
            if number == 0 || number > steps {
                said.push(
                    Diagnostic::at(
                        code::READING_STEP_UNKNOWN,
                        one.step.span,
                        format!("The recipe has no step {}; it has {steps}.", one.step.value),
                    )
                    .hint("Count steps as its page numbers them, from 1."),
                );
                continue;
            }
            let by = if one.dial { By::Dial } else { By::Probe };
            let what = match one.what {
                Logged::Inside(at) => What::Inside(at, by),
                Logged::Air(at) => What::Air(at, by),
                Logged::Grown(times) => What::Grown(times),
                Logged::There => What::Reached,
                Logged::NotYet => What::NotYet,
                Logged::Lost(share) => What::Lost(share),
                Logged::Lasted => {
                    by_clock.push(ByClock {
                        step: number,
                        lasts: one.after,
                    });
                    continue;
                }
            };
            readings.push(Reading {
                step: number,
                after: one.after,
                what,
            });
        }
        if known(bake) {
            known_already += 1;
            continue;
        }
        if readings.is_empty() {
            continue;
        }
        let room = bake.room.as_ref().map(|room| room.value);
        let there = room.map_or_else(|| kitchen.clone(), |room| in_room(kitchen, room));
        let here = here(recipe, formula, &there, anchored, &by_clock, seed).at_pace(&pace);
        all.push(Noted { here, readings });
    }
    if all.is_empty() && said.is_empty() {
        let message = if known_already > 0 {
            "Every bake of this log is in the kitchen\u{2019}s figures already."
        } else {
            "No bake of this log has a reading."
        };
        said.push(
            Diagnostic::whole(code::LOG_TEACHES_NOTHING, message.to_owned())
                .hint("Add a bake with what was read in it: a sign, a thermometer, how far the dough had grown."),
        );
    }
    Checked {
        output: all,
        diagnostics: said,
    }
}
