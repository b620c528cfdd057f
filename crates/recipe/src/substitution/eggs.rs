//! Whole eggs of one size for those of another, and the liquid that trues them up.

use numerics::decimal::round_to;
use numerics::quantity::Mass;

/// Water in a gram of egg without shell (76.15 %, USDA SR28 01123, read).
pub const EGG_WATER: f64 = 0.7615;

/// Whole eggs that stand for a mass of egg.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WholeEggs {
    /// How many; one at least.
    pub count: f64,
    /// What they weigh without shell.
    pub mass: Mass,
    /// Liquid, reckoned as water, that is missing; below zero when the eggs bring more.
    pub water: Mass,
}

/// The whole eggs of one size that come nearest to a mass of egg.
pub fn whole_eggs(egg: Mass, one: Mass) -> WholeEggs {
    let count = round_to(egg / one, 1.0).max(1.0);
    let mass = one * count;
    WholeEggs {
        count,
        mass,
        water: (egg - mass) * EGG_WATER,
    }
}
