//! The words by which somebody says what to look for: "until it's", "you want it", "that's the sign".

use super::signs::BEHIND_WORDS;
use super::words::{LOOKS, READY};
use crate::talk::speech::Speech;

/// Where the words of a sign begin, when a cue stands at a word: "until it's", "you want it", "should be".
pub(super) fn cue(speech: &Speech, first: usize, at: usize, end: usize) -> Option<usize> {
    let lower = |n: usize| {
        speech
            .words
            .get(n)
            .filter(|_| n < end)
            .map_or("", |word| word.lower.as_str())
    };
    let it = |n: usize| {
        matches!(
            lower(n),
            "it" | "it's"
                | "they"
                | "they're"
                | "they've"
                | "the"
                | "its"
                | "a"
                | "your"
                | "nothing"
                | "nothing's"
        )
    };
    let any = |wanted: &[&str]| {
        speech.words[first..end]
            .iter()
            .any(|w| wanted.contains(&w.lower.as_str()))
    };
    match lower(at) {
        "until" | "till" | "til" => Some(at + 1),
        "while"
            if it(at + 1)
                && ((1..=5).any(|n| lower(at + n) == "still")
                    || any(&["pull", "whip"])
                    || any(&["take", "get", "pull"]) && any(&["out"])) =>
        {
            Some(at + 1)
        }
        "when" | "once"
            if it(at + 1)
                && any(&[
                    "ready", "done", "time", "stop", "out", "move", "finished", "baked", "on",
                    "pull", "know", "there", "rested", "risen", "proved", "chilled",
                ]) =>
        {
            Some(at + 1)
        }
        "when" | "once"
            if lower(at + 1) == "you"
                && matches!(
                    lower(at + 2),
                    "knock"
                        | "tap"
                        | "poke"
                        | "press"
                        | "prod"
                        | "can"
                        | "roll"
                        | "pull"
                        | "stretch"
                )
                && any(&["ready", "done", "baked", "sign", "enough"]) =>
        {
            Some(at + 3)
        }
        // "And when you push a skewer inside, it comes out with wet dough on it": so it is when it is ready.
        "when"
            if lower(at + 1) == "you"
                && matches!(
                    lower(at + 2),
                    "push"
                        | "stick"
                        | "put"
                        | "slide"
                        | "knock"
                        | "tap"
                        | "poke"
                        | "press"
                        | "prod"
                        | "shake"
                )
                && !any(&[
                    "longer", "more", "back", "needs", "yet", "not", "isn't", "give", "another",
                    "too",
                ]) =>
        {
            Some(at + 3)
        }
        // "In the morning you let it get soft again before you shape it".
        "let"
            if matches!(lower(at + 1), "it" | "them" | "the")
                && (2..=3).any(|n| matches!(lower(at + n), "get" | "come" | "go" | "turn"))
                && any(&["before"]) =>
        {
            Some(at + 2)
        }
        "want" if matches!(lower(at + 1), "it" | "them" | "a" | "the") => Some(at + 1),
        "like"
            if matches!(lower(at + 1), "it" | "them" | "a" | "the")
                && (at == first
                    || matches!(lower(at - 1), "you" | "i" | "i'd" | "we" | "you'd")) =>
        {
            Some(at + 1)
        }
        // "What you want to see is that it's puffed up".
        "want" | "like" | "hope"
            if lower(at + 1) == "to"
                && matches!(lower(at + 2), "see" | "hear" | "feel" | "find" | "get") =>
        {
            Some(at + 3)
        }
        // "In the morning it'll be firm".
        "it'll" | "they'll"
            if matches!(lower(at + 1), "be" | "look" | "feel" | "sound" | "have") =>
        {
            Some(at + 2)
        }
        // "If the dent comes back slowly, it's ready".
        "if" if it(at + 1)
            && (any(&READY)
                || any(&["take", "comes", "pull", "whip", "lift", "get"]) && any(&["out"]))
            && !any(&[
                "not", "isn't", "aren't", "until", "yet", "don't", "doesn't", "won't", "throw",
            ]) =>
        {
            Some(at + 1)
        }
        // "A hollow knock is what you're listening for".
        "what"
            if at > first + 2
                && matches!(lower(at - 1), "is" | "are")
                && (1..=4).any(|n| {
                    matches!(lower(at + n), "after" | "want" | "listening" | "looking")
                }) =>
        {
            Some(first.max(at.saturating_sub(BEHIND_WORDS)))
        }
        "looking" | "look" | "waiting" | "hoping" | "listening" | "watching" | "going"
            if lower(at + 1) == "for" =>
        {
            Some(at + 2)
        }
        // "So long as it's clean when it comes out, the bread's done".
        "long" if lower(at + 1) == "as" && it(at + 2) && any(&READY) => Some(at + 2),
        "after" if lower(at + 1) == "is" => Some(at + 2),
        // "You're after a pale gold", but not "that's what you're after".
        "after"
            if at > first
                && matches!(lower(at - 1), "you're" | "i'm" | "we're")
                && !lower(at + 1).is_empty() =>
        {
            Some(at + 1)
        }
        // "A dull thud means it's cooked".
        "means"
            if at > first
                && (1..=4)
                    .any(|n| matches!(lower(at + n), "done" | "cooked" | "baked" | "ready"))
                && !(1..=4).any(|n| {
                    matches!(
                        lower(at + n),
                        "not" | "isn't" | "wasn't" | "aren't" | "never" | "nearly"
                    )
                }) =>
        {
            Some(first.max(at.saturating_sub(BEHIND_WORDS)))
        }
        // "It's as flat as a pancake, and that's what you're after".
        "that's"
            if (at > first || end > first + 1)
                && (matches!(
                    lower(at + 1),
                    "ready" | "perfect" | "right" | "ideal" | "as" | "spot" | "bang" | "dead"
                ) || lower(at + 1) == "the" && lower(at + 2) == "sign"
                    || lower(at + 1) == "a" && (2..=3).any(|n| lower(at + n) == "sign")
                    || matches!(lower(at + 1), "what" | "how")
                        && (2..=5).any(|n| {
                            matches!(
                                lower(at + n),
                                "after"
                                    | "want"
                                    | "meant"
                                    | "looking"
                                    | "supposed"
                                    | "should"
                                    | "like"
                            )
                        })) =>
        {
            Some(first.max(at.saturating_sub(BEHIND_WORDS)))
        }
        // "A nice dark crust and we're done"
        "we're" | "it's" | "they're" | "you're"
            if at > first + 2
                && lower(at - 1) == "and"
                && matches!(lower(at + 1), "done" | "there" | "ready" | "finished") =>
        {
            Some(first.max(at.saturating_sub(BEHIND_WORDS)))
        }
        // "You can tell it's right because it cuts like cheese"
        "because" if it(at + 1) && any(&["tell", "know"]) => Some(at + 1),
        // "Cut it while you can still see it steaming"
        "while" if lower(at + 1) == "you" && matches!(lower(at + 2), "can" | "still") => {
            Some(at + 3)
        }
        // "I whip mine out as soon as there's a bit of blond on it".
        "soon"
            if lower(at + 1) == "as"
                && any(&["out", "ready", "done", "stop", "off"])
                && !any(&["comes", "brush"]) =>
        {
            Some(at + 2)
        }
        // "They shouldn't budge"
        "shouldn't" | "mustn't" if LOOKS.contains(&lower(at + 1)) => Some(at),
        "should" | "must" if LOOKS.contains(&lower(at + 1)) => Some(at + 1),
        // "It should still be hot to the finger"
        "should" | "must"
            if matches!(lower(at + 1), "still" | "just" | "now" | "really" | "only")
                && LOOKS.contains(&lower(at + 2)) =>
        {
            Some(at + 2)
        }
        "ought" | "needs" | "need" | "wants" | "has" | "got" | "supposed"
            if lower(at + 1) == "to" && LOOKS.contains(&lower(at + 2)) =>
        {
            Some(at + 2)
        }
        _ => None,
    }
}
