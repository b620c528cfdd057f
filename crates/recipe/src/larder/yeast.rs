//! How much of one form of baker's yeast does the work of another.

use super::YeastForm;
use crate::provenance::{Had, Origin};
use numerics::quantity::Mass;

/// Active dry yeast that does the work of one part of fresh yeast, by mass.
pub const ACTIVE_DRY_FOR_FRESH: f64 = 0.40;

/// Instant yeast, of either strain, that does the work of one part of fresh yeast, by mass.
pub const INSTANT_FOR_FRESH: f64 = 0.33;

impl YeastForm {
    /// Mass of this form that does the work of one part of fresh yeast.
    ///
    /// Equal solids would give 0.33 and 0.32; trade tables run from 0.38 to 0.50 for active dry
    /// and from 0.33 to 0.35 for instant. Osmotolerant yeast counts as other instant yeast: what
    /// sugar does to each is a matter for the rise, not for the scale.
    pub const fn for_fresh(self) -> f64 {
        match self {
            Self::Fresh => 1.0,
            Self::ActiveDry => ACTIVE_DRY_FOR_FRESH,
            Self::Instant | Self::InstantOsmotolerant => INSTANT_FOR_FRESH,
        }
    }

    /// Mass of fresh yeast of the same power.
    pub fn fresh_equivalent(self, mass: Mass) -> Mass {
        mass / self.for_fresh()
    }

    /// Mass of another form of the same power.
    pub fn swapped_for(self, mass: Mass, other: Self) -> Mass {
        self.fresh_equivalent(mass) * other.for_fresh()
    }

    /// Where the conversion comes from.
    pub fn conversion_origin() -> Origin {
        Origin::new(
            "fresh : active dry : instant = 1 : 0.40 : 0.33, section on yeast conversions of a \
             professional bread textbook",
            Had::Read,
        )
    }
}
