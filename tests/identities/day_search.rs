//! The search for a bake day against trying every plan there is, on small puzzles made up by chance.

use crate::chance::Chance;
use plan::day::problem::{Cost, Gap, Oven, Pool, Problem, Shelf, Stay, Task, Use, Wish};
use plan::day::solve::{Outcome, solve};

const HORIZON: i32 = 11;
const TASKS: usize = 4;

/// Four tasks in a chain or two, some on the mixer, two bakes at two temperatures, a shelf, a wish.
fn puzzle(seed: u64) -> Problem {
    let mut chance = Chance(seed);
    chance.whole(2);
    let tasks: Vec<Task> = (0..TASKS)
        .map(|_| Task {
            lasts: 1 + chance.whole(3),
            earliest: chance.whole(2),
            latest: HORIZON,
        })
        .collect();
    let mut gaps = Vec::new();
    for to in 1..TASKS {
        if chance.whole(4) > 0 {
            let from = chance.index(to);
            let least = tasks[from].lasts + chance.whole(2);
            let best = least + chance.whole(3);
            gaps.push(Gap {
                from,
                to,
                least,
                best,
                most: best + chance.whole(4),
            });
        }
    }
    let mut uses = Vec::new();
    for (task, made) in tasks.iter().enumerate() {
        if chance.whole(3) > 0 {
            uses.push(Use {
                task,
                after: 0,
                lasts: made.lasts.min(1 + chance.whole(2)),
                count: 1,
            });
        }
    }
    let hands = Pool {
        capacity: 1 + chance.whole(2),
        uses,
        closed: if chance.whole(2) == 0 {
            let from = 2 + chance.whole(4);
            vec![(from, from + 1 + chance.whole(2))]
        } else {
            Vec::new()
        },
    };
    let bakes = vec![1, 3];
    let apart = if chance.whole(3) == 0 {
        vec![vec![None, None], vec![None, None]]
    } else {
        vec![
            vec![None, Some(chance.whole(3))],
            vec![Some(chance.whole(3)), None],
        ]
    };
    let rise = Stay {
        from: 0,
        to: 2,
        beyond: 0,
        count: 1,
    };
    let ordered = gaps.iter().any(|gap| gap.from == 0 && gap.to == 2);
    let shelf = Shelf {
        capacity: 1,
        stays: gaps
            .iter()
            .map(|gap| Stay {
                from: gap.from,
                to: gap.to,
                beyond: chance.whole(2),
                count: 1,
            })
            .collect(),
    };
    Problem {
        alike: Vec::new(),
        horizon: HORIZON,
        gaps,
        pools: vec![hands],
        shelves: if chance.whole(2) == 0 {
            vec![shelf]
        } else {
            Vec::new()
        },
        oven: Oven {
            bakes,
            apart,
            rises: if ordered && chance.whole(2) == 0 {
                vec![rise]
            } else {
                Vec::new()
            },
            heats: vec![1, chance.whole(3)],
            cools: chance.whole(3),
        },
        wishes: vec![
            Wish {
                task: 3,
                by: (chance.whole(2) == 0).then(|| 5 + chance.whole(5)),
            },
            Wish { task: 1, by: None },
        ],
        stretches: vec![vec![0, 2, 3]],
        mornings: vec![(0, chance.whole(4))],
        known: if chance.whole(4) == 0 {
            vec![(2, chance.whole(6))]
        } else {
            Vec::new()
        },
        tasks,
    }
}

/// The least that any plan costs; none when no plan keeps to everything.
fn every_plan(problem: &Problem) -> Option<Cost> {
    let count = usize::try_from(HORIZON + 1).expect("small");
    (0..count.pow(4))
        .filter_map(|code| {
            let starts: Vec<i32> = (0..4_u32)
                .map(|at| i32::try_from(code / count.pow(at) % count).expect("small"))
                .collect();
            problem.holds(&starts).then(|| problem.cost(&starts))
        })
        .min()
}

#[test]
fn the_search_finds_what_trying_every_plan_finds() {
    let mut with_a_plan = 0;
    for seed in 0..300 {
        let problem = puzzle(seed);
        let best = every_plan(&problem);
        match (solve(&problem, &mut || 0.0), best) {
            (Outcome::Plan(found), Some(best)) => {
                with_a_plan += 1;
                assert!(problem.holds(&found.starts), "{seed}: {found:?}");
                assert_eq!(found.cost, best, "{seed}: {problem:#?}");
                assert!(found.proven(), "{seed}: {found:?}");
            }
            (Outcome::None, None) => {}
            (found, best) => panic!("{seed}: {found:?} where {best:?} is best"),
        }
    }
    assert!(with_a_plan > 100, "only {with_a_plan} of 300 can be done");
}

#[test]
fn a_search_that_may_not_go_on_says_how_far_it_came() {
    let problem = puzzle(7);
    let mut asked = 0;
    let mut budget = || {
        asked += 1;
        f64::from(asked) / 3.0
    };
    match solve(&problem, &mut budget) {
        Outcome::Plan(found) => {
            let cost = found.cost.levels();
            let better = (0..Cost::LEVELS).all(|level| found.bound[level] <= cost[level]);
            assert!(better && problem.holds(&found.starts));
        }
        Outcome::None | Outcome::Unknown => {}
    }
}
