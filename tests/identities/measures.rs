//! Kitchen measures against the identities that define them (NIST Handbook 44, appendix C).

use recipe::measure::Measure;

/// The table of units that travels with the larder.
const UNITS: &str = include_str!("../../crates/recipe/data/units.csv");

fn table(unit: &str) -> f64 {
    UNITS
        .lines()
        .find_map(|line| {
            line.strip_prefix(unit)?
                .strip_prefix(',')?
                .split(',')
                .next()
        })
        .and_then(|value| value.parse().ok())
        .expect("the unit is in the table")
}

fn ml(measure: Measure) -> f64 {
    measure.volume().millilitres()
}

fn same(left: f64, right: f64) {
    assert!((left / right - 1.0).abs() < 1e-12, "{left} is not {right}");
}

#[test]
fn a_gallon_is_231_cubic_inches_and_all_else_follows() {
    let gallon_ml = 231.0 * 2.54_f64.powi(3);
    same(table("US gallon"), gallon_ml);
    same(ml(Measure::Cup), gallon_ml / 16.0);
    same(ml(Measure::Tablespoon), gallon_ml / 256.0);
    same(ml(Measure::Teaspoon), gallon_ml / 768.0);
    same(ml(Measure::FluidOunce), gallon_ml / 128.0);
}

#[test]
fn the_table_and_the_measures_agree() {
    same(table("US cup"), ml(Measure::Cup));
    same(table("US tablespoon"), ml(Measure::Tablespoon));
    same(table("US teaspoon"), ml(Measure::Teaspoon));
    same(table("US fluid ounce"), ml(Measure::FluidOunce));
    same(
        table("avoirdupois pound"),
        16.0 * table("avoirdupois ounce"),
    );
}

#[test]
fn metric_measures_are_powers_of_ten() {
    same(ml(Measure::Litre), 1000.0);
    same(ml(Measure::Litre), 10.0 * ml(Measure::Decilitre));
    same(ml(Measure::Decilitre), 10.0 * ml(Measure::Centilitre));
    same(ml(Measure::Centilitre), 10.0 * ml(Measure::Millilitre));
}
