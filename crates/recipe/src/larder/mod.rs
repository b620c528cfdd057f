//! The larder: what ingredients are made of, what they weigh by the cup, what they may do to people.
//!
//! ```
//! use recipe::larder::{Found, Larder, Role};
//!
//! let larder = Larder::open();
//! let Found::One(flour) = larder.find("plain flour") else { panic!("it is there") };
//! assert_eq!(flour.role, Role::Flour);
//! assert!(matches!(larder.find("flour"), Found::Several(_)));
//! ```

mod composition;
mod egg;
mod household;
mod ingredient;
mod market;
mod names;
mod nutrients;
mod roles;
mod shelf;
mod statement;
mod stock;
mod table;
mod yeast;

pub use egg::{EggClass, Grading, SHELL, egg_class, egg_classes};
pub use ingredient::{Composition, Ingredient, Role, YeastForm};
pub use market::name_in;
pub use names::Found;
pub use nutrients::{AddedSugars, Nutrients, Trans};
pub use statement::StatementWords;
pub use yeast::{ACTIVE_DRY_FOR_FRESH, INSTANT_FOR_FRESH};

use crate::document::model::Amount;
use crate::measure::{Market, Measure, NoWeight};
use crate::provenance::Origin;
use names::Names;
use numerics::quantity::{Mass, Range};

/// Grams of white wheat flour in a US cup, spooned in and levelled: the one convention for cups of
/// flour here (USDA Home Economics Research Report 41, all-purpose, unsifted, spooned; read in a
/// list that quotes it).
pub const FLOUR_CUP: Mass = Mass::from_grams(126.0);

/// What published figures give a cup of white flour: from sifted (US Army recipe card D-036) to
/// scooped from the bag (kitchen tests); read.
pub const FLOUR_CUP_RANGE: Range<Mass> = Range {
    low: Mass::from_grams(113.0),
    high: Mass::from_grams(159.0),
};

/// How flour is measured by the cup in a country, for wherever cups are printed.
pub fn flour_cup_note(market: Market) -> String {
    let larger = Measure::Cup.holds(market) / Measure::Cup.volume();
    let grams = |mass: Mass| numerics::decimal::trimmed((mass * larger).grams(), 0);
    let cup = if market == Market::UnitedStates {
        ""
    } else {
        "metric cups of 250 mL, "
    };
    format!(
        "Cups of white flour: {cup}spoon it in and level it, {} g each. Depending on how it is \
         filled, a cup holds {}–{} g, so a scale is the surer way.",
        grams(FLOUR_CUP),
        grams(FLOUR_CUP_RANGE.low),
        grams(FLOUR_CUP_RANGE.high)
    )
}

/// Every ingredient that is known, by any of its names.
#[derive(Clone, Debug)]
pub struct Larder {
    ingredients: Vec<Ingredient>,
    nutrients: Vec<Option<Nutrients>>,
    statements: Vec<Option<StatementWords>>,
    names: Names,
}

impl Larder {
    /// Opens the larder with everything that the program brings along.
    pub fn open() -> Self {
        shelf::fill()
    }

    /// Looks an ingredient up by the name that a cook writes.
    ///
    /// Capitals, plurals, hyphens and accents do not matter; "flour, bread" is "bread flour" and
    /// "large eggs" are eggs. Keys of the tables are names too. The cook's own names come first.
    pub fn find(&self, name: &str) -> Found<'_> {
        self.names.find(name, &self.ingredients)
    }

    /// Every ingredient of that very name, the usual one first; names that are only near are not
    /// looked for, which is many times quicker.
    pub fn known(&self, name: &str) -> Vec<&Ingredient> {
        let places = self.names.exact(name).unwrap_or_default();
        places
            .iter()
            .map(|place| &self.ingredients[*place])
            .collect()
    }

    /// The ingredient with this key.
    pub fn by_key(&self, key: &str) -> Option<&Ingredient> {
        self.ingredients.iter().rev().find(|one| one.key == key)
    }

    /// Every ingredient, the cook's own last.
    pub fn all(&self) -> &[Ingredient] {
        &self.ingredients
    }

    /// What a label needs of an ingredient; none when nothing but its pack is known.
    pub fn nutrients(&self, ingredient: &Ingredient) -> Option<&Nutrients> {
        self.nutrients[self.place_of(ingredient)?].as_ref()
    }

    /// How an ingredient list names it; none when nothing but its pack is known.
    pub fn statement(&self, ingredient: &Ingredient) -> Option<&StatementWords> {
        self.statements[self.place_of(ingredient)?].as_ref()
    }

    /// The mass of an amount, and where it comes from.
    pub fn weigh(
        &self,
        ingredient: &Ingredient,
        amount: &Amount,
    ) -> Result<(Mass, Origin), NoWeight> {
        crate::measure::weigh(ingredient, amount)
    }

    /// The edible part of a thing as bought: an egg without its shell.
    pub fn edible(&self, ingredient: &Ingredient, as_bought: Mass) -> Mass {
        let refuse = self
            .nutrients(ingredient)
            .map_or(0.0, |all| all.refuse.si());
        as_bought * (1.0 - refuse)
    }

    fn place_of(&self, ingredient: &Ingredient) -> Option<usize> {
        self.ingredients
            .iter()
            .rposition(|one| one.key == ingredient.key)
    }
}

#[cfg(test)]
mod tests;
