//! The sentence to say instead: the speaker's own, with the recipe's figure in the speaker's own unit.

#![allow(clippy::float_cmp)] // numbers as they are said are whole, or the same number twice

use super::differs::scale_of;
use super::facts::{Fact, Sort};
use super::heard::Heard;
use super::hold::Scale;
use super::speech::Figure;
use crate::ledger::say;
use numerics::decimal::{round_to, trimmed};
use numerics::quantity::{Duration, Mass, Temperature};
use recipe::document::model::{Amount, Spooned};
use recipe::measure::spoken::{Meant, SpokenUnit, in_words};
use recipe::measure::{Measure, weigh};
use recipe::source::Span;

/// A longer sentence is cut to the clause that holds the figure.
const LONGEST: usize = 170;

/// The speaker's sentence with the right figure; none where a sentence cannot be made.
pub(super) fn sentence(heard: &Heard, figure: &Figure, fact: &Fact) -> Option<String> {
    let (span, right) = right(heard, figure, fact)?;
    let mut whole = heard.speech.sentence_span(figure.sentence);
    if whole.end - whole.start > LONGEST {
        let (first, end) = heard.speech.clause(figure.first);
        whole = Span::new(
            heard.speech.words[first].span.start,
            heard.speech.words[end - 1].span.end,
        );
    }
    let (start, end) = (span.start.max(whole.start), span.end.min(whole.end));
    let before = &heard.speech.text[whole.start..start];
    let after = &heard.speech.text[end..whole.end.max(end)];
    let joined = format!("{before}{right}{after}");
    let plain: Vec<&str> = joined.split_whitespace().collect();
    Some(say::capital(&plain.join(" ")))
}

/// What is to be replaced, and by what.
fn right(heard: &Heard, figure: &Figure, fact: &Fact) -> Option<(Span, String)> {
    let spoken = &figure.spoken;
    let number = |value: f64| said(value, spoken.in_words);
    match fact.sort {
        Sort::Count => Some((spoken.number, number(fact.usual))),
        Sort::Heat => heat(figure, fact)
            .map(|(words, whole)| (if whole { spoken.span } else { spoken.number }, words)),
        Sort::Time => Some((
            spoken.span,
            time(Duration::from_si(fact.usual), spoken.in_words),
        )),
        Sort::Amount => amount(heard, figure, fact).map(|words| (spoken.span, words)),
        Sort::Size if fact.sides.is_empty() => {
            let size = spoken.unit.size()?;
            let value = fact.usual / size;
            let step = if size > 0.02 { 0.25 } else { 0.5 };
            let unit = if size > 0.02 { "inches" } else { "centimetres" };
            let value = if size < 0.005 {
                round_to(value, 1.0)
            } else {
                round_to(value, step)
            };
            let unit = if size < 0.005 { "millimetres" } else { unit };
            Some((spoken.span, format!("{} {unit}", number(value))))
        }
        Sort::Size => Some((spoken.span, fact.shown.clone())),
    }
}

/// A number in the speaker's manner.
fn said(value: f64, words: bool) -> String {
    words
        .then(|| in_words(value))
        .flatten()
        .unwrap_or_else(|| trimmed(value, 2))
}

/// Degrees in the scale that was used; the whole is replaced where only a gas mark or nothing stood.
fn heat(figure: &Figure, fact: &Fact) -> Option<(String, bool)> {
    let spoken = &figure.spoken;
    let at = Temperature::from_si(f64::midpoint(fact.low, fact.high));
    if matches!(spoken.meant, Meant::Gas(..)) {
        return Some((
            crate::ledger::readers::gas_mark(at).map(|mark| format!("gas mark {mark}"))?,
            true,
        ));
    }
    let dial = fact.fine == super::facts::Fine::Dial;
    let value = match (scale_of(figure, fact), dial) {
        (Scale::Celsius, _) => round_to(at.celsius(), if dial { 5.0 } else { 1.0 }),
        (Scale::Fahrenheit, true) => {
            let exact = at.fahrenheit();
            let coarse = round_to(exact, 25.0);
            if (coarse - exact).abs() <= 8.0 {
                coarse
            } else {
                round_to(exact, 5.0)
            }
        }
        (Scale::Fahrenheit, false) => round_to(at.fahrenheit(), 1.0),
    };
    Some((said(value, spoken.in_words), false))
}

