//! What is said of the oven's racks, and of a paste that goes in hot though the recipe cools it.

use crate::talk::finding::Finding;
use crate::talk::heard::{Heard, Mood};
use crate::talk::track::Track;
use recipe::document::model::Action;
use recipe::source::Span;

/// Heights in the oven, from the floor up.
fn height(word: &str) -> Option<u32> {
    Some(match word {
        "bottom" | "lowest" | "floor" => 0,
        "lower" | "low" => 1,
        "middle" | "centre" | "center" | "central" => 2,
        "upper" | "top" | "highest" => 4,
        _ => return None,
    })
}

/// A rack other than the recipe's.
pub(super) fn racks(heard: &Heard, track: &Track) -> Vec<Finding> {
    let words = &heard.speech.words;
    let mut found = Vec::new();
    for at in 1..words.len() {
        if !matches!(words[at].lower.as_str(), "rack" | "shelf" | "third") {
            continue;
        }
        let Some(said) = height(&words[at - 1].lower) else {
            continue;
        };
        let here = heard.walk[words[at].clause].0;
        let section = heard.places.get(here).map(|place| place.section);
        let written: Vec<(&str, u32)> = heard
            .places
            .iter()
            .filter_map(|place| match &place.step.action {
                Action::Bake {
                    rack: Some(rack), ..
                } => Some((place.section, rack.value.as_str())),
                _ => None,
            })
            .filter(|(own, _)| {
                let baked = heard
                    .places
                    .iter()
                    .filter(|p| matches!(p.step.action, Action::Bake { .. }))
                    .count();
                baked == 1 || section == Some(*own)
            })
            .filter_map(|(_, rack)| Some((rack, rack.split(' ').find_map(height)?)))
            .collect();
        let agrees = written.iter().any(|(_, own)| own.abs_diff(said) <= 1);
        let Some((rack, _)) = written.first() else {
            continue;
        };
        if agrees {
            continue;
        }
        let span = Span::new(words[at - 1].span.start, words[at].span.end);
        let message = format!(
            "you say “{}”; the recipe bakes on the {rack}.",
            heard.speech.slice(span)
        );
        let instead = Some(format!("Bake on the {rack}."));
        found.push(Finding::of_state(heard, track, span, &message, instead));
    }
    found
}

/// How it should be is told within so many words.
const WANTED_WORDS: usize = 5;

/// A paste or preferment said to go in hot that the recipe cools first.
pub(super) fn hot_stages(heard: &Heard, track: &Track) -> Vec<Finding> {
    let words = &heard.speech.words;
    let mut found = Vec::new();
    for at in 0..words.len() {
        let next = |n: usize| words.get(at + n).map_or("", |word| word.lower.as_str());
        let hot = matches!(
            words[at].lower.as_str(),
            "hot" | "boiling" | "steaming" | "bubbling" | "scalding"
        );
        // "Still hot", "while it's bubbling", "hot off the stove".
        let as_it_is = hot
            && at > 0
            && matches!(
                words[at - 1].lower.as_str(),
                "still" | "it's" | "piping" | "while"
            )
            || hot && (matches!(next(1), "off" | "from") || next(1) == "out" && next(2) == "of");
        // "While it's still too hot to touch": the state in which it is used all the same.
        let too_hot = hot
            && at > 1
            && words[at - 1].lower == "too"
            && matches!(words[at - 2].lower.as_str(), "still" | "it's");
        // "It should still be hot", "it ought to be steaming hot"
        let wanted = hot
            && at > 0
            && matches!(
                words[at - 1].lower.as_str(),
                "be" | "steaming" | "piping" | "good"
            )
            && words[at.saturating_sub(WANTED_WORDS)..at]
                .iter()
                .any(|word| {
                    word.sentence == words[at].sentence
                        && matches!(
                            word.lower.as_str(),
                            "should" | "ought" | "must" | "wants" | "want"
                        )
                });
        // "While it's still warm to the finger"
        let warm = words[at].lower == "warm"
            && at > 0
            && words[at - 1].lower == "still"
            && !matches!(next(1), "place" | "spot" | "room" | "oven" | "enough");
        let as_it_is = as_it_is || too_hot || wanted || warm;
        let denied = words[at.saturating_sub(8)..at - usize::from(too_hot)]
            .iter()
            .any(|word| {
                matches!(
                    word.lower.as_str(),
                    "not"
                        | "don't"
                        | "never"
                        | "if"
                        | "too"
                        | "oven"
                        | "mustn't"
                        | "shouldn't"
                        | "no"
                )
            });
        if !as_it_is || denied || heard.frame(at) != Mood::Here {
            continue;
        }
        let sentence = heard.speech.sentences[words[at].sentence];
        let near = &words[at.saturating_sub(12).max(sentence.0)..(at + 8).min(sentence.1)];
        let goes_in = near.iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "into" | "in" | "mixer" | "add" | "onto" | "straight" | "use"
            )
        });
        let cooled = heard.places.iter().find(|place| {
            matches!(place.step.action, Action::Cool { .. })
                && place.section < heard.inputs.recipe.stages.len()
                && heard.walk[words[at].clause].0.abs_diff(place.number) <= 2
        });
        if let (true, Some(place)) = (goes_in, cooled) {
            let span = Span::new(words[at.saturating_sub(1)].span.start, words[at].span.end);
            let message = format!(
                "you say “{}”; the recipe cools the {} first (step {}).",
                heard.speech.slice(span),
                place.of,
                place.number + 1
            );
            let instead = Some(format!("Let the {} cool before it goes in.", place.of));
            found.push(Finding::of_state(heard, track, span, &message, instead));
        }
    }
    found
}
