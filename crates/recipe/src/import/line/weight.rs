//! What an amount in a line weighs: grams as they are, measures by density, packs by their size.

use crate::document::model::Amount;
use crate::import::model::{Bearing, LineAmount, LineUnit, Piece};
use crate::larder::{FLOUR_CUP, FLOUR_CUP_RANGE, Ingredient, Larder, Role};
use crate::measure::{Measure, NoWeight};
use numerics::quantity::{Mass, Range, Volume};

/// A US dry and liquid pint of 16 fl oz and a British one of 20 (NIST Handbook 44, Weights and
/// Measures Act 1985; from memory).
const PINT_ML: [f64; 2] = [473.176_473, 568.261_25];

/// What an amount weighs, and what had to be taken for granted.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Weighed {
    /// As far as published measures lie apart.
    pub mass: Range<Mass>,
    /// The usual size that was taken: "large".
    pub taken: Option<String>,
}

/// Kilograms of one of a unit of mass.
pub(super) fn kilograms(unit: LineUnit) -> Option<f64> {
    Some(match unit {
        LineUnit::Gram => 1e-3,
        LineUnit::Kilogram => 1.0,
        LineUnit::Milligram => 1e-6,
        LineUnit::Ounce => 0.028_349_523_125,
        LineUnit::Pound => 0.453_592_37,
        _ => return None,
    })
}

/// What one of a unit of volume holds, in millilitres, at least and at most.
fn volume_unit(unit: LineUnit) -> Option<[f64; 2]> {
    let measure = match unit {
        LineUnit::Millilitre => Measure::Millilitre,
        LineUnit::Centilitre => Measure::Centilitre,
        LineUnit::Decilitre => Measure::Decilitre,
        LineUnit::Litre => Measure::Litre,
        LineUnit::Cup => Measure::Cup,
        LineUnit::Tablespoon => Measure::Tablespoon,
        LineUnit::Teaspoon => Measure::Teaspoon,
        LineUnit::FluidOunce => Measure::FluidOunce,
        LineUnit::Pint => return Some(PINT_ML),
        LineUnit::Quart => return Some(PINT_ML.map(|ml| ml * 2.0)),
        _ => return None,
    };
    let ml = measure.volume().millilitres();
    Some([ml, ml])
}

/// Whether every piece is a mass.
pub(super) fn is_mass(amount: &LineAmount) -> bool {
    amount
        .pieces
        .iter()
        .all(|piece| kilograms(piece.unit).is_some())
}

/// Whether every piece is a volume.
pub(super) fn is_volume(amount: &LineAmount) -> bool {
    amount
        .pieces
        .iter()
        .all(|piece| volume_unit(piece.unit).is_some())
}

/// The volume of an amount, low and high, in millilitres.
pub(super) fn volume_ml(amount: &LineAmount) -> Option<[f64; 2]> {
    let mut sum = [0.0, 0.0];
    for piece in &amount.pieces {
        let [low, high] = volume_unit(piece.unit)?;
        sum[0] += piece.low * low;
        sum[1] += piece.high * high;
    }
    Some(sum)
}

/// What a thing packs to: flours, and what a spoon holds more or less of.
pub(super) fn packs(
    ingredient: &Ingredient,
    words: &str,
    state: Option<&str>,
    bearing: Option<Bearing>,
) -> bool {
    let key = ingredient.key.as_str();
    if key == "sugar_brown" {
        let packed = bearing == Some(Bearing::Packed)
            || state.is_some_and(|state| state.contains("packed"))
            || words.contains("packed");
        return !packed;
    }
    let cut = |text: &str| {
        text.split_whitespace().any(|word| {
            let word = super::words::bare(word);
            matches!(
                word.as_str(),
                "chopped"
                    | "grated"
                    | "shredded"
                    | "diced"
                    | "sliced"
                    | "minced"
                    | "mashed"
                    | "crumbled"
                    | "flaked"
                    | "slivered"
                    | "crushed"
                    | "torn"
                    | "broken"
                    | "cubed"
                    | "halved"
                    | "halves"
            )
        })
    };
    ingredient.role == Role::Flour
        || [
            "cocoa",
            "oats",
            "bran",
            "almond_",
            "breadcrumb",
            "cornstarch",
            "wheat_germ",
            "F_flour",
            "cheese_",
            "coconut_desic",
            "coconut_sweet",
            "potato",
            "zest",
            "arrowroot",
            "bulgur",
        ]
        .iter()
        .any(|word| key.contains(word))
            && !matches!(key, "almond_drink_unsweetened" | "almond_butter")
        || key.starts_with("almonds_")
        || state.is_some_and(cut)
        || cut(words)
}

/// What an amount of an ingredient weighs; none when that cannot be known.
pub(super) fn weigh(
    larder: &Larder,
    ingredient: &Ingredient,
    amount: &LineAmount,
    packs: bool,
) -> Option<Weighed> {
    let mut taken = None;
    let mut sum = [0.0, 0.0];
    for piece in &amount.pieces {
        let [low, high] = match (kilograms(piece.unit), volume_unit(piece.unit)) {
            (Some(kg), _) => [piece.low * kg, piece.high * kg],
            (None, Some(ml)) => by_volume(ingredient, piece, ml, packs)?,
            (None, None) => by_count(larder, ingredient, piece, &mut taken)?,
        };
        sum[0] += low;
        sum[1] += high;
    }
    Some(Weighed {
        mass: Range {
            low: Mass::from_si(sum[0]),
            high: Mass::from_si(sum[1]),
        },
        taken,
    })
}

fn by_volume(
    ingredient: &Ingredient,
    piece: &Piece,
    ml: [f64; 2],
    packs: bool,
) -> Option<[f64; 2]> {
    let (density, _) = ingredient.by_volume.as_ref()?;
    let mass = |ml: f64| (Volume::from_millilitres(ml) * *density).si();
    // White flour: the published range; other things that pack vary as much, as far as is known.
    let spread = |end: Mass| if packs { end / FLOUR_CUP } else { 1.0 };
    Some([
        mass(piece.low * ml[0]) * spread(FLOUR_CUP_RANGE.low),
        mass(piece.high * ml[1]) * spread(FLOUR_CUP_RANGE.high),
    ])
}

fn by_count(
    larder: &Larder,
    ingredient: &Ingredient,
    piece: &Piece,
    taken: &mut Option<String>,
) -> Option<[f64; 2]> {
    let size = match piece.unit {
        LineUnit::Thing(name) => Some(name.replace('-', " ")),
        _ => None,
    };
    let one = Amount::Count { count: 1.0, size };
    let each = match larder.weigh(ingredient, &one) {
        Ok((mass, _)) => mass,
        Err(NoWeight::SizeNotSaid { usual, mass, .. }) if piece.unit == LineUnit::Number => {
            *taken = Some(usual);
            mass
        }
        Err(_) => return None,
    };
    Some([each.si() * piece.low, each.si() * piece.high])
}
