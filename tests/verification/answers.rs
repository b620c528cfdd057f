//! Every reader's question answered for a demo recipe, one figure of each held against a sum by hand or a published factor.

use crate::asked::{Asked, value};
use std::sync::LazyLock;

const CARDAMOM: &str = include_str!("../../examples/cardamom-dough.toml");

/// The four-way cardamom dough: 980 g of flour, 9.8 g of instant yeast in all, 61.2 % of water.
static FOUR_WAYS: LazyLock<Asked> = LazyLock::new(|| Asked::of(CARDAMOM));
static HEARTH: LazyLock<Asked> =
    LazyLock::new(|| Asked::of(include_str!("../../examples/hearth-loaf.toml")));
static BRAID: LazyLock<Asked> =
    LazyLock::new(|| Asked::of(include_str!("../../examples/same-day-loaf.toml")));

fn near(ours: f64, by_hand: f64, miss: f64, what: &str) {
    println!("{what}: {ours:.4}, by hand {by_hand}");
    assert!(
        (ours - by_hand).abs() <= miss,
        "{what}: {ours} beside {by_hand}"
    );
}

/// Grams of a figure of the four-way dough, beside grams by hand.
fn grams(question: &str, says: &[&str], name: &str, by_hand: f64, miss: f64) {
    let ours = FOUR_WAYS.figure(question, says, name) * 1000.0;
    near(ours, by_hand, miss, &format!("{question}, {name}, g"));
}

/// A plain share or number.
fn plain(question: &str, says: &[&str], name: &str, by_hand: f64, miss: f64) {
    let ours = FOUR_WAYS.figure(question, says, name);
    near(ours, by_hand, miss, &format!("{question}, {name}"));
}

fn celsius(question: &str, says: &[&str], name: &str, by_hand: f64, miss: f64) {
    let ours = FOUR_WAYS.figure(question, says, name) - 273.15;
    near(ours, by_hand, miss, &format!("{question}, {name}, °C"));
}

#[test]
fn yeasts() {
    // Fresh 1, active dry 0.40, instant 0.33 (a professional bread textbook): 9.8 / 0.33 x 0.40.
    grams("other-dry-yeast", &[], "instead", 11.88, 0.25);
    grams(
        "other-dry-yeast",
        &[],
        "by-the-kitchen-rule",
        9.8 / 0.75,
        0.01,
    );
    // 9.8 / 0.33; USDA's compressed yeast is 69 % water.
    grams("fresh-yeast", &[], "instead", 29.7, 0.3);
    grams("fresh-yeast", &[], "water", 29.7 * 0.69, 0.3);
    grams("one-packet", &[], "wanted", 9.8, 1e-6);
    // 1 % a month of a closed pack, from 100 %.
    plain(
        "old-yeast",
        &["yeast-age=8months"],
        "left-if-sealed",
        0.92,
        1e-9,
    );
    // 1 / 0.7 as much, and never more than half as much again.
    grams("old-yeast", &[], "more-of-it", 9.8 / 0.7, 0.06);
    grams(
        "old-yeast",
        &["yeast-power=50%"],
        "more-of-it",
        9.8 * 1.5,
        0.06,
    );
}

#[test]
fn flours() {
    // With 12.5 % on the bag: 1.25 x 2 points of 980 g, between 1 and 1.5; gluten 980 x 2 / (75 - 10.5).
    let strong = Asked::of(&CARDAMOM.replace("12.2 %\"\n", "12.5 %\"\n"));
    let ours = |name| strong.figure("other-flour", &["protein=10.5%"], name) * 1000.0;
    near(ours("water"), 24.5, 0.01, "water for a flour of 10.5 %, g");
    near(ours("water-least"), 19.6, 0.01, "at a point for a point, g");
    near(ours("water-most"), 29.4, 0.01, "at one and a half, g");
    near(ours("gluten"), 30.4, 0.05, "gluten, g");
    // A quarter of 980 g; 8 points for all wholemeal less the 0.25 that this flour takes above 12 %.
    grams("wholemeal", &[], "wholemeal", 245.0, 1e-6);
    grams("wholemeal", &[], "water", 980.0 * 0.25 * 0.0775, 0.6);
    plain("wholemeal", &[], "lower", 0.125, 1e-9);
    // A fifth of the flour, half of it flour and half water.
    grams("sourdough", &[], "starter", 196.0, 1e-6);
    grams("sourdough", &[], "half-of-it", 98.0, 1e-6);
}

