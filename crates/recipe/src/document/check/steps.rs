//! Checks that a rest says how its end is seen, and that what is baked has a tin.

use super::Finding;
use crate::document::model::{Action, Recipe, Standing, Step};
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
            .hint(sign_of(&step.action)),
        );
    }
}

/// The sign that a rest of the kind ends with, in the trade's words: pieces on the bench relax, a dough in the cold gets
/// firm, everything else rises.
fn sign_of(action: &Action) -> &'static str {
    match action {
        Action::Rest { vessel, timing, .. }
            if vessel.value == "bench" && timing.usual.value.minutes() <= BENCH_REST_MIN =>
        {
            "Add until = { see = \"relaxed: a piece rolls out without springing back\" }."
        }
        Action::Rest { place, .. } if place.value == Standing::Refrigerator => {
            "Add until = { see = \"firm to the finger, cold all through\", dough = \"8 °C\" }."
        }
        _ => "Add until = { see = \"doubled, the top domed\", volume = \"2 times\" }.",
    }
}

/// What rests on the bench no longer than this relaxes and does not rise, in minutes; our own choice.
const BENCH_REST_MIN: f64 = 30.0;
