//! How a dough takes up heat, lets it through, and gives its water off: one table over the heat in it.
//!
//! # Relation
//! Heat is counted as the whole dough, all of its water still in it, would hold it: h(T), J/kg, h(0 °C)
//! = 0. A cell that has lost water takes up less: dh = dq c / (c - d `c_w`), d the water gone. At boiling
//! h stands and every joule more drives water out, until none is left.
//!
//! # Symbols
//! h, J/kg of raw dough; q, heat that flows in, J/kg; c, specific heat of the whole dough, `c_w` of
//! water, J/(kg K); d, water gone, kg/kg of raw dough.
//!
//! # Valid for
//! -20 to 260 °C; specific heats read on from 150 °C.
//!
//! # Source
//! An enthalpy form of the moving front (Purlis and Salvadori 2009, J. Food Eng. 91:428, as quoted
//! second-hand, keep the same two phases). Dry crumb after Maxwell and Eucken, of its solids and the
//! room that bubbles and lost water leave: 0.06 to 0.09 W/(m K), against 0.055 to 0.065 (dry crust,
//! Rask 1989, second-hand).
//!
//! # Departures
//! The front is one cell wide. Vapour takes 2.2565 MJ/kg at every temperature; what it carries as
//! liquid would is counted too.
//!
//! # Checked by
//! `tests/verification/bodies.rs`: energy, water, and two reference bakes by another code.

use crate::physics::conductivity::{self, VapourParts};
use crate::physics::proximate::Proximate;
use crate::physics::steam::LATENT_J_PER_KG;
use crate::physics::{density, milk_fat, specific_heat};
use numerics::lane::{Curve, Curves};
use numerics::quantity::Temperature;
use std::sync::LazyLock;

/// A dough's heat, tabulated.
#[derive(Clone, Debug, PartialEq)]
pub struct Heat {
    /// Where its water boils, °C.
    pub boils: f64,
    /// Heat from 0 °C to boiling, J/kg.
    pub to_boiling: f64,
    /// Heat that drives out all of its water, J/kg of dough.
    pub latent: f64,
    /// Specific heat of water over its latent heat, 1/K.
    pub water_per_latent: f64,
    /// Over heat, J/kg: temperature, °C; specific heat, J/(kg K); one over it.
    pub curves: Curves<3>,
    /// Over temperature, °C: conductivity of the gas-free dough and of what fills a bubble, W/(m K).
    pub conducts: Curves<2>,
    /// Heat, J/kg, over temperature, °C.
    pub over_celsius: Curve,
    /// What is left when the water has gone.
    pub dry: Dry,
}

/// Crumb or crust without water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dry {
    /// Conductivity of its solids, W/(m K).
    pub solid: f64,
    /// Conductivity of what fills its holes, W/(m K).
    pub gas: f64,
    /// Share of the gas-free dough's volume that was water, 1.
    pub water: f64,
}

/// The relations that a [`Heat`] tabulates, each over °C.
pub struct Relations<'a> {
    /// Where water boils, °C.
    pub boils: f64,
    /// Water, share of the mass.
    pub water: f64,
    /// Specific heat of liquid water, J/(kg K).
    pub water_capacity: f64,
    /// Latent heat, J/kg of water.
    pub latent: f64,
    /// Specific heat, what melts counted in, J/(kg K).
    pub capacity: &'a dyn Fn(f64) -> f64,
    /// Conductivity of the gas-free dough, W/(m K).
    pub solid: &'a dyn Fn(f64) -> f64,
    /// Conductivity of what fills a bubble, W/(m K).
    pub bubble: &'a dyn Fn(f64) -> f64,
    /// Without water.
    pub dry: Dry,
}

/// Ends of the tables, °C.
const COLDEST: f64 = -20.0;
/// See [`COLDEST`].
const HOTTEST: f64 = 260.0;
/// Kelvin of a step of the sum from which the tables are read.
const SUM_STEP: f64 = 0.25;
/// End of the tables of what conducts, °C, and their steps.
const HOTTEST_WET: f64 = 110.0;
/// See [`HOTTEST_WET`].
const WET_STEPS: usize = 260;
/// Steps of the table over heat.
const STEPS: usize = 420;
/// Specific heat of liquid water between 0 and 100 °C, J/(kg K) (steam tables: 4.18 to 4.22).
const WATER_CAPACITY: f64 = 4200.0;

/// Share of milk fat that melts in a degree, at the middle of each step of the sum.
static MELTS: LazyLock<Vec<f64>> = LazyLock::new(|| {
    let solid = |t: f64| milk_fat::solid_share(Temperature::from_celsius(t));
    let middle = |step: usize| COLDEST + SUM_STEP * (step as f64 + 0.5);
    (0..=within(HOTTEST, SUM_STEP))
        .map(middle)
        .map(|t| (solid(t - 0.5) - solid(t + 0.5)).max(0.0))
        .collect()
});

