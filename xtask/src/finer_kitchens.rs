//! The same kitchens on a rough and on a finer grid: what share comes out well on each, told once and written down.

use bake::anchor::anchor;
use bake::kitchens::audience::ready;
use bake::kitchens::{Row, kitchens, setup_on};
use bake::simulate::{Grid, How};
use numerics::draw::scramble;
use numerics::indices::jackknife;
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::larder::Larder;
use std::fmt::Write;
use std::path::Path;

/// The recipes that are followed.
const RECIPES: [&str; 4] = [
    "same-day-loaf",
    "cardamom-dough",
    "hearth-loaf",
    "feast-bread",
];

/// A table: each recipe's share on the rough grid and on the usual one, and how far they lie apart.
///
/// # Panics
/// When a demo recipe cannot be read or followed.
pub fn told(root: &Path, number: u64) -> String {
    let mut out = format!(
        "| recipe, {number} kitchens | rough grid | usual grid | apart, by the same kitchens | kitchens that change sides |\n|---|---|---|---|---|\n"
    );
    for name in RECIPES {
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
            kitchens(&setup, &audience, 1, 0..number).rows
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
