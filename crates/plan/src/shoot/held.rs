//! What holds do to the rises after them: a slab, pieces or shaped dough that comes from the refrigerator
//! rises longer, one that has fermented in it for hours may want less.
//!
//! The kitchen is asked for each last rise, and each rest before it that goes by a sign, with every hold before it and
//! without; the author's minutes, or the reckoned ones, are changed in that proportion, and the batch is laid out anew around its scenes and bakes. What
//! the holds are then changes the rise a little again: it is asked until both stay as they are.

use super::batch::{Need, Stay, stays};
use super::hands::wanted_at;
use super::holds::{NOT_MOVED_MIN, Place};
use super::model::{Batch, FilmDay};
use super::process::{Doing, Process, Run};
use super::small::side;

use crate::day::lengths::steps;
use crate::rise::{Asked, Wait, after_waits_at};
use recipe::document::model::Recipe;

/// A rise that holds change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Changed {
    /// The batch, by its place.
    pub batch: usize,
    /// Whose rise: "loaf".
    pub of: String,
    /// Number on the page of a rest before the last rise that goes by a sign; none for the last rise.
    pub rest: Option<usize>,
    /// Minutes of the rise where nothing is held.
    pub usual_min: i64,
    /// Minutes that it takes after the holds.
    pub takes_min: i64,
    /// Minutes in the refrigerator beyond what is written.
    pub held_min: i64,
    /// Whether the plan makes room for it; otherwise scenes and bakes leave none.
    pub planned: bool,
}

/// So often a rise is asked anew because the holds before it changed.
const ROUNDS: usize = 6;
/// A rise that differs by no more is the same, minutes (ours).
const SAME_MIN: i64 = 2;

/// A batch while its rises are asked.
struct Held<'a> {
    recipe: &'a Recipe,
    asked: &'a Asked<'a>,
    needs: &'a [Need],
    batch: &'a Batch,
    /// Its minutes where nothing is held.
    usual: &'a Process,
    /// Its minutes as far as they are known.
    process: Process,
    stays: Vec<Stay>,
}

/// Lays out every batch anew for what its holds do to its rises.
pub fn held(recipe: &Recipe, asked: &Asked<'_>, day: &mut FilmDay) -> Vec<Changed> {
    let mut all = Vec::new();
    for nth in 0..day.batches.len() {
        let batch = &day.batches[nth];
        let usual = &day.processes[batch.process];
        let mut one = Held {
            recipe,
            asked,
            needs: &day.needs,
            batch,
            usual,
            process: usual.clone(),
            stays: batch.stays.clone(),
        };
        let changed = one.changed(nth);
        let (process, stays) = (one.process, one.stays);
        if process != *usual {
            let mut moved = batch.clone();
            moved.stays = stays;
            moved.process = day.processes.len();
            let sides = day.processes.iter().filter(|process| !process.dough);
            moved.sides = sides
                .filter_map(|other| side(other, wanted_at(recipe, &process, &moved, other)?))
                .collect();
            day.processes.push(process);
            day.batches[nth] = moved;
        }
        all.extend(changed);
    }
    all
}

