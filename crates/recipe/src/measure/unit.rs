//! Kitchen measures of volume and what each holds.

use super::Market;
use numerics::quantity::Volume;

/// A measure of volume.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Measure {
    /// US customary cup, 236.588 mL.
    Cup,
    /// US tablespoon, 14.787 mL.
    Tablespoon,
    /// US teaspoon, 4.929 mL.
    Teaspoon,
    /// US fluid ounce, 29.574 mL.
    FluidOunce,
    /// Litre.
    Litre,
    /// Decilitre.
    Decilitre,
    /// Centilitre.
    Centilitre,
    /// Millilitre.
    Millilitre,
}

impl Measure {
    /// Every measure.
    pub const ALL: [Self; 8] = [
        Self::Cup,
        Self::Tablespoon,
        Self::Teaspoon,
        Self::FluidOunce,
        Self::Litre,
        Self::Decilitre,
        Self::Centilitre,
        Self::Millilitre,
    ];

    /// What one of it holds (exact; NIST Handbook 44, appendix C, from memory).
    pub const fn volume(self) -> Volume {
        Volume::from_millilitres(match self {
            Self::Cup => 236.588_236_5,
            Self::Tablespoon => 14.786_764_781_25,
            Self::Teaspoon => 4.928_921_593_75,
            Self::FluidOunce => 29.573_529_562_5,
            Self::Litre => 1000.0,
            Self::Decilitre => 100.0,
            Self::Centilitre => 10.0,
            Self::Millilitre => 1.0,
        })
    }

    /// What one of it holds in the kitchens of a country: a document's cups and spoons are those of
    /// the United States; elsewhere cups are metric, and an Australian tablespoon is larger (the
    /// metric sizes from memory of national practice; the Australian tablespoon read in a table of
    /// household units).
    pub const fn holds(self, market: Market) -> Volume {
        let millilitres = match (market, self) {
            (Market::UnitedKingdom | Market::Australia, Self::Cup) => 250.0,
            (Market::UnitedKingdom, Self::Tablespoon) => 15.0,
            (Market::Australia, Self::Tablespoon) => 20.0,
            (Market::UnitedKingdom | Market::Australia, Self::Teaspoon) => 5.0,
            _ => return self.volume(),
        };
        Volume::from_millilitres(millilitres)
    }

    /// The short form that a document and a card print.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Cup => "cup",
            Self::Tablespoon => "Tbsp",
            Self::Teaspoon => "tsp",
            Self::FluidOunce => "fl oz",
            Self::Litre => "L",
            Self::Decilitre => "dL",
            Self::Centilitre => "cL",
            Self::Millilitre => "mL",
        }
    }
}
