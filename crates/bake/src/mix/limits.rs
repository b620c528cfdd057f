//! How warm and how cold the liquid of a mix may be, for the sake of yeast, egg and water.

use super::goes_in::Bench;
use crate::code;
use crate::wording::{capital, degrees, written as as_written};
use numerics::quantity::Temperature;
use recipe::document::model::{Action, Stage};
use recipe::formula::model::{Resolved, StageSum};
use recipe::larder::{Ingredient, Role, YeastForm};
use recipe::source::Diagnostic;

/// The ends of what a liquid may read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Not colder.
    pub coldest: Temperature,
    /// Not warmer.
    pub warmest: Temperature,
    /// What would happen.
    pub why_not_warmer: &'static str,
}

impl Limits {
    /// Whether a liquid can read so.
    pub fn hold(&self, reads: Temperature) -> bool {
        self.coldest <= reads && reads <= self.warmest
    }
}

/// Water and milk, a degree above freezing.
const COLDEST: Temperature = Temperature::from_celsius(1.0);
/// Yeast that is awake, in a sponge or waking liquid, or dry granules in a mix: where loss of
/// gassing begins (from memory, 42-45 °C; makers' 110 °F, read).
const AWAKE: (f64, &str) = (43.0, "above 43\u{a0}°C it hurts the yeast");
/// Fresh yeast: common practice.
const FRESH: (f64, &str) = (35.0, "above 35\u{a0}°C it hurts fresh yeast");
/// Instant yeast inside the flour: 130 °F on US packets (from memory).
const IN_FLOUR: (f64, &str) = (
    54.0,
    "above 54\u{a0}°C it hurts even instant yeast mixed into the flour",
);
/// Eggs: warmer water begins to thicken the white that touches the shell; common practice.
const EGG: (f64, &str) = (40.0, "eggs are not warmed past 40\u{a0}°C");
/// No yeast in it: starch begins to swell; common practice.
const FLOUR_ALONE: (f64, &str) = (55.0, "above 55\u{a0}°C it begins to cook the flour");

/// What the liquid of a stage's mix may read.
pub fn limits(bench: Bench<'_>, stage: usize, liquid: &Ingredient) -> Limits {
    let sums = bench.formula.stages.get(stage);
    let written = bench.recipe.stages.get(stage);
    let (warmest, why_not_warmer) = match (liquid.role, written, sums) {
        (Role::Egg, ..) => {
            let yeast = written
                .zip(sums)
                .map_or(EGG, |(w, s)| yeast_bears(bench, w, s));
            if yeast.0 < EGG.0 { yeast } else { EGG }
        }
        (_, Some(written), Some(sums)) => yeast_bears(bench, written, sums),
        _ => AWAKE,
    };
    Limits {
        coldest: COLDEST,
        warmest: Temperature::from_celsius(warmest),
        why_not_warmer,
    }
}

/// What the yeast of a stage bears: the most delicate of all that is in it.
fn yeast_bears(bench: Bench<'_>, written: &Stage, sums: &StageSum) -> (f64, &'static str) {
    let mut bears = FLOUR_ALONE;
    for (item, sum) in written.items.iter().zip(&sums.items) {
        let this = match &sum.what {
            Resolved::Ingredient(ingredient) => match ingredient.role {
                Role::Yeast(_) if is_woken(written, item.called()) => AWAKE,
                Role::Yeast(YeastForm::Fresh) => FRESH,
                Role::Yeast(YeastForm::ActiveDry) => AWAKE,
                Role::Yeast(_) => IN_FLOUR,
                _ => continue,
            },
            Resolved::Stage(earlier)
                if bench
                    .formula
                    .stages
                    .get(*earlier)
                    .is_some_and(|stage| stage.preferment) =>
            {
                AWAKE
            }
            _ => continue,
        };
        if this.0 < bears.0 {
            bears = this;
        }
    }
    bears
}

/// Whether a step of the stage wakes this item.
fn is_woken(stage: &Stage, called: &str) -> bool {
    stage.steps.iter().any(|step| match &step.action {
        Action::Wake { yeast, liquid, .. } => yeast.value == called || liquid.value == called,
        _ => false,
    })
}

/// Liquids that are written hotter than the yeast they meet bears. What a step wakes is judged
/// where it settles; the liquid that is adjusted is judged too, for its figure is on the page.
pub fn too_hot(bench: Bench<'_>, stage: usize, adjusted: Option<&str>) -> Vec<Diagnostic> {
    let (Some(written), Some(sums)) = (
        bench.recipe.stages.get(stage),
        bench.formula.stages.get(stage),
    ) else {
        return Vec::new();
    };
    let mixes = written
        .steps
        .iter()
        .any(|step| matches!(step.action, Action::Mix { .. }));
    let cooked = written
        .steps
        .iter()
        .any(|step| matches!(step.action, Action::Heat { .. }));
    let bears = yeast_bears(bench, written, sums);
    if !mixes || cooked || bears == FLOUR_ALONE {
        return Vec::new();
    }
    let limit = Temperature::from_celsius(bears.0);
    written
        .items
        .iter()
        .zip(&sums.items)
        .filter(|(item, sum)| {
            matches!(&sum.what, Resolved::Ingredient(i) if matches!(i.role, Role::Liquid | Role::Egg))
                && !is_woken(written, item.called())
        })
        .filter_map(|(item, _)| {
            let at = item.at.as_ref().filter(|at| at.value > limit)?;
            let mut said = Diagnostic::at(
                code::LIQUID_TOO_HOT_FOR_YEAST,
                at.span,
                format!(
                    "{} is written at {}; {}.",
                    capital(item.called()),
                    as_written(at.value),
                    bears.1
                ),
            )
            .hint(format!("Let it cool to {} or below.", degrees(limit)));
            if adjusted == Some(item.called()) {
                said = said.hint("The mix sheet says what it should read in this kitchen.");
            }
            Some(said)
        })
        .collect()
}
