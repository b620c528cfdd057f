//! The rules by which an editor looks over a recipe: one function a rule, one file a family.

mod assets;
mod heat;
mod label;
mod names;
mod print;
mod promise;
mod route;
mod safety;
mod times;

pub use assets::{glyph_findings, missing_photos, photos_outside};

use crate::ledger::model::Ledger;
use crate::{Heard, Inputs};
use recipe::source::Diagnostic;

/// What a rule looks at.
struct Case<'a> {
    inputs: &'a Inputs<'a>,
    heard: &'a Heard,
    ledger: &'a Ledger,
}

/// A rule: everything that it has to say about a case.
type Rule = fn(&Case) -> Vec<Diagnostic>;

/// Every family with its rules, in the order in which they are asked.
const FAMILIES: [&[Rule]; 7] = [
    heat::RULES,
    safety::RULES,
    times::RULES,
    promise::RULES,
    print::RULES,
    names::RULES,
    label::RULES,
];

/// Everything that the rules say about a recipe, in the order of the text.
pub fn findings(inputs: &Inputs, heard: &Heard, ledger: &Ledger) -> Vec<Diagnostic> {
    let case = Case {
        inputs,
        heard,
        ledger,
    };
    let mut all: Vec<_> = FAMILIES
        .iter()
        .copied()
        .flatten()
        .flat_map(|rule| rule(&case))
        .collect();
    all.sort_by_key(|finding| finding.span.map_or(usize::MAX, |span| span.start));
    all
}
