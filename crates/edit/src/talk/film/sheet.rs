//! The figures to say before the camera, scene by scene.

use super::scenes::Scenes;
use crate::ledger::model::{ItemLine, Ledger, MarginKind, Run, StepLine};
use crate::talk::track::clock;
use std::time::Duration;

/// A scene's figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetPart {
    /// The stage or product.
    pub heading: String,
    /// When the film speaks of it: "0:16".
    pub at: Option<String>,
    /// What to say.
    pub lines: Vec<SheetLine>,
}

/// One thing to say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetLine {
    /// The number of its step; none for an ingredient.
    pub step: Option<usize>,
    /// When the film speaks of it.
    pub at: Option<String>,
    /// The figures: "245 g", "80 min (65–100 min)".
    pub figures: Vec<String>,
    /// The signs to go by: "nearly doubled; a dent fills slowly".
    pub signs: Vec<String>,
    /// What they are of: "bread flour", or the step's sentence.
    pub of: String,
}

/// The sheet of a recipe.
pub(super) fn sheet(ledger: &Ledger, scenes: &Scenes) -> Vec<SheetPart> {
    let when = |at: Duration| clock(Duration::from_secs(at.as_secs()));
    let sections = ledger.sections.iter().enumerate();
    sections
        .map(|(at, section)| {
            let stage = ledger
                .stages
                .iter()
                .find(|stage| stage.heading == section.heading);
            let items = stage.iter().flat_map(|stage| &stage.items).map(of_item);
            let steps = section.steps.iter().filter_map(|step| {
                let line = of_step(step)?;
                Some(SheetLine {
                    at: scenes.steps.get(&step.number).copied().map(when),
                    ..line
                })
            });
            SheetPart {
                heading: section.heading.clone(),
                at: scenes.of(at).map(|stretch| when(stretch.from)),
                lines: items.chain(steps).collect(),
            }
        })
        .filter(|part| !part.lines.is_empty())
        .collect()
}

fn of_item(item: &ItemLine) -> SheetLine {
    let shown = [&item.grams, &item.measure];
    let figures = shown
        .into_iter()
        .flatten()
        .map(|figure| figure.shown.clone());
    let of = match &item.detail {
        Some(detail) => format!("{}, {detail}", item.name),
        None => item.name.clone(),
    };
    SheetLine {
        step: None,
        at: None,
        figures: figures.collect(),
        signs: Vec::new(),
        of,
    }
}

/// A step with a figure or a sign to go by; what one kitchen's reckoning says stays out.
fn of_step(step: &StepLine) -> Option<SheetLine> {
    let shown = |wanted: fn(MarginKind) -> bool| -> Vec<String> {
        let lines = step.margin.iter().filter(|line| wanted(line.kind));
        lines.map(|line| line.shown.clone()).collect()
    };
    let measured = |kind| !matches!(kind, MarginKind::Here | MarginKind::How | MarginKind::Cue);
    let figures = shown(measured);
    let signs = shown(|kind| kind == MarginKind::Cue);
    let words = step.runs.iter().map(|run| match run {
        Run::Words(words) => words.as_str(),
        Run::Figure(figure) => figure.shown.as_str(),
    });
    (!figures.is_empty() || !signs.is_empty()).then(|| SheetLine {
        step: Some(step.number),
        at: None,
        figures,
        signs,
        of: words.collect(),
    })
}
