//! A constraint solver behind our own seam: the puzzle put to it, one thing that is weighed after another.
//!
//! The solver is the library `pumpkin`, which learns from every dead end. In 0.5 its lengths are fixed
//! numbers; what stands from one task to another is put to it pair by pair.

use super::posted::Posted;
use super::problem::{Cost, Problem};
use super::solve::{Budget, Outcome, Solved};

/// Of what the search may take, so much is gone at the latest when each thing is left for the next.
const SHARES: [f64; Cost::LEVELS] = [0.45, 0.65, 0.75, 0.9, 0.94, 1.0];
/// So often a single question may ask whether to go on before it is put differently; doubled each time.
const PATIENCE: u64 = 400;

/// Looks for a better plan than the first until it is proven best or the budget is gone.
pub fn search(problem: &Problem, first: Option<Vec<i32>>, budget: &mut Budget<'_>) -> Outcome {
    let Some(mut posted) = Posted::new(problem) else {
        return first.map_or(Outcome::None, |starts| unproven(problem, starts));
    };
    let mut asked = 0;
    let mut best = match first {
        Some(first) => {
            posted.show(&first, &mut Stop::new(budget, 0.2, u64::MAX, &mut asked));
            first
        }
        None => match posted.any(None, &mut Stop::new(budget, 1.0, u64::MAX, &mut asked)) {
            Answer::Found(starts) => starts,
            Answer::Never => return Outcome::None,
            Answer::Unknown => return Outcome::Unknown,
        },
    };
    let mut bound = [0; Cost::LEVELS];
    for level in 0..Cost::LEVELS {
        let mut patience = PATIENCE;
        let mut least = posted.least(level);
        // The best that can be hoped for first, then halfway to it, then any step at all.
        let mut hope = 0_u32;
        loop {
            let now = problem.cost(&best).levels()[level];
            if now <= least {
                break;
            }
            let wanted = match hope {
                0 => least,
                1 => i32::midpoint(least, now - 1),
                _ => now - 1,
            };
            let mut stop = Stop::new(budget, SHARES[level], patience, &mut asked);
            let answer = posted.any_at(level, wanted, &mut stop);
            let gone = stop.gone;
            match answer {
                Answer::Found(starts) => {
                    best = starts;
                    hope = hope.min(1);
                }
                Answer::Never => least = wanted + 1,
                Answer::Unknown if gone => break,
                Answer::Unknown => {
                    hope = (hope + 1) % 3;
                    patience = patience.saturating_mul(2);
                }
            }
        }
        let now = problem.cost(&best).levels()[level];
        bound[level] = least.min(now);
        posted.keep(level, now);
    }
    Outcome::Plan(Solved {
        cost: problem.cost(&best),
        starts: best,
        bound,
        asked,
    })
}

/// A plan of which nothing is known but that it is one.
fn unproven(problem: &Problem, starts: Vec<i32>) -> Outcome {
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
    match posted.any(None, &mut Stop::new(budget, 1.0, u64::MAX, &mut asked)) {
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
    /// The share of the budget is gone, not only the patience.
    pub gone: bool,
}

impl<'a, 'b> Stop<'a, 'b> {
    fn new(budget: &'a mut Budget<'b>, share: f64, patience: u64, asked: &'a mut u64) -> Self {
        Self {
            budget,
            share,
            patience,
            asked,
            gone: false,
        }
    }
}

impl pumpkin_core::termination::TerminationCondition for Stop<'_, '_> {
    fn should_stop(&mut self) -> bool {
        *self.asked += 1;
        self.gone = (self.budget)() >= self.share;
        let tired = self.patience == 0;
        self.patience = self.patience.saturating_sub(1);
        self.gone || tired
    }
}
