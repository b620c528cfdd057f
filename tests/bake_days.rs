//! Recipes, kitchens and puzzles of bake days, for the tests that plan them.

// Each test binary that takes this in uses some of it.
#![allow(dead_code)]

use crate::opened::opened;
use bake::simulate::{Follows, How};
use everyoven_tests::tree::{root, text};
use plan::day::lengths::{Length, lengths};
use plan::day::means::Means;
use plan::day::tasks::{Batch, Made, Place, Serve, tasks};
use recipe::document::model::Recipe;
use recipe::formula::Formula;

/// A kitchen that nothing is known of.
pub struct Kitchen(pub bake::kitchen::Kitchen);

impl Kitchen {
    /// The usual one.
    pub fn new() -> Self {
        Self(bake::kitchen::Kitchen::standard())
    }
}

/// A recipe with all that is worked out of it once.
pub struct Known {
    pub recipe: Recipe,
    pub formula: Formula,
    pub lengths: Vec<Length>,
}

/// One of the examples, its steps by the written clock.
pub fn known(kitchen: &Kitchen, name: &str) -> Known {
    let path = format!("examples/{name}.toml");
    assert!(root().join(&path).exists());
    let text = text(&path).expect("UTF-8");
    by_the_clock(&text, kitchen)
}

/// A recipe, its steps by the written clock.
pub fn by_the_clock(text: &str, kitchen: &Kitchen) -> Known {
    let (recipe, formula) = opened(text);
    let how = How {
        follows: Follows::Clock,
        ..How::default()
    };
    let lengths = lengths(&recipe, &formula, &kitchen.0, &how);
    Known {
        recipe,
        formula,
        lengths,
    }
}

/// Batches of recipes, each with a number in its name.
pub fn batches<'a>(of: &[&'a Known]) -> Vec<Batch<'a>> {
    of.iter()
        .enumerate()
        .map(|(at, known)| Batch {
            recipe: &known.recipe,
            formula: &known.formula,
            label: format!("{} {}", known.recipe.title.value, at + 1),
            lengths: known.lengths.clone(),
        })
        .collect()
}

/// The place of a day that begins at six in the evening.
pub fn place<'a>(kitchen: &'a Kitchen, means: &'a Means) -> Place<'a> {
    Place {
        kitchen: &kitchen.0,
        means,
        starts: jiff::civil::date(2026, 12, 23).at(18, 0, 0, 0),
        zone: None,
    }
}

/// The puzzle of a day.
pub fn puzzle(kitchen: &Kitchen, means: &Means, of: &[&Known], serve: &[Serve]) -> Made {
    tasks(&place(kitchen, means), &batches(of), serve)
}
