//! Times the plan of bake days beside OR-tools CP-SAT on the same puzzle, in the same seconds, both on two cores.
//!
//! `cargo run --release -p everyoven-benches --bin day [seconds]`

// How the program itself does both at once.
#[path = "../../../crates/app/src/world/beside.rs"]
mod beside;
#[path = "../../../tests/day_told.rs"]
mod day_told;

use bake::kitchen::Kitchen;
use bake::simulate::{Follows, How};
use beside::beside;
use day_told::told;
use everyoven_benches::row::Row;
use plan::day::lengths::{Length, lengths};
use plan::day::means::Means;
use plan::day::problem::{Cost, Problem};
use plan::day::solve::{Outcome, solve, solve_with};
use plan::day::tasks::{Batch, Place, Serve, tasks};
use recipe::document::model::Recipe;
use recipe::document::read_recipe;
use recipe::formula::Formula;
use recipe::larder::Larder;
use serde_json::{Value, json};
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

struct Known {
    recipe: Recipe,
    formula: Formula,
    lengths: Vec<Length>,
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("benches/ lies in the project")
}

fn known(name: &str, kitchen: &Kitchen) -> Known {
    let path = root().join(format!("examples/{name}.toml"));
    let text = std::fs::read_to_string(path).expect("an example");
    let recipe = read_recipe(&text).output.expect("it reads");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let formula = recipe::formula::formula(&recipe, &larder).output;
    let how = How {
        follows: Follows::Clock,
        ..How::default()
    };
    Known {
        lengths: lengths(&recipe, &formula, kitchen, &how),
        recipe,
        formula,
    }
}

fn main() {
    let seconds: f64 = std::env::args()
        .nth(1)
        .and_then(|word| word.parse().ok())
        .unwrap_or(10.0);
    let kitchen = Kitchen::standard();
    let means = Means::default();
    let all = ["cardamom-dough", "same-day-loaf", "hearth-loaf"].map(|name| known(name, &kitchen));
    let place = Place {
        kitchen: &kitchen,
        means: &means,
        starts: jiff::civil::date(2026, 12, 23).at(18, 0, 0, 0),
        zone: None,
    };
    let evening = |by: i32| {
        vec![Serve {
            batch: None,
            product: None,
            by,
            out: false,
        }]
    };
    println!(
        "{seconds} s each, CP-SAT on two workers; minutes late, past its best, moved, last bread, stretch of work, early, waits"
    );
    println!(
        "| day | tasks | first plan | ours | gap | proven | CP-SAT | its gap | ours took | its took |"
    );
    println!("|---|---|---|---|---|---|---|---|---|---|");
    for (name, of, serve) in [
        ("four breads, soonest", vec![0], Vec::new()),
        ("four breads by 16:00", vec![0], evening(1320)),
        ("two recipes, soonest", vec![0, 1], Vec::new()),
        (
            "three recipes twice, soonest",
            vec![0, 1, 2, 0, 1, 2],
            Vec::new(),
        ),
        (
            "three recipes twice by 20:00",
            vec![0, 1, 2, 0, 1, 2],
            evening(1560),
        ),
    ] {
        let batches: Vec<Batch<'_>> = of
            .iter()
            .enumerate()
            .map(|(at, of): (usize, &usize)| Batch {
                recipe: &all[*of].recipe,
                formula: &all[*of].formula,
                label: format!("{} {}", all[*of].recipe.title.value, at + 1),
                lengths: all[*of].lengths.clone(),
            })
            .collect();
        let made = tasks(&place, &batches, &serve);
        row(name, &made.problem, seconds);
    }
}

fn row(name: &str, problem: &Problem, seconds: f64) {
    let began = Instant::now();
    let first = matches!(solve(problem, &mut || 1.0), Outcome::Plan(_));
    let first = first.then(|| began.elapsed());
    let began = Instant::now();
    let ours = solve_with(
        problem,
        &mut || began.elapsed().as_secs_f64() / seconds,
        Some(&beside),
    );
    let took = began.elapsed();
    let heard = ask(&json!({ "problem": told(problem), "seconds": seconds, "workers": 2 }));
    let numbers = |key: &str| -> Vec<i64> {
        let all = heard[key].as_array().into_iter().flatten();
        all.filter_map(Value::as_i64).collect()
    };
    let (levels, bounds) = (numbers("levels"), numbers("bounds"));
    let theirs: Vec<i64> = levels.iter().zip(&bounds).map(|(a, b)| a - b).collect();
    let their_time: f64 = heard["seconds"]
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(Value::as_f64)
        .sum();
    let (cost, gaps, proven) = match &ours {
        Outcome::Plan(plan) => (plan.cost.levels(), plan.gaps(), plan.proven()),
        Outcome::None | Outcome::Unknown => ([-1; Cost::LEVELS], [-1; Cost::LEVELS], false),
    };
    println!(
        "| {name} | {} | {first:?} | {cost:?} | {gaps:?} | {proven} | {levels:?} | {theirs:?} | {took:?} | {their_time:.1} s |",
        problem.tasks.len()
    );
    let all = |cost: &[i64]| {
        cost.iter()
            .map(i64::to_string)
            .collect::<Vec<_>>()
            .join(", ")
    };
    let verdict = if proven {
        ", proven best"
    } else {
        ", not proven"
    };
    let aim = if problem.tasks.len() < 100 {
        "proven in 2 s"
    } else {
        "first plan in 100 ms; never worse than the peer"
    };
    Row::new(
        format!(
            "`day`: {name}, {} tasks; {seconds} s at most",
            problem.tasks.len()
        ),
        aim,
        format!(
            "first plan {:.1} ms; {:.1} s; {}{verdict}",
            first.map_or(f64::NAN, |first| 1e3 * first.as_secs_f64()),
            took.as_secs_f64(),
            all(&cost.map(i64::from))
        ),
        format!("CP-SAT: {their_time:.1} s; {}", all(&levels)),
    )
    .tell();
}

/// What the peer says.
fn ask(problem: &Value) -> Value {
    let peers = root().join("tests/peers");
    let mut running = Command::new(peers.join(".venv/bin/python"))
        .arg(peers.join("day.py"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the Python peers are installed: tests/run installs them");
    let mut stdin = running.stdin.take().expect("a pipe");
    let _ = stdin.write_all(problem.to_string().as_bytes());
    drop(stdin);
    let out = running.wait_with_output().expect("Python ends");
    serde_json::from_slice(&out.stdout).unwrap_or(Value::Null)
}
