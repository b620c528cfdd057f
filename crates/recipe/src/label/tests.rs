//! Lists, allergens, shares of what is for bench, tin and top, prices: worked out by hand.

use super::cost::cost;
use super::prices::{Prices, prices};
use super::statement::{eu, us};
use super::{Label, besides, label};
use crate::document::model::Recipe;
use crate::document::{read_prices_bytes, read_recipe};
use crate::formula::{Formula, formula};
use crate::larder::Larder;
use crate::source::Diagnostic;
use numerics::quantity::Mass;

const SAME_DAY: &str = include_str!("../../../../examples/same-day-loaf.toml");
const CARDAMOM: &str = include_str!("../../../../examples/cardamom-dough.toml");

/// A recipe with its sums and a larder that has its pantry.
fn open(text: &str) -> (Recipe, Formula, Larder) {
    let recipe = read_recipe(text).output.expect("a recipe");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let sums = formula(&recipe, &larder).output;
    (recipe, sums, larder)
}

fn small(items: &str) -> String {
    format!(
        "everyoven = 1\ntitle = \"x\"\nkind = \"lean\"\n[[stage]]\nname = \"dough\"\nitems = [{items}]\n\
         [[product]]\nname = \"loaf\"\nfrom = \"dough\"\ncount = 1\npiece = \"100 g\"\n"
    )
}

#[test]
fn the_heavier_comes_first_and_little_is_told_apart() {
    // 600 flour, 210 + 0 milk, 180 butter, 150 egg, 72 sugar, 11 salt, 9 yeast of 1232 g: 2 % are 24.6 g.
    let (recipe, sums, larder) = open(SAME_DAY);
    let made = label(&recipe, &sums, &larder);
    let entries = us(&made.products[0].content, &larder);
    let names: Vec<&str> = entries.iter().map(|entry| entry.text.as_str()).collect();
    assert_eq!(
        names,
        [
            "unbleached enriched flour (wheat flour, niacin, reduced iron, thiamin mononitrate, riboflavin, folic acid)",
            "milk",
            "butter",
            "eggs",
            "sugar",
            "cream",
            "salt",
            "yeast",
        ]
    );
    let little: Vec<bool> = entries.iter().map(|entry| entry.little).collect();
    assert_eq!(
        little,
        [false, false, false, false, false, true, true, true]
    );
}

#[test]
fn europe_sets_allergens_apart_and_counts_only_the_water_that_stays() {
    let text = small(
        "{ of = \"bread flour\", take = \"60 g\" }, { of = \"water\", take = \"38 g\" }, { of = \"rye flour\", take = \"2 g\" }, { of = \"sesame seeds\", take = \"30 g\" }",
    );
    let text = text.replace("\"100 g\"", "\"130 g\"\nafter-bake = \"112 g\"");
    let (recipe, sums, larder) = open(&text);
    let made = label(&recipe, &sums, &larder);
    let list: Vec<(String, Vec<String>)> = eu(&made.products[0], &larder)
        .into_iter()
        .map(|entry| {
            let marks = entry
                .allergens
                .iter()
                .map(|(a, b)| entry.text[*a..*b].to_owned());
            (entry.text.clone(), marks.collect())
        })
        .collect();
    // 38 g of water less the 18 g lost are 20 g: after the sesame's 30 g.
    let texts: Vec<&str> = list.iter().map(|(text, _)| text.as_str()).collect();
    assert_eq!(texts[0], "bread flour (wheat)");
    assert_eq!(list[0].1, ["wheat"]);
    assert!(
        list[1].0.contains("sesame") && list[1].1 == ["sesame"],
        "{list:?}"
    );
    assert_eq!(texts[2], "water");
    assert_eq!(list[3].1, ["rye"]);
}

#[test]
fn what_is_for_the_top_goes_where_the_sentences_say() {
    let dough = |formula: &Formula| -> Vec<Mass> {
        formula
            .products
            .iter()
            .map(|product| product.dough)
            .collect()
    };
    let shares = |recipe: &Recipe, sums: &Formula, called: &str, grams: f64| -> Vec<String> {
        let place = recipe
            .besides
            .iter()
            .position(|item| item.called() == called);
        besides::shares(
            recipe,
            place.expect("an item"),
            Mass::from_grams(grams),
            &dough(sums),
        )
        .iter()
        .map(|share| numerics::decimal::fixed(*share, 3))
        .collect()
    };
    let (recipe, sums, _) = open(SAME_DAY);
    // Flour for the bench: no product names it; 660 and 560 g of dough share it.
    assert_eq!(
        shares(&recipe, &sums, "all-purpose flour", 15.0),
        ["0.541", "0.459"]
    );
    assert_eq!(shares(&recipe, &sums, "butter", 8.0), ["1.000", "0.000"]);
    // "Brush with [cream], sparing some for the buns."
    assert_eq!(shares(&recipe, &sums, "cream", 20.0), ["0.541", "0.459"]);
    assert_eq!(
        shares(&recipe, &sums, "flaked almonds", 15.0),
        ["0.000", "1.000"]
    );
    let (recipe, sums, _) = open(CARDAMOM);
    // Knots, rolls, wreath, loaf: 10 g of the 20 g of pearl sugar each for knots and wreath.
    assert_eq!(
        shares(&recipe, &sums, "pearl sugar", 20.0),
        ["0.500", "0.000", "0.500", "0.000"]
    );
    // "Beat [egg for the top] ...; brush the knots, keeping the rest for the wreath and the loaf":
    // 520, 560 and 620 g of dough.
    assert_eq!(
        shares(&recipe, &sums, "egg", 50.0),
        ["0.306", "0.000", "0.329", "0.365"]
    );
}

