//! What holds for every variant: nothing new to mend, there and back is where one began, the dough keeps its water.

use bake::kitchen::Kitchen;
use edit::variant::{Variant, Wish, variant};
use everyoven_tests::demos::DEMOS;
use numerics::quantity::Mass;
use recipe::document::{model::Recipe, read_recipe};
use recipe::formula::{Formula, Resolved, formula};
use recipe::larder::Larder;
use recipe::source::Severity;
use std::collections::BTreeMap;

/// One thing for another, and back.
const PAIRS: [(&str, &str); 21] = [
    ("fresh yeast", "active dry yeast"),
    ("fresh yeast", "instant yeast"),
    ("fresh yeast", "high-sugar instant yeast"),
    ("active dry yeast", "instant yeast"),
    ("instant yeast", "active dry yeast"),
    ("high-sugar instant yeast", "instant yeast"),
    ("plain flour", "bread flour"),
    ("plain flour", "strong flour"),
    ("bread flour", "all-purpose flour"),
    ("skim milk", "whole milk"),
    ("buttermilk", "whole milk"),
    ("oat drink", "whole milk"),
    ("soy drink", "whole milk"),
    ("almond drink", "whole milk"),
    ("water", "whole milk"),
    ("salted butter", "unsalted butter"),
    ("olive oil", "unsalted butter"),
    ("unsalted margarine", "unsalted butter"),
    ("honey", "granulated sugar"),
    ("brown sugar", "granulated sugar"),
    ("coarse flake salt", "fine salt"),
];

/// Wishes that have no way back of one word.
const ONE_WAY: [&str; 12] = [
    "no egg",
    "egg yolk for egg",
    "egg white for egg",
    "medium eggs for eggs",
    "EU medium eggs for eggs",
    "jumbo eggs for eggs",
    "wholemeal flour for 25 % of the flour",
    "rye flour for a tenth of the flour",
    "light rye flour for 10 % of the flour",
    "plain flour and gluten for strong flour",
    "nonfat dry milk for whole milk",
    "maple syrup for granulated sugar",
];

fn read(text: &str) -> (Recipe, Larder) {
    let recipe = read_recipe(text).output.expect("a recipe");
    let mut larder = Larder::open();
    assert!(larder.stock(&recipe.pantry).is_empty());
    (recipe, larder)
}

fn made(text: &str, wishes: &[&str]) -> Result<Variant, String> {
    let (recipe, larder) = read(text);
    let wishes: Vec<Wish> = wishes
        .iter()
        .map(|wish| Wish::Instead((*wish).to_owned()))
        .collect();
    let checked = variant(&recipe, &larder, &Kitchen::standard(), &wishes);
    checked.output.ok_or_else(|| {
        let said = checked.diagnostics.iter();
        said.map(|one| format!("{}: {}", one.code.name, one.message))
            .collect::<Vec<_>>()
            .join("\n")
    })
}

/// Names of everything to mend, with how often.
fn to_mend(text: &str) -> BTreeMap<&'static str, usize> {
    let read = read_recipe(text);
    let mut said = read.diagnostics;
    let recipe = read.output.expect("a recipe");
    let mut larder = Larder::open();
    said.extend(larder.stock(&recipe.pantry));
    let sums = formula(&recipe, &larder);
    said.extend(sums.diagnostics);
    let kitchen = Kitchen::standard();
    let inputs = edit::Inputs::new(&recipe, &sums.output, &larder, &kitchen);
    said.extend(edit::work_out(&inputs).diagnostics);
    let mut names = BTreeMap::new();
    for one in said.iter().filter(|d| d.code.severity == Severity::Mend) {
        *names.entry(one.code.name).or_default() += 1;
    }
    names
}

fn sums(text: &str) -> Formula {
    let (recipe, larder) = read(text);
    formula(&recipe, &larder).output
}

