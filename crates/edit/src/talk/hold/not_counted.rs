//! Numbers of things that are no count of the recipe's: what is eaten, people whom nobody feeds, slices, lots.

use crate::talk::facts::{Fact, Sort};
use crate::talk::heard::Heard;
use crate::talk::speech::Figure;
use crate::talk::things::Sort as Of;

/// "In nine goes" are nine lots.
pub(super) fn lots(before: &str, noun: &str) -> bool {
    before == "in"
        && matches!(
            noun,
            "goes" | "batches" | "additions" | "stages" | "instalments" | "portions" | "handfuls"
        )
}

/// "The milk is in two parts", "yeast in two goes": parts of what is named with them, where the recipe adds it nowhere in so
/// many parts.
pub(super) fn parts_of_another(heard: &Heard, figure: &Figure, fact: &Fact) -> bool {
    let lower = |at: usize| {
        heard
            .speech
            .words
            .get(at)
            .map_or("", |word| word.lower.as_str())
    };
    let in_parts = figure.first > 0
        && lower(figure.first - 1) == "in"
        && (lots("in", lower(figure.end)) || matches!(lower(figure.end), "parts" | "lots"));
    let (first, _) = heard.speech.sentences[figure.sentence];
    let from = first.max(figure.first.saturating_sub(2 * NEAR_WORDS));
    let Some(named) = heard
        .mentions_in(from, figure.first)
        .iter()
        .rev()
        .find(|mention| heard.things[mention.things[0]].sort == Of::Ingredient)
        .filter(|_| in_parts)
    else {
        return false;
    };
    !heard.facts.iter().any(|own| {
        own.sort == Sort::Amount
            && own.step.is_some()
            && own.step == fact.step
            && own.thing.is_some_and(|thing| named.things.contains(&thing))
    })
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
