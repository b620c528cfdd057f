//! Checks the way of the stages: made before they are used, used by something, never in a circle.

use super::Finding;
use crate::document::model::Recipe;
use crate::source::{Diagnostic, Span, code, listed, near};
use std::collections::{BTreeMap, BTreeSet};

/// Checks the way of every stage.
pub fn check(recipe: &Recipe, finding: &mut Finding) {
    if recipe.stages.is_empty() {
        finding.said.push(
            Diagnostic::whole(
                code::NO_STAGE,
                "There is no stage: nothing is put together.",
            )
            .hint("Write [[stage]] with a name, items and steps."),
        );
    }
    if recipe.products.is_empty() {
        finding.said.push(
            Diagnostic::whole(
                code::NO_PRODUCT,
                "There is no product: nothing is made of the dough.",
            )
            .hint("Write [[product]] with name, from, count and piece."),
        );
    }
    let mut numbers: BTreeMap<&str, usize> = BTreeMap::new();
    for (number, stage) in recipe.stages.iter().enumerate() {
        if !stage.name.value.is_empty() {
            numbers.entry(&stage.name.value).or_insert(number);
        }
    }
    amounts(recipe, &numbers, finding);
    order(recipe, &numbers, finding);
    products(recipe, &numbers, finding);
    used(recipe, &numbers, finding);
}

/// Everything but a whole stage has an amount.
fn amounts(recipe: &Recipe, numbers: &BTreeMap<&str, usize>, finding: &mut Finding) {
    // While a stage's name is not known, any item may be it.
    let unnamed = recipe
        .stages
        .iter()
        .any(|stage| stage.name.value.is_empty());
    for item in recipe.stages.iter().flat_map(|stage| &stage.items) {
        let name = item.of.value.as_str();
        if item.take.is_some() || name.is_empty() || numbers.contains_key(name) {
            continue;
        }
        finding.incomplete = true;
        if unnamed || finding.unread_between(item.span.start, item.span.end) {
            continue;
        }
        let diagnostic = Diagnostic::at(
            code::KEY_MISSING,
            item.span,
            format!("“{name}” does not say `take`: how much goes in."),
        );
        finding
            .said
            .push(match near(name, numbers.keys().copied()) {
                Some(stage) => diagnostic.hint(format!(
                    "Was the stage “{stage}” meant? A whole stage needs no amount."
                )),
                None => {
                    diagnostic.hint("Say how much, as take = \"15 g\" or \"1 Tbsp\"; only a whole stage needs no amount.")
                }
            });
    }
}

/// A stage is made before it is used.
fn order(recipe: &Recipe, numbers: &BTreeMap<&str, usize>, finding: &mut Finding) {
    let edges: Vec<Vec<usize>> = recipe
        .stages
        .iter()
        .map(|stage| {
            stage
                .items
                .iter()
                .filter_map(|i| numbers.get(i.of.value.as_str()).copied())
                .collect()
        })
        .collect();
    let mut circles: BTreeSet<BTreeSet<usize>> = BTreeSet::new();
    for (user, stage) in recipe.stages.iter().enumerate() {
        for item in &stage.items {
            let Some(&made) = numbers.get(item.of.value.as_str()) else {
                continue;
            };
            if made < user {
                continue;
            }
            let circle = between(&edges, made, user);
            if circle.is_empty() {
                too_early(recipe, user, made, item.span, finding);
            } else if circles.insert(circle.clone()) {
                let names: Vec<String> = circle
                    .iter()
                    .map(|n| format!("“{}”", recipe.stages[*n].name.value))
                    .collect();
                let names: Vec<&str> = names.iter().map(String::as_str).collect();
                let message = if names.len() == 1 {
                    format!("The stage {} goes into itself.", names[0])
                } else {
                    format!(
                        "The stages {} go into each other; none of them can be begun.",
                        listed(&names, "and")
                    )
                };
                finding.said.push(
                    Diagnostic::at(code::STAGES_IN_A_CIRCLE, item.span, message)
                        .hint("Decide which is made first, and take the other out of its items."),
                );
            }
        }
    }
}

