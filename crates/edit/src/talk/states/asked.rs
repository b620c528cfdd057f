//! States of what was named a sentence before: the answer to a question, and what must be so.

use super::said::{COLD_PLACES, phrase};
use super::{Said, UNLESS, of_word};
use crate::talk::heard::Heard;
use recipe::source::Span;

/// A state that begins a sentence and is of what was named just before: "Eggs cold or warm?" "Room
/// temperature, take them out with the butter."
pub(super) fn answered(heard: &Heard) -> Vec<Said> {
    let words = &heard.speech.words;
    let mut found = Vec::new();
    for (sentence, &(first, end)) in heard.speech.sentences.iter().enumerate().skip(1) {
        let state = phrase(heard, first, end)
            .map(|state| {
                let place = (first..end.min(first + 6))
                    .find(|n| COLD_PLACES.contains(&words[*n].lower.as_str()));
                (place.map_or(2, |n| n + 1 - first), state)
            })
            .or_else(|| of_word(&words[first].lower).map(|state| (1, state)));
        let Some((length, state)) = state else {
            continue;
        };
        let pronoun = words[first..end].iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "them" | "they" | "it" | "it's" | "ones"
            )
        });
        let clause_ends = words
            .get(first + length)
            .is_none_or(|word| word.clause != words[first].clause);
        let (before, stop) = heard.speech.sentences[sentence - 1];
        let asked = heard
            .speech
            .slice(heard.speech.sentence_span(sentence - 1))
            .ends_with('?');
        let Some(mention) = heard.mentions_in(before, stop).last() else {
            continue;
        };
        if heard.things[mention.things[0]].ingredient.is_some() && clause_ends && (pronoun || asked)
        {
            found.push(Said {
                thing: mention.things[0],
                state,
                span: Span::new(
                    words[first].span.start,
                    words[(first + length).min(end) - 1].span.end,
                ),
                sentence,
            });
        }
    }
    found
}

/// "Now the butter. It's got to be runny": the state that something named just before must have.
pub(super) fn wanted(heard: &Heard) -> Vec<Said> {
    let words = &heard.speech.words;
    let mut found = Vec::new();
    for (sentence, &(first, end)) in heard.speech.sentences.iter().enumerate().skip(1) {
        let Some(state) = (first..end.min(first + WANTED_WORDS)).find_map(|at| {
            let state = of_word(&words[at].lower)?;
            Some((at, state))
        }) else {
            continue;
        };
        let (at, state) = state;
        let any = |wanted: &[&str]| {
            words[first..at]
                .iter()
                .any(|word| wanted.contains(&word.lower.as_str()))
        };
        let it = any(&["it", "it's", "they", "them"]);
        let must = any(&["be", "want"])
            && any(&[
                "got", "wants", "want", "needs", "need", "has", "have", "must", "should",
            ]);
        let unless = words[first..at]
            .iter()
            .any(|word| word.lower != "before" && UNLESS.contains(&word.lower.as_str()));
        if !it || !must || unless || !heard.mentions_in(first, at).is_empty() {
            continue;
        }
        let (before, _) = heard.speech.sentences[sentence.saturating_sub(WANTED_SENTENCES)];
        let Some(mention) = heard.mentions_in(before, first).last() else {
            continue;
        };
        if heard.things[mention.things[0]].ingredient.is_some() {
            found.push(Said {
                thing: mention.things[0],
                state,
                span: Span::new(words[at].span.start, words[at].span.end),
                sentence,
            });
        }
    }
    found
}

/// What is meant was named at most so many sentences before.
const WANTED_SENTENCES: usize = 3;

/// The state stands within so many words of the beginning.
const WANTED_WORDS: usize = 9;
