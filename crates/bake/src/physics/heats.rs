//! Heats that a mix sets free or takes up: flour wetted, sugar and salt dissolved, mixers at work.
//!
//! # Relation
//! Q = m q for each: flour that is wetted for the first time, sucrose and salt that dissolve; and
//! P m t for the work left in the dough.
//!
//! # Symbols
//! Q, heat, J; m, mass, kg; q, heat per kilogram, J/kg; P, W/kg; t, s.
//!
//! # Valid for
//! Flour of 11 to 14 % moisture in a dough with water enough to wet it (above about 45 % of the
//! flour); sugar and salt that dissolve whole.
//!
//! # Source
//! Hydration: Bakers' dictionary of the trade paper at bakingbusiness.com, entry "Heat of
//! Hydration", 6.5 Btu/lb at 11-12 % moisture (read). Dissolution of sucrose 16 kJ/kg and of sodium
//! chloride 66 kJ/kg: from memory; their direction is confirmed by the same entry. Friction of a
//! home stand mixer: 1 °F a minute at the second speed (read, a forum's quotation of a maker),
//! 2 °F a minute for a planetary mixer (read, an example); 25 and 50 W/kg worked out here with
//! c = 2.7 kJ/(kg K). The ratio of speeds: common practice.
//!
//! # Departures
//! Drier flour gives more heat, damper less; one figure stands for all. Lactose and the sugars of
//! honey are taken as dissolved already. Hands and a bench are one small figure.
//!
//! # Checked by
//! `tests/verification/mix.rs`: a thermodynamics textbook's dough problem and a worked balance.

use numerics::quantity::{SpecificEnergy, SpecificPower};
use recipe::document::model::Speed;

/// Flour wetted for the first time: 6.5 Btu/lb.
pub const HYDRATION: SpecificEnergy = SpecificEnergy::from_si(15_100.0);
/// Sucrose dissolved, heat taken up; from memory.
pub const SUCROSE: SpecificEnergy = SpecificEnergy::from_si(16_000.0);
/// Sodium chloride dissolved, heat taken up; from memory.
pub const SALT: SpecificEnergy = SpecificEnergy::from_si(66_000.0);
/// A home stand mixer at medium speed, when its cook has measured nothing: 5 °C in about 20 minutes,
/// common practice; read figures lie between 10 and 50 W/kg (`docs/decisions/mixer-friction.md`).
pub const MIXER: SpecificPower = SpecificPower::from_si(13.0);
/// Hands on a bench, warmth of the hands less what the bench takes: the middle of 0 to 5 W/kg,
/// common practice.
pub const HAND: SpecificPower = SpecificPower::from_si(2.5);
/// A spoon in a bowl: nothing that a thermometer shows; common practice.
pub const SPOON: SpecificPower = SpecificPower::from_si(0.0);

/// Work at a speed against work at medium speed: common practice, no source. A hook turns at about
/// 60, 100 and 150 turns a minute, and the work goes about with the turns.
pub const fn against_medium(speed: Speed) -> f64 {
    match speed {
        Speed::Low => 0.6,
        Speed::Medium => 1.0,
        Speed::High => 1.5,
    }
}
