//! What can change places without anything else changing: batches of one recipe, loads of one product.

use super::problem::Problem;
use super::tasks::{About, Batch};

/// Pairs of tasks, one for one, that can change places.
pub fn alike(
    problem: &Problem,
    about: &[About],
    batches: &[Batch<'_>],
) -> Vec<(Vec<usize>, Vec<usize>)> {
    let mut all = Vec::new();
    let of = |batch: usize| -> Vec<usize> {
        let own = (0..about.len()).filter(|task| about[*task].batch == batch);
        own.collect()
    };
    for (batch, own) in batches.iter().enumerate() {
        // The next of the same, so that three stand in one order.
        let next = (batch + 1..batches.len()).find(|other| {
            let other = &batches[*other];
            std::ptr::eq(own.recipe, other.recipe) && own.lengths == other.lengths
        });
        let pair = next.map(|next| (of(batch), of(next)));
        all.extend(pair.filter(|(one, other)| wanted_alike(problem, one, other)));
        let mut loads: Vec<(usize, usize)> = of(batch)
            .iter()
            .filter_map(|task| about[*task].product)
            .collect();
        loads.sort_unstable();
        loads.dedup();
        for (product, load) in loads {
            let of_load = |load: usize| -> Vec<usize> {
                let own = of(batch).into_iter();
                own.filter(|task| about[*task].product == Some((product, load)))
                    .collect()
            };
            let (one, other) = (of_load(load), of_load(load + 1));
            let same = one.len() == other.len()
                && one.iter().zip(&other).all(|(one, other)| {
                    about[*one].load == about[*other].load
                        && problem.tasks[*one] == problem.tasks[*other]
                });
            if same && !one.is_empty() && wanted_alike(problem, &one, &other) {
                all.push((one, other));
            }
        }
    }
    all
}

/// Whether the same is wanted of both.
fn wanted_alike(problem: &Problem, one: &[usize], other: &[usize]) -> bool {
    let wanted = |tasks: &[usize]| {
        let mut all: Vec<(usize, Option<i32>)> = problem
            .wishes
            .iter()
            .filter_map(|wish| {
                let place = tasks.iter().position(|task| *task == wish.task)?;
                Some((place, wish.by))
            })
            .collect();
        all.sort_unstable();
        all
    };
    one.len() == other.len() && wanted(one) == wanted(other)
}

/// Of two that are alike the first comes first, as the search has it.
pub fn in_turn(problem: &Problem, starts: &mut [i32]) {
    let mut still = false;
    while !still {
        still = true;
        for (one, other) in &problem.alike {
            let (Some(a), Some(b)) = (one.first(), other.first()) else {
                continue;
            };
            if starts[*a] > starts[*b] {
                for (a, b) in one.iter().zip(other) {
                    starts.swap(*a, *b);
                }
                still = false;
            }
        }
    }
}
