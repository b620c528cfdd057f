//! The plan before, of a day that has begun: read from what was written down of it, when it belongs to what is asked.

use super::entries::owner;
use super::lengths::steps;
use super::replay::moved;
use super::tasks::{Batch, Made, Place, Serve, tasks};
use crate::timetable::Kind;
use recipe::document::model::Action;

/// What was written down of a plan.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Before {
    /// Its entries.
    pub entries: Vec<Was>,
    /// Of every bread, or load of one, when it was wanted.
    pub wanted: Vec<Option<i32>>,
}

/// An entry of a plan; minutes from the minute 0 of the day that is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Was {
    /// What, in a cook's words.
    pub words: String,
    /// Whose.
    pub batch: String,
    /// What sort of thing.
    pub kind: Kind,
    /// When it begins.
    pub begins_min: i32,
    /// How long it lasts.
    pub lasts_min: i32,
}

/// The puzzle and the starts of a plan that was written down; none when it is not one of these batches and wishes.
///
/// A rest that was planned longer or shorter than usual (its own waits did that) is taken as it was planned.
pub fn kept(
    place: &Place<'_>,
    batches: &mut [Batch<'_>],
    serve: &[Serve],
    before: &Before,
) -> Option<(Made, Vec<i32>)> {
    let made = tasks(place, batches, serve);
    let found = starts(batches, &made, before)?;
    for (task, (_, lasts)) in found.iter().enumerate() {
        let about = &made.about[task];
        if made.problem.tasks[task].lasts == *lasts {
            continue;
        }
        let step = steps(batches[about.batch].recipe).nth(about.step)?;
        if !matches!(step.action, Action::Rest { .. }) {
            return None;
        }
        let length = &mut batches[about.batch].lengths[about.step];
        *length = moved(*length, *lasts);
    }
    // Anew with those lengths; the tasks are the same.
    let made = tasks(place, batches, serve);
    let starts: Vec<i32> = found.iter().map(|(start, _)| *start).collect();
    let same =
        (made.problem.tasks.iter().zip(&found)).all(|(task, (_, lasts))| task.lasts == *lasts);
    let breads = super::breads(batches, &made, &starts);
    let mut wanted: Vec<Option<i32>> = breads.iter().map(|bread| bread.wanted).collect();
    let mut was = before.wanted.clone();
    wanted.sort_unstable();
    was.sort_unstable();
    (same && wanted == was).then_some((made, starts))
}

/// Of every task when it begins and how long it lasts, as it is written down; none when one is missing or one too many.
fn starts(batches: &[Batch<'_>], made: &Made, before: &Before) -> Option<Vec<(i32, i32)>> {
    let mut left: Vec<&Was> = before.entries.iter().collect();
    left.sort_by_key(|was| was.begins_min);
    let mut all = Vec::new();
    for about in &made.about {
        let whose = owner(batches, about);
        // What is done twice, folds for one, is laid in its order.
        let place = left.iter().position(|was| {
            was.kind == about.kind && was.words == about.words && was.batch == whose
        })?;
        let was = left.remove(place);
        all.push((was.begins_min, was.lasts_min));
    }
    // Work that no task is belongs to another day, but for what is done at a bake that goes on.
    let work = |was: &&Was| {
        matches!(
            was.kind,
            Kind::Work | Kind::Stands | Kind::Bakes | Kind::Cools
        )
    };
    let at_a_bake = |was: &&Was| {
        let during = |bake: &Was| {
            let ends = bake.begins_min + bake.lasts_min;
            (bake.begins_min..ends).contains(&was.begins_min)
        };
        let own = |bake: &&Was| bake.kind == Kind::Bakes && bake.batch == was.batch;
        was.kind == Kind::Work && before.entries.iter().filter(own).any(during)
    };
    let mut other = left.iter().filter(|was| work(was) && !at_a_bake(was));
    other.next().is_none().then_some(all)
}
