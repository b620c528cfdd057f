//! What is planned otherwise than a recipe writes: rises and chills whose reckoned minutes lie far from the written ones.

use super::lengths::{Length, steps};
use super::tasks::Batch;
use super::words::SHORT_MIN;
use super::{Asked, code};
use crate::shoot::words::spell;
use bake::simulate::Follows;
use numerics::quantity::Duration;
use recipe::document::model::{Action, Recipe, Standing, Step, Timing};
use recipe::source::{Diagnostic, listed};

/// A time is otherwise when it lies outside the written range by more than this share of the usual time; without a range the
/// usual time is the range (ours).
const SHARE: f64 = 0.2;

/// One finding for every recipe of which something is planned otherwise.
pub fn otherwise(asked: &Asked<'_>, batches: &[Batch<'_>]) -> Vec<Diagnostic> {
    let mut all = Vec::new();
    for (at, batch) in batches.iter().enumerate() {
        let seen = |other: &Batch<'_>| std::ptr::eq(other.recipe, batch.recipe);
        if batches[..at].iter().any(seen) {
            continue;
        }
        let title = &batch.recipe.title.value;
        let lines = named(batch.recipe, &batch.lengths);
        let of = |no_sign: bool| -> Vec<&str> {
            let own = lines.iter().filter(|line| line.0 == no_sign);
            own.map(|line| line.1.as_str()).collect()
        };
        let (never, far) = (of(true), of(false));
        if !never.is_empty() {
            all.push(
                Diagnostic::whole(
                    code::SIGN_DOES_NOT_COME,
                    format!("{title}: in {} the sign does not come of {}.", asked.kitchen.name, listed(&never, "and")),
                )
                .hint("Look at the dough; a colder refrigerator or a warmer place brings the sign, or write another one."),
            );
        }
        if !far.is_empty() && asked.follows == Follows::Cue {
            all.push(
                Diagnostic::whole(
                    code::PLANNED_OTHERWISE,
                    format!("{title}: the minutes reckoned here lie far from the written ones: {}.", listed(&far, "and")),
                )
                .hint("If the recipe was tested in a kitchen like this one, plan by its written minutes (--follows clock); otherwise go by the sign of the dough."),
            );
        }
    }
    all
}

/// Every step that is otherwise, in words, and whether it is because its sign does not come.
fn named(recipe: &Recipe, lengths: &[Length]) -> Vec<(bool, String)> {
    let stages = recipe.stages.iter().flat_map(|stage| {
        let of = stage.name.value.as_str();
        stage.steps.iter().map(move |step| (of, false, step))
    });
    let products = recipe.products.iter().flat_map(|product| {
        let of = product.name.value.as_str();
        product.steps.iter().map(move |step| (of, true, step))
    });
    debug_assert_eq!(steps(recipe).count(), lengths.len());
    let all = stages.chain(products).zip(lengths).enumerate();
    let told = all.filter_map(|(at, ((of, piece, step), length))| {
        let (timing, place) = stands(step)?;
        let minutes = timing.usual.value.minutes();
        let what = match place {
            Standing::Refrigerator => "chill",
            _ if piece => "last rise",
            _ if minutes < SHORT_MIN => "rest",
            _ => "rise",
        };
        let does = format!("{what} of the {of}");
        let number = at + 1;
        let planned = spell(i64::from(length.lasts));
        if length.no_sign {
            return Some((
                true,
                format!("the {does} (step {number}; {planned} are planned)"),
            ));
        }
        // What is cold before its time does no harm.
        let sooner_is_well = place == Standing::Refrigerator;
        let (low, high) = written(timing);
        let told = f64::from(length.lasts);
        let most = SHARE * minutes;
        let far = told > high + most || (!sooner_is_well && told < low - most);
        far.then(|| {
            let usual = spell(super::lengths::minutes(timing.usual.value).into());
            (
                false,
                format!("{does} {planned} (written {usual}, step {number})"),
            )
        })
    });
    told.collect()
}

/// The time of a step in which a dough stands, and where.
fn stands(step: &Step) -> Option<(&Timing, Standing)> {
    match &step.action {
        Action::Rest { timing, place, .. } => Some((timing, place.value)),
        _ => None,
    }
}

/// From and to as written, minutes.
fn written(timing: &Timing) -> (f64, f64) {
    let minutes = |of: Duration| of.minutes();
    let usual = minutes(timing.usual.value);
    timing.range.as_ref().map_or((usual, usual), |range| {
        (minutes(range.value.low), minutes(range.value.high))
    })
}
