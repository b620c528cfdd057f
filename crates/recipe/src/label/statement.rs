//! The ingredient list in descending order by weight as put in, by the law of each place.

use super::allergens::group_and_kind;
use super::baked::Baked;
use super::content::{Content, Lot};
use crate::larder::{Ingredient, Larder, Role};
use numerics::quantity::Mass;

/// What is at most this share of the whole may follow "Contains 2% or less of" (21 CFR 101.4(a)(2),
/// from memory).
const LITTLE: f64 = 0.02;

/// One entry of a list.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Name, with its parts in brackets when it is compound.
    pub text: String,
    /// The places in the text, in bytes, where an allergen is named.
    pub allergens: Vec<(usize, usize)>,
    /// Mass as put in; of water in Europe, what is left of it.
    pub mass: Mass,
    /// At most 2 % of the whole.
    pub little: bool,
    /// Its parts are the usual ones, from memory: the pack has the true list.
    pub typical: bool,
}

/// The list of the United States: common names, enriched flour and other compound ingredients with
/// their parts (101.4(b), 137.165).
pub fn us(content: &Content<'_>, larder: &Larder) -> Vec<Entry> {
    let whole: Mass = content.lots.iter().map(|lot| lot.mass).sum();
    let mut entries: Vec<Entry> = Vec::new();
    for lot in &content.lots {
        let words = larder.statement(lot.ingredient);
        let name = words.map_or(lot.ingredient.name.as_str(), |words| &words.us);
        // Butter, eggs and milk go by their plain names; what is in them is no list of a baker's.
        let plain = is_plain(lot.ingredient);
        let parts = words
            .filter(|words| !plain || words.from_pack)
            .and_then(|words| words.parts.as_deref());
        let text = bracketed(name, parts);
        let typical = parts.is_some() && words.is_some_and(|words| words.typical);
        push(&mut entries, text, lot.mass, typical);
    }
    finish(entries, whole, &[])
}

/// The list of Europe: allergens of annex II marked within it, water by what the bake leaves of it
/// (annex VII part A, from memory).
pub fn eu(product: &Baked<'_>, larder: &Larder) -> Vec<Entry> {
    let content = &product.content;
    let whole: Mass = content.lots.iter().map(|lot| lot.mass).sum();
    let lost = whole - product.baked;
    let mut entries: Vec<Entry> = Vec::new();
    let mut marks: Vec<String> = Vec::new();
    for lot in &content.lots {
        let ingredient = lot.ingredient;
        for allergen in &ingredient.allergens_eu {
            let (_, kind) = group_and_kind(allergen);
            if !marks.iter().any(|mark| mark == kind) {
                marks.push(kind.to_owned());
            }
        }
        let words = larder.statement(ingredient);
        let compound = !is_plain(ingredient) && ingredient.role != Role::Flour;
        let parts = words
            .filter(|words| compound || words.from_pack)
            .and_then(|words| words.parts.as_deref());
        let name = with_allergen(ingredient);
        let text = bracketed(&name, parts);
        let typical = parts.is_some() && words.is_some_and(|words| words.typical);
        let left = left_of(lot, lost);
        // Water of which nothing is left need not be named.
        if left > Mass::ZERO {
            push(&mut entries, text, left, typical);
        }
    }
    finish(entries, whole, &marks)
}

/// Whether a list names its parts in brackets when it has any.
pub fn names_parts(ingredient: &Ingredient) -> bool {
    !is_plain(ingredient)
}

/// Whether a list names it without its parts: milk, cream, butter, eggs, water, salt, yeast.
fn is_plain(ingredient: &Ingredient) -> bool {
    let milk = ingredient.allergens_us.iter().any(|one| one == "milk");
    match ingredient.role {
        Role::Egg | Role::Salt | Role::Yeast(_) | Role::MilkPowder => true,
        Role::Liquid => milk || is_water(ingredient),
        Role::Fat => milk && !ingredient.flags.iter().any(|f| f.starts_with("pho_era")),
        _ => false,
    }
}

fn is_water(ingredient: &Ingredient) -> bool {
    let water = ingredient.composition.water;
    ingredient.role == Role::Liquid && water.is_some_and(|share| share.si() > 0.99)
}

/// Added water counts as what the finished food has of it: what was lost comes off it first.
fn left_of(lot: &Lot<'_>, gone: Mass) -> Mass {
    if is_water(lot.ingredient) {
        let left = lot.mass - gone;
        if left > Mass::ZERO { left } else { Mass::ZERO }
    } else {
        lot.mass
    }
}

/// The name, with the allergen in brackets where the name does not say it: "bread flour (wheat)".
fn with_allergen(ingredient: &Ingredient) -> String {
    let name = ingredient.name.clone();
    let missing: Vec<&str> = ingredient
        .allergens_eu
        .iter()
        .map(|allergen| group_and_kind(allergen).1)
        .filter(|kind| places(&name, kind).is_empty())
        .collect();
    if missing.is_empty() {
        name
    } else {
        format!("{name} ({})", missing.join(", "))
    }
}

fn bracketed(name: &str, parts: Option<&str>) -> String {
    match parts {
        Some(parts) if parts != name => format!("{name} ({parts})"),
        _ => name.to_owned(),
    }
}

/// Adds an entry, or its mass to the entry of the same words: two yeasts are one.
fn push(entries: &mut Vec<Entry>, text: String, mass: Mass, typical: bool) {
    if let Some(same) = entries.iter_mut().find(|entry| entry.text == text) {
        same.mass += mass;
        return;
    }
    entries.push(Entry {
        text,
        allergens: Vec::new(),
        mass,
        little: false,
        typical,
    });
}

/// Sorts by mass, the heavier first, and marks what is little and what is an allergen.
fn finish(mut entries: Vec<Entry>, whole: Mass, marks: &[String]) -> Vec<Entry> {
    entries.sort_by(|a, b| b.mass.order(a.mass));
    for entry in &mut entries {
        entry.little = entry.mass <= whole * LITTLE;
        for mark in marks {
            entry.allergens.extend(places(&entry.text, mark));
        }
        entry.allergens.sort_unstable();
        entry
            .allergens
            .dedup_by(|later, earlier| later.0 < earlier.1);
    }
    entries
}

/// Where a text names an allergen, whatever its capitals, with a plural s.
fn places(text: &str, allergen: &str) -> Vec<(usize, usize)> {
    // Only ASCII letters change, so that bytes stay where they are.
    let lower = text.to_ascii_lowercase();
    let singular = allergen.strip_suffix('s').unwrap_or(allergen);
    let letter = |c: Option<char>| c.is_some_and(char::is_alphabetic);
    lower
        .match_indices(singular)
        .filter_map(|(at, _)| {
            let mut end = at + singular.len();
            if lower[end..].starts_with('s') {
                end += 1;
            }
            let inside =
                letter(lower[..at].chars().next_back()) || letter(lower[end..].chars().next());
            (!inside).then_some((at, end))
        })
        .collect()
}
