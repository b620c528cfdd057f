//! What a step looks like when it is over: "while it's still white on top", where the recipe bakes until deep brown.
//!
//! The words for a look lie along a few scales, from pale to dark, from flat to risen. A talk is held against the
//! recipe on one scale at a time, at the step it has come to, and only where the recipe's own sentence has a word of
//! that scale. The scales and their marks are our own choice; the words are the trade's.

use super::cue::cue;
use super::scales::{SCALES, Scale};
use super::words::{PASSING, SOFTENED, TRIES};
use crate::talk::code;
use crate::talk::facts::Place;
use crate::talk::finding::{Finding, Kind};
use crate::talk::heard::{Heard, Mood};
use crate::talk::speech::{Speech, Word};
use crate::talk::track::Track;
use recipe::source::Span;

/// The sign stands within so many words of its cue.
const SIGN_WORDS: usize = 15;

/// A sign stands at most so many words before what says that it is one.
pub(super) const BEHIND_WORDS: usize = 12;

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
            // "It's flat as a pond. That's the sign.": of what was said just before.
            if at == first
                && words_are(&heard.speech, at, "that's")
                && let Some(before) = sentence.checked_sub(1)
                && !heard.asks(before)
            {
                let (from, to) = heard.speech.sentences[before];
                if !passes(heard, from, to) && heard.frame(from) == Mood::Here {
                    found.extend(differing(
                        heard,
                        track,
                        from,
                        from.max(to.saturating_sub(SIGN_WORDS)),
                        to,
                    ));
                }
            }
            at = stop.max(at + 1);
        }
    }
    found
}

fn words_are(speech: &Speech, at: usize, wanted: &str) -> bool {
    speech.words[at].lower == wanted
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

/// A word of a scale: where it begins and ends, its mark, and whether it tells of the scale's other side.
#[derive(Clone, Copy)]
struct Mark {
    at: usize,
    end: usize,
    value: f64,
    beside: bool,
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
    // "No butter while it's still a mess"
    let none =
        (from..at).any(|n| words[n].lower == "no" && !heard.mentions_in(n + 1, n + 2).is_empty());
    // "So don't do that. When it's pale on top": done with.
    let done_with = |n: usize| {
        words[n].lower == "don't"
            && words.get(n + 1).is_some_and(|word| word.lower == "do")
            && words
                .get(n + 2)
                .is_some_and(|word| matches!(word.lower.as_str(), "that" | "this" | "it"))
    };
    let passing = |n: usize| PASSING.contains(&words[n].lower.as_str()) && !done_with(n);
    none || (from..at).any(|n| passing(n) && !tries(n))
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
    // Words that are right on some scale, with how many steps off that is.
    let mut agreed: Vec<(usize, usize)> = Vec::new();
    let mut differing: Vec<(Finding, Vec<usize>, usize)> = Vec::new();
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
        if said.is_empty() {
            continue;
        }
        // A case or a comparison inside the sign says nothing.
        if words[begin..said[0].at].iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "too" | "than" | "if" | "first" | "begin" | "then" | "halfway"
            )
        }) {
            return None;
        }
        let off = |place: &Place| place.number.abs_diff(here);
        let mut near: Vec<_> = heard
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
        // "Not risen at all, with a few bubbles on top": of a step that says how far it rises, where one is near.
        let of_growth = |own: &[Mark]| own.iter().any(|mark| !mark.beside);
        if of_growth(&said) && near.iter().any(|(.., own)| of_growth(own)) {
            near.retain(|(.., own)| of_growth(own));
        }
        let like = |own: &[Mark]| {
            let (said, own) = of_one_side(&said, own);
            let near = |b: f64| own.iter().any(|own| (own.value - b).abs() <= scale.apart);
            // A crust that is black in one place is black.
            if scale.whole {
                said.iter().all(|said| near(said.value))
            } else {
                said.iter().any(|said| near(said.value))
            }
        };
        let right = near.iter().filter(|(.., own)| like(own));
        if let Some(steps) = right.map(|(place, ..)| off(place)).min() {
            agreed.extend(said.iter().map(|own| (own.at, steps)));
            continue;
        }
        let Some((place, see, _)) = near.iter().min_by_key(|(place, ..)| off(place)) else {
            continue;
        };
        let (from, to) = (said[0].at.min(begin), said[said.len() - 1].end);
        let span = Span::new(words[from].span.start, words[to - 1].span.end);
        let message = format!(
            "you say “{}”; what the recipe looks for there is “{}” (step {}).",
            heard.speech.slice(span),
            see.value,
            place.number + 1
        );
        let places: Vec<usize> = said.iter().map(|own| own.at).collect();
        let finding = Finding::at(
            heard,
            track,
            Kind::State,
            code::TALK_SIGN_DIFFERS,
            span,
            &message,
        )
        .instead(Some(format!("Until {}.", see.value)));
        differing.push((finding, places, off(place)));
    }
    // A word that is right on one scale is no slip on another, unless its own step is that of the other: a dough in the cold that
    // is soft, though it was soft in the mixer.
    let slips = differing.into_iter().filter(|(_, places, steps)| {
        !places.iter().all(|at| {
            let right = agreed.iter().find(|(own, _)| own == at);
            right.is_some_and(|(_, off)| *steps > 0 || *off == 0)
        })
    });
    slips
        .min_by_key(|(_, _, steps)| usize::from(*steps > 0))
        .map(|(finding, ..)| finding)
}

