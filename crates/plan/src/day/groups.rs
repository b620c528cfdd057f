//! Which tasks of a puzzle hang together: the doughs of a day.

use super::problem::{Gap, Problem};

/// Tasks that hang together by gaps, each group in an order in which a task follows those it waits for.
pub fn groups(problem: &Problem) -> Vec<Vec<usize>> {
    let count = problem.tasks.len();
    let mut group: Vec<usize> = (0..count).collect();
    for _ in 0..count {
        let mut still = true;
        for gap in &problem.gaps {
            let least = group[gap.from].min(group[gap.to]);
            if group[gap.from] != least || group[gap.to] != least {
                (group[gap.from], group[gap.to]) = (least, least);
                still = false;
            }
        }
        if still {
            break;
        }
    }
    // From the first: the longest way of least gaps to a task says when it can come.
    let mut depth: Vec<i32> = vec![0; count];
    for _ in 0..count {
        let mut still = true;
        for gap in &problem.gaps {
            let wanted = depth[gap.from] + gap.least;
            if depth[gap.to] < wanted {
                depth[gap.to] = wanted;
                still = false;
            }
        }
        if still {
            break;
        }
    }
    let mut all: Vec<Vec<usize>> = Vec::new();
    for first in 0..count {
        let mut members: Vec<usize> = (0..count).filter(|task| group[*task] == first).collect();
        if !members.is_empty() {
            members.sort_by_key(|task| (depth[*task], *task));
            all.push(members);
        }
    }
    all
}

/// Orders in which a group may be laid out: all together as they come, or one bread after the other, each of
/// them once as the first, forwards and backwards.
pub fn orders(problem: &Problem, group: &[usize]) -> Vec<Vec<usize>> {
    let ends: Vec<usize> = group
        .iter()
        .copied()
        .filter(|task| problem.gaps.iter().all(|gap| gap.from != *task))
        .collect();
    let mut all = vec![group.to_vec()];
    for turn in 0..ends.len() {
        let mut turned = ends.clone();
        turned.rotate_left(turn);
        let back = turned.iter().rev().copied().collect();
        for ends in [turned, back] {
            let order = one_after_another(problem, group, &ends);
            if !all.contains(&order) {
                all.push(order);
            }
        }
    }
    all
}

/// Each end with everything that it waits for and that is not laid out yet.
fn one_after_another(problem: &Problem, group: &[usize], ends: &[usize]) -> Vec<usize> {
    let mut order: Vec<usize> = Vec::new();
    for end in ends {
        let mut wanted = vec![*end];
        let mut next = 0;
        while let Some(task) = wanted.get(next).copied() {
            next += 1;
            for gap in problem.gaps.iter().filter(|gap| gap.to == task) {
                if !wanted.contains(&gap.from) && !order.contains(&gap.from) {
                    wanted.push(gap.from);
                }
            }
        }
        // The group is in an order that can be gone through already.
        let own = group.iter().filter(|task| wanted.contains(task));
        order.extend(own.copied().collect::<Vec<_>>());
    }
    order
}

/// Gaps by the task that they lead to.
pub fn before(problem: &Problem) -> Vec<Vec<Gap>> {
    let mut before = vec![Vec::new(); problem.tasks.len()];
    for gap in &problem.gaps {
        before[gap.to].push(*gap);
    }
    before
}
