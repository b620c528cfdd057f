//! The sums on small recipes built by hand: nested and partial stages, fillings, trim, findings.

use super::samples::{at, codes, item, product, recipe, stage, sum};
use crate::document::model::{Amount, Kind};
use crate::source::Checked;
use numerics::quantity::{Fraction, Mass};

#[track_caller]
fn near(mass: Mass, grams: f64) {
    assert!(
        (mass.grams() - grams).abs() < 1e-9,
        "{} g, not {grams} g",
        mass.grams()
    );
}

#[track_caller]
fn percent(share: Fraction, percent: f64) {
    assert!(
        (share.percent() - percent).abs() < 1e-9,
        "{} %, not {percent} %",
        share.percent()
    );
}

#[test]
fn a_sponge_taken_whole_counts_once() {
    let recipe = recipe(
        Kind::Lean,
        vec![
            stage(
                "sponge",
                &[
                    ("bread flour", 400.0),
                    ("water", 280.0),
                    ("instant yeast", 1.0),
                ],
            ),
            stage(
                "dough",
                &[
                    ("sponge", -1.0),
                    ("bread flour", 600.0),
                    ("water", 400.0),
                    ("fine salt", 20.0),
                ],
            ),
        ],
        vec![product("loaf", "dough", 2, 850.0)],
    );
    let Checked {
        output,
        diagnostics,
    } = sum(&recipe);
    assert_eq!(codes(&diagnostics), Vec::<&str>::new());
    near(output.dough.mass, 1701.0);
    near(output.dough.flour, 1000.0);
    near(output.dough.water, 680.0);
    near(
        output.stages[1].items[0].mass.expect("the sponge's mass"),
        681.0,
    );
    assert!(output.stages[0].preferment && !output.stages[1].preferment);
    percent(output.prefermented_flour, 40.0);
    percent(output.stages[1].flour_share, 60.0);
    near(output.trim, 1.0);
    assert_eq!(output.stages[1].items[0].of_flour, None);
}

#[test]
fn part_of_a_sponge_counts_with_its_part() {
    let recipe = recipe(
        Kind::Lean,
        vec![
            stage(
                "sponge",
                &[
                    ("bread flour", 100.0),
                    ("water", 100.0),
                    ("instant yeast", 2.0),
                ],
            ),
            stage(
                "dough",
                &[
                    ("sponge", 101.0),
                    ("bread flour", 450.0),
                    ("water", 250.0),
                    ("fine salt", 10.0),
                ],
            ),
        ],
        vec![product("loaf", "dough", 1, 800.0)],
    );
    let formula = sum(&recipe).output;
    near(formula.dough.flour, 500.0);
    near(formula.dough.water, 300.0);
    near(formula.dough.mass, 811.0);
    percent(formula.prefermented_flour, 10.0);
    percent(
        formula.stages[0].items[0].of_flour.expect("in the dough"),
        10.0,
    );
    near(formula.stages[0].mass, 202.0);
}

#[test]
fn a_sponge_in_a_sponge_is_prefermented_once() {
    let recipe = recipe(
        Kind::Lean,
        vec![
            stage(
                "mother",
                &[
                    ("bread flour", 50.0),
                    ("water", 25.0),
                    ("instant yeast", 0.5),
                ],
            ),
            stage(
                "sponge",
                &[("mother", -1.0), ("bread flour", 150.0), ("water", 150.0)],
            ),
            stage(
                "dough",
                &[
                    ("sponge", -1.0),
                    ("bread flour", 300.0),
                    ("water", 150.0),
                    ("fine salt", 10.0),
                ],
            ),
        ],
        vec![product("loaf", "dough", 1, 800.0)],
    );
    let formula = sum(&recipe).output;
    percent(formula.prefermented_flour, 40.0);
    near(formula.stages[2].holds.yeast_fresh, 0.5 / 0.33);
    assert_eq!(
        formula
            .stages
            .iter()
            .map(|stage| stage.preferment)
            .collect::<Vec<_>>(),
        [true, true, false]
    );
}

#[test]
fn a_dough_that_gets_its_butter_later_is_no_preferment() {
    let recipe = recipe(
        Kind::Rich,
        vec![
            stage(
                "base",
                &[
                    ("bread flour", 500.0),
                    ("egg", 300.0),
                    ("instant yeast", 6.0),
                    ("fine salt", 9.0),
                ],
            ),
            stage("dough", &[("base", -1.0), ("unsalted butter", 250.0)]),
        ],
        vec![product("bun", "dough", 20, 53.0)],
    );
    let formula = sum(&recipe).output;
    assert!(!formula.stages[0].preferment);
    percent(formula.prefermented_flour, 0.0);
    percent(formula.stages[0].flour_share, 100.0);
}

