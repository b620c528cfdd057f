//! What is ready before it is needed comes later: the last hand at a plan, whether it is proven or not.

use super::eased::Easing;
use super::groups::groups;
use super::list::settle;
use super::problem::{Cost, Problem};
use super::turns::{after, branches};

/// So often a plan is gone over at most; each time something came later.
const ROUNDS: usize = 40;

/// A plan in which no dough and no bread of it can come later without harm.
///
/// Whole doughs are moved past what others do in between, then everything at once as far as orders let it, then each
/// dough, each bread, and each step with all that follows it to any later minute that is free.
pub fn later(problem: &Problem, starts: Vec<i32>) -> Vec<i32> {
    let groups = groups(problem);
    let mut sets = groups.clone();
    sets.extend(branches(problem));
    sets.extend(after(problem));
    let mut easing = Easing::new(problem);
    let mut now = settle(problem, &groups, starts);
    let mut cost = problem.cost(&now);
    for _ in 0..ROUNDS {
        let before = cost;
        if let Some((eased, starts)) = easing.as_mut().and_then(|easing| easing.best(&now))
            && eased < cost
        {
            (cost, now) = (eased, starts);
        }
        for set in &sets {
            if let Some((less, moved)) = moved(problem, set, &now, cost) {
                (cost, now) = (less, moved);
            }
        }
        if cost == before {
            break;
        }
    }
    now
}

/// A plan in which some tasks come later together, by as much as one of them is ready too early, or less.
fn moved(problem: &Problem, set: &[usize], starts: &[i32], cost: Cost) -> Option<(Cost, Vec<i32>)> {
    let early = problem.wishes.iter().filter_map(|wish| {
        let own = set.contains(&wish.task);
        let by = wish.by.filter(|_| own)?;
        Some(by - problem.ends(wish.task, starts))
    });
    let most = early.max()?;
    // As far as what is before and after them lets them.
    let room = problem.gaps.iter().filter_map(|gap| {
        let between = starts[gap.to] - starts[gap.from];
        match (set.contains(&gap.from), set.contains(&gap.to)) {
            (true, false) => Some(between - gap.least),
            (false, true) => Some(gap.most - between),
            _ => None,
        }
    });
    let most = room.min().map_or(most, |room| room.min(most));
    (1..=most).rev().find_map(|by| {
        let mut moved = starts.to_vec();
        for task in set {
            moved[*task] += by;
        }
        let less = problem.cost(&moved);
        (less < cost && problem.holds(&moved)).then_some((less, moved))
    })
}
