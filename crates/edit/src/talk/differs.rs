//! Findings about figures: what is said, what the recipe has, and the sentence with the right figure.

#![allow(clippy::float_cmp)] // numbers as they are said are whole, or the same number twice

use super::code;
use super::doing::doing;
use super::facts::{Fact, Sort};
use super::finding::{Finding, Kind, Value};
use super::heard::{Heard, Mood};
use super::hold::{self, Scale, Verdict};
use super::instead::sentence;
use super::speech::Figure;
use super::track::{Track, clock};
use crate::ledger::say;
use numerics::quantity::{Duration, Length, Mass, Range, Temperature};
use recipe::measure::spoken::{Meant, Nearness};
use recipe::source::Code;

/// Every figure that differs, in the order of the talk.
pub(super) fn differs(heard: &Heard, track: &Track, verdicts: &[Verdict]) -> Vec<Finding> {
    let mut found = Vec::new();
    for (figure, verdict) in heard.speech.figures.iter().zip(verdicts) {
        let Verdict::Differs(place) = verdict else {
            continue;
        };
        let fact = &heard.facts[*place];
        let (kind, code) = kind(fact.sort);
        let said = heard.speech.slice(figure.spoken.span);
        let step = fact
            .step
            .map_or_else(String::new, |step| format!(" (step {})", step + 1));
        let known = shown(figure, fact, heard);
        let aside = known
            .as_ref()
            .filter(|shown| *shown != said && fact.sort != Sort::Count)
            .map_or_else(String::new, |shown| format!(" ({shown})"));
        let message = match fact.sort {
            Sort::Amount => format!(
                "you say {said}{aside}; the recipe has {} of {}{step}.",
                fact.shown, fact.what
            ),
            Sort::Count => format!(
                "you say {said}{aside}; {} in the recipe is {}{step}.",
                fact.what, fact.shown
            ),
            _ => format!(
                "you say {said}{aside}; the recipe has {} for {}{step}.",
                fact.shown, fact.what
            ),
        };
        let finding = Finding::at(heard, track, kind, code, figure.spoken.span, &message)
            .values(
                said_value(figure, fact, known.unwrap_or_else(|| said.to_owned())),
                written(fact),
            )
            .instead(sentence(heard, figure, fact));
        found.push(finding);
    }
    found
}

const fn kind(sort: Sort) -> (Kind, Code) {
    match sort {
        Sort::Amount => (Kind::Amount, code::TALK_AMOUNT_DIFFERS),
        Sort::Heat => (Kind::Temperature, code::TALK_HEAT_DIFFERS),
        Sort::Time => (Kind::Time, code::TALK_TIME_DIFFERS),
        Sort::Count => (Kind::Count, code::TALK_COUNT_DIFFERS),
        Sort::Size => (Kind::Size, code::TALK_SIZE_DIFFERS),
    }
}

const fn si_unit(sort: Sort) -> &'static str {
    match sort {
        Sort::Amount => "kg",
        Sort::Heat => "K",
        Sort::Time => "s",
        Sort::Count => "1",
        Sort::Size => "m",
    }
}

fn written(fact: &Fact) -> Value {
    Value {
        value: Some(fact.usual),
        unit: si_unit(fact.sort),
        shown: fact.shown.clone(),
    }
}

fn said_value(figure: &Figure, fact: &Fact, shown: String) -> Value {
    Value {
        value: si(figure, fact),
        unit: si_unit(fact.sort),
        shown,
    }
}

/// The low end of what is said, in SI.
fn si(figure: &Figure, fact: &Fact) -> Option<f64> {
    let spoken = &figure.spoken;
    Some(match &spoken.meant {
        Meant::Mass(range) => range.low.si(),
        Meant::Temperature(range) => range.low.si(),
        Meant::Time(range) => range.low.si(),
        Meant::Length(range) => range.low.si(),
        Meant::Degrees(low, _) | Meant::Number(low, _) if fact.sort == Sort::Heat => {
            hold::as_temperature(*low, scale_of(figure, fact))
        }
        Meant::Number(low, _) if fact.sort == Sort::Amount => low / 1000.0,
        Meant::Number(low, _) | Meant::Times(low, _) => *low,
        _ => return None,
    })
}

