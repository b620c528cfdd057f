//! A composition read from its row, and the same thing when its pack says otherwise.

use super::Composition;
use super::table::{Row, Table};
use crate::provenance::{Had, Origin};
use numerics::quantity::Fraction;

/// The places of the columns of a composition.
pub(super) struct CompositionColumns([usize; 13]);

impl CompositionColumns {
    pub(super) fn of(table: &Table) -> Self {
        Self(table.columns([
            "water_g",
            "protein_g",
            "fat_g",
            "carb_g",
            "fibre_g",
            "sugars_g",
            "lactose_g",
            "ash_g",
            "sodium_mg",
            "alcohol_g",
            "source_db",
            "ndb_no",
            "fdc_id",
        ]))
    }

    /// Reads a row. Sugars and carbohydrate are measured by different methods, so a milk's sugars
    /// can exceed its carbohydrate; they are capped at it here.
    pub(super) fn read(&self, row: Row<'_>) -> Composition {
        let c = &self.0;
        let share = |column: usize| row.number(column).map(Fraction::from_percent);
        let carbohydrate = share(c[3]);
        let cap = |sugars: Fraction| match carbohydrate {
            Some(all) if sugars > all => all,
            _ => sugars,
        };
        let source = if row.text(c[10]) == "USDA SR28" {
            format!(
                "USDA National Nutrient Database for Standard Reference, Release 28, food {}",
                row.text(c[11])
            )
        } else {
            format!(
                "USDA FoodData Central, Foundation Foods, October 2024, food {}",
                row.text(c[12])
            )
        };
        Composition {
            water: share(c[0]),
            protein: share(c[1]),
            fat: share(c[2]),
            carbohydrate,
            fibre: share(c[4]),
            sugars: share(c[5]).map(cap),
            lactose: share(c[6]).map(cap),
            ash: share(c[7]),
            sodium: row.number(c[8]).map(|mg| Fraction::from_si(mg / 1e5)),
            alcohol: share(c[9]),
            origin: Origin::new(source, Had::Read),
        }
    }
}

/// Shares that are known better than the table knows them, as mass fractions.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Known {
    pub(super) water: Option<f64>,
    pub(super) protein: Option<f64>,
    pub(super) fat: Option<f64>,
    pub(super) carbohydrate: Option<f64>,
    pub(super) sugars: Option<f64>,
    pub(super) salt: Option<f64>,
}

impl Known {
    /// Whether anything is known.
    pub(super) fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// What the shares come to; sugars count within the carbohydrate when that is known.
    pub(super) fn whole(&self) -> f64 {
        let carbohydrate = self
            .carbohydrate
            .unwrap_or(0.0)
            .max(self.sugars.unwrap_or(0.0));
        [self.water, self.protein, self.fat, self.salt]
            .into_iter()
            .flatten()
            .sum::<f64>()
            + carbohydrate
    }

    /// Whether each share and their sum can be: none below nothing, no more than the whole.
    pub(super) fn can_be(&self) -> bool {
        let all = [
            self.water,
            self.protein,
            self.fat,
            self.carbohydrate,
            self.sugars,
            self.salt,
        ];
        all.iter()
            .flatten()
            .all(|share| (0.0..=1.0).contains(share))
            && self.whole() <= 1.0
    }
}

/// Grams of salt in a gram of sodium, as European labels reckon it (Regulation (EU) 1169/2011,
/// annex I, read in translation).
const SALT_PER_SODIUM: f64 = 2.5;

impl Composition {
    /// Nothing known.
    pub(super) fn unknown(origin: Origin) -> Self {
        Self {
            water: None,
            protein: None,
            fat: None,
            carbohydrate: None,
            fibre: None,
            sugars: None,
            lactose: None,
            ash: None,
            sodium: None,
            alcohol: None,
            origin,
        }
    }

    /// The same food where some shares are known better.
    ///
    /// What is known stands as it is. Everything else (water, protein, fat, sugars, other
    /// carbohydrate, ash, alcohol) is scaled by one factor so that the whole stays what it was;
    /// fibre goes with the other carbohydrate, lactose with the sugars, sodium with the ash. Salt
    /// sets the sodium and its own part of the ash. A flour of 11 % instead of 10.33 % protein
    /// so loses 0.75 % of its starch, water and fat.
    pub(super) fn with(&self, known: &Known, origin: Origin) -> Self {
        let si = |share: Option<Fraction>| share.map(Fraction::si);
        let zero = |share: Option<f64>| share.unwrap_or(0.0);
        let sugars = si(self.sugars);
        let other = si(self.carbohydrate).map(|all| (all - zero(sugars)).max(0.0));
        let salt_before = zero(si(self.sodium)) * SALT_PER_SODIUM;
        let ash_known = known
            .salt
            .map(|salt| (zero(si(self.ash)) - salt_before).max(0.0) + salt);
        // When the carbohydrate is known and its sugars are not, the sugars keep their share of it.
        let (sugars_known, other_known) = match (known.carbohydrate, known.sugars) {
            (Some(all), Some(sugar)) => (Some(sugar), Some((all - sugar).max(0.0))),
            (Some(all), None) => {
                let of_all = match si(self.carbohydrate) {
                    Some(before) if before > 0.0 => zero(sugars) / before,
                    _ => 0.0,
                };
                (sugars.map(|_| all * of_all), Some(all * (1.0 - of_all)))
            }
            (None, sugar) => (sugar, None),
        };
        let before = [
            si(self.water),
            si(self.protein),
            si(self.fat),
            sugars,
            other,
            si(self.ash),
            si(self.alcohol),
        ];
        let fixed = [
            known.water,
            known.protein,
            known.fat,
            sugars_known,
            other_known,
            ash_known,
            None,
        ];
        let whole: f64 = before.iter().flatten().sum();
        let taken: f64 = fixed.iter().flatten().sum();
        let open: f64 = before
            .iter()
            .zip(&fixed)
            .filter(|(_, fixed)| fixed.is_none())
            .filter_map(|(b, _)| *b)
            .sum();
        let factor = if open > 0.0 {
            ((whole.max(taken) - taken) / open).max(0.0)
        } else {
            1.0
        };
        let mut after = [None; 7];
        for (slot, (before, fixed)) in after.iter_mut().zip(before.iter().zip(&fixed)) {
            *slot = fixed.or_else(|| before.map(|share| share * factor));
        }
        let [water, protein, fat, sugars_after, other_after, ash, alcohol] = after;
        let follow = |share: Option<Fraction>, before: Option<f64>, after: Option<f64>| {
            let ratio = match (before, after) {
                (Some(before), Some(after)) if before > 0.0 => after / before,
                _ => 1.0,
            };
            share.map(|share| share * ratio)
        };
        let fraction = |share: Option<f64>| share.map(Fraction::from_si);
        Self {
            water: fraction(water),
            protein: fraction(protein),
            fat: fraction(fat),
            carbohydrate: fraction(match (sugars_after, other_after) {
                (None, None) => None,
                (sugars, other) if self.carbohydrate.is_some() || known.carbohydrate.is_some() => {
                    Some(zero(sugars) + zero(other))
                }
                _ => None,
            }),
            fibre: follow(self.fibre, other, other_after),
            sugars: fraction(sugars_after),
            lactose: follow(self.lactose, sugars, sugars_after),
            ash: fraction(ash),
            sodium: known
                .salt
                .map(|salt| Fraction::from_si(salt / SALT_PER_SODIUM))
                .or_else(|| follow(self.sodium, si(self.ash), ash)),
            alcohol: fraction(alcohol),
            origin,
        }
    }
}
