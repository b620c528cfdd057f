//! In what condition things go in: how warm, and whether the yeast is awake.

use super::route::ingredients;
use super::{Case, Rule};
use crate::code;
use recipe::document::model::Action;
use recipe::larder::{Role, YeastForm};
use recipe::source::Diagnostic;

pub const RULES: &[Rule] = &[temperatures, untried_yeast];

fn temperatures(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let mut found = Vec::new();
    for written in &recipe.stages {
        let wanted = written.steps.iter().find_map(|step| match &step.action {
            Action::Mix {
                dough: Some(dough),
                adjust,
                ..
            } => Some((dough, adjust)),
            _ => None,
        });
        let Some((dough, adjust)) = wanted else {
            continue;
        };
        for (item, ingredient, _) in ingredients(recipe, case.inputs.formula, written) {
            let matters = matches!(ingredient.role, Role::Liquid | Role::Egg);
            let solved = adjust
                .as_ref()
                .is_some_and(|name| name.value == item.called());
            if !matters || solved || item.at.is_some() || item.from.is_some() {
                continue;
            }
            found.push(
                Diagnostic::at(
                    code::TEMPERATURE_NOT_SAID,
                    item.of.span,
                    format!(
                        "The dough is to end at a temperature, and that of the {} is not said.",
                        item.called()
                    ),
                )
                .label(dough.span, "wanted")
                .hint("Add `at = \"20 °C\"`, or `from = \"refrigerator\"`, \"room\" or \"tap\"."),
            );
        }
    }
    found
}

fn untried_yeast(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let wakes = super::route::steps(recipe).any(|step| matches!(step.action, Action::Wake { .. }));
    if wakes {
        return Vec::new();
    }
    let mut found = Vec::new();
    for written in &recipe.stages {
        for (item, ingredient, _) in ingredients(recipe, case.inputs.formula, written) {
            if ingredient.role != Role::Yeast(YeastForm::ActiveDry) {
                continue;
            }
            found.push(
                Diagnostic::at(
                    code::YEAST_NOT_TRIED,
                    item.of.span,
                    "Active dry yeast goes in without being woken; old granules show only when the dough does not rise.",
                )
                .hint("Add a step with `wake`: in warm liquid until it foams.")
                .hint("Or take instant yeast, which goes into the flour."),
            );
        }
    }
    found
}
