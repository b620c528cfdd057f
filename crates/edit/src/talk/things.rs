//! The things that a recipe has names for, and where a talk names them: ingredients, stages, products.

use super::speech::{Speech, stem};
use crate::Inputs;
use recipe::formula::Resolved;
use recipe::larder::{Ingredient, Role, YeastForm};

/// What a thing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sort {
    /// Goes in.
    Ingredient,
    /// A stage, by its place among the sections.
    Stage(usize),
    /// A product, by its place among the sections.
    Product(usize),
}

/// Something with names.
#[derive(Clone, Debug)]
pub(super) struct Thing {
    /// What it is.
    pub sort: Sort,
    /// The name that is shown.
    pub name: String,
    /// Its own names as stems, the longest first.
    names: Vec<Vec<String>>,
    /// Names that it may share with others.
    loose: Vec<Vec<String>>,
    /// The ingredient, for what goes in.
    pub ingredient: Option<Ingredient>,
}

/// A place where a thing is named.
#[derive(Clone, Debug)]
pub(super) struct Mention {
    /// The things that may be meant, the likeliest first.
    pub things: Vec<usize>,
    /// Its first word.
    pub first: usize,
    /// The word after it.
    pub end: usize,
}

/// Other words for a stage, by a word of its name.
const STAGE_WORDS: [(&str, &[&str]); 5] = [
    (
        "preferment",
        &[
            "starter",
            "preferment",
            "pre-ferment",
            "pre ferment",
            "firm dough",
            "old dough",
            "stiff dough",
        ],
    ),
    ("sponge", &["sponge", "starter"]),
    ("paste", &["paste", "roux", "scald"]),
    ("filling", &["filling"]),
    ("dough", &["dough"]),
];

/// Other words for a product, by a word of its name.
const PRODUCT_WORDS: [(&str, &[&str]); 6] = [
    ("loaf", &["loaf", "tin loaf"]),
    ("braid", &["braid", "plait"]),
    ("bun", &["bun"]),
    ("knot", &["knot"]),
    ("wreath", &["wreath", "ring", "crown"]),
    ("bread", &["bread"]),
];

/// Every thing of a recipe: ingredients first, then stages, then products.
pub(super) fn things(inputs: &Inputs) -> Vec<Thing> {
    let mut all: Vec<Thing> = Vec::new();
    for item in inputs.formula.every_item() {
        let Resolved::Ingredient(ingredient) = &item.what else {
            continue;
        };
        let known = all.iter_mut().find(|thing| {
            thing
                .ingredient
                .as_ref()
                .is_some_and(|own| own.key == ingredient.key)
        });
        match known {
            Some(thing) => add(&mut thing.names, &item.called),
            None => all.push(ingredient_thing(ingredient, &item.called)),
        }
    }
    let recipe = inputs.recipe;
    for (at, stage) in recipe.stages.iter().enumerate() {
        let name = &stage.name.value;
        let mut names = Vec::new();
        add(&mut names, name);
        for (word, others) in STAGE_WORDS {
            if name.to_lowercase().contains(word) {
                for other in others {
                    add(&mut names, other);
                }
            }
        }
        all.push(Thing {
            sort: Sort::Stage(at),
            name: name.clone(),
            names,
            loose: Vec::new(),
            ingredient: None,
        });
    }
    for (at, product) in recipe.products.iter().enumerate() {
        let name = &product.name.value;
        let mut names = Vec::new();
        add(&mut names, name);
        for (word, others) in PRODUCT_WORDS {
            if stems(name).iter().any(|own| own == word) {
                for other in others {
                    add(&mut names, other);
                }
            }
        }
        if recipe.products.len() == 1 {
            for other in ["bread", "loaf"] {
                add(&mut names, other);
            }
        }
        // "The small ones cool for fifteen minutes, the wreath for forty."
        let mut loose = Vec::new();
        if recipe.products.len() > 1 && product.count.value > 1 {
            for small in ["small one", "little one", "smaller one", "wee one"] {
                add(&mut loose, small);
            }
        }
        all.push(Thing {
            sort: Sort::Product(recipe.stages.len() + at),
            name: name.clone(),
            names,
            loose,
            ingredient: None,
        });
    }
    for thing in &mut all {
        thing
            .names
            .sort_by_key(|name| std::cmp::Reverse(name.len()));
    }
    all
}

