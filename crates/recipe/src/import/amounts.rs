//! The amount of a line as the recipe file writes it, and what of it goes into a note instead.

use super::model::{Bearing, LineAmount, LineUnit, Piece};
use crate::document::model::{Amount, Spooned};
use crate::measure::Measure;
use crate::measure::read::{read_amount, units::COUNTED};
use crate::measure::write::write_amount;
use numerics::decimal::trimmed;

/// An amount in the file's words, and what the file has no place for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Written {
    /// For `take` or `also`; none when it is no measure that can be weighed.
    pub take: Option<String>,
    /// For the note.
    pub note: Option<String>,
}

/// Writes an amount: of a range the low end, with a note.
pub fn written(amount: &LineAmount) -> Written {
    let mut note: Vec<String> = Vec::new();
    if let Some(bearing) = amount.bearing.and_then(says) {
        note.push(bearing.to_owned());
    }
    if amount.pieces.iter().any(|piece| piece.high > piece.low) {
        let words: Vec<String> = amount.pieces.iter().map(range).collect();
        note.push(format!("the text says {}", words.join(" and ")));
    }
    let take = take(&amount.pieces).filter(|take| read_amount(take).is_ok());
    if take.is_none() && !amount.pieces.is_empty() {
        let words: Vec<String> = amount.pieces.iter().map(range).collect();
        note.insert(0, format!("the text says {}", words.join(" and ")));
        note.dedup();
    }
    if take.is_some()
        && amount
            .pieces
            .iter()
            .any(|piece| matches!(piece.unit, LineUnit::Pint | LineUnit::Quart))
    {
        let words: Vec<String> = amount.pieces.iter().map(range).collect();
        note.push(format!(
            "{}, taken as a United States measure",
            words.join(" and ")
        ));
    }
    Written {
        take,
        note: (!note.is_empty()).then(|| note.join("; ")),
    }
}

/// How an amount is meant, where that leaves something open.
const fn says(bearing: Bearing) -> Option<&'static str> {
    match bearing {
        Bearing::Scant => Some("scant"),
        Bearing::Heaped => Some("heaped"),
        Bearing::Rounded => Some("rounded"),
        Bearing::Generous => Some("generous"),
        Bearing::About => Some("about"),
        Bearing::Packed => Some("packed"),
        Bearing::Level => None,
    }
}

/// The low ends as one amount of the file.
fn take(pieces: &[Piece]) -> Option<String> {
    if pieces
        .iter()
        .any(|piece| !(piece.low.is_finite() && piece.low > 0.0 && piece.low < 1e6))
    {
        return None;
    }
    let first = pieces.first()?;
    if let Some((size, sign)) = mass(first.unit) {
        let mut grams = 0.0;
        for piece in pieces {
            grams += piece.low * mass(piece.unit)?.0;
        }
        return Some(format!("{} {sign}", trimmed(grams / size, 3)));
    }
    if measure(first.unit).is_some() {
        let mut spooned = Vec::new();
        for piece in pieces {
            let (measure, times) = measure(piece.unit)?;
            spooned.push(Spooned {
                count: piece.low * times,
                measure,
            });
        }
        return Some(write_amount(&Amount::Measures(spooned)));
    }
    if pieces.len() > 1 {
        return None;
    }
    match first.unit {
        LineUnit::Number => Some(trimmed(first.low, 3)),
        LineUnit::Thing(thing) => {
            let (one, many) = COUNTED.iter().find(|(one, _)| *one == thing)?;
            let word = if first.low <= 1.0 { one } else { many };
            Some(format!("{} {word}", trimmed(first.low, 3)))
        }
        _ => None,
    }
}

/// Grams of a unit of mass, and its sign.
const fn mass(unit: LineUnit) -> Option<(f64, &'static str)> {
    match unit {
        LineUnit::Gram => Some((1.0, "g")),
        LineUnit::Kilogram => Some((1000.0, "kg")),
        LineUnit::Milligram => Some((1e-3, "mg")),
        LineUnit::Ounce => Some((28.349_523_125, "oz")),
        LineUnit::Pound => Some((453.592_37, "lb")),
        _ => None,
    }
}

/// The file's measure for a unit of volume, and how many of it. A pint is 2 cups and a quart 4
/// (United States customary units, NIST Handbook 44, appendix C, from memory).
const fn measure(unit: LineUnit) -> Option<(Measure, f64)> {
    match unit {
        LineUnit::Millilitre => Some((Measure::Millilitre, 1.0)),
        LineUnit::Centilitre => Some((Measure::Centilitre, 1.0)),
        LineUnit::Decilitre => Some((Measure::Decilitre, 1.0)),
        LineUnit::Litre => Some((Measure::Litre, 1.0)),
        LineUnit::Cup => Some((Measure::Cup, 1.0)),
        LineUnit::Tablespoon => Some((Measure::Tablespoon, 1.0)),
        LineUnit::Teaspoon => Some((Measure::Teaspoon, 1.0)),
        LineUnit::FluidOunce => Some((Measure::FluidOunce, 1.0)),
        LineUnit::Pint => Some((Measure::Cup, 2.0)),
        LineUnit::Quart => Some((Measure::Cup, 4.0)),
        _ => None,
    }
}

/// A piece in words, both ends of a range.
fn range(piece: &Piece) -> String {
    let number = if piece.high > piece.low {
        format!("{}–{}", trimmed(piece.low, 2), trimmed(piece.high, 2))
    } else {
        trimmed(piece.low, 2)
    };
    let unit = match piece.unit {
        LineUnit::Number => "",
        LineUnit::Thing(thing) => thing,
        LineUnit::Pint => "pint",
        LineUnit::Quart => "quart",
        LineUnit::Cup => "cup",
        LineUnit::Tablespoon => "Tbsp",
        LineUnit::Teaspoon => "tsp",
        LineUnit::FluidOunce => "fl oz",
        LineUnit::Millilitre => "mL",
        LineUnit::Centilitre => "cL",
        LineUnit::Decilitre => "dL",
        LineUnit::Litre => "L",
        other => mass(other).map_or("", |(_, sign)| sign),
    };
    format!("{number} {unit}").trim_end().to_owned()
}
