//! Nutrition, allergens, the ingredient list and the cost of a recipe, by the laws that govern labels.
//!
//! A home cook's recipe is no packaged food; what is worked out here is for information. The figures
//! are those of the ingredients as put in, less the water that the bake takes.

pub mod allergens;
mod baked;
mod besides;
mod content;
pub mod cost;
pub mod eu;
mod nutrient;
pub mod prices;
pub mod serving;
pub mod statement;
mod tally;
pub mod us;

pub use baked::{Baked, Label, Loss, label};
pub use content::{Content, Lot};
pub use nutrient::{Amount, Nutrient};
pub use tally::{Gap, Tally, Why};

#[cfg(test)]
mod tests;

/// A value as a law has it declared, before it is written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Declared {
    /// A number with so many decimals.
    Number {
        /// The rounded value.
        value: f64,
        /// How many decimals are written.
        decimals: usize,
    },
    /// "Less than 1 g".
    LessThan(f64),
}

impl Declared {
    /// Nothing.
    pub const ZERO: Self = Self::Number {
        value: 0.0,
        decimals: 0,
    };

    /// A number with one decimal where it has one.
    fn number(value: f64) -> Self {
        let whole = (value - numerics::decimal::round_to(value, 1.0)).abs() < 1e-9;
        Self::Number {
            value,
            decimals: usize::from(!whole),
        }
    }
}
