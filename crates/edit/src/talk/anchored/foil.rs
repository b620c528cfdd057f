//! Foil that is told to lie on a bread at the beginning of its bake and to come off later, where the recipe lays it on later.

use super::lower;
use crate::talk::code;
use crate::talk::finding::Kind;
use crate::talk::heard::{Heard, is_not_told};
use crate::talk::points::{has, run};
use crate::talk::speech::Word;
use recipe::document::model::Action;
use recipe::measure::spoken::Meant;
use recipe::source::Code;

/// "The foil goes on for the first twenty-five minutes, and then you take it off", told at the word.
pub(super) fn foil_first(
    heard: &Heard,
    first: usize,
    at: usize,
    end: usize,
) -> Option<(String, Kind, Code)> {
    if lower(heard, at, end) != "foil" {
        return None;
    }
    let place = heard.places.iter().find(|place| {
        let Action::Bake { phases, .. } = &place.step.action else {
            return false;
        };
        let foil = |phase: &recipe::document::model::OvenPhase| {
            phase.foil.as_ref().is_some_and(|foil| foil.value)
        };
        phases.first().is_some_and(|phase| !foil(phase)) && phases.iter().skip(1).any(foil)
    })?;
    let (c_first, c_end) = heard.speech.clause(at);
    let (c_first, c_end) = (c_first.max(first), c_end.min(end));
    let clause = &heard.speech.words[c_first..c_end];
    let bare = clause.iter().any(|word| {
        is_not_told(&word.lower)
            || matches!(
                word.lower.as_str(),
                "after" | "until" | "till" | "bare" | "then"
            )
    });
    let begins = !bare
        && !has(clause, &["off"])
        && (run(clause, &["for", "the", "first"])
            || run(clause, &["to", "begin", "with"])
            || run(clause, &["at", "first"])
            || run(clause, &["to", "start"])
            || has(clause, &["start", "starts", "begin", "begins"])
                && ["under", "with", "in"].into_iter().any(|with| {
                    run(clause, &[with, "foil"])
                        || run(clause, &[with, "its", "foil"])
                        || run(clause, &[with, "the", "foil"])
                }));
    let figures =
        &heard.speech.figures[heard.speech.figures.partition_point(|f| f.first < c_first)..];
    let timed = figures
        .iter()
        .take_while(|figure| figure.end <= c_end)
        .any(|figure| matches!(figure.spoken.meant, Meant::Time(_)));
    let stays = has(clause, &["stays", "stay", "leave", "keep"]);
    let comes_off = timed && !stays && is_taken_off(clause);
    (begins || comes_off).then(|| {
        (
            format!(
                "the recipe lays the foil on later in the bake, and bakes without it first: step {} is “{}”",
                place.number + 1,
                place.step.text.value.replace(['[', ']'], "")
            ),
            Kind::Order,
            code::TALK_ORDER_DIFFERS,
        )
    })
}

/// "The foil comes off", "take the foil off", "off comes the foil".
fn is_taken_off(words: &[Word]) -> bool {
    has(words, &["off"])
        && has(
            words,
            &[
                "comes", "come", "take", "takes", "lift", "pull", "whip", "whisk", "goes", "get",
            ],
        )
        && !has(words, &["rack", "cool", "cooled", "baked"])
}
