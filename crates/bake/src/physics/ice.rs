//! Ice in the place of some of the water: how much cools the rest to where it is wanted.
//!
//! # Relation
//! m = W c (T - `T_w`) / (L + c T), and the heat that ice takes in a dough,
//! Q = m (L + c `T_d` + `c_i` (0 - `T_i`)).
//!
//! # Symbols
//! m, mass of ice, kg; W, water and ice together, kg; c, `c_i`, specific heats of water and ice,
//! J/(kg K); T, the water before, `T_w`, what it should read (it may be below 0: a figure of
//! reckoning), `T_d`, dough, `T_i`, ice, °C; L, heat of fusion, J/kg.
//!
//! # Valid for
//! All of the ice melted at the end; m between nothing and W.
//!
//! # Source
//! The trade's constants, in British units as its tables are worked out: L = 144 Btu/lb
//! (bakingbusiness.com article 58994; read) and c = 1 Btu/(lb °F). With them the relation is
//! W (T - `T_w`) / (T + 112) in degrees Fahrenheit; 112 = 144 - 32. 1 Btu/lb = 2326 J/kg
//! (International Table; exact). Specific heat of ice 2.05 kJ/(kg K): from memory (Geankoplis,
//! table A.4-1, prints 1.958; read).
//!
//! # Departures
//! The trade's tables take ice at 0 °C; so does the ice that the mix asks for. Ice straight from a
//! freezer at -18 °C takes 8 % more heat, so a little less does. 144 Btu/lb is 0.4 % above the
//! measured heat of fusion, 333.6 kJ/kg (ASHRAE 2006, second-hand).
//!
//! # Checked by
//! `tests/verification/ice.rs`: 40 printed entries of a miller's ice table, of which two are missed
//! by more than 0.004, and two examples.

use numerics::quantity::{Energy, Mass, Temperature};

/// Heat that a kilogram of ice takes to melt, J/kg: 144 Btu/lb.
pub const FUSION_J_PER_KG: f64 = 144.0 * 2326.0;
/// Specific heat of water, J/(kg K): 1 Btu/(lb °F).
pub const WATER_J_PER_KG_K: f64 = 4186.8;
/// Specific heat of ice, J/(kg K); from memory.
pub const ICE_J_PER_KG_K: f64 = 2050.0;

/// Ice in so much water in all, so that from one temperature it comes to another; below nothing
/// when the water is cold enough already.
pub fn ice_for(water_in_all: Mass, before: Temperature, wanted: Temperature) -> Mass {
    let drop_k = (before - wanted).si();
    let taken_j_per_kg = FUSION_J_PER_KG + WATER_J_PER_KG_K * before.celsius();
    water_in_all * (WATER_J_PER_KG_K * drop_k / taken_j_per_kg)
}

/// Heat that ice takes until it is water of the dough's temperature.
pub fn taken_by(ice: Mass, ice_at: Temperature, dough: Temperature) -> Energy {
    let per_kg = FUSION_J_PER_KG + WATER_J_PER_KG_K * dough.celsius()
        - ICE_J_PER_KG_K * ice_at.celsius().min(0.0);
    Energy::from_si(ice.si() * per_kg)
}
