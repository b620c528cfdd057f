//! Into how many pieces a dough is divided, where nothing but the number is said.

#![allow(clippy::float_cmp)] // numbers as they are said are whole

use super::Verdict;
use crate::talk::doing::Doing;
use crate::talk::facts::Sort;
use crate::talk::facts::counts::GROWTH;
use crate::talk::heard::Heard;
use crate::talk::speech::Figure;

/// "I divide it in three": into how many pieces, where nothing but the number is said.
pub(super) fn divided(heard: &Heard, at: usize) -> Option<Verdict> {
    let figure = &heard.speech.figures[at];
    let words = &heard.speech.words;
    let before = words[figure.first.checked_sub(1)?].lower.as_str();
    let (first, end) = heard.speech.clause(figure.first);
    let divides = words[first..figure.first]
        .iter()
        .any(|word| matches!(word.stem.as_str(), "divid" | "split" | "cut" | "portion"));
    let ends = figure.end >= end
        || matches!(
            words[figure.end].lower.as_str(),
            "and" | "then" | "of" | "equal" | "for"
        );
    if !matches!(before, "in" | "into") || !divides || !ends || figure.spoken.low < 2.0 {
        return None;
    }
    let pieces = || {
        heard.facts.iter().enumerate().filter(|(_, fact)| {
            fact.sort == Sort::Count
                && fact.path != GROWTH
                && fact.stems.iter().any(|stem| stem == "piec")
        })
    };
    let fits = pieces().find(|(_, fact)| (fact.usual - figure.spoken.low).abs() < 0.01);
    Some(match fits {
        Some((fact, _)) => Verdict::Agrees(fact),
        // Who cuts a sheet or a strip in two divides no dough.
        None if figure.spoken.low < 3.0 && !undivided(heard, figure) => Verdict::Aside,
        None => pieces()
            .find(|(_, fact)| fact.what == "all pieces")
            .map_or(Verdict::Aside, |(fact, _)| Verdict::Differs(fact)),
    })
}

/// Whether a dough is divided that the recipe leaves whole.
fn undivided(heard: &Heard, figure: &Figure) -> bool {
    let (first, _) = heard.speech.clause(figure.first);
    let divides = heard.speech.words[first..figure.first]
        .iter()
        .any(|word| matches!(word.stem.as_str(), "divid" | "split"));
    let whole = heard
        .facts
        .iter()
        .any(|fact| fact.what == "all pieces" && fact.usual == 1.0);
    let here = heard.walk[figure.clause].0;
    let near = heard
        .places
        .iter()
        .any(|place| place.doing.meets(Doing::DIVIDE) && place.number.abs_diff(here) <= 1);
    divides && whole && near
}
