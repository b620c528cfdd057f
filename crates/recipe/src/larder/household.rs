//! What things weigh by the cup, the spoon and the piece: which published figure is taken of each.

use super::roles::measure_of;
use super::table::{MEASURES, SUPPLEMENT, Table};
use crate::measure::Measure;
use crate::provenance::{Had, Origin};
use numerics::quantity::{Density, Mass};
use std::collections::BTreeMap;

/// One household weight.
struct Weight {
    unit: String,
    wording: String,
    each_g: f64,
    source: Source,
}

/// Where a household weight comes from; named in full only for those that are used.
enum Source {
    /// A row of our own table says.
    Own(String, Had),
    /// Standard Reference, Release 28.
    Release28,
    /// Foundation Foods.
    Foundation,
}

impl Weight {
    fn origin(&self) -> Origin {
        match &self.source {
            Source::Own(source, had) => Origin::new(source.clone(), *had),
            Source::Release28 => Origin::new("USDA SR28 household weights", Had::Read),
            Source::Foundation => Origin::new(
                "USDA FoodData Central, Foundation Foods, October 2024",
                Had::Read,
            ),
        }
    }
}

/// Household weights by key: our own choices first, then what USDA gives.
pub(super) struct Household {
    chosen: BTreeMap<String, Vec<Weight>>,
    usda: BTreeMap<String, Vec<Weight>>,
}

/// Units of volume in the tables.
const VOLUMES: [&str; 4] = ["cup", "tbsp", "tsp", "fl_oz"];

/// Units of the tables by which a cook counts.
const COUNTS: [&str; 16] = [
    "large",
    "extra_large",
    "medium",
    "small",
    "jumbo",
    "packet",
    "package",
    "envelope",
    "stick",
    "cake",
    "clove",
    "slice",
    "bar",
    "egg",
    "cube",
    "pack",
];

impl Household {
    /// Reads both tables.
    pub(super) fn read() -> Self {
        let mut household = Self {
            chosen: BTreeMap::new(),
            usda: BTreeMap::new(),
        };
        let table = Table::read(SUPPLEMENT);
        let [key, amount, unit, grams, note, source, had] =
            table.columns(["key", "amount", "unit", "grams", "note", "source", "had"]);
        for row in table.rows() {
            let (Some(amount), Some(grams)) = (row.number(amount), row.number(grams)) else {
                continue;
            };
            let had = Had::from_word(row.text(had)).unwrap_or(Had::CommonPractice);
            household
                .chosen
                .entry(row.text(key).to_owned())
                .or_default()
                .push(Weight {
                    unit: row.text(unit).to_owned(),
                    wording: row.text(note).to_owned(),
                    each_g: grams / amount,
                    source: Source::Own(row.text(source).to_owned(), had),
                });
        }
        let table = Table::read(MEASURES);
        let [key, amount, unit, wording, grams, source] =
            table.columns(["key", "amount", "unit", "source_measure", "grams", "source"]);
        for row in table.rows() {
            let (Some(amount), Some(grams)) = (row.number(amount), row.number(grams)) else {
                continue;
            };
            let source = if row.text(source).starts_with("USDA SR28") {
                Source::Release28
            } else {
                Source::Foundation
            };
            household
                .usda
                .entry(row.text(key).to_owned())
                .or_default()
                .push(Weight {
                    unit: row.text(unit).to_owned(),
                    wording: row.text(wording).to_owned(),
                    each_g: grams / amount,
                    source,
                });
        }
        household
    }

    /// Mass per volume: our own choice where there is one, else USDA's figure for the measure by
    /// which the thing is used, else its next one.
    pub(super) fn density(&self, key: &str, by: Measure) -> Option<(Density, Origin)> {
        let of_volume = |weight: &&Weight| VOLUMES.contains(&weight.unit.as_str());
        let chosen = self
            .chosen
            .get(key)
            .and_then(|weights| weights.iter().find(of_volume));
        let order = match by {
            Measure::Teaspoon => ["tsp", "tbsp", "cup", "fl_oz"],
            _ => ["cup", "tbsp", "tsp", "fl_oz"],
        };
        let usda = || {
            let weights = self.usda.get(key)?;
            order
                .iter()
                .find_map(|unit| weights.iter().find(|weight| weight.unit == *unit))
        };
        let weight = chosen.or_else(usda)?;
        let density = Mass::from_grams(weight.each_g).si() / measure_of(&weight.unit).volume().si();
        Some((Density::from_si(density), weight.origin()))
    }

    /// Mass of one, by size or pack.
    pub(super) fn counts(&self, key: &str) -> Vec<(String, Mass, Origin)> {
        let mut counts: Vec<(String, Mass, Origin)> = Vec::new();
        let all = [&self.chosen, &self.usda]
            .into_iter()
            .filter_map(|map| map.get(key))
            .flatten();
        for weight in all {
            let Some(name) = counted(weight) else {
                continue;
            };
            if counts.iter().all(|(known, ..)| *known != name) {
                counts.push((name, Mass::from_grams(weight.each_g), weight.origin()));
            }
        }
        counts
    }
}

/// The word by which a cook counts with this weight, when it is one.
fn counted(weight: &Weight) -> Option<String> {
    if COUNTS.contains(&weight.unit.as_str()) {
        return Some(weight.unit.replace('_', " "));
    }
    if weight.unit == "other" || VOLUMES.contains(&weight.unit.as_str()) {
        // "date, pitted", "fig", "leaf": the first word names the piece.
        let first = weight
            .wording
            .split([',', '('])
            .next()
            .unwrap_or_default()
            .trim();
        let piece = weight.unit == "other"
            && !first.is_empty()
            && first.chars().all(|c| c.is_ascii_lowercase())
            && !matches!(first, "serving" | "liter");
        return piece.then(|| first.to_owned());
    }
    // A unit of our own table that is neither: "orange", "lemon".
    matches!(weight.unit.as_str(), "orange" | "lemon").then(|| weight.unit.clone())
}
