//! The larder against figures that others have published: cups, spoons, eggs, compositions; and the
//! measures it chooses against those that a recipe writer printed.

use numerics::quantity::{Density, Mass};
use proptest::prelude::{ProptestConfig, prop_assert, proptest};
use recipe::document::model::{Amount, Spooned};
use recipe::larder::{Found, Grading, Ingredient, Larder, SHELL, egg_classes};
use recipe::measure::{KITCHEN, Measure, WRAPPER, spoons, spoons_of};

/// Grams in an avoirdupois ounce (exact; NIST Handbook 44, appendix C, from memory).
const OUNCE_G: f64 = 28.349_523_125;

fn one<'a>(larder: &'a Larder, name: &str) -> &'a Ingredient {
    match larder.find(name) {
        Found::One(found) => found,
        other => panic!("{name}: {other:?}"),
    }
}

fn grams_of(larder: &Larder, name: &str, measure: Measure) -> f64 {
    let amount = Amount::Measures(vec![Spooned {
        count: 1.0,
        measure,
    }]);
    larder
        .weigh(one(larder, name), &amount)
        .expect("its weight is known")
        .0
        .grams()
}

/// USDA Home Economics Research Report 41 (read in a list that quotes it) and US Army TM 10-412
/// (recipe cards D-G and D-036, read): neither is what the larder's cups are set by, except the
/// 126 g of all-purpose flour, which therefore is not checked here. The last column is how far the
/// larder is off, in per cent; what is off by more than 5 % is a miss and shown as one.
#[test]
fn cups_and_spoons_against_two_older_tables() {
    let rows: [(&str, Measure, f64, &str, f64); 20] = [
        ("bread flour", Measure::Cup, 123.0, "HERR 41", 2.4),
        ("dark rye flour", Measure::Cup, 128.0, "HERR 41", 0.0),
        ("granulated sugar", Measure::Cup, 196.0, "HERR 41", 2.0),
        ("granulated sugar", Measure::Cup, 198.4, "Army", 0.8),
        ("brown sugar", Measure::Cup, 211.0, "HERR 41", 4.3),
        ("icing sugar", Measure::Cup, 113.0, "HERR 41", 6.2),
        ("molasses", Measure::Cup, 309.0, "HERR 41", 9.1),
        ("cornstarch", Measure::Cup, 125.0, "HERR 41", 2.4),
        ("shortening", Measure::Cup, 187.0, "HERR 41", 9.6),
        ("shortening", Measure::Cup, 196.6, "Army", 4.3),
        ("canola oil", Measure::Cup, 209.0, "HERR 41", 4.3),
        ("active dry yeast", Measure::Teaspoon, 2.96, "HERR 41", 4.7),
        ("active dry yeast", Measure::Teaspoon, 3.15, "Army", -1.6),
        (
            "instant yeast",
            Measure::Teaspoon,
            3.12,
            "a bread book's 2 tsp = 0.22 oz",
            -0.6,
        ),
        ("fine salt", Measure::Tablespoon, 18.2, "Army", -1.1),
        ("nonfat dry milk", Measure::Cup, 125.0, "Army", -4.0),
        ("egg", Measure::Cup, 227.0, "Army, nominal", 7.0),
        (
            "butter_unsalted",
            Measure::Cup,
            225.0,
            "HERR 41, margarine",
            0.9,
        ),
        ("water", Measure::Cup, 236.59, "NIST", 0.0),
        ("honey", Measure::Cup, 339.0, "SR Legacy, from memory", 0.0),
    ];
    let larder = Larder::open();
    let mut misses = Vec::new();
    for (name, measure, published, source, expected) in rows {
        let ours = grams_of(&larder, name, measure);
        let off = (ours / published - 1.0) * 100.0;
        assert!(
            (off - expected).abs() < 0.06,
            "{name} ({source}): {ours:.2} g, {off:+.1} %"
        );
        if off.abs() > 5.0 {
            misses.push(name);
        }
    }
    // Sifting, temperature and air: molasses and shortening of 1977 were lighter by the cup.
    assert_eq!(misses, ["icing sugar", "molasses", "shortening", "egg"]);
}

