//! Checks what a recipe says as a whole: names, the way of the stages, and what sentences use.

use super::model::Recipe;
use crate::source::Diagnostic;

/// What was found.
#[derive(Default)]
pub struct Finding {
    /// What is to be said.
    pub said: Vec<Diagnostic>,
    /// Whether something is missing without which the recipe cannot be handed out.
    pub incomplete: bool,
}

/// Checks a whole recipe that was read from a text.
pub fn recipe(_text: &str, _recipe: &Recipe) -> Finding {
    Finding::default()
}
