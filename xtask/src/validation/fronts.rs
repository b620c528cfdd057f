//! A front of evaporation in constant properties: reference bakes of another code, and the exact two-phase front.
//!
//! Reference bakes A, B and D: an independent explicit code on 100 even cells with the constants of
//! Purlis and Salvadori's moving-boundary model as quoted second-hand (two codes compared, not bread).
//! The front: Neumann's solution for two phases (any textbook of conduction; from memory), worked out
//! here by halving.

use super::solids::{root, shell_volumes, shells};
use bake::physics::proximate::Proximate;
use bake::simulate::Anchor;
use bake::simulate::body::{Body, Room};
use bake::simulate::heat::{Dry, Heat, Relations};
use bake::simulate::matter::{Holds, Matter};
use bake::simulate::surround::{Side, Surround};
use libm::{erf, erfc, exp, sqrt};
use numerics::quantity::{Pressure, Temperature};
use numerics::section::{Mesh, Solid};
use recipe::larder::YeastForm;

/// Heat of a cubic metre per kelvin, wet and dry, J/(m3 K), and to dry it, J/m3.
pub const WET: f64 = 1.0392e6;
/// Dry.
pub const DRY: f64 = 3.84e5;
/// To dry it.
pub const LATENT: f64 = 3.520_92e8;
/// Water in a kilogram of dough.
pub const WATER: f64 = 0.65 / 1.65;
/// Dough, kg/m3.
pub const DENSITY: f64 = 240.0 * 1.65;
/// Dry crust, W/(m K).
pub const CRUST: f64 = 0.2;

/// Flour and water without yeast, as the reference bakes have it.
pub fn holds() -> Holds {
    Holds {
        made_of: Proximate {
            water: WATER,
            carbohydrate: 1.0 - WATER,
            ..Proximate::default()
        },
        milk_fat: 0.0,
        flour: 0.6,
        sugar: 0.0,
        yeast: 0.0,
        form: YeastForm::Fresh,
        woken: false,
        power: 0.0,
        protein: 0.12,
    }
}

/// The published fit for bread while it bakes, W/(m K) at °C (Purlis and Salvadori 2009; second-hand).
pub fn published_fit(celsius: f64) -> f64 {
    0.2 + 0.9 / (1.0 + exp(-0.1 * (celsius.min(100.0) - 80.0)))
}

/// Dough of constant heat and a conductivity over °C.
pub fn reference(conducts: impl Fn(f64) -> f64) -> Matter {
    let mut matter = Matter::of(holds(), Pressure::from_si(101_325.0), Anchor::default());
    matter.density = DENSITY;
    matter.beaten_in = 0.0;
    matter.heat = Heat::of(&Relations {
        boils: 100.0,
        water: WATER,
        // What is lost with the water, so that the dry crust keeps `DRY`.
        water_capacity: (WET - DRY) / DENSITY / WATER,
        latent: LATENT / DENSITY / WATER,
        capacity: &|_| WET / DENSITY,
        solid: &conducts,
        bubble: &conducts,
        dry: Dry {
            solid: CRUST,
            gas: CRUST,
            water: 0.0,
        },
    });
    matter
}

fn idle() -> Side<f64> {
    Side::still(28.0, 0.0, 0.0)
}

/// What a reference bake gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Baked {
    /// Minutes to 90, 93, 95 and 98 °C in the middle.
    pub minutes: [f64; 4],
    /// Per cent lost at 20, 30 and 40 min.
    pub lost: [f64; 3],
}

/// A reference bake.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reference {
    /// Its name and what it is.
    pub name: &'static str,
    /// Radius, m.
    pub radius_m: f64,
    /// A ball; a long cylinder otherwise.
    pub ball: bool,
    /// Oven, °C.
    pub oven: f64,
    /// Film, W/(m2 K); radiation beside it at an emissivity of 0.9.
    pub film: f64,
    /// What the other code gives.
    pub other: Baked,
}

