//! How the United States round what a label declares (21 CFR 101.9), and what a day's amount is.

use super::Declared;
use super::nutrient::Nutrient;
use numerics::decimal::round_to;

/// A line of the label, in the order of the law, with the day's amount for adults in the unit that
/// is declared (101.9(c)(8)(iv) and (c)(9)).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Of what.
    pub nutrient: Nutrient,
    /// Unit: "kcal", "g", "mg", "mcg".
    pub unit: &'static str,
    /// How much of that unit is in a kilogram, or in a joule of energy.
    pub per_si: f64,
    /// A day's amount, when the law has one that is printed.
    pub daily_value: Option<f64>,
    /// By which steps its share of a day is rounded.
    pub vitamin_or_mineral: bool,
}

/// Kilocalories in a joule (thermochemical, as the composition tables reckon).
const KCAL_PER_J: f64 = 1.0 / 4184.0;

/// The lines of the label (101.9(c), read in quotation). Protein's share of a day is optional and
/// wants a correction for digestibility that no table here has, so it has none.
pub const LINES: [Line; 15] = [
    line(Nutrient::Energy, "kcal", KCAL_PER_J, None),
    line(Nutrient::Fat, "g", 1e3, Some(78.0)),
    line(Nutrient::Saturated, "g", 1e3, Some(20.0)),
    line(Nutrient::Trans, "g", 1e3, None),
    line(Nutrient::Cholesterol, "mg", 1e6, Some(300.0)),
    line(Nutrient::Sodium, "mg", 1e6, Some(2300.0)),
    line(Nutrient::Carbohydrate, "g", 1e3, Some(275.0)),
    line(Nutrient::Fibre, "g", 1e3, Some(28.0)),
    line(Nutrient::Sugars, "g", 1e3, None),
    line(Nutrient::AddedSugars, "g", 1e3, Some(50.0)),
    line(Nutrient::Protein, "g", 1e3, None),
    mineral(Nutrient::VitaminD, "mcg", 1e9, 20.0),
    mineral(Nutrient::Calcium, "mg", 1e6, 1300.0),
    mineral(Nutrient::Iron, "mg", 1e6, 18.0),
    mineral(Nutrient::Potassium, "mg", 1e6, 4700.0),
];

const fn line(
    nutrient: Nutrient,
    unit: &'static str,
    per_si: f64,
    daily_value: Option<f64>,
) -> Line {
    Line {
        nutrient,
        unit,
        per_si,
        daily_value,
        vitamin_or_mineral: false,
    }
}

const fn mineral(nutrient: Nutrient, unit: &'static str, per_si: f64, daily: f64) -> Line {
    Line {
        vitamin_or_mineral: true,
        ..line(nutrient, unit, per_si, Some(daily))
    }
}

/// An amount of a nutrient, in the unit of its line, as the law has it declared. Where a value may
/// be declared as zero it is; halves go up.
///
/// Relation: 101.9(c)(1) to (c)(8). Steps for vitamin D, calcium, iron and potassium are
/// recommended ones, in part from memory.
pub fn declared(nutrient: Nutrient, value: f64) -> Declared {
    let to = |step: f64| Declared::number(round_to(value, step));
    // A value that binary holds a hair off its decimal still belongs to the side it is written on.
    let below = |limit: f64| value < limit - 1e-9;
    let above = |limit: f64| value > limit + 1e-9;
    match nutrient {
        Nutrient::Energy | Nutrient::Sodium if below(5.0) => Declared::ZERO,
        Nutrient::Energy => to(if above(50.0) { 10.0 } else { 5.0 }),
        Nutrient::Fat | Nutrient::Saturated | Nutrient::Trans => {
            if below(0.5) {
                Declared::ZERO
            } else {
                to(if below(5.0) { 0.5 } else { 1.0 })
            }
        }
        Nutrient::Cholesterol if below(2.0) => Declared::ZERO,
        Nutrient::Cholesterol if above(5.0) => to(5.0),
        Nutrient::Cholesterol => Declared::LessThan(5.0),
        Nutrient::Sodium => to(if above(140.0) { 10.0 } else { 5.0 }),
        Nutrient::VitaminD | Nutrient::Iron => to(0.1),
        Nutrient::Calcium | Nutrient::Potassium => to(10.0),
        _ if below(0.5) => Declared::ZERO,
        _ if below(1.0) => Declared::LessThan(1.0),
        _ => to(1.0),
    }
}

/// The share of a day's amount, in per cent, as it is printed: to 1 % for what has a reference
/// value (101.9(d)(7)(ii)), by 2, 5 and 10 % for vitamins and minerals ((c)(8)(iii)); below 2 % of
/// a vitamin or mineral is nothing.
pub fn percent(line: &Line, percent: f64) -> f64 {
    if !line.vitamin_or_mineral {
        return round_to(percent, 1.0);
    }
    percent_of_mineral(percent)
}

/// The steps for vitamins and minerals. Below 2 % nothing may be declared.
fn percent_of_mineral(percent: f64) -> f64 {
    if percent < 2.0 - 1e-9 {
        0.0
    } else if percent <= 10.0 + 1e-9 {
        round_to(percent, 2.0)
    } else if percent <= 50.0 + 1e-9 {
        round_to(percent, 5.0)
    } else {
        round_to(percent, 10.0)
    }
}

/// The grams of a serving as they are printed (101.9(b)(7)).
pub fn serving_grams(grams: f64) -> f64 {
    let step = match grams {
        g if g >= 5.0 => 1.0,
        g if g >= 2.0 => 0.5,
        _ => 0.1,
    };
    round_to(grams, step)
}

/// Servings in a container as they are printed (101.9(b)(8)), and whether "about" is said.
pub fn servings(number: f64) -> (f64, bool) {
    let step = if (2.0..=5.0).contains(&number) {
        0.5
    } else {
        1.0
    };
    let shown = round_to(number, step).max(1.0);
    (shown, (shown - number).abs() > 1e-6)
}
