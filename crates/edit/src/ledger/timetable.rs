//! A planned day as it is said: each entry with its clock, its length, its words and its row in a drawing.

mod drawn;
mod when;

use super::model::Figure;
use super::{figure, kebab, say};
use drawn::{axis, lanes};
use jiff::civil::DateTime;
use jiff::tz::TimeZone;
use numerics::quantity::Duration;
use plan::timetable::{Entry, Kind, Resource, Timetable};
use recipe::provenance::{Had, Origin};

pub use drawn::closed;
pub use when::{Days, long_past, on_its_day};

/// How hours are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hours {
    /// "13:05".
    #[default]
    Of24,
    /// "1:05 pm".
    Of12,
}

/// A day in words and strings.
#[derive(Clone, Debug, PartialEq)]
pub struct TableLines {
    /// What the day is called.
    pub title: String,
    /// Short name for files.
    pub slug: String,
    /// "Saturday 14 February 2026, 08:00 to 16:20".
    pub when: String,
    /// Whose clock it is, and what it does in that night if anything.
    pub notes: Vec<String>,
    /// The dates that entries begin on: "Friday 13 February 2026".
    pub dates: Vec<String>,
    /// Every entry, by beginning.
    pub rows: Vec<TableRow>,
    /// Rows of a drawing.
    pub lanes: Vec<Lane>,
    /// The clock along a drawing.
    pub axis: Axis,
    /// Hours in which nobody works, from the first entry to the last.
    pub closed: Vec<Closed>,
    /// Minute 0 on the wall, for a calendar.
    pub stamp: Moment,
}

/// One entry.
#[derive(Clone, Debug, PartialEq)]
pub struct TableRow {
    /// Its number, from 1.
    pub number: usize,
    /// Which of the dates it begins on.
    pub date: usize,
    /// "10:15"; its value is seconds from minute 0.
    pub begins: Figure,
    /// "11:00"; the same.
    pub ends: Figure,
    /// "45 min"; none for a moment.
    pub takes: Option<Figure>,
    /// What.
    pub words: String,
    /// Whose; empty where it is everybody's.
    pub batch: String,
    /// What sort of thing it is.
    pub kind: Kind,
    /// Whether it stands in the refrigerator.
    pub cold: bool,
    /// What it keeps busy: "hands", "oven", "2 × hands".
    pub occupies: Vec<String>,
    /// What else to know; empty when there is nothing.
    pub note: String,
    /// Whether a bell rings when it begins.
    pub alarm: bool,
    /// Minutes from minute 0.
    pub begins_min: i64,
    /// Minutes from minute 0.
    pub ends_min: i64,
    /// When it begins, for a calendar.
    pub begins_at: Moment,
    /// When it ends, for a calendar.
    pub ends_at: Moment,
    /// A name that stays when its time is changed.
    pub uid: String,
}

/// A moment for calendars and tables of data.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Moment {
    /// On the wall, RFC 5545 form 1: "20260214T101500".
    pub local: String,
    /// The same in universal time, form 2: "20260214T091500Z"; none without a zone.
    pub utc: Option<String>,
    /// ISO 8601: "2026-02-14T10:15", with "+01:00" where a zone is known.
    pub iso: String,
}

/// A row of a drawing: entries that do not overlap.
#[derive(Clone, Debug, PartialEq)]
pub struct Lane {
    /// Whose row it is; empty when it goes on from the one above.
    pub name: String,
    /// Places in the list of rows, by beginning.
    pub rows: Vec<usize>,
}

/// Hours in which nobody works.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Closed {
    /// "quiet hours", "break".
    pub word: &'static str,
    /// From, minutes.
    pub from_min: i64,
    /// To, minutes.
    pub to_min: i64,
}

/// The clock along a drawing, with long empty stretches taken out.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// Stretches one after another.
    pub stretches: Vec<Stretch>,
    /// Full hours: minute, "10:00", and the date when it changes there.
    pub ticks: Vec<(i64, String, Option<String>)>,
}

/// A stretch of the day.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// From, minutes.
    pub from_min: i64,
    /// To, minutes.
    pub to_min: i64,
    /// "10 h 30 min" when nothing begins or ends in it and it is drawn short.
    pub cut: Option<String>,
}