/// An ingredient with its names in the larder, and the bare word of its role.
fn ingredient_thing(ingredient: &Ingredient, called: &str) -> Thing {
    let mut names = Vec::new();
    add(&mut names, called);
    add(&mut names, &ingredient.name);
    for name in ingredient.names.iter().filter(|name| !name.contains(',')) {
        add(&mut names, name);
    }
    let mut loose = Vec::new();
    let last = stems(&ingredient.name).pop();
    if let Some(last) = last {
        loose.push(vec![last]);
    }
    // "fifty grams of wholemeal"
    for name in [ingredient.name.as_str(), called] {
        if let Some(kind) = name.strip_suffix(" flour")
            && !matches!(kind, "bread" | "plain" | "all-purpose" | "strong")
        {
            add(&mut loose, kind);
        }
    }
    if let Role::Yeast(form) = ingredient.role {
        let word = match form {
            YeastForm::ActiveDry => "active dry",
            YeastForm::Fresh => "fresh yeast",
            YeastForm::Instant | YeastForm::InstantOsmotolerant => "instant",
        };
        add(&mut names, word);
    }
    let role = match ingredient.role {
        Role::Flour => Some("flour"),
        Role::Egg => Some("egg"),
        Role::Salt => Some("salt"),
        Role::Yeast(_) => Some("yeast"),
        Role::Sugar => Some("sugar"),
        _ => None,
    };
    if let Some(role) = role {
        add(&mut loose, role);
    }
    for (part, word) in [
        ("almond", "almond"),
        ("peel", "peel"),
        ("zest", "zest"),
        ("cardamom", "cardamom"),
        ("cream", "cream"),
        ("milk", "milk"),
        ("butter", "butter"),
        ("raisin", "fruit"),
        ("candied", "fruit"),
        ("currant", "fruit"),
        ("sultana", "fruit"),
    ] {
        if ingredient.name.to_lowercase().contains(part) {
            add(&mut loose, word);
        }
    }
    Thing {
        sort: Sort::Ingredient,
        name: ingredient.name.clone(),
        names,
        loose,
        ingredient: Some(ingredient.clone()),
    }
}

/// The stems of a name's words.
pub(super) fn stems(name: &str) -> Vec<String> {
    name.to_lowercase()
        .split(|c: char| !c.is_alphanumeric() && c != '\'')
        .filter(|word| !word.is_empty())
        .map(stem)
        .collect()
}

fn add(names: &mut Vec<Vec<String>>, name: &str) {
    let name = stems(name);
    if !name.is_empty() && name.len() <= 4 && !names.contains(&name) {
        names.push(name);
    }
}

/// A word before a tin or a bench that makes a deed of a thing: "butter the tin", "flour the bench".
const SURFACES: [&str; 7] = ["tin", "bench", "mould", "tray", "board", "hand", "surfac"];

/// Every place where a thing is named, the longest name at each.
pub(super) fn mentions(speech: &Speech, things: &[Thing]) -> Vec<Mention> {
    let words = &speech.words;
    let mut found = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let length = |names: &[Vec<String>]| {
            names
                .iter()
                .filter(|name| {
                    name.len() <= words.len() - at
                        && name.iter().zip(&words[at..]).all(|(a, b)| *a == b.stem)
                })
                .map(Vec::len)
                .max()
        };
        let own: Vec<(usize, usize)> = things
            .iter()
            .enumerate()
            .filter_map(|(place, thing)| Some((length(&thing.names)?, place)))
            .collect();
        let best = own.iter().map(|(n, _)| *n).max();
        let loose: Vec<(usize, usize)> = things
            .iter()
            .enumerate()
            .filter_map(|(place, thing)| Some((length(&thing.loose)?, place)))
            .collect();
        let longest = best.or_else(|| loose.iter().map(|(n, _)| *n).max());
        let Some(longest) = longest else {
            at += 1;
            continue;
        };
        let mut meant: Vec<usize> = own
            .iter()
            .chain(&loose)
            .filter(|(n, _)| *n == longest)
            .map(|(_, place)| *place)
            .collect();
        let mut seen = Vec::new();
        meant.retain(|place| {
            let new = !seen.contains(place);
            seen.push(*place);
            new
        });
        let deed = longest == 1
            && words
                .get(at + 1)
                .is_some_and(|w| matches!(w.lower.as_str(), "the" | "your" | "a"))
            && words.get(at + 2).is_some_and(|w| {
                SURFACES.contains(&w.stem.as_str())
                    || words
                        .get(at + 3)
                        .is_some_and(|w| SURFACES.contains(&w.stem.as_str()))
            });
        // "roll it up" and "braid them" are deeds, no rolls and no braid.
        let before = at.checked_sub(1).map_or("", |n| words[n].lower.as_str());
        let next = words.get(at + 1).map_or("", |w| w.lower.as_str());
        let verb = longest == 1
            && matches!(
                words[at].stem.as_str(),
                "roll" | "knot" | "braid" | "plait" | "twist"
            )
            && !words[at].lower.ends_with('s')
            && (matches!(
                next,
                "it" | "them" | "each" | "out" | "up" | "to" | "those" | "and" | "into" | "the"
            ) && !matches!(
                before,
                "the" | "a" | "this" | "that" | "your" | "my" | "one"
            ) || matches!(things[meant[0]].sort, Sort::Product(_))
                && words[at].stem == "roll"
                && !matches!(before, "a" | "each" | "every" | "one" | "the" | "little"));
        // "milk dough" and "egg wash" are other things than milk and egg.
        let part_of_name = longest == 1
            && words.get(at + 1).is_some_and(|w| {
                matches!(
                    w.stem.as_str(),
                    "dough" | "wash" | "dish" | "knif" | "paper"
                )
            })
            && things[meant[0]].sort == Sort::Ingredient;
        if !deed && !part_of_name && !verb {
            found.push(Mention {
                things: meant,
                first: at,
                end: at + longest,
            });
        }
        at += longest;
    }
    found
}
