//! How dough and crumb conduct heat: what they are made of, their bubbles, and vapour in the bubbles.
//!
//! # Relation
//! Gas-free dough: k = sum of volume shares times `k_i(T)` (parallel). With bubbles, after Maxwell and
//! Eucken: k = `k_s` (2 `k_s` + `k_g` - 2 (`k_s` - `k_g`) e) / (2 `k_s` + `k_g` + (`k_s` - `k_g`) e).
//! In a bubble: `k_g` = `k_air` + b `k_v` / (1 + b `k_v` / m), where vapour evaporates on the warm side
//! and condenses on the cold one: `k_v` = D (M/RT) L (dP/dT) p / (p - P), D = 2.26e-5 (T/273.15)^1.81 m2/s at 1 atm.
//!
//! # Symbols
//! k, W/(m K); e, share of bubbles, 1; D, diffusivity of vapour in air, m2/s; M, 0.018 kg/mol; L,
//! latent heat, J/kg; P, saturation pressure, p, air pressure, Pa; T, K; b, the part of `k_v` that
//! acts, 1; m, the most that vapour adds, W/(m K).
//!
//! # Valid for
//! `k_i`: -40 to 150 °C. Closed bubbles: b near 0.6 from dough to crumb, where bubbles open between
//! 71 and 81 °C and vapour no longer meets a wall in each.
//!
//! # Source
//! Y. Choi and M. R. Okos (1986), coefficients second-hand (open code citing ASHRAE Refrigeration
//! 2006, chapter 9). Maxwell-Eucken and the de Vries-Krischer form: from memory. About 60 % of the
//! conductivity of closed pores is evaporation and condensation, and pores open at 71 to 81 °C: Zhang
//! et al. 2025, Foods 14:1649 (abstract read).
//!
//! # Departures
//! b and m are fitted here, so that a lean crumb of three parts bubbles in four comes near the curve
//! of Purlis and Salvadori for French bread (0.2 + 0.9/(1 + exp(-0.1 (T - 80))) W/(m K), as quoted
//! second-hand); richer doughs then follow from what they hold. The cook's own bakes move b within
//! 0.4 to 2.5 times its value. Near boiling `k_v` grows without bound; it is held at its value at 96 °C of sea
//! level (four kelvin under boiling).
//!
//! # Checked by
//! `tests/verification/relations.rs`.

use super::density;
use super::proximate::Proximate;
use super::specific_heat::at;
use super::steam::{latent_at, saturation_pa};
use numerics::math::pow;

/// Protein: constant, linear and square coefficient, W/(m K) with T in °C.
pub const PROTEIN: [f64; 3] = [1.7881e-1, 1.1958e-3, -2.7178e-6];
/// Fat.
pub const FAT: [f64; 3] = [1.8071e-1, -2.7604e-4, -1.7749e-7];
/// Carbohydrate.
pub const CARBOHYDRATE: [f64; 3] = [2.0141e-1, 1.3874e-3, -4.3312e-6];
/// Fibre.
pub const FIBRE: [f64; 3] = [1.8331e-1, 1.2497e-3, -3.1683e-6];
/// Ash; salt counts with it.
pub const ASH: [f64; 3] = [3.2962e-1, 1.4011e-3, -2.9069e-6];
/// Water.
pub const WATER: [f64; 3] = [5.7109e-1, 1.7625e-3, -6.7036e-6];

/// The part of the vapour's conductivity that acts in a dough, 1; fitted, see above.
pub const VAPOUR_PART: f64 = 0.6;

/// What a kilogram of each component of a dough takes up at a temperature, m3, and the same times what it conducts,
/// W m2/K: water, protein, fat, carbohydrate, fibre, ash.
pub fn components(celsius: f64) -> [[f64; 2]; 6] {
    [
        (WATER, density::WATER),
        (PROTEIN, density::PROTEIN),
        (FAT, density::FAT),
        (CARBOHYDRATE, density::CARBOHYDRATE),
        (FIBRE, density::FIBRE),
        (ASH, density::ASH),
    ]
    .map(|(conducts, weighs)| {
        let takes = 1.0 / at(weighs, celsius);
        [takes, takes * at(conducts, celsius)]
    })
}

