//! One wish for another size, granted: the scaled recipe with its changes and what to mind.

use super::model::{Change, Granted};
use recipe::document::model::Recipe;
use recipe::formula::formula;
use recipe::larder::Larder;
use recipe::scale::{Wish, scale};
use recipe::source::{Diagnostic, code};

/// Grants a wish for another size, or says why it cannot be granted.
pub fn size(recipe: &Recipe, larder: &Larder, wish: &Wish) -> Result<Granted, Vec<Diagnostic>> {
    let sums = formula(recipe, larder).output;
    let answer = scale(recipe, &sums, larder, wish);
    let Some(scaled) = answer.output else {
        return Err(answer.diagnostics);
    };
    let changes = scaled.changes.into_iter().map(|change| Change {
        what: change.what,
        before: change.before,
        after: change.after,
    });
    let mut said = scaled.said;
    for finding in answer.diagnostics {
        let mut words = match finding.code {
            // Said already, with what was done.
            code::EGGS_MADE_WHOLE => String::new(),
            _ => format!("{} ", finding.message),
        };
        words.push_str(&finding.hints.join(" "));
        let words = words.trim().to_owned();
        if !said.contains(&words) {
            said.push(words);
        }
    }
    Ok(Granted {
        recipe: scaled.recipe,
        changes: changes.collect(),
        said,
        title: scaled.title,
    })
}
