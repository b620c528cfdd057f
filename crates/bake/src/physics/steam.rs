//! Water vapour: its pressure over water, and the heat that goes with it.
//!
//! # Relation
//! log10 P = 8.07131 - 1730.63 / (233.426 + T); latent heat as one figure.
//!
//! # Symbols
//! P, saturation pressure, mmHg (133.322 Pa); T, °C.
//!
//! # Valid for
//! 1 to 100 °C; to 130 °C the equation runs low by about 1 %.
//!
//! # Source
//! Antoine's equation with the usual constants for water, from memory; latent heat at 100 °C
//! 2256.5 kJ/kg (steam tables, worked out with an open library of IAPWS-97).
//!
//! # Departures
//! The front of evaporation has one latent heat, that at 100 °C; at 90 °C it is 1 % more.
//!
//! # Checked by
//! `tests/verification/boiling.rs` (the same constants).

use numerics::math::exp10;

/// Heat that turns a kilogram of water into vapour at 100 °C, J/kg.
pub const LATENT_J_PER_KG: f64 = 2.2565e6;

/// The same at another temperature, J/kg: a straight line through 0 °C (2500.8 kJ/kg, steam tables, from
/// memory) and 100 °C.
pub fn latent_at(celsius: f64) -> f64 {
    2.5008e6 - (2.5008e6 - LATENT_J_PER_KG) * celsius / 100.0
}

/// Pressure of saturated vapour, Pa, at a temperature in °C.
pub fn saturation_pa(celsius: f64) -> f64 {
    133.322 * exp10(8.071_31 - 1730.63 / (233.426 + celsius))
}
