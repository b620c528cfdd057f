//! How often a dough is folded, where that is said before what is done.

use super::Verdict;
use crate::talk::doing::{Doing, doing};
use crate::talk::facts::Sort;
use crate::talk::heard::Heard;
use crate::talk::speech::Figure;

/// "Four times in those two hours I go back and fold it": how often is said before what is done.
pub(super) fn folded_so_often(heard: &Heard, figure: &Figure) -> Option<Verdict> {
    let words = &heard.speech.words;
    let (_, end) = heard.speech.sentences[figure.sentence];
    // Where nothing parts sentences, one may run on.
    let end = if heard.speech.bare { words.len() } else { end };
    let behind = &words[figure.end..end.min(figure.end + FOLD_WORDS)];
    let (first, _) = heard.speech.sentences[figure.sentence];
    let during = behind.first().is_some_and(|word| {
        matches!(
            word.lower.as_str(),
            "in" | "while" | "during" | "as" | "over"
        )
        // "Three times, you wet your hands and pull each side over"
            || figure.first <= first + 1 && word.clause != figure.clause
    });
    let fold = doing(behind).meets(Doing::FOLD);
    let here = heard.walk[figure.clause].0;
    let (place, fact) = heard.facts.iter().enumerate().find(|(_, fact)| {
        fact.sort == Sort::Count
            && fact.what == "the folds"
            && fact
                .step
                .is_some_and(|step| step.abs_diff(here) <= FOLD_STEPS)
    })?;
    (during && fold).then(|| {
        if (fact.usual - figure.spoken.low).abs() < 0.01 {
            Verdict::Agrees(place)
        } else {
            Verdict::Differs(place)
        }
    })
}

/// What is done so often is told within so many words, at most so many steps from the fold.
const FOLD_WORDS: usize = 18;
const FOLD_STEPS: usize = 3;
