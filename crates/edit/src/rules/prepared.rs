//! Whether list and sentences speak of the same things in the same state.

use super::sentences::phrase;
use super::{Case, Rule};
use crate::code;
use crate::prose::{Passage, words};
use numerics::quantity::Temperature;
use recipe::document::Piece;
use recipe::document::model::{Item, Recipe};
use recipe::document::parse_sentence;
use recipe::source::{Diagnostic, Located};

pub const RULES: &[Rule] = &[not_listed, states, unnamed_fillings];

/// Names of ingredients that a sentence may drop without the list knowing.
const NAMES: [&str; 33] = [
    "milk",
    "butter",
    "sugar",
    "salt",
    "egg",
    "eggs",
    "oil",
    "cream",
    "honey",
    "cinnamon",
    "yeast",
    "flour",
    "raisins",
    "currants",
    "cardamom",
    "nutmeg",
    "vanilla",
    "almonds",
    "walnuts",
    "hazelnuts",
    "pecans",
    "sesame",
    "chocolate",
    "jam",
    "semolina",
    "cornmeal",
    "syrup",
    "yoghurt",
    "yogurt",
    "buttermilk",
    "cheese",
    "saffron",
    "aniseed",
];
/// Words beside a name by which it is a likeness, a colour or a thing to do.
const LIKENESS: [&str; 10] = [
    "size", "like", "as", "colour", "color", "coloured", "colored", "brown", "shaped", "wash",
];

/// Every word by which the recipe lists something.
fn listed(recipe: &Recipe) -> Vec<String> {
    let in_stages = recipe.stages.iter().flat_map(|stage| &stage.items);
    let with = recipe.products.iter().flat_map(|product| &product.with);
    let mut all = Vec::new();
    let mut add = |text: &str| {
        all.extend(
            words(&text.to_lowercase())
                .into_iter()
                .flat_map(|(_, word)| word.split('-').map(one).collect::<Vec<_>>()),
        );
    };
    for item in in_stages.chain(with).chain(&recipe.besides) {
        add(&item.of.value);
        add(item.called());
        [&item.state, &item.note]
            .into_iter()
            .flatten()
            .for_each(|text| add(&text.value));
    }
    for entry in &recipe.pantry {
        add(&entry.name.value);
    }
    recipe
        .stages
        .iter()
        .for_each(|stage| add(&stage.name.value));
    all
}

fn one(word: &str) -> String {
    word.strip_suffix('s').unwrap_or(word).to_owned()
}

fn not_listed(case: &Case) -> Vec<Diagnostic> {
    let listed = listed(case.inputs.recipe);
    let mut said: Vec<&str> = Vec::new();
    let mut found = Vec::new();
    for passage in case.passages.iter().filter(|passage| passage.is_step()) {
        let all = words(&passage.words);
        for (place, (at, word)) in all.iter().enumerate() {
            let lower = word.to_lowercase();
            let Some(name) = NAMES.iter().find(|name| **name == lower) else {
                continue;
            };
            let stem = one(name);
            // Buttermilk holds butter and milk in its name, and is neither; "flour" is any flour.
            let there = listed
                .iter()
                .any(|word| *word == stem || word.ends_with(&stem));
            let around = all[place.saturating_sub(3)..place]
                .iter()
                .chain(all.get(place + 1))
                .any(|(_, word)| LIKENESS.contains(&word.to_lowercase().as_str()));
            let next = all
                .get(place + 1)
                .map_or(String::new(), |(_, word)| word.to_lowercase());
            // "Cream the butter", "butter the tin", "flour the bench" are things to do.
            let done = ["the", "a", "an", "your", "together"].contains(&next.as_str());
            if there || around || done && name == &"cream" || said.contains(name) {
                continue;
            }
            said.push(name);
            found.push(
                Diagnostic::at(
                    code::INGREDIENT_NOT_LISTED,
                    passage.at(&(*at..at + word.len())),
                    format!("The sentence takes {lower}, and no list has it: whoever shopped by the list stands without."),
                )
                .hint("Add it to the stage's `items`, or to [[besides]] when it is for bench, tin or top, and name it in brackets."),
            );
        }
    }
    found
}

/// How warm or soft something is, as words or a reading say it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Condition {
    Cold,
    Soft,
    Warm,
    Melted,
}

impl Condition {
    fn contradicts(self, other: Self) -> bool {
        use Condition::{Cold, Melted, Soft, Warm};
        matches!(
            (self, other),
            (Cold, Soft | Warm | Melted)
                | (Soft | Warm | Melted, Cold)
                | (Soft, Melted)
                | (Melted, Soft)
        )
    }

    const fn word(self) -> &'static str {
        match self {
            Self::Cold => "cold",
            Self::Soft => "soft or at room temperature",
            Self::Warm => "warm",
            Self::Melted => "melted",
        }
    }
}

