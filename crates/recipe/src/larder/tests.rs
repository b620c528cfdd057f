//! Checks of the larder: names, weights, packs and the traps of its data.

use super::{
    AddedSugars, FLOUR_CUP, Found, Ingredient, Larder, Role, Trans, YeastForm, egg_class,
    flour_cup_note,
};
use crate::document::model::{Amount, PantryEntry, Spooned};
use crate::measure::{Measure, NoWeight};
use crate::source::{Located, Span, code};
use numerics::quantity::{Fraction, Mass};

fn one<'a>(larder: &'a Larder, name: &str) -> &'a Ingredient {
    match larder.find(name) {
        Found::One(found) => found,
        other => panic!("{name}: {other:?}"),
    }
}

fn key(name: &str) -> String {
    one(&Larder::open(), name).key.clone()
}

fn entry(name: &str) -> PantryEntry {
    PantryEntry {
        name: Located::new(name.to_owned(), Span::new(0, 1)),
        like: None,
        protein: None,
        water: None,
        fat: None,
        sugars: None,
        salt: None,
        saturated: None,
        trans: None,
        added_sugars: None,
        ingredients: None,
        allergens: None,
        cup: None,
        span: Span::new(0, 9),
    }
}

#[expect(
    clippy::unnecessary_wraps,
    reason = "every field of an entry is optional"
)]
fn percent(value: f64) -> Option<Located<Fraction>> {
    Some(Located::new(Fraction::from_percent(value), Span::new(3, 5)))
}

fn spoon(count: f64, measure: Measure) -> Amount {
    Amount::Measures(vec![Spooned { count, measure }])
}

fn grams(larder: &Larder, name: &str, amount: &Amount) -> f64 {
    larder
        .weigh(one(larder, name), amount)
        .expect("its weight is known")
        .0
        .grams()
}

fn near(left: Option<Fraction>, right_percent: f64, within: f64) {
    let left = left.expect("known").percent();
    assert!(
        (left - right_percent).abs() <= within,
        "{left} is not {right_percent}"
    );
}

#[test]
fn names_of_several_countries_lead_to_one_thing() {
    for (name, expected) in [
        ("plain flour", "flour_ap_enriched_unbleached"),
        ("All-Purpose Flour", "flour_ap_enriched_unbleached"),
        ("strong flour", "flour_bread_enriched"),
        ("flour, bread", "flour_bread_enriched"),
        ("wholemeal flour", "flour_whole_wheat"),
        ("eggs", "egg_whole"),
        ("large eggs", "egg_whole"),
        ("Eggs, large", "egg_whole"),
        ("egg yolks", "egg_yolk"),
        ("sugar", "sugar_granulated"),
        ("caster sugar", "sugar_caster"),
        ("melted unsalted butter", "butter_unsalted"),
        ("high-sugar instant yeast", "yeast_instant_osmotolerant"),
        ("flaked almonds", "almonds_flaked"),
        ("candied peel", "peel_candied"),
        ("raisin", "raisins"),
        ("cream", "cream_heavy"),
        ("water", "water_tap"),
        ("ice", "ice"),
        ("flour_bread_enriched", "flour_bread_enriched"),
    ] {
        assert_eq!(key(name), expected, "{name}");
    }
}

#[test]
fn a_name_that_could_mean_several_things_is_never_guessed() {
    let larder = Larder::open();
    for name in [
        "flour",
        "milk",
        "butter",
        "yeast",
        "oil",
        "dried yeast",
        "sea salt",
    ] {
        assert!(
            matches!(larder.find(name), Found::Several(all) if all.len() > 1),
            "{name}"
        );
    }
}

#[test]
fn a_slip_of_the_pen_is_offered_and_not_mended() {
    let larder = Larder::open();
    for (written, meant) in [("bred flour", "bread flour"), ("cardamon", "cardamom")] {
        match larder.find(written) {
            Found::Near(names) => assert!(names.contains(&meant), "{written}: {names:?}"),
            other => panic!("{written}: {other:?}"),
        }
    }
    assert_eq!(larder.find("xylophone"), Found::Nothing);
    assert_eq!(larder.find(""), Found::Nothing);
    assert_eq!(larder.find(&"a".repeat(500)), Found::Nothing);
}

