//! A first plan at once: dough after dough, each task as early as its neighbours and places allow.

use super::groups::{groups, orders};
use super::laid::Laid;
use super::problem::{Cost, Problem};

/// A plan that keeps to everything; none when this way does not find one.
///
/// Doughs are laid out in the order in which they are wanted; then, as long as `go_on` says so, two change
/// places, and what is better stays.
pub fn list(problem: &Problem, go_on: &mut dyn FnMut(u32) -> bool) -> Option<Vec<i32>> {
    let mut groups = groups(problem);
    groups.sort_by_key(|group| {
        let by = problem
            .wishes
            .iter()
            .filter(|wish| group.contains(&wish.task))
            .filter_map(|wish| wish.by)
            .min();
        (by.unwrap_or(i32::MAX), group.first().copied())
    });
    let mut best = in_order(problem, &groups);
    let count = groups.len();
    let mut since = 0;
    let mut tried = 0;
    // Which bread of a dough comes first.
    for group in 0..count {
        for order in orders(problem, &groups[group]).into_iter().skip(1) {
            if !go_on(tried) {
                break;
            }
            tried += 1;
            let before = std::mem::replace(&mut groups[group], order);
            let next = in_order(problem, &groups);
            if better(next.as_ref(), best.as_ref()) {
                best = next;
            } else {
                groups[group] = before;
            }
        }
    }
    let mut turn = 0;
    // Every pair once without a gain is the end of it.
    while count > 1 && since < count * (count - 1) / 2 && go_on(tried) {
        let (one, other) = pair(turn, count);
        groups.swap(one, other);
        let next = in_order(problem, &groups);
        tried += 1;
        turn += 1;
        if better(next.as_ref(), best.as_ref()) {
            best = next;
            since = 0;
        } else {
            groups.swap(one, other);
            since += 1;
        }
    }
    best.map(|(_, starts)| starts)
}

/// Every pair of so many, one after the other.
fn pair(turn: usize, count: usize) -> (usize, usize) {
    let mut left = turn % (count * (count - 1) / 2);
    for one in 0..count {
        let others = count - 1 - one;
        if left < others {
            return (one, one + 1 + left);
        }
        left -= others;
    }
    (0, count - 1)
}

/// A plan with what it costs.
type Plan = (Cost, Vec<i32>);

/// Whether there is a plan that costs less than another, or where there was none.
fn better(plan: Option<&Plan>, than: Option<&Plan>) -> bool {
    plan.is_some_and(|(cost, _)| than.is_none_or(|(least, _)| cost < least))
}

/// Lays the groups out one after the other.
fn in_order(problem: &Problem, groups: &[Vec<usize>]) -> Option<Plan> {
    let mut laid = Laid::new(problem);
    for group in groups {
        laid.best_of(group)?;
    }
    let starts = laid.all().filter(|starts| problem.holds(starts))?;
    let starts = settle(problem, groups, starts);
    Some((problem.cost(&starts), starts))
}

/// A plan in which what can come later without harm does: whole doughs first, then task by task.
pub fn settle(problem: &Problem, groups: &[Vec<usize>], mut starts: Vec<i32>) -> Vec<i32> {
    let mut cost = problem.cost(&starts);
    for group in groups {
        let mut stride = 512;
        while stride > 0 {
            let moved = |by: i32| {
                let mut moved = starts.clone();
                for task in group {
                    moved[*task] += by;
                }
                let holds = problem.holds(&moved);
                holds.then(|| (problem.cost(&moved), moved))
            };
            match moved(stride).filter(|(next, _)| *next < cost) {
                Some((next, moved)) => (cost, starts) = (next, moved),
                None => stride /= 2,
            }
        }
    }
    let mut order: Vec<usize> = (0..starts.len()).collect();
    order.sort_by_key(|task| -starts[*task]);
    for task in order {
        let own = problem.gaps.iter().filter(|gap| gap.from == task);
        let latest = own.map(|gap| starts[gap.to] - gap.least).min();
        let Some(latest) = latest.filter(|latest| *latest > starts[task]) else {
            continue;
        };
        let before = std::mem::replace(&mut starts[task], latest);
        let next = problem.cost(&starts);
        if next < cost && problem.holds(&starts) {
            cost = next;
        } else {
            starts[task] = before;
        }
    }
    starts
}
