//! What is said, checked against what a cook would write.

use super::*;

fn plain(text: &str) -> String {
    text.replace(NBSP, " ")
}

#[test]
fn masses_are_read_as_a_scale_reads() {
    let said: Vec<_> = [0.4, 0.8, 5.5, 17.5, 382.8, 1976.3, 12_000.0]
        .map(|g| plain(&mass(Mass::from_grams(g))))
        .into();
    assert_eq!(
        said,
        [
            "0.4 g", "0.8 g", "5.5 g", "17.5 g", "383 g", "1976 g", "12 kg"
        ]
    );
}

#[test]
fn dials_pair_within_eight_degrees() {
    for (celsius, said) in [
        (165.0, "165 °C / 325 °F"),
        (175.0, "175 °C / 350 °F"),
        (180.0, "180 °C / 350 °F"),
        (200.0, "200 °C / 400 °F"),
        (205.0, "205 °C / 400 °F"),
        (210.0, "210 °C / 410 °F"),
        (230.0, "230 °C / 450 °F"),
    ] {
        assert_eq!(plain(&oven(Temperature::from_celsius(celsius))), said);
    }
}

#[test]
fn past_an_hour_hours_are_said() {
    let said: Vec<_> = [0.5, 55.0, 60.0, 80.0, 720.0, 445.0]
        .map(|m| plain(&duration(Duration::from_minutes(m))))
        .into();
    assert_eq!(
        said,
        ["30 s", "55 min", "1 h", "1 h 20 min", "12 h", "7 h 25 min"]
    );
}

#[test]
fn a_range_has_one_unit() {
    let range = |low, high| Range {
        low: Duration::from_minutes(low),
        high: Duration::from_minutes(high),
    };
    assert_eq!(plain(&duration_range(range(45.0, 75.0))), "45–75 min");
    assert_eq!(plain(&duration_range(range(600.0, 840.0))), "10–14 h");
    assert_eq!(plain(&duration_range(range(120.0, 180.0))), "2–3 h");
}

#[test]
fn iso_durations_follow_iso_8601() {
    let said: Vec<_> = [45.0, 150.0, 60.0, 0.0, 1560.0, 1440.0]
        .map(|m| iso_duration(Duration::from_minutes(m)))
        .into();
    assert_eq!(said, ["PT45M", "PT2H30M", "PT1H", "PT0M", "P1DT2H", "P1D"]);
}

#[test]
fn tins_are_said_in_both_measures() {
    let tin = TinSize::Box {
        length: Length::from_millimetres(216.0),
        width: Length::from_millimetres(114.0),
        depth: Length::from_millimetres(64.0),
    };
    assert_eq!(
        plain(&tin_size(&tin)),
        "21.6 × 11.4 × 6.4 cm / 8½ × 4½ × 2½ in"
    );
    assert_eq!(
        plain(&tin_volume(Volume::from_millilitres(1420.0), None)),
        "1420 mL"
    );
}

#[test]
fn figures_stay_with_their_units() {
    let said = units_kept("Set 5 cm apart for 20 minutes at 65 °C / 149 °F; 3 eggs go in.");
    let kept: Vec<_> = said.split(' ').collect();
    assert!(kept.contains(&"5\u{a0}cm"));
    assert!(kept.contains(&"20\u{a0}minutes"));
    assert!(kept.contains(&"149\u{a0}°F;"));
    assert!(kept.contains(&"3"), "a count is no figure with a unit");
}

#[test]
fn one_celsius_never_stands_beside_two_fahrenheits() {
    for tenths in -200..1200 {
        let at = f64::from(tenths) / 10.0;
        let said = temperature(Temperature::from_celsius(at));
        let shown = numerics::decimal::round_to(at, 1.0);
        assert_eq!(said, temperature(Temperature::from_celsius(shown)), "{at}");
    }
    let written = temperature(Temperature::from_fahrenheit(82.0));
    assert_eq!(plain(&written), "28 °C / 82 °F");
}
