//! The density of a food without its gas, from what it is made of.
//!
//! # Relation
//! 1 / rho = sum of `x_i` / `rho_i(T)`: the volumes add, not the densities.
//!
//! # Symbols
//! rho, density, kg/m3; `x_i`, mass fraction, 1; T, temperature, °C.
//!
//! # Valid for
//! -40 to 150 °C, unfrozen, without gas bubbles.
//!
//! # Source
//! Choi and Okos (1986), as for the specific heat; coefficients second-hand from the same open
//! code. Sodium chloride 2165 kg/m3 and ethanol 789 kg/m3: from memory.
//!
//! # Departures
//! Volumes are taken to add without shrinking on dissolution. Open code that averages the
//! densities instead is wrong by several per cent for a dough.
//!
//! # Checked by
//! `tests/verification/specific_heats.rs`.

use super::proximate::Proximate;
use super::specific_heat::at;
use numerics::quantity::{Density, Temperature};

/// Water, kg/m3 with T in °C.
pub const WATER: [f64; 3] = [997.18, 3.1439e-3, -3.7574e-3];
/// Protein.
pub const PROTEIN: [f64; 3] = [1329.9, -0.5184, 0.0];
/// Fat.
pub const FAT: [f64; 3] = [925.59, -0.41757, 0.0];
/// Carbohydrate.
pub const CARBOHYDRATE: [f64; 3] = [1599.1, -0.31046, 0.0];
/// Fibre.
pub const FIBRE: [f64; 3] = [1311.5, -0.36589, 0.0];
/// Ash.
pub const ASH: [f64; 3] = [2423.8, -0.28063, 0.0];
/// Sodium chloride, kg/m3; from memory.
pub const SALT_KG_PER_M3: f64 = 2165.0;
/// Ethanol, kg/m3; from memory.
pub const ALCOHOL_KG_PER_M3: f64 = 789.0;

/// The density of something made so, at a temperature; none when it is made of nothing.
pub fn density(of: &Proximate, temperature: Temperature) -> Option<Density> {
    let t = temperature.celsius();
    let volume_m3_per_kg = of.water / at(WATER, t)
        + of.protein / at(PROTEIN, t)
        + of.fat / at(FAT, t)
        + of.carbohydrate / at(CARBOHYDRATE, t)
        + of.fibre / at(FIBRE, t)
        + of.ash / at(ASH, t)
        + of.salt / SALT_KG_PER_M3
        + of.alcohol / ALCOHOL_KG_PER_M3;
    (volume_m3_per_kg > 0.0).then(|| Density::from_si(of.sum() / volume_m3_per_kg))
}
