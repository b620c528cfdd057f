//! Other orders of a plan tried by chance: who comes first at the hands, in the oven, which dough before which.
//!
//! Each try moves something, takes the orders that come of it, and asks for the best plan that has them. What is
//! worse is gone on from too, the seldomer the worse and the later (simulated annealing). Mostly two are turned round
//! whose order holds the plan back: what flows through their tie says so, as the longest way does in a job shop.
//! Chance is a stream of numbers, so the same puzzle is looked through in the same way each time; how long is a count
//! and no clock.

use super::eased::{Easing, Pull};
use super::problem::{Cost, Gap, Problem};
use numerics::math::exp;

/// So many tries until it is cold, and warm again (ours).
const CYCLE: u32 = 4000;
/// How much worse a plan may well be while it is warm, in minutes of waits (ours; 1500 was worse).
const WARM: f64 = 300.0;
/// How cold it becomes within a cycle: e to this power (ours).
const COLDER: f64 = -5.0;
/// What a minute of each thing weighs while orders are tried, in minutes of waits: enough to lead there (ours). The
/// best plan is kept by what decides first.
const WEIGHTS: [f64; Cost::LEVELS] = [1000.0, 300.0, 100.0, 30.0, 10.0, 3.0, 1.0];
/// Things are moved by less than two to this power, minutes (ours).
const POWERS: u64 = 9;
/// Two bakes that are turned round are so many places apart at most (ours).
const FAR: usize = 4;

/// Looks through the orders of one puzzle.
#[derive(Debug)]
pub struct Turns<'a> {
    problem: &'a Problem,
    easing: Easing<'a>,
    groups: Vec<Vec<usize>>,
    /// Tasks that follow one another without a fork.
    branches: Vec<Vec<usize>>,
    /// Of every task itself and all that follows it.
    after: Vec<Vec<usize>>,
    /// Of every task the gaps before and after it.
    gaps: Vec<Vec<Gap>>,
    line: Vec<usize>,
    chance: Chance,
}

impl<'a> Turns<'a> {
    /// None when the puzzle is too large to be weighed so.
    pub fn new(problem: &'a Problem, groups: &[Vec<usize>]) -> Option<Self> {
        let mut gaps = vec![Vec::new(); problem.tasks.len()];
        for gap in &problem.gaps {
            gaps[gap.from].push(*gap);
            gaps[gap.to].push(*gap);
        }
        Some(Self {
            problem,
            easing: Easing::new(problem)?,
            groups: groups.to_vec(),
            branches: branches(problem),
            after: after(problem),
            gaps,
            line: Vec::new(),
            chance: Chance(0x0DA7),
        })
    }

    /// A plan that is no worse, after other orders were tried until so many in a row were no gain or nobody lets it go
    /// on.
    pub fn best(
        &mut self,
        starts: Vec<i32>,
        fruitless: u32,
        go_on: &mut dyn FnMut() -> bool,
    ) -> Vec<i32> {
        let mut best = (self.problem.cost(&starts), starts);
        let mut pulls = Vec::new();
        if let Some(eased) = self.easing.best(&best.1).filter(|eased| eased.0 <= best.0) {
            self.easing.keep(&mut pulls);
            best = eased;
        }
        let mut best_pulls = pulls.clone();
        let mut now = best.clone();
        let mut other = Vec::new();
        let (mut since, mut tried) = (0, 0);
        while since < fruitless && go_on() {
            if tried == CYCLE {
                tried = 0;
                now.clone_from(&best);
                pulls.clone_from(&best_pulls);
            }
            let warmth = WARM * exp(COLDER * f64::from(tried) / f64::from(CYCLE));
            tried += 1;
            since += 1;
            other.clone_from(&now.1);
            let moved = self.turn(&mut other, &pulls);
            if moved && self.chance.below(4) == 0 {
                self.turn(&mut other, &pulls);
            }
            if !moved || other == now.1 {
                continue;
            }
            let Some(found) = self.easing.best(&other) else {
                continue;
            };
            let worse = weight(&found.0) - weight(&now.0);
            if worse <= 0.0 || self.chance.share() < exp(-worse / warmth) {
                self.easing.keep(&mut pulls);
                if found.0 < best.0 {
                    best.clone_from(&found);
                    best_pulls.clone_from(&pulls);
                    since = 0;
                }
                now = found;
            }
        }
        best.1
    }

