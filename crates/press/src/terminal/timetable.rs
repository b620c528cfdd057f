//! A planned day as a terminal shows it: the clock to the left, what keeps what busy to the right.

use super::{COLUMNS, left, right};
use crate::line::plain;
use crate::text::wrap::wrap;
use edit::ledger::timetable::{TableLines, TableRow};

/// Columns of the clock, of the length, and of what stands to the right.
const CLOCK: usize = 8;
const TAKES: usize = 11;
const RIGHT: usize = 19;
const WORDS: usize = COLUMNS - CLOCK - TAKES - RIGHT - 4;

/// The day, date by date, 80 columns wide.
pub fn timetable(table: &TableLines) -> String {
    let mut out = wrap(&table.title, COLUMNS);
    out.extend(wrap(&table.when, COLUMNS));
    for note in &table.notes {
        out.extend(wrap(note, COLUMNS));
    }
    for (at, date) in table.dates.iter().enumerate() {
        out.push(String::new());
        out.push(date.clone());
        for row in table.rows.iter().filter(|row| row.date == at) {
            rows(row, &mut out);
        }
    }
    plain(&(out.join("\n") + "\n"))
}

fn rows(row: &TableRow, out: &mut Vec<String>) {
    let bell = if row.alarm { "*" } else { "" };
    let takes = row.takes.as_ref().map_or("", |takes| &takes.shown);
    let mut words = wrap(&row.words, WORDS);
    if !row.batch.is_empty() {
        words.extend(wrap(&row.batch, WORDS));
    }
    if !row.note.is_empty() {
        words.extend(wrap(&row.note, WORDS));
    }
    let mut busy = wrap(row.kind.word(), RIGHT);
    if !row.occupies.is_empty() {
        busy.extend(wrap(&row.occupies.join(", "), RIGHT));
    }
    for at in 0..words.len().max(busy.len()) {
        let empty = String::new();
        let (clock, takes) = if at == 0 {
            (format!("{bell}{}", row.begins.shown), takes)
        } else {
            (String::new(), "")
        };
        let line = format!(
            "{}  {} {} {}",
            right(&clock, CLOCK),
            left(takes, TAKES),
            left(words.get(at).unwrap_or(&empty), WORDS),
            busy.get(at).unwrap_or(&empty)
        );
        out.push(line.trim_end().to_owned());
    }
}
