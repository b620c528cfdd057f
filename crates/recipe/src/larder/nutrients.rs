//! What a label needs of an ingredient beyond its composition, and what the data cannot say.

use super::Composition;
use super::table::{Row, Table};
use numerics::quantity::{Fraction, SpecificEnergy};

/// Joules in a kilocalorie (thermochemical, exact; from memory).
const JOULES_PER_KILOCALORIE: f64 = 4184.0;

/// Trans fat: known, or why it is not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Trans {
    /// A figure.
    Known(Fraction),
    /// Not reported of a plant food, where none is a fair assumption.
    NoneAssumed,
    /// Not reported of milk, meat or egg, which hold a little by nature.
    LittleByNature,
    /// Nothing is known of it.
    NotKnown,
    /// The row dates from partly hydrogenated oils: trans and saturated fat must come from the pack.
    AskPack,
}

/// Sugars added by whoever made the ingredient; composition tables do not say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AddedSugars {
    /// None.
    None,
    /// All its sugars.
    All,
    /// All its sugars, which may say too much.
    AllAtMost,
    /// An estimate.
    About(Fraction),
    /// Only its pack can say.
    AskPack,
}

/// What a label needs besides the composition. Masses are fractions of the edible part.
#[derive(Clone, Debug, PartialEq)]
pub struct Nutrients {
    /// Energy.
    pub energy: Option<SpecificEnergy>,
    /// Energy of a kilogram of protein, fat and carbohydrate in this food.
    pub energy_factors: [Option<SpecificEnergy>; 3],
    /// Saturated fat; none where the row must not be used for it.
    pub saturated: Option<Fraction>,
    /// Trans fat.
    pub trans: Trans,
    /// Cholesterol.
    pub cholesterol: Option<Fraction>,
    /// Potassium.
    pub potassium: Option<Fraction>,
    /// Calcium.
    pub calcium: Option<Fraction>,
    /// Iron.
    pub iron: Option<Fraction>,
    /// Vitamin D.
    pub vitamin_d: Option<Fraction>,
    /// Added sugars.
    pub added_sugars: AddedSugars,
    /// Factor from nitrogen to protein; protein by European law is protein x 6.25 / this.
    pub nitrogen_factor: Option<f64>,
    /// What is thrown away of the thing as bought: shell, stone. Composition is of the rest.
    pub refuse: Fraction,
}

/// The places of the columns that a label needs.
pub(super) struct NutrientColumns([usize; 16]);

impl NutrientColumns {
    pub(super) fn of(table: &Table) -> Self {
        Self(table.columns([
            "energy_kcal",
            "sat_fat_g",
            "trans_fat_g",
            "cholesterol_mg",
            "potassium_mg",
            "calcium_mg",
            "iron_mg",
            "vit_d_ug",
            "n_factor",
            "protein_kcal_per_g",
            "fat_kcal_per_g",
            "carb_kcal_per_g",
            "refuse_pct",
            "added_sugar_rule",
            "added_sugars_g",
            "flags",
        ]))
    }

    pub(super) fn read(&self, row: Row<'_>) -> Nutrients {
        let c = &self.0;
        // Units of the table are per 100 g.
        let share = |column: usize, per_gram: f64| {
            row.number(column)
                .map(|value| Fraction::from_si(value / per_gram / 100.0))
        };
        let per_gram = |column: usize| {
            row.number(column)
                .map(|kcal| SpecificEnergy::from_si(kcal * JOULES_PER_KILOCALORIE * 1000.0))
        };
        let flags = row.text(c[15]);
        let old_fat = flags.contains("pho_era_trans");
        let trans = match share(c[2], 1.0) {
            _ if old_fat => Trans::AskPack,
            Some(known) => Trans::Known(known),
            None if flags.contains("trans_unknown_natural_small") => Trans::LittleByNature,
            None => Trans::NoneAssumed,
        };
        let added_sugars = match row.text(c[13]) {
            "all" => AddedSugars::All,
            "all_conservative" => AddedSugars::AllAtMost,
            "estimate" => share(c[14], 1.0).map_or(AddedSugars::AskPack, AddedSugars::About),
            "ask_label" => AddedSugars::AskPack,
            _ => AddedSugars::None,
        };
        Nutrients {
            energy: row
                .number(c[0])
                .map(|kcal| SpecificEnergy::from_si(kcal * JOULES_PER_KILOCALORIE * 10.0)),
            energy_factors: [per_gram(c[9]), per_gram(c[10]), per_gram(c[11])],
            saturated: if old_fat { None } else { share(c[1], 1.0) },
            trans,
            cholesterol: share(c[3], 1e3),
            potassium: share(c[4], 1e3),
            calcium: share(c[5], 1e3),
            iron: share(c[6], 1e3),
            vitamin_d: share(c[7], 1e6),
            added_sugars,
            nitrogen_factor: row.number(c[8]),
            refuse: share(c[12], 1.0).unwrap_or(Fraction::ZERO),
        }
    }
}

impl Nutrients {
    /// Nothing known.
    pub(super) const fn unknown() -> Self {
        Self {
            energy: None,
            energy_factors: [None; 3],
            saturated: None,
            trans: Trans::NotKnown,
            cholesterol: None,
            potassium: None,
            calcium: None,
            iron: None,
            vitamin_d: None,
            added_sugars: AddedSugars::AskPack,
            nitrogen_factor: None,
            refuse: Fraction::ZERO,
        }
    }

    /// The same food with another composition: fats follow the fat, energy follows the change of
    /// protein, fat and carbohydrate by the food's own factors; minerals and vitamins stay.
    pub(super) fn changed(&self, from: &Composition, to: &Composition) -> Self {
        let change = |before: Option<Fraction>, after: Option<Fraction>| {
            after
                .zip(before)
                .map_or(0.0, |(after, before)| after.si() - before.si())
        };
        let changes = [
            change(from.protein, to.protein),
            change(from.fat, to.fat),
            change(from.carbohydrate, to.carbohydrate),
        ];
        // General factors 4, 9, 4 kcal/g where the row has none of its own.
        let general = [4.0, 9.0, 4.0].map(|kcal| kcal * JOULES_PER_KILOCALORIE * 1000.0);
        let mut more_j_per_kg = 0.0;
        for ((factor, general), change) in self.energy_factors.iter().zip(general).zip(changes) {
            more_j_per_kg += factor.map_or(general, SpecificEnergy::si) * change;
        }
        let fat = match (from.fat, to.fat) {
            (Some(before), Some(after)) if before.si() > 0.0 => after / before,
            _ => 1.0,
        };
        Self {
            energy: self
                .energy
                .map(|energy| energy + SpecificEnergy::from_si(more_j_per_kg)),
            saturated: self.saturated.map(|share| share * fat),
            trans: match self.trans {
                Trans::Known(share) => Trans::Known(share * fat),
                other => other,
            },
            ..self.clone()
        }
    }
}
