//! Laws of the formula: the order of items is nothing to it, scaling keeps percentages, and a
//! preferment taken out and put back changes nothing.

use crate::written;
use numerics::quantity::{Fraction, Mass};
use proptest::collection::vec;
use proptest::prelude::{Just, Strategy, prop_assert, prop_assert_eq, proptest};
use recipe::document::model::{Amount, Recipe};
use recipe::formula::percent::{Percentages, Target};
use recipe::formula::preferment::{Plan, fold, split};
use recipe::formula::{Formula, PartSum, formula};
use recipe::larder::Larder;
use recipe::scale::{Cut, times};
use std::sync::LazyLock;

static LARDER: LazyLock<Larder> = LazyLock::new(Larder::open);

/// What may be in a dough besides flour, water and yeast.
const OTHERS: [&str; 8] = [
    "whole milk",
    "egg",
    "unsalted butter",
    "salted butter",
    "granulated sugar",
    "honey",
    "fine salt",
    "raisins",
];

fn sums(recipe: &Recipe) -> Formula {
    formula(recipe, &LARDER).output
}

/// A dough of flour, water, yeast and some others, in grams.
fn dough() -> impl Strategy<Value = Vec<(&'static str, f64)>> {
    let others = vec((0..OTHERS.len(), 1.0..400.0_f64), 0..6);
    (100.0..2000.0_f64, 0.6..1.2_f64, 0.1..60.0_f64, others).prop_map(
        |(flour, water, yeast, others)| {
            let mut items = vec![
                ("bread flour", flour),
                ("water", flour * water),
                ("instant yeast", yeast),
            ];
            for (place, grams) in others {
                if items.iter().all(|(name, _)| *name != OTHERS[place]) {
                    items.push((OTHERS[place], grams));
                }
            }
            items
        },
    )
}

