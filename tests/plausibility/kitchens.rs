//! Other kitchens beside an earlier reckoning of ours with far simpler models: 20 000 kitchens of a rich dough in
//! which every flaw was a formula of its own. Neither was ever held against kitchens; the misses are listed.

use crate::opened::opened;
use bake::anchor::anchor;
use bake::kitchens::audience::ready;
use bake::kitchens::{Setup, departure, kitchens, setup};
use bake::simulate::{Grid, How};
use everyoven_tests::tree::text;
use numerics::indices::quantile;
use recipe::document::model::Recipe;
use recipe::formula::Formula;

const SHARES: [f64; 5] = [0.05, 0.25, 0.50, 0.75, 0.95];

/// A row of the earlier reckoning: what, its values at the shares, and how near is near enough (the digits
/// that it was printed with and what another dough may differ by).
type Earlier = (&'static str, [f64; 5], f64);

const FLOUR: Earlier = (
    "flour taken against flour written",
    [0.92, 0.99, 1.005, 1.07, 1.23],
    0.03,
);
const WATER: Earlier = (
    "water that the flour feels",
    [0.49, 0.57, 0.60, 0.62, 0.66],
    0.02,
);
const SALT: Earlier = ("salt, % of the flour", [1.1, 1.6, 1.7, 1.8, 2.0], 0.15);
const DOUGH: Earlier = (
    "dough after the mix, °C",
    [20.0, 22.5, 24.4, 26.4, 28.8],
    1.0,
);
const RISE: Earlier = (
    "minutes to the sign of the first rise",
    [65.0, 87.0, 107.0, 134.0, 206.0],
    15.0,
);
const LOAF: Earlier = (
    "minutes of the loaf’s bake",
    [26.0, 30.0, 33.0, 37.0, 43.0],
    4.0,
);

/// Where the two differ by more than that. The dough is another one: a degree warmer as written, so that it rises
/// sooner in cold kitchens; and nobody here takes a loaf out for its colour before its shortest written time of 32 min.
const MISSES: [&str; 5] = [
    "dough after the mix, °C, 5 %",
    "dough after the mix, °C, 25 %",
    "dough after the mix, °C, 50 %",
    "minutes to the sign of the first rise, 95 %",
    "minutes of the loaf’s bake, 5 %",
];

fn read() -> (Recipe, Formula) {
    let written = text("examples/cardamom-dough.toml").expect("UTF-8");
    opened(&written)
}

fn set_up((recipe, formula): &(Recipe, Formula)) -> Setup<'_> {
    let how = How {
        grid: Grid::Coarse,
        ..How::default()
    };
    let taught = anchor(recipe, formula, &[], &how).output;
    let made = setup(recipe, formula, taught.factors, taught.bakes);
    made.output.expect("it can be followed")
}

/// Ours beside theirs; gives the misses.
fn beside(earlier: &Earlier, mut ours: Vec<f64>) -> Vec<String> {
    ours.retain(|value| value.is_finite());
    ours.sort_by(f64::total_cmp);
    let (what, theirs, near) = earlier;
    let mut misses = Vec::new();
    for (share, value) in SHARES.iter().zip(theirs) {
        let own = quantile(&ours, *share).expect("there are some");
        let off = (own - value).abs();
        let far = off > *near;
        println!(
            "{what}, {:.0} %: {own:.3} beside {value}{}",
            100.0 * share,
            if far { "  <- miss" } else { "" }
        );
        if far {
            misses.push(format!("{what}, {:.0} %", 100.0 * share));
        }
    }
    misses
}

#[test]
fn beside_an_earlier_reckoning() {
    let written = read();
    let setup = set_up(&written);
    let common = ready("common").expect("ready");
    let facts: Vec<_> = (0..8000)
        .map(|number| departure::departure(&setup, &common, 1, number, &[]).facts)
        .collect();
    let mut misses = beside(&FLOUR, facts.iter().map(|facts| facts.flour).collect());
    misses.extend(beside(
        &WATER,
        facts.iter().map(|facts| facts.hydration_of_flour).collect(),
    ));
    misses.extend(beside(
        &SALT,
        facts
            .iter()
            .map(|facts| 100.0 * facts.salt_of_flour)
            .collect(),
    ));
    let rows = kitchens(&setup, &common, 1, 0..480).rows;
    let dough = rows.iter().filter_map(|row| row.dough_celsius).collect();
    misses.extend(beside(&DOUGH, dough));
    let took = |number: usize| {
        let place = number - 1;
        rows.iter()
            .map(move |row| row.took_s[place] / 60.0)
            .collect()
    };
    misses.extend(beside(&RISE, took(8)));
    misses.extend(beside(&LOAF, took(33)));
    misses.retain(|miss| !MISSES.contains(&miss.as_str()));
    assert_eq!(misses, Vec::<String>::new(), "more is missed than is told");
}
