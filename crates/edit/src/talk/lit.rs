//! An oven that is lit when the bread is in it, in the words of a kitchen.

use super::heard::{Heard, denies};
use super::points::{has, run};
use super::speech::Word;

/// "We don't turn the oven on until the braid is sitting in it": whether some words tell that something stands in the oven that
/// was named before them in the sentence.
pub(super) fn stands_in_it(heard: &Heard, first: usize, end: usize) -> bool {
    let (sentence, _) = heard.speech.sentences[heard.speech.words[first].sentence];
    let (before, words) = (
        &heard.speech.words[sentence..first],
        &heard.speech.words[first..end],
    );
    let inside = words.iter().enumerate().any(|(at, word)| {
        let next = words.get(at + 1).map_or("", |next| next.lower.as_str());
        word.lower == "inside" || word.lower == "in" && matches!(next, "it" | "there")
    });
    let stands = words
        .iter()
        .any(|word| word.lower.ends_with("'s") && word.lower != "let's")
        || has(
            words,
            &[
                "is", "are", "they're", "sits", "sitting", "stands", "standing", "lies", "gone",
            ],
        );
    let elsewhere = has(
        words,
        &["bowl", "mixer", "fridge", "water", "pan", "beaker"],
    );
    inside && stands && !elsewhere && has(before, &["oven", "oven's"])
}

/// "The oven stays off", "leave the oven off": it is lit later.
pub(super) fn is_kept_off(words: &[Word]) -> bool {
    has(words, &["oven", "oven's"])
        && has(words, &["off", "cold"])
        && has(
            words,
            &[
                "stays", "stay", "staying", "leave", "leaves", "keep", "keeps", "kept", "left",
                "remains",
            ],
        )
}

/// "You put the bread in a cold oven": whether what is baked goes into an oven that nobody has heated.
pub(super) fn goes_in_cold(words: &[Word]) -> bool {
    let cold = ["a", "the", "your", "my"].into_iter().any(|article| {
        ["in", "into", "to"].into_iter().any(|into| {
            run(words, &[into, article, "cold", "oven"])
                || run(words, &[into, article, "stone", "cold", "oven"])
        })
    });
    let goes = has(
        words,
        &[
            "put", "goes", "go", "going", "slide", "pop", "set", "place", "starts", "start",
            "bake", "slid", "into",
        ],
    );
    let denied = words
        .iter()
        .any(|word| denies(&word.lower) || matches!(word.lower.as_str(), "if" | "would"));
    cold && goes && !denied
}
