//! Calendars and captions of any words: what is written is what its format allows, and can be read again.

use edit::ledger::timetable::{Hours, TableLines, table_lines};
use edit::talk::track::{Cue, Kind as TrackKind, Track, read};
use jiff::ToSpan;
use jiff::civil::date;
use jiff::tz::TimeZone;
use plan::timetable::{Entry, Kind, Occupied, Resource, Timetable};
use press::captions::{srt, webvtt};
use press::timetable::{calendar, cells};
use recipe::source::Diagnostic;
use std::time::Duration;

/// Values taken one after another from bytes; when these end, zeros.
struct Bytes<'a>(&'a [u8]);

impl Bytes<'_> {
    fn byte(&mut self) -> u8 {
        let Some((first, rest)) = self.0.split_first() else {
            return 0;
        };
        self.0 = rest;
        *first
    }

    fn number(&mut self) -> i64 {
        i64::from(i16::from_le_bytes([self.byte(), self.byte()]))
    }

    /// Up to 255 bytes, as letters.
    fn words(&mut self) -> String {
        let length = usize::from(self.byte()).min(self.0.len());
        let (words, rest) = self.0.split_at(length);
        self.0 = rest;
        String::from_utf8_lossy(words).into_owned()
    }
}

const ZONES: [&str; 6] = [
    "America/New_York",
    "Europe/Vienna",
    "Pacific/Apia",
    "Australia/Lord_Howe",
    "Africa/Casablanca",
    "UTC",
];

fn timetable(bytes: &mut Bytes<'_>) -> Timetable {
    let minutes = bytes.number() * 30 + bytes.number();
    let starts = date(2026, 3, 28).at(8, 0, 0, 0);
    let starts = starts
        .checked_add(minutes.minutes())
        .expect("within a century");
    let zone = ZONES.get(usize::from(bytes.byte() % 8)).copied();
    let zone = zone.map(|name| TimeZone::get(name).expect("a zone that there is"));
    let title = bytes.words();
    let mut entries = Vec::new();
    while !bytes.0.is_empty() && entries.len() < 40 {
        let kind = Kind::ALL[usize::from(bytes.byte()) % Kind::ALL.len()];
        entries.push(Entry {
            begins_min: bytes.number(),
            lasts_min: i64::from(bytes.byte()) * 5,
            words: bytes.words(),
            batch: bytes.words(),
            note: bytes.words(),
            occupies: vec![Occupied::one(Resource::Other(bytes.words()))],
            kind,
            alarm: kind == Kind::Work,
        });
    }
    entries.sort_by_key(|entry| entry.begins_min);
    Timetable {
        title,
        starts,
        zone,
        has: Vec::new(),
        entries,
    }
}

/// A calendar's text value as its words, by section 3.3.11 of RFC 5545, written anew.
fn unescaped(value: &str) -> String {
    let mut out = String::new();
    let mut signs = value.chars();
    while let Some(sign) = signs.next() {
        match sign {
            '\\' => match signs.next().expect("a sign after the backslash") {
                'n' | 'N' => out.push('\n'),
                other => {
                    assert!(matches!(other, '\\' | ';' | ','), "\\{other} means nothing");
                    out.push(other);
                }
            },
            ';' | ',' => panic!("{sign} stands bare in {value:?}"),
            sign => out.push(sign),
        }
    }
    out
}

fn kept_signs(words: &str) -> String {
    let spaced = words.replace(['\u{a0}', '\u{202f}'], " ");
    spaced
        .chars()
        .filter(|sign| *sign == '\n' || !sign.is_control())
        .collect()
}

/// A calendar of any words is one: lines of 75 octets, nested, with every entry and its words.
pub fn calendars(bytes: &[u8]) {
    let table = timetable(&mut Bytes(bytes));
    for hours in [Hours::Of12, Hours::Of24] {
        let lines = table_lines(&table, hours);
        is_a_calendar(&lines);
        let _ = cells(&lines);
    }
}

fn is_a_calendar(lines: &TableLines) {
    let written = calendar(lines);
    assert!(written.ends_with("\r\n"));
    for line in written.split("\r\n") {
        assert!(line.len() <= 75, "{line:?} has {} octets", line.len());
        assert!(!line.contains(char::is_control), "{line:?}");
    }
    let whole = written.replace("\r\n ", "");
    let mut open = Vec::new();
    let mut summaries = Vec::new();
    for line in whole.split_terminator("\r\n") {
        let (name, value) = line.split_once(':').expect("a name and a value");
        match name {
            "BEGIN" => open.push(value),
            "END" => assert_eq!(open.pop(), Some(value)),
            "SUMMARY" => summaries.push(unescaped(value)),
            "DESCRIPTION" | "NAME" | "CATEGORIES" => {
                unescaped(value);
            }
            _ => assert!(name.chars().all(|sign| sign.is_ascii_uppercase()), "{name}"),
        }
    }
    assert!(open.is_empty());
    assert_eq!(summaries.len(), lines.rows.len());
    for (row, summary) in lines.rows.iter().zip(summaries) {
        assert!(summary.starts_with(&kept_signs(&row.words)), "{summary:?}");
        assert!(summary.contains(&kept_signs(&row.batch)), "{summary:?}");
    }
}

fn letters(words: &str) -> String {
    words
        .chars()
        .filter(|sign| !sign.is_whitespace() && !sign.is_control())
        .collect()
}

/// Captions of any words are written and read again: as many, at the same times, with the same letters.
pub fn captions(bytes: &[u8]) {
    let mut bytes = Bytes(bytes);
    let mut cues = Vec::new();
    let mut at = 0;
    while !bytes.0.is_empty() && cues.len() < 60 {
        let lasts = 1 + u64::from(bytes.byte()) * 17;
        let cue = Cue {
            from: Some(Duration::from_millis(at)),
            to: Some(Duration::from_millis(at + lasts)),
            speaker: Some(bytes.words()).filter(|name| !name.is_empty()),
            text: bytes.words(),
            ..Cue::default()
        };
        at += lasts + u64::from(bytes.byte()) * 251;
        cues.push(cue);
    }
    let track = Track {
        cues,
        ..Track::default()
    };
    let said: Vec<&Cue> = track
        .cues
        .iter()
        .filter(|cue| !letters(&cue.text).is_empty())
        .collect();
    let written = webvtt(&track);
    let heard = read(written.as_bytes());
    let again = heard.output;
    assert_eq!(again.kind, TrackKind::WebVtt);
    // One who says the same line again and again is taken for captions that roll, and it is said.
    let rolls = |said: &[Diagnostic]| said.iter().any(|one| one.code.name == "captions-roll");
    if rolls(&heard.diagnostics) {
        return;
    }
    let pairs = |again: &Track, written: &str| {
        assert_eq!(again.cues.len(), said.len(), "{written:?}");
        for (cue, was) in again.cues.iter().zip(&said) {
            assert_eq!((cue.from, cue.to), (was.from, was.to), "{written:?}");
        }
    };
    pairs(&again, &written);
    for (cue, was) in again.cues.iter().zip(&said) {
        assert_eq!(letters(&cue.text), letters(&was.text), "{written:?}");
    }
    if said.is_empty() {
        return;
    }
    let written = srt(&track);
    let again = read(written.as_bytes()).output;
    assert_eq!(again.kind, TrackKind::SubRip, "{written:?}");
    pairs(&again, &written);
}
