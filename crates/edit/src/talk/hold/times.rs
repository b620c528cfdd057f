//! Times: which rise, bake, wait or mix is meant.

use super::{Verdict, decide, fits};
use crate::talk::doing::Doing;
use crate::talk::facts::Sort;
use crate::talk::heard::Heard;
use crate::talk::things::Sort as Of;
use recipe::measure::spoken::Meant;

/// A time goes with a fact only from this score on.
const LEAST: f64 = 0.9;

/// A stretch of time.
pub(super) fn hold(heard: &Heard, at: usize) -> Verdict {
    let figure = &heard.speech.figures[at];
    let Meant::Time(range) = &figure.spoken.meant else {
        return Verdict::Aside;
    };
    let words = &heard.speech.words;
    let after = words.get(figure.end).map_or("", |word| word.lower.as_str());
    let before = figure
        .first
        .checked_sub(1)
        .map_or("", |n| words[n].lower.as_str());
    // "give me a second", "ten minutes ago", "wait a minute"
    let idiom = figure.spoken.article
        && range.low.si() <= 60.0
        && !matches!(before, "for" | "about" | "another")
        || after == "ago"
        || matches!(before, "every");
    if idiom {
        return Verdict::Aside;
    }
    let around = heard.around(figure);
    let (first, end) = heard.speech.clause(figure.first);
    let speed_said = words[first..end].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "low" | "medium" | "high" | "slow" | "fast"
        )
    });
    let scored: Vec<_> = heard
        .facts
        .iter()
        .enumerate()
        .filter(|(_, fact)| fact.sort == Sort::Time)
        .map(|(place, fact)| {
            let fits = fits::time(
                range.low.si(),
                range.high.si(),
                figure.spoken.nearness,
                fact,
            );
            let mut score = heard.score(&around, fact);
            // "eight minutes medium" is not the whole mix.
            if fact.only_allowed && fact.doing == Doing::MIX && speed_said {
                score -= 6.0;
            }
            // A time that is a tenth or ten times of a fact is hardly meant for it.
            let ratio = range.high.si().max(1.0) / fact.usual.max(1.0);
            if !(0.2..=5.0).contains(&ratio) {
                score -= 2.0;
            }
            (place, score, fact.only_allowed, fits)
        })
        .collect();
    decide(&scored, LEAST + heard.story(figure.sentence))
}

/// A number alone that can be nothing but minutes: "check at twenty-eight", "buns fifteen minutes, braid
/// thirty-six", "another twenty-five".
pub(super) fn hold_bare(heard: &Heard, at: usize) -> Verdict {
    let figure = &heard.speech.figures[at];
    let Meant::Number(low, high) = figure.spoken.meant else {
        return Verdict::Aside;
    };
    let words = &heard.speech.words;
    let before = figure
        .first
        .checked_sub(1)
        .map_or("", |n| words[n].lower.as_str());
    let around = heard.around(figure);
    let (first, end) = heard.speech.clause(figure.first);
    let ends = figure.end >= end
        || matches!(
            words[figure.end].lower.as_str(),
            "in" | "on" | "at" | "or" | "if" | "and"
        );
    let looks =
        around.clause.meets(Doing::CHECK) && matches!(before, "at" | "after" | "from" | "about");
    let more = matches!(before, "another");
    // "buns fifteen minutes, braid thirty-six"
    let listed = at.checked_sub(1).is_some_and(|n| {
        let other = &heard.speech.figures[n];
        other.sentence == figure.sentence
            && matches!(other.spoken.meant, Meant::Time(_))
            && figure.clause <= other.clause + 1
    }) && end - first <= figure.end - figure.first + 4;
    let read_off = Doing::OVEN.and(Doing::CORE).and(Doing::DOUGH);
    let named = heard
        .mentions_in(first, end)
        .iter()
        .flat_map(|mention| &mention.things)
        .any(|thing| matches!(heard.things[*thing].sort, Of::Product(_)));
    let listed = listed
        && named
        && low < 100.0
        && !matches!(before, "at" | "to")
        && !around.clause.meets(read_off);
    if !(2.0..=240.0).contains(&low) || !ends || !(looks || more || listed) {
        return Verdict::Aside;
    }
    let scored: Vec<_> = heard
        .facts
        .iter()
        .enumerate()
        .filter(|(_, fact)| fact.sort == Sort::Time)
        .map(|(place, fact)| {
            let fits = fits::time(low * 60.0, high * 60.0, figure.spoken.nearness, fact);
            let mut score = heard.score(&around, fact);
            if !(0.2..=5.0).contains(&(high * 60.0 / fact.usual.max(1.0))) {
                score -= 3.0;
            }
            (place, score, fact.only_allowed, fits)
        })
        .collect();
    decide(&scored, 3.0 + heard.story(figure.sentence))
}
