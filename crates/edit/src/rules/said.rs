//! Figures of the author's own words against the figures of the recipe.

use super::{Case, Rule};
use crate::code;
use crate::ledger::say;
use crate::prose::{Spot, Standing, WordFigure, words};
use numerics::decimal::trimmed;
use numerics::quantity::{Duration, Fraction, Temperature};
use recipe::measure::Quantity;
use recipe::source::Diagnostic;

pub const RULES: &[Rule] = &[contradictions, nowhere, step_numbers];

fn contradictions(case: &Case) -> Vec<Diagnostic> {
    let differing = case.said.iter().filter_map(|said| match &said.standing {
        Standing::Differs(place, value) => Some((said, place, *value)),
        _ => None,
    });
    differing
        .map(|(said, place, value)| {
            let passage = &case.passages[said.passage];
            let span = passage.at(&said.part);
            if let Quantity::Count { count, .. } = said.quantity {
                return of_count(case, said, place, count, value);
            }
            let model = shown(&said.quantity, value);
            Diagnostic::at(
                code::WORDS_CONTRADICT_FIGURE,
                span,
                format!(
                    "The words say {}, and the recipe's own figure is {model}. A reader sees both.",
                    said.shown
                ),
            )
            .hint(format!(
                "Write {model} in the sentence, or leave the figure to its placeholder or margin."
            ))
            .hint(
                "If it is another thing, say of what it is: \"for the first 10 minutes\", \"no warmer than 28 °C\".",
            )
            .because(format!("Held against {place}."))
        })
        .collect()
}

fn of_count(case: &Case, said: &WordFigure, place: &str, count: f64, value: f64) -> Diagnostic {
    let passage = &case.passages[said.passage];
    let span = passage.at(&said.part);
    let name = place
        .strip_prefix("product.")
        .and_then(|rest| rest.strip_suffix(".count"))
        .unwrap_or(place);
    let (here, there) = (trimmed(count, 2), trimmed(value, 0));
    if matches!(passage.spot, Spot::Photo(_)) {
        return Diagnostic::at(
            code::PHOTO_COUNT_DIFFERS,
            span,
            format!(
                "The photograph is said to show {here}, and the recipe makes {there} ({name})."
            ),
        )
        .hint("Say that it shows some of them, or look whether it is of this recipe.");
    }
    // A film keeps its title, though a recipe be made in another size after it.
    if passage.spot == Spot::FilmTitle {
        return Diagnostic::at(
            code::PHOTO_COUNT_DIFFERS,
            span,
            format!("The film's title says {here}, and the recipe makes {there} ({name})."),
        )
        .hint("Say beside the film that it shows another size, or give the film another title.");
    }
    Diagnostic::at(
        code::COUNT_DIFFERS,
        span,
        format!("The words say {here}, and the recipe makes {there} ({name})."),
    )
    .hint(format!("Write {there}, or correct `count`."))
}

/// Hotter than this is a dial, colder a probe.
const BOILING: Temperature = Temperature::from_celsius(100.0);

/// A value in the words of its kind.
fn shown(quantity: &Quantity, value: f64) -> String {
    match quantity {
        Quantity::Temperature(_) if value > BOILING.si() => say::oven(Temperature::from_si(value)),
        Quantity::Temperature(_) => say::temperature(Temperature::from_si(value)),
        Quantity::Time(_) => say::duration(Duration::from_si(value)),
        Quantity::Share(_) => say::percent(Fraction::from_si(value)),
        _ => trimmed(value, 2),
    }
}

fn nowhere(case: &Case) -> Vec<Diagnostic> {
    let lost = case
        .said
        .iter()
        .filter(|said| said.standing == Standing::Nowhere);
    lost.map(|said| {
        let passage = &case.passages[said.passage];
        Diagnostic::at(
            code::FIGURE_WITHOUT_A_PLACE,
            passage.at(&said.part),
            format!(
                "“{}” stands in words alone: no list, step or product of the recipe has this figure.",
                said.shown
            ),
        )
        .hint("If it is an amount, put a placeholder such as [60 g of sugar] in its place; if it is a heat, write it in the step's own key.")
        .hint("If an amount was changed, the sentence was forgotten: correct it.")
    })
    .collect()
}

/// "step 4" when there are three.
fn step_numbers(case: &Case) -> Vec<Diagnostic> {
    let last = case
        .passages
        .iter()
        .filter(|passage| passage.is_step())
        .count();
    let mut found = Vec::new();
    for said in case.said {
        let Quantity::Count { count, size: None } = said.quantity else {
            continue;
        };
        let passage = &case.passages[said.passage];
        let before = words(&passage.words[..said.part.start]);
        let names_step = before.last().is_some_and(|(at, word)| {
            let word = word.to_lowercase();
            let close = passage.words[at + word.len()..said.part.start]
                .trim()
                .is_empty();
            close && (word == "step" || word == "steps")
        });
        if !names_step || (count >= 1.0 && count <= last as f64) {
            continue;
        }
        found.push(
            Diagnostic::at(
                code::STEP_NOT_THERE,
                passage.at(&said.part),
                format!("There is no step {}: the recipe has {last}.", said.shown),
            )
            .hint("Steps are numbered when they are printed, through the whole recipe. Name the step by what is done there; then nothing has to be renumbered."),
        );
    }
    found
}
