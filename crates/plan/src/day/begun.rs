//! A day that has begun: the plan of it so far, and one that begins before its hour.

use super::before;
use super::rounds::{Planned, planned};
use super::slip::Now;
use super::solve::{AtOnce, Budget, Solved};
use super::tasks::{Batch, Made, Place};
use super::{Asked, Bread};
use crate::timetable::clock;

/// The plan before, of a day that has begun.
pub struct SoFar {
    /// The puzzle.
    pub made: Made,
    /// The plan.
    pub starts: Vec<i32>,
    /// Whether it was written down, and not worked out anew.
    pub kept: bool,
}

/// The plan of a day that has begun as it was: as it was written down, otherwise as it would be planned.
pub fn so_far<'a>(
    asked: &Asked<'a>,
    place: &Place<'a>,
    batches: &mut [Batch<'a>],
    budget: &mut Budget<'_>,
    at_once: Option<&AtOnce<'_>>,
) -> Option<SoFar> {
    let written = asked.before.as_ref();
    let mut own = batches.to_vec();
    if let Some((made, starts)) =
        written.and_then(|before| before::kept(place, &mut own, &asked.serve, before))
    {
        return Some(SoFar {
            made,
            starts,
            kept: true,
        });
    }
    let mut half = || budget() * 2.0;
    let Planned { made, solved, .. } =
        planned(asked, place, batches, None, &mut half, at_once).ok()?;
    Some(SoFar {
        made,
        starts: solved.starts,
        kept: false,
    })
}

/// What is asked, counted from the moment that it is, when that is before the day's beginning; and by how many minutes
/// it is.
pub fn sooner<'a>(asked: &Asked<'a>) -> Option<(Asked<'a>, i32)> {
    let now = asked.now.as_ref().filter(|now| now.minute < 0)?;
    let ahead = -now.minute;
    let mut on = asked.clone();
    on.starts = clock(asked.starts, asked.zone, now.minute.into());
    on.serve.iter_mut().for_each(|serve| serve.by += ahead);
    on.now = Some(Now {
        minute: 0,
        ..now.clone()
    });
    on.before = None;
    Some((on, ahead))
}

/// A plan that was counted from so many minutes before the day's beginning, counted from that beginning again.
pub fn by_its_hour(ahead: i32, solved: &mut Solved, breads: &mut [Bread]) {
    if ahead == 0 {
        return;
    }
    solved.starts.iter_mut().for_each(|start| *start -= ahead);
    if breads.iter().any(|bread| bread.wanted.is_none()) {
        solved.cost.last -= ahead;
        solved.bound[LAST] -= ahead;
    }
    for bread in breads {
        bread.into -= ahead;
        bread.out -= ahead;
        bread.ready -= ahead;
        bread.wanted = bread.wanted.map(|wanted| wanted - ahead);
    }
}

/// The place of the last bread among what a plan is weighed by.
const LAST: usize = 3;
