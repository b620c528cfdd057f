//! How long a dough keeps in each state, and where: usual figures that a file of scenes may replace.
//!
//! All of them are common practice of kitchens that film, without a source; milk and egg stand at room
//! temperature no longer than two hours (the two-hour rule of USDA FSIS, from memory).

/// Doughs that wait less than this stay where they are, minutes (ours).
pub const NOT_MOVED_MIN: i64 = 15;

/// The refrigerator in words; number and unit stay on one line.
const COLD: &str = "in the refrigerator at 4\u{a0}°C";

/// Where a state keeps.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// Where it is.
    Bench,
    /// In the refrigerator at 4 °C.
    Refrigerator,
    /// On the rack, covered.
    Rack,
}

impl Place {
    /// Where, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Bench => "where it stands",
            Self::Refrigerator => COLD,
            Self::Rack => "on the rack",
        }
    }
}

/// Minutes that a state keeps, and where. `product` is whether it is that of a product, `feeds` of
/// something that goes into a dough.
pub(super) fn usual(state: &str, product: bool, feeds: bool) -> (i64, Place) {
    match state {
        "ripe" | "divided" | "rested" => (120, Place::Refrigerator),
        "cooled" | "finished" if feeds || !product => (120, Place::Bench),
        "risen" => (20, Place::Bench),
        "chilled" | "shaped" => (600, Place::Refrigerator),
        "proofed" => (10, Place::Bench),
        "mixed" | "half risen" | "baked" | "cooked" | "finished" => (5, Place::Bench),
        "cooled" => (600, Place::Rack),
        _ => (0, Place::Bench),
    }
}

/// Everything that [`usual`] knows, for a page: state, minutes, where.
pub const USUAL: [(&str, i64, &str); 10] = [
    ("ripe", 120, COLD),
    ("cooled, of a paste", 120, "where it stands"),
    ("risen", 20, "where it stands"),
    ("chilled", 600, COLD),
    ("divided, rested", 120, COLD),
    ("shaped", 600, COLD),
    ("proofed", 10, "where it stands"),
    (
        "mixed, half risen, cooked, finished, baked",
        5,
        "where it stands",
    ),
    ("cooled, of bread", 600, "on the rack"),
    ("anything else", 0, "where it stands"),
];
