//! Advice in words that makes people ill: raw dough tasted, flour held for safe.

use super::claims::{denied, ingredients};
use super::sentences::phrase;
use super::{Case, Rule};
use crate::code;
use crate::prose::words;
use recipe::larder::Role;
use recipe::source::Diagnostic;
use std::ops::Range;

pub const RULES: &[Rule] = &[tasting, heated_flour];

/// "Taste a little of the dough": the verb with dough close behind it.
fn tastes(text: &str) -> Option<Range<usize>> {
    let all = words(text);
    let place = all
        .iter()
        .position(|(_, word)| word.eq_ignore_ascii_case("taste"))?;
    let (end, word) = all[place + 1..]
        .iter()
        .take(5)
        .find(|(_, word)| ["dough", "batter"].contains(&word.to_lowercase().as_str()))?;
    let part = all[place].0..end + word.len();
    (!text[part.clone()].contains(['.', ';'])).then_some(part)
}

/// Advice to eat raw dough.
const TASTES: [&str; 6] = [
    "taste the dough",
    "taste the batter",
    "taste for salt",
    "taste and adjust",
    "lick the bowl",
    "lick the spoon",
];

fn raw(case: &Case) -> bool {
    let all = ingredients(case);
    all.iter()
        .any(|one| matches!(one.role, Role::Flour | Role::Egg))
}

fn tasting(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    if !raw(case) {
        return found;
    }
    for passage in case.passages {
        let said = TASTES
            .iter()
            .find_map(|words| phrase(&passage.words, words))
            .or_else(|| tastes(&passage.words));
        let Some(part) = said.filter(|part| !denied(passage, part)) else {
            continue;
        };
        found.push(
            Diagnostic::at(
                code::RAW_DOUGH_TASTED,
                passage.at(&part),
                "Raw flour and raw egg can carry germs; a reader who does as it says may fall ill.",
            )
            .hint("Take it out; the page prints the usual caution not to taste raw dough."),
        );
    }
    found
}

/// Home recipes against germs in flour, which no authority stands behind.
const HEATED: [&str; 4] = ["heat-treat", "heat-treated", "heat treat", "heat treated"];

fn heated_flour(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for passage in case.passages {
        let said = HEATED
            .iter()
            .find_map(|words| phrase(&passage.words, words));
        let toasted = phrase(&passage.words, "toast the flour").filter(|_| {
            let lower = passage.words.to_lowercase();
            ["safe", "germs", "bacteria"]
                .iter()
                .any(|word| lower.contains(word))
        });
        let Some(part) = said.or(toasted).filter(|part| !denied(passage, part)) else {
            continue;
        };
        found.push(
            Diagnostic::at(
                code::FLOUR_HEATED_AT_HOME,
                passage.at(&part),
                "Flour heated in a home oven is not known to be safe raw: dry germs bear heat well, and no home way has been tested.",
            )
            .hint("Bake what holds flour, or buy flour that its maker has treated for eating raw."),
        );
    }
    found
}