#[test]
fn every_row_is_found_by_its_key() {
    let larder = Larder::open();
    for ingredient in larder.all() {
        assert_eq!(one(&larder, &ingredient.key).key, ingredient.key);
    }
}

#[test]
fn a_blank_is_unknown_and_not_zero() {
    let larder = Larder::open();
    assert_eq!(
        one(&larder, "whole milk").composition.lactose.map(|_| ()),
        Some(())
    );
    assert_eq!(one(&larder, "bread flour").composition.lactose, None);
    assert_eq!(
        one(&larder, "flour_ap_enriched_calcium").composition.sugars,
        None
    );
}

#[test]
fn dry_yeast_weighs_by_its_packet_and_not_by_the_wrong_teaspoon() {
    let larder = Larder::open();
    let teaspoon = spoon(1.0, Measure::Teaspoon);
    for name in [
        "active dry yeast",
        "instant yeast",
        "high-sugar instant yeast",
    ] {
        let weight = grams(&larder, name, &teaspoon);
        assert!((weight - 3.1).abs() < 1e-9, "{name}: {weight} g");
        let packet = Amount::Count {
            count: 1.0,
            size: Some("packets".to_owned()),
        };
        assert!((grams(&larder, name, &packet) - 7.0).abs() < 1e-9);
    }
}

#[test]
fn fats_of_an_older_time_ask_for_their_pack() {
    let larder = Larder::open();
    for name in [
        "margarine",
        "unsalted margarine",
        "shortening",
        "spread_60_stick",
    ] {
        let all = larder.nutrients(one(&larder, name)).expect("has a row");
        assert_eq!((all.trans, all.saturated), (Trans::AskPack, None), "{name}");
    }
}

#[test]
fn unsalted_butter_has_the_trans_fat_of_salted() {
    let larder = Larder::open();
    let trans = |name| {
        larder
            .nutrients(one(&larder, name))
            .expect("has a row")
            .trans
    };
    let (Trans::Known(salted), Trans::Known(unsalted)) =
        (trans("salted butter"), trans("unsalted butter"))
    else {
        panic!("both are known");
    };
    assert!((salted.percent() - 3.278).abs() < 1e-9);
    assert!((unsalted.percent() - 3.278).abs() < 0.01);
    assert_eq!(trans("whole milk"), Trans::LittleByNature);
    assert_eq!(trans("bread flour"), Trans::NoneAssumed);
}

#[test]
fn sugars_never_exceed_the_carbohydrate() {
    let larder = Larder::open();
    for ingredient in larder.all() {
        let c = &ingredient.composition;
        if let (Some(sugars), Some(all)) = (c.sugars, c.carbohydrate) {
            assert!(sugars.si() <= all.si() + 1e-12, "{}", ingredient.key);
        }
    }
    near(one(&larder, "whole milk").composition.sugars, 4.80, 1e-9);
}

#[test]
fn a_shell_is_not_eaten() {
    let larder = Larder::open();
    let egg = one(&larder, "egg");
    let edible = larder.edible(egg, Mass::from_grams(56.7)).grams();
    assert!((edible - 49.9).abs() < 0.05, "{edible} g");
}

#[test]
fn added_sugars_are_said_where_they_can_be() {
    let larder = Larder::open();
    let added = |name| {
        larder
            .nutrients(one(&larder, name))
            .expect("has a row")
            .added_sugars
    };
    assert_eq!(added("honey"), AddedSugars::All);
    assert_eq!(added("jam"), AddedSugars::AskPack);
    assert_eq!(added("whole milk"), AddedSugars::None);
    assert!(
        matches!(added("condensed milk"), AddedSugars::About(share) if (share.percent() - 42.7).abs() < 0.05)
    );
}

