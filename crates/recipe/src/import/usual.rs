//! What is usual for each class of bread, for whatever a pasted text leaves out; all of it common
//! practice of home bakers, meant to be replaced by the cook's own.

use crate::document::model::Kind;

/// What is usual for a class of bread.
#[derive(Clone, Copy, Debug)]
pub struct Usual {
    /// The oven's dial, °C.
    pub oven_c: f64,
    /// Bake of a piece below [`SMALL_G`], minutes: usual, from, to.
    pub small_min: [f64; 3],
    /// Bake of a larger one, minutes: usual, from, to.
    pub loaf_min: [f64; 3],
    /// Dough at the end of its mix, °C from and to.
    pub dough_c: [f64; 2],
    /// First rise in a room, minutes: usual, from, to.
    pub rise_min: [f64; 3],
    /// Last rise in a room, minutes: usual, from, to.
    pub proof_min: [f64; 3],
    /// How it is called.
    pub says: &'static str,
}

/// A raw piece below so many grams is a roll.
pub const SMALL_G: f64 = 200.0;

/// A room, °C.
pub const ROOM_C: f64 = 21.0;
/// A warm place, °C.
pub const WARM_C: f64 = 27.0;
/// A refrigerator, °C.
pub const REFRIGERATOR_C: f64 = 4.0;
/// A cool room or cellar, °C.
pub const COOL_C: f64 = 14.0;

/// What is usual for a class.
pub const fn usual(kind: Kind) -> Usual {
    match kind {
        Kind::Lean => Usual {
            oven_c: 230.0,
            small_min: [18.0, 15.0, 22.0],
            loaf_min: [38.0, 32.0, 45.0],
            dough_c: [24.0, 26.0],
            rise_min: [90.0, 60.0, 120.0],
            proof_min: [60.0, 45.0, 75.0],
            says: "lean bread",
        },
        Kind::Soft => Usual {
            oven_c: 190.0,
            small_min: [16.0, 14.0, 18.0],
            loaf_min: [35.0, 30.0, 40.0],
            dough_c: [25.0, 27.0],
            rise_min: [75.0, 60.0, 105.0],
            proof_min: [50.0, 40.0, 70.0],
            says: "soft loaves and rolls",
        },
        Kind::Enriched => Usual {
            oven_c: 180.0,
            small_min: [16.0, 14.0, 18.0],
            loaf_min: [36.0, 32.0, 42.0],
            dough_c: [25.0, 27.0],
            rise_min: [90.0, 60.0, 120.0],
            proof_min: [60.0, 45.0, 80.0],
            says: "enriched breads",
        },
        Kind::Rich => Usual {
            oven_c: 175.0,
            small_min: [15.0, 13.0, 18.0],
            loaf_min: [38.0, 33.0, 45.0],
            dough_c: [23.0, 25.0],
            rise_min: [120.0, 90.0, 150.0],
            proof_min: [90.0, 60.0, 120.0],
            says: "butter-rich breads",
        },
    }
}
