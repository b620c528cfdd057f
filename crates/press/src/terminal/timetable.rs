//! A planned day as a terminal shows it: the clock to the left, what keeps what busy to the right.

use super::{COLUMNS, left, right};
use crate::line::plain;
use crate::text::wrap::wrap;
use edit::ledger::timetable::{TableLines, TableRow};

/// Columns of the clock at the least, of the length, and of what stands to the right.
const CLOCK: usize = 8;
const TAKES: usize = 11;
const RIGHT: usize = 19;

/// The day, date by date, 80 columns wide.
pub fn timetable(table: &TableLines) -> String {
    let mut out = wrap(&table.title, COLUMNS);
    out.extend(wrap(&table.when, COLUMNS));
    for note in &table.notes {
        out.extend(wrap(note, COLUMNS));
    }
    // "*10:10 am" is wider than "*10:10".
    let wide = table.rows.iter().map(|row| clock(row).chars().count());
    let wide = wide.max().unwrap_or(CLOCK).max(CLOCK);
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

fn rows(row: &TableRow, wide: usize, out: &mut Vec<String>) {
    let room = COLUMNS - wide - TAKES - RIGHT - 4;
    let takes = row.takes.as_ref().map_or("", |takes| &takes.shown);
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
            (clock(row), takes)
        } else {
            (String::new(), "")
        };
        let line = format!(
            "{}  {} {} {}",
            right(&begins, wide),
            left(takes, TAKES),
            left(words.get(at).unwrap_or(&empty), room),
            busy.get(at).unwrap_or(&empty)
        );
        out.push(line.trim_end().to_owned());
    }
}
