//! What is moved when other orders of a plan are tried: who comes first at the hands, in the oven, which dough before which.
//!
//! Mostly two are turned round whose order holds the plan back: what flows through their tie says so, as the longest
//! way does in a job shop. Orders that cannot be together afterwards are turned round for what was moved, always on in
//! its direction, so that this comes to an end.

use super::chance::Chance;
use super::groups::groups;
use super::problem::{Gap, Problem};
use super::ties::Pull;

/// Things are moved by less than two to this power, minutes (ours).
const POWERS: u64 = 9;
/// Two bakes that are turned round are so many places apart at most (ours).
const FAR: usize = 4;

/// Moves tasks of one puzzle.
#[derive(Debug)]
pub struct Turns<'a> {
    problem: &'a Problem,
    groups: Vec<Vec<usize>>,
    /// Of every task its group.
    of: Vec<usize>,
    /// Tasks that follow one another without a fork.
    branches: Vec<Vec<usize>>,
    /// Of every task itself and all that follows it.
    after: Vec<Vec<usize>>,
    /// Of every task the gaps before and after it.
    gaps: Vec<Vec<Gap>>,
    line: Vec<usize>,
    /// Of every group where it was moved last.
    moved: Vec<Option<Way>>,
    ring: Vec<Pull>,
}

/// Where something was moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    Earlier,
    Later,
}

impl Way {
    const fn by(minutes: i32) -> Self {
        if minutes > 0 {
            Self::Later
        } else {
            Self::Earlier
        }
    }
}

impl<'a> Turns<'a> {
    /// Of a puzzle.
    pub fn new(problem: &'a Problem) -> Self {
        let mut gaps = vec![Vec::new(); problem.tasks.len()];
        for gap in &problem.gaps {
            gaps[gap.from].push(*gap);
            gaps[gap.to].push(*gap);
        }
        let groups = groups(problem);
        let mut of = vec![0; problem.tasks.len()];
        for (group, tasks) in groups.iter().enumerate() {
            for task in tasks {
                of[*task] = group;
            }
        }
        Self {
            problem,
            moved: vec![None; groups.len()],
            of,
            branches: branches(problem),
            after: after(problem),
            groups,
            gaps,
            line: Vec::new(),
            ring: Vec::new(),
        }
    }

    /// A dough comes before or after another one in the oven, or the two change places.
    pub fn jump(&mut self, starts: &mut [i32], chance: &mut Chance) {
        let bakes = |tasks: &[usize]| {
            let bakes = tasks
                .iter()
                .filter(|task| self.problem.oven.bakes.contains(task));
            let from = bakes.clone().map(|task| starts[*task]).min();
            let to = bakes.map(|task| self.problem.ends(*task, starts)).max();
            (from.unwrap_or(0), to.unwrap_or(0))
        };
        let (one, other) = chance.pair(self.groups.len());
        let (a, b) = (bakes(&self.groups[one]), bakes(&self.groups[other]));
        let (by, others) = match chance.below(3) {
            0 => (b.1 - a.0, 0),
            1 => (b.0 - a.1, 0),
            _ if a.0 < b.0 => (b.1 - a.1, a.0 - b.0),
            _ => (b.0 - a.0, a.1 - b.1),
        };
        self.moved.fill(None);
        self.shift(starts, one, by);
        if others != 0 {
            self.shift(starts, other, others);
        }
    }

    /// Turns one order round of those that cannot be together, for a dough that was moved; not where none is its own or
    /// it may not lie there.
    pub fn mend(&mut self, starts: &mut [i32], ring: &[Pull], chance: &mut Chance) -> bool {
        let later = |task: usize| self.moved[self.of[task]] == Some(Way::Later);
        let earlier = |task: usize| self.moved[self.of[task]] == Some(Way::Earlier);
        let own = |pull: &Pull| self.of[pull.first] == self.of[pull.second];
        self.ring.clear();
        let to_others = ring.iter().filter(|pull| !own(pull));
        let to_others = to_others.filter(|pull| later(pull.first) || earlier(pull.second));
        self.ring.extend(to_others);
        if self.ring.is_empty() {
            let of_itself = ring.iter().filter(|pull| own(pull));
            let of_itself = of_itself.filter(|pull| self.moved[self.of[pull.first]].is_some());
            self.ring.extend(of_itself);
        }
        if self.ring.is_empty() {
            return false;
        }
        let Pull { first, second } = self.ring[chance.of(self.ring.len())];
        if later(first) {
            self.past(starts, first, second)
        } else {
            self.push(
                starts,
                second,
                starts[first] - self.problem.tasks[second].lasts,
            )
        }
    }

