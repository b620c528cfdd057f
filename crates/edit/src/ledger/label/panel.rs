//! The two tables: the United States' by the serving, Europe's by 100 g and by the piece.

use super::model::{Panel, PanelRow};
use super::{figure, grams, one_of, origin};
use crate::ledger::model::Figure;
use crate::ledger::say::NBSP;
use numerics::decimal::{fixed, trimmed};
use recipe::label::serving::{Serving, Unit};
use recipe::label::{Amount, Baked, Declared, Nutrient, Tally, eu as europe, us as states};

/// Word, label and inset of a line.
const fn us_words(nutrient: Nutrient) -> (&'static str, &'static str, u8) {
    match nutrient {
        Nutrient::Energy => ("energy-kcal", "Calories", 0),
        Nutrient::Fat => ("fat", "Total fat", 0),
        Nutrient::Saturated => ("saturated-fat", "Saturated fat", 1),
        Nutrient::Trans => ("trans-fat", "Trans fat", 1),
        Nutrient::Cholesterol => ("cholesterol", "Cholesterol", 0),
        Nutrient::Sodium => ("sodium", "Sodium", 0),
        Nutrient::Carbohydrate => ("carbohydrate", "Total carbohydrate", 0),
        Nutrient::Fibre => ("fibre", "Dietary fiber", 1),
        Nutrient::Sugars => ("sugars", "Total sugars", 1),
        Nutrient::AddedSugars => ("added-sugars", "Includes added sugars", 2),
        Nutrient::VitaminD => ("vitamin-d", "Vitamin D", 0),
        Nutrient::Calcium => ("calcium", "Calcium", 0),
        Nutrient::Iron => ("iron", "Iron", 0),
        Nutrient::Potassium => ("potassium", "Potassium", 0),
        _ => ("protein", "Protein", 0),
    }
}

/// Word, label and inset of a European line.
const fn eu_words(line: europe::Line) -> (&'static str, &'static str, u8) {
    match line {
        europe::Line::EnergyKj => ("energy-kj", "Energy", 0),
        europe::Line::EnergyKcal => ("energy-kcal", "Energy in kilocalories", 0),
        europe::Line::Fat => ("fat", "Fat", 0),
        europe::Line::Saturates => ("saturated-fat", "of which saturates", 1),
        europe::Line::Carbohydrate => ("carbohydrate", "Carbohydrate", 0),
        europe::Line::Sugars => ("sugars", "of which sugars", 1),
        europe::Line::Fibre => ("fibre", "Fibre", 0),
        europe::Line::Protein => ("protein", "Protein", 0),
        europe::Line::Salt => ("salt", "Salt", 0),
    }
}

/// "4.5 g", "less than 1 g".
fn words(declared: Declared, unit: &str) -> String {
    match declared {
        Declared::Number { value, decimals } => {
            format!("{}{NBSP}{unit}", fixed(value, decimals))
        }
        Declared::LessThan(limit) => {
            format!("less than {}{NBSP}{unit}", trimmed(limit, 1))
        }
    }
}

/// What is printed of an amount that may not be known to its end, and whether it is. What is not
/// known counts when it could change the printed figure.
fn shown(amount: Amount, unit: &str, declare: impl Fn(f64) -> Declared) -> (String, bool) {
    let least = words(declare(amount.low), unit);
    if amount.high.is_finite() && words(declare(amount.high), unit) == least {
        return (least, true);
    }
    let nothing = matches!(declare(amount.low), Declared::Number { value, .. } if value <= 0.0);
    let text = if nothing || matches!(declare(amount.low), Declared::LessThan(_)) {
        "not known".to_owned()
    } else {
        format!("at least {least}")
    };
    (text, false)
}

/// The table of the United States for one serving.
pub fn us(product: &Baked<'_>) -> Panel {
    let serving = product.serving();
    let tally = product.in_mass(serving.mass);
    let place = format!("label.{}.us", product.name);
    let rows = states::LINES
        .iter()
        .map(|line| us_row(line, &tally, &place))
        .collect();
    Panel {
        serving: Some(serving_words(product, &serving)),
        heads: [one_serving(product, &serving), "Of a day*".to_owned()],
        rows,
    }
}

