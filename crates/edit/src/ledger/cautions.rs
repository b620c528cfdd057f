//! The usual cautions that ingredients and steps call for, each with who says so.

use super::model::Caution;
use crate::Inputs;
use numerics::quantity::Temperature;
use recipe::document::model::{Action, Step};
use recipe::formula::Resolved;
use recipe::larder::{Ingredient, Role};

/// Cautions in a fixed order, only those that this recipe calls for.
pub fn cautions(inputs: &Inputs) -> Vec<Caution> {
    let mut all = Vec::new();
    let mut add = |text: &str, source: &str| {
        all.push(Caution {
            text: text.to_owned(),
            source: source.to_owned(),
        });
    };
    let ingredients = ingredients(inputs);
    let has = |wanted: &dyn Fn(&Ingredient) -> bool| ingredients.iter().any(|i| wanted(i));
    let egg = has(&|i| i.role == Role::Egg);
    if has(&|i| i.role == Role::Flour) {
        add(
            if egg {
                "Raw flour and raw egg can make people ill: do not taste the dough, and wash \
                 hands, bowls and bench after it."
            } else {
                "Raw flour can make people ill: do not taste the dough, and wash hands and \
                 bench after it."
            },
            "US FDA and CDC advice on raw flour and dough, second-hand",
        );
    }
    if has(&|i| i.key == "honey") {
        add(
            "Honey, also baked, is not for infants under 12 months.",
            "public-health advice on infant botulism, common practice",
        );
    }
    if steps(inputs).any(steam) {
        add(
            "Steam burns: stand to the side when water meets the hot pan, wear long oven \
             gloves, and keep water off the glass of the oven door.",
            "common practice",
        );
    }
    if let Some(text) = paper(inputs) {
        add(&text, "the limit on the paper's pack, common practice");
    }
    if steps(inputs).any(|step| matches!(step.action, Action::Bake { .. })) {
        add(
            "Whoever sells bread follows the food code of the place; for a question of \
             health, ask someone licensed to answer it.",
            "common practice",
        );
    }
    all
}

fn ingredients<'a>(inputs: &Inputs<'a>) -> Vec<&'a Ingredient> {
    inputs
        .formula
        .every_item()
        .filter_map(|item| match &item.what {
            Resolved::Ingredient(ingredient) => Some(ingredient.as_ref()),
            _ => None,
        })
        .collect()
}

fn steps<'a>(inputs: &Inputs<'a>) -> impl Iterator<Item = &'a Step> {
    let recipe = inputs.recipe;
    let of_stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    of_stages.chain(recipe.products.iter().flat_map(|product| &product.steps))
}

/// From this dial on, paper is near the limit that packs usually state, °C (common practice).
const NEAR_THE_PAPER: f64 = 220.0;

/// A word on baking paper in a hot oven, where the recipe bakes on it.
fn paper(inputs: &Inputs) -> Option<String> {
    let on_paper = |step: &Step| step.text.value.to_lowercase().contains("baking paper");
    let lined = inputs.recipe.products.iter().any(|product| {
        let tin = product.tin.as_ref();
        tin.is_some_and(|tin| tin.name.value.to_lowercase().contains("lined"))
    });
    if !lined && !steps(inputs).any(on_paper) {
        return None;
    }
    let hottest = steps(inputs).flat_map(dials).max_by(|a, b| a.order(*b))?;
    (hottest.celsius() >= NEAR_THE_PAPER).then(|| {
        format!(
            "Baking paper bears the temperature that its pack states, often 220 °C / 430 °F, and \
             this bakes at {}: read the pack, and trim the paper to what it carries.",
            super::readers::dial(hottest, inputs.market)
        )
    })
}

/// What the dial says in each phase of a bake.
pub(super) fn dials(step: &Step) -> Vec<Temperature> {
    match &step.action {
        Action::Bake { phases, .. } => phases.iter().map(|phase| phase.at.value).collect(),
        _ => Vec::new(),
    }
}

fn steam(step: &Step) -> bool {
    match &step.action {
        Action::Bake { phases, .. } => phases
            .iter()
            .any(|phase| phase.steam.as_ref().is_some_and(|steam| steam.value)),
        _ => false,
    }
}
