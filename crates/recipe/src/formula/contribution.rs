//! What one ingredient brings to a dough: its flour, water, fat, sugar, salt, yeast and solids.

use super::model::PartSum;
use crate::larder::{Ingredient, Role, YeastForm};
use numerics::quantity::{Fraction, Mass};

/// Salt in a gram of sodium, as labels reckon it (Regulation (EU) 1169/2011, annex I: salt is
/// sodium times 2.5; from memory). What a pack calls salt comes back to the same figure.
const SALT_PER_SODIUM: f64 = 2.5;

/// A fat with more salt than this was salted; below it is the cream's own trace (0.03 % in
/// unsalted butter, USDA SR28 01145).
const SALTED_FROM: f64 = 0.0025;

/// A liquid with more water than this is water: its traces of minerals weigh with it (tap water is
/// 99.9 % water, USDA SR28 14411).
const WATER_FROM: f64 = 0.99;

/// A thing with less water than this is dry, and its moisture is weighed with it as the flour's is.
const DRY_BELOW: f64 = 0.20;

/// Sugar from so pure is counted as weighed: granulated 99.8 %, brown 97.0 % (USDA SR28).
const PURE_SUGAR_FROM: f64 = 0.95;

/// Milk with more sugars than this was sweetened: fresh milk has 5 %, evaporated 10 % (USDA SR28).
const SWEETENED_FROM: f64 = 0.20;

/// Lactose for each part of a milk's protein: 5.05 % to 3.15 % in whole milk (USDA SR28 01077).
/// Boiling milk down changes both alike, so it gives the lactose of a sweetened milk whose own is
/// not published; worked out here.
const LACTOSE_PER_PROTEIN: f64 = 5.05 / 3.15;

/// Egg with more sugars than this was sweetened: fresh egg has 0.4 %, yolk 0.6 % (USDA SR28).
const SWEETENED_EGG_FROM: f64 = 0.02;

/// The mass of instant yeast that does what this much fresh yeast does.
pub fn instant_equivalent(fresh: Mass) -> Mass {
    YeastForm::Fresh.swapped_for(fresh, YeastForm::Instant)
}

/// What a mass of an ingredient brings. A figure that is needed and not known counts as none of it
/// and is named in `unknown`.
pub fn brings(ingredient: &Ingredient, mass: Mass) -> PartSum {
    let what = &ingredient.composition;
    let mut sum = PartSum {
        mass,
        ..PartSum::default()
    };
    let mut unknown = Vec::new();
    let mut known = |share: Option<Fraction>, figure: &'static str| {
        share.map_or_else(
            || {
                unknown.push((ingredient.name.clone(), figure));
                0.0
            },
            Fraction::si,
        )
    };
    match ingredient.role {
        Role::Flour => {
            sum.flour = mass;
            sum.flour_protein = mass * known(what.protein, "protein");
        }
        Role::Liquid if what.water.is_some_and(|water| water.si() >= WATER_FROM) => {
            sum.water = mass;
        }
        Role::Liquid => {
            let water = known(what.water, "water");
            let fat = known(what.fat, "fat");
            sum.water = mass * water;
            sum.fat = mass * fat;
            let sugar = if is_milk(ingredient) {
                sugar_in_milk(ingredient, &mut known)
            } else {
                sugar_in_liquid(ingredient, &mut known)
            };
            sum.sugar = mass * sugar;
            if is_milk(ingredient) {
                sum.milk_solids = mass * (1.0 - water - fat - sugar).max(0.0);
            }
        }
        Role::MilkPowder => {
            let water = known(what.water, "water");
            let fat = known(what.fat, "fat");
            sum.fat = mass * fat;
            sum.milk_solids = mass * (1.0 - water - fat).max(0.0);
        }
        Role::Egg => {
            let water = known(what.water, "water");
            sum.water = mass * water;
            sum.fat = mass * known(what.fat, "fat");
            let sugars = what.sugars.map_or(0.0, Fraction::si);
            let added = if sugars > SWEETENED_EGG_FROM {
                sugars
            } else {
                0.0
            };
            sum.sugar = mass * added;
            sum.egg_solids = mass * (1.0 - water - added).max(0.0);
        }
        Role::Fat => {
            sum.water = mass * known(what.water, "water");
            sum.fat = mass * known(what.fat, "fat");
            let salt = known(what.sodium, "sodium") * SALT_PER_SODIUM;
            if salt > SALTED_FROM {
                sum.salt = mass * salt;
            }
        }
        Role::Sugar => {
            let sugars = known(what.sugars, "sugars");
            if sugars >= PURE_SUGAR_FROM {
                sum.sugar = mass;
            } else {
                sum.sugar = mass * sugars;
                let water = known(what.water, "water");
                sum.water = mass * if water < DRY_BELOW / 2.0 { 0.0 } else { water };
            }
        }
        Role::Salt => sum.salt = mass,
        Role::Yeast(form) => {
            sum.yeast_fresh = form.fresh_equivalent(mass);
            if form == YeastForm::Fresh {
                sum.water = mass * known(what.water, "water");
            }
        }
        Role::Other => {
            let water = what.water.map_or(0.0, Fraction::si);
            if water >= DRY_BELOW {
                sum.water = mass * water;
                sum.fat = mass * known(what.fat, "fat");
            }
        }
        Role::Flavour | Role::Addition => {}
    }
    sum.unknown = unknown;
    sum
}

