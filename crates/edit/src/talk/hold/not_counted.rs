//! Numbers of things that are no count of the recipe's: what is eaten, people whom nobody feeds, slices, lots.

use crate::talk::heard::Heard;
use crate::talk::speech::Figure;

/// "In nine goes" are nine lots.
pub(super) fn lots(before: &str, noun: &str) -> bool {
    before == "in"
        && matches!(
            noun,
            "goes" | "batches" | "additions" | "stages" | "instalments" | "portions" | "handfuls"
        )
}

/// "It sounds like a bus with thirty people on it": people whom nobody feeds are no portions.
pub(super) fn people_only(heard: &Heard, figure: &Figure) -> bool {
    let words = &heard.speech.words;
    let people = words
        .get(figure.end..(figure.end + 2).min(words.len()))
        .unwrap_or(&[])
        .iter()
        .any(|word| matches!(word.lower.as_str(), "people" | "guests" | "folk" | "folks"));
    let (first, end) = heard.speech.sentences[figure.sentence];
    let fed = words[first.max(figure.first.saturating_sub(2 * NEAR_WORDS))..end]
        .iter()
        .any(|word| {
            matches!(
                word.stem.as_str(),
                "serv" | "feed" | "enough" | "for" | "portion" | "slic" | "mak" | "do" | "party"
            )
        });
    people && !fed
}

/// "The man ate nineteen rolls": eating is not making.
pub(super) fn eaten(heard: &Heard, figure: &Figure) -> bool {
    let (first, end) = heard.speech.clause(figure.first);
    heard.speech.words
        [first.max(figure.first.saturating_sub(NEAR_WORDS))..end.min(figure.end + NEAR_WORDS)]
        .iter()
        .any(|word| {
            matches!(
                word.lower.as_str(),
                "ate"
                    | "eat"
                    | "eats"
                    | "eaten"
                    | "scoffed"
                    | "devoured"
                    | "polished"
                    | "demolished"
            )
        })
}

/// "It cuts into ten": slices of a bread that is baked.
pub(super) fn sliced(heard: &Heard, figure: &Figure) -> bool {
    let words = &heard.speech.words[figure.first.saturating_sub(3)..figure.first];
    let next = heard
        .speech
        .words
        .get(figure.end)
        .map_or("", |word| word.lower.as_str());
    words.iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "cuts" | "slices" | "slice" | "serves" | "feeds"
        )
    }) || next.starts_with("slice")
}

/// Words this near to a number belong to it.
const NEAR_WORDS: usize = 6;
