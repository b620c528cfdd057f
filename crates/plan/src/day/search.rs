//! A constraint solver behind our own seam: the puzzle put to it, one thing that is weighed after another.
//!
//! The solver is the library `pumpkin`, which learns from every dead end. In 0.5 its lengths are fixed
//! numbers; what stands from one task to another is put to it pair by pair.

use super::alike::in_turn;
use super::cores::{Cores, Taught};
use super::groups::groups;
use super::later;
use super::posted::Posted;
use super::problem::{Cost, Problem};
use super::solve::{Budget, Outcome, Solved};
use super::walk::{From, LARGE, Walk};
use std::cell::Cell;
use std::rc::Rc;

/// Of what the search may take, so much is gone at the latest when each thing is left for the next.
/// What is left after the last is for other orders of the plan that was found.
const SHARES: [f64; Cost::LEVELS] = [0.2, 0.33, 0.46, 0.55, 0.62, 0.65, 0.7];
/// So often a single question may ask whether to go on before it is put differently; doubled each time.
const PATIENCE: u64 = 400;

/// So many other orders in a row are tried without a gain before that is given up.
const FRUITLESS: u32 = 20_000;
/// So many times in a row it is asked what stands in each other's way, while the plan is far from that.
const CORES: i32 = 20;

/// So many times some of the doughs alone are laid out anew before the whole is asked again.
const PARTS: usize = 6;
/// So many things of a large day it is asked for as a whole: all but waits, for which a question may think for seconds
/// before it hears that it shall stop.
const OF_LARGE: usize = Cost::LEVELS - 1;
/// And so many where every bread has a time: the stretch of work hangs on nothing then, and parts laid out anew do
/// better (measured here: 656 to 690 minutes, and 850 to 880).
const OF_TIMED: usize = 4;

/// Looks for a better plan than the first until it is proven best or the budget is gone.
pub fn search(problem: &Problem, first: Option<Vec<i32>>, budget: &mut Budget<'_>) -> Outcome {
    // Whoever wants the first plan alone does not wait until the puzzle is put.
    let first = match first {
        Some(starts) if budget() >= 1.0 => return unproven(problem, starts),
        first => first,
    };
    match asked(problem, first, budget) {
        Ok(Found {
            mut best,
            bound,
            asked,
        }) => {
            if bound != problem.cost(&best).levels() {
                let go_on = &mut || budget() < 1.0;
                best = walked(problem, best, From::Good, bound, FRUITLESS, go_on);
            }
            best_of(problem, best, bound, asked)
        }
        Err(outcome) => outcome,
    }
}

/// What other orders of a plan bring: no worse.
pub(super) fn walked(
    problem: &Problem,
    starts: Vec<i32>,
    from: From,
    least: [i32; Cost::LEVELS],
    fruitless: u32,
    go_on: &mut dyn FnMut() -> bool,
) -> Vec<i32> {
    match Walk::new(problem, from, least) {
        Some(mut walk) => walk.best(starts, fruitless, go_on),
        None => starts,
    }
}

/// The last hand at a plan, and what is known about it.
pub(super) fn best_of(
    problem: &Problem,
    mut best: Vec<i32>,
    bound: [i32; Cost::LEVELS],
    asked: u64,
) -> Outcome {
    in_turn(problem, &mut best);
    let starts = later::later(problem, best);
    let cost = problem.cost(&starts);
    Outcome::Plan(Solved {
        bound: bounded(bound, cost),
        starts,
        cost,
        asked,
    })
}

/// What the solver found.
pub(super) struct Found {
    pub(super) best: Vec<i32>,
    /// See [`Solved::bound`].
    pub(super) bound: [i32; Cost::LEVELS],
    pub(super) asked: u64,
}

/// Asks the solver for one thing that is weighed after another.
pub(super) fn asked(
    problem: &Problem,
    first: Option<Vec<i32>>,
    budget: &mut Budget<'_>,
) -> Result<Found, Outcome> {
    let Some(mut posted) = Posted::new(problem) else {
        return Err(first.map_or(Outcome::None, |starts| unproven(problem, starts)));
    };
    let mut asked = 0;
    let mut best = match first {
        Some(mut first) => {
            in_turn(problem, &mut first);
            posted.show(&first, &mut Stop::new(budget, 0.2, u64::MAX, &mut asked));
            first
        }
        None => match posted.any(&[], &mut Stop::new(budget, 1.0, u64::MAX, &mut asked)) {
            Answer::Found(starts) => starts,
            Answer::Never => return Err(Outcome::None),
            Answer::Unknown => return Err(Outcome::Unknown),
        },
    };
    let mut parts = Parts {
        groups: groups(problem),
        turn: 0,
    };
    let mut bound = [0; Cost::LEVELS];
    let large = problem.tasks.len() >= LARGE;
    let levels = match (large, timed(problem)) {
        (false, _) => Cost::LEVELS,
        (true, false) => OF_LARGE,
        (true, true) => OF_TIMED,
    };
    for level in 0..levels {
        let mut least = posted.least(level);
        let mut cores = Cores::new(&posted, level);
        let mut in_a_row = 0;
        let mut patience = PATIENCE;
        // The best that can be hoped for first, then halfway to it, then any step at all, then parts.
        let mut turn = 0;
        loop {
            let now = problem.cost(&best).levels()[level];
            if now <= least {
                break;
            }
            let mut stop = Stop::new(budget, SHARES[level], patience, &mut asked);
            // Of a sum a dead end teaches more than a question for the whole.
            if turn == 0 && cores.several() && cores.least() < now {
                let taught = cores.ask(&mut posted, &mut stop);
                let gone = stop.gone;
                match taught {
                    Taught::Found(starts) => best = starts,
                    Taught::More => {
                        in_a_row += 1;
                        // Far from what is known the plan is made better in between.
                        if in_a_row % CORES == 0 && now - cores.least() > CORES {
                            turn = 1;
                        }
                    }
                    Taught::Never => {
                        least = now;
                        break;
                    }
                    Taught::Unknown if gone => break,
                    Taught::Unknown => turn = 1,
                }
                least = least.max(cores.least());
                continue;
            }
            let fixed = if turn < 3 {
                Some(Vec::new())
            } else {
                parts.next(&best)
            };
            let wanted = match turn {
                0 => least,
                1 => i32::midpoint(least, now - 1),
                _ => now - 1,
            };
            let Some(fixed) = fixed else {
                turn = 0;
                patience = patience.saturating_mul(2);
                continue;
            };
            let answer = posted.any_at(level, wanted, &fixed, &mut stop);
            let gone = stop.gone;
            match answer {
                Answer::Found(starts) => {
                    best = starts;
                    turn = turn.min(1);
                }
                Answer::Never if fixed.is_empty() => least = wanted + 1,
                Answer::Unknown if gone => break,
                Answer::Never | Answer::Unknown => turn += 1,
            }
            if turn >= 3 + PARTS {
                turn = 0;
                patience = patience.saturating_mul(2);
            }
        }
        let now = problem.cost(&best).levels()[level];
        bound[level] = least.min(now);
        posted.keep(level, now);
    }
    for (level, bound) in bound.iter_mut().enumerate().skip(levels) {
        *bound = posted.least(level);
    }
    Ok(Found { best, bound, asked })
}