/// Gas-free dough or crumb, W/(m K), of its [`components`] side by side.
pub fn gas_free_of(of: &Proximate, components: &[[f64; 2]; 6]) -> f64 {
    let shares = [
        of.water,
        of.protein,
        of.fat,
        of.carbohydrate,
        of.fibre,
        of.ash + of.salt,
    ];
    let (mut volume, mut sum) = (0.0, 0.0);
    for (share, [takes, conducts]) in shares.iter().zip(components) {
        volume += share * takes;
        sum += share * conducts;
    }
    sum / volume
}

/// Gas-free dough or crumb, W/(m K): its components side by side.
pub fn gas_free(of: &Proximate, celsius: f64) -> f64 {
    gas_free_of(of, &components(celsius))
}

/// Dry air, W/(m K): straight line through 0.0243 at 0 °C and 0.0314 at 100 °C (handbook values, from
/// memory).
pub fn air(celsius: f64) -> f64 {
    0.0243 + 7.1e-5 * celsius
}

/// What vapour adds in a bubble, W/(m K), at an air pressure in Pa.
pub fn vapour(celsius: f64, pressure_pa: f64) -> f64 {
    let boiling_at =
        super::boiling::boiling_point(numerics::quantity::Pressure::from_si(pressure_pa));
    vapour_parts(celsius.min(boiling_at.celsius() - BELOW_BOILING)).at(pressure_pa)
}

/// Nearer to boiling than this, °C, vapour adds no more.
pub const BELOW_BOILING: f64 = 4.0;

/// What is known of vapour's conductivity before the pressure is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VapourParts {
    /// Diffusivity, latent heat and slope multiplied, W Pa/(m K).
    pub moves: f64,
    /// Pressure of saturation, Pa.
    pub saturated_pa: f64,
}

impl VapourParts {
    /// What it adds at an air pressure, W/(m K).
    pub fn at(self, pressure_pa: f64) -> f64 {
        self.moves / (pressure_pa - self.saturated_pa)
    }
}

/// The parts of [`vapour`] at °C.
pub fn vapour_parts(celsius: f64) -> VapourParts {
    let kelvin = celsius + 273.15;
    let slope = (saturation_pa(celsius + 0.05) - saturation_pa(celsius - 0.05)) / 0.1;
    let diffuses = 2.26e-5 * pow(kelvin / 273.15, 1.81) * 101_325.0;
    let moles_kg = 0.018_015 / (8.314_46 * kelvin);
    VapourParts {
        moves: diffuses * moles_kg * latent_at(celsius) * slope,
        saturated_pa: saturation_pa(celsius),
    }
}

/// Conductivity at which a bubble's vapour no longer finds a wall to condense on, W/(m K); fitted so
/// that an open crumb comes near the published fit for French bread (0.99 W/(m K) at 100 °C).
pub const VAPOUR_MOST: f64 = 1.5;

/// What a bubble conducts in all, W/(m K): air, and vapour with the factor of the tested bakes.
pub fn bubble(celsius: f64, pressure_pa: f64, factor: f64) -> f64 {
    bubble_with(celsius, vapour(celsius, pressure_pa), factor)
}

/// The same when what its vapour adds is known, W/(m K).
pub fn bubble_with(celsius: f64, vapour: f64, factor: f64) -> f64 {
    let acts = VAPOUR_PART * factor * vapour;
    air(celsius) + acts / (1.0 + acts / (VAPOUR_MOST * factor))
}

/// Maxwell and Eucken: a solid with bubbles, W/(m K).
pub fn with_bubbles(solid: f64, gas: f64, bubbles: f64) -> f64 {
    let twice = 2.0 * solid + gas;
    let less = (solid - gas) * bubbles;
    solid * (twice - 2.0 * less) / (twice + less)
}
