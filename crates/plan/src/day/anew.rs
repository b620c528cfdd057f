//! Some of a plan laid out anew by the solver, while everything else keeps the order in which it comes but not its minutes.
//!
//! Whoever is moved by small turns meets all the others in between; the solver lays two doughs or three, or all that lies in a
//! few hours, through the rest at once. What keeps its order is told as ties, which leave few pairs open, so a question
//! takes some tens of milliseconds. The thought is that of large neighbourhoods: P. Shaw, Using constraint programming
//! and local search methods to solve vehicle routing problems, CP 1998 (from memory); that an order is kept and not its
//! minutes: D. Godard, P. Laborie, W. Nuijten, Randomized large neighborhood search for cumulative scheduling, ICAPS 2005
//! (from memory).

use super::alike::in_turn;
use super::chance::Chance;
use super::groups::groups;
use super::posted::{Order, Posted};
use super::problem::{Cost, Problem};
use super::search::{Answer, Stop};

/// So often a question may ask whether to go on (measured: what is found is found by then).
const PATIENCE: u64 = 1000;
/// Nothing moves further than this, minutes, doubled as often as chance will (ours: less leaves fewer pairs open).
const FAR_MIN: i32 = 100;
/// See [`FAR_MIN`].
const DOUBLED: u64 = 3;
/// Of so many minutes around a moment, both ways, everything is laid out anew (ours).
const WINDOW_MIN: i32 = 100;
/// A plan is asked for that is better by less than two to this power, minutes (ours).
const POWERS: u64 = 5;

/// Lays out anew.
#[derive(Debug)]
pub struct Anew<'a> {
    problem: &'a Problem,
    groups: Vec<Vec<usize>>,
    free: Vec<bool>,
    /// What no plan can beat, as far as is known: see [`super::solve::Solved::bound`].
    pub least: [i32; Cost::LEVELS],
}

impl<'a> Anew<'a> {
    /// Of a puzzle, with what no plan of it can beat.
    pub fn new(problem: &'a Problem, least: [i32; Cost::LEVELS]) -> Self {
        Self {
            problem,
            groups: groups(problem),
            free: Vec::new(),
            least,
        }
    }

    /// A better plan than one, if one question finds it.
    pub fn better(
        &mut self,
        starts: &[i32],
        cost: &Cost,
        chance: &mut Chance,
        go_on: &mut dyn FnMut() -> bool,
    ) -> Option<Vec<i32>> {
        let mut starts = starts.to_vec();
        in_turn(self.problem, &mut starts);
        self.choose(&starts, chance);
        let order = self.kept(&starts);
        let far = FAR_MIN << chance.below(DOUBLED);
        let mut near = self.problem.clone();
        for (task, start) in near.tasks.iter_mut().zip(&starts) {
            task.earliest = task.earliest.max(start - far);
            task.latest = task.latest.min(start + far);
        }
        let mut posted = Posted::in_order(&near, &order)?;
        let levels = cost.levels();
        let less = |level: &usize| posted.least(*level).max(self.least[*level]) < levels[*level];
        let open: Vec<usize> = (0..Cost::LEVELS).filter(less).collect();
        // Mostly what weighs most.
        let level = match chance.below(6) {
            0 => *open.get(chance.of(open.len()))?,
            _ => *open.first()?,
        };
        for (above, most) in levels[..level].iter().enumerate() {
            posted.keep(above, *most);
        }
        posted.near(&starts);
        let most = 2 << chance.below(POWERS);
        let step = 1 + i32::try_from(chance.below(most)).unwrap_or(0);
        let wanted = (levels[level] - step).max(posted.least(level));
        let mut asked = 0;
        let mut gone = || if go_on() { 0.0 } else { 1.0 };
        let mut until = Stop::new(&mut gone, 1.0, PATIENCE, &mut asked);
        match posted.any_at(level, wanted, &[], &mut until) {
            Answer::Found(starts) => Some(starts),
            Answer::Never | Answer::Unknown => None,
        }
    }

