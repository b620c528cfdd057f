//! From a puzzle to a plan: a list first, then a search that makes it better and says how good it is.

use super::list;
use super::problem::{Cost, Problem};
use super::search;

/// A plan and what is known about it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Solved {
    /// A start for every task.
    pub starts: Vec<i32>,
    /// What it costs.
    pub cost: Cost,
    /// No plan costs less: bounds in the order of [`Cost::levels`], each among plans that are as good
    /// in all that weighs more.
    pub bound: [i32; Cost::LEVELS],
    /// How often the search has asked whether to go on: counted, not timed.
    pub asked: u64,
}

impl Solved {
    /// Whether nothing better exists.
    pub fn proven(&self) -> bool {
        self.gaps().iter().all(|gap| *gap == 0)
    }

    /// By how many minutes a better plan could be better, in the order of [`Cost::levels`].
    pub fn gaps(&self) -> [i32; Cost::LEVELS] {
        let cost = self.cost.levels();
        std::array::from_fn(|level| (cost[level] - self.bound[level]).max(0))
    }
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// A plan.
    Plan(Solved),
    /// There is none, and that is proven.
    None,
    /// None was found before the search had to stop.
    Unknown,
}

/// How far a search may go: asked again and again, it says which share of what it may take is gone.
/// From 1 on the search stops. Whoever has a clock puts it in here; tests count.
pub type Budget<'a> = dyn FnMut() -> f64 + 'a;

/// Does two things at once, or one after the other. The first says at its end whether the second may stop; the second
/// asks again and again whether to go on.
pub type AtOnce<'a> =
    dyn Fn(&mut dyn FnMut() -> bool, &mut (dyn FnMut(&dyn Fn() -> bool) + Send)) + 'a;

/// A second search of a large puzzle, which counts what it tries: it comes to the same on every machine.
pub struct Second<'a> {
    /// Who has threads puts them in here.
    pub at_once: &'a AtOnce<'a>,
    /// So many orders are tried.
    pub tries: u32,
}

impl<'a> Second<'a> {
    /// As many tries as a core does in so many seconds (measured here: 13,000 on a day of 128 tasks on a full machine).
    pub fn of(at_once: &'a AtOnce<'a>, seconds: f64) -> Self {
        const IN_A_SECOND: f64 = 15_000.0;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // clamped
        let tries = (seconds * IN_A_SECOND).clamp(0.0, 4e9) as u32;
        Self { at_once, tries }
    }

    /// A share of what may be tried.
    pub fn part(&self, share: f64) -> u32 {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        // a share of a whole number
        let part = (f64::from(self.tries) * share) as u32;
        part
    }

    /// The same search with a share of its tries.
    #[must_use]
    pub fn share(&self, share: f64) -> Self {
        Self {
            at_once: self.at_once,
            tries: self.part(share),
        }
    }
}

/// So many orders of the doughs are tried for the first plan, within this share of the budget.
const ORDERS: u32 = 400;
/// See [`ORDERS`].
const LISTS: f64 = 0.15;

/// Solves a puzzle.
pub fn solve(problem: &Problem, budget: &mut Budget<'_>) -> Outcome {
    solve_with(problem, budget, None)
}

/// Solves a puzzle, a large one with a second search beside the first.
pub fn solve_with(
    problem: &Problem,
    budget: &mut Budget<'_>,
    second: Option<&Second<'_>>,
) -> Outcome {
    let first = list::list(problem, &mut |tried| tried < ORDERS && budget() < LISTS);
    search::search(problem, first, budget, second)
}
