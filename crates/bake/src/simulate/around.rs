//! What stands around a dough in each place: rooms, refrigerators, warm places, ovens, racks.
//!
//! # Relation
//! q = h (T - `T_s`) + e s (`T_w`^4 - `T_s`^4), through the vessel's wall where there is one.
//!
//! # Symbols
//! q, W/m2; h, film, W/(m2 K); e, emissivity, 1; s, Stefan and Boltzmann's constant; T air, `T_w`
//! walls, `T_s` outermost surface.
//!
//! # Valid for
//! Home kitchens: still air from -20 to 60 °C, ovens from 120 to 260 °C.
//!
//! # Source
//! Still air 5 W/(m2 K), in an oven 6.5, with its fan 15: correlations for spheres, cylinders and
//! plates worked out with an open library (`ht`); static home oven 18-22 in all, fan 25-35. A covered
//! bowl in a refrigerator 4-7 in all, a fan refrigerator 10-16. Walls of tins: thickness and handbook
//! values, from memory; emissivities and the steam's film from memory.
//!
//! # Departures
//! Walls have the air's temperature; a kitchen's own draught is not in it.
//!
//! # Checked by
//! `tests/validation/chilling.rs`; an oven is not yet checked against measured bread.

use super::surround::{Pan, Side, Surround};
use crate::kitchen::Kitchen;
use crate::physics::steam::saturation_pa;
use numerics::lane::Lane;
use numerics::quantity::Temperature;
use recipe::document::model::{Material, Standing, Tin};

/// Still air, W/(m2 K).
const STILL: f64 = 5.0;
/// Still air in an oven.
const OVEN_STILL: f64 = 6.5;
/// With its fan.
const OVEN_FAN: f64 = 15.0;
/// Dough, crust, most things that are not bright metal.
const DULL: f64 = 0.9;
/// How freely water leaves a bare skin against a wet one: dough dries 5 to 20 times slower.
const SKIN: f64 = 0.1;
/// h / (k latent) = 64.7 Pa/K: mass transfer from a film (psychrometric; from memory).
pub const PASCAL_PER_KELVIN: f64 = 64.7;

/// Heat held and touch of a wall: J/(m2 K), W/(m2 K), emissivity outside.
const fn wall(material: Material) -> (f64, f64, f64) {
    match material {
        Material::Aluminium => (2430.0, 200.0, 0.10),
        Material::LightMetal => (1845.0, 200.0, 0.25),
        Material::DarkMetal => (3690.0, 200.0, 0.85),
        Material::Steel => (3160.0, 200.0, 0.30),
        Material::Glass => (9250.0, 104.0, 0.9),
        Material::Stoneware => (15_840.0, 90.0, 0.9),
        Material::Silicone => (2240.0, 80.0, 0.9),
        Material::Plastic => (3800.0, 60.0, 0.9),
        Material::Wood => (9000.0, 25.0, 0.9),
        Material::Paper => (200.0, 120.0, 0.9),
    }
}

fn pan<L: Lane>(material: Material) -> Pan<L> {
    let (holds, touches, _) = wall(material);
    Pan {
        holds: L::splat(holds),
        touches: L::splat(touches),
    }
}

/// The air where a dough stands.
pub fn air_at(kitchen: &Kitchen, place: Standing, written: Temperature) -> Temperature {
    match place {
        Standing::Room => kitchen.room,
        Standing::Refrigerator => kitchen.refrigerator,
        Standing::WarmPlace => kitchen.warm_place,
        Standing::CoolPlace => written,
    }
}

/// A dough that rests in a vessel, covered or bare.
pub fn resting<L: Lane>(
    air: Temperature,
    vessel: &str,
    material: Material,
    covered: bool,
) -> Surround<L> {
    let celsius = air.celsius();
    let (_, _, emits) = wall(material);
    // Under a cover the air stands: radiation and a little convection through it.
    let mut top = if covered {
        Side::still(celsius, 4.5, 0.3)
    } else {
        Side::still(celsius, STILL, DULL)
    };
    if !covered {
        top.dries =
            L::splat(SKIN * STILL / (PASCAL_PER_KELVIN * crate::physics::steam::LATENT_J_PER_KG));
        top.vapour = L::splat(0.5 * saturation_pa(celsius));
    }
    let through = |film: f64, emits: f64| Side::still(celsius, film, emits).through(pan(material));
    match vessel {
        // On a bench or a board: what is under it is thick and has the room's temperature.
        "bench" | "board" => Surround {
            bottom: Side::still(celsius, 8.0, 0.0).through(pan(Material::Wood)),
            side: top,
            top,
        },
        "tray" | "paper" | "plate" | "rack" => Surround {
            bottom: through(STILL, emits),
            side: top,
            top,
        },
        _ => Surround {
            bottom: through(STILL, emits),
            side: through(STILL, emits),
            top,
        },
    }
}

/// A dial in this kitchen for a recipe written with or without the oven's fan: 20 °C less with it on.
pub fn dial_here(kitchen: &Kitchen, dial: Temperature, written_with_fan: bool) -> Temperature {
    let fan = numerics::quantity::TemperatureDifference::from_si(20.0);
    match (kitchen.oven.fan, written_with_fan) {
        (true, false) => dial - fan,
        (false, true) => dial + fan,
        _ => dial,
    }
}

/// A piece in the oven.
pub fn baking<L: Lane>(
    kitchen: &Kitchen,
    air: Temperature,
    tin: Option<&Tin>,
    in_tin: bool,
    steam: bool,
    foil: bool,
) -> Surround<L> {
    let celsius = air.celsius();
    let film = if kitchen.oven.fan {
        OVEN_FAN
    } else {
        OVEN_STILL
    };
    // Air that stood still altogether would still touch.
    let film = (film + kitchen.oven.more_film_w_m2k).max(1.0);
    let mut top = Side::still(celsius, film, if foil { 0.1 } else { DULL });
    if steam {
        top.film = L::splat(film + 10.0);
    } else if !foil {
        let dries = SKIN * film / (PASCAL_PER_KELVIN * crate::physics::steam::LATENT_J_PER_KG);
        top.dries = L::splat(dries);
        top.vapour = L::splat(3000.0);
    }
    let material = tin.map_or(Material::LightMetal, |tin| tin.material.value);
    let (_, _, emits) = wall(material);
    let through = Side::still(celsius, film, emits).through(pan(material));
    let lidded = tin
        .and_then(|tin| tin.lidded.as_ref())
        .is_some_and(|lidded| lidded.value);
    Surround {
        bottom: through,
        side: if in_tin { through } else { top },
        top: if lidded { through } else { top },
    }
}

/// Bread on a rack or in its tin, in the room.
pub fn cooling<L: Lane>(at: Temperature) -> Surround<L> {
    let celsius = at.celsius();
    let mut bare = Side::still(celsius, STILL, DULL);
    let dries = SKIN * STILL / (PASCAL_PER_KELVIN * crate::physics::steam::LATENT_J_PER_KG);
    bare.dries = L::splat(dries);
    bare.vapour = L::splat(0.5 * saturation_pa(celsius));
    Surround {
        bottom: bare,
        side: bare,
        top: bare,
    }
}
