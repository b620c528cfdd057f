//! Times the ways of stepping in time on one section beside one another, and `SciPy`'s in the same run.
//!
//! `cargo run --release -p everyoven-benches --bin stepping [cells across] [cells up]`

use everyoven_benches::counted::{Counted, taken};
use everyoven_benches::explicit::stages_for;
use everyoven_benches::row::{Row, said_s};
use everyoven_benches::stepping::{Baking, Found, Way, section, stable_s};
use numerics::lane::{Eight, Lane};
use serde_json::{Value, json};
use std::fs::read_to_string;
use std::hint::black_box;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;
use xtask::validation::fronts::{CRUST, DENSITY, DRY, LATENT, Section, WATER, WET};

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
    let mut peers = Vec::new();
    println!("\n| SciPy's BDF | evaluations | 88 °C | lost 20 min | lost 30 min | s |");
    println!("|---|---|---|---|---|---|");
    for tolerance in [1e-2, 3e-3, 1e-3, 3e-4, 1e-4, 1e-6] {
        match scipy(&section, tolerance, truth.to_88_s.unwrap_or(0.0)) {
            Some((found, took_s)) => {
                println!(
                    "| to {tolerance:.0e} | {} | {} | {took_s:.3} |",
                    found.evaluations,
                    off(&found, &truth)
                );
                peers.push((error_s(&found, &truth), took_s));
            }
            None => println!("| SciPy is not installed: tests/run does it | | | | | |"),
        }
    }
    println!("\n| the lines' scheme in Numba | step | 88 °C | lost 20 min | lost 30 min | s |");
    println!("|---|---|---|---|---|---|");
    for step_s in [1.0, 2.5, 5.0] {
        match numba(&section, step_s) {
            Some((found, took_s)) => {
                println!(
                    "| compiled | {step_s} s | {} | {took_s:.5} |",
                    off(&found, &truth)
                );
            }
            None => println!("| Numba is not installed: tests/run does it | | | | | |"),
        }
    }
    println!(
        "\nseconds a bake, the least of {RUNS}; and of one kitchen among eight, single precision, with how far it is off:"
    );
    for (name, steps, took_s, (eight_s, eight_off)) in ours_s {
        let step_s = 60.0 / f64::from(steps);
        println!("{name} {step_s:.3} s: {took_s:.5}; {eight_s:.5}, {eight_off}");
    }
    beside_scipy(&section, &truth, &peers);
    work(&section);
    println!("load after: {}", load());
}

/// How far the minute of 88 °C in the middle is off, s.
fn error_s(found: &Found, truth: &Found) -> f64 {
    let both = found.to_88_s.zip(truth.to_88_s);
    both.map_or(f64::INFINITY, |(one, other)| (one - other).abs())
}

/// Rows of the table of targets: our step beside the answer of the peer whose error comes nearest to ours.
fn beside_scipy(section: &Section, truth: &Found, peers: &[(f64, f64)]) {
    for steps in [24, 60] {
        let (found, took_s) = timed::<f64>(section, Way::Lines, steps);
        let ours = error_s(&found, truth);
        let near = |one: &&(f64, f64)| (one.0 / ours).ln().abs();
        let beside = peers.iter().min_by(|a, b| near(a).total_cmp(&near(b)));
        let peer = beside.map_or_else(String::new, |(off_s, peer_s)| {
            format!(
                "SciPy's BDF: {} ({off_s:.1} s off), {:.0} times ours",
                said_s(*peer_s),
                peer_s / took_s
            )
        });
        Row::new(
            format!(
                "a bake of 30 min, {} cells, steps of {} s",
                section.mesh.cells(),
                60.0 / f64::from(steps)
            ),
            "100 times, then 300",
            format!("{} ({ours:.1} s off at 88 °C)", said_s(took_s)),
            peer,
        )
        .tell();
    }
}

