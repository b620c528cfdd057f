//! The bake in one possible kitchen, kept as its whole series, so that a reading at any minute is looked up.

use crate::simulate::{Course, Ended, Moment, StepCourse};
use numerics::math::exp;

/// What can be looked up of a dough at a moment of a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// Air around it, °C.
    Air,
    /// Middle, °C.
    Middle,
    /// Mean, °C.
    Mean,
    /// Volume against the step's beginning.
    Grown,
    /// Lightness of the crust, L*.
    Lightness,
    /// Share of the raw mass lost.
    Lost,
}

/// A moment, s from the step's beginning and the six of [`Seen`]; half the bytes of f64 are enough for a look.
type At = [f32; 7];

/// One step of it.
#[derive(Clone, Debug, PartialEq)]
pub struct StepLife {
    /// How long it takes, s.
    pub lasts_s: f64,
    /// A sign ends it.
    pub by_sign: bool,
    /// Temperature of the dough at its end, °C.
    pub ends_celsius: Option<f64>,
    moments: Vec<At>,
}

/// The bake in one possible kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct Life {
    /// How far each unknown strays, against how far it usually does.
    pub scores: Vec<f64>,
    /// Of what was drawn, how much more often it is met than it was drawn, as a logarithm.
    pub log_excess: f64,
    /// Every step, by its place.
    pub steps: Vec<StepLife>,
}

impl Life {
    /// Keeps what is looked up of a bake.
    pub fn of(course: &Course, scores: Vec<f64>, log_excess: f64) -> Self {
        let mut steps: Vec<StepLife> = course.steps.iter().map(step).collect();
        for moment in course.doughs.iter().flat_map(|dough| &dough.moments) {
            let Some(place) = moment.step.checked_sub(1) else {
                continue;
            };
            let (Some(step), Some(written)) = (steps.get_mut(place), course.steps.get(place))
            else {
                continue;
            };
            step.moments.push(at(moment, written.begins.si()));
        }
        for step in &mut steps {
            step.moments
                .sort_by(|one, other| one[0].total_cmp(&other[0]));
            let start = step.moments.first().map_or(1.0, |first| first[4]);
            for moment in &mut step.moments {
                moment[4] /= start.max(0.1);
            }
        }
        Self {
            scores,
            log_excess,
            steps,
        }
    }
}

fn step(step: &StepCourse) -> StepLife {
    StepLife {
        lasts_s: step.lasts.si(),
        by_sign: step.ended != Ended::Clock,
        ends_celsius: step.dough.map(numerics::quantity::Temperature::celsius),
        moments: Vec::new(),
    }
}

#[allow(clippy::cast_possible_truncation)] // seven digits are more than any reading has
fn at(moment: &Moment, begins_s: f64) -> At {
    [
        (moment.at.si() - begins_s) as f32,
        moment.air.celsius() as f32,
        moment.middle.celsius() as f32,
        moment.mean.celsius() as f32,
        moment.volume as f32,
        moment.lightness as f32,
        moment.lost.si() as f32,
    ]
}

impl StepLife {
    /// What it reads so many seconds after its beginning; past its end it goes on as in its last tenth, for at
    /// most half as long again, and its warmth towards that of the air. None where no dough is followed.
    pub fn reads(&self, seen: Seen, after_s: f64) -> Option<f64> {
        let column = 1 + seen as usize;
        let value = |at: usize| f64::from(self.moments[at][column]);
        let time = |at: usize| f64::from(self.moments[at][0]);
        let last = self.moments.len().checked_sub(1)?;
        if after_s <= time(0) || last == 0 {
            return Some(value(0));
        }
        let end = time(last);
        if after_s >= end {
            let back = (0..last)
                .rev()
                .find(|at| end - time(*at) >= 0.1 * end)
                .unwrap_or(0);
            let rate = (value(last) - value(back)) / (end - time(back)).max(1e-6);
            if matches!(seen, Seen::Air | Seen::Middle | Seen::Mean) {
                let air = f64::from(self.moments[last][1]);
                let gap = air - value(last);
                // By Newton's law: as fast as it went last, and slower the less is left.
                return Some(if gap.abs() > 0.05 && rate * gap > 0.0 {
                    air - gap * exp(-rate / gap * (after_s - end))
                } else {
                    value(last)
                });
            }
            return Some(value(last) + rate * (after_s - end).min(0.5 * end));
        }
        let after = self
            .moments
            .partition_point(|at| f64::from(at[0]) <= after_s)
            .min(last);
        let (from, to) = (time(after - 1), time(after));
        let part = (after_s - from) / (to - from).max(1e-6);
        Some(value(after - 1) + (value(after) - value(after - 1)) * part)
    }
}
