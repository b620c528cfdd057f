//! What goes into something: ingredients by mass as put in, and the water that cooking took off.

use super::tally::Tally;
use crate::formula::{Formula, Resolved};
use crate::larder::{Ingredient, Larder};
use numerics::quantity::Mass;

/// So much of one ingredient.
#[derive(Clone, Debug, PartialEq)]
pub struct Lot<'a> {
    /// Which.
    pub ingredient: &'a Ingredient,
    /// How much, as put in.
    pub mass: Mass,
}

/// Ingredients as put in, each once, and what is known to be missing among them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Content<'a> {
    /// Ingredients, in the order in which they first appear.
    pub lots: Vec<Lot<'a>>,
    /// Water that left in cooking, before the bake.
    pub evaporated: Mass,
    /// Names of things that were not found or not weighed: they are in no figure.
    pub missing: Vec<String>,
}

impl<'a> Content<'a> {
    /// Adds so much of an ingredient.
    pub fn put(&mut self, ingredient: &'a Ingredient, mass: Mass) {
        let same = |lot: &&mut Lot<'a>| {
            lot.ingredient.key == ingredient.key && lot.ingredient.name == ingredient.name
        };
        if let Some(lot) = self.lots.iter_mut().find(same) {
            lot.mass += mass;
        } else {
            self.lots.push(Lot { ingredient, mass });
        }
    }

    /// Names a thing of which nothing is known.
    pub fn miss(&mut self, name: &str) {
        if !self.missing.iter().any(|one| one == name) {
            self.missing.push(name.to_owned());
        }
    }

    /// Adds a share of another content.
    pub fn add(&mut self, other: &Self, share: f64) {
        if share <= 0.0 {
            return;
        }
        for lot in &other.lots {
            self.put(lot.ingredient, lot.mass * share);
        }
        self.evaporated += other.evaporated * share;
        for name in &other.missing {
            self.miss(name);
        }
    }

    /// Mass of everything, less what evaporated.
    pub fn mass(&self) -> Mass {
        let put_in: Mass = self.lots.iter().map(|lot| lot.mass).sum();
        put_in - self.evaporated
    }

    /// What it holds of every nutrient.
    pub fn tally(&self, larder: &Larder) -> Tally {
        let mut tally = Tally::default();
        for lot in &self.lots {
            tally.add(lot.ingredient, larder.nutrients(lot.ingredient), lot.mass);
        }
        tally.dried(self.evaporated)
    }
}

/// What each stage of a formula holds, stages inside it included.
pub fn stages(formula: &Formula) -> Vec<Content<'_>> {
    let mut all: Vec<Content<'_>> = Vec::new();
    for (place, stage) in formula.stages.iter().enumerate() {
        let mut content = Content {
            evaporated: stage.evaporates,
            ..Content::default()
        };
        for item in &stage.items {
            match (&item.what, item.mass) {
                (Resolved::Ingredient(ingredient), Some(mass)) => content.put(ingredient, mass),
                (Resolved::Stage(of), mass) if *of < place => {
                    let earlier = all[*of].clone();
                    let whole = earlier.mass();
                    let share = mass.map_or(1.0, |mass| share_of(mass, whole));
                    content.add(&earlier, share);
                }
                _ => content.miss(&item.called),
            }
        }
        all.push(content);
    }
    all
}

/// A part as a share of its whole; nothing of nothing.
pub fn share_of(part: Mass, whole: Mass) -> f64 {
    if whole > Mass::ZERO {
        part / whole
    } else {
        0.0
    }
}
