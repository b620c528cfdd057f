//! Patterns to print at true size: linings, sheets of dough, rings, strips for the rising jar.

mod dough;
mod level;
mod lining;
pub mod model;
mod ring;
mod said;

use super::model::{Fact, Figure};
use super::{figure, say};
use crate::Inputs;
use model::{PatternKind, Patterns};
use numerics::decimal::{round_to, trimmed};
use numerics::quantity::{Density, Length, Mass};
use recipe::document::model::Product;
use recipe::formula::{Formula, ProductSum};
use recipe::provenance::Origin;

/// Dough that was knocked back and shaped, with the little gas it keeps (common practice; dough
/// without gas has 1.2 to 1.3 g/mL).
const SHAPED: Density = Density::from_grams_per_millilitre(1.1);

/// What is said of every figure that rests on it.
const SHAPED_SOURCE: &str = "dough shaped and not yet risen at 1.1 g/mL, common practice";

/// Every pattern that the recipe calls for.
pub fn patterns(inputs: &Inputs) -> Patterns {
    let mut all = Patterns::default();
    for (kind, made) in [
        (PatternKind::Lining, lining::patterns(inputs)),
        (PatternKind::Dough, dough::patterns(inputs)),
        (PatternKind::Ring, ring::patterns(inputs)),
        (PatternKind::Level, level::patterns(inputs)),
    ] {
        match made.and_then(that_can_be_joined) {
            Ok(drawn) => all.drawn.extend(drawn),
            Err(why) => all.left_out.push((kind, why)),
        }
    }
    all
}

/// The longest drawing that is spread over sheets, mm; a longer one is a slip of the pen more often
/// than a tin (our choice).
const LONGEST_MM: f64 = 1200.0;

/// The patterns that are no larger than what is joined on a table, nor too small to be seen.
fn that_can_be_joined(mut drawn: Vec<model::Pattern>) -> Made {
    let sound = |mm: f64| (1.0..=LONGEST_MM).contains(&mm);
    drawn.retain(|pattern| {
        let mut parts = pattern.parts.iter();
        parts.all(|part| sound(part.width_mm) && sound(part.height_mm))
    });
    if drawn.is_empty() {
        return Err(format!(
            "Its drawing would be longer than {} or too small to see.",
            sizes(&[LONGEST_MM])
        ));
    }
    Ok(drawn)
}

/// The patterns of a kind, or why there is none.
type Made = Result<Vec<model::Pattern>, String>;

/// "199 × 97 mm / 7⅞ × 3⅞ in": whole millimetres, eighths of an inch.
fn sizes(lengths_mm: &[f64]) -> String {
    let joined = |texts: Vec<String>| texts.join("\u{a0}×\u{a0}");
    let metric = lengths_mm.iter().map(|mm| trimmed(*mm, 0)).collect();
    let inches = lengths_mm.iter().map(|mm| inches(*mm)).collect();
    format!(
        "{}{nbsp}mm / {}{nbsp}in",
        joined(metric),
        joined(inches),
        nbsp = say::NBSP
    )
}

/// Inches to the nearest eighth, as rulers are marked.
fn inches(length_mm: f64) -> String {
    const EIGHTHS: [&str; 8] = ["", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"];
    let rounded = round_to(length_mm / 25.4, 0.125);
    let whole = rounded.floor();
    let part = EIGHTHS
        .iter()
        .zip([0.0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875])
        .find(|(_, eighths)| (rounded - whole - eighths).abs() < 1e-6);
    let glyph = part.map_or("", |(glyph, _)| glyph);
    match (whole > 0.0, glyph) {
        (false, "") => trimmed(length_mm / 25.4, 2),
        (false, glyph) => glyph.to_owned(),
        (true, glyph) => format!("{}{glyph}", trimmed(whole, 0)),
    }
}

/// One length as a figure.
fn length(name: String, length_mm: f64, origin: &Origin) -> Figure {
    figure(
        name,
        Length::from_millimetres(length_mm).si(),
        Length::SI,
        sizes(&[length_mm]),
        origin.clone(),
    )
}

/// A label with one or several lengths of a pattern.
fn fact(place: &str, label: &str, lengths_mm: &[f64], origin: &Origin) -> Fact {
    let figures = lengths_mm
        .iter()
        .enumerate()
        .map(|(at, mm)| {
            let name = match lengths_mm.len() {
                1 => format!("pattern.{place}.{label}"),
                _ => format!("pattern.{place}.{label}.{}", at + 1),
            };
            length(name, *mm, origin)
        })
        .collect();
    Fact {
        label: label.to_owned(),
        shown: sizes(lengths_mm),
        figures,
    }
}

/// The sums of a product.
fn sum_of<'a>(formula: &'a Formula, product: &Product) -> Option<&'a ProductSum> {
    let own = |sum: &&ProductSum| sum.name == product.name.value;
    formula.products.iter().find(own)
}

/// Volume of a mass of shaped dough, mm3.
fn volume_mm3(mass: Mass) -> f64 {
    (mass / SHAPED).si() * 1e9
}

/// "for the braid and the loaf".
fn for_products(names: &[String]) -> String {
    let names: Vec<_> = names.iter().map(|name| format!("the {name}")).collect();
    format!("for {}", say::list(&names))
}

#[cfg(test)]
mod tests {
    use super::sizes;

    #[test]
    fn lengths_are_said_as_rulers_show_them() {
        let said = |mm: &[f64]| sizes(mm).replace('\u{a0}', " ");
        // 200.8 mm are 7.906 in and 98.8 mm are 3.890 in.
        assert_eq!(said(&[200.8, 98.8]), "201 × 99 mm / 7⅞ × 3⅞ in");
        assert_eq!(said(&[25.4]), "25 mm / 1 in");
        assert_eq!(said(&[15.0]), "15 mm / ⅝ in");
        assert_eq!(said(&[1.0]), "1 mm / 0.04 in");
    }
}
