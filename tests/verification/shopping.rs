//! Shopping lists against sums done by hand from the written recipes, and against the written items one by one.

use bake::kitchen::Kitchen;
use edit::Inputs;
use edit::ledger::model::{Shopping, ShoppingLine};
use edit::ledger::shopping::{Order, list, packs};
use everyoven_tests::demos::DEMOS;
use recipe::document::model::{PriceFile, Recipe};
use recipe::document::{read_prices_bytes, read_recipe};
use recipe::formula::Formula;
use recipe::larder::Larder;

const PRICES: &str = include_str!("../../examples/prices/receipts.toml");

struct Kitchened {
    recipe: Recipe,
    formula: Formula,
    larder: Larder,
    kitchen: Kitchen,
}

fn opened(name: &str) -> Kitchened {
    let (_, text) = DEMOS
        .iter()
        .find(|(demo, _)| *demo == name)
        .expect("a demo");
    let recipe = read_recipe(text).output.expect("readable");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let formula = recipe::formula::formula(&recipe, &larder).output;
    Kitchened {
        recipe,
        formula,
        larder,
        kitchen: Kitchen::standard(),
    }
}

impl Kitchened {
    fn times(&self, batches: f64) -> Order<'_> {
        Order {
            inputs: Inputs::new(&self.recipe, &self.formula, &self.larder, &self.kitchen),
            batches,
            again: &[],
        }
    }
}

fn prices() -> PriceFile {
    read_prices_bytes(PRICES.as_bytes()).output.expect("prices")
}

fn line<'a>(list: &'a Shopping, name: &str) -> &'a ShoppingLine {
    let mut lines = list.groups.iter().flat_map(|group| &group.lines);
    lines
        .find(|line| line.name == name)
        .unwrap_or_else(|| panic!("{name} is on the list"))
}

fn group<'a>(list: &'a Shopping, name: &str) -> &'a str {
    let holds = |group: &&edit::ledger::model::ShoppingGroup| {
        group.lines.iter().any(|line| line.name == name)
    };
    &list.groups.iter().find(holds).expect("listed").heading
}

fn shown(figure: Option<&edit::ledger::model::Figure>) -> String {
    figure.map_or_else(String::new, |figure| figure.shown.replace('\u{a0}', " "))
}

#[test]
fn one_batch_is_what_the_recipe_writes() {
    let loaf = opened("same-day-loaf");
    let list = list(&[loaf.times(1.0)], &[]);
    // By hand from the file: flour 180 + 420 + 15 for the bench, milk 60 + 150, sugar 8 + 64,
    // butter 180 + 8 for the tin, cream 20 and almonds 15 for the top.
    for (name, grams) in [
        ("all-purpose flour", "615 g"),
        ("whole milk", "210 g"),
        ("granulated sugar", "72 g"),
        ("unsalted butter", "188 g"),
        ("fine salt", "11 g"),
        ("active dry yeast", "9 g"),
        ("cream", "20 g"),
        ("flaked almonds", "15 g"),
    ] {
        assert_eq!(shown(line(&list, name).need.as_ref()), grams, "{name}");
    }
    assert_eq!(shown(line(&list, "eggs").count.as_ref()), "3 large");
    // 9 g are two packets of 7 g with 5 g left over.
    let yeast = line(&list, "active dry yeast");
    assert_eq!(shown(yeast.packs.as_ref()), "2 packets of 7 g");
    assert_eq!(shown(yeast.left.as_ref()), "5 g");
    assert_eq!(group(&list, "fine salt"), "Look in the cupboard first");
    assert_eq!(group(&list, "eggs"), "Cold shelf");
    assert_eq!(
        list.contains,
        "Contains milk, wheat (gluten), egg and almond."
    );
}

