//! Times many kitchens on one core and on all, and their step of heat beside the same scheme in Numba in the same run.
//!
//! `cargo run --release -p everyoven-benches --bin kitchens [kitchens] [recipe]`

use bake::anchor::anchor;
use bake::kitchens::audience::ready;
use bake::kitchens::{kitchens, setup};
use bake::simulate::{Grid, How};
use everyoven_benches::row::{Row, said_s};
use everyoven_benches::stepping::{Baking, Way, section};
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::larder::Larder;
use serde_json::{Value, json};
use std::hint::black_box;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;
use xtask::validation::fronts::{CRUST, DENSITY, DRY, LATENT, WET};

/// Every time is the least of so many runs.
const RUNS: u32 = 7;
/// Seconds of a step in the oven on the rough grid.
const STEP_S: f64 = 30.0;

fn main() {
    let mut asked = std::env::args().skip(1);
    let number: u64 = asked
        .next()
        .and_then(|word| word.parse().ok())
        .unwrap_or(400);
    let name = asked.next().unwrap_or_else(|| "cardamom-dough".to_owned());
    let path = root().join(format!("examples/{name}.toml"));
    let text = std::fs::read_to_string(path).expect("an example");
    let recipe = read_recipe(&text).output.expect("it reads");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let sums = formula(&recipe, &larder).output;
    let how = How {
        grid: Grid::Coarse,
        ..How::default()
    };
    let taught = anchor(&recipe, &sums, &[], &how).output;
    let made = setup(&recipe, &sums, taught.factors, taught.bakes).output;
    let setup = made.expect("it can be followed");
    let audience = ready("common").expect("a ready one");
    let run = |from: u64, to: u64| {
        black_box(kitchens(&setup, &audience, 1, from..to))
            .rows
            .len()
    };
    let one_s = least(|| run(0, number));
    let cores = std::thread::available_parallelism().map_or(1, usize::from) as u64;
    let all_s = least(|| {
        std::thread::scope(|scope| {
            let each = number.div_ceil(cores);
            let threads: Vec<_> = (0..cores)
                .map(|core| scope.spawn(move || run(core * each, ((core + 1) * each).min(number))))
                .collect();
            threads
                .into_iter()
                .filter_map(|one| one.join().ok())
                .sum::<usize>()
        })
    });
    println!(
        "{name}, {} products, {number} kitchens:",
        recipe.products.len()
    );
    for (cores, took_s) in [(1, one_s), (cores, all_s)] {
        println!(
            "{cores} cores: {:.0} kitchens a second, {:.2} ms each; ten thousand in {:.1} s",
            number as f64 / took_s,
            1e3 * took_s / number as f64,
            1e4 * took_s / number as f64
        );
    }
    Row::new(
        format!(
            "ten thousand kitchens of the {name}, {} breads each",
            recipe.products.len()
        ),
        "8 s",
        format!(
            "{} on {cores} cores, {} on one",
            said_s(1e4 * all_s / number as f64),
            said_s(1e4 * one_s / number as f64)
        ),
        "",
    )
    .tell();
    beside_numba();
}

/// One section of the rough grid's size baked for 30 min by its own step, and the same in Numba.
fn beside_numba() {
    let section = section(5, 10);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // two
    let steps = (60.0 / STEP_S) as u32;
    let mut ours_s = f64::INFINITY;
    for _ in 0..RUNS {
        let mut baking = Baking::<f64>::of(&section, Way::Lines, steps);
        let began = Instant::now();
        black_box(baking.bake());
        ours_s = ours_s.min(began.elapsed().as_secs_f64());
    }
    let problem = json!({
        "across_m": section.mesh.across_m(), "up_m": section.mesh.up_m(),
        "wet": WET, "dry": DRY, "latent": LATENT, "crust": CRUST, "density": DENSITY,
        "start": section.start, "step": STEP_S, "last": 1800, "runs": RUNS,
        "side": { "air": section.oven, "film": section.film, "emissivity": section.emissivity },
    });
    let Some(numba_s) = ask(&problem).and_then(|heard| heard["took_s"].as_f64()) else {
        println!("Numba is not installed: tests/run does it");
        return;
    };
    println!(
        "a bake of 30 min, 5 x 10 cells, steps of {STEP_S} s: ours {:.1} us, Numba {:.1} us: {:.2} times as fast",
        1e6 * ours_s,
        1e6 * numba_s,
        numba_s / ours_s
    );
    Row::new(
        format!("their bake of 30 min, 5 × 10 cells, steps of {STEP_S} s"),
        "",
        said_s(ours_s),
        format!(
            "the same scheme in Numba: {}, {:.1} times ours",
            said_s(numba_s),
            numba_s / ours_s
        ),
    )
    .tell();
}

fn least<T>(run: impl Fn() -> T) -> f64 {
    let mut least = f64::INFINITY;
    for _ in 0..RUNS {
        let began = Instant::now();
        black_box(run());
        least = least.min(began.elapsed().as_secs_f64());
    }
    least
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("benches/ lies in the project")
}

fn ask(problem: &Value) -> Option<Value> {
    let peers = root().join("tests/peers");
    let mut running = Command::new(peers.join(".venv/bin/python"))
        .arg(peers.join("lines.py"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .ok()?;
    let asked = problem.to_string();
    running.stdin.take()?.write_all(asked.as_bytes()).ok()?;
    let heard = running.wait_with_output().ok()?;
    serde_json::from_slice(&heard.stdout).ok()
}
