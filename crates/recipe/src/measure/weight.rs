//! The mass of an amount as written: grams as they are, cups by density, counts by size.

use crate::document::model::{Amount, Spooned};
use crate::larder::{Grading, Ingredient, egg_class};
use crate::measure::read::units::counted;
use crate::provenance::{Had, Origin};
use numerics::quantity::{Mass, Volume};

/// Why an amount has no weight of its own, in a form that lets the caller say it.
#[derive(Clone, Debug, PartialEq)]
pub enum NoWeight {
    /// What a cup or spoon of it weighs is not known.
    ByVolume,
    /// What one of that size weighs is not known.
    ByCount {
        /// The size as written; none when only a number stands.
        size: Option<String>,
        /// Sizes that are known.
        known: Vec<String>,
    },
    /// Only a number stands where there are sizes. The usual size may be taken if that is said.
    SizeNotSaid {
        /// The size that is usually meant.
        usual: String,
        /// What the amount weighs then.
        mass: Mass,
        /// Where that comes from.
        origin: Origin,
    },
}

impl NoWeight {
    /// What to tell the cook, in one or two sentences.
    pub fn sentence(&self, name: &str) -> String {
        match self {
            Self::ByVolume => {
                format!("What a cup or spoon of {name} weighs is not known. Write it in grams.")
            }
            Self::ByCount { size: None, known } if known.is_empty() => {
                format!("The amount stands without its unit; {name} is not counted.")
            }
            Self::ByCount { known, .. } if known.is_empty() => {
                format!("What one {name} weighs is not known. Write it in grams.")
            }
            Self::ByCount { size, known } => {
                let Some(size) = size else {
                    return format!("The size of the {name} is not said.");
                };
                format!(
                    "No weight is known for {name} by “{size}”. Known are: {}.",
                    known.join(", ")
                )
            }
            Self::SizeNotSaid { usual, mass, .. } => format!(
                "The size of the {name} is not said. Taken as {usual}: {} g.",
                numerics::decimal::trimmed(mass.grams(), 1)
            ),
        }
    }
}

/// The mass of an amount of an ingredient, and where it comes from.
pub fn weigh(ingredient: &Ingredient, amount: &Amount) -> Result<(Mass, Origin), NoWeight> {
    match amount {
        Amount::Mass(mass) => Ok((*mass, Origin::new("the recipe", Had::Written))),
        Amount::Measures(measures) => {
            let (density, origin) = ingredient.by_volume.as_ref().ok_or(NoWeight::ByVolume)?;
            Ok((volume(measures) * *density, origin.clone()))
        }
        Amount::Count {
            count,
            size: Some(size),
        } => one(ingredient, size)
            .map(|(mass, origin)| (mass * *count, origin))
            .ok_or_else(|| {
                if !ingredient.by_count.is_empty() && is_itself(ingredient, size) {
                    return bare(ingredient, *count);
                }
                NoWeight::ByCount {
                    size: Some(size.clone()),
                    known: sizes(ingredient),
                }
            }),
        Amount::Count { count, size: None } => Err(bare(ingredient, *count)),
    }
}

/// The volume of measures added together.
pub fn volume(measures: &[Spooned]) -> Volume {
    measures
        .iter()
        .map(|one| one.measure.volume() * one.count)
        .sum()
}

/// The mass of one by its size or pack.
fn one(ingredient: &Ingredient, size: &str) -> Option<(Mass, Origin)> {
    let asked = size.trim().to_lowercase().replace(['-', '_'], " ");
    let singular = asked.strip_suffix('s').unwrap_or(&asked);
    let by = |word: &str| {
        ingredient
            .by_count
            .iter()
            .find(|(known, ..)| known.to_lowercase() == word)
    };
    // "EU large", "UK medium": the letter of the class.
    let class = || {
        let class = egg_class(&asked)?;
        let letter = class.word.to_lowercase();
        by(if class.grading == Grading::Eu {
            &letter
        } else {
            &class.word
        })
    };
    by(&asked)
        .or_else(|| by(singular))
        .or_else(class)
        .map(|(_, mass, origin)| (*mass, origin.clone()))
}

/// Whether the word after a number is the ingredient over again, one or many: "3 eggs" of egg.
fn is_itself(ingredient: &Ingredient, word: &str) -> bool {
    let word = word.trim().to_lowercase();
    let name = ingredient.name.to_lowercase();
    let last = name.split_whitespace().last().unwrap_or(&name);
    let one = |word: &str| counted(word).map_or_else(|| word.to_owned(), str::to_owned);
    one(&word) == one(last)
}

/// A number alone: the usual size, to be said aloud.
fn bare(ingredient: &Ingredient, count: f64) -> NoWeight {
    let usual = ingredient
        .by_count
        .iter()
        .find(|(word, ..)| word == "large" && ingredient.role == crate::larder::Role::Egg)
        .or_else(|| {
            ingredient
                .by_count
                .iter()
                .find(|(word, ..)| word == "medium")
        })
        .or(match ingredient.by_count.as_slice() {
            [only] => Some(only),
            _ => None,
        });
    match usual {
        Some((word, mass, origin)) => NoWeight::SizeNotSaid {
            usual: word.clone(),
            mass: *mass * count,
            origin: Origin::new(
                format!("{}; size taken as {word}", origin.source),
                origin.had,
            ),
        },
        None => NoWeight::ByCount {
            size: None,
            known: sizes(ingredient),
        },
    }
}

fn sizes(ingredient: &Ingredient) -> Vec<String> {
    ingredient
        .by_count
        .iter()
        .map(|(word, ..)| word.clone())
        .collect()
}
