//! The same kitchens on a rough and on a finer grid, by every core: what share comes out well on each, told once and written down.

use bake::anchor::anchor;
use bake::kitchens::audience::{Audience, ready};
use bake::kitchens::{Row, Setup, Tally, kitchens, setup_on};
use bake::simulate::{Grid, How};
use numerics::draw::scramble;
use numerics::indices::jackknife;
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::larder::Larder;
use std::fmt::Write;
use std::path::Path;
use std::sync::atomic::{AtomicU64, Ordering};

/// The recipes that are followed when none is named.
const RECIPES: [&str; 4] = [
    "same-day-loaf",
    "cardamom-dough",
    "hearth-loaf",
    "feast-bread",
];

/// Kitchens that one thread takes at a time; a series of eight stays whole.
const TAKEN: u64 = 64;

/// The kitchens `0..number` in their order, followed by every core.
fn followed(setup: &Setup<'_>, audience: &Audience, number: u64) -> Vec<Row> {
    let next = AtomicU64::new(0);
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let mut parts: Vec<(u64, Tally)> = std::thread::scope(|scope| {
        let working: Vec<_> = (0..cores)
            .map(|_| {
                scope.spawn(|| {
                    let mut mine = Vec::new();
                    loop {
                        let from = next.fetch_add(TAKEN, Ordering::Relaxed);
                        if from >= number {
                            return mine;
                        }
                        let until = number.min(from + TAKEN);
                        mine.push((from, kitchens(setup, audience, 1, from..until)));
                    }
                })
            })
            .collect();
        working
            .into_iter()
            .flat_map(|one| one.join().expect("a kitchen that can be followed"))
            .collect()
    });
    parts.sort_by_key(|(from, _)| *from);
    parts
        .into_iter()
        .flat_map(|(_, tally)| tally.rows)
        .collect()
}

/// A table: each recipe's share on the rough grid and on the usual one, and how far they lie apart; of all
/// the demo recipes, or of the one that is named.
///
/// # Panics
/// When a demo recipe cannot be read or followed.
pub fn told(root: &Path, number: u64, only: Option<&str>) -> String {
    let mut out = format!(
        "| recipe, {number} kitchens | rough grid | usual grid | apart, by the same kitchens | kitchens that change sides |\n|---|---|---|---|---|\n"
    );
    for name in RECIPES {
        if only.is_some_and(|only| only != name) {
            continue;
        }
        let path = root.join("examples").join(format!("{name}.toml"));
        let text = std::fs::read_to_string(&path).expect("a demo");
        let recipe = read_recipe(&text).output.expect("it reads");
        let mut larder = Larder::open();
        larder.stock(&recipe.pantry);
        let sums = formula(&recipe, &larder).output;
        let how = How {
            grid: Grid::Coarse,
            ..How::default()
        };
        let taught = anchor(&recipe, &sums, &[], &how).output;
        let audience = ready("common").expect("a ready one");
        let [rough, usual] = [Grid::Rough, Grid::Usual].map(|grid| {
            let made = setup_on(&recipe, &sums, taught.factors, taught.bakes, grid);
            let setup = made.output.expect("it can be followed");
            followed(&setup, &audience, number)
        });
        let well = |row: &Row| f64::from(u8::from(row.well()));
        let share = |rows: &[Row]| 100.0 * rows.iter().map(well).sum::<f64>() / rows.len() as f64;
        let apart = jackknife(|lets| {
            let kept = rough
                .iter()
                .zip(&usual)
                .filter(|(row, _)| lets(scramble(row.number)));
            let (mut sum, mut count) = (0.0, 0.0);
            for (one, other) in kept {
                sum += 100.0 * (well(one) - well(other));
                count += 1.0;
            }
            sum / count
        });
        let changed = rough
            .iter()
            .zip(&usual)
            .filter(|(one, other)| one.well() != other.well());
        let changed = 100.0 * changed.count() as f64 / rough.len() as f64;
        let _ = writeln!(
            out,
            "| {name} | {:.1} % | {:.1} % | {:+.1} ± {:.1} points | {changed:.1} % |",
            share(&rough),
            share(&usual),
            apart.value,
            apart.within
        );
    }
    out
}
