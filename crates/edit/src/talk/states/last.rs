//! The state of what was named last, spoken of as "it", "they", "mine".

use super::said::{COLD_PLACES, phrase, state_of};
use super::{COLD, Said, State, UNLESS};
use crate::talk::heard::{Heard, Mood};
use recipe::larder::Role;
use recipe::source::Span;

/// "Two eggs for the dough. Mine go in ice cold": what was named last in the sentence before, spoken of as "it", "they",
/// "mine", with a word for its state.
pub(super) fn of_the_last(heard: &Heard) -> Vec<Said> {
    let words = &heard.speech.words;
    let mut found = Vec::new();
    if heard.speech.bare {
        return found;
    }
    for (sentence, &(first, end)) in heard.speech.sentences.iter().enumerate().skip(1) {
        // "What about the butter? A hundred and eighty grams. You want it": past a sentence that is its amount alone.
        let (mut before, stop) = heard.speech.sentences[sentence - 1];
        let amount = heard.speech.figures.iter().any(|figure| {
            figure.sentence + 1 == sentence && stop - before <= figure.end - figure.first + 1
        });
        if amount && heard.mentions_in(before, stop).is_empty() && sentence > 1 {
            before = heard.speech.sentences[sentence - 2].0;
        }
        let named = heard
            .mentions_in(before, first)
            .iter()
            .rev()
            .find(|mention| {
                heard.things[mention.things[0]]
                    .ingredient
                    .as_ref()
                    .is_some_and(|own| matches!(own.role, Role::Fat | Role::Liquid | Role::Egg))
            });
        let Some(mention) = named.filter(|_| !heard.asks(sentence)) else {
            continue;
        };
        let thing = mention.things[0];
        let opens = words[first..end.min(first + PRONOUN_WORDS)]
            .iter()
            .position(|word| {
                matches!(
                    word.lower.as_str(),
                    "it" | "it's"
                        | "they"
                        | "they're"
                        | "mine"
                        | "mine's"
                        | "those"
                        | "these"
                        | "them"
                        | "that"
                )
            });
        // "Cover it": what is covered is the dough.
        let subject = |at: usize| {
            at == first
                || !crate::talk::heard::tells_to(&heard.speech, first, at - 1)
                || matches!(
                    words[at - 1].lower.as_str(),
                    "get" | "take" | "use" | "keep" | "leave" | "warm" | "melt"
                )
        };
        let Some(pronoun) = opens.map(|at| first + at).filter(|at| subject(*at)) else {
            continue;
        };
        let stop = end.min(pronoun + STATE_WORDS);
        let lower = |at: usize| words.get(at).map_or("", |word| word.lower.as_str());
        // "They come out of the fridge an hour before": no longer as they come.
        let early = words[pronoun..end].iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "before" | "ahead" | "earlier" | "ago" | "hour" | "as"
            )
        });
        // "It comes out of the fridge and in it goes".
        let just_out = |at: usize| {
            !early
                && matches!(lower(at), "come" | "comes")
                && lower(at + 1) == "out"
                && lower(at + 2) == "of"
                && (COLD_PLACES.contains(&lower(at + 3)) || COLD_PLACES.contains(&lower(at + 4)))
        };
        let hit = (pronoun + 1..stop).find_map(|at| {
            let state = phrase(heard, at, stop)
                .or_else(|| state_of(heard, thing, lower(at)))
                .or_else(|| just_out(at).then_some(State::Warmth(COLD)))?;
            Some((at, state))
        });
        let Some((at, state)) = hit else { continue };
        let other = heard
            .mentions_in(first, at)
            .iter()
            .any(|own| own.things != mention.things);
        // "If it runs off the spoon it's right"
        let right = words[at..end]
            .iter()
            .any(|word| matches!(word.lower.as_str(), "right" | "ready" | "perfect"))
            && !words[first..end]
                .iter()
                .any(|word| matches!(word.lower.as_str(), "not" | "isn't" | "too" | "until"));
        // "Leave it by the stove until it's nearly liquid": what it is to become.
        let becomes = words[first..at].iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "leave" | "warm" | "warmed" | "melt" | "heat" | "left"
            )
        });
        let passes =
            |word: &str| right && word == "if" || becomes && matches!(word, "until" | "till");
        if lower(at + 1) == "enough" {
            continue;
        }
        let not = words[at.saturating_sub(3)..at].iter().any(|word| {
            UNLESS.contains(&word.lower.as_str()) && !passes(&word.lower)
                || matches!(word.lower.as_str(), "only" | "first" | "still" | "then")
        });
        // "I've let mine get to room temperature"
        let done = words[first..at]
            .iter()
            .any(|word| matches!(word.lower.as_str(), "i've" | "we've"));
        let denied = not
            || words[first..at].iter().any(|word| {
                UNLESS.contains(&word.lower.as_str()) && !passes(&word.lower)
                    || !done
                        && (matches!(word.lower.as_str(), "let" | "makes")
                            || word.lower == "get" && words[first].lower != "get")
            });
        let ready = words[first..at].iter().any(|word| word.lower == "so");
        // "It goes in a cold steel bowl": of the bowl.
        let of_a_place = at >= 2
            && matches!(lower(at - 1), "a" | "an" | "the")
            && matches!(lower(at - 2), "in" | "into" | "on" | "onto");
        let of_other = of_a_place
            || matches!(
                lower(at + 1),
                "place"
                    | "spot"
                    | "water"
                    | "oven"
                    | "kitchen"
                    | "bowl"
                    | "day"
                    | "room"
                    | "milk"
                    | "pan"
                    | "dough"
                    | "bread"
                    | "loaf"
                    | "crust"
                    | "cupboard"
            );
        if other || not || denied && !ready || of_other || heard.frame(at) != Mood::Here {
            continue;
        }
        found.push(Said {
            thing,
            state,
            span: Span::new(words[pronoun].span.start, words[at].span.end),
            sentence,
        });
    }
    found
}

/// The pronoun stands within so many words of the beginning, and the state so many behind it.
const PRONOUN_WORDS: usize = 3;
const STATE_WORDS: usize = 14;
