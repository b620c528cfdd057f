//! Ingredients as they are bought: another flour, skimmed milk, fatter or salted butter.

use numerics::quantity::Fraction;
use recipe::larder::{Composition, Ingredient, Role};

/// Salt in salted butter, share: 1.25 to 1.75 % (salted-butter pages, second-hand).
const SALT_IN_BUTTER: f64 = 0.016;
/// Salt in a gram of sodium, as labels reckon it (Regulation (EU) 1169/2011).
const SALT_PER_SODIUM: f64 = 2.5;
/// Fat left in skimmed milk, share (from memory).
const SKIMMED: f64 = 0.002;
/// Flour from this much protein on is bread flour, to whoever reads packs (plain 10 to 12, bread 12 to
/// 13.5 %, flour protein pages).
pub const BREAD_FROM: f64 = 0.118;

fn share(of: Option<Fraction>) -> f64 {
    of.map_or(0.0, Fraction::si)
}

/// White wheat flour, of which there is a plain and a bread kind.
pub fn is_white_flour(ingredient: &Ingredient) -> bool {
    let what = &ingredient.composition;
    let protein = share(what.protein);
    ingredient.role == Role::Flour
        && (0.08..0.16).contains(&protein)
        && share(what.fibre) < 0.05
        && ingredient
            .allergens_us
            .iter()
            .any(|one| one.starts_with("wheat"))
}

/// Whether it is fresh whole milk or the like.
pub fn is_fat_milk(ingredient: &Ingredient) -> bool {
    ingredient.role == Role::Liquid
        && ingredient
            .allergens_us
            .iter()
            .any(|one| one.starts_with("milk"))
        && (0.015..0.06).contains(&share(ingredient.composition.fat))
}

/// Every share but the named ones scaled by one factor, so that the whole stays what it was.
fn others_scaled(of: &Composition, named: f64, before: f64) -> Composition {
    let factor = if before < 1.0 {
        (1.0 - named) / (1.0 - before)
    } else {
        1.0
    };
    let scaled = |one: Option<Fraction>| one.map(|one| one * factor);
    Composition {
        water: scaled(of.water),
        protein: scaled(of.protein),
        fat: scaled(of.fat),
        carbohydrate: scaled(of.carbohydrate),
        fibre: scaled(of.fibre),
        sugars: scaled(of.sugars),
        lactose: scaled(of.lactose),
        ash: scaled(of.ash),
        sodium: scaled(of.sodium),
        alcohol: scaled(of.alcohol),
        origin: of.origin.clone(),
    }
}

/// A flour of another protein and moisture.
pub fn flour(ingredient: &mut Ingredient, protein: f64, water: f64) {
    let what = &ingredient.composition;
    let before = share(what.protein) + share(what.water);
    let mut made = others_scaled(what, protein + water, before);
    made.protein = Some(Fraction::from_si(protein));
    made.water = Some(Fraction::from_si(water));
    ingredient.composition = made;
}

/// Milk without its fat.
pub fn skimmed(ingredient: &mut Ingredient) {
    let what = &ingredient.composition;
    let mut made = others_scaled(what, SKIMMED, share(what.fat));
    made.fat = Some(Fraction::from_si(SKIMMED));
    ingredient.composition = made;
}

/// Butter of another fat, and salted where it was not.
pub fn butter(ingredient: &mut Ingredient, fat: f64, salted: bool) {
    let what = &ingredient.composition;
    let mut made = others_scaled(what, fat, share(what.fat));
    made.fat = Some(Fraction::from_si(fat));
    let salt = share(made.sodium) * SALT_PER_SODIUM;
    if salted && salt < SALT_IN_BUTTER / 2.0 {
        made.sodium = Some(Fraction::from_si(SALT_IN_BUTTER / SALT_PER_SODIUM));
        made.ash = Some(Fraction::from_si(share(made.ash) + SALT_IN_BUTTER));
        made.water = Some(Fraction::from_si(
            (share(made.water) - SALT_IN_BUTTER).max(0.0),
        ));
    }
    ingredient.composition = made;
}
