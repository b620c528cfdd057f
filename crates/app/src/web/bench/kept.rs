//! What the record holds of a bake, read as what was done, and what a tap does, written as readings.

use crate::world::record::bakes::{Of, Reading};
use bake::simulate::Follows;
use edit::ledger::timetable::Hours;
use edit::ledger::under_way::read_off;
use jiff::Timestamp;
use numerics::quantity::Duration;
use plan::under_way::{Change, Done};
use std::collections::BTreeMap;

/// The unit of a note that says how the bake is followed.
const SETTING: &str = "setting";
/// The unit of a note that says how much longer a step may take.
pub const SECONDS: &str = "s";
/// The unit of a note that says that a bell was stopped.
const BELL: &str = "bell";
/// The mark of what was kept with the beginning.
const BEGINNING: &str = "beginning";

/// Something that was read off, for a list.
#[derive(Clone, Debug, PartialEq)]
pub struct Read {
    /// In which step.
    pub step: Option<usize>,
    /// When, from the beginning of the bake.
    pub at: Duration,
    /// What it is of.
    pub of: Of,
    /// The figure, when it has one.
    pub value: Option<f64>,
    /// "24 °C / 75 °F", "the sign is there", the cook's own words.
    pub words: String,
}

/// A bake so far.
#[derive(Clone, Debug, PartialEq)]
pub struct SoFar {
    /// What was done, by the steps' numbers.
    pub done: BTreeMap<usize, Done>,
    /// What was read off, in order.
    pub read: Vec<Read>,
    /// What ends a step.
    pub follows: Follows,
    /// How hours are written.
    pub hours: Hours,
    /// The last tap, to be taken back: numbers of its readings, and what it was.
    pub last: Option<(Vec<i64>, String)>,
}

/// How long after the beginning.
pub fn since(begun: Timestamp, at: Timestamp) -> Duration {
    Duration::from_si(at.as_millisecond().saturating_sub(begun.as_millisecond()) as f64 / 1000.0)
}

/// Reads what is kept.
pub fn so_far(begun: Timestamp, readings: &[Reading]) -> SoFar {
    let mut so_far = SoFar {
        done: BTreeMap::new(),
        read: Vec::new(),
        follows: Follows::Cue,
        hours: Hours::Of24,
        last: None,
    };
    for reading in readings {
        let step = reading.step.as_deref().and_then(|step| step.parse().ok());
        let at = since(begun, reading.at);
        let unit = reading.unit.as_deref();
        if let (Of::Note, Some(SETTING)) = (reading.of, unit) {
            let words = reading.words.as_deref().unwrap_or_default();
            if words.contains("clock") {
                so_far.follows = Follows::Clock;
            }
            if words.contains("12") {
                so_far.hours = Hours::Of12;
            }
            continue;
        }
        if let Some(step) = step {
            let done: &mut Done = so_far.done.entry(step).or_default();
            match (reading.of, unit) {
                (Of::Begun, _) => done.began = done.began.or(Some(at)),
                (Of::Done, _) => done.ended = done.ended.or(Some(at)),
                (Of::Note, Some(SECONDS)) => {
                    done.longer += Duration::from_si(reading.value.unwrap_or(0.0));
                    done.quiet = false;
                }
                (Of::Note, Some(BELL)) => done.quiet = true,
                _ => {}
            }
        }
        if let Some(words) = words(reading) {
            so_far.read.push(Read {
                step,
                at,
                of: reading.of,
                value: reading.value,
                words,
            });
        }
    }
    so_far.done.retain(|_, done| *done != Done::default());
    so_far.last = last(readings);
    so_far
}

/// What was read off, in words; none for what only keeps the time.
fn words(reading: &Reading) -> Option<String> {
    let own = reading.words.clone().unwrap_or_default();
    match (reading.of, reading.unit.as_deref()) {
        (Of::Begun | Of::Done, _) | (Of::Note, Some(_)) => None,
        (Of::Temperature, _) => reading.value.map(read_off),
        (Of::Seen, _) => Some("the sign is there".to_owned()),
        _ => Some(own).filter(|own| !own.is_empty()),
    }
}

/// The readings of the last tap.
fn last(readings: &[Reading]) -> Option<(Vec<i64>, String)> {
    let mark = |reading: &Reading| {
        let sent = reading.sent.as_deref()?;
        Some(
            sent.rsplit_once('.')
                .map_or(sent, |(mark, _)| mark)
                .to_owned(),
        )
    };
    let newest = readings.last()?;
    let of = mark(newest);
    if of.as_deref() == Some(BEGINNING) {
        return None;
    }
    let all: Vec<&Reading> = match &of {
        Some(_) => readings.iter().filter(|other| mark(other) == of).collect(),
        None => vec![newest],
    };
    let first = all
        .iter()
        .find(|reading| reading.of == Of::Done)
        .or(all.first())?;
    let what = match (first.of, first.unit.as_deref()) {
        (Of::Begun, _) => "begun".to_owned(),
        (Of::Done, _) => "over".to_owned(),
        (Of::Note, Some(SECONDS)) => "more time".to_owned(),
        (Of::Note, Some(BELL)) => "bell stopped".to_owned(),
        _ => words(first).unwrap_or_else(|| "note".to_owned()),
    };
    Some((all.iter().map(|reading| reading.number).collect(), what))
}

