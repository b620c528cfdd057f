//! The tools that a recipe's steps need, found in the steps themselves.

use super::products;
use crate::Inputs;
use recipe::document::model::{Action, Step, Tool};

/// Tools in the order in which a cook would set them out.
pub fn kit(inputs: &Inputs) -> Vec<String> {
    let recipe = inputs.recipe;
    let mut kit: Vec<String> = vec!["kitchen scale".to_owned()];
    let mut add = |tool: &str| {
        if !kit.iter().any(|other| other == tool) {
            kit.push(tool.to_owned());
        }
    };
    let steps: Vec<&Step> = recipe
        .stages
        .iter()
        .flat_map(|stage| &stage.steps)
        .chain(recipe.products.iter().flat_map(|product| &product.steps))
        .collect();
    if steps.iter().any(|step| by(step, Tool::Mixer)) {
        add("stand mixer with dough hook");
    }
    if steps.iter().any(|step| by(step, Tool::Spoon)) {
        add("wooden spoon");
    }
    if steps
        .iter()
        .any(|step| matches!(step.action, Action::Heat { .. }))
    {
        add("saucepan and whisk");
    }
    if steps.iter().any(|step| reads_a_probe(step)) {
        add("probe thermometer");
    }
    for product in &recipe.products {
        if let Some(tin) = &product.tin {
            add(&products::tin(tin, inputs.market));
        }
    }
    for (word, tool) in [
        ("brush", "pastry brush"),
        ("baking paper", "baking paper"),
        ("lined tray", "baking paper"),
        ("foil", "kitchen foil"),
    ] {
        if steps
            .iter()
            .any(|step| step.text.value.to_lowercase().contains(word))
        {
            add(tool);
        }
    }
    if steps.iter().any(|step| on_a_rack(step)) {
        add("wire rack");
    }
    kit
}

fn by(step: &Step, tool: Tool) -> bool {
    matches!(&step.action, Action::Mix { by, .. } if by.value == tool)
}

fn reads_a_probe(step: &Step) -> bool {
    let until = step
        .until
        .as_ref()
        .is_some_and(|u| u.core.is_some() || u.dough.is_some());
    until
        || matches!(
            &step.action,
            Action::Mix { dough: Some(_), .. } | Action::Wake { .. }
        )
}

fn on_a_rack(step: &Step) -> bool {
    matches!(&step.action, Action::Cool { vessel, .. } if vessel.value == "rack")
}
