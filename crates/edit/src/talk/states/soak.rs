//! What is to be soaked, and is said to go in dry.

use crate::talk::finding::Finding;
use crate::talk::heard::Heard;
use crate::talk::speech::Word;
use crate::talk::track::Track;
use recipe::source::Span;

/// "They go in dry, straight from the packet", where the recipe soaks them.
pub(super) fn dry(heard: &Heard, track: &Track) -> Vec<Finding> {
    let words = &heard.speech.words;
    let mut found = Vec::new();
    for stage in &heard.inputs.recipe.stages {
        for item in &stage.items {
            let soaked = item
                .state
                .as_ref()
                .filter(|state| state.value.to_lowercase().contains("soak"));
            let Some(state) = soaked else { continue };
            let own = crate::talk::things::stems(item.called());
            let Some(named) = words.iter().position(|word| own.contains(&word.stem)) else {
                continue;
            };
            let sentence = words[named].sentence;
            let last = (sentence + 1).min(heard.speech.sentences.len() - 1);
            let end = heard.speech.sentences[last].1;
            let said = (named..end).find(|at| is_dry(words, *at, end));
            let Some(at) = said else { continue };
            let span = Span::new(words[at].span.start, words[at].span.end);
            let message = format!(
                "you say “{}”; the recipe has the {} {}.",
                heard.speech.slice(span),
                item.called(),
                state.value
            );
            let instead = Some(format!("The {} go in {}.", item.called(), state.value));
            found.push(Finding::of_state(heard, track, span, &message, instead));
        }
    }
    found
}

/// "Dry", "just as they come", "straight from the packet", "don't bother with water", "no need to soak them".
fn is_dry(words: &[Word], at: usize, end: usize) -> bool {
    let lower = |n: usize| {
        words
            .get(at + n)
            .filter(|_| at + n < end)
            .map_or("", |word| word.lower.as_str())
    };
    let soaks = |n: usize| {
        matches!(
            lower(n),
            "soak" | "soaking" | "soaked" | "water" | "plump" | "plumping"
        )
    };
    let before = at.checked_sub(1).map_or("", |n| words[n].lower.as_str());
    match lower(0) {
        // "Squeezed them dry"
        "dry" => {
            let made = (1..=3).any(|back| {
                at.checked_sub(back).is_some_and(|n| {
                    matches!(
                        words[n].lower.as_str(),
                        "squeezed" | "squeeze" | "patted" | "pat" | "drained" | "wrung" | "dabbed"
                    )
                })
            });
            !made && !matches!(lower(1), "them" | "off") && before != "until"
        }
        "unsoaked" => true,
        "as" => lower(1) == "they" && matches!(lower(2), "come" | "are"),
        "straight" | "right" => {
            (1..=4).any(|n| matches!(lower(n), "packet" | "bag" | "box" | "jar" | "pack"))
        }
        "bother" | "need" | "needn't" | "skip" | "without" => {
            (matches!(before, "don't" | "no" | "not" | "never" | "and" | "i")
                || matches!(lower(0), "skip" | "without" | "needn't"))
                && (1..=4).any(soaks)
        }
        "no" => soaks(1),
        _ => false,
    }
}
