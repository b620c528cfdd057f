//! A bake and its cooling as written beside how they go in this oven.

use super::reckoned;
use super::step::One;
use crate::ledger::model::{Figure, MarginKind};
use crate::ledger::say;
use bake::physics::boiling;
use bake::simulate::{Ended, Happening, Moment, Shade, around};
use numerics::quantity::{Fraction, Temperature};
use recipe::document::model::{OvenPhase, Timing, Tin};
use recipe::formula::{TinShape, tin_shape};

/// So far under boiling a middle is as hot as it gets, K; as the walk through the bake has it.
const UNDER_BOILING_K: f64 = 2.0;

/// Bread that is so much warmer than wanted is worth a word, K (common practice).
const STILL_WARM_K: f64 = 2.0;

/// Bread so much hotter than wanted at its end waited for its crust, K.
const WAITS_K: f64 = 1.0;

impl One<'_> {
    pub(super) fn bake(
        &mut self,
        phases: &[OvenPhase],
        with_fan: bool,
        core: Option<Temperature>,
        takes: &Figure,
    ) {
        for (at, phase) in phases.iter().enumerate() {
            self.dial(at, phase, with_fan);
            if phases.len() > 1 {
                let says = self.says(&format!("bake-{at}"));
                self.line(MarginKind::Time, says, None, false);
            }
        }
        let written = self.bake_written(phases.len());
        let differs = self.goes.ended != Ended::Clock
            && self.goes.written.is_some_and(|usual| {
                let told = reckoned::Told::Bake;
                reckoned::time_differs(self.goes.lasts, told, usual, self.goes.written_range)
            });
        let here = Some((takes.shown.clone(), vec![takes.clone()]));
        self.line(MarginKind::Time, Some(written.clone()), here, differs);
        self.middle(core, takes, &written, differs);
        self.crust();
        self.lighter();
    }

    /// What the dial says, and how hot it is inside this oven with it.
    fn dial(&mut self, at: usize, phase: &OvenPhase, with_fan: bool) {
        let kitchen = self.inputs.kitchen;
        let dial = around::dial_here(kitchen, phase.at.value, with_fan);
        let inside = dial + kitchen.oven.hotter;
        let says = self.says(&format!("dial-{at}"));
        if inside == phase.at.value {
            self.line(MarginKind::Heat, says, None, false);
            return;
        }
        let fan = match (kitchen.oven.fan, with_fan) {
            (true, false) => ", fan on",
            (false, true) => ", no fan",
            _ => "",
        };
        let inside = self.place.temperature(&format!("inside-{at}"), inside);
        let here = format!("{} inside{fan}", inside.shown);
        self.line(MarginKind::Heat, says, Some((here, vec![inside])), false);
    }

    /// The written minutes of the whole bake.
    fn bake_written(&self, phases: usize) -> String {
        if let (1, Some(says)) = (phases, self.says("bake-0")) {
            return says;
        }
        let usual = self.goes.written.map_or_else(String::new, say::duration);
        match self
            .goes
            .written_range
            .filter(|range| range.low < range.high)
        {
            Some(range) => format!("in all {usual} ({})", say::duration_range(range)),
            None => format!("in all {usual}"),
        }
    }

    /// The middle: when it is done, or how far it is.
    fn middle(&mut self, core: Option<Temperature>, takes: &Figure, written: &str, differs: bool) {
        let says = self.says("core");
        let what = self.goes.of.clone();
        let done = core.map(|core| {
            let boils = boiling::boiling_point(boiling::pressure(self.inputs.kitchen.altitude));
            let most = Temperature::from_si(boils.si() - UNDER_BOILING_K);
            (core, if core.si() > most.si() { most } else { core }, boils)
        });
        if let Some((core, most, boils)) =
            done.filter(|(core, most, _)| core.si() - most.si() > 0.5)
        {
            let boils = self.place.temperature("boils", boils);
            let most = self.place.temperature("done", most);
            let sentence = format!(
                "water boils at {} at this height: the middle is done at {}; it does not come to {}.",
                boils.shown,
                most.shown,
                say::temperature(core)
            );
            self.tell(&sentence, vec![boils, most]);
        }
        let middle = self
            .goes
            .dough
            .map(|at| self.place.temperature("middle", at));
        // Done within, and still in the oven: it waited for its colour.
        let waits = done
            .zip(self.goes.dough)
            .is_some_and(|((_, done, _), at)| (at - done).si() > WAITS_K);
        match (self.goes.ended, &middle, done) {
            (Ended::Cue, _, Some((_, done, _))) if differs && waits => {
                let done = self.place.temperature("done", done);
                let sentence = format!(
                    "in this oven the crust of the {what} has its colour after {}, not {}; the middle is at {} before that.",
                    takes.shown,
                    written.trim_start_matches("in all "),
                    done.shown
                );
                self.tell(&sentence, vec![done, takes.clone()]);
            }
            (Ended::Limit, Some(middle), Some(_)) if waits => {
                let sentence = format!(
                    "in this oven the crust of the {what} does not get its colour: after {} it is paler, and the middle is at {}.",
                    takes.shown, middle.shown
                );
                self.tell(&sentence, vec![middle.clone(), takes.clone()]);
            }
            (Ended::Cue, _, Some((_, done, _))) if differs => {
                let done = self.place.temperature("done", done);
                let sentence = format!(
                    "in this oven the middle of the {what} comes to {} after {}, not {}.",
                    done.shown,
                    takes.shown,
                    written.trim_start_matches("in all ")
                );
                self.tell(&sentence, vec![done, takes.clone()]);
            }
            (Ended::Limit, Some(middle), Some((core, ..))) => {
                let sentence = format!(
                    "in this oven the middle of the {what} does not come to {}: it is at {} after {}.",
                    say::temperature(core),
                    middle.shown,
                    takes.shown
                );
                self.tell(&sentence, vec![middle.clone(), takes.clone()]);
            }
            (Ended::Clock, Some(middle), Some((_, done, _))) if self.goes.cue_after.is_none() => {
                let sentence = format!(
                    "after {} the middle of the {what} is at {}, not {}.",
                    takes.shown,
                    middle.shown,
                    say::temperature(done)
                );
                self.tell(&sentence, vec![middle.clone(), takes.clone()]);
            }
            _ => {}
        }
        let here = middle.map(|middle| (format!("{} at its end", middle.shown), vec![middle]));
        let missed = core.is_some() && self.goes.cue_after.is_none();
        self.line(MarginKind::Heat, says, here, missed);
    }

    /// How dark the crust is at the end; a dark one matters.
    fn crust(&mut self) {
        let mut shades = self
            .goes
            .events
            .iter()
            .filter_map(|event| match event.what {
                Happening::Crust(shade) => Some((event.after, shade)),
                _ => None,
            });
        let Some((after, shade)) = shades.next_back() else {
            let here = ("crust still the colour of dough".to_owned(), Vec::new());
            self.line(MarginKind::Cue, None, Some(here), false);
            return;
        };
        let after = self.place.time("crust", after, reckoned::Told::Bake);
        if shade == Shade::Dark {
            let sentence = format!(
                "the crust of the {} is dark after {}: lay foil over it before.",
                self.goes.of, after.shown
            );
            self.tell(&sentence, vec![after.clone()]);
        }
        let here = format!("crust {} from {} on", shade_word(shade), after.shown);
        let dark = shade == Shade::Dark;
        self.line(MarginKind::Cue, None, Some((here, vec![after])), dark);
    }

    /// What a piece weighs after the bake, its filling counted, which loses nothing here.
    fn lighter(&mut self) {
        let raw = self
            .inputs
            .formula
            .products
            .iter()
            .find(|sum| sum.name == self.goes.of)
            .map(|sum| sum.piece + sum.filling);
        let dough = self
            .course
            .doughs
            .iter()
            .find(|dough| dough.piece && dough.of == self.goes.of);
        let (Some(raw), Some(dough)) = (raw, dough) else {
            return;
        };
        let Some(end) = dough.moments.iter().rfind(|moment| self.is_in(moment)) else {
            return;
        };
        let lost = dough.mass * end.lost.si();
        let after = self.place.mass("after", raw - lost);
        let share = Fraction::from_si(lost / raw);
        let written = self
            .product
            .and_then(|product| product.after_bake.as_ref())
            .map(|after| format!("{} after the bake", say::mass(after.value)));
        let walls = |tin: &Tin| tin_shape(tin) != TinShape::Flat;
        let in_tin = self.product.and_then(|product| product.tin.as_ref());
        let here = if in_tin.is_some_and(walls) {
            let words = format!(
                "at most {} after it: from tins more goes than is reckoned",
                after.shown
            );
            (words, vec![after])
        } else {
            let shown = say::percent_whole(share);
            let lost = self.place.figure("lost", share.si(), "1", shown);
            let words = format!("{} after it, {} lighter", after.shown, lost.shown);
            (words, vec![after, lost])
        };
        self.line(MarginKind::How, written, Some(here), false);
    }

    fn is_in(&self, moment: &Moment) -> bool {
        moment.step == self.goes.number
    }

    /// Cooling by the clock or until the middle that is wanted. To be cool early does no harm.
    pub(super) fn cool(&mut self, timing: &Timing, takes: &Figure) {
        let usual = timing.usual.value;
        let range = timing.range.as_ref().map(|range| range.value);
        let lasts = self.goes.lasts;
        let by_sign = self.goes.ended != Ended::Clock;
        let differs = by_sign
            && lasts > usual
            && reckoned::time_differs(lasts, reckoned::Told::Rise, usual, range);
        let written = self.says("time").unwrap_or_default();
        let here = by_sign.then(|| (takes.shown.clone(), vec![takes.clone()]));
        self.line(MarginKind::Time, Some(written.clone()), here, differs);
        if differs {
            let sentence = format!(
                "on the rack it takes {} until the middle of the {} is there, not {written}.",
                takes.shown, self.goes.of
            );
            self.tell(&sentence, vec![takes.clone()]);
        }
        let says = self.says("core").or_else(|| self.says("dough-until"));
        let until = self.step.until.as_ref();
        let wanted = until
            .and_then(|until| until.core.as_ref().or(until.dough.as_ref()))
            .map(|wanted| wanted.value);
        let Some(at) = self.goes.dough else {
            self.line(MarginKind::Cold, says, None, false);
            return;
        };
        let middle = self.place.temperature("middle", at);
        let warm = wanted.filter(|wanted| (at - *wanted).si() > STILL_WARM_K);
        if let Some(wanted) = warm {
            let sentence = format!(
                "after {} it is still at {} in the middle, not {}: give it longer.",
                takes.shown,
                middle.shown,
                say::temperature(wanted)
            );
            self.tell(&sentence, vec![middle.clone(), takes.clone()]);
        }
        let here = format!("{} in the middle", middle.shown);
        self.line(
            MarginKind::Cold,
            says,
            Some((here, vec![middle])),
            warm.is_some(),
        );
    }
}

/// A word for a shade.
pub const fn shade_word(shade: Shade) -> &'static str {
    match shade {
        Shade::Pale => "pale gold",
        Shade::Golden => "golden",
        Shade::Brown => "brown",
        Shade::Dark => "dark",
    }
}