/// Whether the law's allergens name milk.
fn is_milk(ingredient: &Ingredient) -> bool {
    ingredient
        .allergens_us
        .iter()
        .any(|allergen| allergen.starts_with("milk"))
}

/// Sugar added to a milk: nothing in fresh milk, whose sugar is lactose.
fn sugar_in_milk(
    ingredient: &Ingredient,
    known: &mut impl FnMut(Option<Fraction>, &'static str) -> f64,
) -> f64 {
    let what = &ingredient.composition;
    let sugars = what.sugars.map_or(0.0, Fraction::si);
    if sugars < SWEETENED_FROM {
        return 0.0;
    }
    let lactose = what.lactose.map_or_else(
        || known(what.protein, "protein") * LACTOSE_PER_PROTEIN,
        Fraction::si,
    );
    (sugars - lactose).max(0.0)
}

/// Sugar of juice, cider, a drink of grain: all of it.
fn sugar_in_liquid(
    ingredient: &Ingredient,
    known: &mut impl FnMut(Option<Fraction>, &'static str) -> f64,
) -> f64 {
    let what = &ingredient.composition;
    match (what.sugars, what.carbohydrate) {
        (Some(sugars), _) => sugars.si(),
        (None, Some(carbohydrate)) if carbohydrate.si() < 0.005 => 0.0,
        (None, _) => known(None, "sugars"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formula::samples;

    fn grams(mass: Mass) -> String {
        numerics::decimal::trimmed(mass.grams(), 3)
    }

    #[test]
    fn milk_brings_water_fat_and_solids_but_no_sugar() {
        let sum = brings(&samples::milk(), Mass::from_grams(100.0));
        assert_eq!(
            (
                grams(sum.water),
                grams(sum.fat),
                grams(sum.sugar),
                grams(sum.milk_solids)
            ),
            (
                "88.13".to_owned(),
                "3.25".to_owned(),
                "0".to_owned(),
                "8.62".to_owned()
            )
        );
    }

    #[test]
    fn salted_butter_brings_salt_and_unsalted_none() {
        // 157 g of salted butter carry 2.5 g of salt (643 mg of sodium in 100 g, USDA SR28 01001).
        let salted = brings(&samples::salted_butter(), Mass::from_grams(157.0));
        assert_eq!(numerics::decimal::fixed(salted.salt.grams(), 1), "2.5");
        let unsalted = brings(&samples::butter(), Mass::from_grams(157.0));
        assert_eq!(unsalted.salt, Mass::ZERO);
    }

    #[test]
    fn honey_brings_its_sugars_and_its_water() {
        let sum = brings(&samples::honey(), Mass::from_grams(100.0));
        assert_eq!(grams(sum.sugar), "82.12");
        assert_eq!(grams(sum.water), "17.1");
    }

    #[test]
    fn a_pack_without_its_fat_is_named() {
        let mut butter = samples::butter();
        butter.composition.fat = None;
        let sum = brings(&butter, Mass::from_grams(10.0));
        assert_eq!(sum.unknown, vec![("unsalted butter".to_owned(), "fat")]);
        assert_eq!(sum.fat, Mass::ZERO);
    }

    #[test]
    fn sweetened_milk_brings_what_is_not_its_lactose() {
        // Condensed: 54.4 % sugars, 7.91 % protein (USDA SR28 01095), so some 12.7 % lactose.
        let mut milk = samples::milk();
        milk.composition.sugars = Some(Fraction::from_percent(54.4));
        milk.composition.protein = Some(Fraction::from_percent(7.91));
        milk.composition.lactose = None;
        let sum = brings(&milk, Mass::from_grams(100.0));
        assert_eq!(numerics::decimal::fixed(sum.sugar.grams(), 1), "41.7");
        milk.composition.protein = None;
        let sum = brings(&milk, Mass::from_grams(100.0));
        assert_eq!(sum.unknown, vec![("whole milk".to_owned(), "protein")]);
    }

    #[test]
    fn two_and_a_half_times_as_much_fresh_as_active_dry() {
        let sum = brings(&samples::active_dry(), Mass::from_grams(4.0));
        assert_eq!(grams(sum.yeast_fresh), "10");
        assert_eq!(grams(instant_equivalent(Mass::from_grams(10.0))), "3.3");
    }
}
