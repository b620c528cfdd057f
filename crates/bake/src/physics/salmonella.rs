//! How fast Salmonella dies in a dough that is baked.
//!
//! # Relation
//! log10(`N_0`/N) = integral of dt / D(T), D = 7.1 min 10^((60 - T)/6.2).
//!
//! # Symbols
//! N, living cells; D, time in which nine of ten die, min; T, °C.
//!
//! # Valid for
//! D was measured from 55 to 62 °C. Below 55 °C nothing is counted. It is read on to 71.1 °C (160 °F) and
//! no further: what is hotter counts as 71.1 °C.
//!
//! # Source
//! English-muffin dough of water activity 0.947, J. Food Prot. 87:100280 (2024): D at 55, 58.5 and
//! 62 °C 42.0, 15.6 and 3.0 min, z 6.2 °C (read); the line through them gives 7.1 min at 60 °C (worked
//! out here). It is the slower of two doughs: Channaiah et al. 2016, J. Food Prot. 79:544, in bun
//! dough 28.64, 7.61 and 3.14 min at 55, 58 and 61 °C, z 6.58 °C (read).
//!
//! # Departures
//! One straight line for every dough. Cells in a drier crust or a very sweet dough die more slowly
//! (heat resistance rises as water activity falls); there is no shoulder.
//!
//! # Checked by
//! `tests/identities/safety.rs`, against both sets of measured values.

use numerics::math::exp10;

/// Nothing is counted below, °C: where the measurements begin.
pub const COUNTS_FROM: f64 = 55.0;
/// Nothing dies faster than here, °C (160 °F).
pub const READ_ON_TO: f64 = 71.1;

/// Time in which nine of ten die, s, at a temperature in °C.
pub fn ninetieth_s(celsius: f64) -> f64 {
    60.0 * 7.1 * exp10((60.0 - celsius.min(READ_ON_TO)) / 6.2)
}

/// Powers of ten that die in a second at a temperature in °C.
pub fn dying_per_s(celsius: f64) -> f64 {
    if celsius < COUNTS_FROM {
        0.0
    } else {
        1.0 / ninetieth_s(celsius)
    }
}