/// AMS 56: ounces for a dozen in shell; what USDA weighed without shell must be 88 % of it.
#[test]
fn united_states_egg_classes_against_their_standard() {
    let ounces: [(&str, f64); 6] = [
        ("jumbo", 30.0),
        ("extra large", 27.0),
        ("large", 24.0),
        ("medium", 21.0),
        ("small", 18.0),
        ("peewee", 15.0),
    ];
    let classes = egg_classes();
    for (word, ounces) in ounces {
        let class = classes
            .iter()
            .find(|class| class.grading == Grading::Us && class.word == word)
            .expect("every class is there");
        let shell_g = ounces * OUNCE_G / 12.0;
        let from_g = class.from.expect("a bound").grams();
        assert!(
            (from_g - shell_g).abs() < 0.06,
            "{word}: {from_g} g, standard {shell_g:.2} g"
        );
        let edible_g = shell_g * (1.0 - SHELL.si());
        let off = class.edible.grams() / edible_g - 1.0;
        assert!(off.abs() < 0.02, "{word}: {off:+.3}");
    }
}

/// Regulation (EC) 589/2008, article 4: the bounds meet, and what is taken lies inside them.
#[test]
fn european_egg_classes_against_their_regulation() {
    let bounds = [
        ("XL", Some(73.0), None),
        ("L", Some(63.0), Some(73.0)),
        ("M", Some(53.0), Some(63.0)),
        ("S", None, Some(53.0)),
    ];
    let classes = egg_classes();
    for (word, from, below) in bounds {
        let class = classes
            .iter()
            .find(|class| class.grading == Grading::Eu && class.word == word)
            .expect("every class is there");
        assert_eq!(class.from.map(|mass| mass.grams().round()), from, "{word}");
        assert_eq!(
            class.below.map(|mass| mass.grams().round()),
            below,
            "{word}"
        );
        let shell_g = class.edible.grams() / (1.0 - SHELL.si());
        assert!(
            from.is_none_or(|from| shell_g >= from) && below.is_none_or(|below| shell_g < below)
        );
    }
}

/// Water, protein, fat, carbohydrate, ash and alcohol are all there is, except where something else
/// is: carbon dioxide in baking soda, acid in vinegar, oil in pepper; two rows are short at the source.
#[test]
fn compositions_come_to_the_whole() {
    let larder = Larder::open();
    let mut apart: Vec<&str> = Vec::new();
    for ingredient in larder.all() {
        let c = &ingredient.composition;
        let parts = [c.water, c.protein, c.fat, c.carbohydrate, c.ash, c.alcohol];
        let percent: f64 = parts.iter().flatten().map(|share| share.percent()).sum();
        if (percent - 100.0).abs() > 0.6 {
            apart.push(&ingredient.key);
        }
    }
    apart.sort_unstable();
    assert_eq!(
        apart,
        [
            "baking_soda",
            "oil_coconut",
            "pepper_black",
            "vinegar_cider",
            "vinegar_distilled",
            "yeast_compressed"
        ]
    );
}