#[test]
fn a_bag_of_flour_wins_over_the_table() {
    let mut larder = Larder::open();
    let mut bag = entry("bread flour");
    bag.protein = percent(13.2);
    let before = one(&larder, "bread flour").composition.clone();
    assert_eq!(larder.stock(&[bag]), []);
    let flour = one(&larder, "Bread Flour");
    near(flour.composition.protein, 13.2, 1e-9);
    assert_eq!(flour.role, Role::Flour);
    assert_eq!(flour.allergens_us, ["wheat"]);
    let sum = |c: &super::Composition| {
        [c.water, c.protein, c.fat, c.carbohydrate, c.ash]
            .into_iter()
            .flatten()
            .sum::<Fraction>()
    };
    assert!((sum(&flour.composition).percent() - sum(&before).percent()).abs() < 1e-9);
    assert!(flour.composition.water < before.water);
}

#[test]
fn a_pack_of_butter_and_a_pack_of_nothing_known() {
    let mut larder = Larder::open();
    let mut butter = entry("Alpine butter");
    butter.like = Some(Located::new("unsalted butter".to_owned(), Span::new(1, 2)));
    butter.fat = percent(83.0);
    butter.salt = percent(1.5);
    let mut mix = entry("Grandmother's seed mix");
    mix.cup = Some(Located::new(Mass::from_grams(140.0), Span::new(1, 2)));
    mix.allergens = Some(vec![Located::new("Sesame".to_owned(), Span::new(1, 2))]);
    assert_eq!(larder.stock(&[butter, mix]), []);
    let butter = one(&larder, "alpine butter");
    near(butter.composition.fat, 83.0, 1e-9);
    near(butter.composition.sodium, 0.6, 1e-9);
    let water = butter.composition.water.expect("known").percent();
    assert!((14.0..15.5).contains(&water), "{water} %");
    let mix = one(&larder, "grandmother's seed mix");
    assert_eq!(mix.composition.protein, None);
    assert_eq!(mix.allergens_eu, ["sesame"]);
    let cup = grams(&larder, "grandmother's seed mix", &spoon(2.0, Measure::Cup));
    assert!((cup - 280.0).abs() < 1e-9);
}

#[test]
fn an_impossible_pack_and_an_unknown_likeness_are_said() {
    let mut larder = Larder::open();
    let mut dense = entry("dense flour");
    dense.like = Some(Located::new("bread flour".to_owned(), Span::new(1, 2)));
    dense.protein = percent(60.0);
    dense.fat = percent(50.0);
    let mut odd = entry("odd flour");
    odd.like = Some(Located::new("bred flour".to_owned(), Span::new(7, 8)));
    let mut vague = entry("vague flour");
    vague.like = Some(Located::new("flour".to_owned(), Span::new(7, 8)));
    let said = larder.stock(&[dense, odd, vague]);
    let codes: Vec<_> = said.iter().map(|one| one.code).collect();
    assert_eq!(
        codes,
        [
            code::PACK_IMPOSSIBLE,
            code::INGREDIENT_UNKNOWN,
            code::INGREDIENT_AMBIGUOUS
        ]
    );
    assert!(said[1].hints.contains(&"like = \"bread flour\"".to_owned()));
    near(one(&larder, "dense flour").composition.protein, 11.98, 1e-9);
}

#[test]
fn eggs_without_a_size_are_not_taken_silently() {
    let larder = Larder::open();
    let egg = one(&larder, "egg");
    let three = |size: Option<&str>| Amount::Count {
        count: 3.0,
        size: size.map(str::to_owned),
    };
    let weight = |size| {
        larder
            .weigh(egg, &three(Some(size)))
            .map(|(mass, _)| mass.grams().round())
    };
    assert_eq!(weight("large"), Ok(150.0));
    assert_eq!(weight("extra-large"), Ok(168.0));
    assert_eq!(weight("L"), Ok(180.0));
    assert_eq!(weight("EU medium"), Ok(153.0));
    match larder.weigh(egg, &three(None)) {
        Err(NoWeight::SizeNotSaid { usual, mass, .. }) => {
            assert_eq!((usual.as_str(), mass.grams().round()), ("large", 150.0));
        }
        other => panic!("{other:?}"),
    }
    let gigantic = larder.weigh(egg, &three(Some("gigantic")));
    assert!(matches!(gigantic, Err(NoWeight::ByCount { known, .. }) if !known.is_empty()));
}

