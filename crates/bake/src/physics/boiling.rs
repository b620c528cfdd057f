//! Air pressure at a height, and where water boils under it.
//!
//! # Relation
//! p = p0 (1 - 2.25577e-5 h)^5.25588, and log10 P = 8.07131 - 1730.63 / (233.426 + T).
//!
//! # Symbols
//! p, pressure, Pa; p0 = 101 325 Pa; h, height above the sea, m; P, pressure, mmHg (133.322 Pa);
//! T, boiling point, °C.
//!
//! # Valid for
//! h from -500 to 11 000 m, the standard atmosphere's lowest layer; T from 1 to 100 °C.
//!
//! # Source
//! The standard atmosphere (ISO 2533; also ICAO Doc 7488) and Antoine's equation with the usual
//! constants for water below 100 °C; both from memory, and confirmed against the values below.
//!
//! # Departures
//! The day's weather moves the pressure by 1 to 3 %, the boiling point by 0.3 to 1 °C; it is
//! not in it. Just below sea level the second equation runs a few hundredths of a degree past 100 °C.
//!
//! # Checked by
//! `tests/verification/boiling.rs`: boiling points printed for pastry cooks, and `CoolProp`'s
//! saturation line of water.

use numerics::math::{log10, pow};
use numerics::quantity::{Length, Pressure, Temperature};

/// Pressure at sea level, Pa (standard atmosphere, exact).
pub const SEA_LEVEL_PA: f64 = 101_325.0;
/// Lowest height of the relation, m.
pub const LOW_M: f64 = -500.0;
/// Greatest height of the relation, m.
pub const HIGH_M: f64 = 11_000.0;

const PA_PER_MMHG: f64 = 133.322;

/// Whether a height lies inside the relation's range.
pub fn holds_at(altitude: Length) -> bool {
    (LOW_M..=HIGH_M).contains(&altitude.si())
}

/// The pressure of the air at a height.
pub fn pressure(altitude: Length) -> Pressure {
    let base = (1.0 - 2.255_77e-5 * altitude.si()).max(0.0);
    Pressure::from_si(SEA_LEVEL_PA * pow(base, 5.255_88))
}

/// Where water boils under a pressure.
pub fn boiling_point(pressure: Pressure) -> Temperature {
    let mmhg = pressure.si() / PA_PER_MMHG;
    Temperature::from_celsius(1730.63 / (8.071_31 - log10(mmhg)) - 233.426)
}
