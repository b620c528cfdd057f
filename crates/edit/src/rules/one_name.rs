//! Whether a reader knows what is spoken of: one name for one thing, words of the trade explained.

use super::sentences::phrase;
use super::{Case, Rule};
use crate::code;
use crate::prose::sentences;
use recipe::source::Diagnostic;

pub const RULES: &[Rule] = &[two_words, jargon];

/// Words of which a recipe should keep to one, each group for one thing.
const ONE_THING: [&[&str]; 7] = [
    &["prove", "proof", "rise"],
    &["refrigerator", "fridge"],
    &["loaf tin", "loaf pan", "bread pan"],
    &[
        "baking paper",
        "parchment",
        "baking parchment",
        "greaseproof paper",
    ],
    &["baking tray", "baking sheet", "sheet pan"],
    &["cling film", "plastic wrap", "plastic film"],
    &["tea towel", "kitchen towel", "dish towel"],
];

/// Where a word of a group stands first, and how often.
struct Seen {
    word: &'static str,
    at: recipe::source::Span,
    times: usize,
}

fn seen(case: &Case, group: &[&'static str]) -> Vec<Seen> {
    let mut all: Vec<Seen> = Vec::new();
    for passage in case.passages.iter().filter(|passage| passage.is_prose()) {
        for word in group {
            let Some(part) = phrase(&passage.words, word) else {
                continue;
            };
            match all.iter_mut().find(|one| one.word == *word) {
                Some(one) => one.times += 1,
                None => all.push(Seen {
                    word,
                    at: passage.at(&part),
                    times: 1,
                }),
            }
        }
    }
    // "Baking parchment" holds "parchment": the same letters are no second name.
    let ends: Vec<(&str, usize)> = all.iter().map(|one| (one.word, one.at.end)).collect();
    all.retain(|one| {
        !ends.iter().any(|(other, end)| {
            *other != one.word && other.contains(one.word) && *end == one.at.end
        })
    });
    all.sort_by_key(|one| std::cmp::Reverse(one.times));
    all
}

fn two_words(case: &Case) -> Vec<Diagnostic> {
    let mut found: Vec<Diagnostic> = Vec::new();
    for group in ONE_THING {
        if let [usual, other, ..] = &seen(case, group)[..] {
            found.push(second_name(usual.word, usual.at, other.word, other.at));
        }
    }
    found.extend(tin_and_pan(case));
    found
}

fn second_name(
    usual: &str,
    first: recipe::source::Span,
    other: &str,
    at: recipe::source::Span,
) -> Diagnostic {
    Diagnostic::at(
        code::TWO_WORDS_FOR_ONE,
        at,
        format!("What is called “{usual}” elsewhere is “{other}” here; a reader looks for the difference."),
    )
    .label(first, usual)
    .hint("Keep to one word from the first line to the last.")
}

/// A tin that a sentence calls "the pan", where no other pan has been spoken of.
fn tin_and_pan(case: &Case) -> Option<Diagnostic> {
    let recipe = case.inputs.recipe;
    let mut tins = recipe
        .products
        .iter()
        .filter_map(|product| product.tin.as_ref());
    let tin = tins.find(|tin| phrase(&tin.name.value, "tin").is_some())?;
    let prose = || case.passages.iter().filter(|passage| passage.is_prose());
    let another = [
        "a pan",
        "an empty pan",
        "empty pan",
        "small pan",
        "saucepan",
        "frying pan",
        "a hot pan",
    ]
    .iter()
    .any(|pan| prose().any(|passage| phrase(&passage.words, pan).is_some()));
    if another {
        return None;
    }
    prose().find_map(|passage| {
        let part = phrase(&passage.words, "the pan")?;
        Some(second_name(
            &tin.name.value,
            tin.name.span,
            "the pan",
            passage.at(&part),
        ))
    })
}

/// Words of the trade that a home baker may not know.
const JARGON: [&str; 14] = [
    "poolish",
    "biga",
    "autolyse",
    "windowpane",
    "levain",
    "oven spring",
    "retard",
    "bulk fermentation",
    "preferment",
    "banneton",
    "lame",
    "couche",
    "bench rest",
    "baker's percentage",
];

/// What stands near a word that is explained.
const EXPLAINS: [&str; 8] = [
    "(", " – ", " — ", ": ", " is a ", " that is", " called ", " means ",
];

fn jargon(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let recipe = case.inputs.recipe;
    let names: Vec<String> = recipe
        .stages
        .iter()
        .map(|stage| stage.name.value.to_lowercase())
        .collect();
    for word in JARGON {
        // A stage of that name is explained by its list.
        if names.iter().any(|name| name.contains(word)) {
            continue;
        }
        let first = case
            .passages
            .iter()
            .filter(|passage| passage.is_prose())
            .find_map(|passage| phrase(&passage.words, word).map(|part| (passage, part)));
        let Some((passage, part)) = first else {
            continue;
        };
        let sentence = sentences(&passage.words)
            .into_iter()
            .find(|one| one.start <= part.start && part.end <= one.end)
            .unwrap_or(part.clone());
        let around = &passage.words[sentence];
        let glossed = [", the ", ", a ", "called "]
            .iter()
            .any(|sign| passage.words[..part.start].ends_with(sign));
        if glossed || EXPLAINS.iter().any(|sign| around.contains(sign)) {
            continue;
        }
        found.push(
            Diagnostic::at(
                code::JARGON_UNEXPLAINED,
                passage.at(&part),
                format!(
                    "“{word}” is a word of the trade and is not explained where it first stands."
                ),
            )
            .hint("Add a few words in brackets: \"autolyse (flour and water left to stand)\"."),
        );
    }
    found
}
