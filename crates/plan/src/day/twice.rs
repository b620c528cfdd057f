//! A large day searched twice at once: one search asks for the whole plan, the other turns orders round from the first list.
//!
//! Both hear one stop, so the seconds are kept on any machine; what comes of them may differ from run to run, as the
//! machine is quicker or slower, unless the plan is proven best.

use super::list;
use super::problem::{Cost, Problem};
use super::search::{self, Found};
use super::solve::{AtOnce, Budget, Outcome, listed};
use super::walk::From;

/// Where every bread has a time: of the budget so much is gone when both go on from the better plan, and so much of what
/// the solver takes otherwise (ours).
const TIMED: (f64, f64) = (0.85, 0.4);
/// The same where some bread has none.
const SOON: (f64, f64) = (0.7, 1.0);
/// How both go on afterwards: until when, and how each; at the end one of them looks for shorter waits alone (ours).
const AFTERWARDS: [(f64, From, From); 2] = [
    (0.9, From::Good, From::Beside),
    (1.0, From::Waits, From::Last),
];

/// Looks for a plan until it is proven best or the budget is gone.
pub fn search(problem: &Problem, budget: &mut Budget<'_>, at_once: &AtOnce<'_>) -> Outcome {
    // Whoever wants the first plan alone gets it at once.
    let first = list::list(problem, &mut |_| false);
    let first = match first {
        Some(starts) if budget() >= 1.0 => return search::unproven(problem, starts),
        first => first,
    };
    let timed = search::timed(problem);
    let (apart, solver) = if timed { TIMED } else { SOON };
    let (mut found, mut other) = (Err(Outcome::Unknown), None);
    at_once(
        &mut || {
            let mut part = || budget() / solver;
            let listed = listed(problem, &mut part);
            found = search::asked(problem, listed, &mut part);
            if let (Ok(found), Some(first)) = (&mut found, &first)
                && found.bound != problem.cost(&found.best).levels()
            {
                let go_on = &mut || budget() < apart;
                let (from, starts) = if timed {
                    (From::FirstToo, first.clone())
                } else {
                    (From::Good, found.best.clone())
                };
                let other = search::walked(problem, starts, from, found.bound, u32::MAX, go_on);
                better(problem, &mut found.best, &mut found.bound, other);
            }
        },
        &mut |go_on| {
            let least = [0; Cost::LEVELS];
            let walked = |starts| {
                search::walked(problem, starts, From::First, least, u32::MAX, &mut || {
                    go_on()
                })
            };
            other = first.clone().map(walked);
        },
    );
    let Found {
        mut best,
        mut bound,
        asked,
    } = match (found, &other) {
        (Err(Outcome::Unknown), Some(other)) => Found {
            best: other.clone(),
            bound: [0; Cost::LEVELS],
            asked: 0,
        },
        (Err(outcome), _) => return outcome,
        (Ok(found), _) => found,
    };
    if bound == problem.cost(&best).levels() {
        return search::best_of(problem, best, bound, asked);
    }
    if let Some(other) = other {
        better(problem, &mut best, &mut bound, other);
    }
    for (until, one, other) in AFTERWARDS {
        let walked = |from: From, go_on: &mut dyn FnMut() -> bool| {
            search::walked(problem, best.clone(), from, bound, u32::MAX, go_on)
        };
        let (mut first, mut second) = (None, None);
        at_once(
            &mut || first = Some(walked(one, &mut || budget() < until)),
            &mut |go_on| second = Some(walked(other, &mut || go_on())),
        );
        for found in first.into_iter().chain(second) {
            better(problem, &mut best, &mut bound, found);
        }
    }
    search::best_of(problem, best, bound, asked)
}

/// Takes another plan where it is better. What was known about plans as good as the one before is then known as far as
/// the first thing in which they differ.
fn better(
    problem: &Problem,
    best: &mut Vec<i32>,
    bound: &mut [i32; Cost::LEVELS],
    other: Vec<i32>,
) {
    let (now, less) = (problem.cost(best), problem.cost(&other));
    if less >= now {
        return;
    }
    let levels = now.levels().into_iter().zip(less.levels());
    let differ = levels.take_while(|(now, less)| now == less).count();
    bound[differ + 1..].fill(0);
    *best = other;
}
