//! Numbers without a unit that can be nothing but minutes, or the unit of what was asked.

use super::times::{SAID_BEFORE, names_product};
use super::{ALLOWED_MARGIN, MARGIN, Verdict, decide_within, fits};
use crate::talk::doing::{Doing, doing};
use crate::talk::facts::Sort;
use crate::talk::heard::Heard;
use crate::talk::things::Sort as Of;
use recipe::measure::spoken::Meant;

/// A number alone that can be nothing but minutes: "check at twenty-eight", "buns fifteen minutes, braid
/// thirty-six", "another twenty-five".
pub(super) fn hold_bare(heard: &Heard, at: usize, verdicts: &[Verdict]) -> Verdict {
    let figure = &heard.speech.figures[at];
    let Meant::Number(low, _) = figure.spoken.meant else {
        return Verdict::Aside;
    };
    let words = &heard.speech.words;
    let before = figure
        .first
        .checked_sub(1)
        .map_or("", |n| words[n].lower.as_str());
    let around = heard.around(figure);
    let (first, end) = heard.speech.clause(figure.first);
    let to_go = words.get(figure.end).is_some_and(|word| word.lower == "to")
        && words
            .get(figure.end + 1)
            .is_some_and(|word| word.lower == "go");
    let ends = figure.end >= end
        || to_go
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
        let timed = match (&other.spoken.meant, verdicts.get(n)) {
            (Meant::Time(_), _) => true,
            (Meant::Number(..), Some(Verdict::Agrees(fact) | Verdict::Differs(fact))) => {
                heard.facts[*fact].sort == Sort::Time
            }
            _ => false,
        };
        other.sentence == figure.sentence && timed && figure.clause <= other.clause + 1
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
    // "Knots, thirteen. Rolls, twelve."
    let (s_first, s_end) = heard.speech.sentences[figure.sentence];
    let lone = s_end - s_first <= figure.end - figure.first + 3
        && figure.first <= s_first + 3
        && named_at(heard, s_first)
        && low < 150.0
        && !around
            .sentence
            .meets(read_off.and(Doing::HEAT).and(Doing::DIVIDE));
    // "Loaf, thirty-four, one ninety-eight in the middle": the same where the sentence goes on, as far as it agrees.
    let opens = figure.first <= s_first + 3
        && named_at(heard, s_first)
        && low < 150.0
        && !doing(&words[s_first..figure.end]).meets(read_off.and(Doing::HEAT).and(Doing::DIVIDE));
    if !(2.0..=240.0).contains(&low) || !ends {
        return Verdict::Aside;
    }
    // "Bread on three": counting in.
    if before == "on" && low <= COUNTING_IN {
        return Verdict::Aside;
    }
    if looks || more || listed || lone {
        return hold_in_minutes(heard, at, verdicts);
    }
    match hold_in_minutes(heard, at, verdicts) {
        Verdict::Agrees(fact) if opens && heard.facts[fact].doing.meets(Doing::BAKE) => {
            Verdict::Agrees(fact)
        }
        _ => Verdict::Aside,
    }
}

/// "Fifty minutes on the knots. Forty-five on the rolls.": a number for the next bread in the words of the time before.
pub(super) fn goes_on(heard: &Heard, at: usize, verdicts: &[Verdict]) -> bool {
    let figure = &heard.speech.figures[at];
    let Some(other) = at.checked_sub(1).map(|n| &heard.speech.figures[n]) else {
        return false;
    };
    let (first, end) = heard.speech.sentences[figure.sentence];
    let lower = |n: usize| {
        heard
            .speech
            .words
            .get(n)
            .map_or("", |word| word.lower.as_str())
    };
    let alike = matches!(lower(figure.end), "on" | "for")
        && lower(figure.end) == lower(other.end)
        && lower(figure.end + 1) == "the"
        && figure.first == first
        && end <= figure.end + 3
        && other.sentence + 1 == figure.sentence;
    let named = |from: usize| {
        heard
            .mentions_in(from, from + 2)
            .iter()
            .flat_map(|mention| &mention.things)
            .any(|thing| matches!(heard.things[*thing].sort, Of::Product(_)))
    };
    alike
        && matches!(other.spoken.meant, Meant::Time(_))
        && verdicts.get(at - 1) != Some(&Verdict::Aside)
        && named(figure.end + 1)
        && named(other.end + 1)
}

