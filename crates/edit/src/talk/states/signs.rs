//! What a step looks like when it is over: "while it's still white on top", where the recipe bakes until deep brown.
//!
//! The words for a look lie along a few scales, from pale to dark, from flat to risen. A talk is held against the
//! recipe on one scale at a time, at the step it has come to, and only where the recipe's own sentence has a word of
//! that scale. The scales and their marks are our own choice; the words are the trade's.

use super::scales::{SCALES, Scale};
use super::words::{LOOKS, PASSING, READY, SOFTENED, TRIES};
use crate::talk::code;
use crate::talk::finding::{Finding, Kind};
use crate::talk::heard::{Heard, Mood};
use crate::talk::speech::{Speech, Word};
use crate::talk::track::Track;
use recipe::source::Span;

/// The sign stands within so many words of its cue.
const SIGN_WORDS: usize = 15;

/// A sign stands at most so many words before what says that it is one.
const BEHIND_WORDS: usize = 12;

/// A sign is of a step at most so many from where the talk has come to.
const STEPS_OFF: usize = 2;

/// Every sign that differs from the recipe's.
pub(super) fn signs(heard: &Heard, track: &Track) -> Vec<Finding> {
    let mut found = Vec::new();
    for (sentence, &(first, end)) in heard.speech.sentences.iter().enumerate() {
        if heard.asks(sentence) {
            continue;
        }
        let mut at = first;
        while at < end {
            let Some(begin) = cue(&heard.speech, first, at, end) else {
                at += 1;
                continue;
            };
            let stop = stop(&heard.speech, begin, end);
            if begin < stop && !passes(heard, first, at) && heard.frame(at) == Mood::Here {
                found.extend(differing(heard, track, first, begin, stop));
            }
            at = stop.max(at + 1);
        }
    }
    found
}

/// Where the words of a sign end: "until it comes together, then medium until it is smooth" are two.
fn stop(speech: &Speech, begin: usize, end: usize) -> usize {
    let most = (begin + SIGN_WORDS).min(end);
    let lower = |n: usize| speech.words[n].lower.as_str();
    let Some(next) = (begin + 1..most).find(|n| matches!(lower(*n), "until" | "till" | "til"))
    else {
        return most;
    };
    (begin + 1..next)
        .rev()
        .take(4)
        .find(|n| lower(*n) == "then")
        .unwrap_or(next)
}

