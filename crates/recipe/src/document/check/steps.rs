//! Checks that a rest says how its end is seen, and that what is baked has a tin.

use super::Finding;
use crate::document::model::{Action, Recipe, Step};
use crate::source::{Diagnostic, code};

/// Checks the steps of every stage and product.
pub fn check(recipe: &Recipe, finding: &mut Finding) {
    let stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    let products = recipe.products.iter().flat_map(|product| &product.steps);
    for step in stages.chain(products) {
        cue(step, finding);
    }
    for product in &recipe.products {
        let bake = product
            .steps
            .iter()
            .find(|s| matches!(s.action, Action::Bake { .. }));
        if let Some(bake) = bake
            && product.tin.is_none()
        {
            finding.said.push(
                Diagnostic::at(
                    code::TIN_MISSING,
                    product.name.span,
                    format!("“{}” is baked, and it is not said in or on what.", product.name.value),
                )
                .label(bake.span, "baked here")
                .hint("Add tin = { name = \"loaf tin\", size = \"21.6 x 11.4 x 6.4 cm\", material = \"light metal\" }; a tray has two dimensions."),
            );
        }
    }
}

/// A rest says how one sees that it is over.
fn cue(step: &Step, finding: &mut Finding) {
    let seen = step.until.as_ref().is_some_and(|until| {
        until.see.is_some()
            || until.volume.is_some()
            || until.height.is_some()
            || until.core.is_some()
            || until.dough.is_some()
    });
    if matches!(step.action, Action::Rest { .. }) && !seen {
        finding.said.push(
            Diagnostic::at(
                code::REST_WITHOUT_CUE,
                step.text.span,
                "This rest does not say how one sees that it is over; its time holds in one kitchen alone.",
            )
            .hint("Add until = { see = \"doubled, the top domed\", volume = \"2 times\" }."),
        );
    }
}