#[test]
fn milk_egg_sugar_and_butter() {
    // USDA: butter 81.1 % fat; the demo's author: 127 g of oil for 157 g of butter.
    grams("no-dairy", &[], "oil", 127.0, 1.5);
    grams("no-dairy", &[], "block", 157.0 * 0.811 / 0.75, 0.1);
    // 100 g of egg: 76 of water, 9.5 of fat (USDA 01123); the author: 84 g of milk and 8 g of butter.
    grams("no-egg", &[], "water", 76.0, 0.3);
    grams("no-egg", &[], "fat", 9.5, 0.05);
    let changes = FOUR_WAYS.answer("no-egg", &[]).changes;
    let after = |what: &str| -> f64 {
        let line = changes.iter().find(|line| line.starts_with(what));
        let line = line.unwrap_or_else(|| panic!("{what} in {changes:?}"));
        let now = line.split('→').nth(1).expect("after an arrow").trim();
        now.split(|letter: char| !letter.is_ascii_digit() && letter != '.')
            .next()
            .and_then(|number| number.parse().ok())
            .expect("grams")
    };
    near(
        after("dough: milk") - 135.0,
        84.0,
        2.0,
        "milk for the eggs, g",
    );
    near(
        after("dough: butter") - 157.0,
        8.0,
        1.0,
        "butter for the eggs, g",
    );
    grams("less-sugar", &[], "left-out", 78.5, 1e-6);
    plain(
        "less-sugar",
        &["share=25%"],
        "sugar-then",
        157.0 * 0.75 / 980.0,
        1e-9,
    );
    // Sugar 0.82 of honey, water 0.17 of it.
    grams("honey", &[], "honey", 157.0 / 0.82, 0.6);
    grams("honey", &[], "water", 0.17 * 191.5, 0.3);
    // 1.6 % of salt in 157 g of butter.
    grams("salted-butter", &[], "salt-then", 15.0, 0.06);
}

#[test]
fn spoons_eggs_and_cups() {
    for (name, each) in [("fine", 6.0), ("dense-coarse", 4.8), ("flaky", 2.8)] {
        plain(
            "coarse-salt",
            &[],
            &format!("{name}-teaspoons"),
            17.5 / each,
            1e-9,
        );
    }
    // USDA: medium 44 g without shell, extra large 56 g; true up at 76 % water.
    plain("egg-size", &[], "count", 2.0, 1e-9);
    grams("egg-size", &[], "water", 12.0 * 0.76, 0.05);
    grams("egg-size", &["egg=extra large"], "water", 12.0 * 0.76, 0.05);
    plain("cups", &[], "cups-spooned", 980.0 / 126.0, 1e-9);
    plain("cups", &["cup=145g"], "cups-scooped", 980.0 / 145.0, 1e-9);
    // 599.7 g of water on 980 g of flour, worked out by the larder's rows; dipped, on 1 236.7 g.
    plain("cups", &[], "water-scooped", 0.612 * 126.0 / 159.0, 5e-4);
}

#[test]
fn tins_and_batches() {
    // The author: 826 g for the 8-cup tin, 414 g for 950 mL (at 2.29 mL/g).
    grams("other-tin", &["tin=1893mL"], "dough", 826.5, 0.5);
    grams("other-tin", &["tin=950mL"], "dough", 414.8, 0.5);
    plain("other-tin", &[], "room", 2.29e-3, 5e-6);
    grams("half-batch", &[], "half-the-dough", 1976.3 / 2.0, 1.5);
    grams("half-batch", &[], "egg", 50.0, 0.1);
    grams("double-batch", &[], "yeast", 19.6, 1e-6);
    // 1 960 g in a mixer for 1 kg.
    plain("double-batch", &["flour-limit=1000g"], "mixes", 2.0, 1e-9);
}

#[test]
fn machines() {
    // 980 / 500 and 980 / 300, rounded up.
    plain("small-mixer", &[], "mixes", 2.0, 1e-9);
    plain("small-mixer", &["flour-limit=300g"], "mixes", 4.0, 1e-9);
    grams("small-mixer", &[], "flour-each", 490.0, 1e-6);
    grams("small-mixer", &[], "dough-each", 988.15, 0.5);
    plain(
        "food-processor",
        &["flour-limit=600g"],
        "batches",
        4.0,
        1e-9,
    );
    plain("bread-machine", &[], "part", 500.0 / 980.0, 1e-9);
    plain("salt-last", &[], "salt", 17.5 / 980.0, 1e-9);
    // 4 + 6 + 7 + 2 min.
    plain("kneaded", &[], "mixing", 19.0 * 60.0, 1e-6);
}