fn straight(items: &[(&'static str, f64)]) -> Recipe {
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

/// Every mass of a sum.
fn masses(sum: &PartSum) -> [f64; 10] {
    [
        sum.mass,
        sum.flour,
        sum.water,
        sum.fat,
        sum.sugar,
        sum.salt,
        sum.yeast_fresh,
        sum.milk_solids,
        sum.egg_solids,
        sum.flour_protein,
    ]
    .map(Mass::si)
}

/// Two sums that differ by no more than binary fractions do when added in another order.
fn same(one: &PartSum, other: &PartSum, factor: f64) -> bool {
    masses(one)
        .iter()
        .zip(masses(other))
        .all(|(one, other)| (one * factor - other).abs() <= 1e-12 * other.abs().max(1e-3))
}

proptest! {
    #[test]
    fn the_order_of_items_is_nothing(
        (items, turned) in dough().prop_flat_map(|items| (Just(items.clone()), Just(items).prop_shuffle())),
    ) {
        let (one, other) = (sums(&straight(&items)), sums(&straight(&turned)));
        prop_assert!(same(&one.dough, &other.dough, 1.0));
    }

    #[test]
    fn scaling_keeps_every_percentage(items in dough(), factor in 0.05..40.0_f64) {
        let recipe = straight(&items);
        let before = sums(&recipe);
        let after = sums(&times(&recipe, factor, Cut::Size).expect("a factor above zero"));
        prop_assert!(same(&before.dough, &after.dough, factor));
        let shares = |formula: &Formula| -> Vec<f64> {
            formula.stages[0].items.iter().filter_map(|item| item.of_flour).map(Fraction::si).collect()
        };
        prop_assert_eq!(shares(&before).len(), items.len());
        for (one, other) in shares(&before).iter().zip(shares(&after)) {
            prop_assert!((one - other).abs() <= 1e-12 * other.max(1.0));
        }
    }

    #[test]
    fn a_preferment_taken_out_changes_no_sum_and_put_back_no_item(
        items in dough(),
        flour in 0.01..=1.0_f64,
        liquid in 0.3..0.6_f64,
        yeast in 0.0..=1.0_f64,
    ) {
        let recipe = straight(&items);
        let before = sums(&recipe);
        let plan = Plan {
            name: "sponge".to_owned(),
            flour: Fraction::from_si(flour),
            liquid: Fraction::from_si(liquid),
            yeast: Fraction::from_si(yeast),
        };
        let divided = split(&recipe, &before, 0, &plan).expect("water enough");
        let between = sums(&divided);
        prop_assert!(same(&before.dough, &between.dough, 1.0));
        let hydration = between.stages[0].holds.water / between.stages[0].holds.flour;
        let milk = items.iter().any(|(name, _)| *name == "whole milk");
        // Of milk and water each gives its part, and milk is not all water.
        if !milk {
            prop_assert!((hydration - liquid).abs() < 1e-9);
        }
        if flour < 0.999 && yeast > 0.0 {
            prop_assert!((between.prefermented_flour.si() - flour).abs() < 1e-9);
        }
        let whole = fold(&divided, "sponge").expect("taken whole once");
        prop_assert_eq!(whole.stages.len(), 1);
        prop_assert!(same(&before.dough, &sums(&whole).dough, 1.0));
        for item in &recipe.stages[0].items {
            let again = whole.stages[0].items.iter().find(|other| other.of == item.of);
            let grams = |item: Option<&recipe::document::model::Item>| match item?.take.as_ref()?.value {
                Amount::Mass(mass) => Some(mass.grams()),
                _ => None,
            };
            let (was, is) = (grams(Some(item)).expect("grams"), grams(again).expect("grams"));
            prop_assert!((was - is).abs() <= 1e-12 * was.max(1.0), "{} g, not {} g", is, was);
        }
    }

    #[test]
    fn percentages_give_the_masses_they_came_from(items in dough()) {
        let before = sums(&straight(&items));
        let percentages = Percentages::of(&before).expect("flour");
        let by_flour = percentages.masses(Target::Flour(before.dough.flour)).expect("masses");
        let by_dough = percentages.masses(Target::Dough(before.dough.mass)).expect("masses");
        for masses in [by_flour, by_dough] {
            for ((_, mass), (_, grams)) in masses[0].items.iter().zip(&items) {
                prop_assert!((mass.grams() - grams).abs() < 1e-5);
            }
        }
    }

    #[test]
    fn pieces_and_trim_take_up_the_dough_they_ask_for(
        items in dough(), count in 1..60_u32, grams in 10.0..900.0_f64, trim in 0.0..0.1_f64,
    ) {
        let percentages = Percentages::of(&sums(&straight(&items))).expect("flour");
        let piece = Mass::from_grams(grams);
        let target = Target::Pieces { count, piece, trim: Fraction::from_si(trim) };
        let masses = percentages.masses(target).expect("masses");
        let dough: Mass = masses[0].items.iter().map(|(_, mass)| *mass).sum();
        let cut = piece * f64::from(count);
        prop_assert!(((dough - cut) / dough - trim).abs() < 1e-9);
    }
}

/// Our own recipes: stages in stages, a paste that boils down, fillings, several products.
fn example(name: &str) -> Recipe {
    let text = everyoven_tests::tree::text(&format!("examples/{name}.toml")).expect("UTF-8");
    recipe::document::read_recipe(&text)
        .output
        .expect("a recipe")
}

#[test]
fn whole_recipes_scale_with_stages_fillings_and_what_boils_off() {
    for name in [
        "cardamom-dough",
        "hearth-loaf",
        "feast-bread",
        "same-day-loaf",
    ] {
        let recipe = example(name);
        let before = sums(&recipe);
        for (factor, cut) in [(0.37, Cut::Size), (3.0, Cut::Number), (2.5, Cut::Size)] {
            let scaled = times(&recipe, factor, cut).expect("whole numbers of pieces");
            let after = sums(&scaled);
            assert!(
                same(&before.dough, &after.dough, factor),
                "{name} x {factor}"
            );
            let gap = after.trim - before.trim * factor;
            assert!(gap.abs().grams() < 1e-8, "{name} x {factor}: trim");
            for (one, other) in before.products.iter().zip(&after.products) {
                assert!(
                    (one.dough * factor - other.dough).abs().grams() < 1e-8,
                    "{name}"
                );
                let losses = (one.bake_loss, other.bake_loss);
                let apart = losses
                    .0
                    .zip(losses.1)
                    .map(|(one, other)| (one - other).si().abs());
                assert!(
                    apart.is_some_and(|apart| apart < 1e-9),
                    "{name} x {factor}: bake loss"
                );
            }
        }
        // Half of one wreath is no wreath.
        assert_eq!(times(&recipe, 0.5, Cut::Number), None);
    }
}

#[test]
fn percentages_of_whole_recipes_come_to_their_dough() {
    for name in [
        "cardamom-dough",
        "hearth-loaf",
        "feast-bread",
        "same-day-loaf",
    ] {
        let formula = sums(&example(name));
        let total = Percentages::of(&formula).expect("flour").total().si();
        let gap = formula.dough.flour * total - formula.dough.mass;
        assert!(gap.abs().grams() < 1e-8, "{name}: {} g", gap.grams());
    }
}

#[test]
fn a_stage_that_cannot_be_split_says_why() {
    use recipe::formula::preferment::Hindrance;
    let plan = |flour, liquid| Plan {
        name: "sponge".to_owned(),
        flour: Fraction::from_si(flour),
        liquid: Fraction::from_si(liquid),
        yeast: Fraction::from_si(1.0),
    };
    let whole = [
        ("bread flour", 500.0),
        ("water", 300.0),
        ("instant yeast", 3.0),
    ];
    let recipe = straight(&whole);
    let sum = sums(&recipe);
    let why = |plan: &Plan| split(&recipe, &sum, 0, plan).err();
    assert_eq!(why(&plan(1.0, 0.61)), Some(Hindrance::TooLittleLiquid));
    assert_eq!(why(&plan(1.0, 0.6)), None);
    assert_eq!(why(&plan(1.1, 0.5)), Some(Hindrance::ShareOutOfRange));
    assert_eq!(
        why(&Plan {
            name: "dough".to_owned(),
            ..plan(0.3, 0.6)
        }),
        Some(Hindrance::NameTaken)
    );
    assert_eq!(
        split(&recipe, &sum, 1, &plan(0.3, 0.6)).err(),
        Some(Hindrance::NoSuchStage)
    );
    assert_eq!(
        fold(&recipe, "dough").err(),
        Some(Hindrance::NotTakenWholeOnce)
    );
    let without = straight(&whole[..2]);
    let hindered = split(&without, &sums(&without), 0, &plan(0.3, 0.6)).err();
    assert_eq!(hindered, Some(Hindrance::LacksPart));
}
