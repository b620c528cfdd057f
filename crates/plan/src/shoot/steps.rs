//! Minutes of single steps: how long each takes, where it is folded, how short a rest may be.

use super::process::{Times, whole_minutes};
use numerics::quantity::Duration;
use recipe::document::model::{Action, Step};

/// Minutes of a step.
pub struct Minutes<'a>(pub Times<'a>);

impl Minutes<'_> {
    /// Minutes of a step by its number on the page.
    pub fn of(&self, number: usize, step: &Step) -> i64 {
        let written = written(step);
        let stands = matches!(
            step.action,
            Action::Rest { .. } | Action::Bake { .. } | Action::Cool { .. }
        );
        let lasts = match self.0 {
            Times::Reckoned(course) if stands => course
                .steps
                .iter()
                .find(|one| one.number == number)
                .map_or(written, |one| one.lasts),
            _ => written,
        };
        whole_minutes(lasts)
    }
}

/// The usual time of a step as written.
fn written(step: &Step) -> Duration {
    match &step.action {
        Action::Ready { .. } | Action::Fold { .. } | Action::Preheat { .. } => Duration::ZERO,
        Action::Mix { phases, .. } => phases.iter().map(|p| p.timing.usual.value).sum(),
        Action::Bake { phases, .. } => phases.iter().map(|p| p.timing.usual.value).sum(),
        Action::Wake { timing, .. }
        | Action::Heat { timing, .. }
        | Action::Rest { timing, .. }
        | Action::Divide { timing, .. }
        | Action::Shape { timing }
        | Action::Finish { timing }
        | Action::Cool { timing, .. } => timing.usual.value,
    }
}

/// The lowest written time of a rest; its usual one when no range is written.
pub fn least(step: &Step, minutes: i64) -> i64 {
    match &step.action {
        Action::Rest { timing, .. } => timing
            .range
            .as_ref()
            .map_or(minutes, |range| whole_minutes(range.value.low).min(minutes)),
        _ => minutes,
    }
}

/// Whether the next thing done is a mix.
pub fn next_is_mix(steps: &[Step]) -> bool {
    steps
        .iter()
        .find(|step| !matches!(step.action, Action::Ready { .. }))
        .is_some_and(|step| matches!(step.action, Action::Mix { .. }))
}

/// Folds that are written after a rest: minutes into it, and number on the page.
pub fn folds(after: &[Step], first: usize) -> Vec<(i64, usize)> {
    after
        .iter()
        .enumerate()
        .take_while(|(_, step)| matches!(step.action, Action::Fold { .. }))
        .flat_map(|(nth, step)| match &step.action {
            Action::Fold { into_rest, .. } => into_rest
                .iter()
                .map(|at| (whole_minutes(at.value), first + nth))
                .collect(),
            _ => Vec::new(),
        })
        .collect()
}
