//! Bakes under way that are made up: whether the bands told from their readings hold as many truths as they say.

pub mod evidence;
mod teach;
mod trial;

use bake::anchor::anchor;
use bake::condition::{EachLife, Here, LIVES, Life, Ways, here_on};
use bake::kitchen::{Friction, Kitchen};
use bake::simulate::{Anchor, Grid, How};
use numerics::quantity::TemperatureDifference;
use recipe::document::model::Recipe;
use recipe::document::read_recipe;
use recipe::formula::{Formula, formula};
use recipe::larder::Larder;
use std::ops::Range;
use std::path::Path;
pub use teach::{Taught, taught};
pub use trial::{Held, Way, trial};

/// In which world the truths live.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum World {
    /// The one that is reckoned with.
    AsReckoned,
    /// Mixing warms a dough 30 % less.
    LessFriction,
    /// The yeast answers to warmth a fifth more steeply.
    SteeperYeast,
    /// The oven is 15 °C hotter.
    HotterOven,
    /// The reckoning strays twice as far in every step.
    StraysTwice,
}

impl World {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::AsReckoned,
        Self::LessFriction,
        Self::SteeperYeast,
        Self::HotterOven,
        Self::StraysTwice,
    ];

    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::AsReckoned => "as reckoned",
            Self::LessFriction => "mixing warms 30 % less",
            Self::SteeperYeast => "yeast answers to warmth 20 % more steeply",
            Self::HotterOven => "oven 15 °C hotter",
            Self::StraysTwice => "the reckoning strays twice as far",
        }
    }

    fn kitchen(self, kitchen: &Kitchen) -> Kitchen {
        let mut made = kitchen.clone();
        match self {
            Self::LessFriction => {
                made.friction = match made.friction {
                    Friction::Power(power) => Friction::Power(power * 0.7),
                    Friction::Rise(rise) => Friction::Rise(rise * 0.7),
                }
            }
            Self::HotterOven => made.oven.hotter += TemperatureDifference::from_si(15.0),
            _ => {}
        }
        made
    }

    fn anchor(self, anchor: &Anchor) -> Anchor {
        let mut made = *anchor;
        if self == Self::SteeperYeast {
            made.warmth *= 1.2;
        }
        made
    }
}

/// Reads a demo.
///
/// # Panics
/// When it cannot be read.
pub fn demo(root: &Path, name: &str) -> (Recipe, Formula) {
    let path = root.join("examples").join(format!("{name}.toml"));
    let text = std::fs::read_to_string(&path).expect("a demo");
    let recipe = read_recipe(&text).output.expect("it reads");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let sums = formula(&recipe, &larder).output;
    (recipe, sums)
}

/// A bake in a usual kitchen with a warm place, as the tested bakes teach it.
pub fn set_up(recipe: &Recipe, sums: &Formula) -> Here {
    let how = How {
        grid: Grid::Coarse,
        ..How::default()
    };
    let taught = anchor(recipe, sums, &[], &how).output;
    let kitchen = Kitchen::standard();
    here_on(recipe, sums, &kitchen, &taught, &[], 11, Grid::Rough)
}

/// Possible kitchens, so many.
pub fn lives(here: &Here, from: u64, number: u64, world: World) -> Vec<Life> {
    let (kitchen, anchor) = here.as_written();
    let (kitchen, anchor) = (world.kitchen(kitchen), world.anchor(anchor));
    (from..from + number)
        .map(|at| here.life_from(&kitchen, &anchor, here.scores(at), 0.0))
        .collect()
}

/// Trials by the whole road, new kitchens drawn where too few of the usual number count; truths are other kitchens.
pub fn whole(here: &Here, world: World, range: Range<u64>, each: EachLife<'_>) -> Held {
    let first = Ways::new(here, lives(here, 0, LIVES as u64, World::AsReckoned), 0);
    let mut held = Held::default();
    for at in range {
        let truth = lives(here, (1 << 21) + at, 1, world);
        held.add(&trial(here, &first, &truth[0], Way::Whole(each), at, world));
    }
    held
}

/// Trials whose truths are kitchens of their own, none of the bank.
pub fn from_bank(here: &Here, bank: &Ways, world: World, range: Range<u64>) -> Held {
    let mut held = Held::default();
    for at in range {
        let truth = lives(here, (1 << 20) + at, 1, world);
        held.add(&trial(here, bank, &truth[0], Way::Bank, at, world));
    }
    held
}
