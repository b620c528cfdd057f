//! Laws of another size: percentages stay within what a scale shows, eggs are whole and their water
//! is made good, there and back is where one began, and what comes out reads and checks as before.

use everyoven_tests::demos::DEMOS;
use numerics::quantity::{Fraction, Mass};
use proptest::prelude::{ProptestConfig, prop_assert, proptest};
use recipe::document::model::{Amount, Recipe};
use recipe::document::{print_recipe, read_recipe};
use recipe::formula::{Formula, PartSum, Resolved, formula, judge, piece_mass};
use recipe::larder::{Larder, Role};
use recipe::scale::{Eggs, Scaled, To, Wish, read_tin, scale};
use recipe::source::{Diagnostic, Severity};

struct Kept {
    name: &'static str,
    recipe: Recipe,
    larder: Larder,
    formula: Formula,
}

fn demo(name: &'static str, text: &str) -> Kept {
    let recipe = read_recipe(text).output.expect("a recipe");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let formula = formula(&recipe, &larder).output;
    Kept {
        name,
        recipe,
        larder,
        formula,
    }
}

fn demos() -> Vec<Kept> {
    DEMOS.iter().map(|(name, text)| demo(name, text)).collect()
}

fn granted(kept: &Kept, wish: &Wish) -> (Scaled, Formula) {
    let answer = scale(&kept.recipe, &kept.formula, &kept.larder, wish);
    let scaled = answer
        .output
        .unwrap_or_else(|| panic!("{}: {wish:?}: {:?}", kept.name, answer.diagnostics));
    let sums = formula(&scaled.recipe, &kept.larder).output;
    (scaled, sums)
}

