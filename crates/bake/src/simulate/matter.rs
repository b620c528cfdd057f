//! A dough as the simulator needs it: every property tabulated once, so that a step looks up and adds.

use super::Anchor;
use crate::physics::proximate::Proximate;
use crate::physics::steam::{LATENT_J_PER_KG, saturation_pa};
use crate::physics::{boiling, conductivity, crust, density, milk_fat, specific_heat, yeast};
use numerics::lane::Curve;
use numerics::quantity::{Pressure, Temperature};
use recipe::larder::YeastForm;

/// What a dough holds, from which everything else follows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holds {
    /// What it is made of, shares of its mass.
    pub made_of: Proximate,
    /// Milk fat that can be solid, share of its mass.
    pub milk_fat: f64,
    /// Flour, share of its mass.
    pub flour: f64,
    /// Sugar, share of its mass.
    pub sugar: f64,
    /// Yeast as fresh yeast, share of its mass.
    pub yeast: f64,
    /// The form of most of it.
    pub form: YeastForm,
    /// Whether it was woken in liquid.
    pub woken: bool,
    /// Power left in the yeast: 1 is fresh from the maker.
    pub power: f64,
    /// Protein of the flours, share of the flour.
    pub protein: f64,
}

/// A dough's properties, tabulated.
#[derive(Clone, Debug, PartialEq)]
pub struct Matter {
    /// What it holds.
    pub holds: Holds,
    /// Gas-free density, kg/m3.
    pub density: f64,
    /// Air beaten in: share of bubbles after mixing.
    pub beaten_in: f64,
    /// Air pressure, Pa.
    pub pressure: f64,
    /// Where its water boils, °C.
    pub boils: f64,
    /// Heat from 0 °C to boiling, J/kg.
    pub to_boiling: f64,
    /// Heat that drives out all of its water, J/kg of dough.
    pub latent: f64,
    /// Temperature, °C, over heat from 0 °C, J/kg.
    pub temperature: Curve,
    /// Specific heat, J/(kg K), over heat from 0 °C, J/kg; very large while water boils.
    pub capacity: Curve,
    /// Heat from 0 °C, J/kg, over temperature, °C, up to boiling.
    pub heat: Curve,
    /// Conductivity of the gas-free dough, W/(m K), over °C.
    pub solid: Curve,
    /// Conductivity in a bubble, W/(m K), over °C.
    pub bubble: Curve,
    /// Conductivity of the dry crust at usual porosity, W/(m K).
    pub dry: f64,
    /// Gas made in a kilogram of dough at 30 °C, mol/(kg s).
    pub gassing: f64,
    /// The same for lag, s.
    pub lag: f64,
    /// Warmth factor of gassing over °C.
    pub warmth: Curve,
    /// Dying of yeast, 1/s, over °C.
    pub dying: Curve,
    /// Swelling of starch, 1/s, over °C.
    pub swelling: Curve,
    /// Darkening of the crust, 1/s, over °C.
    pub darkening: Curve,
    /// Carbon dioxide dissolved, volumes a volume of the dough's water, over °C.
    pub dissolves: Curve,
    /// Pressure of vapour over the dough's water, Pa, over °C.
    pub vapour: Curve,
    /// Volume of the dough's water against the gas-free dough.
    pub water_volume: f64,
    /// Volume up to which nearly all gas is kept, against the gas-free dough.
    pub keeps_all_to: f64,
    /// Volume at which as much gas leaves as is made.
    pub keeps_none_at: f64,
    /// Fermentable sugar, mol of hexose in a kilogram.
    pub fermentable: f64,
}

/// Heat that fermentation sets free, J/mol of carbon dioxide (from memory).
pub const FERMENTATION_J_PER_MOL: f64 = 34e3;

/// Air beaten in: share of bubbles after mixing (6 to 10 %, from memory).
const BEATEN_IN: f64 = 0.08;

/// Highest temperature of the tables, °C.
const HOTTEST: f64 = 260.0;

/// Water in the air of a dough's crust, activity, for its vapour pressure.
const WATER_ACTIVITY: f64 = 0.95;