/// What is shaped is told within so many words before how it is to be.
const SHAPED_WORDS: usize = 16;

/// Where both tell of the same side, what they tell of the other does not count: "hardly risen, with bubbles under the skin".
fn of_one_side(said: &[Mark], own: &[Mark]) -> (Vec<Mark>, Vec<Mark>) {
    let main = |marks: &[Mark]| -> Vec<Mark> {
        let kept = marks.iter().filter(|mark| !mark.beside);
        kept.copied().collect()
    };
    let (a, b) = (main(said), main(own));
    if a.is_empty() || b.is_empty() {
        (said.to_vec(), own.to_vec())
    } else {
        (a, b)
    }
}

/// "No" reaches so many words.
const DENIED_WORDS: usize = 5;

/// The words of a scale within some words, each with its place and its mark.
fn marks(scale: &Scale, words: &[Word], begin: usize, stop: usize) -> Vec<Mark> {
    let mut found: Vec<Mark> = Vec::new();
    for at in begin..stop {
        // "Deep brown" is no "brown".
        if found.last().is_some_and(|own| at < own.end) {
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
        // "Press it flat": what is done to it is no look.
        let made = words[begin.max(at.saturating_sub(3))..at]
            .iter()
            .any(|word| {
                matches!(
                    word.stem.as_str(),
                    "press"
                        | "roll"
                        | "pat"
                        | "squash"
                        | "flatten"
                        | "push"
                        | "lay"
                        | "shap"
                        | "mak"
                )
            });
        // "If you shake the tray": who tries it.
        let tried = at > 0 && matches!(words[at - 1].lower.as_str(), "you" | "i" | "we");
        // "Pull it towards you on the bench until it's tight": what is shaped has not rested.
        let pulled = words[at].lower == "tight"
            && words[at.saturating_sub(SHAPED_WORDS)..at]
                .iter()
                .any(|word| {
                    word.sentence == words[at].sentence
                        && matches!(
                            word.stem.as_str(),
                            "pull" | "drag" | "draw" | "tuck" | "shap" | "roll" | "turn"
                        )
                });
        if made && words[at].lower == "flat" || tried || pulled {
            continue;
        }
        // What has not doubled may have risen well.
        let grown = words[at].stem.starts_with("doubl") || words[at].stem.starts_with("tripl");
        let denied = words[begin.saturating_sub(1).max(at.saturating_sub(DENIED_WORDS))..at]
            .iter()
            .rev()
            .take_while(|word| word.clause == words[at].clause && word.lower != "but")
            .any(|word| {
                matches!(
                    word.lower.as_str(),
                    "no" | "nae"
                        | "not"
                        | "shouldn't"
                        | "mustn't"
                        | "don't"
                        | "doesn't"
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
        found.push(Mark {
            at,
            end: at + many,
            value: mark,
            beside: scale.beside.contains(&words[at].lower.as_str()),
        });
    }
    found
}
