//! The plan baked in the machine: what each dough does when it waits for as long as it is planned to.

use super::lengths::{Length, minutes, steps};
use super::problem::Gap;
use super::tasks::{About, Batch, Made};
use crate::rise::{Alone, Asked, Wait, after_waits, last_rise};
use crate::timetable::Kind;
use bake::simulate::Follows;
use numerics::quantity::Temperature;
use recipe::document::model::{Action, Standing};

/// A minute or two earlier or later is the same to a dough (ours).
pub(super) const SAME_MIN: i32 = 2;
/// A dough that stays in the cold for less beyond its time is as cold and as old as without (ours).
pub(super) const HELD_MIN: i32 = 15;

/// What the machine says of one load of one product.
#[derive(Clone, Debug, PartialEq)]
pub struct Replayed {
    /// Of which batch.
    pub batch: usize,
    /// Of which product and load.
    pub product: (usize, usize),
    /// Minutes of the last rise as planned, with any wait.
    pub rises: i32,
    /// Minutes after which its sign is reached.
    pub sign: i32,
    /// Minutes that it takes where nothing is held.
    pub usual: i32,
    /// Minutes in the refrigerator before it, beyond those that its steps take there.
    pub held: i32,
    /// Minutes that its dough has stood past its best before it.
    pub stood: i32,
    /// Whether a dough that stood so comes to its sign no more.
    pub never: bool,
    /// It is ended so many minutes before its sign, because nobody could come at it.
    pub cut: i32,
    /// Minutes until its gas begins to leave, when that is before it goes into the oven.
    pub past: Option<i32>,
    /// Times its size at the beginning of the last rise, as it goes into the oven.
    pub grown: f64,
    /// Temperature of the dough then.
    pub dough: Option<Temperature>,
}

impl Replayed {
    /// Whether the plan is good for this bread: risen, and not past its best.
    pub fn holds(&self) -> bool {
        self.rises + SAME_MIN + self.cut >= self.sign && self.past.is_none()
    }

    /// Whether a hold in the cold has made it longer or shorter.
    pub fn changed(&self) -> bool {
        self.held >= HELD_MIN && (self.sign - self.usual).abs() > SAME_MIN
    }
}

/// Bakes every load of every batch as it is planned.
///
/// Where steps end by their sign the last rise is asked for it; otherwise it takes what is written, and what a hold
/// in the cold before it makes of that.
pub fn replay(
    wanted: &super::Asked<'_>,
    batches: &[Batch<'_>],
    usual: &[Vec<Length>],
    made: &Made,
    starts: &[i32],
    dough: Option<Temperature>,
) -> Vec<Replayed> {
    let mut all = Vec::new();
    let loads: Vec<(usize, (usize, usize))> = {
        let mut loads: Vec<_> = made
            .about
            .iter()
            .filter_map(|about| Some((about.batch, about.product?)))
            .collect();
        loads.sort_unstable();
        loads.dedup();
        loads
    };
    for (batch, product) in loads {
        let asked = Asked {
            formula: batches[batch].formula,
            kitchen: wanted.kitchen,
            how: super::how(wanted, &wanted.batches[batch], dough),
        };
        let Some(one) = load(&asked, &batches[batch], batch, product, made, starts) else {
            continue;
        };
        let rise = last_rise(batches[batch].recipe, product.0);
        let usual = rise.map_or(one.sign, |rise| usual[batch][rise].lasts);
        all.push(Replayed {
            usual,
            // The sign is waited for in vain: it is baked when it would be there otherwise.
            sign: if one.never { usual } else { one.sign },
            ..one
        });
    }
    all
}

/// For how long each standing step of a batch stands in a plan, for the sake of one load: by its step.
pub(super) fn stands(
    batch: usize,
    product: (usize, usize),
    made: &Made,
    starts: &[i32],
) -> Vec<(usize, i32)> {
    let mut all = Vec::new();
    for (task, about) in made.about.iter().enumerate() {
        let own = about.batch == batch && about.product.is_none_or(|own| own == product);
        let waits = matches!(about.kind, Kind::Stands | Kind::Cools);
        if !own || !waits {
            continue;
        }
        let next = next(made, task, product, starts);
        let stands = next.map(|gap| starts[gap.to] - starts[task]);
        all.push((about.step, stands.unwrap_or(made.problem.tasks[task].lasts)));
    }
    all
}

/// What follows a standing step: the next of its own line; for a stage's last step the load's first.
fn next<'a>(
    made: &'a Made,
    task: usize,
    product: (usize, usize),
    starts: &[i32],
) -> Option<&'a Gap> {
    let follows = made
        .gaps()
        .filter(|gap| gap.from == task && !made.within(gap));
    follows
        .filter(|gap| made.about[gap.to].product.is_none_or(|own| own == product))
        .min_by_key(|gap| starts[gap.to])
}

