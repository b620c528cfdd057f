//! The fewest groups of needs such that all of a group can come from one batch: exact, and told whether proven.
//!
//! Which needs a batch can serve is decided pair by pair: its times form a tree, every scene ties one of
//! them to the clock, and a circle of inequalities that has no solution passes the clock once and so holds
//! two scenes at most. What is left is to part a graph into the fewest parts without a conflict. Along one
//! process this is a least cover by paths; across products it is a colouring, searched by branch and bound.

/// A parting into groups: for each need the number of its group.
pub type Parting = Vec<usize>;

/// What the search found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fewest {
    /// How many groups.
    pub count: usize,
    /// Partings with so many groups, at most as many as were asked for.
    pub partings: Vec<Parting>,
    /// Whether every parting into fewer groups was ruled out.
    pub proven: bool,
    /// Nodes looked at: counted, not timed.
    pub looked_at: u64,
}

/// How far the search goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// Nodes for each number of groups that is tried.
    pub nodes: u64,
    /// Partings that are collected.
    pub partings: usize,
}

/// The fewest groups of `count` needs in which no two conflict and which `bears` accepts as a whole.
pub fn fewest(
    count: usize,
    conflict: &dyn Fn(usize, usize) -> bool,
    bears: &dyn Fn(&Parting) -> bool,
    limits: Limits,
) -> Option<Fewest> {
    if count == 0 {
        return Some(Fewest {
            count: 0,
            partings: vec![Vec::new()],
            proven: true,
            looked_at: 0,
        });
    }
    let conflicts: Vec<Vec<bool>> = (0..count)
        .map(|a| (0..count).map(|b| a != b && conflict(a, b)).collect())
        .collect();
    let (order, clique) = order(&conflicts);
    let mut search = Search {
        conflicts: &conflicts,
        order: &order,
        bears,
        limits,
        looked_at: 0,
        at_level: 0,
        found: Vec::new(),
        cut: false,
    };
    let mut proven = true;
    for groups in clique.max(1)..=count {
        search.cut = false;
        search.at_level = 0;
        let mut parting = vec![usize::MAX; count];
        search.place(0, 0, groups, &mut parting);
        if !search.found.is_empty() {
            return Some(Fewest {
                count: groups,
                partings: search.found,
                proven,
                looked_at: search.looked_at,
            });
        }
        // A level that was left early rules nothing out.
        proven &= !search.cut;
    }
    None
}

/// Needs of which no two can come from one batch, as many as a greedy search finds.
pub fn clique(conflicts: &[Vec<bool>]) -> Vec<usize> {
    let (mut order, count) = order(conflicts);
    order.truncate(count);
    order
}

/// The order in which needs are placed, and a set of needs that all conflict, which no parting can do with
/// less than: the largest that a greedy search finds from each need.
fn order(conflicts: &[Vec<bool>]) -> (Vec<usize>, usize) {
    let count = conflicts.len();
    let degree = |a: usize| conflicts[a].iter().filter(|c| **c).count();
    let mut best: Vec<usize> = Vec::new();
    for first in 0..count {
        let mut clique = vec![first];
        let mut rest: Vec<usize> = (0..count).filter(|b| conflicts[first][*b]).collect();
        while let Some(next) = rest.iter().copied().max_by_key(|a| {
            (
                rest.iter().filter(|b| conflicts[*a][**b]).count(),
                usize::MAX - a,
            )
        }) {
            clique.push(next);
            rest.retain(|b| conflicts[next][*b]);
        }
        if clique.len() > best.len() {
            best = clique;
        }
    }
    let mut order = best.clone();
    let mut rest: Vec<usize> = (0..count).filter(|a| !best.contains(a)).collect();
    rest.sort_by_key(|a| (usize::MAX - degree(*a), *a));
    order.extend(rest);
    (order, best.len())
}

struct Search<'a> {
    conflicts: &'a [Vec<bool>],
    order: &'a [usize],
    bears: &'a dyn Fn(&Parting) -> bool,
    limits: Limits,
    looked_at: u64,
    at_level: u64,
    found: Vec<Parting>,
    cut: bool,
}

impl Search<'_> {
    /// Places the needs from `nth` on, with `used` of `groups` groups in use.
    fn place(&mut self, nth: usize, used: usize, groups: usize, parting: &mut Parting) {
        if self.found.len() >= self.limits.partings || self.cut {
            return;
        }
        self.looked_at += 1;
        self.at_level += 1;
        if self.at_level > self.limits.nodes {
            self.cut = true;
            return;
        }
        let Some(&need) = self.order.get(nth) else {
            if (self.bears)(parting) {
                self.found.push(parting.clone());
            }
            return;
        };
        for group in 0..(used + 1).min(groups) {
            let clashes = |other: &usize| parting[*other] == group && self.conflicts[need][*other];
            if self.order[..nth].iter().any(clashes) {
                continue;
            }
            parting[need] = group;
            self.place(nth + 1, used.max(group + 1), groups, parting);
            parting[need] = usize::MAX;
        }
    }
}