    /// Moves something; whether it could.
    fn turn(&mut self, starts: &mut [i32], pulls: &[Pull]) -> bool {
        match self.chance.below(15) {
            0..=3 if !pulls.is_empty() => {
                let pull = pulls[self.chance.of(pulls.len())];
                return self.turned(starts, pull.first, pull.second);
            }
            0..=5 => return self.neighbours(starts),
            6 => return self.bakes(starts),
            7..=8 => {
                let task = self.chance.of(starts.len());
                let to = starts[task] + self.by();
                return self.push(starts, task, to);
            }
            9 => {
                let pair = self.chance.pair(self.branches.len());
                let (one, other) = (&self.branches[pair.0], &self.branches[pair.1]);
                exchange(starts, one, other);
            }
            10..=11 => {
                let place = self.chance.of(self.after.len());
                let by = self.by();
                shift(starts, &self.after[place], by);
            }
            12..=13 => {
                let place = self.chance.of(self.groups.len());
                let by = self.by();
                shift(starts, &self.groups[place], by);
            }
            _ => {
                let pair = self.chance.pair(self.groups.len());
                let (one, other) = (&self.groups[pair.0], &self.groups[pair.1]);
                exchange(starts, one, other);
            }
        }
        true
    }

    /// So many minutes earlier or later, mostly few.
    fn by(&mut self) -> i32 {
        let most = 2_u64 << self.chance.below(POWERS);
        let by = 1 + i32::try_from(self.chance.below(most)).unwrap_or(0);
        if self.chance.below(2) == 0 { by } else { -by }
    }

    /// Of two tasks the second comes first: both change, or one passes the other.
    fn turned(&mut self, starts: &mut [i32], first: usize, second: usize) -> bool {
        let lasts = |task: usize| self.problem.tasks[task].lasts;
        let (of_first, of_second) = (lasts(first), lasts(second));
        let (at, then) = (starts[first], starts[second]);
        if first == second {
            return false;
        }
        match self.chance.below(3) {
            0 => {
                self.push(starts, second, at) && {
                    let after = starts[second] + of_second;
                    self.push(starts, first, after)
                }
            }
            1 => self.push(starts, second, at - of_second),
            _ => self.push(starts, first, then + of_first.max(of_second)),
        }
    }

    /// Of two that hands or a machine do one after the other, the second comes first.
    fn neighbours(&mut self, starts: &mut [i32]) -> bool {
        let pools = &self.problem.pools;
        if pools.is_empty() {
            return false;
        }
        let pool = &pools[self.chance.of(pools.len())];
        let mut uses: Vec<_> = pool.uses.iter().filter(|one| one.lasts > 0).collect();
        if uses.len() < 2 {
            return false;
        }
        uses.sort_unstable_by_key(|one| (starts[one.task] + one.after, one.task));
        let place = self.chance.of(uses.len() - 1);
        self.turned(starts, uses[place].task, uses[place + 1].task)
    }

    /// Of two bakes not far from each other, the second comes first.
    fn bakes(&mut self, starts: &mut [i32]) -> bool {
        let mut bakes = self.problem.oven.bakes.clone();
        if bakes.len() < 2 {
            return false;
        }
        bakes.sort_unstable_by_key(|bake| (starts[*bake], *bake));
        let place = self.chance.of(bakes.len() - 1);
        let far = 1 + self.chance.of(FAR.min(bakes.len() - 1 - place));
        self.turned(starts, bakes[place], bakes[place + far])
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

/// What a plan weighs while orders are tried.
fn weight(cost: &Cost) -> f64 {
    let levels = cost.levels().into_iter().zip(WEIGHTS);
    levels
        .map(|(level, weighs)| f64::from(level) * weighs)
        .sum()
}

fn shift(starts: &mut [i32], tasks: &[usize], by: i32) {
    for task in tasks {
        starts[*task] += by;
    }
}

/// Each begins where the other began.
fn exchange(starts: &mut [i32], one: &[usize], other: &[usize]) {
    let first = |tasks: &[usize]| tasks.iter().map(|task| starts[*task]).min().unwrap_or(0);
    let by = first(other) - first(one);
    shift(starts, one, by);
    shift(starts, other, -by);
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

/// A plain stream of numbers (Knuth's MMIX constants), the same on every machine.
#[derive(Debug)]
struct Chance(u64);

impl Chance {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % most.max(1)
    }

    /// From nothing to one.
    fn share(&mut self) -> f64 {
        const PARTS: u32 = 1 << 20;
        let part = u32::try_from(self.below(PARTS.into())).unwrap_or(0);
        (f64::from(part) + 0.5) / f64::from(PARTS)
    }

    fn of(&mut self, count: usize) -> usize {
        let most = u64::try_from(count).unwrap_or(u64::MAX);
        usize::try_from(self.below(most)).unwrap_or(0)
    }

    /// Two that differ, where there are two.
    fn pair(&mut self, count: usize) -> (usize, usize) {
        let one = self.of(count);
        let other = (one + 1 + self.of(count.saturating_sub(1))) % count.max(1);
        (one, other)
    }
}
