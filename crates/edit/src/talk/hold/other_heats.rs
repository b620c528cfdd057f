//! Another temperature of the recipe that was meant, where the likeliest differs: of the rest whose time is said, of another lot.

use super::{Verdict, fits};
use crate::talk::doing::{Doing, doing};
use crate::talk::facts::{Fact, Fine, LATER, Sort};
use crate::talk::heard::Heard;
use crate::talk::speech::Figure;
use recipe::measure::spoken::Meant;

/// "Put the oven on at two ten": who lights it means neither the dial to which it is turned down later nor the middle of a bread.
pub(super) fn is_not_lit_to(heard: &Heard, figure: &Figure, fact: &Fact) -> bool {
    let (first, end) = heard.speech.sentences[figure.sentence];
    let (_, clause_end) = heard.speech.clause(figure.first);
    let from = first.max(figure.first.saturating_sub(LIGHTS_WORDS));
    let words = &heard.speech.words[from..clause_end.min(end)];
    let any = |wanted: &[&str]| {
        words
            .iter()
            .any(|word| wanted.contains(&word.lower.as_str()))
    };
    let deeds = doing(words);
    (fact.what.ends_with(LATER) || fact.fine == Fine::Probe)
        && deeds.meets(Doing::PREHEAT)
        && !deeds.meets(Doing::CORE.and(Doing::DOUGH).and(Doing::BAKE))
        && any(&["put", "switch", "heat", "preheat", "get", "light", "fire"])
        && !any(&[
            "down", "lower", "back", "drop", "then", "later", "after", "now",
        ])
}

/// An oven is lit within so many words before its dial.
const LIGHTS_WORDS: usize = 12;

/// A verdict, or the other temperature that was meant.
pub(super) fn other_meant(
    heard: &Heard,
    at: usize,
    scored: &[(usize, f64, bool, bool)],
    verdict: Verdict,
) -> Verdict {
    let Verdict::Differs(fact) = verdict else {
        return verdict;
    };
    of_its_time(heard, at, scored, fact)
        .or_else(|| of_its_other_lot(heard, &heard.speech.figures[at], scored, fact))
        .map_or(verdict, Verdict::Agrees)
}

/// "Leave it on the counter, sixty-eight degrees or so, for twelve hours": of the rest whose time is said with it.
fn of_its_time(
    heard: &Heard,
    at: usize,
    scored: &[(usize, f64, bool, bool)],
    differs: usize,
) -> Option<usize> {
    let figure = &heard.speech.figures[at];
    let times = heard.speech.figures[at.saturating_sub(1)..]
        .iter()
        .take(3)
        .filter(|other| other.sentence == figure.sentence)
        .filter_map(|other| match &other.spoken.meant {
            Meant::Time(range) => Some((other, range)),
            _ => None,
        });
    let lasts = |step: Option<usize>| {
        times.clone().any(|(other, range)| {
            heard.facts.iter().any(|fact| {
                fact.sort == Sort::Time
                    && !fact.only_allowed
                    && step.is_some()
                    && fact.step == step
                    && fits::time(range.low.si(), range.high.si(), other.spoken.nearness, fact)
            })
        })
    };
    let place = |own: usize| {
        let fact = &heard.facts[own];
        fact.fine == Fine::Place && fact.thing.is_none()
    };
    if !place(differs) || lasts(heard.facts[differs].step) {
        return None;
    }
    scored
        .iter()
        .map(|(own, _, _, fits)| (*own, *fits))
        .find(|(own, fits)| *fits && place(*own) && lasts(heard.facts[*own].step))
        .map(|(own, _)| own)
}

/// "The second milk is not warm, it is twenty-two degrees": of another lot of the same thing in the same part.
fn of_its_other_lot(
    heard: &Heard,
    figure: &Figure,
    scored: &[(usize, f64, bool, bool)],
    differs: usize,
) -> Option<usize> {
    let fact = &heard.facts[differs];
    let (_, end) = heard.speech.clause(figure.first);
    let (sentence, _) = heard.speech.sentences[figure.sentence];
    let named = heard
        .mentions_in(sentence.max(figure.first.saturating_sub(LOT_WORDS)), end)
        .iter()
        .any(|mention| fact.thing.is_some_and(|own| mention.things.contains(&own)));
    scored
        .iter()
        .find(|(own, _, _, fits)| {
            let other = &heard.facts[*own];
            *fits
                && named
                && other.thing.is_some()
                && other.thing == fact.thing
                && other.section.is_some()
                && other.section == fact.section
        })
        .map(|(own, ..)| *own)
}

/// A lot is named within so many words before how warm it is.
const LOT_WORDS: usize = 9;
