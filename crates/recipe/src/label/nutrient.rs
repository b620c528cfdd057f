//! The nutrients that a label speaks of, and the amount of one: what is known, and how much more may be there.

/// A thing that is summed over the ingredients. Masses are in kilograms, energy in joules.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Nutrient {
    /// Energy by the specific factors of the composition table (21 CFR 101.9(c)(1)(i)(A)).
    Energy,
    /// Fat.
    Fat,
    /// Saturated fat.
    Saturated,
    /// Trans fat.
    Trans,
    /// Cholesterol.
    Cholesterol,
    /// Sodium.
    Sodium,
    /// Carbohydrate, fibre included.
    Carbohydrate,
    /// Fibre.
    Fibre,
    /// Sugars.
    Sugars,
    /// Sugars added by whoever made the ingredient or the dough.
    AddedSugars,
    /// Protein by the nitrogen factor of its food.
    Protein,
    /// Protein as nitrogen x 6.25, as European law defines it.
    ProteinByNitrogen,
    /// Vitamin D.
    VitaminD,
    /// Calcium.
    Calcium,
    /// Iron.
    Iron,
    /// Potassium.
    Potassium,
    /// Alcohol as poured.
    Alcohol,
    /// Water.
    Water,
}

impl Nutrient {
    /// Every one, in the order of the variants.
    pub const ALL: [Self; 18] = [
        Self::Energy,
        Self::Fat,
        Self::Saturated,
        Self::Trans,
        Self::Cholesterol,
        Self::Sodium,
        Self::Carbohydrate,
        Self::Fibre,
        Self::Sugars,
        Self::AddedSugars,
        Self::Protein,
        Self::ProteinByNitrogen,
        Self::VitaminD,
        Self::Calcium,
        Self::Iron,
        Self::Potassium,
        Self::Alcohol,
        Self::Water,
    ];

    /// What a sentence calls it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Energy => "energy",
            Self::Fat => "fat",
            Self::Saturated => "saturated fat",
            Self::Trans => "trans fat",
            Self::Cholesterol => "cholesterol",
            Self::Sodium => "sodium",
            Self::Carbohydrate => "carbohydrate",
            Self::Fibre => "fibre",
            Self::Sugars => "sugars",
            Self::AddedSugars => "added sugars",
            Self::Protein => "protein",
            Self::ProteinByNitrogen => "protein as nitrogen x 6.25",
            Self::VitaminD => "vitamin D",
            Self::Calcium => "calcium",
            Self::Iron => "iron",
            Self::Potassium => "potassium",
            Self::Alcohol => "alcohol",
            Self::Water => "water",
        }
    }

    pub(super) const fn place(self) -> usize {
        self as usize
    }
}

/// How much of something: at least `low`, at most `high`. The two are one figure when every
/// ingredient's share is known; `high` is infinite when nothing bounds what is not known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Amount {
    /// What is known to be there, SI.
    pub low: f64,
    /// What can be there at most, SI.
    pub high: f64,
}

impl Amount {
    /// A known amount.
    pub const fn known(value: f64) -> Self {
        Self {
            low: value,
            high: value,
        }
    }

    /// So many times as much.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        // Nothing of an amount without bound is nothing.
        let high = if factor == 0.0 {
            0.0
        } else {
            self.high * factor
        };
        Self {
            low: self.low * factor,
            high,
        }
    }

    /// Both together.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self {
            low: self.low + other.low,
            high: self.high + other.high,
        }
    }

    /// What is left when the other is taken off; never below nothing.
    #[must_use]
    pub fn less(self, other: Self) -> Self {
        Self {
            low: (self.low - other.high).max(0.0),
            high: (self.high - other.low).max(0.0),
        }
    }

    /// No more than the other: sugars are no more than the carbohydrate they are part of.
    #[must_use]
    pub fn at_most(self, other: Self) -> Self {
        Self {
            low: self.low.min(other.low),
            high: self.high.min(other.high),
        }
    }
}
