//! One deed and then another in one sentence: "slash it, and then let it rise", "the peel first, and the butter after that".

use super::breads::of_named_breads;
use super::{DEED_BEFORE, Stands, against, lower};
use crate::talk::code;
use crate::talk::finding::Kind;
use crate::talk::heard::{Heard, Mood, is_not_told};
use crate::talk::points::{ADDS, deed, main_stage};
use crate::talk::things::Sort;
use recipe::source::Code;

/// "Slash the top once, and then let it rise", "slash it now and let it rise", "the peel first, and the butter after that".
pub(super) fn one_then_other(
    heard: &Heard,
    first: usize,
    end: usize,
) -> Option<(String, Kind, Code)> {
    let words = &heard.speech.words;
    // Where nothing parts sentences, "then" begins the next.
    let goes_on = heard.speech.bare && words[first].lower == "then" && first > 0;
    let first = if goes_on {
        let (before, _) = heard.speech.sentences[words[first].sentence - 1];
        before.max(first.saturating_sub(DEED_BEFORE))
    } else {
        first
    };
    let then = (first + 2..end).find(|at| {
        let next = lower(heard, at + 1, end);
        match words[*at].lower.as_str() {
            // "It goes in the fridge first, and only then does it stand in the room"
            "then" if lower(heard, at - 1, end) == "only" => {
                (first..*at).any(|n| words[n].lower == "first")
            }
            "then" => !matches!(
                lower(heard, at - 1, end),
                "by" | "until" | "till" | "since" | "back" | "now" | "if"
            ),
            "and" => {
                matches!(next, "let" | "leave")
                    && matches!(lower(heard, at + 2, end), "it" | "them")
                    && (3..=5)
                        .any(|n| matches!(lower(heard, at + n, end), "rise" | "prove" | "proof"))
            }
            "after" => matches!(next, "that" | "this" | ""),
            "next" | "afterwards" => true,
            "later" => matches!(lower(heard, at - 1, end), "come" | "comes" | "goes" | "go"),
            // "The peel goes in now, and when it's vanished I start on the butter".
            "when" | "once" => {
                matches!(
                    next,
                    "they've" | "it's" | "that's" | "they're" | "they" | "it"
                ) && (2..=4).any(|n| {
                    matches!(
                        lower(heard, at + n, end),
                        "vanished" | "gone" | "disappeared" | "absorbed" | "in" | "worked"
                    )
                })
            }
            _ => false,
        }
    })?;
    if (first..then).any(|at| heard.frame(at) != Mood::Here)
        || words[first..end]
            .iter()
            .any(|word| is_not_told(&word.lower) || word.lower == "before")
    {
        return None;
    }
    // What is told of a thing that goes in: "the peel first, and the butter after that".
    let said_first = (first..then)
        .find(|at| words[*at].lower == "first")
        .or_else(|| matches!(lower(heard, then, end), "when" | "once").then_some(then));
    if let Some(at) = said_first {
        let adds = words[first..end]
            .iter()
            .any(|word| ADDS.contains(&word.lower.as_str()));
        let of = |from: usize, to: usize| -> Vec<usize> {
            heard
                .mentions_in(from, to)
                .iter()
                .filter(|mention| heard.things[mention.things[0]].sort == Sort::Ingredient)
                .map(|mention| mention.things[0])
                .collect()
        };
        // "First the butter into the bowl, then the flour."
        let split = if at <= first + 1 { then } else { at };
        let adds = adds || at <= first + 1;
        let (one, other) = (of(first, split), of(split, end));
        if adds && !one.is_empty() && !other.is_empty() {
            return turned(heard, &one, &other);
        }
        if matches!(lower(heard, then, end), "when" | "once") {
            return None;
        }
    }
    // "And only after that does it stand in the room": what comes after stands behind its word, where that leads.
    let leads = words[..then]
        .iter()
        .rev()
        .take_while(|word| word.clause == words[then].clause)
        .all(|word| matches!(word.lower.as_str(), "and" | "only" | "but" | "then"));
    let near = first.max(then.saturating_sub(DEED_BEFORE));
    // "Divide it straight away, and chill the pieces afterwards": what comes after stands before its word.
    let trails = !leads && matches!(lower(heard, then, end), "afterwards" | "after" | "later");
    let (turn, stop) = if trails {
        let begin = (near..then)
            .rev()
            .find(|n| words[*n].clause != words[then].clause || words[*n].lower == "and")?;
        (begin + 1, then)
    } else {
        let reach = if leads { LED_WORDS } else { THEN_WORDS };
        (then, (then + reach).min(end))
    };
    let (one, other) = (deed(heard, near, turn), deed(heard, turn, stop));
    if one.is_empty() || other.is_empty() {
        return None;
    }
    let (one, other) = of_named_breads(heard, (near, turn, one), (turn, stop, other));
    against(heard, Stands::Before, &one, &other)
}

/// What comes after is told within so many words of "then", and of "only after that".
const THEN_WORDS: usize = 7;
const LED_WORDS: usize = 16;

/// Things of one step after things of a later one.
fn turned(heard: &Heard, one: &[usize], other: &[usize]) -> Option<(String, Kind, Code)> {
    let step = |things: &[usize]| {
        let mut steps = heard.facts.iter().filter(|fact| {
            fact.sort == crate::talk::facts::Sort::Amount
                && !fact.only_allowed
                && fact.section == Some(main_stage(heard))
                && fact.thing.is_some_and(|thing| things.contains(&thing))
        });
        steps.next().and_then(|fact| fact.step)
    };
    let (a, b) = (step(one)?, step(other)?);
    (a > b).then(|| {
        (
            format!(
                "the recipe has {} in step {}, and {} in step {}.",
                heard.things[other[0]].name,
                b + 1,
                heard.things[one[0]].name,
                a + 1
            ),
            Kind::Order,
            code::TALK_ORDER_DIFFERS,
        )
    })
}