/// A time as it is said: "seventy-five minutes", "an hour and twenty minutes".
fn time(time: Duration, words: bool) -> String {
    let minutes = round_to(time.minutes(), 1.0);
    if time.si() < 59.5 {
        return format!("{} seconds", said(round_to(time.si(), 1.0), words));
    }
    if minutes < 100.0 && minutes != 60.0 {
        let unit = if minutes == 1.0 { "minute" } else { "minutes" };
        return format!("{} {unit}", said(minutes, words));
    }
    let hours = (minutes / 60.0).floor();
    let rest = minutes - hours * 60.0;
    let first = match (hours == 1.0, words) {
        (true, true) => "an hour".to_owned(),
        (true, false) => "1 hour".to_owned(),
        _ => format!("{} hours", said(hours, words)),
    };
    if rest == 0.0 {
        first
    } else if rest == 30.0 && words && hours > 1.0 {
        format!("{} and a half hours", said(hours, words))
    } else {
        format!("{first} and {} minutes", said(rest, words))
    }
}

/// Spoons and cups are filled to quarters and eighths; a coarser fit than this is said in grams.
const SPOON_SLACK: f64 = 0.06;

/// An amount in the unit that was used, or in grams where that unit cannot say it.
fn amount(heard: &Heard, figure: &Figure, fact: &Fact) -> Option<String> {
    let spoken = &figure.spoken;
    let mass = Mass::from_si(fact.usual);
    let grams = |mass: Mass| {
        let rounded = say::rounded_mass(mass).grams();
        format!("{} grams", said(rounded, spoken.in_words))
    };
    Some(match spoken.unit {
        SpokenUnit::Mass(size) if size < 0.002 => grams(mass),
        SpokenUnit::Mass(size) if size < 0.1 => {
            format!(
                "{} ounces",
                said(round_to(fact.usual / size, 0.25), spoken.in_words)
            )
        }
        SpokenUnit::Volume(size) => {
            let own = fact
                .thing
                .and_then(|thing| heard.things[thing].ingredient.as_ref())?;
            let one = Amount::Measures(vec![Spooned {
                count: 1000.0,
                measure: Measure::Litre,
            }]);
            let (of_cubic_metre, _) = weigh(own, &one).ok()?;
            let exact = fact.usual / of_cubic_metre.si() / size;
            let step = if exact < 0.3 { 0.125 } else { 0.25 };
            let count = round_to(exact, step);
            if count <= 0.0 || (count / exact - 1.0).abs() > SPOON_SLACK {
                grams(mass)
            } else {
                let unit = unit_word(heard, figure);
                let many = if count > 1.0 { "s" } else { "" };
                format!("{} {unit}{many}", said(count, spoken.in_words))
            }
        }
        SpokenUnit::None => said(say::rounded_mass(mass).grams(), spoken.in_words),
        _ => grams(mass),
    })
}

/// The unit as the speaker says it, in the singular, with its adjective: "level teaspoon".
fn unit_word(heard: &Heard, figure: &Figure) -> String {
    let number = figure.spoken.number;
    let words: Vec<&str> = heard.speech.words[figure.first..figure.end]
        .iter()
        .filter(|word| word.span.start >= number.end)
        .map(|word| word.lower.as_str())
        .filter(|word| !matches!(*word, "of" | "a" | "an" | "and" | "half"))
        .collect();
    let joined = words.join(" ");
    joined.strip_suffix('s').unwrap_or(&joined).to_owned()
}