/// The first of these words decides: "soft but cool" is soft.
const CONDITIONS: [(&str, Condition); 15] = [
    ("melted", Condition::Melted),
    ("melt", Condition::Melted),
    ("softened", Condition::Soft),
    ("soft", Condition::Soft),
    ("pliable", Condition::Soft),
    ("room temperature", Condition::Soft),
    ("lukewarm", Condition::Warm),
    ("warmed", Condition::Warm),
    ("warm", Condition::Warm),
    ("tepid", Condition::Warm),
    ("ice-cold", Condition::Cold),
    ("chilled", Condition::Cold),
    ("frozen", Condition::Cold),
    ("from the refrigerator", Condition::Cold),
    ("cold", Condition::Cold),
];

fn condition(text: &str) -> Option<Condition> {
    CONDITIONS
        .iter()
        .find(|(word, _)| phrase(text, word).is_some())
        .map(|(_, condition)| *condition)
}

/// Below the first a thing is cold in the hand, above the second warm, between the others neither
/// word would be wrong; common practice.
fn of_reading(at: Temperature) -> Option<Condition> {
    match at.celsius() {
        c if c <= 10.0 => Some(Condition::Cold),
        c if c >= 30.0 => Some(Condition::Warm),
        c if (16.0..=24.0).contains(&c) => Some(Condition::Soft),
        _ => None,
    }
}

/// What the list says of an item's condition.
fn of_item(item: &Item) -> Option<(Condition, recipe::source::Span)> {
    let by_words = item.state.as_ref().and_then(|state| {
        let said = condition(&state.value)?;
        Some((said, state.span))
    });
    by_words.or_else(|| {
        let at = item.at.as_ref()?;
        Some((of_reading(at.value)?, at.span))
    })
}

fn states(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for passage in case.passages.iter().filter(|passage| passage.is_step()) {
        let Some(stage) = passage.of.as_ref().and_then(|of| of.stage) else {
            continue;
        };
        let (pieces, _) = parse_sentence(passage.written, 0);
        for piece in pieces {
            let Some(name) = named(&piece) else { continue };
            let Some(item) = stage.items.iter().find(|item| item.called() == name) else {
                continue;
            };
            let Some((listed, span)) = of_item(item) else {
                continue;
            };
            let Some((said, part)) = beside(passage, &piece) else {
                continue;
            };
            if !listed.contradicts(said) {
                continue;
            }
            found.push(
                Diagnostic::at(
                    code::STATE_CONTRADICTS_STEP,
                    passage.at(&part),
                    format!(
                        "The sentence takes the {name} {}, and the list has it {}.",
                        said.word(),
                        listed.word()
                    ),
                )
                .label(span, "in the list")
                .hint("Bring the two together, or say in a step before how it becomes so."),
            );
        }
    }
    found
}

fn named(piece: &Located<Piece>) -> Option<&str> {
    match &piece.value {
        Piece::Use { item, .. } | Piece::Mention(item) => Some(item),
        _ => None,
    }
}

/// A condition right before a placeholder, or right behind it: "melted [butter]",
/// "[eggs] straight from the refrigerator".
fn beside(
    passage: &Passage,
    piece: &Located<Piece>,
) -> Option<(Condition, std::ops::Range<usize>)> {
    let before = words(&passage.words[..piece.span.start]);
    let near = before.last().filter(|(at, word)| {
        passage.words[at + word.len()..piece.span.start]
            .trim()
            .is_empty()
    });
    if let Some((at, word)) = near
        && let Some(said) = condition(word)
    {
        return Some((said, *at..at + word.len()));
    }
    let after = &passage.words[piece.span.end..];
    let stop = after.find([',', '.', ';', '[', ':']).unwrap_or(after.len());
    // "until it is soft" tells what becomes of it.
    let few: usize = words(&after[..stop])
        .into_iter()
        .take(4)
        .take_while(|(_, word)| !["until", "and", "then", "to", "till"].contains(word))
        .last()
        .map_or(0, |(at, word)| at + word.len());
    let said = condition(&after[..few])?;
    let start = piece.span.end + after.len() - after.trim_start().len();
    Some((said, start..piece.span.end + few))
}

/// What goes into each piece, and no sentence of the product says when.
fn unnamed_fillings(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for product in &case.inputs.recipe.products {
        for filling in &product.with {
            let name = filling.called().to_lowercase();
            let told = product.steps.iter().any(|step| {
                let lower = step.text.value.to_lowercase();
                lower.contains(&name) || lower.contains("fill")
            });
            if told || product.steps.is_empty() {
                continue;
            }
            found.push(
                Diagnostic::at(
                    code::STAGE_NOT_NAMED,
                    filling.of.span,
                    format!(
                        "“{}” goes into each of the {}, and no step says when: the heading is printed and nothing speaks of it.",
                        filling.called(),
                        product.name.value
                    ),
                )
                .hint(format!("Name it where it goes in: \"spread with [{}]\".", filling.called())),
            );
        }
    }
    found
}
