//! A recipe's text read and summed, as most tests want it.

use recipe::document::model::Recipe;
use recipe::document::read_recipe;
use recipe::formula::{Formula, formula};
use recipe::larder::Larder;

/// The recipe and its formula, by the larder and the recipe's own pantry.
pub fn opened(text: &str) -> (Recipe, Formula) {
    let read = read_recipe(text);
    let recipe = read
        .output
        .unwrap_or_else(|| panic!("{:?}", read.diagnostics));
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let sums = formula(&recipe, &larder).output;
    (recipe, sums)
}
