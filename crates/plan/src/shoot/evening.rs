//! Doughs that stand in the cold overnight: begun the evening before, worked again from the morning on.
//!
//! Where work of the day has an hour before which it does not begin, a batch can begin in two ways: after
//! that hour, or so early that a long stand in the cold has begun by midnight, and ends no sooner than that
//! hour. The second is the same process with two bounds on the clock.

use super::batch::{Need, alone, overlap, window};
use super::process::{Doing, Night, Process};
use super::starts::{Wants, can_start, starts};
use std::cell::Cell;

/// A stand in the cold that is as long carries a dough over the night (ours), minutes.
pub const STANDS_MIN: i64 = 240;

/// So many ways to begin are tried for the batches of one parting (ours).
const MOST_TRIED: usize = 64;

/// A way to begin: the process with its bounds, and the minutes at which it can begin.
pub type Way = (usize, (i64, i64));

/// Every dough once more, as begun the evening before: for each stand in the cold that is long enough and
/// has none before it.
pub fn evenings(processes: &[Process], from_min: i64) -> Vec<Process> {
    let long = |process: &Process, run: usize| {
        let run = &process.runs[run];
        matches!(run.what, Doing::Stands { cold: true, .. }) && run.takes_min >= STANDS_MIN
    };
    let mut all = Vec::new();
    for process in processes.iter().filter(|process| process.dough) {
        for (nth, run) in process.runs.iter().enumerate() {
            let sooner = (0..process.runs.len())
                .any(|one| long(process, one) && leads(process, process.runs[one].to, run.from));
            if long(process, nth) && !sooner {
                all.push(Process {
                    night: Some(Night {
                        into: run.from,
                        until: run.to,
                        from_min,
                    }),
                    ..process.clone()
                });
            }
        }
    }
    all
}

/// Whether a point lies on the way to another, or is the same.
fn leads(process: &Process, first: usize, then: usize) -> bool {
    let mut at = then;
    loop {
        if at == first {
            return true;
        }
        match process.runs.iter().find(|run| run.to == at) {
            Some(run) => at = run.from,
            None => return false,
        }
    }
}

/// The processes begun the evening before that can come to a point of this one, with their places.
pub fn of<'a>(
    processes: &'a [Process],
    whole: &'a Process,
    point: usize,
) -> impl Iterator<Item = (usize, &'a Process)> {
    processes.iter().enumerate().filter(move |(_, process)| {
        let after = |night: &Night| leads(process, night.until, point);
        process.of == whole.of && process.night.as_ref().is_some_and(after)
    })
}

/// The ways in which one batch can begin that serves all of these needs.
pub fn together(all: &[&Vec<Way>]) -> Vec<Way> {
    let Some((first, others)) = all.split_first() else {
        return Vec::new();
    };
    first
        .iter()
        .filter_map(|(process, window)| {
            let mut windows = vec![(0, *window)];
            for other in others {
                windows.push((0, other.iter().find(|(of, _)| of == process)?.1));
            }
            Some((*process, overlap(windows, None)?))
        })
        .collect()
}

/// A way for each batch, and the starts of all.
pub struct Begun {
    /// The way that is taken.
    pub ways: Vec<Way>,
    /// Its start.
    pub starts: Vec<i64>,
}

/// Begins batches of which each has its ways, on the day where mixers allow it: the first choice that can be.
/// `cut` is set where none was found and not every choice was tried.
pub fn begin(
    processes: &[Process],
    ways: &[Vec<Way>],
    mixers: usize,
    whether: bool,
    cut: &Cell<bool>,
) -> Option<Begun> {
    if ways.iter().any(Vec::is_empty) {
        return None;
    }
    let mut choice = vec![0; ways.len()];
    for _ in 0..MOST_TRIED {
        let taken: Vec<Way> = choice
            .iter()
            .zip(ways)
            .map(|(at, ways)| ways[*at])
            .collect();
        let wants: Vec<Wants> = taken
            .iter()
            .map(|(process, window)| Wants {
                window: *window,
                mixes_min: processes[*process].mixer_min.unwrap_or(0),
            })
            .collect();
        let found = if whether {
            can_start(&wants, mixers).then(Vec::new)
        } else {
            starts(&wants, mixers)
        };
        if let Some(starts) = found {
            return Some(Begun {
                ways: taken,
                starts,
            });
        }
        // The next choice, as a number is counted up.
        let next = (0..ways.len()).find(|at| choice[*at] + 1 < ways[*at].len())?;
        choice[..next].fill(0);
        choice[next] += 1;
    }
    cut.set(true);
    None
}

/// The ways in which a batch can begin that serves one need alone at its minute.
pub fn ways(processes: &[Process], need: &Need, not_before: Option<i64>) -> Vec<Way> {
    ways_from(
        processes,
        need,
        alone(&processes[need.process], need),
        not_before,
    )
}

/// The same, where it is known how long before its scene a batch begins that has no bounds on the clock.
pub fn ways_from(
    processes: &[Process],
    need: &Need,
    before: Option<(i64, i64)>,
    not_before: Option<i64>,
) -> Vec<Way> {
    let day = before.and_then(|window| overlap([(need.at_min, window)], not_before));
    let evening = of(processes, &processes[need.process], need.point)
        .filter_map(|(at, process)| Some((at, window(process, &[need], None)?)));
    day.map(|window| (need.process, window))
        .into_iter()
        .chain(evening)
        .collect()
}