/// The three reference bakes.
pub const BAKES: [Reference; 3] = [
    Reference {
        name: "A: cylinder of 35 mm radius, 180 °C, film 8",
        radius_m: 0.035,
        ball: false,
        oven: 180.0,
        film: 8.0,
        other: Baked {
            minutes: [15.33, 16.55, 17.70, 20.75],
            lost: [5.47, 10.29, 14.35],
        },
    },
    Reference {
        name: "B: the same, film 20",
        radius_m: 0.035,
        ball: false,
        oven: 180.0,
        film: 20.0,
        other: Baked {
            minutes: [13.72, 14.86, 15.93, 18.76],
            lost: [9.35, 14.43, 18.46],
        },
    },
    Reference {
        name: "D: sphere of 50 mm radius, 190 °C, film 8",
        radius_m: 0.050,
        ball: true,
        oven: 190.0,
        film: 8.0,
        other: Baked {
            minutes: [18.58, 19.92, 21.21, 24.71],
            lost: [7.57, 12.76, 17.06],
        },
    },
];

/// A reference bake by the simulator's body: so many cells, the outermost so thin, m, by steps of so long, s.
///
/// # Panics
/// When the cells are none.
pub fn baked(of: &Reference, cells: usize, thinnest_m: f64, step_s: f64) -> Baked {
    let matter = reference(published_fit);
    let across = Mesh::graded_to_end(of.radius_m, cells, thinnest_m);
    let at = Temperature::from_celsius(28.0);
    let mut body: Body<f64> = if of.ball {
        let mass = shell_volumes(&across)
            .iter()
            .map(|volume| volume * DENSITY)
            .collect();
        Body::weighing(shells(&across), mass, Room::Up, &matter, at)
    } else {
        let mesh = Mesh::of(Solid::Round, across, vec![0.0, 0.05]).expect("edges rise");
        Body::new(mesh, Room::Up, &matter, at)
    };
    let around = Surround {
        bottom: idle(),
        side: Side::still(of.oven, of.film, 0.9),
        top: idle(),
    };
    let mut found = Baked {
        minutes: [0.0; 4],
        lost: [0.0; 3],
    };
    let (mut now_s, mut before) = (0.0, 28.0);
    while now_s < 2400.0 - 1e-9 {
        body.warm(&matter, &around, step_s);
        now_s += step_s;
        let core = body.cell_celsius(&matter, 0);
        for (mark, line) in found.minutes.iter_mut().zip([90.0, 93.0, 95.0, 98.0]) {
            if before < line && core >= line {
                let part = (line - before) / (core - before);
                *mark = (now_s - step_s * (1.0 - part)) / 60.0;
            }
        }
        for (share, at_s) in found.lost.iter_mut().zip([1200.0, 1800.0, 2400.0]) {
            if (now_s - at_s).abs() < 0.5 * step_s {
                *share = 100.0 * body.gone();
            }
        }
        before = core;
    }
    found
}

/// The exact front: surface 180 °C, front 100 °C, far side 30 °C, 0.2 and 0.5 W/(m K).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Neumann {
    growth: f64,
}

const SURFACE: f64 = 180.0;
const FRONT: f64 = 100.0;
const FAR: f64 = 30.0;
/// Behind the front, W/(m K).
const WET_CONDUCTS: f64 = 0.5;

impl Default for Neumann {
    fn default() -> Self {
        Self::new()
    }
}

impl Neumann {
    /// Finds how fast it grows.
    pub fn new() -> Self {
        let (dry, wet) = (CRUST / DRY, WET_CONDUCTS / WET);
        let pi = std::f64::consts::PI;
        let growth = root(1e-6, 3.0, |l| {
            let n = l * sqrt(dry / wet);
            CRUST * (SURFACE - FRONT) * exp(-l * l) / (sqrt(pi * dry) * erf(l))
                - WET_CONDUCTS * (FRONT - FAR) * exp(-n * n) / (sqrt(pi * wet) * erfc(n))
                - LATENT * l * sqrt(dry)
        });
        Self { growth }
    }

    /// How far it has come, m.
    pub fn front_m(self, seconds: f64) -> f64 {
        2.0 * self.growth * sqrt(CRUST / DRY * seconds)
    }

    /// Temperature behind the front, °C.
    pub fn behind(self, depth_m: f64, seconds: f64) -> f64 {
        let wet = WET_CONDUCTS / WET;
        let n = self.growth * sqrt(CRUST / DRY / wet);
        FAR + (FRONT - FAR) * erfc(depth_m / (2.0 * sqrt(wet * seconds))) / erfc(n)
    }
}

/// Depth of the piece in which the front is followed, m: its far end stays cold.
const DEEP_M: f64 = 0.096;