/// Every wish that each recipe grants, with its text and the variant.
fn granted() -> Vec<(&'static str, &'static str, String, Variant)> {
    let pairs = PAIRS
        .iter()
        .flat_map(|(a, b)| [format!("{a} for {b}"), format!("{b} for {a}")]);
    let wishes: Vec<String> = pairs.chain(ONE_WAY.map(str::to_owned)).collect();
    let mut all = Vec::new();
    for (name, text) in DEMOS {
        for wish in &wishes {
            if let Ok(variant) = made(text, &[wish]) {
                all.push((name, text, wish.clone(), variant));
            }
        }
    }
    all
}

#[test]
fn nothing_new_is_to_be_mended() {
    let mut faults = Vec::new();
    let all = granted();
    for (name, text, wish, variant) in &all {
        let (before, after) = (to_mend(text), to_mend(&variant.text));
        for (code, count) in after {
            if before.get(code).copied().unwrap_or(0) < count {
                faults.push(format!("{name}, {wish}: {code}"));
            }
        }
    }
    println!("{} variants", all.len());
    assert!(all.len() > 80, "only {} wishes were granted", all.len());
    assert_eq!(faults, Vec::<String>::new());
}

#[test]
fn every_variant_reads_as_what_it_was_printed_from() {
    for (name, _, wish, variant) in granted() {
        let read = read_recipe(&variant.text).output.expect("a recipe");
        assert_eq!(read, variant.recipe, "{name}, {wish}");
        assert!(variant.text.starts_with("# A variant of “"));
        assert!(
            !variant.changes.is_empty(),
            "{name}, {wish}: nothing changed"
        );
        assert!(read.tested.is_empty() && read.version.is_none());
    }
}

/// Mass of each ingredient in the dough, by key.
fn masses(formula: &Formula) -> BTreeMap<String, Mass> {
    let mut all = BTreeMap::new();
    for item in formula.stages.iter().flat_map(|stage| &stage.items) {
        if let (Resolved::Ingredient(one), Some(mass)) = (&item.what, item.mass) {
            *all.entry(one.key.clone()).or_insert(Mass::ZERO) += mass;
        }
    }
    all
}

/// How many items an ingredient stands in.
fn items_of(formula: &Formula, key: &str) -> f64 {
    let all = formula.stages.iter().flat_map(|stage| &stage.items);
    let own = all.filter(|item| matches!(&item.what, Resolved::Ingredient(one) if one.key == key));
    own.map(|_| 1.0).sum()
}

#[test]
fn there_and_back_is_where_one_began() {
    let (mut tried, mut worst) = (0, 0.0);
    let mut faults = Vec::new();
    for (name, text) in DEMOS {
        let (recipe, _) = read(text);
        for (new, old) in PAIRS {
            // With some of the new one there already, not all of it would go back.
            let listed = recipe.stages.iter().flat_map(|stage| &stage.items);
            let there = listed.into_iter().any(|item| item.of.value == new);
            let (to, back) = (format!("{new} for {old}"), format!("{old} for {new}"));
            if there || made(text, &[&to]).is_err() {
                continue;
            }
            let there = made(text, &[&to]).expect("granted before");
            let back = match made(&there.text, &[&back]) {
                Ok(back) => back,
                Err(said) => {
                    faults.push(format!("{name}, {to}, no way back: {said}"));
                    continue;
                }
            };
            tried += 1;
            let (before, after) = (sums(text), sums(&back.text));
            let flour = before.dough.flour;
            for (key, was) in masses(&before) {
                let is = masses(&after).get(&key).copied().unwrap_or(Mass::ZERO);
                // Two grams for each item of it, which is rounded on both ways, and what was not
                // worth weighing on the way: half a per cent of the flour.
                let items = items_of(&before, &key);
                let may = items * 0.002 + flour.si() * 0.005;
                worst = f64::max(worst, (is - was).abs().grams());
                if (is - was).abs().si() > may {
                    faults.push(format!(
                        "{name}, {to} and back: {key} {:.1} g, was {:.1} g",
                        is.grams(),
                        was.grams()
                    ));
                }
            }
        }
    }
    println!("{tried} ways there and back, worst miss {worst:.1} g");
    assert!(tried > 40, "{tried}");
    assert_eq!(faults, Vec::<String>::new());
}

