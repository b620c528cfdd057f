//! The states that a talk gives to what it names: "melted butter", "the eggs straight from the fridge".

use super::asked::{answered, wanted};
use super::last::of_the_last;
use super::{BOILING, COLD, ROOM, Said, State, UNLESS, WARM, of_word};
use crate::talk::heard::{Heard, Mood};
use recipe::larder::Role;
use recipe::source::Span;

/// "They've been out on the side since breakfast, so they're lovely and warm", "I went ahead and melted mine": the state
/// of what was named just before, where a word for it stands in its place.
fn by_pronoun(heard: &Heard) -> Vec<Said> {
    let words = &heard.speech.words;
    let mut found = Vec::new();
    for (sentence, &(first, end)) in heard.speech.sentences.iter().enumerate() {
        for at in first..end {
            let lower = |n: usize| {
                words
                    .get(n)
                    .filter(|_| n < end)
                    .map_or("", |word| word.lower.as_str())
            };
            let before = |back: usize| {
                at.checked_sub(back)
                    .filter(|n| *n >= first)
                    .map_or("", |n| lower(n))
            };
            let mine = matches!(lower(at + 1), "mine" | "it" | "yours" | "them");
            let deed = match lower(at) {
                "melted" | "melt" if mine => Some(State::Melted),
                "warmed" | "softened" if lower(at + 1) == "mine" => Some(State::Warmth(WARM)),
                // "Warm them in a bowl of water beforehand"
                "warm"
                    if matches!(lower(at + 1), "them" | "it")
                        && (at == first || words[at].clause != words[at - 1].clause) =>
                {
                    Some(State::Warmth(WARM))
                }
                // "Bring it to the boil", "boil it first"
                "boil" if mine || lower(at - usize::from(at > first)) == "the" => {
                    Some(State::Warmth(BOILING))
                }
                _ => None,
            };
            let they =
                (1..=4).any(|back| matches!(before(back), "they're" | "they've" | "they" | "them"));
            let it = (1..=4).any(|back| matches!(before(back), "it's" | "it" | "mine" | "mine's"));
            let state = deed.or_else(|| {
                let own = of_word(lower(at)).or_else(|| phrase(heard, at, end));
                own.filter(|state| they || it && *state == State::Melted)
            });
            let Some(state) = state else { continue };
            let from = first.max(at.saturating_sub(12));
            let unless = words[from..at]
                .iter()
                .any(|word| UNLESS.contains(&word.lower.as_str()));
            let start = heard.speech.sentences[sentence.saturating_sub(PRONOUN_SENTENCES)].0;
            let start = if heard.speech.bare {
                start.max(at.saturating_sub(20))
            } else {
                start
            };
            let named = heard.mentions_in(start, at);
            let ingredient = |mention: &&crate::talk::things::Mention| {
                heard.things[mention.things[0]].ingredient.is_some()
            };
            // "Now the milk for the paste. Bring it to the boil": what boils is no paste.
            let many = |mention: &&crate::talk::things::Mention| {
                words[mention.end - 1].lower.ends_with('s')
            };
            let mention = if state == State::Warmth(BOILING) {
                named.iter().rev().find(ingredient)
            } else if they && !it && deed.is_none() {
                // "The eggs, you take them out with the butter and let them come to room temperature": they are many.
                named.iter().rev().find(many).filter(ingredient)
            } else {
                named.last().filter(ingredient)
            };
            let Some(mention) = mention else { continue };
            let Some(own) = heard.things[mention.things[0]].ingredient.as_ref() else {
                continue;
            };
            // "They" are eggs; what melts is fat.
            let fits = match state {
                State::Melted => own.role == Role::Fat,
                State::Warmth(BOILING) => own.role == Role::Liquid && deed.is_some(),
                State::Warmth(_) => {
                    own.role == Role::Egg || own.role == Role::Fat && deed.is_some()
                }
            };
            // "Keep them back from that hot oven": of something else.
            let of_other = matches!(
                lower(at + 1),
                "oven"
                    | "tray"
                    | "pan"
                    | "tin"
                    | "place"
                    | "spot"
                    | "room"
                    | "water"
                    | "bowl"
                    | "kitchen"
                    | "day"
                    | "dough"
                    | "milk"
                    | "steam"
                    | "cupboard"
            );
            if fits
                && !of_other
                && !unless
                && heard.frame(at) == Mood::Here
                && !heard.asks(sentence)
            {
                found.push(Said {
                    thing: mention.things[0],
                    state,
                    span: Span::new(
                        words[from.max(at.saturating_sub(3))].span.start,
                        words[at].span.end,
                    ),
                    sentence,
                });
            }
        }
    }
    found
}

