//! The best plan among those with the same orders: moments are raised or lowered together as long as that gains.
//!
//! With every order fixed a plan costs a sum of ties, each convex in a difference of two moments. Such a sum has no
//! dip but its least: where no set of moments gains by one step up or down, nothing does. The set that gains most is a
//! cut of a network. The test below holds it against every plan of small puzzles.

use super::cut::Network;
use super::problem::{Cost, Problem};
use super::ties::{Pull, Ties};

/// So many steps at most; far more than were seen.
const STEPS: u32 = 2000;

/// Eases plans of one puzzle.
#[derive(Debug)]
pub struct Easing<'a> {
    problem: &'a Problem,
    ties: Ties<'a>,
    network: Network,
    moments: Vec<i32>,
    /// What flowed through ties that are always there, and from task to task through those of an order.
    always: Vec<i64>,
    between: Vec<i64>,
    ring: Vec<Pull>,
}

/// Moves moments to where ties cost least, from what flowed before; whether all that must lie does.
fn eased(
    ties: &Ties<'_>,
    network: &mut Network,
    moments: &mut [i32],
    flowed: impl Fn(usize) -> i64,
) -> bool {
    let ties = ties.now();
    if !network.possible(ties, moments) {
        return false;
    }
    network.begin(ties, moments, flowed);
    for _ in 0..STEPS {
        if !network.gains(ties, moments) {
            break;
        }
    }
    true
}

impl<'a> Easing<'a> {
    /// None when the puzzle is too large to be weighed so.
    pub fn new(problem: &'a Problem) -> Option<Self> {
        let ties = Ties::new(problem)?;
        let count = problem.tasks.len();
        Some(Self {
            problem,
            network: Network::new(ties.moments(), ties.now(), ties.must()),
            moments: Vec::new(),
            always: vec![0; ties.always()],
            between: vec![0; count * count],
            ring: Vec::new(),
            ties,
        })
    }

    /// The best plan in which everything comes in the order in which it lies in `starts`, which need not be a plan;
    /// none when no plan has that order.
    pub fn best(&mut self, starts: &[i32]) -> Option<(Cost, Vec<i32>)> {
        let count = self.problem.tasks.len();
        if !self.ties.lie(starts, &mut self.moments) {
            return None;
        }
        let (always, between) = (&self.always, &self.between);
        let pulls = self.ties.pulls();
        let flowed = |place: usize| match (always.get(place), pulls[place]) {
            (Some(flow), _) => *flow,
            (None, Some(pull)) => between[pull.first * count + pull.second],
            (None, None) => 0,
        };
        if !eased(&self.ties, &mut self.network, &mut self.moments, flowed) {
            return None;
        }
        let starts = self.ties.starts(&self.moments);
        // Said again by whoever knows no ties.
        self.problem
            .holds(&starts)
            .then(|| (self.problem.cost(&starts), starts))
    }

    /// The orders of two tasks that could not be together when no plan had those that were asked for last.
    pub fn ring(&mut self) -> &[Pull] {
        self.ring.clear();
        if let Some(torn) = self.ties.torn() {
            self.ring
                .extend((torn.first != torn.second).then_some(torn));
            return &self.ring;
        }
        let pulls = self.ties.pulls();
        let ring = self.network.ring.iter();
        let ring = ring.filter(|place| **place >= self.always.len());
        self.ring.extend(ring.filter_map(|place| pulls[*place]));
        &self.ring
    }

    /// Remembers what flows in the plan that was found last, from which the next begin, and says which orders hold it
    /// back.
    pub fn keep(&mut self, kept: &mut Vec<Pull>) {
        kept.clear();
        let count = self.problem.tasks.len();
        for (place, pull) in self.ties.pulls().iter().enumerate() {
            let flow = self.network.flow(place);
            if let Some(kept) = self.always.get_mut(place) {
                *kept = flow;
            } else if let Some(pull) = pull {
                self.between[pull.first * count + pull.second] = flow;
                if flow > 0 {
                    kept.push(*pull);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Easing;
    use crate::day::problem::{Cost, Gap, Oven, Pool, Problem, Task, Use, Wish};

    const HORIZON: i32 = 9;

    /// Two chains of two tasks that share hands and an oven; what they are is told by a number.
    fn puzzle(seed: i32) -> Problem {
        let of =
            |place: i32, most: i32| (seed / 3_i32.pow(u32::try_from(place).expect("small"))) % most;
        let tasks: Vec<Task> = (0..4)
            .map(|task| Task {
                lasts: 1 + of(task, 2),
                earliest: 0,
                latest: HORIZON,
            })
            .collect();
        let gap = |from: usize| {
            let least = tasks[from].lasts;
            let best = least + of(1, 2);
            Gap {
                from,
                to: from + 1,
                least,
                best,
                most: best + of(2, 3),
            }
        };
        let hands = |task: usize| Use {
            task,
            after: 0,
            lasts: 1,
            count: 1,
        };
        Problem {
            horizon: HORIZON,
            gaps: vec![gap(0), gap(2)],
            pools: vec![Pool {
                capacity: 1,
                uses: (0..4).map(hands).collect(),
                closed: vec![(2 + of(3, 3), 3 + of(3, 3))],
            }],
            oven: Oven {
                bakes: vec![1, 3],
                apart: vec![vec![None, Some(of(4, 2))], vec![Some(of(0, 2)), None]],
                heats: vec![0, 0],
                ..Oven::default()
            },
            wishes: vec![
                Wish {
                    task: 1,
                    by: Some(4 + of(4, 3)),
                },
                Wish {
                    task: 3,
                    by: (of(5, 2) == 0).then_some(7),
                },
            ],
            stretches: vec![vec![0, 1, 2, 3]],
            mornings: vec![(0, of(2, 3))],
            tasks,
            ..Problem::default()
        }
    }

    /// Which of two comes first at the hands and in the oven, and on which side of the closed hour each lies.
    fn orders(problem: &Problem, starts: &[i32]) -> (Vec<bool>, Vec<bool>) {
        let pairs = (0..4).flat_map(|one| (0..one).map(move |other| (one, other)));
        let first = pairs.map(|(one, other)| starts[one] < starts[other]);
        let closed = problem.pools[0].closed[0].0;
        let before = starts.iter().map(|start| *start < closed);
        (first.collect(), before.collect())
    }

    #[test]
    fn no_plan_with_the_same_orders_costs_less() {
        let mut eased = 0;
        for seed in 0..243 {
            let problem = puzzle(seed);
            let mut easing = Easing::new(&problem).expect("small");
            let mut plans = Vec::new();
            for code in 0..HORIZON.pow(4) {
                let start = |place: u32| code / HORIZON.pow(place) % HORIZON;
                let starts: Vec<i32> = (0..4).map(start).collect();
                if problem.holds(&starts) {
                    plans.push((problem.cost(&starts), orders(&problem, &starts), starts));
                }
            }
            // Begun from a few of them, each comes to the best of its own orders.
            for (cost, order, starts) in plans.iter().step_by(plans.len() / 7 + 1) {
                let own = plans.iter().filter(|(_, other, _)| other == order);
                let least: Cost = own.map(|(cost, ..)| *cost).min().expect("itself");
                let found = easing.best(starts).expect("it is a plan itself");
                assert_eq!(found.0, least, "{seed}: {starts:?}");
                eased += u32::from(found.0 < *cost);
            }
        }
        assert!(eased > 200, "only {eased} were eased");
    }
}