    /// A task comes after another.
    fn past(&mut self, starts: &mut [i32], task: usize, other: usize) -> bool {
        let lasts = |task: usize| self.problem.tasks[task].lasts;
        let to = starts[other] + lasts(other).max(lasts(task));
        self.push(starts, task, to)
    }

    /// A whole group moves.
    fn shift(&mut self, starts: &mut [i32], group: usize, by: i32) {
        self.moved[group] = Some(Way::by(by));
        shift(starts, &self.groups[group], by);
    }

    /// Moves something; whether it could.
    pub fn turn(&mut self, starts: &mut [i32], pulls: &[Pull], chance: &mut Chance) -> bool {
        self.moved.fill(None);
        match chance.below(15) {
            0..=3 if !pulls.is_empty() => {
                let pull = pulls[chance.of(pulls.len())];
                return self.turned(starts, pull.first, pull.second, chance);
            }
            0..=5 => return self.neighbours(starts, chance),
            6 => return self.bakes(starts, chance),
            7..=8 => {
                let task = chance.of(starts.len());
                let by = by(chance);
                self.moved[self.of[task]] = Some(Way::by(by));
                let to = starts[task] + by;
                return self.push(starts, task, to);
            }
            9 => {
                let pair = chance.pair(self.branches.len());
                let (one, other) = (&self.branches[pair.0], &self.branches[pair.1]);
                let by = first(other, starts) - first(one, starts);
                shift(starts, one, by);
                shift(starts, other, -by);
                let (one, other) = (self.of[one[0]], self.of[other[0]]);
                self.exchanged(one, other, chance);
            }
            10..=11 => {
                let task = chance.of(self.after.len());
                let by = by(chance);
                self.moved[self.of[task]] = Some(Way::by(by));
                shift(starts, &self.after[task], by);
            }
            12..=13 => {
                let group = chance.of(self.groups.len());
                self.shift(starts, group, by(chance));
            }
            _ => {
                let (one, other) = chance.pair(self.groups.len());
                let by = first(&self.groups[other], starts) - first(&self.groups[one], starts);
                self.shift(starts, one, by);
                self.shift(starts, other, -by);
                self.exchanged(one, other, chance);
            }
        }
        true
    }

    /// Two groups have changed places; which of them is mended which way is left to chance.
    fn exchanged(&mut self, one: usize, other: usize, chance: &mut Chance) {
        let ways = if chance.below(2) == 0 {
            [Way::Later, Way::Earlier]
        } else {
            [Way::Earlier, Way::Later]
        };
        [self.moved[one], self.moved[other]] = ways.map(Some);
    }

    /// Of two tasks the second comes first: both change, or one passes the other.
    fn turned(
        &mut self,
        starts: &mut [i32],
        first: usize,
        second: usize,
        chance: &mut Chance,
    ) -> bool {
        if first == second {
            return false;
        }
        let (at, of_second) = (starts[first], self.problem.tasks[second].lasts);
        let how = chance.below(3);
        if how != 1 {
            self.moved[self.of[first]] = Some(Way::Later);
        }
        if how != 2 {
            self.moved[self.of[second]] = Some(Way::Earlier);
        }
        match how {
            0 => {
                self.push(starts, second, at) && {
                    let after = starts[second] + of_second;
                    self.push(starts, first, after)
                }
            }
            1 => self.push(starts, second, at - of_second),
            _ => self.past(starts, first, second),
        }
    }

