//! What is said against the usual caution or the recipe's own word on keeping: raw dough tasted, bread kept in
//! the refrigerator.

use super::code;
use super::facts::in_words;
use super::finding::{Finding, Kind};
use super::heard::{Heard, denies};
use super::track::Track;
use recipe::larder::Role;

/// Everything of the kind.
pub(super) fn against(heard: &Heard, track: &Track) -> Vec<Finding> {
    let mut found = Vec::new();
    let raw = heard.things.iter().any(|thing| {
        thing
            .ingredient
            .as_ref()
            .is_some_and(|own| matches!(own.role, Role::Flour | Role::Egg))
    });
    let stale = cold_makes_stale(heard);
    for sentence in 0..heard.speech.sentences.len() {
        let span = heard.speech.sentence_span(sentence);
        if raw && tastes(heard, sentence) {
            found.push(
                Finding::at(
                    heard,
                    track,
                    Kind::Caution,
                    code::TALK_AGAINST_CAUTION,
                    span,
                    "raw flour and raw egg can carry germs; a viewer who does as you do may fall ill.",
                )
                .hint("Leave it out, or say that raw dough is not to be tasted."),
            );
        }
        if let (true, Some(stale)) = (keeps_cold(heard, sentence), &stale) {
            let storage = heard.inputs.recipe.storage.as_ref();
            found.push(Finding::of_state(
                heard,
                track,
                span,
                &format!("the bread is to be kept in the cold; the recipe says “{stale}”"),
                storage.map(|text| text.value.clone()),
            ));
        }
    }
    found
}

fn lower<'a>(heard: &'a Heard, sentence: usize) -> Vec<&'a str> {
    let (first, end) = heard.speech.sentences[sentence];
    heard.speech.words[first..end]
        .iter()
        .map(|word| word.lower.as_str())
        .collect()
}

/// Whether a word says not to.
fn says_not_to(word: &str) -> bool {
    denies(word) || matches!(word, "resist" | "avoid" | "nobody" | "please")
}

/// "I always pinch off a bit of the raw dough and eat it", "lick the bowl".
fn tastes(heard: &Heard, sentence: usize) -> bool {
    let words = lower(heard, sentence);
    if words.iter().any(|word| says_not_to(word)) {
        return false;
    }
    let any = |wanted: &[&str]| words.iter().any(|word| wanted.contains(word));
    let eats = any(&[
        "eat", "eats", "eating", "taste", "tasting", "nibble", "try", "snack", "pop",
    ]);
    let dough = any(&["dough", "batter"]);
    let licks = any(&["lick", "licks", "licking"])
        && any(&[
            "bowl", "spoon", "beater", "beaters", "whisk", "hook", "paddle", "spatula", "fingers",
        ]);
    licks
        || any(&["raw"]) && dough && eats
        || words.windows(5).any(|five| {
            matches!(five[0], "taste" | "nibble")
                && five[1..]
                    .iter()
                    .any(|word| matches!(*word, "dough" | "batter"))
        })
}

/// The recipe's own sentence that the refrigerator harms the bread.
fn cold_makes_stale(heard: &Heard) -> Option<String> {
    let text = heard.inputs.recipe.storage.as_ref()?;
    let speech = in_words(&text.value);
    (0..speech.sentences.len()).find_map(|sentence| {
        let (first, end) = speech.sentences[sentence];
        let words = &speech.words[first..end];
        let cold = words.iter().any(|word| word.stem == "refrigerator");
        let harms = words
            .iter()
            .any(|word| matches!(word.stem.as_str(), "stal" | "not" | "never"));
        (cold && harms).then(|| speech.slice(speech.sentence_span(sentence)).to_owned())
    })
}

/// "It's happiest in the fridge", of the bread.
fn keeps_cold(heard: &Heard, sentence: usize) -> bool {
    let words = lower(heard, sentence);
    let any = |wanted: &[&str]| words.iter().any(|word| wanted.contains(word));
    any(&["fridge", "refrigerator"])
        && any(&[
            "keep", "keeps", "store", "stored", "happiest", "lives", "live", "best",
        ])
        && !words.iter().any(|word| says_not_to(word))
        && !any(&[
            "dough",
            "butter",
            "milk",
            "eggs",
            "overnight",
            "night",
            "before",
            "until",
            "stale",
            "if",
        ])
        && heard.story_of(sentence) <= 0.0
}