/// The measures that the writer of the cardamom dough printed beside her grams: one person's
/// choice. Wherever another is chosen here, it must not be further off than hers.
#[test]
fn measures_against_a_printed_recipe() {
    use Measure::{Cup, Tablespoon as Tbsp, Teaspoon as Tsp};
    type Printed<'a> = (&'a str, f64, &'a [(f64, Measure)]);
    let rows: [Printed; 13] = [
        ("bread flour", 245.0, &[(1.75, Cup), (3.0, Tbsp)]),
        ("water", 137.0, &[(0.5, Cup), (1.0, Tbsp)]),
        ("instant yeast", 0.8, &[(0.25, Tsp)]),
        ("bread flour", 60.0, &[(7.5, Tbsp)]),
        ("whole milk", 300.0, &[(1.25, Cup)]),
        ("bread flour", 675.0, &[(16.0 / 3.0, Cup)]),
        ("whole milk", 135.0, &[(0.5, Cup), (2.5, Tsp)]),
        ("granulated sugar", 157.0, &[(0.75, Cup), (2.0, Tsp)]),
        ("fine salt", 17.5, &[(1.0, Tbsp)]),
        ("high-sugar instant yeast", 9.0, &[(1.0, Tbsp)]),
        ("ground cardamom", 8.0, &[(4.0, Tsp)]),
        ("unsalted butter", 157.0, &[(11.0, Tbsp)]),
        ("granulated sugar", 60.0, &[(0.25, Cup), (2.5, Tsp)]),
    ];
    let larder = Larder::open();
    let mut chosen = Vec::new();
    for (name, grams, printed) in rows {
        let ingredient = one(&larder, name);
        let ours = spoons_of(
            Mass::from_grams(grams),
            ingredient,
            recipe::measure::Market::UnitedStates,
        )
        .expect("it can be measured");
        let theirs = Amount::Measures(
            printed
                .iter()
                .map(|(count, measure)| Spooned {
                    count: *count,
                    measure: *measure,
                })
                .collect(),
        );
        let theirs_g = larder
            .weigh(ingredient, &theirs)
            .expect("its weight is known")
            .0
            .grams();
        let theirs_off = theirs_g / grams - 1.0;
        assert!(
            ours.error.si().abs() <= theirs_off.abs() + 1e-9,
            "{grams} g {name}: {} at {:+.2} %, printed at {:+.2} %",
            ours.text,
            ours.error.percent(),
            theirs_off * 100.0
        );
        chosen.push(ours.text);
    }
    assert_eq!(
        chosen,
        [
            "1¾ cups + 3 Tbsp",
            "½ cup + 4 tsp",
            "¼ tsp",
            "¼ cup + 3½ Tbsp",
            "1¼ cups",
            "5⅓ cups",
            "½ cup + 2½ tsp",
            "¾ cup + ½ Tbsp",
            "1 Tbsp",
            "1 Tbsp",
            "1 Tbsp + 1 tsp",
            "11 Tbsp",
            "¼ cup + 2½ tsp",
        ]
    );
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is measured is what its parts hold, within the error that is allowed, in at most
    /// two measures.
    #[test]
    fn measures_keep_their_bound(grams in 0.01_f64..6000.0, g_per_ml in 0.15_f64..2.0, wrapper: bool) {
        let (mass, density) = (Mass::from_grams(grams), Density::from_grams_per_millilitre(g_per_ml));
        let allowed: &[Measure] = if wrapper { &WRAPPER } else { &KITCHEN };
        if let Some(spoons) = spoons(mass, density, allowed) {
            let ml: f64 = spoons.parts.iter().map(|p| p.count * p.measure.volume().millilitres()).sum();
            let error = ml * g_per_ml / grams - 1.0;
            let bound = if grams < 10.0 { 0.05 } else { 0.03 };
            prop_assert!((error - spoons.error.si()).abs() < 1e-9);
            prop_assert!(error.abs() <= bound + 1e-12);
            prop_assert!((1..=2).contains(&spoons.parts.len()));
            prop_assert!(spoons.parts.iter().all(|p| allowed.contains(&p.measure)));
        } else {
            // Between a quarter cup and twenty cups there is always a measure.
            let ml = grams / g_per_ml;
            prop_assert!(wrapper || !(60.0..4700.0).contains(&ml), "nothing for {ml} mL");
        }
    }

    /// Any text at all can be looked up.
    #[test]
    fn any_text_can_be_looked_up(text in "\\PC{0,90}") {
        thread_local!(static LARDER: Larder = Larder::open());
        LARDER.with(|larder| {
            let _ = larder.find(&text);
        });
    }
}