fn us_row(line: &states::Line, tally: &Tally, place: &str) -> PanelRow {
    let (what, label, inset) = us_words(line.nutrient);
    let amount = tally.of(line.nutrient);
    // Sugars are part of the carbohydrate, added sugars of the sugars.
    let amount = match line.nutrient {
        Nutrient::Sugars | Nutrient::AddedSugars => {
            amount.at_most(tally.of(Nutrient::Carbohydrate))
        }
        _ => amount,
    };
    let (text, complete) = shown(amount.times(line.per_si), line.unit, |value| {
        states::declared(line.nutrient, value)
    });
    let known = text != "not known";
    let unit = if line.nutrient == Nutrient::Energy {
        "J"
    } else {
        "kg"
    };
    let first = figure(format!("{place}.{what}"), amount.low, unit, text, origin());
    let second = line.daily_value.filter(|_| known).map(|daily| {
        let percent = amount.low * line.per_si / daily * 100.0;
        let least = if complete { "" } else { "at least " };
        let text = format!("{least}{}{NBSP}%", fixed(states::percent(line, percent), 0));
        figure(
            format!("{place}.{what}.of-a-day"),
            percent / 100.0,
            "1",
            text,
            origin(),
        )
    });
    PanelRow {
        what,
        label: label.to_owned(),
        inset,
        cells: [Some(first), second],
        complete,
    }
}

/// "1 slice (56 g)", "2 rolls (40 g)".
fn one_serving(product: &Baked<'_>, serving: &Serving) -> String {
    let mass = grams(serving.mass);
    match serving.unit {
        Unit::Slice => format!("1 slice ({mass})"),
        Unit::Pieces(1) => format!("1 {} ({mass})", one_of(product)),
        Unit::Pieces(pieces) => format!("{pieces} {} ({mass})", product.name),
    }
}

/// "Serving: 1 slice (56 g), by the reference amount of 50 g for bread and rolls; about 11 in all".
fn serving_words(product: &Baked<'_>, serving: &Serving) -> String {
    let (number, about) = states::servings(serving.number);
    let about = if about { "about " } else { "" };
    format!(
        "Serving: {}; {about}{} in all. The reference amount for {} is {}.",
        one_serving(product, serving),
        trimmed(number, 1),
        serving.reference.of,
        grams(serving.reference.mass),
    )
}

/// The European table for 100 g and for one piece.
pub fn eu(product: &Baked<'_>) -> Panel {
    let (hundred, piece) = (product.in_100_g(), product.in_piece());
    let place = format!("label.{}.eu", product.name);
    let rows = europe::Line::ALL
        .into_iter()
        .map(|line| {
            let (what, label, inset) = eu_words(line);
            let (first, complete) = eu_cell(line, &hundred, &format!("{place}.{what}.in-100-g"));
            let (second, _) = eu_cell(line, &piece, &format!("{place}.{what}.in-a-piece"));
            PanelRow {
                what,
                label: label.to_owned(),
                inset,
                cells: [Some(first), Some(second)],
                complete,
            }
        })
        .collect();
    Panel {
        serving: None,
        heads: [
            format!("100{NBSP}g"),
            format!("1 {} ({})", one_of(product), grams(product.piece())),
        ],
        rows,
    }
}

fn eu_cell(line: europe::Line, tally: &Tally, name: &str) -> (Figure, bool) {
    let amount = europe::amount(tally, line);
    let (text, complete) = shown(amount, line.unit(), |value| europe::declared(line, value));
    // Joules and kilograms, as everywhere in the ledger.
    let (value, unit) = match line {
        europe::Line::EnergyKj => (amount.low * 1e3, "J"),
        europe::Line::EnergyKcal => (amount.low * 4184.0, "J"),
        _ => (amount.low / 1e3, "kg"),
    };
    (figure(name, value, unit, text, origin()), complete)
}