/// A pronoun is of what was named at most so many sentences before.
const PRONOUN_SENTENCES: usize = 3;

/// Every state that is said of an ingredient.
pub(super) fn said(heard: &Heard) -> Vec<Said> {
    let words = &heard.speech.words;
    let mut found = answered(heard);
    found.extend(wanted(heard));
    found.extend(by_pronoun(heard));
    found.extend(of_the_last(heard));
    for (place, mention) in heard.mentions.iter().enumerate() {
        let thing = mention.things[0];
        if heard.things[thing].ingredient.is_none() {
            continue;
        }
        let sentence = words[mention.first].sentence;
        let (s_first, s_end) = heard.speech.sentences[sentence];
        // "melted butter", "cold whole milk"
        let from = mention.first.saturating_sub(3).max(s_first);
        let mut before = None;
        for at in (from..mention.first).rev() {
            let lower = words[at].lower.as_str();
            if let Some(state) = state_of(heard, thing, lower) {
                before = Some((at, state));
                break;
            }
            if let Some(state) = phrase(heard, at, mention.first) {
                before = Some((at, state));
                break;
            }
            if lower == "ice" && at + 1 == mention.first {
                before = Some((at, State::Warmth(COLD)));
                break;
            }
            let passes = matches!(
                lower,
                "unsalted"
                    | "salted"
                    | "whole"
                    | "and"
                    | "good"
                    | "temperature"
                    | "your"
                    | "the"
                    | "large"
            );
            if !passes || words[at].clause != words[mention.first].clause {
                break;
            }
        }
        let next = heard
            .mentions
            .get(place + 1)
            .map_or(s_end, |next| next.first.min(s_end));
        let hit = before
            .map(|(at, state)| (at, mention.end, state))
            .or_else(|| {
                after(heard, thing, mention.end, next)
                    .map(|(end, state)| (mention.first, end, state))
            });
        let Some((first, end, state)) = hit else {
            continue;
        };
        // "The milk I've had on the stove till it's steaming": what was done to it.
        let heated = words[s_first..end].iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "stove" | "hob" | "microwave" | "microwaved" | "radiator"
            )
        });
        let unless = words[s_first.max(first.saturating_sub(6))..end]
            .iter()
            .any(|word| {
                let lower = word.lower.as_str();
                UNLESS.contains(&lower) && !(heated && matches!(lower, "till" | "until"))
            });
        let greasing = words[s_first..s_end].iter().any(|word| {
            word.lower == "pour"
                || matches!(
                    word.stem.as_str(),
                    "tin" | "greas" | "brush" | "serv" | "spread" | "steam" | "pan" | "wash"
                )
        });
        // "Pull the butter and eggs from the fridge an hour ahead" makes them warm.
        let out = words[s_first..mention.first]
            .iter()
            .any(|word| matches!(word.lower.as_str(), "pull" | "take" | "get" | "bring"))
            && words[s_first..s_end].iter().any(|word| {
                matches!(
                    word.lower.as_str(),
                    "ahead" | "before" | "out" | "hour" | "hours" | "minutes" | "early"
                )
            });
        // "The milk was cold, so I warmed it."
        let warmed = words
            .get(end..s_end.min(end + 6))
            .unwrap_or(&[])
            .iter()
            .any(|word| matches!(word.lower.as_str(), "warmed" | "heated"));
        let elsewhere = warmed || heard.frame(mention.first) != Mood::Here;
        if unless || greasing || elsewhere || out && state == State::Warmth(COLD) {
            continue;
        }
        found.push(Said {
            thing,
            state,
            span: Span::new(words[first].span.start, words[end - 1].span.end),
            sentence,
        });
    }
    found
}

/// The state that a word says of a thing: a fat that is hard or solid is cold.
pub(super) fn state_of(heard: &Heard, thing: usize, lower: &str) -> Option<State> {
    let fat = heard.things[thing]
        .ingredient
        .as_ref()
        .is_some_and(|own| own.role == Role::Fat);
    match lower {
        "frozen" => Some(State::Warmth(COLD)),
        "hard" | "solid" | "brick" | "rock" | "stone" | "concrete" | "rigid" if fat => {
            Some(State::Warmth(COLD))
        }
        "pours" | "pourable" | "oil" | "oily" | "soup" | "soupy" | "custard" | "syrup"
        | "gravy" | "puddle" | "pool" | "slump" | "slumps" | "swimming"
            if fat =>
        {
            Some(State::Melted)
        }
        _ => of_word(lower),
    }
}

/// Where the cold comes from.
pub(super) const COLD_PLACES: [&str; 4] = ["fridge", "refrigerator", "icebox", "freezer"];

