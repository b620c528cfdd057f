//! What heat does to crumb and crust for good: starch swells, the crust darkens.
//!
//! # Relation
//! d(1 - s)/dt = -k (1 - s), k = 2.8e18 exp(-139000/(RT)) 1/s; dL/dt = -`k_L` (85/52) (L - 33),
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
//! Purlis and Salvadori's lightness falls toward 0; here it sets out at the same rate and ends at 33,
//! for burnt crumb is 52 from pale (Zanoni, Peri and Bruno 1995, LWT 28:604, a difference in colour of
//! which lightness is taken to be the whole). The crust's water activity is taken as 0.3 throughout. Rich doughs brown two to four times as fast
//! (common practice): here by their sugar, and the cook's bakes move it further.
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

/// Lightness at which a crust is burnt, L*.
pub const BURNT: f64 = 33.0;

/// Rate at which a pale crust darkens, 1/s of its lightness, at °C.
pub fn darkening_per_s(celsius: f64) -> f64 {
    const ACTIVITY: f64 = 0.3;
    let kelvin = celsius + 273.15;
    (7.9233e6 + 2.7397e6 / ACTIVITY) * exp(-(8701.5 + 49.4738 / ACTIVITY) / kelvin) / 60.0
}

/// How many times as fast as a lean crust one with so much sugar browns, 1; sugar as a share of the
/// dough. Two to four times for rich doughs is common practice; that it goes with the sugar is ours.
pub fn richness(sugar: f64) -> f64 {
    (1.0 + 25.0 * sugar.max(0.0)).min(4.0)
}

/// The same as a rate toward [`BURNT`], 1/s.
pub fn nearing_burnt_per_s(celsius: f64) -> f64 {
    darkening_per_s(celsius) * OF_DOUGH / (OF_DOUGH - BURNT)
}