/// Says a timetable.
pub fn table_lines(table: &Timetable, hours: Hours) -> TableLines {
    let mut entries: Vec<&Entry> = table.entries.iter().collect();
    entries.sort_by(|a, b| {
        let key = |e: &Entry| (e.begins_min, e.kind, e.ends_min());
        key(a)
            .cmp(&key(b))
            .then_with(|| (&a.batch, &a.words).cmp(&(&b.batch, &b.words)))
    });
    let mut dates: Vec<String> = Vec::new();
    let mut names: Vec<String> = Vec::new();
    let mut rows = Vec::new();
    for (at, entry) in entries.iter().enumerate() {
        let begins = table.clock(entry.begins_min);
        let date = day_words(begins);
        if dates.last() != Some(&date) {
            dates.push(date);
        }
        let name = format!(
            "{}/{}/{}/{}/{}",
            table.title,
            begins_date(table),
            entry.batch,
            entry.words,
            entry.kind.word()
        );
        let again = names.iter().filter(|other| **other == name).count();
        let uid = format!("{:016x}-{again}@everyoven", fingerprint(name.as_bytes()));
        names.push(name);
        rows.push(row(table, hours, at, entry, dates.len() - 1, uid));
    }
    let begins = rows.iter().map(|row| row.begins_min).min().unwrap_or(0);
    let ends = table.ends_min();
    let (from, to) = (table.clock(begins), table.clock(ends));
    let when = if from.date() == to.date() {
        format!(
            "{}, {} to {}",
            day_words(from),
            clock(from, hours),
            clock(to, hours)
        )
    } else {
        format!(
            "{}, {}, to {}, {}",
            day_words(from),
            clock(from, hours),
            day_words(to),
            clock(to, hours)
        )
    };
    TableLines {
        title: table.title.clone(),
        slug: kebab(&table.title).replace('.', "-"),
        when,
        notes: notes(table, begins, ends),
        lanes: lanes(&rows),
        axis: axis(table, hours, &rows),
        closed: Vec::new(),
        stamp: moment(table, 0),
        dates,
        rows,
    }
}

fn row(
    table: &Timetable,
    hours: Hours,
    at: usize,
    entry: &Entry,
    date: usize,
    uid: String,
) -> TableRow {
    let number = at + 1;
    let place = format!("timetable.{number}");
    let said = |what: &str, minutes: i64, shown: String| {
        figure(
            format!("{place}.{what}"),
            Duration::from_minutes(minutes as f64).si(),
            Duration::SI,
            shown,
            Origin::new("the plan of the day", Had::Derived),
        )
    };
    let (from, to) = (entry.begins_min, entry.ends_min());
    let takes = (entry.lasts_min > 0).then(|| {
        let length = Duration::from_minutes(entry.lasts_min as f64);
        said("takes", entry.lasts_min, say::duration(length))
    });
    TableRow {
        number,
        date,
        begins: said("begins", from, clock(table.clock(from), hours)),
        ends: said("ends", to, clock(table.clock(to), hours)),
        takes,
        words: entry.words.clone(),
        batch: entry.batch.clone(),
        kind: entry.kind,
        cold: entry
            .occupies
            .iter()
            .any(|one| one.what == Resource::Refrigerator),
        occupies: entry
            .occupies
            .iter()
            .map(|one| match one.count {
                1 => one.what.word().to_owned(),
                count => format!("{count} × {}", one.what.word()),
            })
            .collect(),
        note: entry.note.clone(),
        alarm: entry.alarm,
        begins_min: from,
        ends_min: to,
        begins_at: moment(table, from),
        ends_at: moment(table, to),
        uid,
    }
}

impl TableRow {
    /// Whether somebody does something then, so that it can be ticked off; a dough that stands does not ask for it.
    pub const fn to_do(&self) -> bool {
        matches!(
            self.kind,
            Kind::Ready | Kind::Work | Kind::Heats | Kind::Bakes | Kind::Cools | Kind::Scene
        )
    }
}

/// "13:05" or "1:05 pm".
pub fn clock(at: DateTime, hours: Hours) -> String {
    let (hour, minute) = (at.hour(), at.minute());
    match hours {
        Hours::Of24 => format!("{hour:02}:{minute:02}"),
        Hours::Of12 => {
            let half = if hour < 12 { "am" } else { "pm" };
            let hour = if hour % 12 == 0 { 12 } else { hour % 12 };
            format!("{hour}:{minute:02}{}{half}", say::NBSP)
        }
    }
}

