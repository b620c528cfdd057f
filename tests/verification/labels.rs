//! Label law against its tables: every rounding of a table of cases, the order and days' amounts of
//! the United States, the factors of Europe; and European energy worked out once more from the raw
//! rows of the composition table, without the program.

use numerics::decimal::fixed;
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::label::{Declared, Nutrient, eu, label, serving, us};
use recipe::larder::Larder;
use std::collections::BTreeMap;
use std::path::Path;

type Row = BTreeMap<String, String>;

fn table(path: &str) -> Vec<Row> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(path);
    let mut reader = csv::Reader::from_path(root).expect("the table is there");
    reader
        .deserialize()
        .map(|row| row.expect("a row"))
        .collect()
}

fn words(declared: Declared, unit: &str) -> String {
    match declared {
        Declared::Number { value, decimals } => fixed(value, decimals),
        Declared::LessThan(limit) => format!("less than {} {unit}", fixed(limit, 0)),
    }
}

fn nutrient(field: &str) -> Option<Nutrient> {
    let field = field.split(' ').next().unwrap_or(field);
    Some(match field {
        "calories" => Nutrient::Energy,
        "total_fat" => Nutrient::Fat,
        "saturated_fat" => Nutrient::Saturated,
        "trans_fat" => Nutrient::Trans,
        "cholesterol" => Nutrient::Cholesterol,
        "sodium" => Nutrient::Sodium,
        "total_carbohydrate" => Nutrient::Carbohydrate,
        "dietary_fiber" => Nutrient::Fibre,
        "total_sugars" => Nutrient::Sugars,
        "added_sugars" => Nutrient::AddedSugars,
        "protein" => Nutrient::Protein,
        "vitamin_d" => Nutrient::VitaminD,
        "calcium" => Nutrient::Calcium,
        "iron" => Nutrient::Iron,
        "potassium" => Nutrient::Potassium,
        _ => return None,
    })
}

/// 55 cases of the United States (21 CFR 101.9, read in quotation; FDA Food Labeling Guide,
/// appendix H) and 13 of Europe (guidance on tolerances, 2012, in part from memory).
#[test]
fn every_case_of_rounding() {
    let cases = table("tests/verification/data/rounding_tests.csv");
    assert_eq!(cases.len(), 68);
    let mut misses = Vec::new();
    for case in &cases {
        let (regime, field) = (case["regime"].as_str(), case["field"].as_str());
        let value: f64 = case["input"].parse().expect("a number");
        let had = match (regime, field) {
            ("US", "pct_dv_rdi") => percent(Nutrient::Iron, value),
            ("US", "pct_dv_drv") => percent(Nutrient::Fat, value),
            ("US", field) => {
                let nutrient = nutrient(field).unwrap_or_else(|| panic!("{field}"));
                words(us::declared(nutrient, value), unit(nutrient))
            }
            (_, field) => words(eu::declared(european(field), value), "g"),
        };
        if had != case["expected"] {
            misses.push(format!(
                "{regime} {field} {value}: {had}, not {}",
                case["expected"]
            ));
        }
    }
    assert!(misses.is_empty(), "{}", misses.join("\n"));
}

fn line(nutrient: Nutrient) -> &'static us::Line {
    let mut lines = us::LINES.iter();
    lines
        .find(|line| line.nutrient == nutrient)
        .expect("a line")
}

fn unit(nutrient: Nutrient) -> &'static str {
    line(nutrient).unit
}

fn percent(nutrient: Nutrient, value: f64) -> String {
    fixed(us::percent(line(nutrient), value), 0)
}

fn european(field: &str) -> eu::Line {
    match field {
        "fat" => eu::Line::Fat,
        "saturates" | "of which saturates" => eu::Line::Saturates,
        "salt" => eu::Line::Salt,
        "energy_kj" => eu::Line::EnergyKj,
        "energy_kcal" => eu::Line::EnergyKcal,
        other => panic!("{other}"),
    }
}

