//! Times the ways of stepping in time on one section beside one another, and `SciPy`'s in the same run.
//!
//! `cargo run --release -p everyoven-benches --bin stepping [cells across] [cells up]`

use everyoven_benches::explicit::stages_for;
use everyoven_benches::stepping::{Baking, Found, Way, section, stable_s};
use numerics::lane::{Eight, Lane};
use serde_json::{Value, json};
use std::fs::read_to_string;
use std::hint::black_box;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;
use xtask::validation::fronts::{CRUST, DRY, LATENT, Section, WATER, WET};

/// Every way is timed so often, and the least is kept.
const RUNS: u32 = 15;

fn main() {
    let mut asked = std::env::args().skip(1).map_while(|word| word.parse().ok());
    let across = asked.next().unwrap_or(12);
    let section = section(across, asked.next().unwrap_or(2 * across));
    println!("machine: {}; load before: {}", machine(), load());
    let stable = stable_s(&section);
    println!(
        "{} cells; the longest stable step of Euler is {stable:.4} s",
        section.mesh.cells()
    );
    // Several times shorter than it must be, and then drawn on to no step at all: its error goes with the step.
    let fine = |steps| Baking::<f64>::of(&section, Way::Euler, steps).bake();
    let (one, two) = (fine(3000), fine(6000));
    let truth = drawn_on(&one, &two);
    println!("held against: {truth:?}");
    println!("Euler 0.01 s is off by {}", off(&two, &truth));
    println!(
        "\n| way | step | steps | flows | 88 °C | lost 20 min | lost 30 min | ns a cell and second | of eight |"
    );
    println!("|---|---|---|---|---|---|---|---|---|");
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // about a thousand
    let euler_steps = (60.0 / stable).ceil() as u32;
    let legendre = |step_s: f64| Way::Legendre(stages_for(1.05 * step_s / stable));
    let mut rows = vec![
        ("Euler", Way::Euler, euler_steps),
        ("Legendre", legendre(1.0), 60),
        ("Legendre", legendre(2.5), 24),
        ("Legendre", legendre(5.0), 12),
        ("Legendre", legendre(10.0), 6),
    ];
    rows.extend([600, 120, 60, 24, 12, 6].map(|steps| ("lines", Way::Lines, steps)));
    let mut ours_s = Vec::new();
    for (name, way, steps) in rows {
        let (found, took_s) = timed::<f64>(&section, way, steps);
        let (in_eight, eight_s) = timed::<Eight>(&section, way, steps);
        let per = 1e9 / (section.mesh.cells() as f64 * 1800.0);
        let stages = match way {
            Way::Legendre(stages) => format!(", {stages} stages"),
            _ => String::new(),
        };
        println!(
            "| {name}{stages} | {:.3} s | {} | {} | {} | {:.1} | {:.1} |",
            60.0 / f64::from(steps),
            found.steps,
            found.evaluations,
            off(&found, &truth),
            per * took_s,
            per * eight_s / 8.0
        );
        let eight = (eight_s / 8.0, off(&in_eight, &truth));
        ours_s.push((format!("{name}{stages}"), steps, took_s, eight));
    }
    println!("\n| SciPy's BDF | evaluations | 88 °C | lost 20 min | lost 30 min | s |");
    println!("|---|---|---|---|---|---|");
    for tolerance in [1e-2, 3e-3, 1e-3, 3e-4, 1e-4, 1e-6] {
        match scipy(&section, tolerance, truth.to_88_s.unwrap_or(0.0)) {
            Some((found, took_s)) => println!(
                "| to {tolerance:.0e} | {} | {} | {took_s:.3} |",
                found.evaluations,
                off(&found, &truth)
            ),
            None => println!("| SciPy is not installed: tests/run does it | | | | | |"),
        }
    }
    println!(
        "\nseconds a bake, the least of {RUNS}; and of one kitchen among eight, single precision, with how far it is off:"
    );
    for (name, steps, took_s, (eight_s, eight_off)) in ours_s {
        let step_s = 60.0 / f64::from(steps);
        println!("{name} {step_s:.3} s: {took_s:.5}; {eight_s:.5}, {eight_off}");
    }
    println!("load after: {}", load());
}

