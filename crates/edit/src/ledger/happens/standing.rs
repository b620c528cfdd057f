//! A rise, a rest or a chill as written beside how it goes: time, air, sign, dough.

use super::reckoned::{self, time_differs, warmth_differs};
use super::step::One;
use super::words;
use crate::ledger::model::{Figure, MarginKind};
use crate::ledger::say;
use bake::simulate::{Ended, Happening, around};
use numerics::quantity::{Duration, Range, Temperature};
use recipe::document::model::{Standing, Timing};

/// How it stands with the written sign when the step ends.
enum Sign {
    /// None that can be measured.
    None,
    /// It ends the step.
    Ends,
    /// It is there before the step ends.
    After(Duration),
    /// As a cook would say it, it is there: the figure that is told is the written one.
    Nearly(String, Figure),
    /// Not there: how far it is, and what is wanted.
    NotYet(String, String, Figure),
}

/// Kelvin between middle and outside from which both are told.
const UNEVEN_K: f64 = 4.0;

impl One<'_> {
    /// A dough that stands.
    pub(super) fn stand(
        &mut self,
        timing: &Timing,
        place: Standing,
        at: Temperature,
        takes: &Figure,
    ) {
        let stands = around::air_at(self.inputs.kitchen, place, at);
        let air = self.place.temperature("air", stands);
        let called = words::called(self.step, self.product);
        let there = format!(
            "{} {} {}",
            words::standing(place),
            air.shown,
            words::subject(called)
        );
        let sign = self.sign();
        // A chill that is cold early does no harm: it may stay.
        let early_matters = called != "chill";
        let off = |time: Duration| {
            let range = timing.range.as_ref().map(|range| range.value);
            let longer = time > timing.usual.value;
            (longer || early_matters)
                && time_differs(time, reckoned::Told::Rise, timing.usual.value, range)
        };
        let differs = self.goes.ended != Ended::Clock && off(self.goes.lasts);
        let written = self.says("time").unwrap_or_default();
        let both = |figure: &Figure| vec![air.clone(), figure.clone(), takes.clone()];
        let takes_so_long = &takes.shown;
        match &sign {
            Sign::Ends | Sign::Nearly(..) if differs => {
                let sentence = format!("{there} takes {takes_so_long}, not {written}.");
                self.tell(&sentence, vec![air.clone(), takes.clone()]);
            }
            Sign::After(after) if off(*after) => {
                let after = self.place.time("sign", *after, reckoned::Told::Rise);
                let sentence = format!(
                    "{there} has its sign after {}; {takes_so_long} is too long.",
                    after.shown
                );
                self.tell(&sentence, both(&after));
            }
            Sign::NotYet(is, wanted, figure) if self.goes.ended == Ended::Limit => {
                let sentence = format!(
                    "{there} does not come to its sign: after {takes_so_long} it is {is}, not yet {wanted}. Look for another place for it."
                );
                self.tell(&sentence, both(figure));
            }
            Sign::NotYet(is, wanted, figure) => {
                let sentence = format!(
                    "{there} is not there after {takes_so_long}: it is {is}, not yet {wanted}."
                );
                self.tell(&sentence, both(figure));
            }
            _ => {}
        }
        let says = self.says("time");
        let here = Some((takes.shown.clone(), vec![takes.clone()]));
        self.line(MarginKind::Time, says, here, differs);
        let kind = match place {
            Standing::Refrigerator | Standing::CoolPlace => MarginKind::Cold,
            Standing::WarmPlace => MarginKind::Heat,
            Standing::Room => MarginKind::How,
        };
        let says = self.says("at");
        let apart = warmth_differs(stands, Range { low: at, high: at });
        self.line(kind, says, Some((air.shown.clone(), vec![air])), apart);
        self.signs(&sign);
        self.happenings();
    }

    /// How it stands with the written sign.
    fn sign(&self) -> Sign {
        let Some(until) = self.step.until.as_ref() else {
            return Sign::None;
        };
        let goes = self.goes;
        match (goes.ended, goes.cue_after) {
            (Ended::Cue, _) => return Sign::Ends,
            (_, Some(after)) => return Sign::After(after),
            _ => {}
        }
        if let Some(volume) = &until.volume {
            let is = self.place.times("grown", goes.grown, volume.value);
            let wanted = say::times(volume.value);
            let said = format!("{} its size", is.shown);
            return if is.shown == wanted {
                Sign::Nearly(is.shown.clone(), is)
            } else {
                Sign::NotYet(said, wanted, is)
            };
        }
        if let Some((at, wanted)) = goes.dough.zip(until.dough.as_ref()) {
            let is = self.place.temperature("dough", at);
            let wanted = say::temperature(wanted.value);
            return if is.shown == wanted {
                Sign::Nearly(is.shown.clone(), is)
            } else {
                Sign::NotYet(is.shown.clone(), wanted, is)
            };
        }
        // A piece without a tin has no rim to be held against.
        match (&until.height, self.rim_is_known()) {
            (Some(_), true) => {
                let is = self.place.times("grown", goes.grown, 1.0);
                let said = format!("{} its size", is.shown);
                let wanted = self.says("height").unwrap_or_default();
                Sign::NotYet(said, wanted, is)
            }
            _ => Sign::None,
        }
    }

    fn rim_is_known(&self) -> bool {
        use recipe::document::model::TinSize;
        let tin = self.product.and_then(|product| product.tin.as_ref());
        tin.is_some_and(|tin| !matches!(tin.size.value, TinSize::Tray { .. }))
    }

    /// The written signs of a dough and whether they come; then its temperature.
    fn signs(&mut self, sign: &Sign) {
        let missed = matches!(sign, Sign::NotYet(..));
        for what in ["volume", "height"] {
            let Some(says) = self.says(what) else {
                continue;
            };
            let here = match sign {
                Sign::None => None,
                Sign::Ends => Some(("reached".to_owned(), Vec::new())),
                Sign::After(after) => {
                    let after = self.place.time("sign", *after, reckoned::Told::Rise);
                    Some((format!("reached after {}", after.shown), vec![after]))
                }
                Sign::Nearly(is, figure) => Some((format!("nearly: {is}"), vec![figure.clone()])),
                Sign::NotYet(is, _, figure) => {
                    Some((format!("not yet: {is}"), vec![figure.clone()]))
                }
            };
            self.line(MarginKind::Cue, Some(says), here, missed);
        }
        let says = self.says("dough-until");
        let Some(at) = self.goes.dough else {
            self.line(MarginKind::Heat, says, None, false);
            return;
        };
        let dough = self.place.temperature("dough", at);
        let differs = says.is_some() && missed;
        let here = format!("dough {}", dough.shown);
        self.line(MarginKind::Heat, says, Some((here, vec![dough])), differs);
        self.uneven();
    }

    /// A dough whose outside is colder or warmer than its middle by more than a hand forgives.
    fn uneven(&mut self) {
        let Some(within) = self.goes.within else {
            return;
        };
        if (within.middle - within.outer).si().abs() < UNEVEN_K {
            return;
        }
        let middle = self.place.temperature("middle", within.middle);
        let outer = self.place.temperature("outer", within.outer);
        let here = format!("middle {}, outer 2 cm {}", middle.shown, outer.shown);
        self.line(
            MarginKind::Heat,
            None,
            Some((here, vec![middle, outer])),
            false,
        );
    }

    /// What happens to a dough that stands, besides its rising.
    fn happenings(&mut self) {
        for event in &self.goes.events {
            let (what, said, so) = match event.what {
                Happening::PastItsBest => ("falls", "it begins to fall after", ""),
                Happening::ButterOily => (
                    "oily",
                    "the butter in it turns oily after",
                    ": keep it cooler",
                ),
                Happening::OverTheRim if self.says("height").is_none() => {
                    ("over-the-rim", "it stands over the rim after", "")
                }
                _ => continue,
            };
            let after = self.place.time(what, event.after, reckoned::Told::Rise);
            self.tell(&format!("{said} {}{so}.", after.shown), vec![after]);
        }
    }
}
