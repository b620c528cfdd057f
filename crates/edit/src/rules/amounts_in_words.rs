//! Ranges and kitchen measures in the author's own words.

use super::spelling::{slip, together};
use super::{Case, Rule};
use crate::code;
use crate::prose::Spot;
use recipe::document::model::{Measures, Ranges};
use recipe::measure::read::sentence::holds;
use recipe::measure::{Measure, Quantity};
use recipe::source::Diagnostic;
use std::ops::Range;

pub const RULES: &[Rule] = &[ranges, measures];

/// Whether a written figure is a range with a dash, or with "to"; none when it is no range.
fn way_of(shown: &str) -> Option<(Ranges, Range<usize>)> {
    let digit_before = |at: usize| {
        shown[..at]
            .trim_end()
            .ends_with(|c: char| c.is_ascii_digit() || "½⅓⅔¼¾".contains(c))
    };
    let digit_after = |at: usize| {
        shown[at..]
            .trim_start()
            .starts_with(|c: char| c.is_ascii_digit() || "½⅓⅔¼¾".contains(c))
    };
    for (at, letter) in shown.char_indices() {
        let end = at + letter.len_utf8();
        if matches!(letter, '-' | '–') && digit_before(at) && digit_after(end) {
            return Some((Ranges::Dash, at..end));
        }
        if shown[at..].starts_with(" to ") && digit_before(at) && digit_after(at + 4) {
            return Some((Ranges::To, at..at + 4));
        }
    }
    None
}

fn ranges(case: &Case) -> Vec<Diagnostic> {
    let house = case.inputs.recipe.house.ranges();
    let all: Vec<_> = case
        .said
        .iter()
        // "Serves 7-9" is printed with a dash by the page itself.
        .filter(|said| case.passages[said.passage].spot != Spot::Serves)
        .filter_map(|said| way_of(&said.shown).map(|(way, sign)| (said, way, sign)))
        .collect();
    let wanted = match house {
        Ranges::Alike => {
            let dashes = all
                .iter()
                .filter(|(_, way, _)| *way == Ranges::Dash)
                .count();
            if dashes * 2 >= all.len() {
                Ranges::Dash
            } else {
                Ranges::To
            }
        }
        chosen => chosen,
    };
    let slips = all
        .iter()
        .filter(|(_, way, _)| *way != wanted)
        .map(|(said, _, sign)| {
            let passage = &case.passages[said.passage];
            let part = said.part.start + sign.start..said.part.start + sign.end;
            let new = if wanted == Ranges::Dash {
                "–"
            } else {
                " to "
            };
            slip(case, passage, &part, new.to_owned())
        })
        .collect();
    together(
        code::RANGES_TWO_WAYS,
        slips,
        |_| {
            let (one, other) = if wanted == Ranges::Dash {
                ("a dash", "“to”")
            } else {
                ("“to”", "a dash")
            };
            format!("Ranges are written with {one} elsewhere and with {other} here.")
        },
        "Write them one way throughout; `ranges` in [house] says which.",
    )
}

/// Cups and spoons in a sentence without grams or millilitres beside them.
fn measures(case: &Case) -> Vec<Diagnostic> {
    let house = case.inputs.recipe.house.measures();
    let mut found = Vec::new();
    for said in case.said {
        let Quantity::Measures(all) = &said.quantity else {
            continue;
        };
        let kitchen = all.iter().all(|one| {
            matches!(
                one.measure,
                Measure::Cup | Measure::Tablespoon | Measure::Teaspoon | Measure::FluidOunce
            )
        });
        let passage = &case.passages[said.passage];
        if passage.is_photo() || house == Measures::Cups {
            continue;
        }
        let after = passage.words[said.part.end..].trim_start().to_lowercase();
        // A cup of tea is drunk.
        if ["of tea", "of coffee", "of cocoa"]
            .iter()
            .any(|drink| after.starts_with(drink))
        {
            continue;
        }
        let near = |other: &&crate::prose::WordFigure| {
            let pair = match &other.quantity {
                Quantity::Mass(_) => true,
                Quantity::Measures(all) => all.iter().all(|one| {
                    !matches!(
                        one.measure,
                        Measure::Cup
                            | Measure::Tablespoon
                            | Measure::Teaspoon
                            | Measure::FluidOunce
                    )
                }),
                _ => false,
            };
            let starts = other.part.start.max(said.part.start);
            let gap = starts.saturating_sub(other.part.end.min(said.part.end));
            pair && other.passage == said.passage && gap <= 30 && other.part != said.part
        };
        if !kitchen || (house == Measures::Both && case.said.iter().any(|other| near(&other))) {
            continue;
        }
        let millilitres = holds(all).si() * 1e6;
        let rounded = if millilitres >= 50.0 {
            (millilitres / 10.0).round() * 10.0
        } else {
            (millilitres / 2.5).round() * 2.5
        };
        let shown = format!("{} mL", numerics::decimal::trimmed(rounded, 1));
        let new = format!("{} ({shown})", said.shown);
        let finding = Diagnostic::at(
            code::MEASURE_WITHOUT_MASS,
            passage.at(&said.part),
            format!(
                "“{}” stands alone; where cups are of another size or not in use, a reader cannot follow.",
                said.shown
            ),
        )
        .hint(format!("Write \"{new}\", or better grams."))
        .hint("For readers of one country alone choose `measures` in [house].");
        found.push(match passage.changeable(case.inputs.written, &said.part) {
            Some(span) if house == Measures::Both => finding.change(span, new),
            _ => finding,
        });
    }
    found
}
