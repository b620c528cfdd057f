//! What ingredients hold of every nutrient, summed; a figure that is not known is named, never taken as nothing.

use super::nutrient::{Amount, Nutrient};
use crate::larder::{AddedSugars, Ingredient, Nutrients, Trans};
use numerics::quantity::{Fraction, Mass};

/// Nitrogen factor of European law (Regulation (EU) 1169/2011, annex I; read in translation).
const NITROGEN_BY_LAW: f64 = 6.25;

/// Nitrogen factor of wheat gluten, whose row has none: that of white flour, from which it is
/// washed (Jones 1941; from memory).
const NITROGEN_OF_WHEAT: f64 = 5.70;

/// Trans fat of milk fat is at most this share of the fat where the tables report it: 2.8 to 5.0 %
/// in cream, half-and-half, cheese, butter and milk caramel (USDA SR28, worked out here); egg has
/// 0.3 to 0.6 %. It bounds what rows leave blank that hold a little by nature.
const TRANS_BY_NATURE: f64 = 0.05;

/// Why a figure is not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Why {
    /// The table has a blank.
    Blank,
    /// A little by nature that the table does not report.
    Little,
    /// The row was measured before fats were made as they are now.
    OldFat,
    /// Only the pack can say.
    Pack,
}

/// A figure of an ingredient that is not known.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Gap {
    /// Of what.
    pub nutrient: Nutrient,
    /// Why.
    pub why: Why,
    /// Name of the ingredient.
    pub ingredient: String,
}

/// Sums over ingredients.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tally {
    amounts: [Amount; Nutrient::ALL.len()],
    /// What is not known, each once, sorted.
    pub gaps: Vec<Gap>,
}

impl Tally {
    /// The amount of one nutrient: kilograms, or joules of energy.
    pub fn of(&self, nutrient: Nutrient) -> Amount {
        self.amounts[nutrient.place()]
    }

    /// Adds so much of an ingredient.
    pub fn add(&mut self, ingredient: &Ingredient, nutrients: Option<&Nutrients>, mass: Mass) {
        if mass <= Mass::ZERO {
            return;
        }
        for nutrient in Nutrient::ALL {
            let (share, why) = share(ingredient, nutrients, nutrient);
            let slot = &mut self.amounts[nutrient.place()];
            *slot = slot.plus(share.times(mass.si()));
            if let Some(why) = why {
                let gap = Gap {
                    nutrient,
                    why,
                    ingredient: ingredient.name.clone(),
                };
                if let Err(place) = self.gaps.binary_search(&gap) {
                    self.gaps.insert(place, gap);
                }
            }
        }
    }

    /// The same with so much less water.
    #[must_use]
    pub fn dried(mut self, water: Mass) -> Self {
        let slot = &mut self.amounts[Nutrient::Water.place()];
        slot.low = (slot.low - water.si()).max(0.0);
        slot.high = (slot.high - water.si()).max(0.0);
        self
    }

    /// So many times as much.
    #[must_use]
    pub fn times(mut self, factor: f64) -> Self {
        for amount in &mut self.amounts {
            *amount = amount.times(factor);
        }
        self
    }

    /// Both together.
    #[must_use]
    pub fn plus(mut self, other: &Self) -> Self {
        for (mine, others) in self.amounts.iter_mut().zip(&other.amounts) {
            *mine = mine.plus(*others);
        }
        for gap in &other.gaps {
            if let Err(place) = self.gaps.binary_search(gap) {
                self.gaps.insert(place, gap.clone());
            }
        }
        self
    }
}

/// A share that is known, or all that it can be and why it is not known.
fn known_or(share: Option<f64>, at_most: f64, why: Why) -> (Amount, Option<Why>) {
    match share {
        Some(share) => (Amount::known(share), None),
        None => (
            Amount {
                low: 0.0,
                high: at_most,
            },
            Some(why),
        ),
    }
}

