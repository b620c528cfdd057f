//! How much slower a rough section is than a fine one, step by step of the bread that is meant: what a clock needs to know.
//!
//! # Relation
//! p = `t_r` / `t_u`, `t_u` the time that a step of the meant bread takes to its sign on the usual grid and `t_r` the
//! time to the same on the rough one. A step of every kitchen is then followed p seconds of heat and life for each
//! second of its clock.
//!
//! # Symbols
//! p, pace, 1; t, s; the sign: what the step was ended by, its volume, its temperature or its colour as they are at
//! `t_u`, read between the moments of the rough day by straight lines.
//!
//! # Valid for
//! Steps that a sign ends and that take five minutes at the least; p from 0.85 to 1.2. Elsewhere p is 1.
//!
//! # Source
//! Worked out here. Long steps of time and thick cells make a bake late, always by about the same part
//! (`docs/decisions/stepping.md`). Whoever goes by the sign waits for it, and the miss goes out against the meant bread,
//! which waits as well; whoever goes by the written clock does not, and took bread out that was less done than it would be.
//!
//! # Departures
//! The part is that of the meant bread; how it differs in another kitchen is not made good.
//!
//! # Checked by
//! `tests/verification/rough.rs`; the shares on both grids: `docs/kitchens.md`.

use crate::simulate::{Course, Moment, StepCourse};
use recipe::document::model::{Action, Recipe, Step};

/// A step shorter than this tells nothing, s.
const SHORTEST_S: f64 = 300.0;
/// A pace beyond these is no miss of a grid.
const MOST: (f64, f64) = (0.85, 1.2);

/// The pace of every step, in the order of their numbers.
pub fn pace(recipe: &Recipe, rough: &Course, usual: &Course) -> Vec<f64> {
    let stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    let products = recipe.products.iter().flat_map(|product| &product.steps);
    let both = rough.steps.iter().zip(&usual.steps);
    let written = stages.chain(products).zip(both);
    written
        .map(|(step, (here, there))| {
            one(step, (rough, here), (usual, there)).map_or(1.0, |pace| pace.clamp(MOST.0, MOST.1))
        })
        .collect()
}

fn one(step: &Step, rough: (&Course, &StepCourse), usual: (&Course, &StepCourse)) -> Option<f64> {
    rough.1.cue_after?;
    let there_s = usual.1.cue_after?.si();
    if there_s < SHORTEST_S {
        return None;
    }
    let (rough, usual) = (moments(rough), moments(usual));
    let (began, ended) = (usual.first()?, usual.last()?);
    let sign = sign(step, began, ended)?;
    Some(reaches_s(&rough, sign, sign(ended))? / there_s)
}

/// The moments of a step, of whatever body is in it.
fn moments((course, step): (&Course, &StepCourse)) -> Vec<Moment> {
    let bodies = course.doughs.iter();
    bodies
        .filter(|dough| dough.of == step.of)
        .flat_map(|dough| &dough.moments)
        .filter(|moment| moment.step == step.number)
        .copied()
        .collect()
}

/// What a step was ended by: what was reached last of what its sign asks for.
fn sign(step: &Step, began: &Moment, ended: &Moment) -> Option<fn(&Moment) -> f64> {
    let volume: fn(&Moment) -> f64 = |moment| moment.volume;
    let mean: fn(&Moment) -> f64 = |moment| moment.mean.celsius();
    let middle: fn(&Moment) -> f64 = |moment| moment.middle.celsius();
    let lightness: fn(&Moment) -> f64 = |moment| moment.lightness;
    let until = step.until.as_ref()?;
    let found = match &step.action {
        Action::Rest { .. } | Action::Cool { .. } if until.dough.is_some() => mean,
        Action::Rest { .. } => volume,
        Action::Bake { core, .. } => {
            let core = core.as_ref().or(until.core.as_ref());
            // A middle that is well past its mark has waited for the colour.
            match core {
                Some(core) if ended.middle.celsius() < core.value.celsius() + 1.0 => middle,
                _ => lightness,
            }
        }
        _ => return None,
    };
    ((found(ended) - found(began)).abs() > 1e-3).then_some(found)
}

/// When a step reaches a value, s from its beginning: between two moments, or beyond the last two.
fn reaches_s(moments: &[Moment], of: fn(&Moment) -> f64, value: f64) -> Option<f64> {
    let began = moments.first()?;
    let rises = value > of(began);
    let pairs = || moments.windows(2).filter(|pair| pair[1].at > pair[0].at);
    let passes = |pair: &&[Moment]| (of(&pair[1]) >= value) == rises;
    let pair = pairs().find(passes).or_else(|| pairs().next_back())?;
    let (from, to) = (of(&pair[0]), of(&pair[1]));
    let part = (value - from) / (to - from);
    let at = pair[0].at.si() + (pair[1].at.si() - pair[0].at.si()) * part;
    part.is_finite().then_some(at - began.at.si())
}
