//! How much is one serving, by the reference amounts of the United States; for information.

use numerics::quantity::Mass;

/// A reference amount customarily eaten (21 CFR 101.12(b), table 2; read in a reprint).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reference {
    /// What it is of.
    pub of: &'static str,
    /// How much.
    pub mass: Mass,
}

/// Breads and rolls. Brioche is not named by the table; that it counts among them is our judgement.
pub const BREAD: Reference = Reference {
    of: "bread and rolls",
    mass: Mass::from_grams(50.0),
};

/// Sweet rolls, Danish, coffee cakes. That whatever has a filling counts among them is our judgement.
pub const SWEET: Reference = Reference {
    of: "sweet rolls",
    mass: Mass::from_grams(55.0),
};

/// A slice of bread that is sold unsliced: 2 oz, in label law 56 g (table 2, label statement).
pub const SLICE: Mass = Mass::from_grams(56.0);

/// What one serving is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unit {
    /// So many whole pieces.
    Pieces(u32),
    /// A slice of a large piece.
    Slice,
}

/// A serving.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Serving {
    /// Pieces or a slice.
    pub unit: Unit,
    /// Its mass after the bake.
    pub mass: Mass,
    /// How many servings all pieces make.
    pub number: f64,
    /// By which reference amount.
    pub reference: Reference,
}

/// The serving of pieces of this mass (101.9(b)(2)(i), in part from memory): one piece when it is
/// more than half of the reference amount and less than twice it, several small ones that come
/// nearest to it, a slice of a large one.
pub fn serving(piece: Mass, count: u32, filled: bool) -> Serving {
    let reference = if filled { SWEET } else { BREAD };
    let pieces = f64::from(count);
    let of_reference = piece / reference.mass;
    if of_reference >= 2.0 {
        return Serving {
            unit: Unit::Slice,
            mass: SLICE,
            number: piece / SLICE * pieces,
            reference,
        };
    }
    let mut units = 1_u32;
    if of_reference > 0.0 && of_reference <= 0.5 {
        let off = |units: u32| (f64::from(units) * of_reference - 1.0).abs();
        while units < count.max(1) && off(units + 1) < off(units) {
            units += 1;
        }
    }
    Serving {
        unit: Unit::Pieces(units),
        mass: piece * f64::from(units),
        number: pieces / f64::from(units),
        reference,
    }
}
