//! Whether written times help in another kitchen: ranges, their width, and what else tells the end.

use super::limits::Limit;
use super::route::{added, bakes, steps};
use super::{Case, Rule};
use crate::code;
use crate::ledger::say;
use numerics::decimal::fixed;
use numerics::quantity::{Duration, Range};
use recipe::document::model::{Action, Until};
use recipe::source::Diagnostic;

pub const RULES: &[Rule] = &[
    rests_without_range,
    bakes_without_range,
    wide_rests,
    wide_bakes,
];

/// Width of a range, as a share of the usual time, up to which it says enough by itself of a bake; of a rest the table of
/// limits has it.
pub const WIDE_BAKE: f64 = 0.25;
/// Rests shorter than this are relaxed dough, which words describe well enough.
const SHORT: Duration = Duration::from_minutes(30.0);

fn rests_without_range(case: &Case) -> Vec<Diagnostic> {
    steps(case.inputs.recipe)
        .filter_map(|step| match &step.action {
            Action::Rest { timing, .. } if timing.range.is_none() => Some(timing),
            _ => None,
        })
        .map(|timing| {
            let usual = timing.usual.value;
            Diagnostic::at(
                code::TIME_WITHOUT_RANGE,
                timing.usual.span,
                format!(
                    "{} stands alone; in a colder or warmer kitchen it will be another time.",
                    say::duration(usual)
                ),
            )
            .hint(format!(
                "Give a range of what you have seen, such as `range = \"{}\"`.",
                around(usual, 0.2)
            ))
        })
        .collect()
}

/// "45-75 min" around a usual time, to 5 min.
fn around(usual: Duration, share: f64) -> String {
    let ends = Range {
        low: usual * (1.0 - share),
        high: usual * (1.0 + share),
    };
    let step = |duration: Duration| fixed((duration.minutes() / 5.0).round().max(1.0) * 5.0, 0);
    format!("{}-{} min", step(ends.low), step(ends.high))
}

fn bakes_without_range(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for product in &case.inputs.recipe.products {
        for step in bakes(product) {
            let Action::Bake { phases, .. } = &step.action else {
                continue;
            };
            let sum = added(phases.iter().map(|phase| &phase.timing));
            let Some(last) = phases.last() else { continue };
            if sum.ranged {
                continue;
            }
            found.push(
                Diagnostic::at(
                    code::TIME_WITHOUT_RANGE,
                    last.timing.usual.span,
                    format!(
                        "{} bakes {} and no range is given; ovens differ by a tenth and more.",
                        say::capital(&product.name.value),
                        say::duration(sum.usual)
                    ),
                )
                .hint("Give the last phase a range of what you have seen."),
            );
        }
    }
    found
}

fn wide_rests(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for step in steps(case.inputs.recipe) {
        let Action::Rest { timing, .. } = &step.action else {
            continue;
        };
        let Some(range) = &timing.range else { continue };
        let sum = added(std::iter::once(timing));
        let enough = step.until.as_ref().is_some_and(|until| {
            until.see.is_some() && (measurable(until) || timing.usual.value < SHORT)
        });
        if sum.width() <= Limit::RangeOfRest.share() + 1e-9 || enough {
            continue;
        }
        found.push(
            Diagnostic::at(
                code::RANGE_TOO_WIDE,
                range.span,
                format!(
                    "{} around {} is a width of {} %, and nothing measurable tells the end.",
                    say::duration_range(range.value),
                    say::duration(timing.usual.value),
                    fixed(sum.width() * 100.0, 0)
                ),
            )
            .hint(
                "Say in `until` what is seen and what is measured: `volume`, `height` or `dough`.",
            )
            .hint("Or narrow the range to what the rise took at the temperature that is written."),
        );
    }
    found
}

fn measurable(until: &Until) -> bool {
    until.volume.is_some() || until.height.is_some() || until.dough.is_some()
}

fn wide_bakes(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for step in case.inputs.recipe.products.iter().flat_map(bakes) {
        let Action::Bake { phases, check, .. } = &step.action else {
            continue;
        };
        let sum = added(phases.iter().map(|phase| &phase.timing));
        let widest = phases
            .iter()
            .rev()
            .find_map(|phase| phase.timing.range.as_ref());
        let Some(range) = widest.filter(|_| sum.width() > WIDE_BAKE + 1e-9) else {
            continue;
        };
        if check.is_some() {
            continue;
        }
        found.push(
            Diagnostic::at(
                code::BAKE_WITHOUT_CHECK,
                range.span,
                format!(
                    "The bake takes {}, a width of {} % of the usual {}, and it is not said when \
                     to look for the first time.",
                    say::duration_range(Range {
                        low: sum.low,
                        high: sum.high
                    }),
                    fixed(sum.width() * 100.0, 0),
                    say::duration(sum.usual)
                ),
            )
            .hint(format!(
                "Add `check = \"{} min\"`.",
                fixed((sum.low.minutes() - 2.0).max(1.0), 0)
            )),
        );
    }
    found
}
