//! Laws of the written times laid end to end, and sums of them done by hand.

use everyoven_tests::demos::DEMOS;
use numerics::quantity::Duration;
use plan::elapsed::{Elapsed, elapsed};
use recipe::document::model::{Action, Recipe};
use recipe::document::read_recipe;

fn demo(name: &str) -> (Recipe, Elapsed) {
    let (_, text) = DEMOS.iter().find(|(own, _)| *own == name).expect("a demo");
    let recipe = read_recipe(text).output.expect("the demo reads");
    let times = elapsed(&recipe);
    (recipe, times)
}

fn minutes(duration: Duration) -> i64 {
    numerics::decimal::fixed(duration.minutes(), 0)
        .parse()
        .expect("whole minutes")
}

#[test]
fn the_same_day_loaf_adds_up_by_hand() {
    let (_, times) = demo("same-day-loaf");
    // Sponge 8 + 2 + 55; dough 9 + 8 + 20 + 45 + 12 + 10; braid 8 + 65 + 2 + 36 + 70.
    assert_eq!(minutes(times.total), 65 + 104 + 181);
    assert_eq!(minutes(times.day_before), 0);
    assert_eq!(minutes(times.on_the_day), minutes(times.total));
    // Buns are shaped after the braid: 8 + 18 + 65 + 4, and bake beside it at the same dial.
    let buns = &times.products[1];
    assert_eq!(minutes(buns.oven_in), 65 + 104 + 8 + 18 + 65 + 4);
    assert_eq!(minutes(buns.waits), 0);
    // In the oven: the braid from 244 to 280, the buns from 264 to 279, both within 36 min.
    assert_eq!(minutes(times.baking), 36);
}

#[test]
fn the_hearth_loaf_adds_up_by_hand() {
    let (_, times) = demo("hearth-loaf");
    // Sponge 3 + 720; dough 8 + 120 + 3 + 15; loaf 5 + 60 + 40 + 90. Folds fall inside the rise.
    assert_eq!(minutes(times.total), 723 + 146 + 195);
    assert_eq!(minutes(times.day_before), 723);
    assert_eq!(minutes(times.on_the_day), 146 + 195);
    // 3 + 8 + 2 folds of 2 + 3 + 5.
    assert_eq!(minutes(times.hands_on), 23);
}

#[test]
fn one_oven_is_never_at_two_temperatures() {
    for (name, _) in DEMOS {
        let (recipe, times) = demo(name);
        let dial = |product: &str| {
            let product = recipe.products.iter().find(|p| p.name.value == product)?;
            product.steps.iter().find_map(|step| match &step.action {
                Action::Bake { phases, .. } => phases.first().map(|phase| phase.at.value),
                _ => None,
            })
        };
        for a in &times.products {
            for b in &times.products {
                let apart = a.oven_out <= b.oven_in || b.oven_out <= a.oven_in;
                assert!(
                    apart || dial(&a.name) == dial(&b.name),
                    "{name}: {} and {} share the oven",
                    a.name,
                    b.name
                );
            }
        }
    }
}

#[test]
fn low_usual_and_high_keep_their_order_and_the_last_product_ends_it() {
    for (name, _) in DEMOS {
        let (_, times) = demo(name);
        assert!(times.total_range.low <= times.total, "{name}");
        assert!(times.total <= times.total_range.high, "{name}");
        let last = times.products.iter().map(|p| minutes(p.ready)).max();
        assert_eq!(last, Some(minutes(times.total)), "{name}");
        assert!(times.hands_on < times.total, "{name}");
        for product in &times.products {
            assert!(product.oven_in <= product.oven_out && product.oven_out <= product.ready);
        }
    }
}