fn drawn_on(one: &Found, two: &Found) -> Found {
    let on = |one: f64, two: f64| 2.0 * two - one;
    Found {
        to_88_s: one.to_88_s.zip(two.to_88_s).map(|(a, b)| on(a, b)),
        lost: [on(one.lost[0], two.lost[0]), on(one.lost[1], two.lost[1])],
        ..*two
    }
}

/// Three columns of a table.
fn off(found: &Found, truth: &Found) -> String {
    let time = found.to_88_s.zip(truth.to_88_s);
    format!(
        "{} | {:+.4} | {:+.4}",
        time.map_or("never".to_owned(), |(a, b)| format!("{:+.3} s", a - b)),
        found.lost[0] - truth.lost[0],
        found.lost[1] - truth.lost[1]
    )
}

/// What is found, and the least time that a bake took, s.
fn timed<L: Lane>(section: &Section, way: Way, steps: u32) -> (Found, f64) {
    let mut least = f64::INFINITY;
    let mut found = None;
    for _ in 0..RUNS {
        let mut baking = Baking::<L>::of(section, way, steps);
        let began = Instant::now();
        found = Some(black_box(baking.bake()));
        least = least.min(began.elapsed().as_secs_f64());
    }
    (found.expect("it ran"), least)
}

/// The same section and equations by `tests/peers/bake.py`, the best of three; none when it is not installed.
fn scipy(section: &Section, tolerance: f64, near_s: f64) -> Option<(Found, f64)> {
    let side = json!({
        "air": section.oven, "film": section.film, "emissivity": section.emissivity
    });
    // Around the time that is looked for, and where the loss is.
    let mut seconds: Vec<f64> = (-12..=12).map(|at| near_s + 2.5 * f64::from(at)).collect();
    seconds.extend([0.0, 1200.0, 1800.0]);
    seconds.sort_by(f64::total_cmp);
    let problem = json!({
        "round": true,
        "across_m": section.mesh.across_m(), "up_m": section.mesh.up_m(),
        "wet": WET, "dry": DRY, "latent": LATENT, "crust": CRUST, "boils": 100.0,
        "start": section.start, "side": side, "bottom": side, "top": side,
        "seconds": seconds, "rtol": tolerance,
    });
    let mut least = f64::INFINITY;
    let mut heard = Value::Null;
    for _ in 0..3 {
        heard = ask(&problem)?;
        least = least.min(heard["took_s"].as_f64()?);
    }
    let list = |key: &str| -> Option<Vec<f64>> {
        heard[key].as_array()?.iter().map(Value::as_f64).collect()
    };
    let (middle, dried) = (list("middle")?, list("dry")?);
    let at = |wanted: f64| {
        let place = seconds.iter().position(|one| (one - wanted).abs() < 1e-9);
        place.map_or(f64::NAN, |place| 100.0 * WATER * dried[place])
    };
    let to_88_s = (1..middle.len())
        .find(|place| middle[place - 1] < 88.0 && middle[*place] >= 88.0)
        .map(|place| {
            let part = (88.0 - middle[place - 1]) / (middle[place] - middle[place - 1]);
            seconds[place - 1] + part * (seconds[place] - seconds[place - 1])
        });
    let found = Found {
        to_88_s,
        lost: [at(1200.0), at(1800.0)],
        steps: 0,
        evaluations: heard["evaluations"].as_u64()?,
    };
    Some((found, least))
}

fn ask(problem: &Value) -> Option<Value> {
    let peers = Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()?
        .join("tests/peers");
    let mut running = Command::new(peers.join(".venv/bin/python"))
        .arg(peers.join("bake.py"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .ok()?;
    let mut stdin = running.stdin.take()?;
    stdin.write_all(problem.to_string().as_bytes()).ok()?;
    drop(stdin);
    serde_json::from_slice(&running.wait_with_output().ok()?.stdout).ok()
}

fn machine() -> String {
    let told = read_to_string("/proc/cpuinfo").unwrap_or_default();
    let name = told.lines().find(|line| line.starts_with("model name"));
    let cores = told
        .lines()
        .filter(|line| line.starts_with("processor"))
        .count();
    let name = name.and_then(|line| line.split(": ").nth(1));
    format!("{}, {cores} cores", name.unwrap_or("not told"))
}

fn load() -> String {
    read_to_string("/proc/loadavg").map_or("not told".to_owned(), |told| told.trim().to_owned())
}