/// The scale in which degrees without one are likeliest meant for a fact.
pub(super) fn scale_of(figure: &Figure, fact: &Fact) -> Scale {
    let low = figure.spoken.low;
    let off = |scale| (hold::as_temperature(low, scale) - fact.usual).abs();
    match figure.spoken.unit {
        recipe::measure::spoken::SpokenUnit::Celsius => Scale::Celsius,
        recipe::measure::spoken::SpokenUnit::Fahrenheit => Scale::Fahrenheit,
        _ if off(Scale::Fahrenheit) < off(Scale::Celsius) => Scale::Fahrenheit,
        _ => Scale::Celsius,
    }
}

/// What is said, as the ledger would print it; none for a number that says itself.
fn shown(figure: &Figure, fact: &Fact, heard: &Heard) -> Option<String> {
    let spoken = &figure.spoken;
    Some(match &spoken.meant {
        Meant::Mass(range) if range.low == range.high => say::mass(range.low),
        Meant::Volume(_) | Meant::Packets(..) => {
            let own = fact
                .thing
                .and_then(|thing| heard.things[thing].ingredient.as_ref());
            let (low, high) = hold::masses_of(spoken, own)?;
            let (low, high) = (Mass::from_si(low), Mass::from_si(high));
            if low == high {
                format!("about {}", say::mass(low))
            } else {
                format!("about {} to {}", say::mass(low), say::mass(high))
            }
        }
        Meant::Temperature(range) if range.low == range.high => say::temperature(range.low),
        Meant::Degrees(low, high) | Meant::Number(low, high)
            if fact.sort == Sort::Heat && low == high =>
        {
            say::temperature(Temperature::from_si(hold::as_temperature(
                *low,
                scale_of(figure, fact),
            )))
        }
        Meant::Time(range) if range.low == range.high => say::duration(range.low),
        Meant::Time(range) => say::duration_range(Range {
            low: Duration::from_si(range.low.si()),
            high: Duration::from_si(range.high.si()),
        }),
        Meant::Length(range) if range.low == range.high => {
            say::length(Length::from_si(range.low.si()))
        }
        Meant::Number(low, high) if fact.sort == Sort::Amount && low == high => {
            say::mass(Mass::from_grams(*low))
        }
        _ => return None,
    })
}

/// Figures that agree with the recipe and not with one another, and figures that differ from one
/// that was said before.
pub(super) fn contradictions(heard: &Heard, track: &Track, verdicts: &[Verdict]) -> Vec<Finding> {
    let mut found = Vec::new();
    let mut first: Vec<(usize, usize)> = Vec::new();
    for (at, verdict) in verdicts.iter().enumerate() {
        let (Verdict::Agrees(fact) | Verdict::Differs(fact)) = verdict else {
            continue;
        };
        let Some((_, before)) = first.iter().find(|(own, _)| own == fact) else {
            first.push((*fact, at));
            continue;
        };
        let (one, other) = (&heard.speech.figures[*before], &heard.speech.figures[at]);
        let both_agree = matches!(
            (&verdicts[*before], verdict),
            (Verdict::Agrees(_), Verdict::Agrees(_))
        );
        let fact = &heard.facts[*fact];
        let told_elsewhere = [one, other]
            .into_iter()
            .any(|figure| heard.mood(figure) != Mood::Here);
        if told_elsewhere || !both_agree || fact.only_allowed || !apart(heard, one, other, fact) {
            continue;
        }
        let cue = heard.speech.cue(one.spoken.span.start);
        let when = track
            .cues
            .get(cue)
            .and_then(|cue| cue.from)
            .map_or_else(|| "before".to_owned(), |at| format!("at {}", clock(at)));
        let message = format!(
            "you say {} for {}; {when} you say {}.",
            heard.speech.slice(other.spoken.span),
            fact.what,
            heard.speech.slice(one.spoken.span),
        );
        let hint = format!("Say the same both times; the recipe has {}.", fact.shown);
        found.push(Finding::two_figures(
            heard,
            track,
            (other, one),
            &message,
            hint,
        ));
    }
    found.extend(taken_up(heard, track));
    found
}

