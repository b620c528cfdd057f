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

/// Gaps by the task that they lead to.
pub fn before(problem: &Problem) -> Vec<Vec<Gap>> {
    let mut before = vec![Vec::new(); problem.tasks.len()];
    for gap in &problem.gaps {
        before[gap.to].push(*gap);
    }
    before
}