#[test]
fn what_has_no_cup_says_so() {
    let larder = Larder::open();
    let cup = spoon(1.0, Measure::Cup);
    for name in ["pearl sugar", "ice", "fresh yeast"] {
        assert_eq!(
            larder.weigh(one(&larder, name), &cup),
            Err(NoWeight::ByVolume),
            "{name}"
        );
    }
}

#[test]
fn white_flour_has_one_cup() {
    let larder = Larder::open();
    let cup = spoon(1.0, Measure::Cup);
    for name in [
        "plain flour",
        "bread flour",
        "high-gluten flour",
        "00 flour",
        "self-raising flour",
    ] {
        assert!(
            (grams(&larder, name, &cup) - FLOUR_CUP.grams()).abs() < 1e-9,
            "{name}"
        );
    }
    let note = flour_cup_note(crate::measure::Market::UnitedStates);
    assert!(note.contains("126 g"));
    assert!(note.contains("113–159 g"));
    // 126 g in 236.6 mL are 133 g in 250 mL.
    let note = flour_cup_note(crate::measure::Market::Australia);
    assert!(note.contains("133 g"));
}

#[test]
fn yeast_forms_come_back_to_themselves() {
    let nine = Mass::from_grams(9.0);
    let fresh = YeastForm::ActiveDry.fresh_equivalent(nine);
    assert!((fresh.grams() - 22.5).abs() < 1e-9);
    let instant = YeastForm::ActiveDry.swapped_for(nine, YeastForm::Instant);
    assert!((instant.grams() - 7.425).abs() < 1e-9);
    let back = YeastForm::Instant.swapped_for(instant, YeastForm::ActiveDry);
    assert!((back.grams() - 9.0).abs() < 1e-9);
}

#[test]
fn instant_yeast_is_drier_than_active_dry() {
    let larder = Larder::open();
    near(one(&larder, "instant yeast").composition.water, 5.0, 1e-9);
    assert_eq!(
        one(&larder, "instant yeast").role,
        Role::Yeast(YeastForm::Instant)
    );
    assert_eq!(
        one(&larder, "high-sugar instant yeast").role,
        Role::Yeast(YeastForm::InstantOsmotolerant)
    );
}

#[test]
fn allergens_are_named_by_both_laws() {
    let larder = Larder::open();
    let almonds = one(&larder, "flaked almonds");
    assert_eq!(almonds.allergens_us, ["tree nut: almond"]);
    assert_eq!(almonds.allergens_eu, ["nuts: almond"]);
    let rye = one(&larder, "dark rye flour");
    assert!(rye.allergens_us.is_empty());
    assert_eq!(rye.allergens_eu, ["gluten: rye"]);
    assert_eq!(
        one(&larder, "flour_triticale").allergens_eu,
        ["gluten: wheat", "gluten: rye"]
    );
    let peel = one(&larder, "candied peel");
    assert_eq!(peel.allergens_eu, ["sulphites"]);
    assert!(
        peel.flags
            .contains(&"allergen_by_pack:sulphites".to_owned())
    );
}

#[test]
fn egg_classes_have_words_and_letters() {
    assert_eq!(
        egg_class("medium").map(|class| class.edible.grams()),
        Some(44.0)
    );
    assert_eq!(
        egg_class("uk medium").map(|class| class.word),
        Some("M".to_owned())
    );
    assert_eq!(egg_class("gigantic"), None);
}
