//! A pasted text as a terminal shows it: the text on the left, what was made of each line on the right.

use super::COLUMNS;
use crate::line::plain;
use crate::text::wrap::{beside, wrap};
use recipe::import::{Bearing, Imported, Line, LineAmount, LineKind, LineUnit, Mark, Reading};
use recipe::larder::Larder;
use recipe::measure::write::write_time_range;

/// Columns of the text, and of the margin after a gap of three.
const TEXT: usize = 45;
const MARGIN: usize = COLUMNS - TEXT - 3;

/// Every line with its mark, then what is missing and what was assumed.
pub fn import(imported: &Imported, larder: &Larder) -> String {
    let mut out = vec![
        "Beside each line: = understood, ? something to decide, x not understood".to_owned(),
        String::new(),
    ];
    for line in &imported.lines {
        if line.kind == LineKind::Blank {
            if out.last().is_some_and(|line| !line.is_empty()) {
                out.push(String::new());
            }
            continue;
        }
        let left = wrap(line.text.trim(), TEXT);
        let right: Vec<String> = margin(line, imported, larder)
            .iter()
            .flat_map(|(mark, words)| beside(&[mark.to_string()], 1, &wrap(words, MARGIN - 2), 1))
            .collect();
        out.extend(beside(&left, TEXT, &right, 3));
    }
    if !imported.left_out.is_empty() {
        out.push(String::new());
        out.extend(wrap(
            &format!("The text does not say: {}.", imported.left_out.join(", ")),
            COLUMNS,
        ));
    }
    if !imported.assumed.is_empty() {
        out.push(String::new());
        out.push("Assumed, each marked in the file where it stands".to_owned());
        let longest = imported
            .assumed
            .iter()
            .map(|one| one.what.chars().count())
            .max()
            .unwrap_or(0)
            .min(20);
        for one in &imported.assumed {
            let place = one
                .file_line
                .map_or_else(String::new, |line| format!(" (line {line})"));
            let right = wrap(&format!("{}{place}", one.sentence), COLUMNS - longest - 4);
            out.extend(beside(&[format!("  {}", one.what)], longest + 2, &right, 2));
        }
    }
    let mut text = String::new();
    for line in out {
        text.push_str(plain(&line).trim_end());
        text.push('\n');
    }
    text
}

/// What stands beside a line: marks and words.
fn margin(line: &Line, imported: &Imported, larder: &Larder) -> Vec<(char, String)> {
    let sign = |mark: Mark| match mark {
        Mark::Understood => '=',
        Mark::Doubtful => '?',
        Mark::NotUnderstood => 'x',
    };
    // Each thing has its own mark, and its own reason under it where the line names several.
    let several = line.readings.len() > 1;
    let mut found: Vec<(char, String)> = Vec::new();
    for one in &line.readings {
        found.push((sign(one.mark), reading(one, larder)));
        if several && let Some(reason) = &one.reason {
            found.push((' ', reason.clone()));
        }
    }
    if found.is_empty() {
        found.push((sign(line.mark), kind(line.kind).to_owned()));
    }
    if let Some(reason) = line.reason.as_ref().filter(|_| !several) {
        found.push((' ', reason.clone()));
    }
    found.extend(said(line, imported));
    found
}

/// The times and oven heats of a step, each with its sign.
pub fn said(line: &Line, imported: &Imported) -> Vec<(char, String)> {
    let mut found = Vec::new();
    if line.kind == LineKind::Step {
        let times = imported.times.iter().filter(|one| one.line == line.number);
        found.extend(times.map(|one| {
            let shown = if one.time.high > one.time.low {
                write_time_range(one.time).replace('-', "–")
            } else {
                recipe::measure::write::write_time(one.time.low)
            };
            ('○', shown)
        }));
        let heats = imported.heats.iter().filter(|one| one.line == line.number);
        found.extend(heats.map(|one| ('▲', heat(one.heat.low.celsius(), one.heat.high.celsius()))));
    }
    found
}

/// "190 °C / 375 °F".
fn heat(low: f64, high: f64) -> String {
    // As a dial is printed: the nearest 25 where that is near, else the nearest 5.
    let fahrenheit = |celsius: f64| {
        let exact = celsius * 1.8 + 32.0;
        let coarse = (exact / 25.0).round() * 25.0;
        if (coarse - exact).abs() <= 8.0 {
            coarse
        } else {
            (exact / 5.0).round() * 5.0
        }
    };
    if high > low {
        format!(
            "{:.0}–{:.0} °C / {:.0}–{:.0} °F",
            low,
            high,
            fahrenheit(low),
            fahrenheit(high)
        )
    } else {
        format!("{:.0} °C / {:.0} °F", low, fahrenheit(low))
    }
}

/// What a line is, in words.
const fn kind(kind: LineKind) -> &'static str {
    match kind {
        LineKind::Blank => "",
        LineKind::Title => "title",
        LineKind::About => "about it",
        LineKind::Heading => "heading",
        LineKind::Ingredient => "ingredient",
        LineKind::Step => "step",
        LineKind::Makes => "what it makes",
        LineKind::Time => "times of the whole",
        LineKind::Note => "note",
        LineKind::Other => "left out: no part of a recipe",
    }
}

/// "500 g bread flour, for the bench".
pub fn reading(one: &Reading, larder: &Larder) -> String {
    let name = one
        .key
        .as_ref()
        .and_then(|key| larder.by_key(key))
        .map_or_else(
            || one.words.clone(),
            |known| known.names.first().unwrap_or(&known.name).clone(),
        );
    let mut words = String::new();
    if let Some(amount) = &one.amount {
        words = format!("{} ", amount_words(amount));
    }
    if let Some(also) = &one.also {
        words = format!("{words}({}) ", amount_words(also));
    }
    words.push_str(&name);
    if let Some(state) = &one.state {
        words = format!("{words}, {state}");
    }
    if let Some(place) = one.place {
        words = format!("{words}, for the {}", place.word());
    }
    words
}

/// An amount in words.
fn amount_words(amount: &LineAmount) -> String {
    let bearing = match amount.bearing {
        Some(Bearing::Scant) => "scant ",
        Some(Bearing::Heaped) => "heaped ",
        Some(Bearing::Rounded) => "rounded ",
        Some(Bearing::Generous) => "generous ",
        Some(Bearing::About) => "about ",
        Some(Bearing::Level | Bearing::Packed) | None => "",
    };
    let pieces: Vec<String> = amount
        .pieces
        .iter()
        .map(|piece| {
            let mut number = recipe::measure::mixed(piece.low);
            if piece.is_range() {
                number = format!("{number}–{}", recipe::measure::mixed(piece.high));
            }
            let several = piece.high > 1.0;
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
                LineUnit::Cup if several => "cups",
                LineUnit::Cup => "cup",
                LineUnit::Tablespoon => "Tbsp",
                LineUnit::Teaspoon => "tsp",
                LineUnit::FluidOunce => "fl oz",
                LineUnit::Pint => "pint",
                LineUnit::Quart => "quart",
                LineUnit::Number => "",
                LineUnit::Thing(thing) => thing,
            };
            format!("{number} {unit}").trim_end().to_owned()
        })
        .collect();
    format!("{bearing}{}", pieces.join(" + "))
}
