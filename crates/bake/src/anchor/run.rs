//! A tested bake worked out with some factors, and its figures read off.

use super::figure::What;
use super::tested::Bake;
use crate::simulate::{Course, Follows, How, Moment, Through, simulate};
use recipe::formula::Formula;

/// What each figure of a bake comes to, in the order of its figures; none where the run has no answer.
pub fn worked_out(bake: &Bake, formula: &Formula, how: &How) -> Vec<Option<f64>> {
    let how = How {
        follows: Follows::Cue,
        // Nothing noted is read off the rack, and where no oven was noted, nothing off the oven.
        through: match bake.oven {
            Some(_) => Through::Bakes,
            None => Through::Rises,
        },
        dough: bake.dough,
        ..*how
    };
    let course = simulate(&bake.recipe, formula, &bake.kitchen, &how).output;
    let oven = bake
        .oven
        .map(|(step, seconds)| (Oven::of(&course, step), seconds));
    bake.figures
        .iter()
        .map(|figure| match figure.what {
            What::Rise(step) => course
                .steps
                .iter()
                .find(|one| one.number == step)
                .map(|one| one.cue_after.unwrap_or(one.lasts).si()),
            What::Core(celsius) => oven.as_ref().and_then(|(oven, _)| oven.middle_at(celsius)),
            What::Crust => oven
                .as_ref()
                .and_then(|(oven, after)| oven.at(*after, |moment| moment.lightness)),
            What::Loss => oven
                .as_ref()
                .and_then(|(oven, after)| oven.at(*after, |moment| moment.lost.si())),
            What::Dough => bake.mixed,
        })
        .collect()
}

/// The moments of one bake, s from the moment it went in.
struct Oven<'a> {
    moments: Vec<(f64, &'a Moment)>,
}

impl<'a> Oven<'a> {
    fn of(course: &'a Course, step: usize) -> Self {
        let begins = course
            .steps
            .iter()
            .find(|one| one.number == step)
            .map_or(0.0, |one| one.begins.si());
        let moments = course
            .doughs
            .iter()
            .flat_map(|dough| &dough.moments)
            .filter(|moment| moment.step == step)
            .map(|moment| (moment.at.si() - begins, moment))
            .collect();
        Self { moments }
    }

    /// A reading after so many seconds, between the two moments around it.
    fn at(&self, after_s: f64, of: impl Fn(&Moment) -> f64) -> Option<f64> {
        let pair = self
            .moments
            .windows(2)
            .find(|pair| pair[0].0 <= after_s && after_s <= pair[1].0)?;
        let part = (after_s - pair[0].0) / (pair[1].0 - pair[0].0).max(1e-9);
        let (one, other) = (of(pair[0].1), of(pair[1].1));
        Some(one + (other - one) * part)
    }

    /// When the middle first reads so much, s. When it has not by the end, the last minutes are read on in a
    /// straight line, to four times the time at most.
    fn middle_at(&self, celsius: f64) -> Option<f64> {
        let middle = |at: usize| self.moments[at].1.middle.celsius();
        for at in 1..self.moments.len() {
            let (before, now) = (middle(at - 1), middle(at));
            if now >= celsius {
                let part = ((celsius - before) / (now - before).max(1e-9)).clamp(0.0, 1.0);
                let (from, to) = (self.moments[at - 1].0, self.moments[at].0);
                return Some(from + (to - from) * part);
            }
        }
        let last = self.moments.len().checked_sub(1)?;
        let back = last.checked_sub(3)?;
        let took = self.moments[last].0;
        let rate = (middle(last) - middle(back)) / (took - self.moments[back].0).max(1e-9);
        let more = (celsius - middle(last)) / rate.max(1e-6);
        Some((took + more).min(4.0 * took))
    }
}
