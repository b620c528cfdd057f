//! Rests that end a little before their sign, because nobody could come at it for hours.

use super::lengths::{Length, steps};
use super::problem::Gap;
use super::tasks::{Batch, HANDLING_MIN, Made};
use crate::timetable::Kind;
use recipe::document::model::{Action, Standing};

/// One rest that would be over in time for hands if it ended a little sooner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sooner {
    /// Of which batch.
    pub batch: usize,
    /// Which rest, by its place among all steps from 0.
    pub step: usize,
    /// As long as it is then.
    pub length: Length,
}

/// A dough out of the refrigerator that waits past its best for hands, and would not if its rest ended sooner: not
/// before the written early end, and only so much sooner as it takes.
pub fn sooner(batches: &[Batch<'_>], made: &Made, starts: &[i32]) -> Vec<Sooner> {
    let mut all: Vec<Sooner> = Vec::new();
    for gap in &made.problem.gaps {
        let about = &made.about[gap.from];
        let past = starts[gap.to] - starts[gap.from] > gap.best;
        if !past || about.kind != Kind::Stands || made.within(gap) {
            continue;
        }
        let own = &batches[about.batch];
        let cold = steps(own.recipe).nth(about.step).is_some_and(|step| {
            matches!(&step.action, Action::Rest { place, .. } if place.value == Standing::Refrigerator)
        });
        let length = own.lengths[about.step];
        if cold || length.cut > 0 {
            continue;
        }
        let work = work(made, gap.to);
        let shut = made.problem.pools[0].closed.iter();
        let lasts = shut
            .map(|(from, _)| from - work - starts[gap.from])
            .filter(|lasts| (length.early..length.lasts).contains(lasts))
            .max();
        let Some(lasts) = lasts else { continue };
        let one = Sooner {
            batch: about.batch,
            step: about.step,
            length: Length {
                lasts,
                cut: length.lasts - lasts,
                ..length
            },
        };
        match all
            .iter_mut()
            .find(|own| (own.batch, own.step) == (one.batch, one.step))
        {
            Some(own) if own.length.lasts > lasts => *own = one,
            Some(_) => {}
            None => all.push(one),
        }
    }
    all
}

/// Minutes of hands from a task on until something stands again.
fn work(made: &Made, from: usize) -> i32 {
    let mut sum = 0;
    let mut task = from;
    // A dough has no more tasks than there are.
    for _ in 0..made.about.len() {
        match made.about[task].kind {
            Kind::Work => sum += made.problem.tasks[task].lasts,
            Kind::Stands => {
                let put = made.problem.pools[0].uses.iter();
                let put = put.filter(|one| one.task == task);
                return sum + put.map(|one| one.lasts).max().unwrap_or(0);
            }
            _ => return sum + HANDLING_MIN,
        }
        let next = |gap: &&Gap| gap.from == task && !made.within(gap);
        match made.problem.gaps.iter().find(next) {
            Some(gap) => task = gap.to,
            None => return sum,
        }
    }
    sum
}
