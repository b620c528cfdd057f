//! Air pressure and boiling point against printed tables.

use bake::physics::boiling::{boiling_point, pressure};
use numerics::quantity::Length;

/// Height in feet, pressure in kPa, ratio to sea level: the standard atmosphere to four digits,
/// worked out by hand from its equation.
#[test]
fn pressure_falls_with_height_as_the_standard_atmosphere_says() {
    for (feet, kpa, ratio) in [
        (0.0, 101.33, 1.0),
        (2000.0, 94.21, 0.930),
        (3000.0, 90.81, 0.896),
        (5000.0, 84.31, 0.832),
        (6500.0, 79.68, 0.786),
        (7500.0, 76.71, 0.757),
        (10_000.0, 69.68, 0.688),
    ] {
        let found = pressure(Length::from_si(feet * 0.3048)).si();
        assert!((found / 1000.0 - kpa).abs() < 0.006, "{feet} ft: {found}");
        assert!(
            (found / 101_325.0 - ratio).abs() < 0.0006,
            "{feet} ft: {found}"
        );
    }
}

/// Boiling points in °F as a page for pastry cooks prints them (read): within 0.2 °F, save that of
/// 10 000 ft, which is printed 0.24 °F higher; there `CoolProp`'s saturation line is lower still, so the
/// page rounded.
#[test]
fn water_boils_where_pastry_cooks_say() {
    let mut missed = Vec::new();
    for (feet, printed) in [
        (0.0, 212.0),
        (2000.0, 208.4),
        (5000.0, 203.0),
        (7500.0, 198.4),
        (10_000.0, 194.0),
    ] {
        let found = boiling_point(pressure(Length::from_si(feet * 0.3048))).fahrenheit();
        println!(
            "{feet} ft: {found:.2} °F, printed {printed}, miss {:+.2}",
            found - printed
        );
        if (found - printed).abs() > 0.2 {
            missed.push(feet);
        }
    }
    assert_eq!(missed, [10_000.0]);
}
