//! One ingredient and what is known of it; what is not known is `None`, never zero.

use crate::provenance::Origin;
use numerics::quantity::{Density, Fraction, Mass};

/// Mass fractions of the edible part.
#[derive(Clone, Debug, PartialEq)]
pub struct Composition {
    /// Water.
    pub water: Option<Fraction>,
    /// Protein by the source's nitrogen factor; for flour N x 5.7.
    pub protein: Option<Fraction>,
    /// Fat.
    pub fat: Option<Fraction>,
    /// Carbohydrate by difference, fibre included.
    pub carbohydrate: Option<Fraction>,
    /// Fibre.
    pub fibre: Option<Fraction>,
    /// Sugars, never more than the carbohydrate.
    pub sugars: Option<Fraction>,
    /// Lactose.
    pub lactose: Option<Fraction>,
    /// Ash.
    pub ash: Option<Fraction>,
    /// Sodium.
    pub sodium: Option<Fraction>,
    /// Alcohol.
    pub alcohol: Option<Fraction>,
    /// Where the figures come from.
    pub origin: Origin,
}

/// A form of baker's yeast.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum YeastForm {
    /// Compressed.
    Fresh,
    /// Dried granules that want waking.
    ActiveDry,
    /// Fine dried granules that go into the flour.
    Instant,
    /// Instant, of a strain that bears sugar.
    InstantOsmotolerant,
}

/// What an ingredient does in a dough.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Flour and meal: the hundred that all percentages are of.
    Flour,
    /// Water, milk and other pourable liquids.
    Liquid,
    /// Whole egg, white, yolk.
    Egg,
    /// Butter, oil and other fats.
    Fat,
    /// Sugar, honey, syrup.
    Sugar,
    /// Salt.
    Salt,
    /// Yeast.
    Yeast(YeastForm),
    /// Dried milk and whey.
    MilkPowder,
    /// Spice, zest, extract: flavour in grams.
    Flavour,
    /// Fruit, nuts, seeds, chocolate: things that stay pieces.
    Addition,
    /// Anything else.
    Other,
}

/// One ingredient.
#[derive(Clone, Debug, PartialEq)]
pub struct Ingredient {
    /// Key of its row, or a kebab form of the cook's own name.
    pub key: String,
    /// The name that pages print.
    pub name: String,
    /// What it does in a dough.
    pub role: Role,
    /// What it is made of.
    pub composition: Composition,
    /// Mass per volume as it is measured by the cup (one convention for flour: spooned and
    /// levelled), with where it comes from.
    pub by_volume: Option<(Density, Origin)>,
    /// Mass of one by size or pack: ("large", 50 g), ("packet", 7 g), ("stick", 113.4 g).
    pub by_count: Vec<(String, Mass, Origin)>,
    /// Allergens by US law, lower case: "wheat", "milk", "egg", "tree nut: almond".
    pub allergens_us: Vec<String>,
    /// Allergens by EU law, lower case: "gluten: wheat", "milk", "egg", "nuts: almond".
    pub allergens_eu: Vec<String>,
    /// Names by which people call it, lower case, the first one included.
    pub names: Vec<String>,
    /// What its row warns of, from the data's flags.
    pub flags: Vec<String>,
}
