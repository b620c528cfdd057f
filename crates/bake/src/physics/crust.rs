//! What heat does to crumb and crust for good: starch swells, the crust darkens.
//!
//! # Relation
//! d(1 - s)/dt = -k (1 - s), k = 2.8e18 exp(-139000/(RT)) 1/s; dL/dt = -`k_L` L,
//! `k_L` = (7.9233e6 + 2.7397e6/a) exp(-(8701.5 + 49.4738/a)/T) 1/min.
//!
//! # Symbols
//! s, share of starch swollen, 1; L, lightness, L* (85 at the start); a, water activity of the crust,
//! 1; T, K.
//!
//! # Valid for
//! Starch: 60 to 95 °C in lean dough; sugar and little water move it up by 0.25 to 0.35 K for each
//! per cent of sugar in the water (from memory, low confidence). Lightness: 120 to 220 °C.
//!
//! # Source
//! Starch: Zanoni, Schiraldi and Simonetta 1995, J. Food Eng. 24:25 (from memory). Lightness: Purlis
//! and Salvadori 2009, Food Res. Int. 42:865 (constants from memory; the start of 85 read).
//!
//! # Departures
//! The crust's water activity is taken as 0.3 throughout. Rich doughs brown faster: a factor that
//! the cook's bakes move.
//!
//! # Checked by
//! `tests/verification/relations.rs`.

use numerics::math::exp;

/// Lightness of dough, L*.
pub const OF_DOUGH: f64 = 85.0;

/// Rate at which starch swells, 1/s, at °C.
pub fn swelling_per_s(celsius: f64) -> f64 {
    2.8e18 * exp(-139_000.0 / (8.314_46 * (celsius + 273.15)))
}

/// Rate at which a crust darkens, 1/s, at °C.
pub fn darkening_per_s(celsius: f64) -> f64 {
    const ACTIVITY: f64 = 0.3;
    let kelvin = celsius + 273.15;
    (7.9233e6 + 2.7397e6 / ACTIVITY) * exp(-(8701.5 + 49.4738 / ACTIVITY) / kelvin) / 60.0
}
