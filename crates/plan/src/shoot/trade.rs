//! How late a filming day ends with fewer batches: the same scenes in the same order, each as soon as its
//! doughs are ready.
//!
//! The search gives each need to one of so many batches, scene by scene, and begins a scene at the first
//! minute that suits its needs, the scene before it and the meal. It is exact while it stays inside its
//! limit, and keeps the best it has found where it does not.

use super::batch::{Need, alone, apart};
use super::evening::{Way, begin, together, ways_from};
use super::model::Trade;
use super::plan::Inputs;
use super::scenes::{around, wrapped};
use std::cell::Cell;

/// So many nodes for each number of batches.
const MOST: u64 = 20_000;

/// So many rows: those with the fewest batches, and those next to the plan (ours).
const ROWS: usize = 3;

/// A row for each number of batches up to the planned one; of many the first and the last few.
pub fn trade(inputs: &Inputs<'_>, planned: usize, meal: Option<(i64, i64)>) -> Vec<Trade> {
    let wanted: Vec<Vec<usize>> = inputs
        .scenes
        .iter()
        .map(|scene| {
            let of_dough = |at: &&usize| {
                let need = &inputs.needs[**at];
                need.feed.is_empty() && inputs.processes[need.process].dough
            };
            scene.needs.iter().filter(of_dough).copied().collect()
        })
        .collect();
    let last = inputs
        .scenes
        .iter()
        .map(|scene| scene.ends_min)
        .max()
        .unwrap_or(0);
    let as_planned = wrapped(inputs.file, last);
    let count = inputs.needs.len();
    let mut ranges = vec![vec![None; count]; count];
    for one in wanted.iter().flatten() {
        for other in wanted.iter().flatten() {
            let (a, b) = (&inputs.needs[*one], &inputs.needs[*other]);
            let twice = a.scene == b.scene && a.point == b.point && a.works == b.works;
            if one != other && a.process == b.process && !twice {
                ranges[*one][*other] = apart(&inputs.processes[a.process], a, b);
            }
        }
    }
    let single: Vec<Option<(i64, i64)>> = inputs
        .needs
        .iter()
        .map(|need| alone(&inputs.processes[need.process], need).filter(|_| need.feed.is_empty()))
        .collect();
    let mut rows = Vec::new();
    for batches in (1..planned).filter(|count| *count <= ROWS || planned - count <= ROWS) {
        let mut search = Search {
            inputs,
            wanted: &wanted,
            ranges: &ranges,
            single: &single,
            meal,
            batches,
            best: None,
            nodes: 0,
            turned_down: Cell::new(false),
            times: Vec::new(),
            given: Vec::new(),
        };
        search.scene(0, 0);
        rows.push(Trade {
            batches,
            wrap_min: search.best.map(|last| wrapped(inputs.file, last)),
            later_min: search.best.map_or(0, |best| best - last),
            proven: search.nodes <= MOST && !search.turned_down.get(),
        });
    }
    rows.push(Trade {
        batches: planned,
        wrap_min: Some(as_planned),
        later_min: 0,
        proven: true,
    });
    rows
}

struct Search<'a> {
    inputs: &'a Inputs<'a>,
    wanted: &'a [Vec<usize>],
    /// For two needs of one batch, how far their scenes may be apart.
    ranges: &'a [Vec<Option<(i64, i64)>>],
    /// When a batch that serves one need alone can begin, from its scene.
    single: &'a [Option<(i64, i64)>],
    meal: Option<(i64, i64)>,
    batches: usize,
    best: Option<i64>,
    nodes: u64,
    /// Whether scenes were turned down whose doughs begin too early, which might have waited.
    turned_down: Cell<bool>,
    /// Beginnings of the scenes so far.
    times: Vec<i64>,
    /// Needs that were given to batches so far: need, batch.
    given: Vec<(usize, usize)>,
}