#[test]
fn cooking_takes_water_and_mass_and_a_filling_stays_outside() {
    let mut paste = stage("paste", &[("bread flour", 50.0), ("water", 250.0)]);
    paste.evaporates = Some(at(Mass::from_grams(30.0)));
    let mut buns = product("buns", "dough", 10, 90.0);
    buns.with = vec![item("filling", -1.0)];
    buns.with[0].each = Some(at(Amount::Mass(Mass::from_grams(12.0))));
    buns.after_bake = Some(at(Mass::from_grams(90.0)));
    let recipe = recipe(
        Kind::Soft,
        vec![
            paste,
            stage(
                "dough",
                &[
                    ("paste", -1.0),
                    ("bread flour", 450.0),
                    ("water", 180.0),
                    ("fine salt", 9.0),
                    ("instant yeast", 5.0),
                ],
            ),
            stage(
                "filling",
                &[("unsalted butter", 60.0), ("granulated sugar", 60.0)],
            ),
        ],
        vec![buns],
    );
    let Checked {
        output,
        diagnostics,
    } = sum(&recipe);
    near(output.dough.mass, 914.0);
    near(output.dough.water, 400.0);
    assert!(!output.stages[2].in_dough && !output.stages[0].preferment);
    assert_eq!(output.stages[2].items[0].of_flour, None);
    near(output.dough.fat, 0.0);
    near(output.products[0].filling, 12.0);
    percent(
        output.products[0].bake_loss.expect("weighed"),
        100.0 * (1.0 - 90.0 / 102.0),
    );
    assert_eq!(codes(&diagnostics), Vec::<&str>::new());
}

#[test]
fn a_filling_without_a_portion_is_shared_evenly() {
    let mut buns = product("buns", "dough", 8, 60.0);
    buns.with = vec![item("filling", -1.0)];
    let recipe = recipe(
        Kind::Soft,
        vec![
            stage("dough", &[("bread flour", 300.0), ("water", 190.0)]),
            stage("filling", &[("unsalted butter", 80.0)]),
        ],
        vec![buns],
    );
    near(sum(&recipe).output.products[0].filling, 10.0);
}

#[test]
fn what_does_not_fit_is_said() {
    let dough = || {
        stage(
            "dough",
            &[
                ("bread flour", 500.0),
                ("water", 300.0),
                ("fine salt", 10.0),
            ],
        )
    };
    let with_piece = |grams: f64| {
        recipe(
            Kind::Lean,
            vec![dough()],
            vec![product("loaf", "dough", 1, grams)],
        )
    };
    assert_eq!(
        codes(&sum(&with_piece(820.0)).diagnostics),
        ["pieces-exceed-dough"]
    );
    assert_eq!(codes(&sum(&with_piece(777.0)).diagnostics), ["trim-large"]);
    // 4 % of 810 g is 32.4 g.
    assert_eq!(
        codes(&sum(&with_piece(777.6)).diagnostics),
        Vec::<&str>::new()
    );
    assert_eq!(
        codes(&sum(&with_piece(810.4)).diagnostics),
        Vec::<&str>::new()
    );

    let no_flour = recipe(
        Kind::Lean,
        vec![stage("dough", &[("water", 300.0)])],
        vec![product("x", "dough", 1, 300.0)],
    );
    assert_eq!(codes(&sum(&no_flour).diagnostics), ["no-flour"]);

    let twice = recipe(
        Kind::Lean,
        vec![
            stage("sponge", &[("bread flour", 100.0), ("water", 100.0)]),
            stage("one", &[("sponge", 150.0), ("bread flour", 100.0)]),
            stage("other", &[("sponge", 150.0), ("bread flour", 100.0)]),
        ],
        vec![
            product("a", "one", 1, 250.0),
            product("b", "other", 1, 250.0),
        ],
    );
    let said = sum(&twice).diagnostics;
    assert_eq!(codes(&said), ["stage-overdrawn"]);
    assert_eq!(
        said[0].message,
        "300 g of sponge are taken in all, and it comes to 200 g: 100 g are missing."
    );

    let mut boiled = dough();
    boiled.evaporates = Some(at(Mass::from_grams(310.0)));
    let boiled = recipe(
        Kind::Lean,
        vec![boiled],
        vec![product("loaf", "dough", 1, 495.0)],
    );
    assert_eq!(codes(&sum(&boiled).diagnostics), ["evaporates-too-much"]);
}

#[test]
fn part_of_the_dough_may_go_on_into_another() {
    // Half of a plain dough is cut; the other half takes raisins and is cut too.
    let recipe = recipe(
        Kind::Lean,
        vec![
            stage("plain", &[("bread flour", 500.0), ("water", 300.0)]),
            stage("fruited", &[("plain", 400.0), ("raisins", 100.0)]),
        ],
        vec![
            product("loaf", "plain", 1, 400.0),
            product("ring", "fruited", 1, 500.0),
        ],
    );
    let Checked {
        output,
        diagnostics,
    } = sum(&recipe);
    assert_eq!(codes(&diagnostics), Vec::<&str>::new());
    near(output.dough.mass, 900.0);
    near(output.trim, 0.0);
    percent(output.prefermented_flour, 0.0);
}

#[test]
fn an_unknown_item_is_left_out_and_does_not_hide_as_no_flour() {
    let recipe = recipe(
        Kind::Lean,
        vec![stage("dough", &[("magic powder", 500.0), ("water", 300.0)])],
        vec![product("loaf", "dough", 1, 300.0)],
    );
    let Checked {
        output,
        diagnostics,
    } = sum(&recipe);
    assert_eq!(codes(&diagnostics), Vec::<&str>::new());
    near(output.dough.mass, 300.0);
}
