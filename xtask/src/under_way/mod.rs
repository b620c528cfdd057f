//! Bakes under way that are made up: whether the bands told from their readings hold as many truths as they say.

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
use std::path::Path;
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
pub fn set_up<'a>(recipe: &Recipe, sums: &'a Formula) -> Here<'a> {
    let how = How {
        grid: Grid::Coarse,
        ..How::default()
    };
    let taught = anchor(recipe, sums, &[], &how).output;
    let kitchen = Kitchen::standard();
    here_on(recipe, sums, &kitchen, &taught, &[], 11, Grid::Rough)
}

/// Possible kitchens, so many.
pub fn lives(here: &Here<'_>, from: u64, number: u64, world: World) -> Vec<Life> {
    let (kitchen, anchor) = here.as_written();
    let (kitchen, anchor) = (world.kitchen(kitchen), world.anchor(anchor));
    (from..from + number)
        .map(|at| here.life_from(&kitchen, &anchor, here.scores(at), 0.0))
        .collect()
}

/// Trials of a world: how many bands held their truths, and what share of the kitchens counted in the mean.
///
/// Truths of the world that is reckoned with are the kitchens of the bank by turns, each left out of what is weighed.
pub fn trials(here: &Here<'_>, bank: &Ways, world: World, number: u64) -> Held {
    let others = match world {
        World::AsReckoned | World::StraysTwice => Vec::new(),
        _ => lives(here, 1 << 20, number.min(bank.lives.len() as u64), world),
    };
    let mut held = Held::default();
    for at in 0..number {
        let own = usize::try_from(at).unwrap_or(0) % bank.lives.len();
        let (truth, without) = if others.is_empty() {
            (&bank.lives[own], Some(own))
        } else {
            (&others[own % others.len()], None)
        };
        held.add(&trial(here, bank, truth, Way::Bank(without), at, world));
    }
    held
}

/// Trials by the whole road, new kitchens drawn where too few of the usual number count; truths are other kitchens.
pub fn whole(here: &Here<'_>, from: u64, number: u64, each: EachLife<'_>) -> Held {
    let first = Ways::new(here, lives(here, 0, LIVES as u64, World::AsReckoned), 0);
    let mut held = Held::default();
    for at in from..from + number {
        let truth = lives(here, (1 << 21) + at, 1, World::AsReckoned);
        held.add(&trial(
            here,
            &first,
            &truth[0],
            Way::Whole(each),
            at,
            World::AsReckoned,
        ));
    }
    held
}

/// So many possible kitchens in the bank.
pub const BANK: u64 = 480;

/// A table: for each recipe and world, how many bands held their truths.
pub fn told(root: &Path, number: u64) -> String {
    let mut out = format!(
        "| recipe, {number} bakes | world | bakes with enough kitchens | next sign | all that is to come | before, after the band | what readings narrowed of the kitchen | kitchens that count | band of the next sign, min | without readings |\n|---|---|---|---|---|---|---|---|---|---|\n"
    );
    for name in ["same-day-loaf"] {
        let (recipe, sums) = demo(root, name);
        let here = set_up(&recipe, &sums);
        let bank = Ways::new(&here, lives(&here, 0, BANK, World::AsReckoned), 0);
        for world in World::ALL {
            let held = trials(&here, &bank, world, number);
            let (next, all) = held.shares();
            let n = (held.trials - held.left_out).max(1) as f64;
            let share = |count: u64| 100.0 * count as f64 / held.all.0.max(1) as f64;
            let row = format!(
                "| {name} | {} | {} | {:.1} % | {:.1} % | {:.1} %, {:.1} % | {:.1} % of {} | {:.0} % | {:.0} | {:.0} |\n",
                world.words(),
                held.trials - held.left_out,
                100.0 * next,
                100.0 * all,
                share(held.outside.0),
                share(held.outside.1),
                100.0 * held.shares_of_known().0,
                held.narrowed.0,
                100.0 * held.counted / n,
                held.width_min.0 / held.next.0.max(1) as f64,
                held.width_min.1 / held.next.0.max(1) as f64,
            );
            out.push_str(&row);
        }
    }
    out
}
