//! Bake days beside OR-tools CP-SAT: the same puzzle, the same order of what is weighed, the same seconds.
//!
//! No clock decides here: both are given so long that both prove their answer, or ours is stopped by counting.

use crate::bake_days::{Kitchen, known, puzzle};
use crate::day_told::told;
use crate::peer;
use plan::day::means::Means;
use plan::day::solve::{Outcome, solve};
use serde_json::{Value, json};

/// The four breads of the cardamom dough, one oven, as soon as can be: both prove the same cost.
#[test]
fn the_demo_day_costs_what_cp_sat_proves() {
    let kitchen = Kitchen::new();
    let dough = known(&kitchen, "cardamom-dough");
    let made = puzzle(&kitchen, &Means::default(), &[&dough], &[]);
    let heard = peer::ask(
        "day.py",
        Some(&json!({ "problem": told(&made.problem), "seconds": 120, "workers": 2 })),
    );
    let Outcome::Plan(ours) = solve(&made.problem, &mut || 0.0) else {
        panic!("the demo day can be planned")
    };
    let levels: Vec<i64> = heard["levels"]
        .as_array()
        .expect("levels")
        .iter()
        .filter_map(Value::as_i64)
        .collect();
    let bounds: Vec<i64> = heard["bounds"]
        .as_array()
        .expect("bounds")
        .iter()
        .filter_map(Value::as_i64)
        .collect();
    assert_eq!(levels, bounds, "the peer has proven it");
    let cost: Vec<i64> = ours.cost.levels().into_iter().map(i64::from).collect();
    assert_eq!(cost, levels);
    assert!(ours.proven());
    assert_eq!(ours.cost.past, 0, "no piece past its window");
    // The peer's plan keeps to everything by our reckoning too.
    let starts: Vec<i32> = heard["starts"]
        .as_array()
        .expect("starts")
        .iter()
        .filter_map(|start| i32::try_from(start.as_i64()?).ok())
        .collect();
    assert!(made.problem.holds(&starts));
    assert_eq!(made.problem.cost(&starts), ours.cost);
}