/// The order of the label and the days' amounts against the table of 21 CFR 101.9(c)(8)(iv), (9).
#[test]
fn order_and_days_amounts_of_the_united_states() {
    let mut rows: Vec<(f64, Nutrient, Option<f64>, String)> =
        table("tests/verification/data/us_rounding.csv")
            .iter()
            .filter_map(|row| {
                Some((
                    row["label_order"].parse().ok()?,
                    nutrient(&row["field"])?,
                    // The table gives protein a day's amount; printing it is optional and asks for
                    // a digestibility that is not known here.
                    row["daily_value_adult"]
                        .parse()
                        .ok()
                        .filter(|_| row["field"] != "protein"),
                    row["unit"].clone(),
                ))
            })
            .collect();
    rows.sort_by(|a, b| a.0.total_cmp(&b.0));
    let ours: Vec<_> = us::LINES
        .iter()
        .map(|line| (line.nutrient, line.daily_value, line.unit.to_owned()))
        .collect();
    let theirs: Vec<_> = rows
        .into_iter()
        .map(|(_, nutrient, daily, unit)| (nutrient, daily, unit))
        .collect();
    assert_eq!(ours, theirs);
}

/// Reference amounts against the table (21 CFR 101.12(b), read in a reprint).
#[test]
fn reference_amounts() {
    let rows = table("tests/verification/data/us_racc.csv");
    let of = |words: &str| {
        let row = rows.iter().find(|row| row["category"].starts_with(words));
        row.expect("a row")["racc_g"].clone()
    };
    assert_eq!(fixed(serving::BREAD.mass.grams(), 0), of("Breads"));
    assert_eq!(fixed(serving::SWEET.mass.grams(), 0), of("Coffee cakes"));
}

/// Servings of whole numbers and slices, worked out by hand from 101.9(b)(2)(i).
#[test]
fn servings_by_hand() {
    use numerics::quantity::Mass;
    use serving::Unit;
    let of = |grams: f64, count: u32, filled: bool| {
        serving::serving(Mass::from_grams(grams), count, filled)
    };
    // 590 g is more than twice 50 g: slices of 56 g, 590 / 56 = 10.54 of them.
    let loaf = of(590.0, 1, false);
    assert_eq!(
        (loaf.unit, fixed(loaf.number, 2)),
        (Unit::Slice, "10.54".to_owned())
    );
    assert_eq!(us::servings(loaf.number), (11.0, true));
    // 49 of 50 g, 99 of 50 g: one piece. 100 of 50 g: twice as much, a slice.
    assert_eq!(of(49.0, 10, false).unit, Unit::Pieces(1));
    assert_eq!(of(99.0, 10, false).unit, Unit::Pieces(1));
    assert_eq!(of(100.0, 10, false).unit, Unit::Slice);
    // Of 18 g three come nearest to 50 g (54 g), of 25 g two; of one alone there is one.
    assert_eq!(of(18.0, 12, false).unit, Unit::Pieces(3));
    assert_eq!(of(25.0, 12, false).unit, Unit::Pieces(2));
    assert_eq!(of(18.0, 1, false).unit, Unit::Pieces(1));
    assert_eq!(us::servings(3.3), (3.5, true));
    assert_eq!(us::servings(5.4), (5.0, true));
    assert_eq!(us::servings(10.0), (10.0, false));
}