#[test]
fn water_fat_and_salt_stay() {
    // What the balance is for: each within a point of the flour, salt within a tenth, unless the
    // flour itself wants other water.
    let mut faults = Vec::new();
    for (name, _, wish, variant) in granted() {
        if wish.contains("flour") {
            continue;
        }
        for kept in &variant.kept {
            let asked = ["water on flour", "salt on flour"].contains(&kept.name.as_str());
            if asked && !kept.held {
                faults.push(format!(
                    "{name}, {wish}: {} {} → {}",
                    kept.name, kept.before, kept.after
                ));
            }
        }
    }
    assert_eq!(faults, Vec::<String>::new());
}

#[test]
fn what_would_be_another_bread_is_refused() {
    let (_, loaf) = DEMOS[0];
    for (wish, code) in [
        ("gluten-free flour for flour", "swap-cannot-keep"),
        ("rice flour for flour", "swap-cannot-keep"),
        ("no salt", "swap-cannot-keep"),
        ("no yeast", "swap-cannot-keep"),
        ("baking powder for yeast", "swap-cannot-keep"),
        ("self-rising flour for flour", "swap-cannot-keep"),
        ("whole milk for fine salt", "swap-cannot-keep"),
        ("oat drink for buttermilk", "swap-finds-nothing"),
        ("fresh yeast", "swap-unreadable"),
        ("dragon milk for milk", "ingredient-unknown"),
        ("oil for butter", "ingredient-ambiguous"),
    ] {
        let said = made(loaf, &[wish]).err().unwrap_or_default();
        assert!(said.starts_with(code), "{wish}: {said}");
    }
    // Part of it is another matter.
    assert!(made(loaf, &["rice flour for 15 % of the flour"]).is_ok());
}

#[test]
fn yeast_that_must_wake_wants_a_liquid_to_wake_in() {
    let eggs_alone = r#"
everyoven = 1
title = "Egg dough"
kind = "rich"

[[stage]]
name = "dough"
items = [
  { of = "bread flour", take = "300 g" },
  { of = "egg", take = "4 large", as = "eggs" },
  { of = "fine salt", take = "6 g", as = "salt" },
  { of = "instant yeast", take = "5 g", as = "yeast" },
]

[[stage.step]]
do = "Knead [bread flour], [eggs], [salt] and [yeast]."
mix = { by = "hand", phases = [{ speed = "low", for = "12 min" }] }

[[product]]
name = "loaf"
from = "dough"
count = 1
piece = "500 g"
tin = { name = "tray", size = "40 x 30 cm", material = "light metal" }

[[product.step]]
do = "Bake."
bake = { phases = [{ at = "180 °C", for = "30 min" }], fan = false }
"#;
    let wish = "active dry yeast for instant yeast";
    let said = made(eggs_alone, &[wish]).err().unwrap_or_default();
    assert!(said.starts_with("swap-without-liquid"), "{said}");
    let with_milk = eggs_alone.replace(
        "  { of = \"fine salt\"",
        "  { of = \"whole milk\", take = \"60 g\", as = \"milk\" },\n  { of = \"fine salt\"",
    );
    let with_milk = with_milk.replace("[eggs], [salt]", "[eggs], [milk], [salt]");
    assert!(made(&with_milk, &[wish]).is_ok());
}

#[test]
fn wishes_follow_each_other() {
    let (_, loaf) = DEMOS[0];
    let variant = made(
        loaf,
        &["oat drink for milk", "olive oil for butter", "no egg"],
    )
    .expect("granted");
    let names: Vec<&str> = variant
        .recipe
        .stages
        .iter()
        .flat_map(|stage| &stage.items)
        .map(|item| item.of.value.as_str())
        .collect();
    for gone in ["whole milk", "unsalted butter", "egg"] {
        assert!(!names.contains(&gone), "{gone} is still there");
    }
    let said = variant.said.join(" ");
    assert!(
        said.contains("No longer an ingredient by name: egg"),
        "{said}"
    );
    // The top is brushed with cream: milk stays among the allergens.
    assert!(!said.contains("name: milk"));
    assert!(said.contains("New among the allergens: oats"));
    assert!(!said.contains("free of"));
}
