//! What a planned day is once it stands: entries with their minutes, and the clock they are read on.
//!
//! A bake day and a filming day both end in these values, and everything that prints a day begins with
//! them. Minutes are elapsed minutes, which a dough counts; the clock on the wall is asked last, so
//! that a night on which it is changed keeps every wait.

use jiff::civil::DateTime;
use jiff::tz::TimeZone;

/// A planned day.
#[derive(Clone, Debug, PartialEq)]
pub struct Timetable {
    /// What the day is called.
    pub title: String,
    /// The clock on the wall at minute 0.
    pub starts: DateTime,
    /// Where that clock hangs; without it no clock is ever changed.
    pub zone: Option<TimeZone>,
    /// What can be occupied, and how many of each there are, in the order of a drawing's rows.
    pub has: Vec<Occupied>,
    /// Everything that is done or waited for, by beginning.
    pub entries: Vec<Entry>,
}

/// One thing that is done, stands, bakes or is filmed.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// What, in a cook's words: "Shape the knots".
    pub words: String,
    /// Whose: "Cardamom milk dough 2", "Cardamom milk dough 2, knots"; empty where it is everybody's.
    pub batch: String,
    /// When it begins, minutes from the table's minute 0; may be before it.
    pub begins_min: i64,
    /// How long it lasts, minutes; 0 is a moment.
    pub lasts_min: i64,
    /// What it keeps busy all that time.
    pub occupies: Vec<Occupied>,
    /// What sort of thing it is.
    pub kind: Kind,
    /// What else to know: the sign to look for, how long it may wait. Empty when there is nothing.
    pub note: String,
    /// Whether a bell should ring when it begins.
    pub alarm: bool,
}

/// What sort of thing an entry is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Something taken out, greased or laid ready beforehand.
    Ready,
    /// Hands at work.
    Work,
    /// A dough that rises, rests or chills.
    Stands,
    /// A dough that could go on and is kept waiting.
    Waits,
    /// The oven heats up or changes its temperature.
    Heats,
    /// Bread in the oven.
    Bakes,
    /// Bread on the rack.
    Cools,
    /// A scene is filmed.
    Scene,
    /// A meal or a break.
    Pause,
    /// A moment to know of: served, slept, call time.
    Mark,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 10] = [
        Self::Ready,
        Self::Work,
        Self::Stands,
        Self::Waits,
        Self::Heats,
        Self::Bakes,
        Self::Cools,
        Self::Scene,
        Self::Pause,
        Self::Mark,
    ];

    /// The word in a table or a file of data.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Ready => "ready",
            Self::Work => "work",
            Self::Stands => "stands",
            Self::Waits => "waits",
            Self::Heats => "oven heats",
            Self::Bakes => "bakes",
            Self::Cools => "cools",
            Self::Scene => "scene",
            Self::Pause => "pause",
            Self::Mark => "mark",
        }
    }
}

/// Something of which there is only so much.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Resource {
    /// A pair of hands.
    Hands,
    /// The mixer's bowl.
    Mixer,
    /// A rack of the oven.
    Oven,
    /// A shelf of the refrigerator.
    Refrigerator,
    /// A place in the warm place.
    WarmPlace,
    /// A tin or tray, by its name.
    Tin(String),
    /// The place where scenes are filmed.
    Scene,
    /// Anything else, by its name.
    Other(String),
}

impl Resource {
    /// The word in a table or a file of data.
    pub fn word(&self) -> &str {
        match self {
            Self::Hands => "hands",
            Self::Mixer => "mixer",
            Self::Oven => "oven",
            Self::Refrigerator => "refrigerator",
            Self::WarmPlace => "warm place",
            Self::Scene => "scene",
            Self::Tin(name) | Self::Other(name) => name,
        }
    }
}

/// So many of something.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Occupied {
    /// Of what.
    pub what: Resource,
    /// How many.
    pub count: u32,
}

impl Occupied {
    /// One of it.
    pub const fn one(what: Resource) -> Self {
        Self { what, count: 1 }
    }
}

