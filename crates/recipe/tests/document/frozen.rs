//! Files of an earlier format, frozen: they open for ever and mean what they meant.

use recipe::document::model::{Action, Amount, TinSize};
use recipe::document::{read_kitchen, read_recipe};

const LOAF: &str = include_str!("../../../../tests/golden/documents/v1/same-day-loaf.toml");
const EVERY_KEY: &str = include_str!("../../../../tests/golden/documents/v1/every-key.toml");
const STUDIO: &str = include_str!("../../../../tests/golden/documents/v1/studio.toml");

#[test]
fn files_of_format_1_open() {
    for text in [LOAF, EVERY_KEY] {
        let read = read_recipe(text);
        assert_eq!(read.diagnostics, []);
        assert!(read.output.is_some());
    }
    let kitchen = read_kitchen(STUDIO);
    assert_eq!(kitchen.diagnostics, []);
    assert_eq!(kitchen.output.expect("it reads clean").stores.len(), 3);
}

/// Figures by hand: 1 lb = 453.59237 g, 70 °F = 294.2611 K, 8½ in = 215.9 mm, 6 cups = 1419.53 mL.
#[test]
fn every_key_of_format_1_means_what_it_meant() {
    let recipe = read_recipe(EVERY_KEY).output.expect("it reads clean");
    let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-4, "{found} {wanted}");
    let dough = &recipe.stages[1];
    let Some(Amount::Mass(flour)) = dough.items[1].take.as_ref().map(|t| t.value.clone()) else {
        panic!("the flour is a mass");
    };
    near(flour.grams(), 453.592_37);
    near(
        dough.items[1].at.as_ref().expect("it is there").value.si(),
        294.261_1,
    );
    let Action::Rest { timing, thick, .. } = &dough.steps[3].action else {
        panic!("the fourth step is a rest");
    };
    let range = timing.range.as_ref().expect("it is there").value;
    near(range.low.minutes(), 90.0);
    near(range.high.minutes(), 150.0);
    near(
        thick.as_ref().expect("it is there").value.millimetres(),
        25.4,
    );
    let tin = recipe.products[0].tin.as_ref().expect("it is there");
    let TinSize::Box { length, .. } = tin.size.value else {
        panic!("the tin is a box");
    };
    near(length.millimetres(), 215.9);
    near(
        tin.holds.as_ref().expect("it is there").value.millilitres(),
        1_419.529_4,
    );
    near(
        recipe.products[0]
            .piece
            .value
            .iter()
            .map(|p| p.mass.grams() * f64::from(p.count))
            .sum(),
        320.0,
    );
}