/// The front by the simulator's body in even cells: depth, m, and temperature 10 mm deep, °C, at each
/// of the times, s (rising).
///
/// # Panics
/// When the cells are none.
pub fn front(cells: usize, step_s: f64, times_s: &[f64]) -> Vec<(f64, f64)> {
    let matter = reference(|_| WET_CONDUCTS);
    let across = Mesh::graded_to_end(DEEP_M, cells, 0.0);
    let mesh = Mesh::of(Solid::Prism, across, vec![0.0, 0.05]).expect("edges rise");
    let mut body: Body<f64> = Body::new(mesh, Room::Up, &matter, Temperature::from_celsius(FAR));
    let around = Surround {
        bottom: idle(),
        side: Side::still(SURFACE, 1e6, 0.0),
        top: idle(),
    };
    let width = DEEP_M / cells as f64;
    let mut now_s = 0.0;
    times_s
        .iter()
        .map(|time| {
            while now_s < time - 1e-9 {
                let step_s = step_s.min(time - now_s);
                body.warm(&matter, &around, step_s);
                now_s += step_s;
            }
            let depth = body.gone() / WATER * DEEP_M;
            // Between the middles of the two cells on either side of 10 mm.
            let place = (DEEP_M - 0.010) / width - 0.5;
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // inside the mesh
            let inner = place as usize;
            let part = place - inner as f64;
            let at = |cell| body.cell_celsius(&matter, cell);
            (depth, at(inner) * (1.0 - part) + at(inner + 1) * part)
        })
        .collect()
}

/// Root of the mean square of the front's error over every ten seconds from 5 to 30 min, m.
pub fn front_error(cells: usize, step_s: f64) -> f64 {
    let times: Vec<f64> = (0..=150).map(|ten| 300.0 + 10.0 * f64::from(ten)).collect();
    let exact = Neumann::new();
    let sum: f64 = front(cells, step_s, &times)
        .iter()
        .zip(&times)
        .map(|((depth, _), time)| {
            let off = depth - exact.front_m(*time);
            off * off
        })
        .sum();
    sqrt(sum / times.len() as f64)
}

/// A section for two codes: a short cylinder of dough, thin cells at its surface as a bake has them.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Its mesh.
    pub mesh: Mesh,
    /// Oven, °C.
    pub oven: f64,
    /// Film, W/(m2 K), on all sides.
    pub film: f64,
    /// Emissivity of the crust.
    pub emissivity: f64,
    /// Dough at the start, °C.
    pub start: f64,
}

impl Default for Section {
    fn default() -> Self {
        Self::new()
    }
}

impl Section {
    /// 70 mm wide and 70 mm high, 12 x 24 cells, 180 °C.
    ///
    /// # Panics
    /// Never: its edges rise.
    pub fn new() -> Self {
        let mesh = Mesh::of(
            Solid::Round,
            Mesh::graded_to_end(0.035, 12, 0.7e-3),
            Mesh::graded_to_both(0.070, 24, 0.7e-3),
        );
        Self {
            mesh: mesh.expect("edges rise"),
            oven: 180.0,
            film: 12.0,
            emissivity: 0.9,
            start: 28.0,
        }
    }

    /// For each of so many minutes from 0 on: the middle, °C, the dried share and the mean heat, J/m3.
    pub fn baked(&self, minutes: u32, steps_a_minute: u32) -> Vec<(f64, f64, f64)> {
        let matter = reference(published_fit);
        let at = Temperature::from_celsius(self.start);
        let mut body: Body<f64> = Body::new(self.mesh.clone(), Room::Up, &matter, at);
        let side = Side::still(self.oven, self.film, self.emissivity);
        let around = Surround {
            bottom: side,
            side,
            top: side,
        };
        let start = WET * self.start;
        let volume = body.section_mass().si() / DENSITY;
        let look = |body: &Body<f64>| {
            let dried = body.gone() / WATER;
            let heat = start + body.taken() / volume;
            (body.middle(&matter), dried, heat)
        };
        let mut found = vec![look(&body)];
        for _ in 0..minutes {
            for _ in 0..steps_a_minute {
                body.warm(&matter, &around, 60.0 / f64::from(steps_a_minute));
            }
            found.push(look(&body));
        }
        found
    }
}
