//! One flour for another: the water that it wants, and the gluten that makes a weak one strong.

use crate::larder::{Ingredient, Role};
use numerics::quantity::{Fraction, Mass, Range};

/// Points of water on flour that one point more of protein takes up.
///
/// Bakers reckon 1 to 1.5 (common practice); measured absorption rises with protein as
/// 1.4 P in Farrand's equation of 1964 (from memory).
pub const WATER_PER_POINT: f64 = 1.25;

/// What bakers reckon for a point of protein.
pub const WATER_PER_POINT_RANGE: Range<f64> = Range {
    low: 1.0,
    high: 1.5,
};

/// Points of water that wholemeal takes up beyond a white flour of 12 % protein: usual figures run
/// from 5 to 12 for all of the flour (from memory), and some advise far more for a quarter of it.
pub const WHOLEGRAIN_WATER: f64 = 8.0;

/// What is usually said of wholemeal for all of the flour, in points.
pub const WHOLEGRAIN_WATER_RANGE: Range<f64> = Range {
    low: 5.0,
    high: 12.0,
};

/// The protein from which the water of white flours is reckoned.
const MIDDLE: f64 = 12.0;

/// Flour with more fibre than this is ground from whole grains: white flour has 2.7 %, wholemeal
/// 10.7 % (USDA SR28 20581, 20080).
const WHOLEGRAIN_FROM: f64 = 0.06;

/// Whether a flour is ground from whole grains.
pub fn is_wholegrain(flour: &Ingredient) -> bool {
    let fibre = flour.composition.fibre;
    fibre.is_some_and(|fibre| fibre.si() > WHOLEGRAIN_FROM)
}

/// Whether its protein forms gluten: wheat, spelt, durum and their like, by the law's word wheat.
/// Rye and barley have gluten in the law's sense and hold no gas by it.
pub fn forms_gluten(ingredient: &Ingredient) -> bool {
    let wheat = ingredient.allergens_us.iter().any(|one| one == "wheat");
    wheat && (ingredient.role == Role::Flour || ingredient.key == "gluten_vital")
}

/// Points of water on flour that this flour takes up beyond a white one of 12 % protein.
pub fn absorbs(flour: &Ingredient) -> f64 {
    if is_wholegrain(flour) {
        return WHOLEGRAIN_WATER;
    }
    let protein = flour.composition.protein;
    protein.map_or(0.0, |protein| {
        WATER_PER_POINT * (protein.percent() - MIDDLE)
    })
}

/// The gluten that brings a weak flour to the protein wanted, flour and gluten together weighing
/// `all`: x = F (Pt - Pb) / (Pg - Pb), a plain mass balance. Nothing when the flour is strong
/// enough, none when no amount does it.
pub fn gluten_for(all: Mass, wanted: Fraction, base: Fraction, gluten: Fraction) -> Option<Mass> {
    if base >= wanted {
        return Some(Mass::ZERO);
    }
    (gluten > wanted).then(|| all * ((wanted - base) / (gluten - base)))
}