impl Entry {
    /// When it ends, minutes from the table's minute 0.
    pub const fn ends_min(&self) -> i64 {
        self.begins_min + self.lasts_min
    }
}

impl Timetable {
    /// What the clock on the wall says so many elapsed minutes after minute 0.
    pub fn clock(&self, minute: i64) -> DateTime {
        clock(self.starts, self.zone.as_ref(), minute)
    }

    /// The last minute of the day.
    pub fn ends_min(&self) -> i64 {
        self.entries.iter().map(Entry::ends_min).max().unwrap_or(0)
    }
}

/// What a clock says so many elapsed minutes after it said `starts`.
///
/// A `starts` that the clock skips is read with the offset before the change, one that it says twice
/// the first time (RFC 5545, 3.3.5, has the same rule). Beyond the year 9999 the clock stops.
pub fn clock(starts: DateTime, zone: Option<&TimeZone>, minute: i64) -> DateTime {
    // Longer than the calendar is, and the addition cannot overflow.
    const FURTHEST: i64 = 20_000 * 366 * 24 * 60;
    let gone = jiff::SignedDuration::from_mins(minute.clamp(-FURTHEST, FURTHEST));
    match zone.and_then(|zone| starts.to_zoned_datetime(zone.clone()).ok()) {
        Some(at) => at.saturating_add(gone).datetime(),
        None => starts.saturating_add(gone),
    }
}

/// Elapsed minutes from one reading of a clock to another, rounded down; the other way of [`clock`].
pub fn minutes_between(from: DateTime, to: DateTime, zone: Option<&TimeZone>) -> i64 {
    let both = zone.and_then(|zone| {
        let from = from.to_zoned_datetime(zone.clone()).ok()?;
        Some((from, to.to_zoned_datetime(zone.clone()).ok()?))
    });
    let gone = match both {
        Some((from, to)) => from.duration_until(&to),
        None => from.duration_until(to),
    };
    gone.as_secs().div_euclid(60)
}

#[cfg(test)]
mod tests {
    use super::{clock, minutes_between};
    use jiff::civil::{DateTime, date};
    use jiff::tz::TimeZone;

    fn oslo() -> TimeZone {
        TimeZone::get("Europe/Oslo").expect("the zones are built in")
    }

    fn at(year: i16, month: i8, day: i8, hour: i8, minute: i8) -> DateTime {
        date(year, month, day).at(hour, minute, 0, 0)
    }

    /// In the European Union clocks go forward at 01:00 UTC on the last Sunday of March and back on
    /// the last Sunday of October (Directive 2000/84/EC): in 2026 on 29 March and 25 October.
    #[test]
    fn a_night_with_a_changed_clock_keeps_its_length() {
        let evening = at(2026, 3, 28, 21, 0);
        assert_eq!(clock(evening, Some(&oslo()), 720), at(2026, 3, 29, 10, 0));
        assert_eq!(clock(evening, None, 720), at(2026, 3, 29, 9, 0));
        let autumn = at(2026, 10, 24, 21, 0);
        assert_eq!(clock(autumn, Some(&oslo()), 720), at(2026, 10, 25, 8, 0));
    }

    #[test]
    fn minutes_are_counted_as_a_dough_counts_them() {
        let zone = oslo();
        let (evening, morning) = (at(2026, 3, 28, 21, 0), at(2026, 3, 29, 9, 0));
        assert_eq!(minutes_between(evening, morning, Some(&zone)), 660);
        assert_eq!(minutes_between(evening, morning, None), 720);
        assert_eq!(minutes_between(morning, evening, Some(&zone)), -660);
    }

    #[test]
    fn the_clock_stops_at_the_calendars_ends() {
        let evening = at(2026, 3, 28, 21, 0);
        assert_eq!(clock(evening, None, i64::MAX).year(), 9999);
        assert_eq!(clock(evening, Some(&oslo()), i64::MIN).year(), -9999);
    }
}