impl Search<'_> {
    fn over(&mut self) -> bool {
        self.nodes += 1;
        self.nodes > MOST
    }

    /// When a scene could begin if its doughs did not matter.
    fn free(&self, scene: usize) -> i64 {
        let plan = &self.inputs.scenes[scene];
        let set_up = plan.at_min - plan.set_up_min;
        let lasts = plan.ends_min - plan.at_min;
        match scene.checked_sub(1) {
            None => plan.at_min,
            Some(before) => {
                let other = &self.inputs.scenes[before];
                let ends = self.times[before] + other.ends_min - other.at_min;
                around(ends, set_up, lasts, self.meal).max(plan.at_min)
            }
        }
    }

    /// Gives the needs of a scene to batches, then goes on to the next one.
    fn scene(&mut self, scene: usize, used: usize) {
        if self.over() {
            return;
        }
        let Some(wanted) = self.wanted.get(scene) else {
            self.end();
            return;
        };
        let earliest = self.free(scene);
        // What is left to film takes at least its own minutes.
        let rest: i64 = self.inputs.scenes[scene..]
            .iter()
            .map(|one| one.ends_min - one.at_min)
            .sum();
        if self.best.is_some_and(|best| earliest + rest >= best) {
            return;
        }
        let wanted = wanted.clone();
        self.give(scene, &wanted, used, earliest, i64::MAX);
    }

    fn give(&mut self, scene: usize, wanted: &[usize], used: usize, least: i64, most: i64) {
        if least > most || self.over() {
            return;
        }
        let Some((need, others)) = wanted.split_first() else {
            let plan = &self.inputs.scenes[scene];
            let set_up = plan.at_min - plan.set_up_min;
            let lasts = plan.ends_min - plan.at_min;
            let mut at = least;
            if let Some((from, to)) = self.meal
                && at < to
                && from < at + lasts
            {
                at = to + set_up;
            }
            if at <= most {
                self.times.push(at);
                self.scene(scene + 1, used);
                self.times.pop();
            }
            return;
        };
        let mut tries: Vec<(i64, i64, usize)> = (0..(used + 1).min(self.batches))
            .filter_map(|batch| {
                let (from, to) = self.bounds(*need, batch)?;
                Some((least.max(from), most.min(to), batch))
            })
            .collect();
        tries.sort_unstable();
        for (least, most, batch) in tries {
            self.given.push((*need, batch));
            self.give(scene, others, used.max(batch + 1), least, most);
            self.given.pop();
        }
    }

    /// Minutes at which a batch can serve a need beside those that it serves already.
    fn bounds(&self, need: usize, batch: usize) -> Option<(i64, i64)> {
        let mut range = (i64::MIN / 4, i64::MAX / 4);
        for (other, _) in self.given.iter().filter(|(_, of)| *of == batch) {
            let scene = self.inputs.needs[*other].scene;
            let (least, most) = self.ranges[*other][need]?;
            match self.times.get(scene) {
                Some(at) => range = (range.0.max(at + least), range.1.min(at + most)),
                // Both belong to the scene in hand.
                None if least > 0 || most < 0 => return None,
                None => {}
            }
        }
        Some(range)
    }

    /// Every scene has its minute: the doughs must be mixed too.
    fn end(&mut self) {
        let Some(last) = self.times.len().checked_sub(1) else {
            return;
        };
        let plan = &self.inputs.scenes[last];
        let ends = self.times[last] + plan.ends_min - plan.at_min;
        if self.best.is_some_and(|best| ends >= best) {
            return;
        }
        let ways: Vec<Vec<Way>> = (0..self.batches)
            .filter(|batch| self.given.iter().any(|(_, of)| of == batch))
            .map(|batch| self.ways(batch))
            .collect();
        let stock = self.inputs.stock;
        let processes = self.inputs.processes;
        if begin(processes, &ways, stock.mixers, true, &self.turned_down).is_some() {
            self.best = Some(ends);
        } else if stock.work_from.is_some() {
            self.turned_down.set(true);
        }
    }

    /// The ways in which a batch can begin for what it was given.
    fn ways(&self, batch: usize) -> Vec<Way> {
        let members = self.given.iter().filter(|(_, of)| *of == batch);
        let own: Vec<Vec<Way>> = members
            .map(|(at, _)| {
                let need = &self.inputs.needs[*at];
                let need = Need {
                    at_min: self.times[need.scene],
                    ..need.clone()
                };
                let work_from = self.inputs.stock.work_from;
                ways_from(self.inputs.processes, &need, self.single[*at], work_from)
            })
            .collect();
        together(&own.iter().collect::<Vec<_>>())
    }
}
