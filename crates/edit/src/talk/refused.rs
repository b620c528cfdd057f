//! What the recipe does and the speaker says not to do: "we're not waiting for any foam", "skip the pan altogether".

use super::finding::Finding;
use super::heard::{Heard, Mood};
use super::speech::Word;
use super::track::Track;
use recipe::source::Span;

/// What is left out is named within so many words.
const REFUSED_WORDS: usize = 6;

/// It is of a step at most so many from where the talk has come to.
const STEPS_OFF: usize = 2;

/// Stems of what a recipe's step does, looks for or works with, by which a step is known when it is left out.
const DEEDS: [&str; 20] = [
    "rest", "ris", "chill", "soak", "fold", "cool", "brush", "slash", "foil", "cover", "foam",
    "doubl", "whisk", "sid", "steam", "smooth", "drain", "greas", "wash", "pan",
];

/// Everything that is left out against the recipe.
pub(super) fn refusals(heard: &Heard, track: &Track) -> Vec<Finding> {
    let mut found = Vec::new();
    for (sentence, &(first, end)) in heard.speech.sentences.iter().enumerate() {
        if heard.asks(sentence) || heard.story_of(sentence) > 0.0 {
            continue;
        }
        let hit = (first..end)
            .filter(|at| heard.frame(*at) == Mood::Here)
            .find_map(|at| {
                let from = refuses(&heard.speech.words, first, at, end)?;
                left_out(heard, at, from, end.min(from + REFUSED_WORDS))
            });
        let Some((at, word, step)) = hit else {
            continue;
        };
        let words = &heard.speech.words;
        let span = Span::new(words[at].span.start, words[word].span.end);
        let text = heard.places[step].step.text.value.replace(['[', ']'], "");
        let message = format!(
            "you say “{}”; step {} of the recipe is “{text}”",
            heard.speech.slice(span),
            step + 1
        );
        found.push(Finding::of_order(heard, track, span, &message));
    }
    found
}

/// Where the words for what is left out begin, when a word leaves something out.
fn refuses(words: &[Word], first: usize, at: usize, end: usize) -> Option<usize> {
    let lower = |n: usize| {
        words
            .get(n)
            .filter(|_| n < end)
            .map_or("", |word| word.lower.as_str())
    };
    let before = at
        .checked_sub(1)
        .filter(|n| *n >= first)
        .map_or("", |n| lower(n));
    let case = words[first..at].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "if" | "could" | "would" | "can" | "never" | "people" | "when" | "unless" | "can't"
        )
    });
    if case {
        return None;
    }
    Some(match (lower(at), lower(at + 1)) {
        ("skip", _) if !matches!(before, "don't" | "not" | "to" | "you" | "never") => at + 1,
        ("no", "need" | "point") if matches!(lower(at + 2), "to" | "in" | "for") => at + 3,
        ("no", "point") | ("don't", "bother") | ("not", "waiting") => at + 2,
        ("no", next) if next.ends_with("ing") => at + 1,
        // "There's no fold in the middle of that"
        ("no", _) if matches!(before, "there's" | "is") => at + 1,
        ("don't", "wait") if lower(at + 2) == "for" => at + 3,
        _ => return None,
    })
}

/// The word for what a step near by does, among some words, and the step.
fn left_out(heard: &Heard, at: usize, from: usize, to: usize) -> Option<(usize, usize, usize)> {
    let words = &heard.speech.words;
    let clause = words[at].clause;
    let here = heard.walk[clause].0;
    let before = heard.walk[..clause]
        .iter()
        .rev()
        .find(|(_, told)| *told)
        .map_or(here, |(step, _)| *step);
    (from..to)
        .take_while(|n| words[*n].clause == words[from].clause)
        .find_map(|n| {
            let stem = words[n].stem.as_str();
            let place = heard
                .places
                .iter()
                .filter(|place| {
                    place.number.abs_diff(here) <= STEPS_OFF || place.number.abs_diff(before) <= 1
                })
                .find(|place| DEEDS.contains(&stem) && place.stems.iter().any(|own| own == stem))?;
            Some((at, n, place.number))
        })
}