/// A plain mean of mass and specific heat in the test: what the dough comes to with the milk as answered for hands.
#[test]
fn milk_for_hands_by_a_plain_heat_balance() {
    let milk = FOUR_WAYS.figure("no-mixer", &[], "by-hand") - 273.15;
    // Grams, J/(g K), °C: flour, preferment, paste, milk, eggs, sugar, salt, butter, the bowl's part.
    let parts = [
        (675.0, 1.95, 21.0),
        (382.8, 2.55, 18.0),
        (335.0, 3.5, 30.0),
        (135.0, 3.9, milk),
        (100.0, 3.4, 20.0),
        (157.0, 1.25, 21.0),
        (17.5, 0.9, 21.0),
        (157.0, 2.4, 18.0),
        (720.0, 0.46, 21.0),
    ];
    let holds: f64 = parts.iter().map(|(mass, heat, _)| mass * heat).sum();
    let mean: f64 = parts
        .iter()
        .map(|(mass, heat, at)| mass * heat * at)
        .sum::<f64>()
        / holds;
    // Flour wetted 15.1 J/g; hands 2.5 W/kg for 19 min; sugar and salt dissolve; some butter melts.
    let heat = 675.0 * 15.1 + 1.976 * 2.5 * 1140.0 - 157.0 * 16.0 - 17.5 * 66.0 - 157.0 * 20.0;
    near(mean + heat / holds, 25.5, 1.2, "dough by hand, °C");
}

#[test]
fn kitchens_and_heights() {
    // International standard atmosphere: 0.824 of the pressure at 1 600 m; water boils at 94.8 °C.
    plain("altitude", &[], "gas", 1.0 / 0.8240, 2e-3);
    celsius("altitude", &[], "water-boils", 94.75, 0.1);
    grams("altitude", &[], "yeast", 9.8 * 0.824, 0.03);
    // The author: 92 °C asked, 94.7 - 3 = 91.7 reached.
    celsius("altitude", &["altitude=1609m"], "middle", 91.7, 0.1);
    celsius("cold-kitchen", &["room=17C"], "room", 17.0, 1e-6);
    celsius("hot-kitchen", &[], "room", 30.0, 1e-6);
    grams("faster", &[], "yeast-half-as-much-again", 14.7, 1e-6);
    celsius("faster", &[], "warm", 30.0, 1e-6);
    // Nearly a third of butter: not above 28 °C.
    let warm = BRAID.figure("faster", &[], "warm") - 273.15;
    near(warm, 28.0, 1e-6, "a warm place for much butter, °C");
}

/// Ten per cent a degree (the trade press): 80 min at 26 °C are 80 x exp(0.0953 x 4) = 117 min at 22 °C.
#[test]
fn a_dough_at_22_by_ten_per_cent_a_degree() {
    use bake::kitchen::Kitchen;
    use bake::simulate::{Anchor, How, simulate};
    use edit::stretch::{What, Yardstick, coarse, stretches};
    use numerics::quantity::Temperature;
    let recipe = recipe::document::read_recipe(CARDAMOM)
        .output
        .expect("it reads");
    let larder = recipe::larder::Larder::open();
    let formula = recipe::formula::formula(&recipe, &larder).output;
    let at = Temperature::from_celsius;
    let cool = Kitchen {
        room: at(22.0),
        warm_place: at(22.0),
        ..Kitchen::standard()
    };
    let how = How {
        dough: Some(at(22.0)),
        ..coarse(Anchor::default())
    };
    let course = simulate(&recipe, &formula, &cool, &how).output;
    let yardstick = Yardstick::of(&recipe, &formula, Anchor::default());
    let rise = stretches(&recipe, &course)
        .into_iter()
        .find(|one| one.what == What::Rise && one.of == "dough")
        .expect("a rise");
    near(
        yardstick.told(&rise).minutes(),
        117.0,
        12.0,
        "rise at 22 °C, min",
    );
}

#[test]
fn nights_and_mornings() {
    let answer = FOUR_WAYS.answer("for-breakfast", &["serve-at=09:00"]);
    let of = |name: &str| value(&answer, name);
    // Out = served - cooled - baked - risen; the loaf has risen in the cold.
    let out = 9.0 * 3600.0 - 3600.0 - of("breakfast.bake-of-the-loaf");
    near(of("out-loaf"), out, 1.0, "loaf out of the refrigerator, s");
    let braid = BRAID.answer("for-breakfast", &[]);
    let of = |name: &str| value(&braid, name);
    let out = 8.0 * 3600.0
        - 70.0 * 60.0
        - of("breakfast.bake-of-the-braid")
        - of("from-cold.last-rise-of-the-braid");
    near(
        of("out-braid"),
        out,
        1.0,
        "braid out of the refrigerator, s",
    );
    plain("overnight", &[], "sign", 1.9, 1e-9);
    plain("left-out", &["left-out=3h"], "stands", 3.0 * 3600.0, 1e-6);
    let food = FOUR_WAYS.answer("left-out", &[]).reply;
    assert!(
        food.contains("food code") && food.contains("Raw egg"),
        "{food}"
    );
}