    /// Two doughs or three, or what lies around a moment.
    fn choose(&mut self, starts: &[i32], chance: &mut Chance) {
        self.free.clear();
        if chance.below(3) == 0 {
            let at = starts[chance.of(starts.len())];
            let near = |start: &i32| (start - at).abs() <= WINDOW_MIN;
            self.free.extend(starts.iter().map(near));
            return;
        }
        self.free.resize(starts.len(), false);
        let (one, other) = chance.pair(self.groups.len());
        for task in self.groups[one].iter().chain(&self.groups[other]) {
            self.free[*task] = true;
        }
        if chance.below(2) == 0 {
            for task in &self.groups[chance.of(self.groups.len())] {
                self.free[*task] = true;
            }
        }
    }

    /// In which order everything else comes.
    fn kept(&self, starts: &[i32]) -> Vec<Order> {
        let mut all = Vec::new();
        let stays = |task: usize| !self.free[task];
        for pool in self.problem.pools.iter().filter(|pool| pool.capacity == 1) {
            let uses = pool.uses.iter().filter(|one| one.lasts > 0);
            let mut uses: Vec<_> = uses.filter(|one| stays(one.task)).collect();
            uses.sort_by_key(|one| 2 * (starts[one.task] + one.after) + one.lasts);
            let pairs = uses.windows(2).filter(|two| two[0].task != two[1].task);
            all.extend(pairs.map(|two| Order {
                first: two[0].task,
                second: two[1].task,
                least: two[0].after + two[0].lasts - two[1].after,
            }));
        }
        let oven = &self.problem.oven;
        for pair in oven.pairs() {
            let (mut a, mut b) = (oven.bakes[pair.one], oven.bakes[pair.other]);
            let mut apart = pair.there;
            if !(stays(a) && stays(b)) {
                continue;
            }
            if starts[b] < starts[a] {
                (a, b, apart) = (b, a, pair.back);
            }
            all.push(Order {
                first: a,
                second: b,
                least: self.problem.tasks[a].lasts + apart,
            });
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::Anew;
    use crate::day::chance::Chance;
    use crate::day::problem::{Cost, Gap, Pool, Problem, Task, Use, Wish};

    /// Three doughs of work, a rise and work, for one pair of hands.
    fn three() -> Problem {
        let mut problem = Problem {
            horizon: 600,
            pools: vec![Pool {
                capacity: 1,
                ..Pool::default()
            }],
            stretches: vec![Vec::new()],
            ..Problem::default()
        };
        for rise in [60, 90, 30] {
            let first = problem.tasks.len();
            for task in [first, first + 1] {
                problem.tasks.push(Task {
                    lasts: 10,
                    earliest: 0,
                    latest: 590,
                });
                problem.pools[0].uses.push(Use {
                    task,
                    after: 0,
                    lasts: 10,
                    count: 1,
                });
                problem.stretches[0].push(task);
            }
            problem.gaps.push(Gap {
                from: first,
                to: first + 1,
                least: rise,
                best: rise + 30,
                most: rise + 30,
            });
            problem.wishes.push(Wish {
                task: first + 1,
                by: Some(500),
            });
        }
        problem
    }

    #[test]
    fn one_dough_after_another_comes_to_lie_in_each_others_rises() {
        let problem = three();
        // One whole dough after the other, by hand: 70, 100 and 40 min.
        let mut starts = vec![290, 350, 360, 450, 460, 490];
        assert!(problem.holds(&starts));
        let mut cost = problem.cost(&starts);
        assert_eq!(cost.span, 210);
        let mut anew = Anew::new(&problem, [0; Cost::LEVELS]);
        let mut chance = Chance(1);
        for _ in 0..60 {
            let found = anew.better(&starts, &cost, &mut chance, &mut || true);
            let Some(found) = found else { continue };
            assert!(problem.holds(&found) && problem.cost(&found) < cost);
            (cost, starts) = (problem.cost(&found), found);
        }
        // The longest dough alone takes 100 min; all work lies within it.
        assert_eq!((cost.late, cost.span), (0, 100));
        // Where it is known that nothing can be better, nothing is asked.
        let mut known = Anew::new(&problem, cost.levels());
        assert_eq!(
            known.better(&starts, &cost, &mut chance, &mut || panic!("asked")),
            None
        );
    }
}