/// What conducts in any dough, at each step of the table of what conducts.
static WET: LazyLock<Vec<([[f64; 2]; 6], VapourParts)>> = LazyLock::new(|| {
    (0..=WET_STEPS)
        .map(|step| COLDEST + WET_WIDTH * step as f64)
        .map(|t| (conductivity::components(t), conductivity::vapour_parts(t)))
        .collect()
});

/// Kelvin of a step of the table of what conducts.
const WET_WIDTH: f64 = (HOTTEST_WET - COLDEST) / WET_STEPS as f64;

/// The step of so many kelvin in which a temperature lies.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // no colder than the coldest
fn within(celsius: f64, kelvin: f64) -> usize {
    ((celsius - COLDEST) / kelvin) as usize
}

/// The place in [`WET`] nearest to a temperature; the tables ask for no other.
fn nearest(celsius: f64) -> usize {
    within(celsius + 0.5 * WET_WIDTH, WET_WIDTH).min(WET_STEPS)
}

impl Heat {
    /// Tabulates relations.
    pub fn of(relations: &Relations<'_>) -> Self {
        // Heat at even temperatures, by the rule of the middle.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // about a thousand
        let count = ((HOTTEST - COLDEST) / SUM_STEP) as usize;
        let mut sums = Vec::with_capacity(count + 1);
        let mut sum = 0.0;
        sums.push(sum);
        for step in 0..count {
            let middle = COLDEST + SUM_STEP * (step as f64 + 0.5);
            sum += SUM_STEP * (relations.capacity)(middle);
            sums.push(sum);
        }
        let sums_at = |celsius: f64| {
            let steps = ((celsius - COLDEST) / SUM_STEP).clamp(0.0, count as f64);
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // within `sums`
            let before = (steps as usize).min(count - 1);
            sums[before] + (sums[before + 1] - sums[before]) * (steps - before as f64)
        };
        let at_nought = sums_at(0.0);
        let (cold, hot) = (-at_nought, sums[count] - at_nought);
        // Read the other way round: heats rise, so the place is found by going on.
        let mut before = 0;
        let curves = Curves::of(cold, hot, STEPS, |joules| {
            let wanted = joules + at_nought;
            while before + 2 < sums.len() && sums[before + 1] < wanted {
                before += 1;
            }
            let rise = sums[before + 1] - sums[before];
            let celsius =
                COLDEST + SUM_STEP * (before as f64 + (wanted - sums[before]) / rise.max(1e-9));
            let capacity = rise / SUM_STEP;
            [celsius, capacity, 1.0 / capacity]
        });
        let conducts = Curves::of(COLDEST, HOTTEST_WET, WET_STEPS, |celsius| {
            [(relations.solid)(celsius), (relations.bubble)(celsius)]
        });
        let over_celsius = Curve::of(COLDEST, HOTTEST, count, |celsius| {
            sums_at(celsius) - at_nought
        });
        Self {
            boils: relations.boils,
            to_boiling: over_celsius.at(relations.boils),
            latent: relations.water * relations.latent,
            water_per_latent: relations.water_capacity / relations.latent,
            curves,
            conducts,
            over_celsius,
            dry: relations.dry,
        }
    }

    /// The heat of a dough of this composition whose water boils at `boils`, °C; `acts`: the factor on
    /// the vapour that moves through its bubbles.
    pub fn of_dough(
        made_of: &Proximate,
        milk_fat: f64,
        boils: f64,
        pressure_pa: f64,
        acts: f64,
    ) -> Self {
        let polynomial = specific_heat::polynomial(made_of);
        let melting = milk_fat * milk_fat::MELTING_J_PER_KG;
        let capacity = |t: f64| {
            specific_heat::at(polynomial, t.min(150.0)) + melting * MELTS[within(t, SUM_STEP)]
        };
        // Hotter than this vapour adds no more.
        let hottest = boils - conductivity::BELOW_BOILING;
        let most = conductivity::vapour_parts(hottest);
        let bubble = |t: f64| {
            let t = t.max(1.0);
            let known = &WET[nearest(t)].1;
            let vapour = if t < hottest { known } else { &most };
            conductivity::bubble_with(t, vapour.at(pressure_pa), acts)
        };
        let solids = Proximate {
            water: 0.0,
            ..*made_of
        };
        let hot = Temperature::from_celsius(120.0);
        let whole = density::density(made_of, hot).map_or(1200.0, numerics::quantity::Density::si);
        let water = made_of.water * whole / specific_heat::at(density::WATER, 100.0);
        Self::of(&Relations {
            boils,
            water: made_of.water,
            water_capacity: WATER_CAPACITY,
            latent: LATENT_J_PER_KG,
            capacity: &capacity,
            solid: &|t| conductivity::gas_free_of(made_of, &WET[nearest(t)].0),
            bubble: &bubble,
            dry: Dry {
                solid: conductivity::gas_free(&solids, 120.0),
                gas: conductivity::air(120.0),
                water,
            },
        })
    }

    /// Heat from 0 °C of a kilogram at a temperature, J/kg.
    pub fn at(&self, at: Temperature) -> f64 {
        self.over_celsius.at(at.celsius())
    }
}