fn shares(sum: &PartSum) -> [(&'static str, f64); 7] {
    let of = |mass: Mass| sum.of_flour(mass).map_or(0.0, Fraction::si);
    [
        ("water", of(sum.water)),
        ("fat", of(sum.fat)),
        ("sugar", of(sum.sugar)),
        ("salt", of(sum.salt)),
        ("yeast", of(sum.yeast_fresh)),
        ("milk solids", of(sum.milk_solids)),
        ("egg solids", of(sum.egg_solids)),
    ]
}

/// Eggs counted in stages of the dough.
fn counts(recipe: &Recipe, sums: &Formula) -> Vec<f64> {
    let stages = recipe.stages.iter().zip(&sums.stages);
    stages
        .flat_map(|(stage, sum)| stage.items.iter().zip(&sum.items))
        .filter(|(_, sum)| matches!(&sum.what, Resolved::Ingredient(i) if i.role == Role::Egg))
        .filter_map(|(item, _)| match item.take.as_ref()?.value {
            Amount::Count { count, .. } => Some(count),
            _ => None,
        })
        .collect()
}

fn mends(diagnostics: &[Diagnostic]) -> Vec<String> {
    diagnostics
        .iter()
        .filter(|one| one.code.severity == Severity::Mend)
        .map(|one| format!("{}: {}", one.code.name, one.message))
        .collect()
}

/// What a kitchen scale shows, in grams: hundredths, tenths, halves and whole ones.
fn step(grams: f64) -> f64 {
    match grams {
        g if g < 2.0 => 0.01,
        g if g < 20.0 => 0.1,
        g if g < 100.0 => 0.5,
        _ => 1.0,
    }
}

/// Everything that must be mended in a recipe that is read back from its own text.
fn read_back(scaled: &Scaled, larder: &Larder) -> Vec<String> {
    let read = read_recipe(&print_recipe(&scaled.recipe));
    let mut said = mends(&read.diagnostics);
    match read.output {
        Some(again) => {
            let sums = formula(&again, larder);
            said.extend(mends(&sums.diagnostics));
            said.extend(mends(&judge(&sums.output, &again)));
            if again.stages.len() != scaled.recipe.stages.len() {
                said.push("a stage was lost".to_owned());
            }
        }
        None => said.push("it cannot be read".to_owned()),
    }
    said
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn weighed_out_every_percentage_stays(factor in 0.3..8.0_f64) {
        for kept in demos() {
            let (scaled, sums) = granted(&kept, &Wish::times(factor).weighing_eggs());
            prop_assert!((scaled.factor - factor).abs() < 1e-9);
            let stages = kept.formula.stages.iter().zip(&sums.stages);
            for (one, other) in stages.flat_map(|(one, other)| one.items.iter().zip(&other.items)) {
                let (Resolved::Ingredient(_), Some(one_g), Some(other_g)) =
                    (&one.what, one.mass, other.mass) else { continue };
                let (wanted, got) = (one_g.grams() * factor, other_g.grams());
                prop_assert!((got - wanted).abs() <= 0.5 * step(wanted.max(got)) + 1e-9,
                    "{} x {}: {} {} g, and {} g were wanted", kept.name, factor, one.called, got, wanted);
            }
            for ((name, before), (_, after)) in
                shares(&kept.formula.dough).into_iter().zip(shares(&sums.dough))
            {
                // The coarsest step for its mass: 0.1 g of 2 g, half of it to either side.
                prop_assert!((after - before).abs() <= 0.03 * before,
                    "{} x {}: {} {} became {}", kept.name, factor, name, before, after);
            }
            let dough = sums.dough.mass / kept.formula.dough.mass;
            prop_assert!((dough / factor - 1.0).abs() < 0.006, "{}: {}", kept.name, dough);
        }
    }

    #[test]
    fn whole_eggs_keep_the_water(factor in 0.3..8.0_f64) {
        for kept in demos() {
            let (scaled, sums) = granted(&kept, &Wish::times(factor));
            for count in counts(&scaled.recipe, &sums) {
                prop_assert!((count - count.round()).abs() < 1e-12 && count >= 1.0);
            }
            let water = |sum: &PartSum| sum.of_flour(sum.water).map_or(0.0, Fraction::si);
            let (before, after) = (water(&kept.formula.dough), water(&sums.dough));
            prop_assert!((after - before).abs() < 0.008, "{} x {}: {} became {}",
                kept.name, factor, before, after);
        }
    }

    #[test]
    fn what_comes_out_reads_and_has_nothing_new_to_mend(factor in 0.25..6.0_f64) {
        for kept in demos() {
            for wish in [Wish::times(factor), Wish::times(factor).weighing_eggs()] {
                let (scaled, _) = granted(&kept, &wish);
                let said = read_back(&scaled, &kept.larder);
                prop_assert!(said.is_empty(), "{} x {}: {:?}", kept.name, factor, said);
            }
        }
    }
}

/// Everything that must be mended when the whole is worked out in an ordinary kitchen.
fn worked_out(recipe: &Recipe, larder: &Larder) -> Vec<String> {
    let sums = formula(recipe, larder).output;
    let kitchen = bake::kitchen::Kitchen::standard();
    let inputs = edit::Inputs::new(recipe, &sums, larder, &kitchen);
    mends(&edit::work_out(&inputs).diagnostics)
}

#[test]
fn half_of_every_example_reads_and_checks() {
    for kept in demos() {
        let (scaled, _) = granted(&kept, &Wish::half());
        let said = read_back(&scaled, &kept.larder);
        assert_eq!(said, [] as [String; 0], "{}", kept.name);
        let before = worked_out(&kept.recipe, &kept.larder);
        let after = worked_out(&scaled.recipe, &kept.larder);
        assert_eq!(after, before, "{}", kept.name);
    }
}

#[test]
fn there_and_back_is_where_one_began() {
    for kept in demos() {
        for factor in [0.5, 0.8, 1.5, 2.0, 3.0] {
            let (there, sums) = granted(&kept, &Wish::times(factor).weighing_eggs());
            let further = Kept {
                name: kept.name,
                recipe: there.recipe,
                larder: kept.larder.clone(),
                formula: sums,
            };
            let (_, back) = granted(&further, &Wish::times(1.0 / factor).weighing_eggs());
            for (first, last) in kept.formula.stages.iter().zip(&back.stages) {
                for (one, other) in first.items.iter().zip(&last.items) {
                    let (Some(one_g), Some(other_g)) = (one.mass, other.mass) else {
                        continue;
                    };
                    let (one_g, other_g) = (one_g.grams(), other_g.grams());
                    // Half a step of the scale there and half a step here.
                    let allowed = 0.5 * (step(one_g * factor) / factor + step(one_g)) + 1e-9;
                    assert!(
                        (one_g - other_g).abs() <= allowed,
                        "{} x {factor}: {} {one_g} g came back as {other_g} g",
                        kept.name,
                        one.called
                    );
                }
            }
        }
    }
}

/// Share of egg in the dough, of the flour.
fn egg_share(sums: &Formula) -> f64 {
    let items = sums.stages.iter().flat_map(|stage| &stage.items);
    let eggs = items
        .filter(|item| matches!(&item.what, Resolved::Ingredient(i) if i.role == Role::Egg))
        .filter_map(|item| item.mass)
        .fold(Mass::ZERO, |sum, mass| sum + mass);
    eggs / sums.dough.flour
}

#[test]
fn eggs_far_from_whole_are_weighed_and_near_ones_stay_whole() {
    let text = DEMOS
        .iter()
        .find(|(name, _)| *name == "same-day-loaf")
        .expect("there")
        .1;
    let kept = demo("same-day-loaf", text);
    let before = egg_share(&kept.formula);
    assert!(
        (before - 0.25).abs() < 1e-9,
        "three eggs of 50 g on 600 g of flour: {before}"
    );

    // 1½ of three: one or two would be a third off.
    let (half, sums) = granted(&kept, &Wish::half());
    assert_eq!(counts(&half.recipe, &sums), [] as [f64; 0]);
    assert!(
        (egg_share(&sums) - before).abs() < 1e-9,
        "{}",
        egg_share(&sums)
    );
    let said = "beat 2 large, weigh out 75 g";
    assert!(
        half.said.iter().any(|words| words.contains(said)),
        "{:?}",
        half.said
    );

    // 2.4 of three: two are a sixth off.
    let (less, sums) = granted(&kept, &Wish::times(0.8));
    assert_eq!(counts(&less.recipe, &sums), [2.0]);

    // Whole ones all the same, where they are wished for.
    let whole = Wish {
        to: To::Times(0.5),
        eggs: Eggs::Whole,
    };
    let (whole, sums) = granted(&kept, &whole);
    assert_eq!(counts(&whole.recipe, &sums).len(), 1);
    assert!((egg_share(&sums) / before - 1.0).abs() > 0.3);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn egg_stays_within_a_quarter_in_any_size(factor in 0.25..6.0_f64) {
        for kept in demos() {
            let (_, sums) = granted(&kept, &Wish::times(factor));
            let (before, after) = (egg_share(&kept.formula), egg_share(&sums));
            // A quarter, and what a scale shows.
            prop_assert!((after - before).abs() <= 0.25 * before + 0.005,
                "{} x {}: {} became {}", kept.name, factor, before, after);
        }
    }
}

#[test]
fn a_number_of_eggs_is_met_and_nothing_is_trued_up() {
    for kept in demos()
        .iter()
        .filter(|kept| !counts(&kept.recipe, &kept.formula).is_empty())
    {
        for eggs in [1, 2, 5] {
            let (scaled, sums) = granted(kept, &Wish::to(To::Eggs(eggs)));
            assert_eq!(
                counts(&scaled.recipe, &sums),
                [f64::from(eggs)],
                "{}",
                kept.name
            );
            assert_eq!(
                scaled.recipe.stages[1].items.len(),
                kept.recipe.stages[1].items.len()
            );
        }
    }
}

#[test]
fn flour_and_dough_come_to_what_was_wished() {
    for kept in demos() {
        let (_, sums) = granted(
            &kept,
            &Wish::to(To::Flour(Mass::from_grams(500.0))).weighing_eggs(),
        );
        assert!(
            (sums.dough.flour.grams() - 500.0).abs() < 2.0,
            "{}",
            kept.name
        );
        let (_, sums) = granted(
            &kept,
            &Wish::to(To::Dough(Mass::from_grams(1000.0))).weighing_eggs(),
        );
        assert!(
            (sums.dough.mass.grams() - 1000.0).abs() < 3.0,
            "{}",
            kept.name
        );
    }
}

#[test]
fn another_tin_is_filled_as_full_and_the_others_stay() {
    for (name, product) in [("same-day-loaf", "braid"), ("cardamom-dough", "loaf")] {
        let text = DEMOS.iter().find(|(own, _)| *own == name).expect(name).1;
        let kept = demo("tin", text);
        let tin = read_tin("950mL").expect("a tin");
        let wish = Wish {
            to: To::Tin { product: None, tin },
            eggs: Eggs::Weighed,
        };
        let (scaled, sums) = granted(&kept, &wish);
        let both = kept.formula.products.iter().zip(&sums.products);
        for ((before, after), (was, now)) in
            both.zip(kept.recipe.products.iter().zip(&scaled.recipe.products))
        {
            if before.name == product {
                let (one, other) = (before.tin_ml_per_g, after.tin_ml_per_g);
                let (one, other) = (one.expect("a volume"), other.expect("a volume"));
                assert!(
                    (one / other - 1.0).abs() < 0.01,
                    "{name}: {one} became {other}"
                );
            } else {
                assert_eq!(piece_mass(&was.piece.value), piece_mass(&now.piece.value));
                assert_eq!(was.count, now.count);
                assert_eq!(was.steps.len(), now.steps.len());
            }
        }
        // What is cut off the dough is what the smaller loaf no longer needs, and its share of trim.
        let less = |sums: &Formula| sums.products.iter().map(|p| p.dough.grams()).sum::<f64>();
        let wanted = less(&sums) / less(&kept.formula);
        assert!((sums.dough.mass / kept.formula.dough.mass / wanted - 1.0).abs() < 0.005);
    }
}

#[test]
fn pieces_of_one_product_take_only_their_filling_along() {
    let text = DEMOS
        .iter()
        .find(|(name, _)| *name == "cardamom-dough")
        .expect("there")
        .1;
    let kept = demo("cardamom-dough", text);
    let wish = Wish::to(To::Pieces {
        product: Some("Knots".to_owned()),
        count: 16,
    });
    let (scaled, sums) = granted(&kept, &wish);
    assert_eq!(scaled.recipe.products[0].count.value, 16);
    // 16 x 6 g and 75 g for the wreath, where 8 x 6 g and 75 g were; 123 g in both lists.
    let filling = |formula: &Formula| formula.stages[3].mass.grams();
    assert!((filling(&sums) / filling(&kept.formula) - 171.0 / 123.0).abs() < 0.005);
    // 10 g of pearl sugar on eight knots, 20 g on sixteen; 10 g on the wreath stay.
    let scatter = |product: usize| -> String {
        let steps = scaled.recipe.products[product].steps.iter();
        let found = steps.filter(|step| step.text.value.contains("pearl sugar"));
        found.map(|step| step.text.value.clone()).collect()
    };
    assert!(
        scatter(0).contains("[20 g of pearl sugar]"),
        "{}",
        scatter(0)
    );
    assert!(
        scatter(2).contains("[10 g of pearl sugar]"),
        "{}",
        scatter(2)
    );
    assert_eq!(read_back(&scaled, &kept.larder), [] as [String; 0]);
    let headnote = scaled
        .recipe
        .headnote
        .map(|note| note.value)
        .unwrap_or_default();
    assert!(headnote.contains("16 knots, 6 rolls"), "{headnote}");
}

#[test]
fn a_wish_that_means_several_things_is_not_guessed_at() {
    let text = DEMOS
        .iter()
        .find(|(name, _)| *name == "cardamom-dough")
        .expect("there")
        .1;
    let kept = demo("cardamom-dough", text);
    let code = |to: To| {
        let said = scale(&kept.recipe, &kept.formula, &kept.larder, &Wish::to(to));
        assert!(said.output.is_none());
        said.diagnostics[0].code.name
    };
    let pieces = |product: Option<&str>, count| To::Pieces {
        product: product.map(str::to_owned),
        count,
    };
    assert_eq!(code(pieces(None, 12)), "size-wish-unclear");
    assert_eq!(code(pieces(Some("buns"), 12)), "size-wish-unclear");
    assert_eq!(code(pieces(Some("knots"), 0)), "size-wish-impossible");
    assert_eq!(code(To::Times(0.0)), "size-wish-impossible");
    assert_eq!(code(To::Times(f64::NAN)), "size-wish-impossible");
    assert_eq!(code(To::Times(-1.0)), "size-wish-impossible");
    let tin = read_tin("950mL").expect("a tin");
    let product = Some("wreath".to_owned());
    assert_eq!(code(To::Tin { product, tin }), "size-wish-unclear");
}
