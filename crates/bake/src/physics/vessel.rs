//! Bowls and cups: their specific heats, and the part of them that follows what is in them.
//!
//! # Relation
//! C = f m c.
//!
//! # Symbols
//! C, heat capacity, J/K; f, the part that follows, 1; m, mass of the vessel, kg; c, J/(kg K).
//!
//! # Valid for
//! Room temperature, a few minutes, walls of a few millimetres.
//!
//! # Source
//! Specific heats of the materials: from memory, handbook values of common grades. Parts that
//! follow, and the usual mass of a cup: common practice (60 to 100 % of a mixing bowl is given; the
//! middle is taken).
//!
//! # Departures
//! The wall is warm or it is not; nothing flows between its parts. Air and bench are not in it:
//! over a mix they take less than 1 kJ.
//!
//! # Checked by
//! `tests/verification/mix.rs`, where the worked balance gives bowl and figure.

use numerics::quantity::{HeatCapacity, Mass, SpecificHeat};
use recipe::document::model::Material;

/// Part of a mixing bowl (with its hook) that follows the dough.
pub const MIXING: f64 = 0.8;
/// Part of the mixing bowl under a pool of waking yeast.
pub const POOL: f64 = 0.15;
/// Part of a cup or small bowl round a few spoons of liquid.
pub const CUP: f64 = 0.25;

/// The specific heat of a material; from memory.
pub const fn specific_heat(material: Material) -> SpecificHeat {
    SpecificHeat::from_si(match material {
        Material::Steel | Material::LightMetal | Material::DarkMetal => 500.0,
        Material::Aluminium => 900.0,
        Material::Glass => 830.0,
        Material::Stoneware => 850.0,
        Material::Plastic | Material::Wood => 1900.0,
        Material::Silicone => 1300.0,
        Material::Paper => 1400.0,
    })
}

/// The usual mass of a cup or small bowl of half a litre; common practice.
pub const fn usual_cup(material: Material) -> Mass {
    Mass::from_grams(match material {
        Material::Steel | Material::LightMetal | Material::DarkMetal => 200.0,
        Material::Aluminium => 120.0,
        Material::Glass | Material::Stoneware => 350.0,
        Material::Wood => 250.0,
        Material::Plastic | Material::Silicone => 90.0,
        Material::Paper => 10.0,
    })
}

/// Heat that warms the part of a vessel that follows what is in it.
pub fn following(material: Material, mass: Mass, part: f64) -> HeatCapacity {
    mass * part * specific_heat(material)
}
