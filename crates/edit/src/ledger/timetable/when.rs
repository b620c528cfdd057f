//! On which day a clock time is, and whether a day is long past.

use super::{Hours, clock, day_words};
use jiff::civil::{Date, DateTime};

/// A day is long past when more days than this lie between it and today (ours).
const LONG_PAST_DAYS: i32 = 2;

/// How a clock time names its day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Days {
    /// Not at all: everything is on one day.
    One,
    /// By the weekday: "Sun 16:00".
    Week,
    /// By weekday and date, as a weekday comes twice: "Sun 6 Dec 16:00".
    More,
}

impl Days {
    /// What tells all these days apart.
    pub fn of(dates: impl IntoIterator<Item = Date>) -> Self {
        let mut ends: Option<(Date, Date)> = None;
        for date in dates {
            ends = Some(ends.map_or((date, date), |(first, last)| {
                (first.min(date), last.max(date))
            }));
        }
        match ends.map(|(first, last)| days_between(first, last)) {
            None | Some(0) => Self::One,
            Some(1..=6) => Self::Week,
            Some(_) => Self::More,
        }
    }

    /// "16:00", "Sun 16:00" or "Sun 6 Dec 16:00".
    pub fn clock(self, at: DateTime, hours: Hours) -> String {
        let time = clock(at, hours);
        match self {
            Self::One => time,
            Self::Week => format!("{} {time}", at.strftime("%a")),
            Self::More => format!(
                "{} {} {} {time}",
                at.strftime("%a"),
                at.day(),
                at.strftime("%b")
            ),
        }
    }
}

fn days_between(first: Date, last: Date) -> i32 {
    first.until(last).map_or(i32::MAX, |gone| gone.get_days())
}

/// A clock time of a day of its own, with the day where it is another: "16:39", "Fri 16:39".
pub fn on_its_day(at: DateTime, own: Date, hours: Hours) -> String {
    Days::of([at.date(), own]).clock(at, hours)
}

/// What is said of a day that is long past; nothing of one that is to come, or was only just.
pub fn long_past(day: DateTime, today: DateTime) -> Option<String> {
    (day < today && days_between(day.date(), today.date()) > LONG_PAST_DAYS).then(|| {
        format!(
            "{} is past. The day is planned as if it were still to come; if another year or month is meant, write that one.",
            day_words(day)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::{Days, long_past, on_its_day};
    use crate::ledger::timetable::Hours;
    use jiff::civil::date;

    #[test]
    fn a_clock_names_its_day_as_soon_as_there_are_two() {
        let saturday = date(2026, 12, 5);
        let at = saturday.at(22, 5, 0, 0);
        let clock = |dates: &[_]| Days::of(dates.iter().copied()).clock(at, Hours::Of24);
        assert_eq!(clock(&[saturday]), "22:05");
        assert_eq!(clock(&[saturday, date(2026, 12, 6)]), "Sat 22:05");
        assert_eq!(clock(&[saturday, date(2026, 12, 11)]), "Sat 22:05");
        // A week later it is Saturday again.
        assert_eq!(clock(&[saturday, date(2026, 12, 12)]), "Sat 5 Dec 22:05");
        assert_eq!(on_its_day(at, saturday, Hours::Of24), "22:05");
        let sunday = date(2026, 12, 6);
        assert_eq!(on_its_day(at, sunday, Hours::Of12), "Sat 10:05\u{a0}pm");
    }

    #[test]
    fn a_day_that_is_only_just_over_is_none_that_is_long_past() {
        let today = date(2026, 12, 5).at(8, 0, 0, 0);
        for near in [date(2026, 12, 5), date(2026, 12, 3), date(2027, 12, 5)] {
            assert_eq!(long_past(near.at(7, 0, 0, 0), today), None);
        }
        let said = long_past(date(2020, 12, 5).at(8, 0, 0, 0), today);
        assert!(said.is_some_and(|said| said.starts_with("Saturday 5\u{a0}December 2020 is past")));
    }
}
