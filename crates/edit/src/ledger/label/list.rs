//! Ingredient lists as they are printed: the United States' with what it contains, Europe's with allergens set apart.

use super::model::Part;
use crate::Inputs;
use crate::ledger::say;
use recipe::label::Baked;
use recipe::label::allergens::{self, group_and_kind};
use recipe::label::statement::{self, Entry};

/// "Ingredients: ... Contains 2% or less of: ... Contains: wheat, milk."
pub fn us(inputs: &Inputs, product: &Baked<'_>) -> Vec<Part> {
    let entries = statement::us(&product.content, inputs.larder);
    let (little, much): (Vec<&Entry>, Vec<&Entry>) = entries.iter().partition(|entry| entry.little);
    let names = |entries: &[&Entry]| {
        let texts: Vec<_> = entries.iter().map(|entry| entry.text.clone()).collect();
        texts.join(", ")
    };
    let mut text = format!("Ingredients: {}.", names(&much));
    match little.as_slice() {
        [] => {}
        little => text += &format!(" Contains 2% or less of: {}.", names(little)),
    }
    let kinds: Vec<String> = allergens::of(&product.content)
        .us
        .iter()
        .map(|name| group_and_kind(name).1.to_owned())
        .collect();
    text += &if kinds.is_empty() {
        " None of the nine major allergens is an ingredient.".to_owned()
    } else {
        format!(" Contains: {}.", kinds.join(", "))
    };
    vec![Part::Words(text)]
}

/// "Ingredients: bread flour (WHEAT), ...", the allergens as parts of their own.
pub fn eu(inputs: &Inputs, product: &Baked<'_>) -> Vec<Part> {
    let mut parts = vec![Part::Words("Ingredients: ".to_owned())];
    let words = |text: &str, parts: &mut Vec<Part>| {
        if let Some(Part::Words(before)) = parts.last_mut() {
            before.push_str(text);
        } else {
            parts.push(Part::Words(text.to_owned()));
        }
    };
    for (place, entry) in statement::eu(product, inputs.larder).iter().enumerate() {
        if place > 0 {
            words(", ", &mut parts);
        }
        let mut at = 0;
        for (start, end) in &entry.allergens {
            if *start > at {
                words(&entry.text[at..*start], &mut parts);
            }
            parts.push(Part::Allergen(entry.text[*start..*end].to_owned()));
            at = *end;
        }
        if at < entry.text.len() {
            words(&entry.text[at..], &mut parts);
        }
    }
    words(".", &mut parts);
    parts
}

/// Ingredients whose parts are only the usual ones, and flours to which mills add malt.
pub fn honesty(inputs: &Inputs, product: &Baked<'_>) -> Vec<(Honesty, String)> {
    let mut all = Vec::new();
    for lot in &product.content.lots {
        let Some(words) = inputs.larder.statement(lot.ingredient) else {
            continue;
        };
        let name = lot.ingredient.name.clone();
        let compound = statement::names_parts(lot.ingredient);
        if compound && words.typical && words.parts.is_some() {
            all.push((Honesty::Usual, name.clone()));
        }
        if words.malt {
            all.push((Honesty::Malt, name));
        }
    }
    for (allergen, name) in allergens::of(&product.content).by_pack {
        all.push((
            Honesty::ByPack,
            format!("{} in {name}", group_and_kind(&allergen).1),
        ));
    }
    all
}

/// What is to be read on a pack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Honesty {
    /// The usual parts, from memory.
    Usual,
    /// Malted barley flour may be in it.
    Malt,
    /// An allergen that the pack decides.
    ByPack,
}

/// The note for names of one sort.
pub fn note(honesty: Honesty, names: &[String]) -> String {
    let names = say::list(names);
    match honesty {
        Honesty::Usual => format!(
            "For {names} the usual parts are given, from memory: copy the list of your pack."
        ),
        Honesty::Malt => format!(
            "Mills often add a little malted barley to {names}; if your bag says so, European law \
             wants barley named too."
        ),
        Honesty::ByPack => format!("Only the pack can say whether there are {names}."),
    }
}