    /// Of two that hands or a machine do one after the other, the second comes first.
    fn neighbours(&mut self, starts: &mut [i32], chance: &mut Chance) -> bool {
        let pools = &self.problem.pools;
        if pools.is_empty() {
            return false;
        }
        let pool = &pools[chance.of(pools.len())];
        let mut uses: Vec<_> = pool.uses.iter().filter(|one| one.lasts > 0).collect();
        if uses.len() < 2 {
            return false;
        }
        uses.sort_unstable_by_key(|one| (starts[one.task] + one.after, one.task));
        let place = chance.of(uses.len() - 1);
        self.turned(starts, uses[place].task, uses[place + 1].task, chance)
    }

    /// Of two bakes not far from each other, the second comes first.
    fn bakes(&mut self, starts: &mut [i32], chance: &mut Chance) -> bool {
        let mut bakes = self.problem.oven.bakes.clone();
        if bakes.len() < 2 {
            return false;
        }
        bakes.sort_unstable_by_key(|bake| (starts[*bake], *bake));
        let place = chance.of(bakes.len() - 1);
        let far = 1 + chance.of(FAR.min(bakes.len() - 1 - place));
        self.turned(starts, bakes[place], bakes[place + far], chance)
    }

    /// Moves a task, and what hangs on it by gaps as little as can be; whether all of it may lie there.
    fn push(&mut self, starts: &mut [i32], task: usize, to: i32) -> bool {
        let tasks = &self.problem.tasks;
        let fits =
            |task: usize, start: i32| tasks[task].earliest <= start && start <= tasks[task].latest;
        if !fits(task, to) {
            return false;
        }
        let later = to > starts[task];
        starts[task] = to;
        self.line.clear();
        self.line.push(task);
        while let Some(task) = self.line.pop() {
            for gap in &self.gaps[task] {
                let from = gap.from == task;
                let between = if later == from { gap.least } else { gap.most };
                let (other, to) = if from {
                    (gap.to, starts[task] + between)
                } else {
                    (gap.from, starts[task] - between)
                };
                let moves = if later {
                    starts[other] < to
                } else {
                    starts[other] > to
                };
                if moves {
                    if !fits(other, to) {
                        return false;
                    }
                    starts[other] = to;
                    self.line.push(other);
                }
            }
        }
        true
    }
}

/// So many minutes earlier or later, mostly few.
fn by(chance: &mut Chance) -> i32 {
    let most = 2_u64 << chance.below(POWERS);
    let by = 1 + i32::try_from(chance.below(most)).unwrap_or(0);
    if chance.below(2) == 0 { by } else { -by }
}

fn shift(starts: &mut [i32], tasks: &[usize], by: i32) {
    for task in tasks {
        starts[*task] += by;
    }
}

/// When the first of them begins.
fn first(tasks: &[usize], starts: &[i32]) -> i32 {
    tasks.iter().map(|task| starts[*task]).min().unwrap_or(0)
}

/// Tasks that follow one another without a fork, each list in the order of the tasks.
pub fn branches(problem: &Problem) -> Vec<Vec<usize>> {
    let count = problem.tasks.len();
    let leads = |task: usize| problem.gaps.iter().filter(move |gap| gap.from == task);
    let mut of: Vec<usize> = (0..count).collect();
    for _ in 0..count {
        let mut still = true;
        for gap in &problem.gaps {
            let lone = leads(gap.from).count() == 1;
            let entries = problem.gaps.iter().filter(|other| other.to == gap.to);
            let own = of[gap.from];
            if lone && entries.count() == 1 && of[gap.to] != own {
                of[gap.to] = own;
                still = false;
            }
        }
        if still {
            break;
        }
    }
    let all = (0..count).map(|first| {
        let own = (0..count).filter(|task| of[*task] == first);
        own.collect::<Vec<usize>>()
    });
    all.filter(|tasks| !tasks.is_empty()).collect()
}

/// Of every task itself and all that follows it.
pub fn after(problem: &Problem) -> Vec<Vec<usize>> {
    let follow = |first: usize| {
        let mut all = vec![first];
        let mut next = 0;
        while let Some(task) = all.get(next).copied() {
            next += 1;
            for gap in problem.gaps.iter().filter(|gap| gap.from == task) {
                if !all.contains(&gap.to) {
                    all.push(gap.to);
                }
            }
        }
        all
    };
    (0..problem.tasks.len()).map(follow).collect()
}
