//! The specific heat of a food from what it is made of.
//!
//! # Relation
//! c = sum of `x_i` `c_i(T)`, each `c_i` a polynomial of second degree in T.
//!
//! # Symbols
//! c, specific heat at constant pressure, J/(kg K); `x_i`, mass fraction, 1; T, temperature, °C.
//!
//! # Valid for
//! -40 to 150 °C, unfrozen: freezing water is not in it.
//!
//! # Source
//! Y. Choi and M. R. Okos, "Effects of temperature and composition on the thermal properties of
//! foods", in Food Engineering and Process Applications 1 (1986) 93-101. Coefficients second-hand:
//! read in open code that cites ASHRAE Handbook Refrigeration 2006, chapter 9. Sodium chloride
//! 0.88 kJ/(kg K) and ethanol 2.44 kJ/(kg K), both at 25 °C: from memory.
//!
//! # Departures
//! Salt and alcohol are kept apart from ash and carbohydrate. Sugar counts as carbohydrate
//! (1.59 kJ/(kg K)), though dry crystals are nearer 1.24: it is dissolved by the time the dough has
//! its temperature. The mix takes every c at 25 °C: from 5 to 45 °C it
//! moves by 1.3 % for a lean dough and 2.8 % for dry flour. Water comes out 1.2 % below its own
//! formulation (IAPWS-95) at 25 °C, 1.8 % at 5 °C.
//!
//! # Checked by
//! `tests/verification/specific_heats.rs` against worked values and against `CoolProp`, which
//! typed the same coefficients independently and has water from a formulation of its own.

use super::proximate::Proximate;
use numerics::quantity::{SpecificHeat, Temperature};

/// Lowest temperature of the relation, °C.
pub const LOW_C: f64 = -40.0;
/// Highest temperature of the relation, °C.
pub const HIGH_C: f64 = 150.0;
/// The temperature at which a mix takes its specific heats.
pub const OF_A_MIX: Temperature = Temperature::from_celsius(25.0);

/// Water above freezing: constant, linear and square coefficient, J/(kg K) with T in °C.
pub const WATER: [f64; 3] = [4128.9, -9.0864e-2, 5.4731e-3];
/// Protein.
pub const PROTEIN: [f64; 3] = [2008.2, 1.2089, -1.3129e-3];
/// Fat, without the heat of its melting.
pub const FAT: [f64; 3] = [1984.2, 1.4733, -4.8008e-3];
/// Carbohydrate.
pub const CARBOHYDRATE: [f64; 3] = [1548.8, 1.9625, -5.9399e-3];
/// Fibre (coefficients second-hand, as `CoolProp` cites them from the same handbook).
pub const FIBRE: [f64; 3] = [1845.9, 1.8306, -4.6509e-3];
/// Ash.
pub const ASH: [f64; 3] = [1092.6, 1.8896, -3.6817e-3];
/// Sodium chloride at 25 °C, J/(kg K); from memory.
pub const SALT_J_PER_KG_K: f64 = 880.0;
/// Ethanol at 25 °C, J/(kg K); from memory.
pub const ALCOHOL_J_PER_KG_K: f64 = 2440.0;

/// A polynomial of second degree.
pub fn at(coefficients: [f64; 3], celsius: f64) -> f64 {
    let [constant, linear, square] = coefficients;
    constant + celsius * (linear + celsius * square)
}

/// The specific heat of something made so, at a temperature.
pub fn specific_heat(of: &Proximate, temperature: Temperature) -> SpecificHeat {
    let t = temperature.celsius();
    SpecificHeat::from_si(
        of.water * at(WATER, t)
            + of.protein * at(PROTEIN, t)
            + of.fat * at(FAT, t)
            + of.carbohydrate * at(CARBOHYDRATE, t)
            + of.fibre * at(FIBRE, t)
            + of.ash * at(ASH, t)
            + of.salt * SALT_J_PER_KG_K
            + of.alcohol * ALCOHOL_J_PER_KG_K,
    )
}

/// The same as one polynomial: constant, linear and square coefficient, J/(kg K) with T in °C.
pub fn polynomial(of: &Proximate) -> [f64; 3] {
    let parts = [
        (of.water, WATER),
        (of.protein, PROTEIN),
        (of.fat, FAT),
        (of.carbohydrate, CARBOHYDRATE),
        (of.fibre, FIBRE),
        (of.ash, ASH),
        (of.salt, [SALT_J_PER_KG_K, 0.0, 0.0]),
        (of.alcohol, [ALCOHOL_J_PER_KG_K, 0.0, 0.0]),
    ];
    let mut sums = [0.0; 3];
    for (share, coefficients) in parts {
        for (sum, coefficient) in sums.iter_mut().zip(coefficients) {
            *sum += share * coefficient;
        }
    }
    sums
}

/// Whether a temperature lies inside the relation's range.
pub fn holds_at(temperature: Temperature) -> bool {
    (LOW_C..=HIGH_C).contains(&temperature.celsius())
}