/// Where the words of a sign begin, when a cue stands at a word: "until it's", "you want it", "should be".
fn cue(speech: &Speech, first: usize, at: usize, end: usize) -> Option<usize> {
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
            "it" | "it's" | "they" | "they're" | "they've" | "the" | "its" | "a" | "your"
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
                    || any(&["take", "get", "pull"]) && any(&["out"])) =>
        {
            Some(at + 1)
        }
        "when" | "once"
            if it(at + 1)
                && any(&[
                    "ready", "done", "time", "stop", "out", "move", "finished", "baked", "on",
                    "pull", "know", "there",
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
        "want" | "like" | "hope" if lower(at + 1) == "to" && lower(at + 2) == "see" => Some(at + 3),
        // "In the morning it'll be firm".
        "it'll" | "they'll" if matches!(lower(at + 1), "be" | "look" | "feel" | "sound") => {
            Some(at + 2)
        }
        // "If the dent comes back slowly, it's ready".
        "if" if it(at + 1)
            && (any(&READY) || any(&["take"]) && any(&["out"]))
            && !any(&["not", "isn't", "aren't", "until", "yet"]) =>
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
        "looking" | "look" if lower(at + 1) == "for" => Some(at + 2),
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
            if at > first
                && (matches!(lower(at + 1), "perfect" | "right" | "ideal" | "as")
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
        "should" | "must" if LOOKS.contains(&lower(at + 1)) => Some(at + 1),
        "ought" | "needs" | "need" | "wants" | "has" | "got" | "supposed"
            if lower(at + 1) == "to" && LOOKS.contains(&lower(at + 2)) =>
        {
            Some(at + 2)
        }
        _ => None,
    }
}

/// Whether what stands before a cue makes it a warning, a case or a passing look.
fn passes(heard: &Heard, first: usize, at: usize) -> bool {
    let from = if heard.speech.bare {
        first.max(at.saturating_sub(8))
    } else {
        first
    };
    let words = &heard.speech.words;
    let tries = |n: usize| {
        words[n].lower == "if"
            && (2..=3).any(|more| {
                words
                    .get(n + more)
                    .is_some_and(|word| TRIES.contains(&word.lower.as_str()))
            })
    };
    (from..at).any(|n| PASSING.contains(&words[n].lower.as_str()) && !tries(n))
}

/// The finding for a sign, when on one scale nothing that the recipe has near is like it.
fn differing(
    heard: &Heard,
    track: &Track,
    first: usize,
    begin: usize,
    stop: usize,
) -> Option<Finding> {
    let words = &heard.speech.words;
    let around = &words[first.max(begin.saturating_sub(SIGN_WORDS))..stop];
    let clause = words[begin.min(stop - 1)].clause;
    let here = heard.walk[clause].0;
    // A sign is of the step that was told just before, where the talk goes on from there.
    let before = heard.walk[..words[first].clause]
        .iter()
        .rev()
        .find(|(_, told)| *told)
        .map_or(here, |(step, _)| *step);
    let mut agreed: Vec<usize> = Vec::new();
    let mut differing = None;
    for scale in &SCALES {
        // "Knock on the bottom of it. A dull thud is what you're listening for."
        let just_said = words[first]
            .sentence
            .checked_sub(1)
            .filter(|_| !heard.speech.bare)
            .map_or((first, first), |at| heard.speech.sentences[at]);
        let with = scale.with.is_empty()
            || around
                .iter()
                .any(|word| scale.with.contains(&word.lower.as_str()))
            || words[just_said.0..just_said.1].iter().any(|word| {
                TRIES.contains(&word.lower.as_str()) && scale.with.contains(&word.lower.as_str())
            });
        if !with {
            continue;
        }
        let said = marks(scale, words, begin, stop);
        if said.is_empty() || said.iter().all(|(at, ..)| agreed.contains(at)) {
            continue;
        }
        // A case or a comparison inside the sign says nothing.
        if words[begin..said[0].0].iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "too" | "than" | "if" | "first" | "begin" | "then" | "halfway"
            )
        }) {
            return None;
        }
        let near: Vec<_> = heard
            .places
            .iter()
            .filter(|place| {
                (scale.at)(&place.step.action)
                    && (place.number.abs_diff(here) <= STEPS_OFF || place.number == before)
            })
            .filter_map(|place| {
                let see = place.step.until.as_ref()?.see.as_ref()?;
                let text = &place.step.text.value;
                let until = text.find("until").map_or("", |at| &text[at..]);
                let own = crate::talk::facts::in_words(&format!("{}. {until}", see.value));
                let own = marks(scale, &own.words, 0, own.words.len());
                (!own.is_empty()).then_some((place, see, own))
            })
            .collect();
        let like = |own: &[(usize, usize, f64)]| {
            let near = |b: f64| own.iter().any(|(.., a)| (a - b).abs() <= scale.apart);
            // A crust that is black in one place is black.
            if scale.whole {
                said.iter().all(|(.., b)| near(*b))
            } else {
                said.iter().any(|(.., b)| near(*b))
            }
        };
        // A word that is right on one scale is no slip on another.
        if near.iter().any(|(_, _, own)| like(own)) {
            agreed.extend(said.iter().map(|(at, ..)| *at));
            continue;
        }
        let Some((place, see, _)) = near
            .iter()
            .min_by_key(|(place, ..)| place.number.abs_diff(here))
        else {
            continue;
        };
        let (from, to) = (said[0].0.min(begin), said[said.len() - 1].1);
        let span = Span::new(words[from].span.start, words[to - 1].span.end);
        let message = format!(
            "you say “{}”; what the recipe looks for there is “{}” (step {}).",
            heard.speech.slice(span),
            see.value,
            place.number + 1
        );
        let places: Vec<usize> = said.iter().map(|(at, ..)| *at).collect();
        let finding = Finding::at(
            heard,
            track,
            Kind::State,
            code::TALK_SIGN_DIFFERS,
            span,
            &message,
        )
        .instead(Some(format!("Until {}.", see.value)));
        let own = place.number == here;
        match &differing {
            Some((_, _, true)) => {}
            Some(_) if !own => {}
            _ => differing = Some((finding, places, own)),
        }
    }
    differing
        .filter(|(_, places, _)| !places.iter().all(|at| agreed.contains(at)))
        .map(|(finding, ..)| finding)
}

/// "No" reaches so many words.
const DENIED_WORDS: usize = 5;

/// The words of a scale within some words, each with its place and its mark.
fn marks(scale: &Scale, words: &[Word], begin: usize, stop: usize) -> Vec<(usize, usize, f64)> {
    let mut found: Vec<(usize, usize, f64)> = Vec::new();
    for at in begin..stop {
        // "Deep brown" is no "brown".
        if found.last().is_some_and(|(_, end, _)| at < *end) {
            continue;
        }
        let hit = scale
            .marks
            .iter()
            .filter_map(|(name, mark)| {
                let many = name.split(' ').count();
                let same = at + many <= stop
                    && name.split(' ').zip(&words[at..]).all(|(a, b)| a == b.lower);
                same.then_some((many, *mark))
            })
            .max_by_key(|(many, _)| *many);
        let Some((many, mark)) = hit else { continue };
        // What has not doubled may have risen well.
        let grown = words[at].stem.starts_with("doubl") || words[at].stem.starts_with("tripl");
        let denied = words[begin.saturating_sub(1).max(at.saturating_sub(DENIED_WORDS))..at]
            .iter()
            .rev()
            .take_while(|word| word.clause == words[at].clause && word.lower != "but")
            .any(|word| {
                matches!(
                    word.lower.as_str(),
                    "no" | "not"
                        | "without"
                        | "isn't"
                        | "never"
                        | "nor"
                        | "aren't"
                        | "can't"
                        | "cannot"
                        | "any"
                        | "hardly"
                        | "barely"
                        | "scarcely"
                )
            });
        // "sunk a little in the middle" is no collapse.
        let softened = || {
            words[at.saturating_sub(3)..(at + 5).min(words.len())]
                .iter()
                .any(|word| SOFTENED.contains(&word.lower.as_str()))
        };
        let mark = match (denied, scale.denied) {
            (true, Some((limit, to)))
                if !grown && (to < limit && mark >= limit || to > limit && mark <= limit) =>
            {
                to
            }
            (true, _) => continue,
            (false, _) if scale.softens && mark <= 0.0 && softened() => 1.5,
            (false, _) => mark,
        };
        found.push((at, at + many, mark));
    }
    found
}
