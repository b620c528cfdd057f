//! What a recipe contains that the law wants named, and honesty about the rest.

use super::model::AllergenLine;
use super::{readers, say};
use crate::Inputs;
use recipe::formula::{Resolved, ResolvedItem};
use recipe::label::allergens::{Named, named};
use recipe::measure::Market;
use std::collections::BTreeSet;

/// Allergens of every ingredient, the ones for bench, tin and top included.
pub fn line(inputs: &Inputs) -> AllergenLine {
    of_items(inputs.formula.every_item(), inputs.market)
}

/// Allergens of some items alone: of what is in one bowl.
pub fn of_items<'a>(
    items: impl Iterator<Item = &'a ResolvedItem>,
    market: Option<Market>,
) -> AllergenLine {
    let Named { us, eu, .. } = named(items.filter_map(|item| match &item.what {
        Resolved::Ingredient(ingredient) => Some(ingredient.as_ref()),
        _ => None,
    }));
    let names = in_words(&us, &eu, market);
    let contains = if names.is_empty() {
        "None of the allergens that US or EU law names is an ingredient.".to_owned()
    } else {
        format!("Contains {}.", say::list(&names))
    };
    AllergenLine {
        contains,
        honesty: "Worked out from the ingredients by name; the packs may list more, and a \
                  kitchen that handles other foods leaves traces."
            .to_owned(),
        us,
        eu,
    }
}

/// One list for both laws: "wheat (gluten)", "milk", "almond".
fn in_words(us: &[String], eu: &[String], market: Option<Market>) -> Vec<String> {
    let mut seen = BTreeSet::new();
    let mut names = Vec::new();
    for name in eu.iter().chain(us) {
        let (group, kind) = match name.split_once(':') {
            Some((group, kind)) => (group.trim(), kind.trim()),
            None => (name.as_str(), name.as_str()),
        };
        let kind = readers::allergen(&plain(kind), market);
        if seen.insert(kind.clone()) {
            names.push(if group == "gluten" {
                format!("{kind} (gluten)")
            } else {
                kind
            });
        }
    }
    names
}

/// Laws speak in plurals of some and not of others.
fn plain(name: &str) -> String {
    match name {
        "eggs" => "egg",
        "almonds" => "almond",
        "soybeans" => "soya",
        "peanuts" => "peanut",
        other => other,
    }
    .to_owned()
}