/// "After those three folds", when two were said; "that half hour on the rack", when it was fifteen minutes.
fn taken_up(heard: &Heard, track: &Track) -> Vec<Finding> {
    let words = &heard.speech.words;
    let mut found = Vec::new();
    for (at, figure) in heard.speech.figures.iter().enumerate() {
        let Some(before) = figure.first.checked_sub(1) else {
            continue;
        };
        if !matches!(words[before].lower.as_str(), "that" | "those" | "these") {
            continue;
        }
        let noun = words.get(figure.end).map_or("", |word| word.stem.as_str());
        let deeds = |figure: &Figure| {
            let (first, end) = heard.speech.clause(figure.first);
            doing(&words[first..end])
        };
        let own = deeds(figure);
        let other = heard.speech.figures[..at].iter().rev().find(|other| {
            let near = figure.sentence - other.sentence <= TAKEN_UP;
            near && match (&figure.spoken.meant, &other.spoken.meant) {
                (Meant::Number(..), Meant::Number(..)) => {
                    !noun.is_empty() && words.get(other.end).is_some_and(|word| word.stem == noun)
                }
                (Meant::Time(_), Meant::Time(_)) => deeds(other).meets(own),
                _ => false,
            }
        });
        let Some(other) = other else { continue };
        let si = |figure: &Figure| match &figure.spoken.meant {
            Meant::Time(range) => (range.low.si(), range.high.si()),
            _ => (figure.spoken.low, figure.spoken.high),
        };
        let ((low, high), (from, to)) = (si(figure), si(other));
        if low <= to * 1.12 && high >= from * 0.88 {
            continue;
        }
        let message = format!(
            "you say {}; before you said {}.",
            heard.speech.slice(figure.spoken.span),
            heard.speech.slice(other.spoken.span)
        );
        let hint = "Say the same both times.".to_owned();
        found.push(Finding::two_figures(
            heard,
            track,
            (figure, other),
            &message,
            hint,
        ));
    }
    found
}

/// So many sentences back "that" and "those" reach.
const TAKEN_UP: usize = 8;

/// Whether two figures for one thing cannot both be meant.
fn apart(heard: &Heard, one: &Figure, other: &Figure, fact: &Fact) -> bool {
    if !matches!(fact.sort, Sort::Time) {
        return false;
    }
    // Another time of the recipe may have been meant, or another case.
    let elsewhere = |figure: &Figure| {
        let Meant::Time(range) = &figure.spoken.meant else {
            return true;
        };
        heard.facts.iter().any(|other| {
            other.sort == Sort::Time
                && !std::ptr::eq(other, fact)
                && (other.usual / range.low.si() - 1.0).abs() < 0.02
        })
    };
    let cases = |figure: &Figure| {
        let (first, end) = heard.speech.sentences[figure.sentence];
        heard.speech.words[first..end].iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "if" | "or" | "maybe" | "warm" | "cold" | "when" | "unless"
            )
        })
    };
    if elsewhere(one) || elsewhere(other) || cases(one) || cases(other) {
        return false;
    }
    // "Fifty minutes, an hour and a quarter, you're fine": a row of times within the recipe's range tells what is allowed.
    let row: Vec<&Figure> = heard
        .speech
        .figures
        .iter()
        .filter(|figure| figure.sentence == other.sentence)
        .collect();
    let allowed = |figure: &&Figure| match &figure.spoken.meant {
        Meant::Time(range) => range.low.si() >= fact.low && range.high.si() <= fact.high,
        _ => false,
    };
    if row.len() > 1 && row.iter().all(allowed) {
        return false;
    }
    let exact =
        |figure: &Figure| figure.spoken.nearness == Nearness::Exact && !figure.spoken.is_range();
    let (Meant::Time(a), Meant::Time(b)) = (&one.spoken.meant, &other.spoken.meant) else {
        return false;
    };
    let ratio = a.low.si() / b.low.si().max(1.0);
    exact(one) && exact(other) && !(0.88..=1.14).contains(&ratio)
}
