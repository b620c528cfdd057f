//! What is to be soaked, and is said to go in dry.

use crate::talk::code;
use crate::talk::finding::{Finding, Kind};
use crate::talk::heard::Heard;
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
            let said = (named..end).find(|at| {
                let next = words.get(at + 1).map_or("", |word| word.lower.as_str());
                match words[*at].lower.as_str() {
                    "dry" => !matches!(next, "them" | "off"),
                    "unsoaked" => true,
                    _ => false,
                }
            });
            let Some(at) = said else { continue };
            let span = Span::new(words[at].span.start, words[at].span.end);
            let message = format!(
                "you say “{}”; the recipe has the {} {}.",
                heard.speech.slice(span),
                item.called(),
                state.value
            );
            found.push(
                Finding::at(
                    heard,
                    track,
                    Kind::State,
                    code::TALK_STATE_DIFFERS,
                    span,
                    &message,
                )
                .instead(Some(format!(
                    "The {} go in {}.",
                    item.called(),
                    state.value
                ))),
            );
        }
    }
    found
}
