//! What no plan can beat: the longest way through the gaps, work that one pair of hands does, bakes of one oven.

use super::posted::Order;
use super::problem::{Pool, Problem};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// Of so many temperatures at most the shortest order of an oven is looked for.
const MOST_DIALS: usize = 10;

/// What bounds are made from, worked out once for a puzzle.
pub struct Bounds<'a> {
    problem: &'a Problem,
    /// From the start of one task to that of another at least so much; none where nothing ties them.
    ways: Vec<Vec<Option<i32>>>,
    /// No plan starts a task earlier.
    earliest: Vec<i32>,
    /// Bakes by their dials: of each the places in the oven's list.
    dials: Vec<Vec<usize>>,
    /// Changes of temperature from dial to dial.
    changes: Vec<Vec<i32>>,
    /// The least changes for a set of dials, once known.
    known: RefCell<BTreeMap<usize, i32>>,
}

/// Something that takes a machine or hands.
struct Piece {
    /// Its place in the list of its pool or oven.
    place: usize,
    /// It begins so much after the beginning at least.
    from: i32,
    /// After its end at least so much follows.
    then: i32,
}

impl<'a> Bounds<'a> {
    /// Of a puzzle.
    pub fn new(problem: &'a Problem) -> Self {
        Self::in_order(problem, &[])
    }

    /// Of a puzzle in which some orders are kept.
    pub fn in_order(problem: &'a Problem, order: &[Order]) -> Self {
        let dials = dials(problem);
        let oven = &problem.oven;
        let between = |from: &Vec<usize>, to: &Vec<usize>| {
            let all = from
                .iter()
                .flat_map(|one| to.iter().map(|other| oven.apart[*one][*other]));
            all.map(Option::unwrap_or_default).min().unwrap_or(0)
        };
        let changes = dials
            .iter()
            .map(|from| dials.iter().map(|to| between(from, to)).collect())
            .collect();
        Self {
            problem,
            ways: ways(problem, order),
            earliest: earliest(problem),
            dials,
            changes,
            known: RefCell::default(),
        }
    }

    /// At least so much lies from the start of one task to that of another.
    pub fn way(&self, from: usize, to: usize) -> Option<i32> {
        self.ways[from][to]
    }

    /// No plan starts a task earlier.
    pub fn earliest(&self, task: usize) -> i32 {
        self.earliest[task]
    }

    /// No plan has all of some tasks within less.
    pub fn shortest(&self, tasks: &[usize]) -> i32 {
        let lasts = |task: usize| self.problem.tasks[task].lasts;
        let from = |task: usize| {
            let all = tasks.iter().filter_map(|first| self.ways[*first][task]);
            all.max()
        };
        let to = |task: usize| {
            let all = tasks
                .iter()
                .filter_map(|last| Some(self.ways[task][*last]? + lasts(*last)));
            all.max()
        };
        self.within(tasks, &from, &to)
    }

    /// No plan has the last bread without a time ready earlier.
    pub fn soonest(&self) -> i32 {
        let wishes = self.problem.wishes.iter().filter(|wish| wish.by.is_none());
        let ends: Vec<usize> = wishes.map(|wish| wish.task).collect();
        if ends.is_empty() {
            return 0;
        }
        let to = |task: usize| {
            let all = ends
                .iter()
                .filter_map(|end| Some(self.ways[task][*end]? + self.problem.tasks[*end].lasts));
            all.max()
        };
        let tasks: Vec<usize> = (0..self.problem.tasks.len())
            .filter(|task| to(*task).is_some())
            .collect();
        self.within(&tasks, &|task| Some(self.earliest[task]), &to)
    }