/// European energy of a dough, from the raw rows and the factors of annex XIV as the table of the
/// law has them. 500 g of flour, 300 g of milk, 60 g of butter, 9 g of salt, 30 g of rum, and 8 g of
/// yeast, weighed as 800 g after the bake.
#[test]
fn energy_of_europe_once_more() {
    let text = r#"
everyoven = 1
title = "Sample"
kind = "enriched"
[[stage]]
name = "dough"
items = [
  { of = "flour_bread_enriched", take = "500 g" },
  { of = "milk_whole", take = "300 g" },
  { of = "butter_unsalted", take = "60 g" },
  { of = "salt_table", take = "9 g" },
  { of = "rum_80", take = "30 g" },
  { of = "yeast_active_dry", take = "8 g" },
]
[[product]]
name = "loaf"
from = "dough"
count = 1
piece = "907 g"
after-bake = "800 g"
"#;
    let larder = Larder::open();
    let recipe = read_recipe(text).output.expect("a recipe");
    let sums = formula(&recipe, &larder).output;
    let made = label(&recipe, &sums, &larder);
    let hundred = made.products[0].in_100_g();

    let law: BTreeMap<String, (f64, f64)> = table("tests/verification/data/eu_nutrition.csv")
        .iter()
        .filter_map(|row| {
            let kj = row["energy_kj_per_g"].parse().ok()?;
            let kcal = row["energy_kcal_per_g"].parse().ok()?;
            Some((row["field"].clone(), (kj, kcal)))
        })
        .collect();
    let rows = table("crates/recipe/data/ingredients.csv");
    let (mut kj, mut kcal) = (0.0, 0.0);
    for (key, grams) in [
        ("flour_bread_enriched", 500.0),
        ("milk_whole", 300.0),
        ("butter_unsalted", 60.0),
        ("salt_table", 9.0),
        ("rum_80", 30.0),
        ("yeast_active_dry", 8.0),
    ] {
        let row = rows.iter().find(|row| row["key"] == key).expect("a row");
        let figure = |column: &str| row[column].parse::<f64>().unwrap_or(0.0) * grams / 100.0;
        let factor: f64 = row["n_factor"].parse().unwrap_or(6.25);
        let protein = if factor > 0.0 {
            figure("protein_g") * 6.25 / factor
        } else {
            0.0
        };
        for (field, amount) in [
            ("fat", figure("fat_g")),
            ("carbohydrate", figure("carb_g") - figure("fibre_g")),
            ("protein", protein),
            ("fibre", figure("fibre_g")),
            ("alcohol", figure("alcohol_g")),
        ] {
            kj += law[field].0 * amount / 8.0;
            kcal += law[field].1 * amount / 8.0;
        }
    }
    let ours = |line| eu::amount(&hundred, line);
    let (our_kj, our_kcal) = (ours(eu::Line::EnergyKj), ours(eu::Line::EnergyKcal));
    assert!((our_kj.low - kj).abs() < 1e-6, "{} and {kj} kJ", our_kj.low);
    assert!(
        (our_kcal.low - kcal).abs() < 1e-6,
        "{} and {kcal} kcal",
        our_kcal.low
    );
    assert!((our_kj.high - our_kj.low).abs() < 1e-9, "all is known");
    // By hand: 9 g of salt hold 9 x 0.38758 = 3.488 g of sodium; all sodium x 2.5 over 8.
    let salt = ours(eu::Line::Salt).low;
    assert!((1.0..1.2).contains(&salt), "{salt} g of salt");
}

/// What is not known bounds what is printed: cardamom's sugars are a blank in the table.
#[test]
fn a_blank_is_never_nothing() {
    let larder = Larder::open();
    let text = "everyoven = 1\ntitle = \"x\"\nkind = \"lean\"\n[[stage]]\nname = \"dough\"\nitems = [\n\
        { of = \"flour_bread_enriched\", take = \"500 g\" },\n{ of = \"cardamom\", take = \"50 g\" },\n\
        { of = \"margarine_stick_salted\", take = \"100 g\" } ]\n\
        [[product]]\nname = \"loaf\"\nfrom = \"dough\"\ncount = 1\npiece = \"650 g\"\nafter-bake = \"600 g\"\n";
    let recipe = read_recipe(text).output.expect("a recipe");
    let sums = formula(&recipe, &larder).output;
    let made = label(&recipe, &sums, &larder);
    let whole = made.whole();
    let sugars = whole.of(Nutrient::Sugars);
    // Carbohydrate less fibre of 50 g of cardamom: 68.47 - 28.0 g in 100 g (USDA SR28 02006).
    assert!(((sugars.high - sugars.low) * 1e3 - 20.235).abs() < 1e-6);
    let trans = whole.of(Nutrient::Trans);
    assert!(
        trans.low.abs() < 1e-12 && trans.high > 0.08,
        "margarine's old trans fat is not used"
    );
    let names: Vec<_> = whole
        .gaps
        .iter()
        .map(|gap| gap.ingredient.as_str())
        .collect();
    assert!(
        names.contains(&"ground cardamom") && names.iter().any(|name| name.contains("margarine"))
    );
}
