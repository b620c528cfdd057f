//! What a food is made of, as shares that come to one, for the relations that need them.
//!
//! # Relation
//! Shares of water, protein, fat, carbohydrate, fibre, salt, other ash and alcohol, divided by
//! their sum.
//!
//! # Symbols
//! x, mass fraction, 1.
//!
//! # Valid for
//! Foods whose shares come to between 0.97 and 1.03 before the division.
//!
//! # Source
//! Carbohydrate by difference holds the fibre (USDA National Nutrient Database, release 28,
//! documentation; read in a copy). Salt is 2.54 times sodium (molar masses of `NaCl` and Na:
//! 58.44 / 22.99).
//!
//! # Departures
//! Salt is taken out of the ash, because its specific heat and density are far from those of the
//! ash of plants and milk. Volatile acids, carbon dioxide and the like are not counted.
//!
//! # Checked by
//! `tests/verification/specific_heats.rs`.

use recipe::larder::Composition;

/// Salt for each gram of sodium: 58.44 / 22.99 (standard atomic masses; from memory).
const SALT_PER_SODIUM: f64 = 2.542;

/// Mass fractions that come to one.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Proximate {
    /// Water.
    pub water: f64,
    /// Protein.
    pub protein: f64,
    /// Fat.
    pub fat: f64,
    /// Carbohydrate without its fibre.
    pub carbohydrate: f64,
    /// Fibre.
    pub fibre: f64,
    /// Sodium chloride.
    pub salt: f64,
    /// Ash other than sodium chloride.
    pub ash: f64,
    /// Ethanol.
    pub alcohol: f64,
}

impl Proximate {
    /// The sum of all shares.
    pub fn sum(&self) -> f64 {
        self.water
            + self.protein
            + self.fat
            + self.carbohydrate
            + self.fibre
            + self.salt
            + self.ash
            + self.alcohol
    }

    /// The same proportions, coming to one; none when there is nothing.
    pub fn whole(self) -> Option<Self> {
        let sum = self.sum();
        (sum.is_finite() && sum > 0.0).then(|| Self {
            water: self.water / sum,
            protein: self.protein / sum,
            fat: self.fat / sum,
            carbohydrate: self.carbohydrate / sum,
            fibre: self.fibre / sum,
            salt: self.salt / sum,
            ash: self.ash / sum,
            alcohol: self.alcohol / sum,
        })
    }

    /// What a larder row says; none when its water is not known or its known shares come to less
    /// than 0.97 or more than 1.03.
    pub fn of(composition: &Composition) -> Option<Self> {
        let share = |fraction: Option<numerics::quantity::Fraction>| {
            fraction.map_or(0.0, numerics::quantity::Fraction::si)
        };
        let ash = share(composition.ash);
        let fibre = share(composition.fibre).min(share(composition.carbohydrate));
        let salt = (share(composition.sodium) * SALT_PER_SODIUM).min(ash);
        let known = Self {
            water: composition.water?.si(),
            protein: share(composition.protein),
            fat: share(composition.fat),
            carbohydrate: share(composition.carbohydrate) - fibre,
            fibre,
            salt,
            ash: ash - salt,
            alcohol: share(composition.alcohol),
        };
        ((known.sum() - 1.0).abs() <= 0.03)
            .then(|| known.whole())
            .flatten()
    }
}
