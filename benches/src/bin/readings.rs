//! Times what a reading at the bench costs, possible kitchens and all, and what three bakes teach, on every core.
//!
//! `cargo run --release -p everyoven-benches --bin readings [bakes]`

use bake::condition::{Life, OneLife};
use everyoven_benches::row::{Row, said_s};
use std::path::Path;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Instant;
use xtask::under_way::{World, demo, set_up, taught, whole};

fn main() {
    let asked = std::env::args().nth(1);
    let bakes: u64 = asked.and_then(|word| word.parse().ok()).unwrap_or(40);
    let (recipe, sums) = demo(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join(".."),
        "same-day-loaf",
    );
    let here = set_up(&recipe, &sums);
    let mut runs = 0;
    let told_s = times(bakes, |at| {
        runs += whole(&here, World::AsReckoned, at..at + 1, &each).runs;
    });
    Row::new(
        format!(
            "a bake under way told from its readings, {bakes} made-up ones, {} runs in the mean",
            runs / bakes.max(1)
        ),
        "2 s",
        said(&told_s),
        "",
    )
    .tell();
    let kitchens = bakes.div_ceil(4);
    let learnt_s = times(kitchens, |at| {
        taught(&here, at..at + 1, &each);
    });
    Row::new(
        format!("what three bakes teach, {kitchens} made-up kitchens"),
        "",
        said(&learnt_s),
        "",
    )
    .tell();
}

/// Seconds of each of so many, in order of size.
fn times(number: u64, mut one: impl FnMut(u64)) -> Vec<f64> {
    let mut all: Vec<f64> = (0..number)
        .map(|at| {
            let begins = Instant::now();
            one(at);
            begins.elapsed().as_secs_f64()
        })
        .collect();
    all.sort_by(f64::total_cmp);
    all
}

fn said(sorted_s: &[f64]) -> String {
    let of =
        |percent: usize| sorted_s.get((sorted_s.len() * percent / 100).min(sorted_s.len() - 1));
    let [middle, most] = [of(50), of(95)].map(|one| said_s(one.copied().unwrap_or(f64::NAN)));
    format!("{middle} in the middle, {most} at the 95th percentile")
}

/// On every core.
fn each(count: usize, one: &OneLife<'_>) -> Vec<Life> {
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let (next, made) = (AtomicUsize::new(0), Mutex::new(Vec::with_capacity(count)));
    std::thread::scope(|scope| {
        for _ in 0..cores {
            scope.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    if at >= count {
                        return;
                    }
                    let life = one(at);
                    made.lock().expect("a list").push((at, life));
                }
            });
        }
    });
    let mut made: Vec<(usize, Life)> = made.into_inner().expect("a list");
    made.sort_by_key(|(at, _)| *at);
    made.into_iter().map(|(_, life)| life).collect()
}
