//! The puzzle of a bake day as `tests/peers/day.py` reads it.

use plan::day::problem::{FRESH_MIN, Problem, Stay};
use serde_json::{Value, json};

/// A puzzle as JSON.
pub fn told(problem: &Problem) -> Value {
    let stays = |stays: &[Stay]| -> Vec<Value> {
        stays
            .iter()
            .map(|stay| {
                json!({ "from": stay.from, "to": stay.to, "beyond": stay.beyond, "count": stay.count })
            })
            .collect()
    };
    let tasks: Vec<Value> = problem
        .tasks
        .iter()
        .map(
            |task| json!({ "lasts": task.lasts, "earliest": task.earliest, "latest": task.latest }),
        )
        .collect();
    let gaps: Vec<Value> = problem
        .gaps
        .iter()
        .map(|gap| {
            json!({
                "from": gap.from, "to": gap.to,
                "least": gap.least, "best": gap.best, "most": gap.most,
            })
        })
        .collect();
    let pools: Vec<Value> = problem
        .pools
        .iter()
        .map(|pool| {
            let uses: Vec<Value> = pool
                .uses
                .iter()
                .map(|one| {
                    json!({
                        "task": one.task, "after": one.after,
                        "lasts": one.lasts, "count": one.count,
                    })
                })
                .collect();
            json!({ "capacity": pool.capacity, "closed": pool.closed, "uses": uses })
        })
        .collect();
    let shelves: Vec<Value> = problem
        .shelves
        .iter()
        .map(|shelf| json!({ "capacity": shelf.capacity, "stays": stays(&shelf.stays) }))
        .collect();
    let wishes: Vec<Value> = problem
        .wishes
        .iter()
        .map(|wish| json!({ "task": wish.task, "by": wish.by }))
        .collect();
    let oven = &problem.oven;
    json!({
        "horizon": problem.horizon,
        "tasks": tasks,
        "gaps": gaps,
        "pools": pools,
        "shelves": shelves,
        "oven": {
            "bakes": oven.bakes, "apart": oven.apart, "heats": oven.heats,
            "cools": oven.cools, "rises": stays(&oven.rises),
        },
        "wishes": wishes,
        "fresh": FRESH_MIN,
        "stretches": problem.stretches,
        "mornings": problem.mornings,
        "known": problem.known,
    })
}
