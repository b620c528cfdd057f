//! Checks what a recipe says as a whole: names, the way of the stages, and what sentences use.

mod names;
mod stages;
mod steps;
mod tally;
mod uses;

use super::model::Recipe;
use crate::source::{Diagnostic, Span, code};

/// What was found.
#[derive(Default)]
pub struct Finding {
    /// What is to be said.
    pub said: Vec<Diagnostic>,
    /// Whether something is missing without which the recipe cannot be handed out.
    pub incomplete: bool,
    /// Places at which something could not be read and has been said.
    unread: Vec<Span>,
}

impl Finding {
    /// Whether something between two places could not be read, so that what seems to be missing
    /// there may only be unread.
    fn unread_between(&self, start: usize, end: usize) -> bool {
        self.unread
            .iter()
            .any(|span| start <= span.start && span.end <= end)
    }
}

/// Checks a whole recipe that was read from a text, knowing what has been said of it.
pub fn recipe(text: &str, recipe: &Recipe, before: &[Diagnostic]) -> Finding {
    let unread = before.iter().filter_map(|said| said.span).collect();
    let mut finding = Finding {
        unread,
        ..Finding::default()
    };
    dates(recipe, &mut finding);
    names::check(recipe, &mut finding);
    stages::check(recipe, &mut finding);
    steps::check(recipe, &mut finding);
    uses::check(text, recipe, &mut finding);
    finding
}

/// A recipe is changed after it is published, not before.
fn dates(recipe: &Recipe, finding: &mut Finding) {
    if let (Some(published), Some(changed)) = (&recipe.published, &recipe.changed)
        && changed.value < published.value
    {
        finding.said.push(
            Diagnostic::at(
                code::DATE_IMPOSSIBLE,
                changed.span,
                format!(
                    "The recipe was changed on {}, before it was published on {}.",
                    changed.value, published.value
                ),
            )
            .label(published.span, "published")
            .hint("Look which of the two dates is meant."),
        );
    }
}
