//! The clock on the wall of the kitchen: moments of a bake as it shows them.

use crate::ledger::timetable::{Hours, clock, day_words};
use jiff::civil::DateTime;
use jiff::tz::TimeZone;
use numerics::decimal::round_to;
use numerics::quantity::{Duration, Range};

/// The clock on the wall of the kitchen.
#[derive(Clone, Debug)]
pub struct Wall {
    /// What it showed when the bake was begun.
    pub begun: DateTime,
    /// Where it hangs.
    pub zone: Option<TimeZone>,
    /// How hours are written.
    pub hours: Hours,
}

impl Wall {
    /// "14:20"; of the day after or before `now`, "06:10 tomorrow", "22:10 yesterday"; else with its day: "Sunday 15 February
    /// 2026, 06:10".
    pub fn says(&self, at: Duration, now: Duration) -> String {
        let moment = |at: Duration| {
            // Whole minutes are in every sense small enough for an i64.
            #[allow(clippy::cast_possible_truncation)]
            let minute = round_to(at.minutes(), 1.0) as i64;
            plan::timetable::clock(self.begun, self.zone.as_ref(), minute)
        };
        let (then, today) = (moment(at), moment(now));
        let time = clock(then, self.hours);
        let (day, today) = (then.date(), today.date());
        if day == today {
            time
        } else if today.tomorrow().ok() == Some(day) {
            format!("{time} tomorrow")
        } else if today.yesterday().ok() == Some(day) {
            format!("{time} yesterday")
        } else {
            format!("{}, {time}", day_words(then))
        }
    }

    /// From and to; a wide band to five minutes of the clock, the early edge down and the late one up.
    pub(super) fn between(&self, band: Range<Duration>, now: Duration) -> (String, String) {
        const WIDE_MINUTES: f64 = 15.0;
        if (band.high - band.low).minutes() < WIDE_MINUTES {
            return (self.says(band.low, now), self.says(band.high, now));
        }
        let past = f64::from(self.begun.minute() % 5) + f64::from(self.begun.second()) / 60.0;
        let fives = |at: Duration, to: fn(f64) -> f64| {
            // What is a full five minutes but for the last digit is that.
            let count = (at.minutes() + past) / 5.0;
            let near = round_to(count, 1.0);
            let count = if (count - near).abs() < 0.02 {
                near
            } else {
                to(count)
            };
            self.says(Duration::from_minutes(5.0 * count - past), now)
        };
        (fives(band.low, f64::floor), fives(band.high, f64::ceil))
    }

    /// The same to five minutes of the clock, as something that is still to come is told.
    pub(super) fn about(&self, at: Duration, now: Duration) -> String {
        let past = f64::from(self.begun.minute() % 5);
        let fives = Duration::from_minutes(round_to(at.minutes() + past, 5.0) - past);
        self.says(fives, now)
    }
}
