//! Butter that softens in a dough: the heat that its melting fat takes.
//!
//! # Relation
//! Q = m L (`s(T_b)` - `s(T_d)`), s read off a table by straight lines; never below nothing.
//!
//! # Symbols
//! Q, heat, J; m, mass of milk fat, kg; L, heat of melting of solid milk fat, J/kg; s, solid share
//! of the fat, 1; `T_b` and `T_d`, butter and dough, °C.
//!
//! # Valid for
//! Butter of cow's milk between 0 and 40 °C, softened slowly.
//!
//! # Source
//! From memory: solid shares of milk fat as pulsed nuclear magnetic resonance gives them, rounded
//! (they differ by 3 to 5 points between summer and winter milk), and L of about 150 kJ/kg solid.
//!
//! # Departures
//! Fat that was melted stays liquid when the dough is cooler: it sets over hours, not in the bowl.
//! Fat that is liquid anyway (oil) and the fat of milk and egg, finely divided, count as unmelted.
//!
//! # Checked by
//! `tests/verification/mix.rs` holds it against 10-15 kJ/kg of butter, the rough figure of the trade
//! for soft butter in a dough of 25 °C (from memory too: a plausibility, not a proof).

use numerics::quantity::{Energy, Mass, Temperature};

/// Heat of melting of solid milk fat, J/kg; from memory.
pub const MELTING_J_PER_KG: f64 = 150_000.0;

/// °C and solid share; from memory.
const SOLID: [(f64, f64); 9] = [
    (0.0, 0.55),
    (5.0, 0.48),
    (10.0, 0.40),
    (15.0, 0.29),
    (20.0, 0.18),
    (25.0, 0.11),
    (30.0, 0.055),
    (35.0, 0.01),
    (40.0, 0.0),
];

/// Solid share of milk fat at a temperature.
pub fn solid_share(temperature: Temperature) -> f64 {
    let t = temperature.celsius();
    let mut before = SOLID[0];
    if t <= before.0 {
        return before.1;
    }
    for point in SOLID {
        if t <= point.0 {
            let along = (t - before.0) / (point.0 - before.0);
            return before.1 + along * (point.1 - before.1);
        }
        before = point;
    }
    0.0
}

/// Heat that so much milk fat takes on its way from one temperature to another.
pub fn melting(fat: Mass, from: Temperature, to: Temperature) -> Energy {
    let melted = (solid_share(from) - solid_share(to)).max(0.0);
    Energy::from_si(fat.si() * MELTING_J_PER_KG * melted)
}