/// What a step of lines does with each cell, counted, and how near that comes to what this core does at most.
fn work(section: &Section) {
    let _ = taken();
    let _ = Baking::<Counted>::of(section, Way::Lines, 24).bake();
    let tally = taken();
    let cell_steps = section.mesh.cells() as f64 * 24.0 * 30.0;
    let each = |count: u64| count as f64 / cell_steps;
    let (_, took_s) = timed::<f64>(section, Way::Lines, 24);
    let (_, eight_s) = timed::<Eight>(section, Way::Lines, 24);
    let (double, single) = (most::<f64>(), most::<Eight>());
    println!(
        "\na step of lines, for each cell: {:.0} sums and products, {:.1} quotients, {:.1} values read of tables; {:.0} in all",
        each(tally.simple),
        each(tally.quotients),
        each(tally.read),
        each(tally.all())
    );
    let rate = |took_s: f64| 1e-9 * tally.all() as f64 / took_s;
    println!(
        "{:.2} of them in a nanosecond, {:.0} % of the {double:.2} that a loop of products and sums makes here; of eight kitchens {:.2}, {:.0} % of {single:.2}",
        rate(took_s),
        100.0 * rate(took_s) / double,
        rate(eight_s / 8.0),
        100.0 * rate(eight_s / 8.0) / single
    );
}

/// Products and sums in a nanosecond, at most: independent ones over a list that stays in the nearest cache, by this
/// compiler for this build.
fn most<L: Lane>() -> f64 {
    const LIST: usize = 64;
    const TIMES: u32 = 200_000;
    let (by, more) = (L::splat(0.999), L::splat(1e-3));
    let mut list = [L::splat(1.0); LIST];
    let mut least = f64::INFINITY;
    for _ in 0..RUNS {
        let began = Instant::now();
        for _ in 0..TIMES {
            for one in &mut list {
                *one = *one * by + more;
            }
            black_box(&mut list);
        }
        least = least.min(began.elapsed().as_secs_f64());
    }
    2.0 * (LIST * L::LANES) as f64 * f64::from(TIMES) / least * 1e-9
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
        heard = ask("bake.py", &problem)?;
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

/// The lines' own scheme by `tests/peers/lines.py`, once it is compiled, the best of as many runs as ours.
fn numba(section: &Section, step_s: f64) -> Option<(Found, f64)> {
    let heard = ask(
        "lines.py",
        &json!({
            "across_m": section.mesh.across_m(), "up_m": section.mesh.up_m(),
            "wet": WET, "dry": DRY, "latent": LATENT, "crust": CRUST, "density": DENSITY,
            "start": section.start, "step": step_s, "last": 1800, "runs": RUNS,
            "side": { "air": section.oven, "film": section.film, "emissivity": section.emissivity },
        }),
    )?;
    let list = |key: &str| -> Option<Vec<f64>> {
        heard[key].as_array()?.iter().map(Value::as_f64).collect()
    };
    let (middle, dried) = (list("middle")?, list("dry")?);
    let at = |seconds: f64| {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // within the list
        let place = (seconds / step_s).round() as usize - 1;
        100.0 * WATER * dried[place]
    };
    let to_88_s = (1..middle.len())
        .find(|place| middle[place - 1] < 88.0 && middle[*place] >= 88.0)
        .map(|place| {
            let part = (88.0 - middle[place - 1]) / (middle[place] - middle[place - 1]);
            step_s * (place as f64 + part)
        });
    let found = Found {
        to_88_s,
        lost: [at(1200.0), at(1800.0)],
        steps: middle.len() as u64,
        evaluations: 2 * middle.len() as u64,
    };
    Some((found, heard["took_s"].as_f64()?))
}

fn ask(script: &str, problem: &Value) -> Option<Value> {
    let peers = Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()?
        .join("tests/peers");
    let mut running = Command::new(peers.join(".venv/bin/python"))
        .arg(peers.join(script))
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
