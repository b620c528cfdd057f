//! When not everything that is wanted can be had: the fewest wishes that already stand in each other's way.

use super::problem::{FRESH_MIN, Problem};
use super::search;
use super::solve::Budget;
use super::tasks::{Batch, Place, Serve, tasks};

/// Something that is wanted of a day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Want {
    /// A bread by its time, by its place among those asked for.
    Served(usize),
    /// The hours in which nobody works.
    Quiet,
    /// The breaks.
    Breaks,
    /// No dough past its best, and no bread of the day before.
    Best,
}

/// So many sets of wishes are tried at most.
const MOST_SETS: usize = 300;

/// The fewest wishes that cannot all be had; empty when there is none or the budget was gone first.
///
/// All sets of one wish are tried before those of two, and so on, so that the set is the smallest there is.
pub fn smallest(
    place: &Place<'_>,
    batches: &[Batch<'_>],
    serve: &[Serve],
    budget: &mut Budget<'_>,
) -> Vec<Want> {
    let mut wants: Vec<Want> = (0..serve.len()).map(Want::Served).collect();
    if !place.means.quiet.is_empty() {
        wants.push(Want::Quiet);
    }
    if !place.means.breaks.is_empty() {
        wants.push(Want::Breaks);
    }
    wants.push(Want::Best);
    let mut tried = 0;
    for size in 1..=wants.len() {
        for set in sets(wants.len(), size) {
            tried += 1;
            if tried > MOST_SETS || budget() >= 1.0 {
                return Vec::new();
            }
            let chosen: Vec<Want> = set.iter().map(|at| wants[*at].clone()).collect();
            let problem = strict(place, batches, serve, &chosen);
            if search::can(&problem, budget) == Some(false) {
                return chosen;
            }
        }
    }
    Vec::new()
}

/// Every set of so many out of so many, in order.
fn sets(of: usize, size: usize) -> Vec<Vec<usize>> {
    let mut all = Vec::new();
    let mut set: Vec<usize> = (0..size).collect();
    loop {
        all.push(set.clone());
        let Some(at) = (0..size).rev().find(|at| set[*at] < of - size + at) else {
            return all;
        };
        set[at] += 1;
        for next in at + 1..size {
            set[next] = set[next - 1] + 1;
        }
        if all.len() > MOST_SETS {
            return all;
        }
    }
}

/// The puzzle in which the chosen wishes must be met and the others count for nothing.
fn strict(place: &Place<'_>, batches: &[Batch<'_>], serve: &[Serve], chosen: &[Want]) -> Problem {
    let mut means = place.means.clone();
    if !chosen.contains(&Want::Quiet) {
        means.quiet.clear();
    }
    if !chosen.contains(&Want::Breaks) {
        means.breaks.clear();
    }
    let served: Vec<Serve> = serve
        .iter()
        .enumerate()
        .filter(|(at, _)| chosen.contains(&Want::Served(*at)))
        .map(|(_, one)| one.clone())
        .collect();
    let place = Place {
        means: &means,
        ..place.clone()
    };
    let mut problem = tasks(&place, batches, &served).problem;
    for wish in &problem.wishes {
        if let Some(by) = wish.by {
            let task = &mut problem.tasks[wish.task];
            task.latest = task.latest.min(by - task.lasts);
        }
    }
    if chosen.contains(&Want::Best) {
        for gap in &mut problem.gaps {
            gap.most = gap.most.min(gap.best);
        }
        for wish in &problem.wishes {
            if let Some(by) = wish.by {
                let task = &mut problem.tasks[wish.task];
                task.earliest = task.earliest.max(by - FRESH_MIN - task.lasts);
            }
        }
    }
    problem
}

#[cfg(test)]
mod tests {
    use super::sets;

    #[test]
    fn every_set_comes_once() {
        assert_eq!(sets(4, 2).len(), 6);
        assert_eq!(sets(3, 3), vec![vec![0, 1, 2]]);
        assert_eq!(sets(3, 1), vec![vec![0], vec![1], vec![2]]);
    }
}
