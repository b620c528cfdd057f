//! Work beside the camera laid one after another, as far as the doughs can wait for it.
//!
//! Dividing and shaping are moved later inside the minutes that holds allow, so that no more is in hand at
//! once than there are hands, and so that the meal stays free. Mixing is tied to mixers and brushing to the
//! oven; both stay where they are, and so does what cannot be moved: it is told, not hidden.

use super::batch::{Need, stays};
use super::model::Batch;
use super::plan::Inputs;
use super::process::{Doing, Process};
use recipe::document::model::Recipe;

/// What is in hand: from, to.
type Busy = Vec<(i64, i64)>;

/// Leavings that are fixed, batch by batch.
pub type Fixed = Vec<Vec<(usize, i64)>>;

/// Moves the work of every batch, and answers the leavings that it fixed.
pub fn stagger(
    inputs: &Inputs<'_>,
    batches: &mut [Batch],
    meal: Option<(i64, i64)>,
) -> Option<Fixed> {
    let mut fixed: Fixed = vec![Vec::new(); batches.len()];
    let mut busy: Busy = Vec::new();
    // What cannot be moved is in hand first.
    for batch in batches.iter() {
        let process = &inputs.processes[batch.process];
        let starts = batch.stays[process.start].leaves_min;
        if let Some(mixes) = process.mixer_min.filter(|_| !batch.on_camera) {
            busy.push((starts, starts + mixes));
        }
    }
    let mut open: Vec<(usize, usize)> = Vec::new();
    for (at, batch) in batches.iter().enumerate() {
        let process = &inputs.processes[batch.process];
        let mut divided = false;
        for (nth, run) in process.runs.iter().enumerate() {
            let Doing::Hands(word) = run.what else {
                continue;
            };
            let movable = word == "shape" || (word == "divide" && !divided);
            if movable && batch.followed[run.to] && !on_camera(inputs, batch, run.from) {
                divided |= word == "divide";
                open.push((at, nth));
            }
        }
    }
    while !open.is_empty() {
        let begins = |(at, nth): &(usize, usize)| {
            let process = &inputs.processes[batches[*at].process];
            batches[*at].stays[process.runs[*nth].from].leaves_min
        };
        let next = (0..open.len()).min_by_key(|which| (begins(&open[*which]), open[*which]))?;
        let (at, nth) = open.remove(next);
        let batch = &batches[at];
        let process = &inputs.processes[batch.process];
        let run = &process.runs[nth];
        let serves: Vec<&Need> = batch.serves.iter().map(|n| &inputs.needs[*n]).collect();
        let (from, to) =
            super::batch::leaving(process, &serves, batch.start_min, &fixed[at], run.from)?;
        let wanted = batch.stays[run.from].leaves_min.max(from);
        let free = |minute: &i64| {
            let ends = minute + run.takes_min;
            let clear = meal.is_none_or(|(from, to)| *minute >= to || ends <= from);
            clear && in_hand(&busy, *minute, ends) < inputs.stock.hands
        };
        let minute = (wanted..=to).find(free).unwrap_or(wanted);
        busy.push((minute, minute + run.takes_min));
        if minute != batch.stays[run.from].leaves_min {
            let mut tried = fixed[at].clone();
            tried.push((run.from, minute));
            if let Some(moved) = stays(process, &serves, batch.start_min, &tried) {
                fixed[at] = tried;
                batches[at].stays = moved;
            }
        }
    }
    Some(fixed)
}

/// Whether the work that begins at a point is filmed.
fn on_camera(inputs: &Inputs<'_>, batch: &Batch, point: usize) -> bool {
    batch
        .serves
        .iter()
        .map(|at| &inputs.needs[*at])
        .any(|need| need.works && need.point == point)
}

/// How much is in hand at once between two minutes.
fn in_hand(busy: &Busy, from: i64, to: i64) -> usize {
    let at = |minute: i64| {
        busy.iter()
            .filter(|(f, t)| *f <= minute && minute < *t)
            .count()
    };
    busy.iter()
        .map(|(begins, _)| *begins)
        .filter(|begins| from <= *begins && *begins < to)
        .chain([from])
        .map(at)
        .max()
        .unwrap_or(0)
}

/// What a process makes for products besides the dough: filling and the like, ready when the first of them
/// is shaped.
pub fn wanted_at(recipe: &Recipe, process: &Process, batch: &Batch, side: &Process) -> Option<i64> {
    let uses = |product: usize| {
        recipe.products[product]
            .with
            .iter()
            .any(|item| item.of.value == side.of)
    };
    process
        .runs
        .iter()
        .filter(|run| run.what == Doing::Hands("shape") && batch.followed[run.to])
        .filter(|run| process.points[run.to].product.is_some_and(uses))
        .map(|run| batch.stays[run.from].leaves_min)
        .min()
}
