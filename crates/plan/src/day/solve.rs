//! From a puzzle to a plan: a list first, then a search that makes it better and says how good it is.

use super::list;
use super::problem::{Cost, Problem};
use super::search;
use super::twice;
use super::walk::LARGE;

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

/// Does two things at once: the second asks again and again whether to go on, and ends when the first has ended. Whoever
/// has threads puts them in here.
pub type AtOnce<'a> = dyn Fn(&mut dyn FnMut(), &mut (dyn FnMut(&dyn Fn() -> bool) + Send)) + 'a;

/// So many orders of the doughs are tried for the first plan, within this share of the budget.
const ORDERS: u32 = 400;
/// See [`ORDERS`].
const LISTS: f64 = 0.15;

/// Solves a puzzle.
pub fn solve(problem: &Problem, budget: &mut Budget<'_>) -> Outcome {
    solve_with(problem, budget, None)
}

/// Solves a puzzle, a large one by two searches at once where there is a way to have two.
pub fn solve_with(
    problem: &Problem,
    budget: &mut Budget<'_>,
    at_once: Option<&AtOnce<'_>>,
) -> Outcome {
    match at_once.filter(|_| problem.tasks.len() >= LARGE) {
        Some(at_once) => twice::search(problem, budget, at_once),
        None => search::search(problem, listed(problem, budget), budget),
    }
}

/// A first plan, within the first part of the budget.
pub(super) fn listed(problem: &Problem, budget: &mut Budget<'_>) -> Option<Vec<i32>> {
    list::list(problem, &mut |tried| tried < ORDERS && budget() < LISTS)
}
