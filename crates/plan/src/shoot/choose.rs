//! From needs to batches: the fewest, and among plans with the fewest the one whose doughs wait least.

use super::batch::{Need, fits};
use super::evening::{Begun, Way, begin, together, ways};
use super::fewest::{Fewest, Limits, Parting, clique, fewest};
use super::process::Process;
use super::starts::{Wants, has_room};
use std::cell::Cell;

/// How far the search for the fewest goes: some seconds at most.
const LIMITS: Limits = Limits {
    nodes: 200_000,
    partings: 300,
};

/// So many partings are planned through, those that wait least first.
pub const PLANNED: usize = 12;

/// Batches of one parting: which needs each serves, when it may begin and when it does.
#[derive(Clone, Debug, PartialEq)]
pub struct Chosen {
    /// Process and places of the needs.
    pub groups: Vec<(usize, Vec<usize>)>,
    /// Windows of their starts.
    pub windows: Vec<(i64, i64)>,
    /// Their starts.
    pub starts: Vec<i64>,
    /// Minutes that doughs wait for scenes, in all.
    pub waits_min: i64,
}

/// What was found.
pub struct Found {
    /// Plans with the fewest batches, those that wait least first.
    pub plans: Vec<Chosen>,
    /// Whether fewer were ruled out.
    pub proven: bool,
    /// Nodes of the search.
    pub looked_at: u64,
}

/// The fewest batches for the needs of doughs. None when not even one batch a need can do, because the
/// mixers do not come by.
pub fn choose(
    processes: &[Process],
    needs: &[Need],
    mixers: usize,
    not_before: Option<i64>,
) -> Option<Found> {
    let wanted: Vec<usize> = (0..needs.len())
        .filter(|at| processes[needs[*at].process].dough && needs[*at].feed.is_empty())
        .collect();
    let mut pairs = vec![vec![false; wanted.len()]; wanted.len()];
    for a in 0..wanted.len() {
        for b in 0..a {
            let clash = conflicts(processes, &needs[wanted[a]], &needs[wanted[b]]);
            (pairs[a][b], pairs[b][a]) = (clash, clash);
        }
    }
    let ways: Vec<Vec<Way>> = needs
        .iter()
        .enumerate()
        .map(|(at, need)| {
            if wanted.contains(&at) {
                ways(processes, need, not_before)
            } else {
                Vec::new()
            }
        })
        .collect();
    for a in 0..wanted.len() {
        for b in 0..a {
            // One begins on the day only, the other the evening before only.
            if together(&[&ways[wanted[a]], &ways[wanted[b]]]).is_empty() {
                (pairs[a][b], pairs[b][a]) = (true, true);
            }
        }
    }
    let conflict = |a: usize, b: usize| pairs[a][b];
    // Needs that all want a batch of their own: when their own windows leave the mixers no room, no parting does.
    let apart: Option<Vec<Wants>> = clique(&pairs)
        .into_iter()
        .map(|at| {
            let need = wanted[at];
            let from = ways[need].iter().map(|(_, window)| window.0).min()?;
            let to = ways[need].iter().map(|(_, window)| window.1).max()?;
            Some(Wants {
                window: (from, to),
                mixes_min: processes[needs[need].process].mixer_min.unwrap_or(0),
            })
        })
        .collect();
    if !apart.is_some_and(|apart| has_room(&apart, mixers)) {
        return None;
    }
    let cut = Cell::new(false);
    let begun = |groups: &[Vec<usize>], whether: bool| {
        let of = |members: &Vec<usize>| {
            let own: Vec<&Vec<Way>> = members.iter().map(|need| &ways[*need]).collect();
            together(&own)
        };
        let all: Vec<Vec<Way>> = groups.iter().map(of).collect();
        begin(processes, &all, mixers, whether, &cut)
    };
    let bears = |parting: &Parting| begun(&groups(&wanted, parting), true).is_some();
    let Fewest {
        partings,
        proven,
        looked_at,
        ..
    } = fewest(wanted.len(), &conflict, &bears, LIMITS)?;
    // What was turned down without every way being tried rules nothing out.
    let proven = proven && !cut.get();
    let mut plans: Vec<Chosen> = partings
        .iter()
        .filter_map(|parting| {
            let groups = groups(&wanted, parting);
            let begun = begun(&groups, false)?;
            Some(planned(processes, needs, &groups, &begun))
        })
        .collect();
    plans.sort_by_key(|plan| plan.waits_min);
    plans.truncate(PLANNED);
    Some(Found {
        plans,
        proven,
        looked_at,
    })
}

/// Whether two needs cannot come from one batch: another dough, minutes that do not go together, or two of
/// one state in one scene.
pub fn conflicts(processes: &[Process], one: &Need, other: &Need) -> bool {
    one.process != other.process
        || (one.scene == other.scene && one.point == other.point && one.works == other.works)
        || !fits(&processes[one.process], one, other)
}

fn groups(wanted: &[usize], parting: &Parting) -> Vec<Vec<usize>> {
    let count = parting.iter().map(|group| group + 1).max().unwrap_or(0);
    (0..count)
        .map(|group| {
            let of = wanted.iter().zip(parting);
            of.filter(|(_, of)| **of == group)
                .map(|(need, _)| *need)
                .collect()
        })
        .collect()
}

fn planned(processes: &[Process], needs: &[Need], members: &[Vec<usize>], begun: &Begun) -> Chosen {
    let mut order: Vec<usize> = (0..members.len()).collect();
    order.sort_by_key(|at| (begun.starts[*at], members[*at].first().copied()));
    let starts: Vec<i64> = order.iter().map(|at| begun.starts[*at]).collect();
    let windows = order.iter().map(|at| begun.ways[*at].1).collect();
    let groups: Vec<(usize, Vec<usize>)> = order
        .iter()
        .map(|at| (begun.ways[*at].0, members[*at].clone()))
        .collect();
    let waits_min = groups
        .iter()
        .zip(&starts)
        .flat_map(|((process, members), start)| {
            members.iter().map(move |need| {
                let need = &needs[*need];
                need.at_min - start - processes[*process].points[need.point].age_min
            })
        })
        .sum();
    Chosen {
        groups,
        windows,
        starts,
        waits_min,
    }
}