impl Held<'_> {
    /// Changes every rise that wants it, and says which.
    fn changed(&mut self, nth: usize) -> Vec<Changed> {
        let rises: Vec<usize> = (0..self.usual.runs.len())
            .filter(|run| self.is_last_rise(*run) || self.by_a_sign(*run))
            .collect();
        for _ in 0..ROUNDS {
            let before = self.process.clone();
            for run in &rises {
                let Some(takes) = self.takes(*run) else {
                    continue;
                };
                if takes != self.process.runs[*run].takes_min {
                    self.make_room(*run, takes);
                }
            }
            if self.process == before {
                break;
            }
        }
        rises
            .into_iter()
            .filter_map(|run| {
                let usual_min = self.usual.runs[run].takes_min;
                let there = self.process.runs[run].takes_min;
                // The plan as it stands is asked once more.
                let takes = self.takes(run)?;
                let planned = (takes - there).abs() <= SAME_MIN;
                let takes_min = if planned { there } else { takes };
                (takes_min != usual_min).then(|| Changed {
                    batch: nth,
                    of: self.process.points[self.process.runs[run].to].of.clone(),
                    rest: (!self.is_last_rise(run)).then_some(self.process.runs[run].step),
                    usual_min,
                    takes_min,
                    held_min: self.in_the_cold(run),
                    planned,
                })
            })
            .collect()
    }

    fn is_last_rise(&self, run: usize) -> bool {
        let Run { to, what, .. } = self.usual.runs[run];
        let point = &self.usual.points[to];
        let warm = matches!(what, Doing::Stands { cold: false, .. });
        warm && point.product.is_some() && point.state == "proofed" && self.batch.followed[to]
    }

    /// Whether a run is a rest before the last rise that ends by something the machine can measure, in one piece.
    fn by_a_sign(&self, run: usize) -> bool {
        let Run { to, what, step, .. } = self.usual.runs[run];
        let product = |run: &Run| self.usual.points[run.to].product;
        let warm = matches!(what, Doing::Stands { cold: false, .. });
        let written = step
            .checked_sub(1)
            .and_then(|place| steps(self.recipe).nth(place));
        let until = written.and_then(|step| step.until.as_ref());
        let measured = until.is_some_and(|one| one.volume.is_some() || one.dough.is_some());
        let pieces = self
            .usual
            .runs
            .iter()
            .filter(|one| one.step == step && product(one) == product(&self.usual.runs[run]));
        let whole = pieces.count() == 1;
        warm && measured && whole && self.batch.followed[to] && !self.is_last_rise(run)
    }

    /// The product on whose line a run is followed: its own, or the first that is made of the dough.
    fn product(&self, run: usize) -> Option<usize> {
        let own = self.usual.points[self.usual.runs[run].to].product;
        own.or_else(|| {
            let mut products = self.recipe.products.iter();
            products.position(|product| product.from.value == self.usual.of)
        })
    }

    /// The runs from the beginning to the one before a run.
    fn way(&self, run: usize) -> Vec<usize> {
        let mut way = Vec::new();
        let mut at = self.process.runs[run].from;
        while let Some(before) = self.process.runs.iter().position(|one| one.to == at) {
            way.push(before);
            at = self.process.runs[before].from;
        }
        way.reverse();
        way
    }

    fn waits_min(&self, run: usize) -> i64 {
        let stay = self.stays[self.process.runs[run].to];
        stay.leaves_min - stay.arrives_min
    }

    fn place(&self, run: usize) -> Place {
        let to = self.process.runs[run].to;
        self.stays[to].place(&self.process.points[to])
    }

    /// Minutes in the refrigerator before a rise, beyond what is written.
    fn in_the_cold(&self, run: usize) -> i64 {
        let way = self.way(run).into_iter();
        way.filter(|before| self.place(*before) == Place::Refrigerator)
            .map(|before| self.waits_min(before))
            .sum()
    }

    /// How the dough of a rise stands before it: with its holds, or as if there were none.
    fn waits(&self, run: usize, holds: bool) -> Vec<Wait> {
        let mut way = self.way(run);
        way.push(run);
        let mut all: Vec<Wait> = Vec::new();
        for pair in way.windows(2) {
            let (one, next) = (&self.process.runs[pair[0]], &self.process.runs[pair[1]]);
            let minutes = if holds { self.waits_min(pair[0]) } else { 0 };
            let place = self.place(pair[0]);
            let mut besides = minutes;
            if let Doing::Stands { cold, .. } = one.what {
                // It goes on standing where it stood, or is carried into the cold.
                let stays = (place == Place::Refrigerator) == cold;
                let lasts = one.takes_min + if stays { minutes } else { 0 };
                besides -= if stays { minutes } else { 0 };
                let step = one.step - 1;
                match all.last_mut() {
                    // A rest that is cut where the dough is folded is one.
                    Some(Wait::Rests {
                        step: before,
                        minutes,
                    }) if *before == step => *minutes += lasts,
                    _ => all.push(Wait::Rests {
                        step,
                        minutes: lasts,
                    }),
                }
            }
            if besides > 0 && place == Place::Refrigerator {
                all.push(Wait::Held {
                    before: next.step - 1,
                    minutes: besides,
                });
            }
        }
        all
    }

    /// Minutes that a rise takes as the batch is laid out; none where it cannot be asked.
    fn takes(&self, run: usize) -> Option<i64> {
        let step = self.process.runs[run].step.checked_sub(1)?;
        let usual = self.usual.runs[run].takes_min;
        if self.in_the_cold(run) < NOT_MOVED_MIN {
            return Some(usual);
        }
        let takes = after_waits_at(
            self.recipe,
            self.asked,
            (self.product(run)?, step),
            &self.waits(run, false),
            &self.waits(run, true),
            usual,
        )?;
        let same = (takes - usual).abs() <= SAME_MIN;
        Some(if same { usual } else { takes })
    }

    /// Gives a rise so many minutes and lays the batch out around scenes and bakes: first with all other work
    /// where it is, then with the shaping of this product anywhere, then with all work of hands anywhere.
    /// Where none of that can be, all stays as it is.
    fn make_room(&mut self, run: usize, takes: i64) {
        let mut process = self.process.clone();
        process.runs[run].takes_min = takes;
        let product = process.points[process.runs[run].to].product;
        let serves: Vec<&Need> = self
            .batch
            .serves
            .iter()
            .map(|at| &self.needs[*at])
            .collect();
        let fixed = |which: &dyn Fn(&Run) -> bool| -> Vec<(usize, i64)> {
            process
                .runs
                .iter()
                .filter(|one| self.batch.followed[one.to] && which(one))
                .map(|one| (one.from, self.stays[one.from].leaves_min))
                .collect()
        };
        let bakes = |one: &Run| matches!(one.what, Doing::Bakes { .. });
        let hands = |one: &Run| matches!(one.what, Doing::Hands("shape" | "divide"));
        let own = |one: &Run| process.points[one.to].product == product;
        let ways = [
            fixed(&|one| bakes(one) || hands(one)),
            fixed(&|one| bakes(one) || (hands(one) && !own(one))),
            fixed(&bakes),
        ];
        let start_min = self.batch.start_min;
        let found = ways
            .into_iter()
            .find_map(|way| stays(&process, &serves, start_min, &way));
        if let Some(stays) = found {
            self.process = process;
            self.stays = stays;
        }
    }
}