/// Nobody counts in from more.
const COUNTING_IN: f64 = 5.0;

/// Whether a bread is named with the first words of a sentence.
fn named_at(heard: &Heard, first: usize) -> bool {
    heard
        .mentions_in(first, first + 2)
        .iter()
        .flat_map(|mention| &mention.things)
        .any(|thing| matches!(heard.things[*thing].sort, Of::Product(_)))
}

/// A number alone, taken as minutes.
pub(super) fn hold_in_minutes(heard: &Heard, at: usize, verdicts: &[Verdict]) -> Verdict {
    hold_in(heard, at, verdicts, 60.0)
}

/// A number alone that answers a question with a time in it, in the unit of that: "And it has to be twelve hours?" "Ten to
/// fourteen."
pub(super) fn hold_answer(heard: &Heard, at: usize, verdicts: &[Verdict]) -> Option<Verdict> {
    let figure = &heard.speech.figures[at];
    let asked = figure.sentence.checked_sub(1)?;
    let (first, end) = heard.speech.sentences[figure.sentence];
    let next = heard
        .speech
        .words
        .get(figure.end)
        .filter(|_| figure.end < end);
    let ends = next.is_none_or(|word| word.clause != figure.clause);
    if !heard.asks(asked) || figure.first > first || !ends {
        return None;
    }
    let unit = heard.speech.figures[..at]
        .iter()
        .rev()
        .take_while(|other| other.sentence == asked)
        .find_map(|other| match other.spoken.unit {
            recipe::measure::spoken::SpokenUnit::Time(seconds) => Some(seconds),
            _ => None,
        })?;
    Some(hold_in(heard, at, verdicts, unit))
}

/// A number alone, taken in a unit of so many seconds.
fn hold_in(heard: &Heard, at: usize, verdicts: &[Verdict], unit_s: f64) -> Verdict {
    let figure = &heard.speech.figures[at];
    let (low, high) = (figure.spoken.low, figure.spoken.high);
    let around = heard.around(figure);
    let row = heard
        .row(at, verdicts)
        .filter(|_| around.clause.is_none() && names_product(heard, figure));
    let (s_first, s_end) = heard.speech.sentences[figure.sentence];
    let lone = s_end - s_first <= figure.end - figure.first + 3 && named_at(heard, s_first);
    // "And then it gets another eight on medium"
    let another = figure
        .first
        .checked_sub(1)
        .is_some_and(|n| heard.speech.words[n].lower == "another");
    let scored: Vec<_> = heard
        .facts
        .iter()
        .enumerate()
        .filter(|(_, fact)| fact.sort == Sort::Time)
        .map(|(place, fact)| {
            let fits = fits::time(low * unit_s, high * unit_s, figure.spoken.nearness, fact);
            let mut score = heard.score(&around, fact);
            if !(0.2..=5.0).contains(&(high * unit_s / fact.usual.max(1.0))) {
                score -= 3.0;
            }
            score += super::in_a_row(row, fact);
            // A number with a bread's name and nothing else is its bake, or what the row is about.
            let meant = match row {
                Some((Sort::Time, doing)) if !doing.is_none() => fact.doing == doing,
                _ => fact.doing.meets(Doing::BAKE) && !fact.doing.meets(Doing::CHECK),
            };
            if lone && meant {
                score += 5.0;
            }
            if another && verdicts.contains(&Verdict::Agrees(place)) {
                score -= SAID_BEFORE;
            }
            (place, score, fact.only_allowed, fits)
        })
        .collect();
    // What goes on in a row is the row's, and none of what may be said besides: the handwork, the night in the cold.
    let besides = if row.is_some() {
        MARGIN
    } else {
        ALLOWED_MARGIN
    };
    decide_within(&scored, 3.0 + heard.story(figure), MARGIN, besides)
}
