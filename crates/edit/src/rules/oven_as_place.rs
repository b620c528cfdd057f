//! The oven as a place to rise: not heated meanwhile, and nothing left in it that burns.

use super::order::way;
use super::sentences::phrase;
use super::{Case, Rule};
use crate::code;
use recipe::document::model::{Action, Product, Step};
use recipe::source::Diagnostic;

pub const RULES: &[Rule] = &[oven_as_warm_place, covers_in_the_oven];

/// The dough stands in the oven: "in the oven with its light on".
fn in_the_oven(step: &Step) -> bool {
    let Action::Rest { .. } = step.action else {
        return false;
    };
    let text = &step.text.value;
    [
        "in the oven",
        "in your oven",
        "in a cold oven",
        "in the switched-off oven",
        "oven light",
    ]
    .iter()
    .any(|words| phrase(text, words).is_some())
}

/// The oven is emptied: "take the tin out of the oven".
fn emptied(step: &Step) -> bool {
    let lower = step.text.value.to_lowercase();
    [
        "take it out",
        "take them out",
        "out of the oven",
        "take the",
        "remove",
        "lift it out",
    ]
    .iter()
    .any(|words| lower.contains(words))
}

/// What heats the oven while a dough rises in it: a step behind the rise, or one of another
/// product, which rises at the same time.
fn heated_meanwhile<'a>(
    case: &'a Case,
    product: &Product,
    way: &[&'a Step],
    place: usize,
) -> Option<&'a Step> {
    let heats = |step: &Step| matches!(step.action, Action::Preheat { .. });
    let after = &way[place + 1..];
    // Another rest or the shaping between them empties the oven by itself.
    let stays = after.iter().take_while(|step| {
        !matches!(
            step.action,
            Action::Rest { .. } | Action::Shape { .. } | Action::Divide { .. }
        )
    });
    let stays: Vec<&&Step> = stays.collect();
    let own = stays.iter().find(|step| heats(step));
    if let Some(own) = own {
        return Some(own);
    }
    let of_product = product
        .steps
        .iter()
        .any(|step| step.span == way[place].span);
    let others = case.inputs.recipe.products.iter();
    let mut others = others.filter(|other| other.span != product.span);
    let heated = others.find_map(|other| other.steps.iter().find(|step| heats(step)));
    heated.filter(|_| of_product)
}

fn oven_as_warm_place(case: &Case) -> Vec<Diagnostic> {
    let mut found: Vec<Diagnostic> = Vec::new();
    for product in &case.inputs.recipe.products {
        let way = way(case, product);
        for (place, step) in way.iter().enumerate() {
            if !in_the_oven(step) || emptied(step) {
                continue;
            }
            let Some(heats) = heated_meanwhile(case, product, &way, place) else {
                continue;
            };
            let said = found.iter().any(|one| one.span == Some(step.text.span));
            if emptied(heats) || said {
                continue;
            }
            found.push(
                Diagnostic::at(
                    code::OVEN_RISES_AND_HEATS,
                    step.text.span,
                    "The dough rises in the oven, and the oven is heated before the rise is over: one of the two has no place.",
                )
                .label(heats.span, "the oven is heated")
                .hint("Say when it is taken out to finish its rise in the room, or let it rise elsewhere."),
            );
        }
    }
    found
}

fn covers_in_the_oven(case: &Case) -> Vec<Diagnostic> {
    let mut found: Vec<Diagnostic> = Vec::new();
    for step in super::route::steps(case.inputs.recipe).filter(|step| in_the_oven(step)) {
        let Action::Rest {
            covered: Some(cover),
            ..
        } = &step.action
        else {
            continue;
        };
        let burns = ["film", "cloth", "towel", "plastic", "bag", "wrap"]
            .iter()
            .any(|word| cover.value.to_lowercase().contains(word));
        if !burns || emptied(step) {
            continue;
        }
        found.push(
            Diagnostic::at(
                code::COVER_IN_THE_OVEN,
                cover.span,
                format!("The {} stays in the oven with the dough; whoever heats it and forgets has a fire.", cover.value),
            )
            .label(step.text.span, "in the oven")
            .hint("Say that it is taken out before the oven is switched on, or cover with a second tray or tin."),
        );
    }
    found
}