fn priced(text: &str, larder: &Larder) -> (Option<Prices>, Vec<Diagnostic>) {
    let read = read_prices_bytes(format!("everyoven = 1\n{text}").as_bytes());
    assert!(read.diagnostics.is_empty(), "{:?}", read.diagnostics);
    let looked = prices(&read.output.expect("prices"), larder);
    (looked.output, looked.diagnostics)
}

fn price(of: &str, pay: &str, amount: &str, seen: &str) -> String {
    format!("[[price]]\nof = \"{of}\"\npay = \"{pay}\"\nfor = \"{amount}\"\nseen = {seen}\n")
}

fn codes(said: &[Diagnostic]) -> Vec<&str> {
    said.iter().map(|one| one.code.name).collect()
}

#[test]
fn a_sum_without_every_price_names_what_it_leaves_out() {
    let text = small(
        "{ of = \"bread flour\", take = \"500 g\" }, { of = \"water\", take = \"300 g\" }, { of = \"egg\", take = \"100 g\" }, { of = \"fine salt\", take = \"10 g\" }",
    );
    let (recipe, sums, larder) = open(&text);
    let made: Label<'_> = label(&recipe, &sums, &larder);
    let file = price("bread flour", "2.49 EUR", "1 kg", "2026-01-12")
        + &price("bread flour", "9.99 EUR", "1 kg", "2020-01-12")
        + &price("egg", "3.00 EUR", "12 large", "2026-01-12");
    let (found, said) = priced(&file, &larder);
    let cost = cost(&made, &found.expect("prices"), &larder);
    // 500 g of 2.49 a kilogram are 1.245; 100 g of twelve eggs of 50 g are two of them: 0.50.
    assert_eq!(numerics::decimal::fixed(cost.sum, 4), "1.7450");
    assert_eq!(cost.without, ["fine salt"]);
    assert_eq!(codes(&said), ["price-old"]);
    assert!(cost.old.is_empty(), "the newest price counts");
}

#[test]
fn currencies_are_never_added_and_old_is_old_beside_the_newest() {
    let larder = Larder::open();
    let two = price("bread flour", "2.49 EUR", "1 kg", "2026-01-12")
        + &price("egg", "3.00 USD", "12 large", "2026-01-12");
    let (found, said) = priced(&two, &larder);
    assert!(found.is_none());
    assert_eq!(codes(&said), ["currencies-mixed"]);
    let year = price("bread flour", "2.49 EUR", "1 kg", "2025-01-12")
        + &price("egg", "3.00 EUR", "12 large", "2026-01-12");
    let (found, said) = priced(&year, &larder);
    assert!(
        found.is_some() && said.is_empty(),
        "a year is not more than a year: {said:?}"
    );
    let unweighed = price("bread flour", "2.49 EUR", "2 packets", "2026-01-12");
    assert_eq!(
        codes(&priced(&unweighed, &larder).1),
        ["price-without-weight"]
    );
}

#[test]
fn the_pack_s_own_list_and_fats_come_before_the_usual_ones() {
    let text = small("{ of = \"margarine\", take = \"100 g\" }").replace(
        "[[stage]]",
        "[[pantry]]\nname = \"margarine\"\nlike = \"margarine_stick_salted\"\nsaturated = \"18 %\"\n\
         trans = \"0.5 %\"\ningredients = \"rapeseed oil, water, palm fat, salt\"\n[[stage]]",
    );
    let (recipe, sums, larder) = open(&text);
    let made = label(&recipe, &sums, &larder);
    let bought = made.bought.tally(&larder);
    let grams = |nutrient| bought.of(nutrient).times(1e3);
    let saturated = grams(super::Nutrient::Saturated);
    assert!((saturated.low - 18.0).abs() < 1e-9 && (saturated.high - 18.0).abs() < 1e-9);
    assert!((grams(super::Nutrient::Trans).high - 0.5).abs() < 1e-9);
    let list = us(&made.products[0].content, &larder);
    assert_eq!(
        list[0].text,
        "margarine (rapeseed oil, water, palm fat, salt)"
    );
    assert!(!list[0].typical);
}
