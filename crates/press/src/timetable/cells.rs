//! A planned day as a table of data (comma-separated values, RFC 4180).

use edit::ledger::timetable::TableLines;

/// The columns.
const HEAD: [&str; 11] = [
    "number",
    "begins",
    "ends",
    "clock",
    "takes",
    "minutes",
    "what",
    "whose",
    "kind",
    "keeps busy",
    "note",
];

/// One line an entry, the first with the names of the columns.
pub fn cells(table: &TableLines) -> String {
    let mut out = record(HEAD.map(str::to_owned));
    for row in &table.rows {
        out.push_str(&record([
            row.number.to_string(),
            row.begins_at.iso.clone(),
            row.ends_at.iso.clone(),
            row.begins.shown.clone(),
            row.takes
                .as_ref()
                .map_or_else(String::new, |takes| takes.shown.clone()),
            (row.ends_min - row.begins_min).to_string(),
            row.words.clone(),
            row.batch.clone(),
            row.kind.word().to_owned(),
            row.occupies.join(", "),
            row.note.clone(),
        ]));
    }
    out
}

fn record<const N: usize>(cells: [String; N]) -> String {
    cells.map(|cell| quoted(&cell)).join(",") + "\r\n"
}

/// A cell, in quotes where a comma, a quote, a line end or a blank at its end would mislead.
fn quoted(cell: &str) -> String {
    let cell = crate::line::plain(cell);
    let odd = |sign: char| matches!(sign, ',' | '"' | '\n' | '\r');
    if cell.contains(odd) || cell.trim() != cell {
        format!("\"{}\"", cell.replace('"', "\"\""))
    } else {
        cell
    }
}

#[cfg(test)]
mod tests {
    use super::quoted;

    #[test]
    fn what_would_mislead_stands_in_quotes() {
        assert_eq!(quoted("Shape the knots"), "Shape the knots");
        assert_eq!(quoted("milk, egg"), "\"milk, egg\"");
        assert_eq!(quoted("the \"big\" tin"), "\"the \"\"big\"\" tin\"");
        assert_eq!(quoted("a\nb"), "\"a\nb\"");
        assert_eq!(quoted(" a"), "\" a\"");
    }
}