/// "Saturday 14 February 2026".
pub fn day_words(at: DateTime) -> String {
    use jiff::civil::Weekday;
    let weekday = match at.weekday() {
        Weekday::Monday => "Monday",
        Weekday::Tuesday => "Tuesday",
        Weekday::Wednesday => "Wednesday",
        Weekday::Thursday => "Thursday",
        Weekday::Friday => "Friday",
        Weekday::Saturday => "Saturday",
        Weekday::Sunday => "Sunday",
    };
    format!("{weekday} {}", say::date(at.date()))
}

fn begins_date(table: &Timetable) -> String {
    table.starts.date().to_string()
}

/// Whose clock it is, and by how much it is changed between two minutes.
fn notes(table: &Timetable, begins: i64, ends: i64) -> Vec<String> {
    let mut notes = Vec::new();
    match table.zone.as_ref().and_then(TimeZone::iana_name) {
        Some(name) => notes.push(format!("Clock times are those of {name}.")),
        None => notes.push(
            "Clock times are those of the clock on the wall; no change of clocks is reckoned with."
                .to_owned(),
        ),
    }
    let on_the_wall = table
        .clock(begins)
        .duration_until(table.clock(ends))
        .as_secs();
    let changed = on_the_wall.div_euclid(60) - (ends - begins);
    if changed != 0 {
        let by = say::duration(Duration::from_minutes(changed.abs() as f64));
        let way = if changed > 0 { "forward" } else { "back" };
        notes.push(format!(
            "The clock goes {way} by {by} on these days; every wait keeps its length."
        ));
    }
    notes
}

/// A moment in the forms that calendars read.
fn moment(table: &Timetable, minute: i64) -> Moment {
    let at = table.clock(minute);
    let zoned = table.zone.as_ref().and_then(|zone| {
        let starts = table.starts.to_zoned_datetime(zone.clone()).ok()?;
        Some(starts.saturating_add(jiff::SignedDuration::from_mins(minute)))
    });
    let basic = |at: DateTime| {
        format!(
            "{:04}{:02}{:02}T{:02}{:02}{:02}",
            at.year(),
            at.month(),
            at.day(),
            at.hour(),
            at.minute(),
            at.second()
        )
    };
    let offset = zoned.as_ref().map_or_else(String::new, |zoned| {
        let seconds = zoned.offset().seconds();
        let sign = if seconds < 0 { '-' } else { '+' };
        let minutes = seconds.abs() / 60;
        format!("{sign}{:02}:{:02}", minutes / 60, minutes % 60)
    });
    let utc = zoned.map(|zoned| basic(zoned.with_time_zone(TimeZone::UTC).datetime()) + "Z");
    Moment {
        local: basic(at),
        utc,
        iso: format!("{}T{:02}:{:02}{offset}", at.date(), at.hour(), at.minute()),
    }
}

/// FNV-1a of 64 bits (constants by G. Fowler, L. C. Noll and K.-P. Vo, from memory): a short name for a
/// long one, no secret.
fn fingerprint(bytes: &[u8]) -> u64 {
    let fold = |hash: u64, byte: &u8| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, fold)
}

impl TableLines {
    /// What is not plain in the table, a sentence each, where it stands there.
    pub fn legend(&self) -> Vec<&'static str> {
        let has = |kind: Kind| self.rows.iter().any(|row| row.kind == kind);
        let noted = |words: &str| self.rows.iter().any(|row| row.note.contains(words));
        let alone = |row: &TableRow| row.kind == Kind::Work && row.occupies.is_empty();
        [
            (has(Kind::Ready), "Ready: what is taken out, greased or laid ready beforehand."),
            (has(Kind::Stands), "Stands: a dough that rises, rests or chills by itself; look at its sign."),
            (has(Kind::Waits), "Waits: a dough that could go on and is kept until hands, tins or the oven are free."),
            (noted("may wait"), "May wait: so long at the most before it is past its best."),
            (
                self.rows.iter().any(alone),
                "Work that keeps nothing busy wants hands at its beginning only.",
            ),
        ]
        .into_iter()
        .filter_map(|(stands, words)| stands.then_some(words))
        .collect()
    }

    /// Every figure of it.
    pub fn figures(&self) -> impl Iterator<Item = &Figure> {
        self.rows.iter().flat_map(|row| {
            [Some(&row.begins), Some(&row.ends), row.takes.as_ref()]
                .into_iter()
                .flatten()
        })
    }
}