/// Whether every bread has its time.
pub(super) fn timed(problem: &Problem) -> bool {
    problem.wishes.iter().all(|wish| wish.by.is_some())
}

/// Doughs of which two at a time are laid out anew while the others stay.
struct Parts {
    groups: Vec<Vec<usize>>,
    turn: usize,
}

impl Parts {
    /// Tasks that stay where they are this time; none when there are no more than two doughs.
    fn next(&mut self, best: &[i32]) -> Option<Vec<(usize, i32)>> {
        let count = self.groups.len();
        if count <= 2 {
            return None;
        }
        let first = self.turn % count;
        let second = (first + 1 + self.turn / count % (count - 1)) % count;
        self.turn += 1;
        let stay = self.groups.iter().enumerate();
        let stay = stay.filter(|(group, _)| *group != first && *group != second);
        Some(
            stay.flat_map(|(_, tasks)| tasks)
                .map(|task| (*task, best[*task]))
                .collect(),
        )
    }
}

/// Bounds no higher than what was reached; below the first thing that is not proven nothing is.
fn bounded(bound: [i32; Cost::LEVELS], cost: Cost) -> [i32; Cost::LEVELS] {
    let cost = cost.levels();
    std::array::from_fn(|level| bound[level].min(cost[level]))
}

/// A plan of which nothing is known but that it is one.
pub(super) fn unproven(problem: &Problem, starts: Vec<i32>) -> Outcome {
    let starts = later::later(problem, starts);
    Outcome::Plan(Solved {
        cost: problem.cost(&starts),
        starts,
        bound: [0; Cost::LEVELS],
        asked: 0,
    })
}

/// Whether the puzzle has a plan at all; unknown when the budget is gone first.
pub fn can(problem: &Problem, budget: &mut Budget<'_>) -> Option<bool> {
    let Some(mut posted) = Posted::new(problem) else {
        return Some(false);
    };
    let mut asked = 0;
    match posted.any(&[], &mut Stop::new(budget, 1.0, u64::MAX, &mut asked)) {
        Answer::Found(_) => Some(true),
        Answer::Never => Some(false),
        Answer::Unknown => None,
    }
}

/// What the solver said to one question.
pub enum Answer {
    /// Here is one.
    Found(Vec<i32>),
    /// There is none.
    Never,
    /// It was stopped.
    Unknown,
}

/// When one question is to be given up.
pub struct Stop<'a, 'b> {
    budget: &'a mut Budget<'b>,
    share: f64,
    patience: u64,
    asked: &'a mut u64,
    decided: Rc<Cell<bool>>,
    /// The share of the budget is gone, not only the patience.
    pub gone: bool,
}

impl<'a, 'b> Stop<'a, 'b> {
    pub(super) fn new(
        budget: &'a mut Budget<'b>,
        share: f64,
        patience: u64,
        asked: &'a mut u64,
    ) -> Self {
        Self {
            budget,
            share,
            patience,
            asked,
            decided: Rc::default(),
            gone: false,
        }
    }

    /// Whether it is over before it has begun.
    pub fn over(&mut self) -> bool {
        self.gone = (self.budget)() >= self.share;
        self.gone
    }

    /// Looks from now on whether something was decided.
    pub fn watch(&mut self, decided: &Rc<Cell<bool>>) {
        self.decided = Rc::clone(decided);
        self.decided.set(false);
    }
}

impl pumpkin_core::termination::TerminationCondition for Stop<'_, '_> {
    fn should_stop(&mut self) -> bool {
        *self.asked += 1;
        self.patience = self.patience.saturating_sub(1);
        if !self.decided.replace(false) {
            return false;
        }
        self.gone = (self.budget)() >= self.share;
        self.gone || self.patience == 0
    }
}