/// The stages on a way from one to another along what they use; empty when there is no way.
fn between(edges: &[Vec<usize>], from: usize, to: usize) -> BTreeSet<usize> {
    let reach = |start: usize, edges: &[Vec<usize>]| {
        let mut seen = BTreeSet::from([start]);
        let mut open = vec![start];
        while let Some(stage) = open.pop() {
            for &next in &edges[stage] {
                if seen.insert(next) {
                    open.push(next);
                }
            }
        }
        seen
    };
    let mut back = vec![Vec::new(); edges.len()];
    for (user, used) in edges.iter().enumerate() {
        for &made in used {
            back[made].push(user);
        }
    }
    let forward = reach(from, edges);
    if !forward.contains(&to) {
        return BTreeSet::new();
    }
    forward.intersection(&reach(to, &back)).copied().collect()
}

/// A stage that stands below the one that uses it.
fn too_early(recipe: &Recipe, user: usize, made: usize, span: Span, finding: &mut Finding) {
    let (user, made) = (&recipe.stages[user].name.value, &recipe.stages[made].name);
    finding.said.push(
        Diagnostic::at(
            code::STAGE_USED_TOO_EARLY,
            span,
            format!(
                "“{user}” takes in “{}”, which is made only after it.",
                made.value
            ),
        )
        .label(made.span, "made here")
        .hint(format!("Move the stage “{}” above “{user}”.", made.value)),
    );
}

/// A product is cut from a stage that is there.
fn products(recipe: &Recipe, numbers: &BTreeMap<&str, usize>, finding: &mut Finding) {
    for product in &recipe.products {
        let from = product.from.value.as_str();
        if from.is_empty() || numbers.contains_key(from) {
            continue;
        }
        let diagnostic = Diagnostic::at(
            code::PRODUCT_FED_BY_NOTHING,
            product.from.span,
            format!(
                "“{}” is cut from “{from}”, and there is no such stage.",
                product.name.value
            ),
        );
        finding
            .said
            .push(match near(from, numbers.keys().copied()) {
                Some(meant) => diagnostic.hint(format!("Was “{meant}” meant?")),
                None if numbers.is_empty() => diagnostic,
                None => {
                    let names: Vec<&str> = numbers.keys().copied().collect();
                    diagnostic.hint(format!("The stages are called {}.", listed(&names, "and")))
                }
            });
    }
}

/// Every stage goes somewhere, and a whole one goes to one place.
fn used(recipe: &Recipe, numbers: &BTreeMap<&str, usize>, finding: &mut Finding) {
    let mut whole: Vec<Vec<Span>> = vec![Vec::new(); recipe.stages.len()];
    let mut part: Vec<usize> = vec![0; recipe.stages.len()];
    let items = recipe.stages.iter().enumerate();
    for (user, item) in items.flat_map(|(user, stage)| stage.items.iter().map(move |i| (user, i))) {
        if let Some(&number) = numbers.get(item.of.value.as_str()) {
            // That a stage goes into itself is said already.
            if number == user {
                continue;
            }
            if item.take.is_none() {
                whole[number].push(item.span);
            } else {
                part[number] += 1;
            }
        }
    }
    let cut = recipe.products.iter().flat_map(|p| {
        std::iter::once(p.from.value.as_str()).chain(p.with.iter().map(|i| i.of.value.as_str()))
    });
    for name in cut {
        if let Some(&number) = numbers.get(name) {
            part[number] += 1;
        }
    }
    for (number, stage) in recipe.stages.iter().enumerate() {
        let name = &stage.name;
        if numbers.get(name.value.as_str()) != Some(&number) {
            continue;
        }
        if whole[number].is_empty() && part[number] == 0 {
            finding.said.push(
                Diagnostic::at(
                    code::STAGE_NEVER_USED,
                    name.span,
                    format!("The stage “{}” goes nowhere.", name.value),
                )
                .hint(format!(
                    "Name it in a later stage, {{ of = \"{}\" }}, or in a product, with `from` or `with`.",
                    name.value
                )),
            );
        }
        if let Some(&last) = whole[number].last()
            && (whole[number].len() > 1 || part[number] > 0)
        {
            finding.said.push(
                Diagnostic::at(
                    code::ITEM_USED_TWICE,
                    last,
                    format!(
                        "All of “{}” goes in here, and it goes into something else too.",
                        name.value
                    ),
                )
                .hint("Say how much goes into each: take = \"200 g\"."),
            );
        }
    }
}
