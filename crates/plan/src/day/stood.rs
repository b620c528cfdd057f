//! Doughs that stand past their best in a plan: how long, behind now or ahead of it, and what keeps hands away meanwhile.

use super::lengths::steps;
use super::problem::Gap;
use super::replay;
use super::tasks::{Batch, Made, Place};
use crate::timetable::{Kind, clock};
use recipe::document::model::{Action, Standing};

/// A dough that stands past its best.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stood {
    /// Of which batch.
    pub batch: usize,
    /// Of which product and load; none for a stage.
    pub product: Option<(usize, usize)>,
    /// Which rest, in a cook's words: "Rise of the dough".
    pub words: String,
    /// Minutes until its sign, from its beginning.
    pub sign: i32,
    /// Minutes that it stands beyond that.
    pub beyond: i32,
    /// Minutes of those past its best.
    pub past: i32,
    /// Whether all of that is behind now.
    pub behind: bool,
}

/// A dough whose sign comes while nobody is there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Away {
    /// Of which batch.
    pub batch: usize,
    /// Which rest, in a cook's words.
    pub words: String,
    /// The minute of its sign.
    pub sign: i32,
    /// From when to when nobody is there.
    pub shut: (i32, i32),
    /// Whether these are quiet hours, and not a break.
    pub quiet: bool,
    /// Minutes that it stands past its best.
    pub past: i32,
}

/// How long the rests of one bread stand in a plan, with their waits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stands {
    /// Of which batch.
    pub batch: usize,
    /// Of which product.
    pub product: usize,
    /// By its place among all steps from 0, minutes.
    pub rests: Vec<(usize, i32)>,
}

/// Waits of standing doughs past their best: the first of each rest.
fn past<'a>(made: &'a Made, starts: &'a [i32]) -> impl Iterator<Item = &'a Gap> {
    let stands = |gap: &&Gap| made.about[gap.from].kind == Kind::Stands && !made.within(gap);
    let past = |gap: &&Gap| starts[gap.to] - starts[gap.from] > gap.best;
    made.gaps().filter(stands).filter(past)
}

/// Every dough that stands past its best.
pub fn stood(batches: &[Batch<'_>], made: &Made, starts: &[i32]) -> Vec<Stood> {
    let mut all: Vec<(usize, Stood)> = Vec::new();
    for gap in past(made, starts) {
        let about = &made.about[gap.from];
        let stands = starts[gap.to] - starts[gap.from];
        let one = Stood {
            batch: about.batch,
            product: about.product,
            words: about.words.clone(),
            sign: batches[about.batch].lengths[about.step].lasts,
            beyond: stands - gap.least,
            past: stands - gap.best,
            behind: made.behind.contains(gap),
        };
        // What is cut from one dough waits for its own hands each: the longest is told.
        match all.iter_mut().find(|(from, _)| *from == gap.from) {
            Some((_, own)) if own.past < one.past => *own = one,
            Some(_) => {}
            None => all.push((gap.from, one)),
        }
    }
    all.into_iter().map(|(_, one)| one).collect()
}

/// Doughs out of the refrigerator that stand past their best because their sign comes in hours without hands.
pub fn away(place: &Place<'_>, batches: &[Batch<'_>], made: &Made, starts: &[i32]) -> Vec<Away> {
    let mut all: Vec<Away> = Vec::new();
    for gap in past(made, starts).filter(|gap| !made.behind.contains(gap)) {
        let about = &made.about[gap.from];
        let step = steps(batches[about.batch].recipe).nth(about.step);
        let cold = step.is_some_and(|step| {
            matches!(&step.action, Action::Rest { place, .. } if place.value == Standing::Refrigerator)
        });
        let sign = starts[gap.from] + gap.least;
        // The hours end as hands come to it, a little work for others before.
        let shut = made.problem.pools[0].closed.iter().find(|(from, to)| {
            *from <= starts[gap.from] + gap.best + 1 && sign < *to && *to <= starts[gap.to]
        });
        let Some(shut) = shut.filter(|_| !cold) else {
            continue;
        };
        let began = clock(place.starts, place.zone, shut.0.into()).time();
        let one = Away {
            batch: about.batch,
            words: about.words.clone(),
            sign,
            shut: *shut,
            quiet: place.means.quiet.iter().any(|hours| hours.from == began),
            past: starts[gap.to] - starts[gap.from] - gap.best,
        };
        let same = |own: &Away| (own.batch, &own.words) == (one.batch, &one.words);
        if !all.iter().any(same) {
            all.push(one);
        }
    }
    all
}

/// How long every rest of every bread stands; of several loads the first.
pub fn stands(batches: &[Batch<'_>], made: &Made, starts: &[i32]) -> Vec<Stands> {
    let all = batches.iter().enumerate().flat_map(|(batch, own)| {
        (0..own.recipe.products.len()).map(move |product| Stands {
            batch,
            product,
            rests: replay::stands(batch, (product, 0), made, starts),
        })
    });
    all.collect()
}