/// How the bake is followed, as it is kept with its beginning.
pub fn setting(follows: Follows, hours: Hours, at: Timestamp) -> Reading {
    let by = if follows == Follows::Clock {
        "clock"
    } else {
        "sign"
    };
    let hours = if hours == Hours::Of12 { "12" } else { "24" };
    Reading {
        words: Some(format!("{by} {hours}")),
        unit: Some(SETTING.to_owned()),
        sent: Some(format!("{BEGINNING}.0")),
        ..plain(None, Of::Note, at)
    }
}

/// What a tap changed, as readings.
pub fn changes(changes: &[Change], mark: &str, at: Timestamp) -> Vec<Reading> {
    changes
        .iter()
        .enumerate()
        .map(|(index, change)| {
            let mut reading = match change {
                Change::Began(step) => plain(Some(*step), Of::Begun, at),
                Change::Ended(step) => plain(Some(*step), Of::Done, at),
                Change::Longer(step, more) => Reading {
                    value: Some(more.si()),
                    unit: Some(SECONDS.to_owned()),
                    ..plain(Some(*step), Of::Note, at)
                },
                Change::Quiet(step) => Reading {
                    unit: Some(BELL.to_owned()),
                    ..plain(Some(*step), Of::Note, at)
                },
            };
            reading.sent = Some(format!("{mark}.{index}"));
            reading
        })
        .collect()
}

/// A thermometer that was read.
pub fn temperature(step: usize, celsius: f64, mark: &str, at: Timestamp) -> Reading {
    Reading {
        value: Some(celsius),
        unit: Some("°C".to_owned()),
        sent: Some(format!("{mark}.0")),
        ..plain(Some(step), Of::Temperature, at)
    }
}

/// A sign that was seen.
pub fn seen(step: usize, mark: &str, at: Timestamp) -> Reading {
    Reading {
        sent: Some(format!("{mark}.0")),
        ..plain(Some(step), Of::Seen, at)
    }
}

/// The cook's own words.
pub fn note(step: usize, words: &str, mark: &str, at: Timestamp) -> Reading {
    Reading {
        words: Some(words.to_owned()),
        sent: Some(format!("{mark}.0")),
        ..plain(Some(step), Of::Note, at)
    }
}

fn plain(step: Option<usize>, of: Of, at: Timestamp) -> Reading {
    Reading {
        number: 0,
        step: step.map(|step| step.to_string()),
        of,
        value: None,
        unit: None,
        words: None,
        at,
        sent: None,
    }
}

#[cfg(test)]
mod tests {
    use super::{SoFar, changes, note, seen, setting, since, so_far, temperature};
    use crate::world::record::bakes::Reading;
    use bake::simulate::Follows;
    use edit::ledger::timetable::Hours;
    use jiff::Timestamp;
    use numerics::quantity::Duration;
    use plan::under_way::Change;

    fn at(minute: i64) -> Timestamp {
        Timestamp::from_second(1_800_000_000 + minute * 60).expect("a moment")
    }

    fn read(rows: Vec<Reading>) -> SoFar {
        let numbered = rows
            .into_iter()
            .zip(1..)
            .map(|(row, number)| Reading { number, ..row });
        so_far(at(0), &numbered.collect::<Vec<_>>())
    }

    #[test]
    fn what_is_written_is_read_again() {
        let mut rows = vec![setting(Follows::Clock, Hours::Of12, at(0))];
        rows.extend(changes(&[Change::Ended(2), Change::Began(3)], "a", at(2)));
        rows.extend(changes(&[Change::Quiet(3)], "b", at(50)));
        let five = Duration::from_minutes(5.0);
        rows.extend(changes(&[Change::Longer(3, five)], "c", at(51)));
        rows.push(temperature(3, 26.0, "d", at(52)));
        rows.push(seen(3, "e", at(53)));
        rows.push(note(3, "bubbles at the rim", "f", at(54)));
        let told = read(rows);
        assert_eq!((told.follows, told.hours), (Follows::Clock, Hours::Of12));
        assert_eq!(told.done[&2].ended, Some(since(at(0), at(2))));
        let rise = told.done[&3];
        assert_eq!(rise.began, Some(since(at(0), at(2))));
        assert_eq!(
            (rise.longer, rise.quiet),
            (five, false),
            "more time wakes the bell"
        );
        let words: Vec<String> = told
            .read
            .iter()
            .map(|read| read.words.replace('\u{a0}', " "))
            .collect();
        assert_eq!(
            words,
            ["26 °C / 79 °F", "the sign is there", "bubbles at the rim"]
        );
        assert_eq!(told.last, Some((vec![8], "bubbles at the rim".to_owned())));
    }

    #[test]
    fn a_tap_is_taken_back_whole_and_the_beginning_never() {
        let mut rows = vec![setting(Follows::Cue, Hours::Of24, at(0))];
        assert_eq!(read(rows.clone()).last, None);
        rows.extend(changes(&[Change::Ended(2), Change::Began(3)], "a", at(2)));
        assert_eq!(read(rows).last, Some((vec![2, 3], "over".to_owned())));
    }
}
