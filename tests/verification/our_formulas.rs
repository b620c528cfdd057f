//! The formula of our own four recipes against sums done by hand before the program could.

use everyoven_tests::tree;
use numerics::decimal::fixed;
use numerics::quantity::{Fraction, Mass};
use recipe::formula::{Formula, formula, judge};
use recipe::larder::Larder;
use recipe::source::Diagnostic;

fn as_printed(share: Fraction, like: &str) -> String {
    fixed(
        share.percent(),
        like.split_once('.').map_or(0, |(_, after)| after.len()),
    )
}

/// One of our own recipes, its formula, and everything said about its sums.
fn example(name: &str) -> (Formula, Vec<Diagnostic>) {
    let text = tree::text(&format!("examples/{name}.toml")).expect("UTF-8");
    let read = recipe::document::read_recipe(&text)
        .output
        .expect("a recipe");
    let mut larder = Larder::open();
    let mut said = larder.stock(&read.pantry);
    let checked = formula(&read, &larder);
    said.extend(checked.diagnostics);
    said.extend(judge(&checked.output, &read));
    (checked.output, said)
}

/// Sums of the dough in per cent of flour, to one decimal: water in all, fat, sugar.
fn shares(formula: &Formula) -> [String; 3] {
    let dough = &formula.dough;
    [dough.water, dough.fat, dough.sugar]
        .map(|mass| as_printed(dough.of_flour(mass).expect("flour"), "0.0"))
}

fn grams(mass: Mass) -> String {
    fixed(mass.grams(), 1)
}

/// Worked out by hand before the program was: 1976.3 g; water in all 60.8-61.2 % by the
/// composition taken; salt 1.79 %, preferment 25.0 %, 2.29 mL/g.
///
/// A miss: the hand count had 16.9 % fat, which includes some of the flour's own. Ours leaves that
/// out, as bakers do, and has 15.4 %; with the flour's 1.66 % (USDA SR28 20083) it is 17.1 %.
#[test]
fn cardamom_dough() {
    let (formula, said) = example("cardamom-dough");
    assert_eq!(said, vec![]);
    assert_eq!(grams(formula.dough.mass), "1976.3");
    assert_eq!(grams(formula.dough.flour), "980.0");
    assert_eq!(shares(&formula), ["61.2", "15.4", "16.0"]);
    let own_fat = formula.dough.fat + formula.dough.flour * 0.0166;
    assert_eq!(
        as_printed(formula.dough.of_flour(own_fat).expect("flour"), "0.0"),
        "17.1"
    );
    assert_eq!(
        as_printed(
            formula.dough.of_flour(formula.dough.salt).expect("flour"),
            "0.00"
        ),
        "1.79"
    );
    let instant = recipe::formula::instant_equivalent(formula.dough.yeast_fresh);
    assert_eq!(
        as_printed(formula.dough.of_flour(instant).expect("flour"), "0.00"),
        "1.00"
    );
    assert_eq!(as_printed(formula.prefermented_flour, "0.0"), "25.0");
    assert_eq!(grams(formula.stages[0].mass), "382.8");
    assert_eq!(grams(formula.stages[1].mass), "335.0");
    assert_eq!(as_printed(formula.stages[1].flour_share, "0.0"), "6.1");
    assert_eq!(grams(formula.stages[3].mass), "123.0");
    assert_eq!(grams(formula.trim), "36.3");
    assert_eq!(
        fixed(formula.products[3].tin_ml_per_g.expect("a tin"), 2),
        "2.29"
    );
}

/// By hand: 936.9 g, 374 g of water on 550 g of flour, sponge 40 % of it.
#[test]
fn hearth_loaf() {
    let (formula, said) = example("hearth-loaf");
    assert_eq!(said, vec![]);
    assert_eq!(grams(formula.dough.mass), "936.9");
    assert_eq!(shares(&formula), ["68.0", "0.0", "0.0"]);
    assert_eq!(as_printed(formula.prefermented_flour, "0.0"), "40.0");
    assert_eq!(
        as_printed(
            formula.dough.of_flour(formula.dough.salt).expect("flour"),
            "0.0"
        ),
        "2.0"
    );
}

/// By hand: 916 g, sugar with the honey's 25.0 %, salt 1.62 %, mould 2352 mL.
///
/// A miss: the hand count had 56.8 % water in all with butter of 16 % water; USDA's unsalted
/// butter has 17.94 %, and its eggs and milk a little more, which makes 57.7 %.
#[test]
fn feast_bread() {
    let (formula, said) = example("feast-bread");
    assert_eq!(said, vec![]);
    assert_eq!(grams(formula.dough.mass), "916.0");
    assert_eq!(shares(&formula), ["57.7", "40.6", "25.0"]);
    let with_drier_butter = formula.dough.water - Mass::from_grams(150.0 * (0.1794 - 0.16));
    assert_eq!(
        as_printed(
            formula.dough.of_flour(with_drier_butter).expect("flour"),
            "0.0"
        ),
        "56.8"
    );
    assert_eq!(
        as_printed(
            formula.dough.of_flour(formula.dough.salt).expect("flour"),
            "0.00"
        ),
        "1.62"
    );
    let mould = formula.products[0].tin_ml_per_g.expect("a mould") * 910.0;
    assert_eq!(fixed(mould, 0), "2352");
}

/// By hand: 1232 g, braid 660 g at 2.15 mL/g, ten buns 560 g, 12 g left.
#[test]
fn same_day_loaf() {
    let (formula, said) = example("same-day-loaf");
    assert_eq!(said, vec![]);
    assert_eq!(grams(formula.dough.mass), "1232.0");
    assert_eq!(shares(&formula), ["55.3", "27.8", "12.0"]);
    assert_eq!(as_printed(formula.prefermented_flour, "0"), "30");
    assert_eq!(
        formula
            .products
            .iter()
            .map(|p| grams(p.dough))
            .collect::<Vec<_>>(),
        ["660.0", "560.0"]
    );
    assert_eq!(
        fixed(formula.products[0].tin_ml_per_g.expect("a tin"), 2),
        "2.15"
    );
    assert_eq!(grams(formula.trim), "12.0");
}
