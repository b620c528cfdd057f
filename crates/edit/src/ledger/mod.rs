//! The ledger: every figure of a recipe once, with its value, the string that every face prints
//! and where it comes from.

mod allergens;
pub mod bowl_labels;
pub mod build;
mod cautions;
pub mod day;
pub mod happens;
mod items;
mod kit;
pub mod label;
pub mod learnt;
pub mod marked;
pub mod model;
pub mod others;
pub mod patterns;
mod products;
pub(crate) mod readers;
mod said;
pub mod say;
mod sentence;
pub mod shoot;
pub mod shopping;
mod steps;
mod tables;
pub mod timetable;
pub mod under_way;
mod walk;

use model::Figure;
use recipe::provenance::Origin;

/// A figure from its parts; the name is put into kebab words between its dots.
pub fn figure(
    name: impl Into<String>,
    value: f64,
    unit: &'static str,
    shown: String,
    origin: Origin,
) -> Figure {
    Figure {
        name: kebab(&name.into()),
        value,
        unit,
        shown,
        origin,
    }
}

/// Lower case, with everything but letters, digits and dots turned into single hyphens.
pub fn kebab(text: &str) -> String {
    let mut out = String::new();
    for letter in text.chars().flat_map(char::to_lowercase) {
        // "Grandma's" is one word.
        if matches!(letter, '\'' | '’') {
            continue;
        }
        if letter.is_alphanumeric() || letter == '.' {
            out.push(letter);
        } else if !out.ends_with(['-', '.']) && !out.is_empty() {
            out.push('-');
        }
    }
    out.trim_end_matches('-').replace("-.", ".")
}
