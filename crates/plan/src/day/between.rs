//! Rests between the cold and the last rise that go by a sign: how long they take after a hold.

use super::lengths::{Length, minutes, steps};
use super::replay::{
    HELD_MIN, SAME_MIN, SHORTER, held, in_the_cold, moved, stands, stood as past_best,
};
use super::tasks::{Batch, Made};
use crate::rise::{Alone, Asked, Wait, after_waits_at, last_rise};
use bake::simulate::Follows;
use numerics::quantity::Temperature;
use recipe::document::model::{Action, Recipe};

/// What the machine says of a rest after a hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Between {
    /// Of which batch.
    pub batch: usize,
    /// Which rest, by its place among all steps from 0.
    pub step: usize,
    /// Minutes that it stands as planned, with any wait.
    pub stands: i32,
    /// Minutes after which its sign is reached.
    pub sign: i32,
    /// Minutes that it takes where nothing is held.
    pub usual: i32,
    /// Minutes in the refrigerator before it, beyond those that its steps take there.
    pub held: i32,
    /// It is ended so many minutes before its sign, because nobody could come at it.
    pub cut: i32,
}

impl Between {
    /// Whether it has reached its sign when the plan goes on.
    pub const fn holds(&self) -> bool {
        self.stands + SAME_MIN + self.cut >= self.sign
    }

    /// Whether a hold in the cold has made it longer or shorter.
    pub const fn changed(&self) -> bool {
        self.held >= HELD_MIN && (self.sign - self.usual).abs() > SAME_MIN
    }
}

/// Rests of a recipe that end by something the machine can measure, the cold ones and the last rises apart.
fn by_a_sign(of: &Batch<'_>) -> Vec<usize> {
    let recipe: &Recipe = of.recipe;
    let last = |step: usize| {
        (0..recipe.products.len()).any(|product| last_rise(recipe, product) == Some(step))
    };
    let measured = steps(recipe).enumerate().filter(|(_, step)| {
        let until = step.until.as_ref();
        let rests = matches!(step.action, Action::Rest { .. });
        rests && until.is_some_and(|one| one.volume.is_some() || one.dough.is_some())
    });
    measured
        .map(|(place, _)| place)
        .filter(|place| !in_the_cold(of, *place) && !last(*place))
        .collect()
}

/// Asks every such rest that comes after a hold in the cold, or did before.
pub fn between(
    wanted: &super::Asked<'_>,
    batches: &[Batch<'_>],
    usual: &[Vec<Length>],
    made: &Made,
    starts: &[i32],
    dough: Option<Temperature>,
) -> Vec<Between> {
    let mut all: Vec<Between> = Vec::new();
    for (batch, of) in batches.iter().enumerate() {
        let asked = Asked {
            formula: of.formula,
            kitchen: wanted.kitchen,
            how: super::how(wanted, &wanted.batches[batch], dough),
        };
        for step in by_a_sign(of) {
            for product in 0..of.recipe.products.len() {
                let lines = stands(batch, (product, 0), made, starts);
                let Some((_, stood)) = lines.iter().find(|(own, _)| *own == step) else {
                    continue;
                };
                let before: Vec<(usize, i32)> = lines
                    .iter()
                    .copied()
                    .filter(|(own, _)| *own < step)
                    .collect();
                let held = held(of, &before);
                let usual = usual[batch][step].lasts;
                let length = of.lengths[step];
                let past = past_best(batch, (product, 0), step, made, starts);
                if held < HELD_MIN && past == 0 && length.lasts == usual {
                    continue;
                }
                let sign = asked_for(&asked, of, (product, step), &before, usual);
                let Some(sign) = sign else { continue };
                let one = Between {
                    batch,
                    step,
                    stands: *stood,
                    sign,
                    usual,
                    held,
                    cut: length.cut,
                };
                // Of pieces for several breads the slowest counts.
                match all
                    .iter_mut()
                    .find(|own| (own.batch, own.step) == (batch, step))
                {
                    Some(own) if own.sign < sign => *own = one,
                    Some(_) => {}
                    None => all.push(one),
                }
            }
        }
    }
    all
}

/// Minutes of a rest after what stood before it.
fn asked_for(
    asked: &Asked<'_>,
    of: &Batch<'_>,
    (product, step): (usize, usize),
    before: &[(usize, i32)],
    usual: i32,
) -> Option<i32> {
    let rests = |lasts: &dyn Fn(usize, i32) -> i32| -> Vec<Wait> {
        let rest = |&(step, stands): &(usize, i32)| Wait::Rests {
            step,
            minutes: lasts(step, stands).into(),
        };
        before.iter().map(rest).collect()
    };
    let planned = rests(&|_, stands| stands);
    if asked.how.follows == Follows::Cue {
        let rise = Alone::at(of.recipe, product, step, &planned)?.asked(asked, Follows::Cue)?;
        return (!rise.never).then(|| minutes(rise.lasts));
    }
    let without = rests(&|step, _| of.lengths[step].lasts);
    let line = (product, step);
    let takes = after_waits_at(of.recipe, asked, line, &without, &planned, usual.into())?;
    i32::try_from(takes).ok()
}

/// Lengths as holds make them: longer, and for some rounds shorter too. Whether anything was changed.
pub fn correct(
    batches: &mut [Batch<'_>],
    usual: &[Vec<Length>],
    asked: &[Between],
    round: u32,
) -> bool {
    let mut changed = false;
    for one in asked {
        let length = &mut batches[one.batch].lengths[one.step];
        let lasts = one.sign - length.cut;
        let shorter = round <= SHORTER && lasts + SAME_MIN < length.lasts;
        if shorter || !one.holds() {
            let new = Length {
                cut: length.cut,
                ..moved(usual[one.batch][one.step], lasts)
            };
            changed |= new != *length;
            *length = new;
        }
    }
    changed
}
