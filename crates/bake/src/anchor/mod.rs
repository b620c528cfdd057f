//! What a recipe's own tested bakes teach: at most three factors, each within a range that can be believed.
//!
//! # Relation
//! The most likely factors: the smallest sum of ((g - y)/s)^2 over the tested figures and
//! (ln a / p)^2 over the factors a, each ln a between its bounds. Figures with a ratio scale (minutes) are
//! compared by their logarithms.
//!
//! # Symbols
//! y, figure as tested; g, the same worked out by `simulate` in the kitchen of the test; s, what such a
//! figure is good for; p, how far a factor usually strays.
//!
//! # Valid for
//! Yeast vigour 0.4 to 2.5, vapour part 0.4 to 2.5, browning 0.25 to 4 times. Outside nothing is moved.
//!
//! # Source
//! Gauss and Newton's method with bounds on the unknowns; which figure moves which factor, priors and
//! ranges are worked out here (`docs/models/anchor.md` gives the reason for each).
//!
//! # Departures
//! A factor that figures pull both ways stays at one unless it meets more of them than one does. Each
//! figure pulls at one factor only: a rise at the yeast, minutes to a core temperature at the
//! vapour, the crust at the browning. What they do to each other is in the runs, not in the slopes.
//!
//! # Checked by
//! `tests/identities/anchor.rs`: factors that were put in are found again.

mod factor;
mod figure;
mod fit;
mod run;
mod tested;
mod told;

pub use factor::Factor;
pub use figure::{CORE_LN, CRUST, DOUGH_K, LOSS, RISE_LN};
pub use fit::{EachBake, OneBake, one_by_one};
pub(crate) use tested::for_so_long;

use crate::code;
use crate::kitchen::Kitchen;
use crate::simulate::{Anchored, Course, How, simulate};
use recipe::document::model::Recipe;
use recipe::formula::Formula;
use recipe::source::{Checked, Diagnostic};

/// So many bakes at most are looked at, the newest.
pub const MOST_BAKES: usize = 8;

/// What the tested bakes of a recipe teach. `kitchens`: those that are at hand, by whose names the tests
/// call theirs; a test in another one is worked out in a usual kitchen of its room.
pub fn anchor(
    recipe: &Recipe,
    formula: &Formula,
    kitchens: &[Kitchen],
    how: &How,
) -> Checked<Anchored> {
    anchor_by(recipe, formula, kitchens, how, &one_by_one)
}

/// The same, the bakes of each round worked out as `each` does it.
pub fn anchor_by(
    recipe: &Recipe,
    formula: &Formula,
    kitchens: &[Kitchen],
    how: &How,
    each: EachBake<'_>,
) -> Checked<Anchored> {
    let (bakes, mut said) = tested::bakes(recipe, formula, kitchens);
    if bakes.iter().all(|bake| bake.figures.is_empty()) {
        said.push(unanchored(recipe));
        return Checked {
            output: Anchored::default(),
            diagnostics: said,
        };
    }
    let run = |bake: &tested::Bake, factors, grid| {
        let how = How {
            anchor: factors,
            grid,
            ..*how
        };
        run::worked_out(bake, formula, &how)
    };
    let found = fit::fit(&bakes, how.grid, run, each);
    said.extend(told::findings(&bakes, &found));
    Checked {
        output: told::anchored(&bakes, &found),
        diagnostics: said,
    }
}

/// What happens in a kitchen, with what the recipe's own bakes teach.
pub fn happens(
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    kitchens: &[Kitchen],
    how: &How,
) -> Checked<Course> {
    let anchored = anchor(recipe, formula, kitchens, how);
    let how = How {
        anchor: anchored.output.factors,
        ..*how
    };
    let mut course = simulate(recipe, formula, kitchen, &how);
    course.output.anchored = anchored.output;
    let mut diagnostics = anchored.diagnostics;
    diagnostics.append(&mut course.diagnostics);
    Checked {
        output: course.output,
        diagnostics,
    }
}

/// Nothing was tested, or nothing that helps.
fn unanchored(recipe: &Recipe) -> Diagnostic {
    let tests = recipe.tested.len();
    let message = if tests == 0 {
        "No bake of this recipe is noted: its times are reckoned from published figures alone."
            .to_owned()
    } else {
        format!(
            "{tests} {} noted, but without a rise or the minutes of a bake: the times are reckoned from published figures alone.",
            if tests == 1 { "bake is" } else { "bakes are" }
        )
    };
    let hint = "Note under `[[tested]]` how long a rise took (`rises`), and minutes and core temperature of a bake.";
    match recipe.tested.first() {
        Some(first) => Diagnostic::at(code::RECIPE_UNANCHORED, first.span, message),
        None => Diagnostic::whole(code::RECIPE_UNANCHORED, message),
    }
    .hint(hint)
}
