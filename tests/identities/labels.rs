//! Laws of a label: pieces make the whole, only water is lost, scaling changes no figure for 100 g,
//! and what is known lies within what can be.

use crate::written;
use everyoven_tests::demos;
use numerics::quantity::Mass;
use proptest::collection::vec;
use proptest::prelude::{Strategy, prop_assert, proptest};
use recipe::formula::{Formula, formula};
use recipe::label::{Nutrient, Tally, label};
use recipe::larder::Larder;
use recipe::scale::{Cut, times};
use std::sync::LazyLock;

static LARDER: LazyLock<Larder> = LazyLock::new(Larder::open);

const THINGS: [&str; 12] = [
    "whole milk",
    "egg",
    "unsalted butter",
    "granulated sugar",
    "honey",
    "fine salt",
    "raisins",
    "ground cardamom",
    "candied peel",
    "margarine_stick_salted",
    "flaked almonds",
    "rum_80",
];

fn close(one: f64, other: f64) -> bool {
    let endless = one.is_infinite() && other.is_infinite();
    endless || (one - other).abs() <= 1e-9 * one.abs().max(other.abs()).max(1e-9)
}

fn same(one: &Tally, other: &Tally) -> bool {
    Nutrient::ALL.iter().all(|nutrient| {
        let (one, other) = (one.of(*nutrient), other.of(*nutrient));
        close(one.low, other.low) && close(one.high, other.high)
    })
}

fn dough() -> impl Strategy<Value = Vec<(&'static str, f64)>> {
    let others = vec((0..THINGS.len(), 1.0..300.0_f64), 0..7);
    (200.0..1000.0_f64, others).prop_map(|(flour, others)| {
        let mut items = vec![
            ("bread flour", flour),
            ("water", flour * 0.6),
            ("instant yeast", flour * 0.01),
        ];
        for (place, grams) in others {
            if items.iter().all(|(name, _)| *name != THINGS[place]) {
                items.push((THINGS[place], grams));
            }
        }
        items
    })
}

fn read(items: &[(&'static str, f64)]) -> recipe::document::model::Recipe {
    let takes: Vec<String> = items
        .iter()
        .map(|(_, grams)| format!("{grams:.6} g"))
        .collect();
    let lines = items
        .iter()
        .zip(&takes)
        .map(|((of, _), take)| (*of, take.as_str()))
        .collect();
    written::recipe("rich", &[("dough", lines)])
}

fn sums(recipe: &recipe::document::model::Recipe) -> Formula {
    formula(recipe, &LARDER).output
}

proptest! {
    #[test]
    fn scaling_changes_nothing_in_100_g(items in dough(), factor in 0.05..40.0_f64) {
        let recipe = read(&items);
        let larger = times(&recipe, factor, Cut::Size).expect("a factor above zero");
        let (before, after) = (sums(&recipe), sums(&larger));
        let one = label(&recipe, &before, &LARDER);
        let other = label(&larger, &after, &LARDER);
        prop_assert!(same(&one.products[0].in_100_g(), &other.products[0].in_100_g()));
    }

    #[test]
    fn what_is_known_lies_within_what_can_be(items in dough()) {
        known_within_possible(&items);
    }
}

/// Found by chance once: so much salt in so little dough.
#[test]
fn what_is_known_lies_within_what_can_be_when_a_tenth_is_salt() {
    known_within_possible(&[
        ("bread flour", 200.0),
        ("water", 120.0),
        ("instant yeast", 2.0),
        ("fine salt", 98.487_128_2),
    ]);
}

/// Least before most; parts are no more than what they are part of, the whole no more than 100 g.
fn known_within_possible(items: &[(&'static str, f64)]) {
    let recipe = read(items);
    let formula = sums(&recipe);
    let made = label(&recipe, &formula, &LARDER);
    let hundred = made.products[0].in_100_g();
    for nutrient in Nutrient::ALL {
        let amount = hundred.of(nutrient);
        assert!(
            amount.low >= 0.0 && amount.low <= amount.high,
            "{nutrient:?} {amount:?}"
        );
    }
    let grams = |nutrient| hundred.of(nutrient).low * 1e3;
    assert!(grams(Nutrient::Saturated) <= grams(Nutrient::Fat) + 1e-9);
    assert!(grams(Nutrient::Sugars) <= grams(Nutrient::Carbohydrate) + 1e-9);
    assert!(grams(Nutrient::AddedSugars) <= grams(Nutrient::Sugars) + 1e-9);
    let all = grams(Nutrient::Water)
        + grams(Nutrient::Fat)
        + grams(Nutrient::Protein)
        + grams(Nutrient::Carbohydrate)
        + grams(Nutrient::Alcohol);
    assert!(all <= 100.6, "{all} g in 100 g");
}

/// Every demo recipe: pieces come to the whole, and the whole and what is left over to what was
/// put in, by every nutrient but the water that the bake and the pan took.
#[test]
fn pieces_make_the_whole_and_nothing_but_water_is_lost() {
    for (name, text) in demos::DEMOS {
        let recipe = recipe::document::read_recipe(text)
            .output
            .expect("a recipe");
        let mut larder = Larder::open();
        larder.stock(&recipe.pantry);
        let sums = formula(&recipe, &larder).output;
        let made = label(&recipe, &sums, &larder);
        let mut pieces = Tally::default();
        let mut mass = Mass::ZERO;
        for product in &made.products {
            pieces = pieces.plus(&product.in_piece().times(f64::from(product.count)));
            mass += product.baked;
            let after = recipe
                .products
                .iter()
                .find(|one| one.name.value == product.name);
            let after = after
                .and_then(|one| one.after_bake.as_ref())
                .expect("weighed");
            assert!(
                close(product.piece().si(), after.value.si()),
                "{name}: {}",
                product.name
            );
        }
        let whole = made.whole();
        assert!(same(&pieces, &whole), "{name}");
        // Independently: everything bought, less the share that is left over, holds as much.
        let bought = made.bought.tally(&larder);
        let used: Mass = made.products.iter().map(|one| one.raw).sum();
        assert!(
            close((used + made.left_over).si(), made.bought.mass().si()),
            "{name}"
        );
        for nutrient in Nutrient::ALL {
            let (part, all) = (whole.of(nutrient).low, bought.of(nutrient).low);
            assert!(part <= all * (1.0 + 1e-9), "{name} {nutrient:?}");
            if nutrient != Nutrient::Water && all > 0.0 {
                // At most 4 % is left over in any of them.
                assert!(part >= all * 0.96, "{name} {nutrient:?}: {part} of {all}");
            }
        }
        let lost = bought.of(Nutrient::Water).low - whole.of(Nutrient::Water).low;
        let mass_lost = (made.bought.mass() - mass).si();
        // What is left over takes its water along too.
        assert!(
            (lost - mass_lost).abs() <= made.left_over.si() + 1e-9,
            "{name}"
        );
    }
}
