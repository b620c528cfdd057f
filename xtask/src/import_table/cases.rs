//! The cases' own notation: what a line reads as, written down and compared.

use recipe::import::{Bearing, LineAmount, LineUnit, Mark, Piece, Reading};
use recipe::larder::Larder;

/// One row of a table of lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Case {
    /// The line as pasted.
    pub line: String,
    /// Its mark.
    pub mark: String,
    /// What it reads as.
    pub reads_as: String,
}

/// The rows of a Markdown table of three columns.
///
/// # Errors
/// When a row has not three cells.
pub fn rows(text: &str) -> Result<Vec<Case>, String> {
    let mut cases = Vec::new();
    for row in text.lines().filter(|row| row.starts_with('|')).skip(2) {
        let escaped = row.replace("\\|", "\u{1}");
        let cells: Vec<String> = escaped
            .trim_start_matches('|')
            .trim_end()
            .trim_end_matches('|')
            .split('|')
            .map(|cell| {
                let cell = cell.strip_prefix(' ').unwrap_or(cell);
                let cell = cell.strip_suffix(' ').unwrap_or(cell);
                cell.replace('\u{1}', "|")
            })
            .collect();
        let [line, mark, reads_as] =
            <[String; 3]>::try_from(cells).map_err(|_| format!("not three cells: {row}"))?;
        cases.push(Case {
            line,
            mark: mark.trim().to_owned(),
            reads_as: reads_as.trim().to_owned(),
        });
    }
    Ok(cases)
}

/// A mark in the cases' words.
pub fn mark(mark: Mark) -> &'static str {
    match mark {
        Mark::Understood => "understood",
        Mark::Doubtful => "doubtful",
        Mark::NotUnderstood => "not understood",
    }
}

/// Readings in the cases' notation.
pub fn written(readings: &[Reading]) -> String {
    if readings.is_empty() {
        return "-".to_owned();
    }
    readings.iter().map(reading).collect::<Vec<_>>().join(" ; ")
}

/// One reading in the cases' notation.
pub fn reading(one: &Reading) -> String {
    let amount = one
        .amount
        .as_ref()
        .map_or_else(|| "none".to_owned(), amount);
    let key = one
        .key
        .clone()
        .unwrap_or_else(|| format!("?\"{}\"", one.words));
    let mut text = format!("{amount} {key}");
    if let Some(also) = &one.also {
        text.push_str(&format!(" also {}", self::amount(also)));
    }
    if let Some(place) = one.place {
        text.push_str(&format!(" for {}", place.word()));
    }
    if let Some(state) = &one.state {
        text.push_str(&format!(" state \"{state}\""));
    }
    text
}

/// An amount in the cases' notation.
pub fn amount(amount: &LineAmount) -> String {
    let bearing = match amount.bearing {
        Some(Bearing::Scant) => "scant ",
        Some(Bearing::Heaped) => "heaped ",
        Some(Bearing::Rounded) => "rounded ",
        Some(Bearing::Generous) => "generous ",
        Some(Bearing::Level) => "level ",
        Some(Bearing::About) => "about ",
        Some(Bearing::Packed) | None => "",
    };
    let pieces: Vec<String> = amount.pieces.iter().map(piece).collect();
    format!("{bearing}{}", pieces.join(" + "))
}

fn piece(piece: &Piece) -> String {
    let unit = match piece.unit {
        LineUnit::Gram => "g",
        LineUnit::Kilogram => "kg",
        LineUnit::Milligram => "mg",
        LineUnit::Ounce => "oz",
        LineUnit::Pound => "lb",
        LineUnit::Millilitre => "mL",
        LineUnit::Centilitre => "cL",
        LineUnit::Decilitre => "dL",
        LineUnit::Litre => "L",
        LineUnit::Cup => "cup",
        LineUnit::Tablespoon => "tbsp",
        LineUnit::Teaspoon => "tsp",
        LineUnit::FluidOunce => "fl-oz",
        LineUnit::Pint => "pint",
        LineUnit::Quart => "quart",
        LineUnit::Number => "x",
        LineUnit::Thing(word) => word,
    };
    if piece.low < piece.high {
        format!("{}..{} {unit}", number(piece.low), number(piece.high))
    } else {
        format!("{} {unit}", number(piece.low))
    }
}

/// What a line of a case lists, without empty places and "-".
pub fn list(rest: &str, mark: char) -> Vec<String> {
    rest.split(mark)
        .map(|one| one.trim().to_owned())
        .filter(|one| !one.is_empty() && one != "-")
        .collect()
}

/// The cells of a row of a table.
pub fn cells(row: &str) -> Vec<String> {
    let inside = row.trim().trim_matches('|');
    inside
        .split('|')
        .map(|cell| cell.trim().to_owned())
        .collect()
}

/// Three decimals at most, as the cases write thirds.
fn number(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// The words of an unknown ingredient as the reader gives them, for a line of the cases.
pub fn read(line: &str, larder: &Larder) -> (String, String, Vec<Reading>) {
    let (found, _, readings) = recipe::import::line::read_line(line, larder);
    (mark(found).to_owned(), written(&readings), readings)
}