#[test]
fn several_recipes_are_summed_by_what_is_bought() {
    let (loaf, hearth) = (opened("same-day-loaf"), opened("hearth-loaf"));
    let (dough, feast) = (opened("cardamom-dough"), opened("feast-bread"));
    let orders = [
        loaf.times(2.0),
        hearth.times(1.0),
        dough.times(0.5),
        feast.times(1.0),
    ];
    let known: Vec<_> = orders
        .iter()
        .flat_map(|order| packs(order, &prices()))
        .collect();
    let list = list(&orders, &known);
    // Bread flour of 12.2 %: hearth 220 + 280 + 15 = 515 g, half the cardamom dough's
    // 245 + 60 + 675 + 15 = 995 g: 1012.5 g, two bags of a kilogram.
    let flour = line(&list, "bread flour");
    assert_eq!(shown(flour.need.as_ref()), "1013 g");
    assert_eq!(shown(flour.packs.as_ref()), "2 × 1 kg");
    assert_eq!(shown(flour.left.as_ref()), "988 g");
    assert_eq!(flour.goes.len(), 2);
    // Butter 2 x 188 + (157 + 60 + 8) / 2 + 160 = 648.5 g: three packs of 250 g.
    let butter = line(&list, "unsalted butter");
    assert_eq!(shown(butter.need.as_ref()), "649 g");
    assert_eq!(shown(butter.packs.as_ref()), "3 × 250 g");
    assert_eq!(shown(butter.left.as_ref()), "102 g");
    // Eggs 2 x 3 + (2 + 1) / 2 + 3 + 1 = 11.5: twelve, two boxes of ten, eight left over.
    let egg = line(&list, "eggs");
    assert_eq!(shown(egg.count.as_ref()), "12 large");
    assert_eq!(shown(egg.packs.as_ref()), "2 × 10 large");
    assert_eq!(shown(egg.left.as_ref()), "8 large");
    // A price of granulated sugar says nothing of pearl sugar, nor one yeast of another.
    for name in ["pearl sugar", "high-sugar instant yeast"] {
        let packs = shown(line(&list, name).packs.as_ref());
        assert!(
            !packs.contains("kg") && !packs.contains('×'),
            "{name}: {packs}"
        );
    }
    assert_eq!(group(&list, "water"), "From the tap");
    // 154 + 220 and half of 137 g.
    assert_eq!(shown(line(&list, "water").need.as_ref()), "443 g");
    let mut lines = list.groups.iter().flat_map(|group| &group.lines);
    let mould = lines.find(|line| line.name.starts_with("paper mould, Ø"));
    let mould = mould.expect("one mould to buy");
    assert_eq!(shown(mould.count.as_ref()), "1");
}

#[test]
fn nothing_is_lost_and_nothing_is_bought_twice() {
    for (name, _) in DEMOS {
        let kitchened = opened(name);
        for batches in [1.0, 0.5, 3.0, 7.0] {
            let list = list(&[kitchened.times(batches)], &[]);
            let bought: f64 = list
                .groups
                .iter()
                .flat_map(|group| &group.lines)
                .filter_map(|line| line.need.as_ref())
                .map(|need| need.value)
                .sum();
            let formula = &kitchened.formula;
            let written: f64 = formula
                .stages
                .iter()
                .flat_map(|stage| &stage.items)
                .chain(&formula.besides)
                .filter(|item| matches!(item.what, recipe::formula::Resolved::Ingredient(_)))
                .filter_map(|item| item.mass)
                .map(|mass| mass.si() * batches)
                .sum();
            assert!(
                (bought - written).abs() < 1e-9,
                "{name} x {batches}: {bought} kg"
            );
        }
    }
}

#[test]
fn packs_cover_the_need_and_one_fewer_would_not() {
    let loaf = opened("same-day-loaf");
    for batches in [0.5, 1.0, 1.6, 2.0, 3.25, 10.0] {
        let order = loaf.times(batches);
        let known = packs(&order, &prices());
        let list = list(&[order], &known);
        for line in list.groups.iter().flat_map(|group| &group.lines) {
            let (Some(need), Some(number)) = (&line.need, &line.packs) else {
                continue;
            };
            let left = line.left.as_ref().map_or(0.0, |left| left.value);
            let holds = (need.value + left) / number.value;
            assert!(number.value * holds >= need.value - 1e-9, "{}", line.name);
            assert!(
                (number.value - 1.0) * holds < need.value + 1e-3,
                "{}",
                line.name
            );
        }
    }
}
