//! How often a loaf is slashed.

use super::Verdict;
use crate::talk::facts::counts::{SLASHES, SLASHING};
use crate::talk::heard::Heard;
use crate::talk::speech::Figure;
use recipe::measure::spoken::Meant;

/// "I slash it four times", "five slashes across the top", "I go across the top five times": held against how often the
/// recipe slashes, near the step at which it does.
pub(super) fn slashed(heard: &Heard, figure: &Figure, low: f64) -> Option<Verdict> {
    let words = &heard.speech.words;
    let (first, end) = heard.speech.clause(figure.first);
    let (before, _) = heard.speech.sentences[figure.sentence.saturating_sub(1)];
    let blade = |from: usize, to: usize| {
        words[from..to]
            .iter()
            .any(|word| SLASHING.contains(&word.stem.as_str()))
    };
    let noun = words
        .get(figure.end)
        .filter(|word| word.clause == figure.clause);
    let next = noun.map_or("", |word| word.lower.as_str());
    let times = matches!(figure.spoken.meant, Meant::Times(..)) || next == "times";
    let cuts = noun.is_some_and(|word| SLASHING.contains(&word.stem.as_str()));
    let across = words[first..end].iter().any(|word| word.lower == "across")
        && words[first..end].iter().any(|word| word.lower == "top");
    let told = cuts || times && (blade(first, end) || across && blade(before, first));
    let here = heard.walk[figure.clause].0;
    let (place, fact) = heard.facts.iter().enumerate().find(|(_, fact)| {
        fact.path == SLASHES
            && fact
                .step
                .is_some_and(|step| step.abs_diff(here) <= SLASH_STEPS)
    })?;
    told.then(|| {
        if (fact.usual - low).abs() < 0.01 {
            Verdict::Agrees(place)
        } else {
            Verdict::Differs(place)
        }
    })
}

/// A slash is of a step at most so many from where the talk has come to.
const SLASH_STEPS: usize = 3;