/// Minutes that a load's dough stands past its best before one of its steps.
pub(super) fn stood(
    batch: usize,
    product: (usize, usize),
    before: usize,
    made: &Made,
    starts: &[i32],
) -> i32 {
    let of = |about: &About| {
        about.batch == batch
            && about.kind == Kind::Stands
            && about.step < before
            && about.product.is_none_or(|own| own == product)
    };
    let tasks = (0..made.about.len()).filter(|task| of(&made.about[*task]));
    tasks
        .filter_map(|task| next(made, task, product, starts))
        .map(|gap| (starts[gap.to] - starts[gap.from] - gap.best).max(0))
        .sum()
}

fn load(
    asked: &Asked<'_>,
    of: &Batch<'_>,
    batch: usize,
    product: (usize, usize),
    made: &Made,
    starts: &[i32],
) -> Option<Replayed> {
    let recipe = of.recipe;
    let rise = last_rise(recipe, product.0)?;
    let stands = stands(batch, product, made, starts);
    let (_, rises) = *stands.iter().find(|(step, _)| *step == rise)?;
    let rests = |lasts: &dyn Fn(usize, i32) -> i32| -> Vec<Wait> {
        let others = stands.iter().filter(|(step, _)| *step != rise);
        let rest = |&(step, stands): &(usize, i32)| Wait::Rests {
            step,
            minutes: lasts(step, stands).into(),
        };
        others.map(rest).collect()
    };
    let planned = rests(&|_, stands| stands);
    let alone = Alone::new(recipe, product.0, &planned)?;
    let held = held(of, &stands);
    // By the clock a rise takes what is written, and what a hold before it makes of that.
    let written = alone.asked(asked, asked.how.follows)?;
    let stood = stood(batch, product, rise, made, starts);
    let sign = if (held >= HELD_MIN || stood > 0) && asked.how.follows == Follows::Clock {
        let usual = rests(&|step, _| of.lengths[step].lasts);
        let usual_min = minutes(written.lasts).into();
        let takes = after_waits(recipe, asked, product.0, &usual, &planned, usual_min);
        takes.and_then(|takes| i32::try_from(takes).ok())
    } else {
        None
    };
    let ends = alone.stood(asked, rises.into())?;
    Some(Replayed {
        batch,
        product,
        rises,
        sign: sign.unwrap_or_else(|| minutes(written.lasts)),
        usual: 0,
        held,
        stood,
        never: stood > 0 && written.never,
        cut: of.lengths[rise].cut,
        past: ends.past.map(minutes),
        grown: ends.grown,
        dough: ends.dough,
    })
}

/// Minutes in the refrigerator beyond those that steps take there.
pub(super) fn held(of: &Batch<'_>, stands: &[(usize, i32)]) -> i32 {
    stands
        .iter()
        .filter(|(step, _)| in_the_cold(of, *step))
        .map(|(step, stands)| (stands - of.lengths[*step].lasts).max(0))
        .sum()
}

/// Whether a step stands in the refrigerator as it is written.
pub(super) fn in_the_cold(of: &Batch<'_>, step: usize) -> bool {
    matches!(
        steps(of.recipe).nth(step).map(|step| &step.action),
        Some(Action::Rest { place, .. }) if place.value == Standing::Refrigerator
    )
}

/// So many times a rise may become shorter again; after that only longer, so that it comes to an end.
pub(super) const SHORTER: u32 = 3;

/// Minutes as the plan's own waits make them: where a rise takes longer than was reckoned, or shorter because of
/// a hold, its length is corrected. Whether anything was. `usual`: lengths where nothing is held; `round`: how
/// often that was done; without `by_sign` only what a hold changes is.
pub fn correct(
    batches: &mut [Batch<'_>],
    usual: &[Vec<Length>],
    replayed: &[Replayed],
    round: u32,
    by_sign: bool,
) -> bool {
    let mut changed = false;
    for one in replayed {
        let batch = &mut batches[one.batch];
        let Some(at) = last_rise(batch.recipe, one.product.0) else {
            continue;
        };
        let usual = usual[one.batch][at];
        let before = batch.lengths[at];
        let held = one.held >= HELD_MIN || one.stood > 0 || before.lasts != usual.lasts;
        if !by_sign && !held {
            continue;
        }
        // Of several loads the one that rises longest counts.
        let loads = replayed
            .iter()
            .filter(|other| other.batch == one.batch && other.product.0 == one.product.0);
        let sign = loads.map(|load| load.sign).max().unwrap_or(one.sign) - before.cut;
        let mut length = before;
        if held && round <= SHORTER && sign + SAME_MIN < before.lasts {
            length = Length {
                cut: before.cut,
                ..moved(usual, sign)
            };
        } else if !one.holds() {
            // What holds stays as it is, even where the rise could be shorter.
            if sign > before.lasts {
                length = moved(before, sign);
            }
            if let Some(past) = one.past {
                length.best = length.best.min(past).max(length.lasts);
            }
        }
        changed |= length != before;
        batch.lengths[at] = length;
    }
    changed
}

/// A length with its window, so much longer or shorter.
pub(super) fn moved(usual: Length, lasts: i32) -> Length {
    let off = lasts - usual.lasts;
    Length {
        lasts,
        early: (usual.early + off).clamp(0, lasts),
        cut: usual.cut,
        best: (usual.best + off).max(lasts),
        most: (usual.most + off).max(lasts),
        no_sign: usual.no_sign,
    }
}