impl Matter {
    /// The tables of a dough at an air pressure, with the factors of the tested bakes.
    pub fn of(holds: Holds, pressure: Pressure, anchor: Anchor) -> Self {
        let of = holds.made_of;
        let boils = boiling::boiling_point(pressure).celsius();
        let pressure = pressure.si();
        let latent = of.water * LATENT_J_PER_KG;
        let heat = heat_table(&holds, boils);
        let to_boiling = heat.at(boils);
        let dry = dry_heat(&of);
        let cold = heat.at(-20.0);
        let warm = Curve::of(cold, to_boiling, 512, |joules| {
            inverse(&heat, joules, boils)
        });
        let top = to_boiling + latent + dry * (HOTTEST - boils);
        let temperature = Curve::of(cold, top, 2048, |joules| {
            if joules <= to_boiling {
                warm.at(joules)
            } else if joules <= to_boiling + latent {
                boils
            } else {
                boils + (joules - to_boiling - latent) / dry
            }
        });
        let capacity = capacity_over(&temperature, (cold, top), (to_boiling, latent));
        let celsius = |low: f64, high: f64, function: &dyn Fn(f64) -> f64| {
            Curve::of(low, high, 240, function)
        };
        let density = density::density(&of, Temperature::from_celsius(25.0))
            .map_or(1200.0, numerics::quantity::Density::si);
        let atm = yeast::osmotic_atm(of.water, holds.flour, holds.sugar, of.salt);
        let rich = of.fat > 0.08;
        Self {
            holds,
            density,
            beaten_in: BEATEN_IN,
            pressure,
            boils,
            to_boiling,
            latent,
            temperature,
            capacity,
            heat,
            solid: celsius(-20.0, 110.0, &|t| conductivity::gas_free(&of, t)),
            bubble: celsius(-20.0, 110.0, &|t| {
                conductivity::bubble(t.max(1.0), pressure, anchor.vapour)
            }),
            dry: DRY_CRUST,
            gassing: yeast::AT_30_MOL_PER_KG_S
                * holds.yeast
                * holds.power
                * anchor.vigour
                * yeast::against_osmosis(atm, holds.form),
            lag: yeast::lag_s(holds.form, holds.woken),
            warmth: celsius(-10.0, 70.0, &yeast::warmth),
            dying: celsius(30.0, 75.0, &yeast::dying_per_s),
            swelling: celsius(40.0, 110.0, &crust::swelling_per_s),
            darkening: celsius(60.0, 260.0, &|t| {
                crust::darkening_per_s(t) * anchor.browning
            }),
            dissolves: celsius(0.0, 110.0, &yeast::dissolves),
            vapour: celsius(0.0, 110.0, &|t| WATER_ACTIVITY * saturation_pa(t)),
            water_volume: of.water * density / 1000.0,
            // 2 to 2.5 times and 3.5 to 5 (bread flour, lean), 2.5 to 3.5 (rich): from memory.
            keeps_all_to: if rich { 2.3 } else { 2.7 },
            keeps_none_at: if rich { 3.8 } else { 5.0 },
            fermentable: (holds.sugar + 0.03 * holds.flour) / 0.180_16,
        }
    }

    /// Heat from 0 °C of a kilogram at a temperature below boiling, J/kg.
    pub fn heat_at(&self, at: Temperature) -> f64 {
        self.heat.at(at.celsius().min(self.boils))
    }
}

/// Heat for one kelvin at each heat, J/(kg K). While water boils the temperature stands: there a whole
/// tenth of the latent heat stands for one kelvin, which an implicit step takes as standing still.
pub fn capacity_over(temperature: &Curve, ends: (f64, f64), boiling: (f64, f64)) -> Curve {
    const STEPS: usize = 2048;
    let (cold, top) = ends;
    let width = (top - cold) / STEPS as f64;
    let (from, latent) = boiling;
    Curve::of(cold, top, STEPS, |joules| {
        if joules > from - width && joules < from + latent + width {
            return 10.0 * latent.max(1.0);
        }
        let rise = temperature.at(joules + width) - temperature.at(joules - width);
        2.0 * width / rise.max(1e-9)
    })
}

/// Dry crust, W/(m K): Purlis and Salvadori take 0.2, a review quoted second-hand 0.04 to 0.055 for
/// crust; between them.
const DRY_CRUST: f64 = 0.12;

/// Specific heat of what is left when the water is gone, J/K in a kilogram of dough.
fn dry_heat(of: &Proximate) -> f64 {
    let solids = Proximate { water: 0.0, ..*of };
    specific_heat::specific_heat(&solids, Temperature::from_celsius(110.0)).si()
}

/// Heat from 0 °C over temperature, the melting of milk fat in it.
fn heat_table(holds: &Holds, boils: f64) -> Curve {
    const STEPS: u32 = 480;
    let low = -20.0;
    let width = (boils - low) / f64::from(STEPS);
    let mut joules = Vec::with_capacity(STEPS as usize + 1);
    let mut sum = 0.0;
    joules.push(sum);
    for step in 0..STEPS {
        let middle = low + width * (f64::from(step) + 0.5);
        let sensible =
            specific_heat::specific_heat(&holds.made_of, Temperature::from_celsius(middle)).si();
        let solid = |t: f64| milk_fat::solid_share(Temperature::from_celsius(t));
        let melts = solid(middle - 0.5 * width) - solid(middle + 0.5 * width);
        sum += sensible * width + holds.milk_fat * milk_fat::MELTING_J_PER_KG * melts.max(0.0);
        joules.push(sum);
    }
    let table = Curve::of(low, boils, STEPS as usize, |t| {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a step of the table
        let step = ((t - low) / width).round().max(0.0) as usize;
        joules[step.min(joules.len() - 1)]
    });
    let at_nought = table.at(0.0);
    Curve::of(low, boils, STEPS as usize, |t| table.at(t) - at_nought)
}

/// The temperature whose heat this is, by halving.
fn inverse(heat: &Curve, joules: f64, boils: f64) -> f64 {
    let (mut low, mut high) = (-20.0, boils);
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        if heat.at(middle) < joules {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}
