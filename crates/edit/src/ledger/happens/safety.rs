//! What is counted for safety, each line once with every product beside it, its source and who decides.

use super::model::Told;
use super::reckoned::Place;
use crate::ledger::model::Figure;
use crate::ledger::say;
use bake::simulate::{Course, Safety, Weight};
use numerics::decimal::trimmed;
use numerics::quantity::{Duration, Mass, Temperature};

/// Counts with their lines, those that warn first, then who decides.
pub fn safety(course: &Course, base: &str) -> Vec<Told> {
    // The same count of several products is one sentence.
    let mut lines: Vec<Vec<&Safety>> = Vec::new();
    for count in &course.safety {
        let same = lines.iter_mut().find(|line| line[0].what == count.what);
        match same {
            Some(line) => line.push(count),
            None => lines.push(vec![count]),
        }
    }
    lines.sort_by_key(|line| !warns(line));
    let mut all: Vec<Told> = lines
        .iter()
        .enumerate()
        .map(|(at, line)| told(line, &Place(format!("{base}.safety.{}", at + 1))))
        .collect();
    for count in &course.safety {
        if all.iter().all(|told| told.sentence != count.defers) {
            all.push(Told::plain(count.defers));
        }
    }
    all
}

fn warns(line: &[&Safety]) -> bool {
    line.iter()
        .any(|count| count.past && count.weight == Weight::Warns)
}

fn told(counts: &[&Safety], place: &Place) -> Told {
    let first = counts[0];
    let mut figures = Vec::new();
    let mut each = Vec::new();
    for count in counts {
        let mut value = figure(place, &count.of, count.value, count.unit);
        if count.more_than {
            value.shown = format!("more than {}", value.shown);
        }
        each.push(format!("{} {}", count.of, value.shown));
        figures.push(value);
    }
    let mut sentence = format!("{}: {}", say::capital(first.what), each.join(", "));
    let past: Vec<String> = counts
        .iter()
        .filter(|count| count.past)
        .map(|count| count.of.clone())
        .collect();
    if let Some(line) = first.line {
        let line = figure(place, "line", line, first.unit);
        // A count that should come to its line is told otherwise than one that should stay below.
        let least = counts.iter().any(|count| {
            let below = count.value < count.line.unwrap_or_default();
            count.past == below
        });
        let (good, bad) = if least {
            ("reached", "not reached")
        } else {
            ("within it", "past it")
        };
        let verdict = match past.len() {
            0 => good.to_owned(),
            all if all == counts.len() => bad.to_owned(),
            _ => format!("{bad}: {}", say::list(&past)),
        };
        sentence.push_str(&format!("; the line is {}: {verdict}", line.shown));
        figures.push(line);
    }
    sentence.push('.');
    // What to do stands with what is past its line, and with what has none.
    if !past.is_empty() || first.line.is_none() {
        sentence.push_str(&format!(" {}", first.says));
    }
    Told {
        step: None,
        sentence,
        figures,
        source: Some(format!("{}; {}", first.source, first.had.words())),
    }
}

/// A value in the words of its unit.
pub fn figure(place: &Place, what: &str, value: f64, unit: &'static str) -> Figure {
    let shown = match unit {
        "s" if value < 0.5 => format!("0{}min", say::NBSP),
        "s" => say::duration(Duration::from_si(value)),
        "K" => say::temperature(Temperature::from_si(value)),
        "kg" => say::mass(Mass::from_si(value)),
        "1" => trimmed(value, 1),
        "L*" => format!("L*{}{}", say::NBSP, trimmed(value, 0)),
        other => format!("{}{}{other}", trimmed(value, 1), say::NBSP),
    };
    place.figure(what, value, unit, shown)
}