/// What a kilogram of an ingredient holds of a nutrient.
fn share(
    ingredient: &Ingredient,
    nutrients: Option<&Nutrients>,
    nutrient: Nutrient,
) -> (Amount, Option<Why>) {
    let what = &ingredient.composition;
    let si = |share: Option<Fraction>| share.map(Fraction::si);
    let whole = |share: Option<Fraction>| si(share).unwrap_or(1.0);
    let of_label = |read: fn(&Nutrients) -> Option<f64>| nutrients.and_then(read);
    // Plants hold no cholesterol and next to no vitamin D (textbook knowledge, from memory).
    let plant = ingredient
        .flags
        .iter()
        .any(|flag| flag == "trans_not_reported_plant");
    let animal = |share: Option<f64>| share.or(plant.then_some(0.0));
    let blank = |share: Option<f64>, at_most: f64| known_or(share, at_most, Why::Blank);
    match nutrient {
        Nutrient::Energy => blank(
            of_label(|all| all.energy.map(numerics::quantity::SpecificEnergy::si)),
            f64::INFINITY,
        ),
        Nutrient::Fat => blank(si(what.fat), 1.0),
        Nutrient::Saturated => {
            let old = matches!(nutrients.map(|all| all.trans), Some(Trans::AskPack));
            let why = if old { Why::OldFat } else { Why::Blank };
            let share = of_label(|all| all.saturated.map(Fraction::si));
            known_or(share, whole(what.fat), why)
        }
        Nutrient::Trans => trans(nutrients.map(|all| all.trans), what.fat),
        Nutrient::Cholesterol => blank(
            animal(of_label(|all| all.cholesterol.map(Fraction::si))),
            f64::INFINITY,
        ),
        Nutrient::Sodium => blank(si(what.sodium), 1.0),
        Nutrient::Carbohydrate => blank(si(what.carbohydrate), 1.0),
        Nutrient::Fibre => blank(si(what.fibre), whole(what.carbohydrate)),
        Nutrient::Sugars => blank(si(what.sugars), sugars_at_most(ingredient)),
        Nutrient::AddedSugars => added(ingredient, nutrients.map(|all| all.added_sugars)),
        Nutrient::Protein => blank(si(what.protein), 1.0),
        Nutrient::ProteinByNitrogen => {
            // Foods without protein carry a factor of nothing.
            let factor = of_label(|all| all.nitrogen_factor.filter(|factor| *factor > 0.0));
            let factor = factor.unwrap_or_else(|| {
                if ingredient.key.contains("gluten") {
                    NITROGEN_OF_WHEAT
                } else {
                    NITROGEN_BY_LAW
                }
            });
            let by_law = si(what.protein).map(|protein| protein * NITROGEN_BY_LAW / factor);
            blank(by_law, 1.0)
        }
        Nutrient::VitaminD => blank(
            animal(of_label(|all| all.vitamin_d.map(Fraction::si))),
            f64::INFINITY,
        ),
        Nutrient::Calcium => blank(of_label(|all| all.calcium.map(Fraction::si)), f64::INFINITY),
        Nutrient::Iron => blank(of_label(|all| all.iron.map(Fraction::si)), f64::INFINITY),
        Nutrient::Potassium => blank(
            of_label(|all| all.potassium.map(Fraction::si)),
            f64::INFINITY,
        ),
        // The tables leave alcohol blank only where nothing ferments.
        Nutrient::Alcohol => (Amount::known(si(what.alcohol).unwrap_or(0.0)), None),
        Nutrient::Water => blank(si(what.water), 1.0),
    }
}

/// Sugars are part of what is carbohydrate and not fibre.
fn sugars_at_most(ingredient: &Ingredient) -> f64 {
    let what = &ingredient.composition;
    what.carbohydrate.map_or(1.0, |all| {
        (all.si() - what.fibre.map_or(0.0, Fraction::si)).max(0.0)
    })
}

fn trans(trans: Option<Trans>, fat: Option<Fraction>) -> (Amount, Option<Why>) {
    let fat = fat.map_or(1.0, Fraction::si);
    match trans {
        Some(Trans::Known(share)) => (Amount::known(share.si()), None),
        Some(Trans::NoneAssumed) => (Amount::known(0.0), None),
        Some(Trans::LittleByNature) => known_or(None, fat * TRANS_BY_NATURE, Why::Little),
        Some(Trans::AskPack) => known_or(None, fat, Why::OldFat),
        Some(Trans::NotKnown) | None => known_or(None, fat, Why::Blank),
    }
}

fn added(ingredient: &Ingredient, rule: Option<AddedSugars>) -> (Amount, Option<Why>) {
    let sugars = ingredient.composition.sugars.map(Fraction::si);
    let at_most = sugars.unwrap_or_else(|| sugars_at_most(ingredient));
    match rule {
        Some(AddedSugars::None) => (Amount::known(0.0), None),
        Some(AddedSugars::All | AddedSugars::AllAtMost) => known_or(sugars, at_most, Why::Blank),
        Some(AddedSugars::About(share)) => (Amount::known(share.si().min(at_most)), None),
        Some(AddedSugars::AskPack) | None => known_or(None, at_most, Why::Pack),
    }
}
