//! How finely a reckoned figure is said, and when it differs from what is written by so much that it matters.
//!
//! A rise, a chill or a cooling is told to 5 min, a bake to 1 min, a temperature to a whole degree:
//! finer than that no cook reads a dough, and no reckoning here is right (common practice).

use crate::ledger::model::Figure;
use crate::ledger::{figure, say};
use numerics::decimal::round_to;
use numerics::quantity::{Duration, Mass, Range, Temperature};
use recipe::provenance::{Had, Origin};

/// Where these figures come from.
pub fn origin() -> Origin {
    Origin::new(
        "the recipe followed through this kitchen, docs/happens.md",
        Had::Derived,
    )
}

/// How finely a time is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// To 5 min: what a dough does by itself.
    Rise,
    /// To 1 min: an oven, or a written time.
    Bake,
}

impl Told {
    fn step_minutes(self) -> f64 {
        match self {
            Self::Rise => 5.0,
            Self::Bake => 1.0,
        }
    }

    /// A time as it is told.
    pub fn rounded(self, time: Duration) -> Duration {
        Duration::from_minutes(round_to(time.minutes(), self.step_minutes()))
    }

    /// The same in words: "1 h 20 min", "under 5 min".
    pub fn said(self, time: Duration) -> String {
        let rounded = self.rounded(time);
        if time > Duration::ZERO && rounded <= Duration::ZERO {
            let least = Duration::from_minutes(self.step_minutes());
            return format!("under {}", say::duration(least));
        }
        since(rounded)
    }
}

/// "0 min", "55 min".
fn since(time: Duration) -> String {
    if time <= Duration::ZERO {
        return format!("0{}min", say::NBSP);
    }
    say::duration(time)
}

/// The place of a step's figures: "happens.studio.step.3".
#[derive(Clone, Debug)]
pub struct Place(pub String);

impl Place {
    /// A time, told so finely.
    pub fn time(&self, what: &str, time: Duration, told: Told) -> Figure {
        self.figure(what, time.si(), Duration::SI, told.said(time))
    }

    /// A moment of the day, told to 5 min; "1 h before" for what comes before the day's first step.
    pub fn moment(&self, what: &str, after: Duration) -> Figure {
        let told = Told::Rise.rounded(after);
        let shown = if told < Duration::ZERO {
            format!("{} before", say::duration(Duration::ZERO - told))
        } else {
            since(told)
        };
        self.figure(what, after.si(), Duration::SI, shown)
    }

    /// A temperature.
    pub fn temperature(&self, what: &str, at: Temperature) -> Figure {
        self.figure(what, at.si(), Temperature::SI, say::temperature(at))
    }

    /// A mass.
    pub fn mass(&self, what: &str, mass: Mass) -> Figure {
        self.figure(what, mass.si(), Mass::SI, say::mass(mass))
    }

    /// How many times as large, told as finely as what is wanted.
    pub fn times(&self, what: &str, times: f64, wanted: f64) -> Figure {
        self.figure(what, times, "1", say::times(as_fine(times, wanted)))
    }

    /// Any other.
    pub fn figure(&self, what: &str, value: f64, unit: &'static str, shown: String) -> Figure {
        figure(format!("{}.{what}", self.0), value, unit, shown, origin())
    }
}

/// A multiple rounded to a tenth, or to a twentieth where the wanted one is written in hundredths.
fn as_fine(times: f64, wanted: f64) -> f64 {
    let tenths = (wanted - round_to(wanted, 0.1)).abs() < 1e-6;
    round_to(times, if tenths { 0.1 } else { 0.05 })
}

/// Without a written range, a time matters from so far off the usual one.
const FAR: f64 = 0.2;
/// A dough or a middle that is so much off is told by any home thermometer, K.
const WARMER_K: f64 = 1.0;

/// Whether a time as it is told matters against what is written: outside the written range, or more
/// than a fifth off the usual time and at least one step of its rounding where there is none.
pub fn time_differs(
    time: Duration,
    told: Told,
    usual: Duration,
    range: Option<Range<Duration>>,
) -> bool {
    let time = told.rounded(time);
    if let Some(range) = range {
        return !range.holds(time);
    }
    let off = (time - usual).abs();
    off > usual * FAR && off.minutes() >= told.step_minutes()
}

/// Whether a temperature is outside a range by more than a home thermometer is.
pub fn warmth_differs(at: Temperature, wanted: Range<Temperature>) -> bool {
    (wanted.low - at).si() > WARMER_K || (at - wanted.high).si() > WARMER_K
}

#[cfg(test)]
mod tests {
    use super::{Told, time_differs, warmth_differs};
    use numerics::quantity::{Duration, Range, Temperature};

    fn minutes(minutes: f64) -> Duration {
        Duration::from_minutes(minutes)
    }

    #[test]
    fn a_rise_is_told_to_five_minutes_and_a_bake_to_one() {
        let plain = |text: String| text.replace('\u{a0}', " ");
        assert_eq!(plain(Told::Rise.said(minutes(52.4))), "50 min");
        assert_eq!(plain(Told::Rise.said(minutes(157.6))), "2 h 40 min");
        assert_eq!(plain(Told::Rise.said(minutes(1.2))), "under 5 min");
        assert_eq!(plain(Told::Bake.said(minutes(33.5))), "34 min");
        assert_eq!(plain(Told::Bake.said(minutes(0.2))), "under 1 min");
        assert_eq!(plain(Told::Rise.said(Duration::ZERO)), "0 min");
    }

    #[test]
    fn a_time_matters_outside_the_range_as_it_is_told() {
        let range = Some(Range {
            low: minutes(45.0),
            high: minutes(75.0),
        });
        let differs = |time| time_differs(minutes(time), Told::Rise, minutes(55.0), range);
        // Near misses: 43 is told as 45, 77 as 75.
        assert!(!differs(43.0) && !differs(77.0));
        assert!(differs(42.0) && differs(78.0));
    }

    #[test]
    fn without_a_range_a_fifth_matters() {
        let differs = |time| time_differs(minutes(time), Told::Bake, minutes(10.0), None);
        assert!(!differs(12.0) && differs(13.0) && !differs(8.0) && differs(7.0));
    }

    #[test]
    fn a_degree_is_what_a_thermometer_is_off() {
        let celsius = Temperature::from_celsius;
        let wanted = Range {
            low: celsius(25.0),
            high: celsius(26.0),
        };
        assert!(!warmth_differs(celsius(24.1), wanted) && warmth_differs(celsius(23.9), wanted));
        assert!(!warmth_differs(celsius(26.9), wanted) && warmth_differs(celsius(27.1), wanted));
    }
}
