//! From needs to batches: the fewest, and among plans with the fewest the one whose doughs wait least.

use super::batch::{Need, alone, fits, overlap};
use super::fewest::{Fewest, Limits, Parting, clique, fewest};
use super::process::Process;
use super::starts::{Wants, can_start, has_room, starts};

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
    let conflict = |a: usize, b: usize| pairs[a][b];
    let single: Vec<Option<(i64, i64)>> = needs
        .iter()
        .enumerate()
        .map(|(at, need)| {
            let asked = wanted.contains(&at);
            asked.then(|| alone(&processes[need.process], need))?
        })
        .collect();
    // Needs that all want a batch of their own: when their own windows leave the mixers no room, no parting does.
    let apart: Option<Vec<Wants>> = clique(&pairs)
        .into_iter()
        .map(|at| {
            let need = &needs[wanted[at]];
            Some(Wants {
                window: overlap([(need.at_min, single[wanted[at]]?)], not_before)?,
                mixes_min: processes[need.process].mixer_min.unwrap_or(0),
            })
        })
        .collect();
    if !apart.is_some_and(|apart| has_room(&apart, mixers)) {
        return None;
    }
    let bears = |parting: &Parting| {
        let groups = groups(&wanted, needs, parting);
        let windows = windows(&single, needs, &groups, not_before);
        windows.is_some_and(|windows| can_start(&wants(processes, &groups, &windows), mixers))
    };
    let Fewest {
        partings,
        proven,
        looked_at,
        ..
    } = fewest(wanted.len(), &conflict, &bears, LIMITS)?;
    let mut plans: Vec<Chosen> = partings
        .iter()
        .filter_map(|parting| {
            let groups = groups(&wanted, needs, parting);
            let windows = windows(&single, needs, &groups, not_before)?;
            planned(processes, needs, groups, &windows, mixers)
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

fn groups(wanted: &[usize], needs: &[Need], parting: &Parting) -> Vec<(usize, Vec<usize>)> {
    let count = parting.iter().map(|group| group + 1).max().unwrap_or(0);
    (0..count)
        .map(|group| {
            let members: Vec<usize> = wanted
                .iter()
                .zip(parting)
                .filter(|(_, of)| **of == group)
                .map(|(need, _)| *need)
                .collect();
            (
                members.first().map_or(0, |need| needs[*need].process),
                members,
            )
        })
        .collect()
}

/// When each group can begin: where the windows of its needs overlap, which go together two by two.
fn windows(
    single: &[Option<(i64, i64)>],
    needs: &[Need],
    groups: &[(usize, Vec<usize>)],
    not_before: Option<i64>,
) -> Option<Vec<(i64, i64)>> {
    let of = |members: &Vec<usize>| {
        let own: Option<Vec<(i64, (i64, i64))>> = members
            .iter()
            .map(|need| Some((needs[*need].at_min, single[*need]?)))
            .collect();
        overlap(own?, not_before)
    };
    groups.iter().map(|(_, members)| of(members)).collect()
}

fn wants(
    processes: &[Process],
    groups: &[(usize, Vec<usize>)],
    windows: &[(i64, i64)],
) -> Vec<Wants> {
    groups
        .iter()
        .zip(windows)
        .map(|((process, _), window)| Wants {
            window: *window,
            mixes_min: processes[*process].mixer_min.unwrap_or(0),
        })
        .collect()
}

fn planned(
    processes: &[Process],
    needs: &[Need],
    mut groups: Vec<(usize, Vec<usize>)>,
    found: &[(i64, i64)],
    mixers: usize,
) -> Option<Chosen> {
    let begun = starts(&wants(processes, &groups, found), mixers)?;
    let mut order: Vec<usize> = (0..groups.len()).collect();
    order.sort_by_key(|at| (begun[*at], groups[*at].1.first().copied()));
    let starts: Vec<i64> = order.iter().map(|at| begun[*at]).collect();
    let windows = order.iter().map(|at| found[*at]).collect();
    groups = order.iter().map(|at| groups[*at].clone()).collect();
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
    Some(Chosen {
        groups,
        windows,
        starts,
        waits_min,
    })
}
