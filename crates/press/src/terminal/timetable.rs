//! A planned day as a terminal shows it: the clock to the left, what keeps what busy to the right.

use super::{COLUMNS, left, right};
use crate::line::plain;
use crate::text::wrap::wrap;
use edit::ledger::timetable::{TableLines, TableRow};

/// Columns of the clock and of the length at the least, and of what stands to the right.
const CLOCK: usize = 8;
const TAKES: usize = 11;
const RIGHT: usize = 19;

/// How wide the columns are in one table.
#[derive(Clone, Copy)]
struct Wide {
    clock: usize,
    takes: usize,
}

/// The day, date by date, 80 columns wide.
pub fn timetable(table: &TableLines) -> String {
    let mut out = wrap(&table.title, COLUMNS);
    out.extend(wrap(&table.when, COLUMNS));
    for note in &table.notes {
        out.extend(wrap(note, COLUMNS));
    }
    if table.rows.iter().any(|row| row.alarm) {
        out.extend(wrap("*: the bell of the calendar rings.", COLUMNS));
    }
    for words in table.legend() {
        out.extend(wrap(words, COLUMNS));
    }
    // "*10:10 am" is wider than "*10:10", and "101 h 10 min" than "1 h 10 min".
    let most = |cell: fn(&TableRow) -> String, least: usize| {
        let wide = table.rows.iter().map(|row| cell(row).chars().count());
        wide.max().unwrap_or(least).max(least)
    };
    let wide = Wide {
        clock: most(clock, CLOCK),
        takes: most(takes, TAKES),
    };
    for (at, date) in table.dates.iter().enumerate() {
        out.push(String::new());
        out.push(date.clone());
        for row in table.rows.iter().filter(|row| row.date == at) {
            rows(row, wide, &mut out);
        }
    }
    plain(&(out.join("\n") + "\n"))
}

/// When it begins, with a mark where an alarm rings.
fn clock(row: &TableRow) -> String {
    let bell = if row.alarm { "*" } else { "" };
    format!("{bell}{}", row.begins.shown)
}

/// How long it takes; nothing of a moment.
fn takes(row: &TableRow) -> String {
    row.takes
        .as_ref()
        .map_or_else(String::new, |takes| takes.shown.clone())
}

fn rows(row: &TableRow, wide: Wide, out: &mut Vec<String>) {
    let room = COLUMNS - wide.clock - wide.takes - RIGHT - 4;
    let mut words = wrap(&row.words, room);
    if !row.batch.is_empty() {
        words.extend(wrap(&row.batch, room));
    }
    if !row.note.is_empty() {
        words.extend(wrap(&row.note, room));
    }
    let mut busy = wrap(row.kind.word(), RIGHT);
    if !row.occupies.is_empty() {
        busy.extend(wrap(&row.occupies.join(", "), RIGHT));
    }
    for at in 0..words.len().max(busy.len()) {
        let empty = String::new();
        let (begins, takes) = if at == 0 {
            (clock(row), takes(row))
        } else {
            (String::new(), String::new())
        };
        let line = format!(
            "{}  {} {} {}",
            right(&begins, wide.clock),
            left(&takes, wide.takes),
            left(words.get(at).unwrap_or(&empty), room),
            busy.get(at).unwrap_or(&empty)
        );
        out.push(line.trim_end().to_owned());
    }
}
