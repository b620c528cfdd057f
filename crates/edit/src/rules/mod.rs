//! The rules by which an editor looks over a recipe: one function a rule, one file a family.

mod allergens_in_words;
mod amounts_in_words;
mod assets;
mod claims;
mod going_in;
mod heat;
mod heats_in_words;
mod keeping;
mod label;
mod limits;
mod lists;
mod names;
mod one_name;
mod order;
mod oven_as_place;
mod prepared;
mod print;
mod promise;
mod raw_dough;
mod route;
mod safety;
mod said;
mod sentences;
mod spelling;
mod times;

pub use assets::{glyph_findings, missing_photos, photos_outside};
pub(crate) use route::added;
pub use safety::warm_as_planned;

use crate::ledger::model::Ledger;
use crate::prose::{Passage, WordFigure};
use crate::{Heard, Inputs};
use recipe::source::Diagnostic;

/// What a rule looks at.
struct Case<'a> {
    inputs: &'a Inputs<'a>,
    heard: &'a Heard,
    ledger: &'a Ledger,
    passages: &'a [Passage<'a>],
    said: &'a [WordFigure],
}

/// A rule: everything that it has to say about a case.
type Rule = fn(&Case) -> Vec<Diagnostic>;

/// Every family with its rules, in the order in which they are asked.
const FAMILIES: [&[Rule]; 22] = [
    heat::RULES,
    safety::RULES,
    times::RULES,
    promise::RULES,
    print::RULES,
    names::RULES,
    label::RULES,
    lists::RULES,
    prepared::RULES,
    order::RULES,
    said::RULES,
    heats_in_words::RULES,
    spelling::RULES,
    sentences::RULES,
    claims::RULES,
    keeping::RULES,
    one_name::RULES,
    amounts_in_words::RULES,
    going_in::RULES,
    oven_as_place::RULES,
    allergens_in_words::RULES,
    raw_dough::RULES,
];

/// Findings of one sort as one: the first where it stands, the others marked beside it.
fn merged(all: Vec<Diagnostic>, mark: &str) -> Vec<Diagnostic> {
    let mut rest = all.into_iter();
    let Some(mut first) = rest.next() else {
        return Vec::new();
    };
    for other in rest {
        if let Some(span) = other.span {
            first = first.label(span, mark);
        }
        first.changes.extend(other.changes);
    }
    vec![first]
}

/// Everything that the rules say about a recipe, in the order of the text.
pub fn findings(inputs: &Inputs, heard: &Heard, ledger: &Ledger) -> Vec<Diagnostic> {
    let passages = crate::prose::passages(inputs.recipe, inputs.written);
    let said = crate::prose::figures::in_passages(inputs, heard, &passages);
    let case = Case {
        inputs,
        heard,
        ledger,
        passages: &passages,
        said: &said,
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
