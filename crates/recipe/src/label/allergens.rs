//! Which allergens the law of each place wants named among some ingredients, and which depend on a pack.

use super::content::Content;
use crate::larder::Ingredient;

/// Names of allergens, each once, in the order in which they first appear.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Named {
    /// By the law of the United States, lower case: "wheat", "tree nut: almond".
    pub us: Vec<String>,
    /// By European law, lower case: "gluten: wheat", "nuts: almond".
    pub eu: Vec<String>,
    /// (allergen, ingredient): counted as there, and the pack decides.
    pub by_pack: Vec<(String, String)>,
}

/// The allergens of ingredients.
pub fn named<'a>(ingredients: impl Iterator<Item = &'a Ingredient>) -> Named {
    let mut all = Named::default();
    for ingredient in ingredients {
        add(&mut all.us, &ingredient.allergens_us);
        add(&mut all.eu, &ingredient.allergens_eu);
        let flags = ingredient.flags.iter();
        for allergen in flags.filter_map(|flag| flag.strip_prefix("allergen_by_pack:")) {
            let pair = (allergen.to_owned(), ingredient.name.clone());
            if !all.by_pack.contains(&pair) {
                all.by_pack.push(pair);
            }
        }
    }
    all
}

fn add(all: &mut Vec<String>, own: &[String]) {
    for name in own {
        if !all.contains(name) {
            all.push(name.clone());
        }
    }
}

/// The allergens of a content.
pub fn of(content: &Content<'_>) -> Named {
    named(content.lots.iter().map(|lot| lot.ingredient))
}

/// Group and kind: "gluten: wheat" is ("gluten", "wheat"), "milk" is ("milk", "milk").
pub fn group_and_kind(name: &str) -> (&str, &str) {
    name.split_once(':')
        .map_or((name, name), |(group, kind)| (group.trim(), kind.trim()))
}