    /// From the beginning to the end of what tasks are in: `from` and `to` say how much lies before the
    /// start of a task, and from its start to the end.
    fn within(
        &self,
        tasks: &[usize],
        from: &dyn Fn(usize) -> Option<i32>,
        to: &dyn Fn(usize) -> Option<i32>,
    ) -> i32 {
        let problem = self.problem;
        let way = |task: &usize| Some(from(*task)? + to(*task)?);
        let mut longest = tasks.iter().filter_map(way).max().unwrap_or(0);
        for pool in problem.pools.iter().filter(|pool| pool.capacity > 0) {
            let pieces: Vec<Piece> = pool
                .uses
                .iter()
                .enumerate()
                .filter(|(_, one)| tasks.contains(&one.task) && one.lasts > 0)
                .filter_map(|(place, one)| {
                    Some(Piece {
                        place,
                        from: from(one.task)? + one.after,
                        then: to(one.task)? - one.after - one.lasts,
                    })
                })
                .collect();
            let work = |places: &[usize]| {
                let all = places.iter().map(|place| &pool.uses[*place]);
                let work: i32 = all.map(|one| one.lasts * one.count).sum();
                (work + pool.capacity - 1) / pool.capacity
            };
            longest = longest.max(most(&pieces, &work));
        }
        let pieces: Vec<Piece> = problem
            .oven
            .bakes
            .iter()
            .enumerate()
            .filter(|(_, bake)| tasks.contains(bake))
            .filter_map(|(place, bake)| {
                Some(Piece {
                    place,
                    from: from(*bake)?,
                    then: to(*bake)? - problem.tasks[*bake].lasts,
                })
            })
            .collect();
        longest.max(most(&pieces, &|places| self.baked(places)))
    }

    /// Bakes of one oven take at least so much from the first to the last: those of one dial share its
    /// racks, and between dials it changes.
    fn baked(&self, places: &[usize]) -> i32 {
        let problem = self.problem;
        let bakes = &problem.oven.bakes;
        let racks = problem.pools.iter().find(|pool| holds(pool, bakes));
        let mut set = 0_usize;
        let mut takes = 0;
        for (dial, members) in self.dials.iter().enumerate() {
            let own = members.iter().filter(|place| places.contains(place));
            let lasts = own.clone().map(|place| problem.tasks[bakes[*place]].lasts);
            let Some(longest) = lasts.max() else {
                continue;
            };
            if dial < usize::BITS as usize {
                set |= 1 << dial;
            }
            let shared = racks.map_or(0, |pool| {
                let work: i32 = own
                    .filter_map(|place| pool.uses.iter().find(|one| one.task == bakes[*place]))
                    .map(|one| one.lasts * one.count)
                    .sum();
                (work + pool.capacity - 1) / pool.capacity.max(1)
            });
            takes += longest.max(shared);
        }
        takes + self.changed(set)
    }

    /// The least changes of temperature that visit every dial of a set.
    fn changed(&self, set: usize) -> i32 {
        if self.dials.len() > MOST_DIALS {
            return 0;
        }
        if let Some(known) = self.known.borrow().get(&set) {
            return *known;
        }
        let own: Vec<usize> = (0..self.dials.len())
            .filter(|dial| set & (1 << dial) != 0)
            .collect();
        let ends = own.iter().map(|last| self.order(set, *last));
        let least = ends.min().unwrap_or(0);
        self.known.borrow_mut().insert(set, least);
        least
    }

    /// The least changes that visit a set and end at one of it.
    fn order(&self, set: usize, last: usize) -> i32 {
        let rest = set & !(1 << last);
        let before = (0..self.dials.len()).filter(|dial| rest & (1 << dial) != 0);
        let ways = before.map(|dial| self.order(rest, dial) + self.changes[dial][last]);
        ways.min().unwrap_or(0)
    }
}

/// The most that any part of some pieces asks for: those that begin no earlier and are followed by no less.
fn most(pieces: &[Piece], takes: &dyn Fn(&[usize]) -> i32) -> i32 {
    let mut begins: Vec<i32> = pieces.iter().map(|piece| piece.from).collect();
    let mut ends: Vec<i32> = pieces.iter().map(|piece| piece.then).collect();
    for list in [&mut begins, &mut ends] {
        list.sort_unstable();
        list.dedup();
    }
    let mut longest = 0;
    for from in &begins {
        for then in &ends {
            let own = pieces
                .iter()
                .filter(|piece| piece.from >= *from && piece.then >= *then);
            let places: Vec<usize> = own.map(|piece| piece.place).collect();
            if !places.is_empty() {
                longest = longest.max(from + takes(&places) + then);
            }
        }
    }
    longest
}