/// A state of several words at a place: "room temperature", "straight from the fridge", "right out of the freezer".
pub(super) fn phrase(heard: &Heard, at: usize, limit: usize) -> Option<State> {
    let words = &heard.speech.words;
    let lower = |n: usize| words.get(at + n).map_or("", |word| word.lower.as_str());
    if lower(0) == "room" && matches!(lower(1), "temperature" | "temp") {
        return Some(State::Warmth(ROOM));
    }
    if at >= limit {
        return None;
    }
    // "They've been on the counter since breakfast"
    if matches!(lower(0), "on" | "out")
        && (1..=3).any(|n| {
            matches!(
                lower(n),
                "counter" | "side" | "bench" | "worktop" | "table" | "windowsill" | "sideboard"
            )
        })
        && at > 0
        && matches!(
            words[at - 1].lower.as_str(),
            "been" | "sat" | "sitting" | "left" | "stood" | "out"
        )
        && (2..=5).any(|n| matches!(lower(n), "since" | "all" | "for" | "overnight" | "an"))
    {
        return Some(State::Warmth(ROOM));
    }
    // "In a mug of warm water"
    if matches!(lower(0), "in" | "into")
        && (1..=5).any(|n| {
            matches!(lower(n), "warm" | "hot" | "tepid" | "lukewarm") && lower(n + 1) == "water"
        })
    {
        return Some(State::Warmth(WARM));
    }
    let fridge = |n: usize| COLD_PLACES.contains(&lower(n));
    if matches!(lower(0), "from" | "fresh")
        && (fridge(1) || fridge(2) || fridge(3))
        && !matches!(lower(1), "out")
    {
        return Some(State::Warmth(COLD));
    }
    if matches!(lower(0), "right" | "straight" | "just")
        && lower(1) == "from"
        && (fridge(2) || fridge(3) || fridge(4))
    {
        return Some(State::Warmth(COLD));
    }
    let out = matches!(lower(0), "right" | "straight" | "fresh" | "just") && lower(1) == "out";
    if out && (fridge(2) || fridge(3) || fridge(4)) {
        return Some(State::Warmth(COLD));
    }
    if lower(0) == "like" && lower(1) == "ice" {
        return Some(State::Warmth(COLD));
    }
    // "It's been in the freezer for a bit"
    if lower(0) == "been" && lower(1) == "in" && (fridge(2) || fridge(3)) {
        return Some(State::Warmth(COLD));
    }
    if fridge(0) && lower(1) == "cold" {
        return Some(State::Warmth(COLD));
    }
    (lower(0) == "blood" && matches!(lower(1), "warm" | "heat")
        || lower(0) == "body" && lower(1) == "temperature")
        .then_some(State::Warmth(WARM))
}

/// A state after the name: "the butter, melted and cooled", "the eggs straight from the fridge".
fn after(heard: &Heard, thing: usize, from: usize, to: usize) -> Option<(usize, State)> {
    let words = &heard.speech.words;
    let to = to.min(from + 9);
    for at in from..to {
        let lower = words[at].lower.as_str();
        // "A glass of cold water for me, it's hot work".
        if lower == "for"
            && words
                .get(at + 1)
                .is_some_and(|word| matches!(word.lower.as_str(), "me" | "us" | "myself"))
        {
            return None;
        }
        // What is done to it later is no state: "the butter and let it melt".
        if matches!(lower, "let" | "into" | "in" | "goes" | "until" | "for") && at > from {
            let still = matches!(lower, "goes" | "in");
            if !still {
                return None;
            }
        }
        if let Some(state) = phrase(heard, at, to) {
            let more = if lower == "room" || lower == "blood" || lower == "body" {
                2
            } else {
                1
            };
            let end = (at..to)
                .find(|n| COLD_PLACES.contains(&words[*n].lower.as_str()))
                .map_or(at + more, |n| n + 1);
            return Some((end, state));
        }
        if let Some(state) = state_of(heard, thing, lower) {
            let noun = words.get(at + 1).map_or("", |word| word.lower.as_str());
            // "in a warm place", "a hot oven", "a cold bench"
            let of_other = at > from
                && matches!(
                    words[at - 1].lower.as_str(),
                    "a" | "the" | "your" | "my" | "an"
                )
                || matches!(
                    noun,
                    "place"
                        | "oven"
                        | "kitchen"
                        | "room"
                        | "water"
                        | "bowl"
                        | "day"
                        | "spot"
                        | "tray"
                        | "hands"
                );
            if !of_other {
                return Some((at + 1, state));
            }
        }
    }
    None
}
