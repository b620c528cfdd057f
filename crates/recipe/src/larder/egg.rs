//! Egg classes of the United States and of Europe, and what is in the shell.

use super::table::{EGG_SIZES, Table};
use crate::provenance::{Had, Origin};
use numerics::quantity::{Fraction, Mass};
use std::sync::LazyLock;

/// Who grades the egg.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Grading {
    /// USDA classes, said in words: jumbo, extra large, large, medium, small, peewee.
    Us,
    /// European (and British) classes, said in letters: XL, L, M, S.
    Eu,
}

/// One class of eggs.
#[derive(Clone, Debug, PartialEq)]
pub struct EggClass {
    /// Who grades it.
    pub grading: Grading,
    /// Its word or letter.
    pub word: String,
    /// Lightest egg in shell: a dozen's twelfth in the United States, one egg in Europe.
    pub from: Option<Mass>,
    /// Heaviest egg in shell, itself excluded.
    pub below: Option<Mass>,
    /// Edible part of one.
    pub edible: Mass,
    /// Where the edible part comes from.
    pub origin: Origin,
}

/// Share of an egg that is shell (USDA SR28, refuse of 01123, read).
pub const SHELL: Fraction = Fraction::from_percent(12.0);

/// Every class, heaviest first, United States before Europe.
///
/// USDA publishes what five of its classes hold without shell; for the others the shell is taken
/// off the middle of the class (XL: 3 g above its bound, S: 5 g below).
pub fn egg_classes() -> Vec<EggClass> {
    CLASSES.clone()
}

/// Read once: an import asks for the class of every egg in it.
static CLASSES: LazyLock<Vec<EggClass>> = LazyLock::new(read_classes);

fn read_classes() -> Vec<EggClass> {
    let table = Table::read(EGG_SIZES);
    let [system, class, lightest, heaviest, edible, taken, source] = table.columns([
        "system",
        "class",
        "avg_shell_egg_g_at_min",
        "max_g_each",
        "edible_g_each_usda",
        "taken_shell_g",
        "source",
    ]);
    let mut classes = Vec::new();
    for row in table.rows() {
        let grading = match row.text(system) {
            "US" => Grading::Us,
            "EU" => Grading::Eu,
            _ => continue,
        };
        let grams = |column| row.number(column).map(Mass::from_grams);
        let without_shell = grams(taken).map(|egg| egg * (1.0 - SHELL.si()));
        let Some(mass) = grams(edible).or(without_shell) else {
            continue;
        };
        let had = if row.number(edible).is_some() {
            Had::Read
        } else {
            Had::Derived
        };
        classes.push(EggClass {
            grading,
            word: row.text(class).replace('_', " "),
            from: grams(lightest),
            below: grams(heaviest),
            edible: mass,
            origin: Origin::new(row.text(source), had),
        });
    }
    classes
}

/// The class that a cook's words name: "large", "extra-large", "L", "EU medium", "UK large".
/// A word alone is a class of the United States, a letter one of Europe.
pub fn egg_class(words: &str) -> Option<EggClass> {
    let words = words.trim().to_lowercase().replace(['-', '_'], " ");
    let european = words
        .strip_prefix("eu ")
        .or_else(|| words.strip_prefix("uk "));
    let plain = european
        .or_else(|| words.strip_prefix("us "))
        .unwrap_or(&words)
        .trim();
    let letter = match plain {
        "extra large" | "very large" | "xl" => "XL",
        "large" | "l" => "L",
        "medium" | "m" => "M",
        "small" | "s" => "S",
        _ => "",
    };
    let (grading, word) = match european {
        Some(_) => (Grading::Eu, letter),
        None if plain == letter.to_lowercase() && !letter.is_empty() => (Grading::Eu, letter),
        None => (Grading::Us, plain),
    };
    CLASSES
        .iter()
        .find(|class| class.grading == grading && class.word == word)
        .cloned()
}