/// Whether a pool is that of the oven's racks.
fn holds(pool: &Pool, bakes: &[usize]) -> bool {
    let racked = |bake: &usize| pool.uses.iter().any(|one| one.task == *bake);
    pool.uses.len() == bakes.len() && bakes.iter().all(racked)
}

/// Bakes that may be in the oven at once lie together.
fn dials(problem: &Problem) -> Vec<Vec<usize>> {
    let oven = &problem.oven;
    let mut all: Vec<Vec<usize>> = Vec::new();
    for place in 0..oven.bakes.len() {
        let shares = |members: &&mut Vec<usize>| oven.apart[members[0]][place].is_none();
        match all.iter_mut().find(shares) {
            Some(members) => members.push(place),
            None => all.push(vec![place]),
        }
    }
    all
}

fn ways(problem: &Problem, order: &[Order]) -> Vec<Vec<Option<i32>>> {
    let count = problem.tasks.len();
    let gaps = (problem.gaps.iter()).map(|gap| (gap.from, gap.to, gap.least));
    let kept = order
        .iter()
        .map(|kept| (kept.first, kept.second, kept.least));
    let all: Vec<(usize, usize, i32)> = gaps.chain(kept).collect();
    let from = |first: usize| {
        let mut after: Vec<Option<i32>> = vec![None; count];
        after[first] = Some(0);
        for _ in 0..count {
            let mut still = true;
            for (one, other, least) in &all {
                let Some(from) = after[*one] else {
                    continue;
                };
                let to = from + least;
                if after[*other].is_none_or(|now| now < to) {
                    after[*other] = Some(to);
                    still = false;
                }
            }
            if still {
                break;
            }
        }
        after
    };
    (0..count).map(from).collect()
}

/// Each start as early as gaps and closed hours let it.
fn earliest(problem: &Problem) -> Vec<i32> {
    let mut starts: Vec<i32> = problem.tasks.iter().map(|task| task.earliest).collect();
    for _ in 0..problem.tasks.len() {
        let before = starts.clone();
        for pool in &problem.pools {
            for one in pool.uses.iter().filter(|one| one.lasts > 0) {
                for (from, to) in &pool.closed {
                    let at = starts[one.task] + one.after;
                    if at < *to && *from < at + one.lasts {
                        starts[one.task] = to - one.after;
                    }
                }
            }
        }
        for gap in &problem.gaps {
            starts[gap.to] = starts[gap.to].max(starts[gap.from] + gap.least);
        }
        if before == starts {
            break;
        }
    }
    starts
}

#[cfg(test)]
mod tests {
    use super::Bounds;
    use crate::day::problem::{Gap, Oven, Problem, Task, Wish};

    /// Three bakes of 10, 20 and 30 min at dials that lie 8 and 16 min apart, each after 100 min of rise and
    /// before 40 min of cooling.
    fn three() -> Problem {
        let task = |lasts| Task {
            lasts,
            earliest: 0,
            latest: 1000,
        };
        let mut problem = Problem {
            horizon: 1000,
            ..Problem::default()
        };
        let apart = |from: i32, to: i32| (from != to).then(|| 8 * (from - to).abs());
        for lasts in [10, 20, 30] {
            let first = problem.tasks.len();
            problem.tasks.extend([task(100), task(lasts), task(40)]);
            for (from, least) in [(first, 100), (first + 1, lasts)] {
                problem.gaps.push(Gap {
                    from,
                    to: from + 1,
                    least,
                    best: 500,
                    most: 500,
                });
            }
            problem.wishes.push(Wish {
                task: first + 2,
                by: None,
            });
            problem.oven.bakes.push(first + 1);
        }
        problem.oven = Oven {
            apart: (0..3)
                .map(|from| (0..3).map(|to| apart(from, to)).collect())
                .collect(),
            ..problem.oven
        };
        problem
    }

    #[test]
    fn an_oven_bakes_one_after_another_and_changes_between() {
        let problem = three();
        let bounds = Bounds::new(&problem);
        // By hand: 100 of rise, 60 of bakes, two changes of 8, 40 of cooling.
        assert_eq!(bounds.soonest(), 216);
        assert_eq!(bounds.shortest(&[1, 4, 7]), 76);
        assert_eq!(bounds.way(0, 2), Some(110));
        assert_eq!(bounds.way(0, 5), None);
    }
}
