//! Which product gets how much of what is for bench, tin and top.

use crate::document::model::{Product, Recipe};
use crate::document::placeholder::{Part, Piece, parse_sentence};
use numerics::quantity::Mass;

/// How an item for bench, tin or top is shared out: for each product its share of the whole.
///
/// A mass that a product's sentence names is that product's. The rest goes to the products whose
/// sentences name the item, and to those named in the same sentence ("keeping some for the buns"),
/// by the mass of their dough. What no product names (flour for the bench) goes to all.
pub fn shares(recipe: &Recipe, item: usize, mass: Mass, dough: &[Mass]) -> Vec<f64> {
    let count = recipe.products.len();
    let mut exact = vec![0.0; count];
    let mut named = vec![false; count];
    for (place, product) in recipe.products.iter().enumerate() {
        for text in sentences(product) {
            let Some(part) = names(recipe, item, text) else {
                continue;
            };
            match part {
                Part::Mass(part) if mass > Mass::ZERO => exact[place] += part / mass,
                _ => {
                    named[place] = true;
                    for (other, product) in recipe.products.iter().enumerate() {
                        named[other] |= other != place && says(text, &product.name.value);
                    }
                }
            }
        }
    }
    let said: f64 = exact.iter().sum();
    if said >= 1.0 - 1e-9 {
        return exact.iter().map(|share| share / said).collect();
    }
    if named.iter().all(|one| !one) {
        if said > 0.0 {
            return exact.iter().map(|share| share / said).collect();
        }
        named = vec![true; count];
    }
    let among: Mass = of_named(dough, &named).map(|(_, mass)| mass).sum();
    for (place, mass) in of_named(dough, &named) {
        exact[place] += (1.0 - said) * super::content::share_of(mass, among);
    }
    exact
}

fn of_named<'a>(dough: &'a [Mass], named: &'a [bool]) -> impl Iterator<Item = (usize, Mass)> + 'a {
    let pairs = dough.iter().zip(named).enumerate();
    pairs.filter_map(|(place, (mass, named))| named.then_some((place, *mass)))
}

/// Every sentence of a product's steps.
fn sentences(product: &Product) -> impl Iterator<Item = &str> {
    product
        .steps
        .iter()
        .flat_map(|step| step.text.value.split(". "))
}

/// How much of the item a sentence names, when it names it.
fn names(recipe: &Recipe, item: usize, text: &str) -> Option<Part> {
    let wanted = recipe.besides.get(item)?;
    let called = wanted.called();
    let (pieces, _) = parse_sentence(text, 0);
    pieces.into_iter().find_map(|piece| match piece.value {
        Piece::Besides { item, place } => {
            let here = wanted.on.as_ref().is_none_or(|on| on.value == place);
            (item == called && here).then_some(Part::Whole)
        }
        Piece::Use { item, part } => (item == called).then_some(part),
        _ => None,
    })
}

/// Whether a sentence says a name, capitals apart, as whole words.
fn says(text: &str, name: &str) -> bool {
    let (text, name) = (text.to_lowercase(), name.to_lowercase());
    let word = |letter: Option<char>| letter.is_some_and(char::is_alphanumeric);
    !name.is_empty()
        && text.match_indices(&name).any(|(at, _)| {
            let after = &text[at + name.len()..];
            !word(text[..at].chars().next_back()) && !word(after.chars().next())
        })
}
