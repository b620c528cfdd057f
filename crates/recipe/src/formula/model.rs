//! The formula as plain values: what each item weighs and what the sums come to.

use crate::larder::Ingredient;
use crate::provenance::Origin;
use numerics::quantity::{Fraction, Mass};

/// A recipe with every mass resolved and every sum done.
///
/// "Dough" is what the products' `from` stages hold, stages inside stages included; fillings and
/// finishes are stages of their own with sums of their own.
#[derive(Clone, Debug, PartialEq)]
pub struct Formula {
    /// Every stage, in written order.
    pub stages: Vec<StageSum>,
    /// The dough: all stages that reach a product.
    pub dough: PartSum,
    /// Flour that goes through a stage before the last, as a share of all flour.
    pub prefermented_flour: Fraction,
    /// Products, in written order.
    pub products: Vec<ProductSum>,
    /// Dough less all pieces; below zero when the pieces want more than there is.
    pub trim: Mass,
    /// Items for bench, tin and top, in written order; no percentages.
    pub besides: Vec<ResolvedItem>,
}

impl Formula {
    /// Every item, those for bench, tin and top included, in written order.
    pub fn every_item(&self) -> impl Iterator<Item = &ResolvedItem> {
        let of_stages = self.stages.iter().flat_map(|stage| &stage.items);
        of_stages.chain(&self.besides)
    }

    /// Whether every item of the dough was found and weighed. What is judged of a dough with a hole
    /// in it would be about the hole.
    pub fn is_whole(&self) -> bool {
        let found =
            |item: &ResolvedItem| item.mass.is_some() && !matches!(item.what, Resolved::Unknown(_));
        let mut dough = self.stages.iter().filter(|stage| stage.in_dough);
        dough.all(|stage| stage.items.iter().all(found))
    }
}

/// A stage with its masses.
#[derive(Clone, Debug, PartialEq)]
pub struct StageSum {
    /// Its name.
    pub name: String,
    /// Whether it is part of the dough, rather than a filling or finish.
    pub in_dough: bool,
    /// Whether it is a preferment: holds yeast and flour and goes into a later stage.
    pub preferment: bool,
    /// Its items, in written order.
    pub items: Vec<ResolvedItem>,
    /// Mass of all items, less what evaporates.
    pub mass: Mass,
    /// Water that evaporates.
    pub evaporates: Mass,
    /// Its own flour (flour in stages inside it not counted) as a share of all flour of the dough.
    pub flour_share: Fraction,
    /// What it holds, stages inside it included.
    pub holds: PartSum,
}

/// An item with its mass.
#[derive(Clone, Debug, PartialEq)]
pub struct ResolvedItem {
    /// The name by which sentences call it.
    pub called: String,
    /// What it is.
    pub what: Resolved,
    /// Its mass; none when it could not be found.
    pub mass: Option<Mass>,
    /// How the mass was had.
    pub origin: Origin,
    /// Share of all flour of the dough (baker's percentage); none outside the dough.
    pub of_flour: Option<Fraction>,
}

/// What an item stands for.
#[derive(Clone, Debug, PartialEq)]
pub enum Resolved {
    /// An ingredient of the larder.
    Ingredient(Box<Ingredient>),
    /// An earlier stage, by its place in `Formula::stages`.
    Stage(usize),
    /// A name that was not found.
    Unknown(String),
}

/// What a part of the recipe holds. Each mass is a sum over ingredients; an ingredient whose
/// figure is unknown counts as none of it and is named in `unknown`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PartSum {
    /// Everything, less what evaporates.
    pub mass: Mass,
    /// Flour as weighed.
    pub flour: Mass,
    /// Water added as such or carried by milk, egg, butter, honey, fresh yeast, less what
    /// evaporates; the flour's own moisture not counted ("water in all").
    pub water: Mass,
    /// Fat of butter, oil, milk, egg, cream; the flour's own not counted.
    pub fat: Mass,
    /// Sugar added as such or by honey and syrup (its sugars); lactose not counted.
    pub sugar: Mass,
    /// Salt added as such or by salted butter.
    pub salt: Mass,
    /// Yeast as fresh-equivalent: mass of fresh yeast of the same power.
    pub yeast_fresh: Mass,
    /// Milk solids not fat.
    pub milk_solids: Mass,
    /// Egg solids, fat included.
    pub egg_solids: Mass,
    /// Protein of the flours, from which the blend's share is worked out.
    pub flour_protein: Mass,
    /// Names of ingredients of which a needed figure is not known, with the figure.
    pub unknown: Vec<(String, &'static str)>,
}

impl PartSum {
    /// A mass of it as a share of its flour; none without flour.
    pub fn of_flour(&self, mass: Mass) -> Option<Fraction> {
        (self.flour > Mass::ZERO).then(|| Fraction::from_si(mass / self.flour))
    }

    /// Sugar on water: what the yeast feels.
    pub fn sugar_on_water(&self) -> Option<Fraction> {
        (self.water > Mass::ZERO).then(|| Fraction::from_si(self.sugar / self.water))
    }

    /// Protein of the flour blend.
    pub fn protein_of_blend(&self) -> Option<Fraction> {
        self.of_flour(self.flour_protein)
    }
}

/// A product with its masses.
#[derive(Clone, Debug, PartialEq)]
pub struct ProductSum {
    /// Its name.
    pub name: String,
    /// Dough in one piece.
    pub piece: Mass,
    /// Filling and the like in one piece.
    pub filling: Mass,
    /// How many pieces.
    pub count: u32,
    /// Dough in all pieces.
    pub dough: Mass,
    /// Share of the raw mass that the bake takes, when the mass after the bake is written.
    pub bake_loss: Option<Fraction>,
    /// Millilitres of tin for each gram of dough, when the tin's volume is written.
    pub tin_ml_per_g: Option<f64>,
}
