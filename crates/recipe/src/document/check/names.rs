//! Checks that no two things have one name, and that names in tables name something.

use super::Finding;
use crate::document::model::{Action, Item, Recipe, Step};
use crate::document::scope::Scope;
use crate::source::{Code, Diagnostic, Located, Span, code, near};
use std::collections::BTreeMap;

/// Checks all names.
pub fn check(recipe: &Recipe, finding: &mut Finding) {
    let stages = recipe
        .stages
        .iter()
        .map(|s| (s.name.value.as_str(), s.name.span));
    twice(finding, code::NAME_TWICE, "stages are", stages);
    let products = recipe
        .products
        .iter()
        .map(|p| (p.name.value.as_str(), p.name.span));
    twice(finding, code::NAME_TWICE, "products are", products);
    let pantry = recipe
        .pantry
        .iter()
        .map(|p| (p.name.value.as_str(), p.name.span));
    twice(finding, code::NAME_TWICE, "pantry entries are", pantry);
    for (index, stage) in recipe.stages.iter().enumerate() {
        items_twice(finding, &stage.items);
        let scope = Scope::of_stage(recipe, index);
        for step in &stage.steps {
            step_names(finding, recipe, &scope, step);
        }
    }
    for (index, product) in recipe.products.iter().enumerate() {
        items_twice(finding, &product.with);
        let scope = Scope::of_product(recipe, index);
        for step in &product.steps {
            step_names(finding, recipe, &scope, step);
        }
    }
    let besides: Vec<(String, Span)> = recipe
        .besides
        .iter()
        .filter_map(|item| {
            let place = item.on.as_ref()?.value.word();
            Some((format!("{} for the {place}", item.called()), item.span))
        })
        .collect();
    twice(
        finding,
        code::ITEM_NAME_TWICE,
        "items are",
        besides.iter().map(|(name, span)| (name.as_str(), *span)),
    );
}

/// Says which names come twice, capitals or not.
fn twice<'a>(
    finding: &mut Finding,
    code: Code,
    what: &str,
    names: impl Iterator<Item = (&'a str, Span)>,
) {
    let mut seen: BTreeMap<String, Span> = BTreeMap::new();
    for (name, span) in names.filter(|(name, _)| !name.is_empty()) {
        match seen.get(&name.to_lowercase()) {
            Some(first) => finding.said.push(
                Diagnostic::at(code, span, format!("Two {what} called “{name}”."))
                    .label(*first, "the first")
                    .hint(if code == code::ITEM_NAME_TWICE {
                        "Give one of them a short name of its own: as = \"...\"."
                    } else {
                        "Give one of them another name."
                    }),
            ),
            None => {
                seen.insert(name.to_lowercase(), span);
            }
        }
    }
}

/// Items of one list that sentences cannot tell apart.
fn items_twice(finding: &mut Finding, items: &[Item]) {
    let names = items.iter().map(|item| (item.called(), item.span));
    twice(finding, code::ITEM_NAME_TWICE, "items are", names);
}

/// The names that a step's table holds.
fn step_names(finding: &mut Finding, recipe: &Recipe, scope: &Scope<'_>, step: &Step) {
    let mut items: Vec<&Located<String>> = Vec::new();
    match &step.action {
        Action::Ready { what, .. } => items.extend(what),
        Action::Wake { yeast, liquid, .. } => items.extend([yeast, liquid]),
        Action::Mix { adjust, .. } => items.extend(adjust),
        Action::Divide { into, .. } => {
            let known: Vec<&str> = recipe
                .products
                .iter()
                .map(|p| p.name.value.as_str())
                .collect();
            for name in into {
                unknown(finding, name, "no product", &known);
            }
        }
        _ => {}
    }
    let known = scope.names();
    for name in items {
        unknown(finding, name, "nothing of this stage", &known);
    }
}

/// Says that a name names nothing, if so.
fn unknown(finding: &mut Finding, name: &Located<String>, nothing: &str, known: &[&str]) {
    // An empty name could not be read and has been said.
    if name.value.is_empty() || known.contains(&name.value.as_str()) || known.contains(&"") {
        return;
    }
    let diagnostic = Diagnostic::at(
        code::PLACEHOLDER_UNKNOWN,
        name.span,
        format!("“{}” names {nothing}.", name.value),
    );
    finding
        .said
        .push(match near(&name.value, known.iter().copied()) {
            Some(meant) => diagnostic.hint(format!("Was “{meant}” meant?")),
            None => diagnostic.hint("Use the short name, from `as`, by which sentences call it."),
        });
}