#[test]
fn signs_and_ovens() {
    plain("risen", &[], "sign-the-rise-of-the-dough", 1.9, 1e-9);
    // 555 of 620 g, and 62 of 65 g with 6 g of filling.
    plain("done", &[], "lost-loaf", 65.0 / 620.0, 1e-9);
    plain("done", &[], "lost-knots", 9.0 / 71.0, 1e-9);
    // 175 - 25 / 1.8 °C (United States), 175 - 20 °C (Europe).
    celsius("fan", &[], "less-25-f", 161.1, 0.05);
    celsius("fan", &[], "less-20", 155.0, 1e-6);
    celsius("other-material", &[], "glass-dial", 161.1, 0.05);
}

#[test]
fn faults() {
    // 61.2 % of water by 159 / 126 is below the least usual 52 %: scooped flour explains it, as does yeast at half its power.
    let dense = FOUR_WAYS.answer("dense", &[]);
    near(
        value(&dense, "water-scooped"),
        0.612 / (159.0 / 126.0),
        1e-3,
        "water, scooped",
    );
    let first = &dense.causes[0];
    assert!(
        first.what.contains("scooped") || first.what.contains("half its power"),
        "{first:?}"
    );
    let falls = |two: &[edit::answers::Cause]| {
        two[1].verdict == "no figure" || two[0].reach.min(1.0) >= two[1].reach.min(1.0)
    };
    assert!(dense.causes.windows(2).all(falls));
    // 80 min and 75 min of rising, written: 45 min more, a third of the last rise less.
    plain("collapsed", &[], "waited-45-min", 200.0 / 155.0, 1e-6);
    plain(
        "holes",
        &[],
        "last-rise-two-thirds",
        (80.0 + 75.0 * 0.67) / 155.0,
        1e-6,
    );
    plain(
        "flat",
        &[],
        "next-tin-up",
        1420.0 / 620.0 * 4.0 / 3.0 / 1000.0,
        1e-6,
    );
    // Their own tin and cup; what they told stands first when it explains part of it.
    let low = FOUR_WAYS.answer("flat", &["tin=1893mL"]);
    assert!(
        low.causes[0].what.contains("Your tin"),
        "{:?}",
        low.causes[0]
    );
    plain("flat", &["tin=1893mL"], "next-tin-up", 1.893 / 620.0, 1e-6);
    plain(
        "stiff",
        &["cup=145g"],
        "flour-scooped",
        0.612 * 126.0 / 145.0,
        1e-3,
    );
    plain(
        "over-the-rim",
        &[],
        "next-tin-down",
        1420.0 / 620.0 * 0.75 / 1000.0,
        1e-6,
    );
    // 113 g in the cup for 126 g; 3 % and 1 % of 980 g; 15 g of water less.
    plain("sticky", &[], "flour-sifted", 0.612 * 126.0 / 113.0, 1e-3);
    grams("sticky", &[], "flour-at-most", 29.4, 1e-6);
    grams("stiff", &[], "milk-at-a-time", 9.8, 1e-6);
    plain("stiff", &[], "paste-overcooked", 0.612 - 15.0 / 980.0, 5e-4);
    plain("greasy", &[], "butter", 157.0 / 980.0, 1e-9);
    // The author's plain balance: 23.2 °C in a room of 16, 28.4 in one of 27; on to 30.
    celsius("greasy", &[], "in-a-room-of-30", 29.8, 0.8);
    // Lightness of a finished crust as published: brown below 70, not yet black.
    let pale = FOUR_WAYS.answer("pale", &[]);
    assert!((50.0..70.0).contains(&value(&pale, "lightness")));
    assert!(
        pale.causes
            .iter()
            .all(|one| one.verdict == "no figure" || one.reach > 0.0)
    );
    let raw = FOUR_WAYS.answer("burnt-outside", &[]);
    assert!(value(&raw, "oven-25-hotter") - 273.15 < 92.0 - 5.0);
}

#[test]
fn keeping() {
    // ¼ tsp of 3.1 g a teaspoon for 3 cups of 126 g.
    grams(
        "freeze",
        &[],
        "more-yeast-least",
        980.0 * 0.25 * 3.1 / 378.0,
        1e-6,
    );
    // 550 g of flour at 3.61 kcal/g (USDA 20083), 930 of 936.9 g of dough in a loaf of 805 g.
    let kcal = HEARTH.figure("calories", &[], "in-100-g-loaf") / 4184.0;
    near(
        kcal,
        550.0 * 3.61 * (930.0 / 936.9) / 805.0 * 100.0,
        5.0,
        "kcal in 100 g",
    );
}
