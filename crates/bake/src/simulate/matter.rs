//! A dough as the simulator needs it: every property tabulated once, so that a step looks up and adds.

use super::Anchor;
use super::heat::Heat;
use crate::physics::proximate::Proximate;
use crate::physics::steam::saturation_pa;
use crate::physics::{boiling, crust, density, yeast};
use numerics::lane::{Curve, Curves};
use numerics::quantity::{Pressure, Temperature};
use recipe::larder::YeastForm;
use std::sync::LazyLock;

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
    /// How it takes up heat and lets it through.
    pub heat: Heat,
    /// Gas made in a kilogram of dough at 30 °C, mol/(kg s).
    pub gassing: f64,
    /// The lag before gas comes at its rate, s.
    pub lag: f64,
    /// Over °C: warmth factor of gassing, dying of yeast, 1/s, swelling of starch, 1/s, carbon dioxide
    /// dissolved, volumes a volume of the dough's water, pressure of vapour over that water, Pa, and
    /// growth of yeast, 1/s.
    pub life: Curves<6>,
    /// Yeast at the start against what the dough feeds in the end, 1.
    pub crowd: f64,
    /// How fast the crust nears burnt, 1/s, over °C.
    pub darkening: Curve,
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

/// Water in the air of a dough's crust, activity, for its vapour pressure.
const WATER_ACTIVITY: f64 = 0.95;

/// What of [`Matter::life`] no dough changes, tabulated once.
static LIFE: LazyLock<Curves<6>> = LazyLock::new(|| life(|rate| rate));

/// The same with the warmth factor of gassing made another.
fn life(warmth: impl Fn(f64) -> f64) -> Curves<6> {
    Curves::of(-20.0, 110.0, 260, |t| {
        [
            warmth(yeast::warmth(t.max(-10.0))),
            yeast::dying_per_s(t),
            crust::swelling_per_s(t),
            yeast::dissolves(t),
            vapour(t.max(0.0)),
            yeast::growing_per_s(t),
        ]
    })
}

/// How fast a lean crust nears burnt, 1/s, over °C.
static DARKENING: LazyLock<Curve> =
    LazyLock::new(|| Curve::of(60.0, 260.0, 240, crust::nearing_burnt_per_s));

/// See [`Matter::vapour`].
static VAPOUR: LazyLock<Curve> = LazyLock::new(|| Curve::of(0.0, 110.0, 220, vapour));

/// Pressure of vapour over a dough's water, Pa, at °C.
fn vapour(celsius: f64) -> f64 {
    WATER_ACTIVITY * saturation_pa(celsius)
}

impl Matter {
    /// The tables of a dough at an air pressure, with the factors of the tested bakes.
    pub fn of(holds: Holds, pressure: Pressure, anchor: Anchor) -> Self {
        let of = holds.made_of;
        let boils = boiling::boiling_point(pressure).celsius();
        let pressure = pressure.si();
        let density = density::density(&of, Temperature::from_celsius(25.0))
            .map_or(1200.0, numerics::quantity::Density::si);
        let atm = yeast::osmotic_atm(of.water, holds.flour, holds.sugar, of.salt);
        let pressed = yeast::against_osmosis(atm, holds.form);
        let rich = of.fat > 0.08;
        let browns = anchor.browning * crust::richness(holds.sugar);
        Self {
            holds,
            density,
            beaten_in: BEATEN_IN,
            pressure,
            heat: Heat::of_dough(&of, holds.milk_fat, boils, pressure, anchor.vapour),
            gassing: yeast::AT_30_MOL_PER_KG_S
                * holds.yeast
                * holds.power
                * anchor.vigour
                * pressed,
            lag: yeast::lag_s(holds.form, holds.woken),
            life: {
                let growing = [1.0, 1.0, 1.0, 1.0, 1.0, pressed.min(1.0)];
                // Nobody but who doubts the relation itself has a yeast that answers more or less steeply.
                if anchor.warmth.to_bits() == 1.0_f64.to_bits() {
                    LIFE.times(growing)
                } else {
                    life(|rate| numerics::math::pow(rate, anchor.warmth)).times(growing)
                }
            },
            crowd: yeast::crowding(holds.yeast, holds.flour),
            darkening: DARKENING.times(browns),
            vapour: VAPOUR.clone(),
            water_volume: of.water * density / 1000.0,
            // 2 to 2.5 times and 3.5 to 5 (bread flour, lean), 2.5 to 3.5 (rich): from memory.
            keeps_all_to: if rich { 2.3 } else { 2.7 },
            keeps_none_at: if rich { 3.8 } else { 5.0 },
            fermentable: (holds.sugar + 0.03 * holds.flour) / 0.180_16,
        }
    }
}
