//! A body of dough moved on in time: heat through its section, gas in its bubbles, crust on its outside.
//!
//! One body serves for a rise in a bowl, a chill as a slab, a proof in a tin, the bake and the
//! cooling: only what stands around it changes. Heat is kept as J/kg of the dough as it was mixed;
//! on the plateau at boiling the water of a cell turns to vapour (an enthalpy form with the front of
//! evaporation in it).

use super::Work;
mod look;
mod rim;

use super::matter::{FERMENTATION_J_PER_MOL, Matter};
use super::surround::Surround;
use crate::physics::steam::LATENT_J_PER_KG;
use numerics::lane::Lane;
use numerics::quantity::Temperature;
use numerics::section::{Faces, Line, Mesh, Solid, Stretch};
use rim::{Outside, Rim, inward};

/// Where a body may grow to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Room {
    /// Every way: pieces on a tray, a slab, a ball in a wide bowl.
    Every,
    /// Up only: walls around it.
    Up,
}

/// A body of dough.
#[derive(Clone, Debug)]
pub struct Body<L> {
    mesh: Mesh,
    faces: Faces,
    room: Room,
    /// Mass of each cell, kg (of a prism: one metre of half the section).
    mass: Vec<f64>,
    all: f64,
    /// Heat from 0 °C, J/kg.
    heat: Vec<L>,
    /// Yeast alive in each cell, 1.
    alive: Vec<L>,
    /// Starch swollen in each cell, 1.
    set: Vec<L>,
    /// Volume of each cell against its gas-free volume.
    swollen: Vec<L>,
    /// Carbon dioxide kept, mol/kg.
    kept: L,
    /// Carbon dioxide made, mol/kg.
    made: L,
    /// How long the yeast has been at work, s.
    age: L,
    /// Water gone, kg, of the whole section.
    gone: L,
    /// Of it, water that dried off below boiling, kg.
    dried: L,
    /// Heat taken in from outside, J, of the whole section.
    taken: L,
    stretch: Stretch<L>,
    bottom: Rim<L>,
    side: Rim<L>,
    top: Rim<L>,
    temperature: Vec<L>,
    resistivity: Vec<L>,
    capacity: Vec<L>,
    heat_j: Vec<L>,
    scratch: Vec<[L; 3]>,
    works: Vec<L>,
    /// Counted, not timed.
    pub work: Work,
}

impl<L: Lane> Body<L> {
    /// Dough that has just been mixed or shaped, at one temperature, cut into cells of a mesh whose
    /// lengths are those of the gas-free dough.
    pub fn new(mesh: Mesh, room: Room, matter: &Matter, at: Temperature) -> Self {
        let mut mass = vec![0.0; mesh.cells()];
        for row in 0..mesh.cells_up() {
            for column in 0..mesh.cells_across() {
                mass[mesh.place(column, row)] = mesh.volume_m3(column, row) * matter.density;
            }
        }
        Self::weighing(mesh, mass, room, matter, at)
    }

    /// The same with a mass of its own for each cell, kg: a body whose cells hold other than their
    /// mesh says, such as a ball told by the resistance of its shells.
    pub fn weighing(
        mesh: Mesh,
        mass: Vec<f64>,
        room: Room,
        matter: &Matter,
        at: Temperature,
    ) -> Self {
        let faces = Faces::of(&mesh);
        let cells = mesh.cells();
        let (across, up) = (mesh.cells_across(), mesh.cells_up());
        let half_up = |row: usize| 0.5 * (mesh.up_m()[row + 1] - mesh.up_m()[row]);
        let inner = |row: usize, next: Option<usize>| next.filter(|n| *n < up).unwrap_or(row);
        let level = |row: usize, next: usize| -> Vec<(f64, f64, usize, usize)> {
            (0..across)
                .map(|column| {
                    (
                        mesh.base_m2(column),
                        half_up(row),
                        mesh.place(column, row),
                        mesh.place(column, next),
                    )
                })
                .collect()
        };
        let last = across - 1;
        let half_across = 0.5 * (mesh.across_m()[across] - mesh.across_m()[last]);
        let around: Vec<_> = (0..up)
            .map(|row| {
                (
                    mesh.side_m2(row),
                    half_across,
                    mesh.place(last, row),
                    mesh.place(last.saturating_sub(1), row),
                )
            })
            .collect();
        let celsius = at.celsius();
        let bottom = Rim::of(&level(0, inner(0, Some(1))), celsius);
        let top = Rim::of(&level(up - 1, (up - 1).saturating_sub(1)), celsius);
        let fresh = 1.0 / (1.0 - matter.beaten_in);
        let mut body = Self {
            faces,
            room,
            all: mass.iter().sum(),
            mass,
            heat: vec![L::splat(matter.heat_at(at)); cells],
            alive: vec![L::splat(1.0); cells],
            set: vec![L::splat(0.0); cells],
            swollen: vec![L::splat(fresh); cells],
            kept: L::splat(0.0),
            made: L::splat(0.0),
            age: L::splat(0.0),
            gone: L::splat(0.0),
            dried: L::splat(0.0),
            taken: L::splat(0.0),
            stretch: Stretch::none(),
            bottom,
            side: Rim::of(&around, celsius),
            top,
            temperature: vec![L::splat(celsius); cells],
            resistivity: vec![L::splat(1.0); cells],
            capacity: vec![L::splat(1.0); cells],
            heat_j: vec![L::splat(0.0); cells],
            scratch: vec![[L::splat(0.0); 3]; across.max(up)],
            works: vec![L::splat(0.0); cells],
            work: Work::default(),
            mesh,
        };
        body.stretch_out();
        body
    }

    /// Moves heat on by one step, s: implicitly along the rows, then along the columns.
    pub fn warm(&mut self, matter: &Matter, around: &Surround<L>, step_s: f64) {
        let step = L::splat(step_s);
        let zero = L::splat(0.0);
        self.look_up(matter);
        let solid = self.mesh.solid();
        let (base, side) = (self.stretch.base(solid), self.stretch.side(solid));
        let outside = Outside {
            matter,
            step,
            resistivity: &self.resistivity,
            heat: &self.heat,
        };
        self.side
            .meet(&around.side, &outside, (side, self.stretch.across));
        self.heat_j.fill(zero);
        self.faces.along_rows(
            &mut Line {
                step_s: step,
                stretch: self.stretch,
                temperature: &mut self.temperature,
                capacity: &self.capacity,
                resistivity: &self.resistivity,
                heat_j: &mut self.heat_j,
                scratch: &mut self.scratch,
            },
            &self.side.ends,
        );
        let (taken, dried) = self.side.part(&around.side, &self.temperature, step);
        self.taken += taken;
        self.gone += dried;
        self.dried += dried;
        self.book(matter);
        self.look_up(matter);
        let outside = Outside {
            matter,
            step,
            resistivity: &self.resistivity,
            heat: &self.heat,
        };
        self.bottom
            .meet(&around.bottom, &outside, (base, self.stretch.up));
        self.top
            .meet(&around.top, &outside, (base, self.stretch.up));
        self.heat_j.fill(zero);
        self.faces.along_columns(
            &mut Line {
                step_s: step,
                stretch: self.stretch,
                temperature: &mut self.temperature,
                capacity: &self.capacity,
                resistivity: &self.resistivity,
                heat_j: &mut self.heat_j,
                scratch: &mut self.scratch,
            },
            &self.bottom.ends,
            &self.top.ends,
        );
        for (rim, around) in [
            (&mut self.bottom, &around.bottom),
            (&mut self.top, &around.top),
        ] {
            let (taken, dried) = rim.part(around, &self.temperature, step);
            self.taken += taken;
            self.gone += dried;
            self.dried += dried;
        }
        self.book(matter);
        let boils_at = L::splat(matter.to_boiling);
        let ends = (boils_at, boils_at + L::splat(matter.latent));
        // A corner cell passes its vapour on sideways alone, not twice.
        let all = self.side.cells.len();
        let inner = self.mesh.cells_across() - usize::from(around.side.pan.is_some());
        for (rim, pan, faces) in [
            (&mut self.side, around.side.pan, all),
            (&mut self.bottom, around.bottom.pan, inner),
            (&mut self.top, around.top.pan, inner),
        ] {
            if pan.is_some() {
                let back = inward(rim, faces, &self.mass, &mut self.heat, ends);
                self.gone = self.gone - back;
            }
        }
        self.work.steps += 1;
        self.work.cell_steps += self.heat.len() as u64;
    }

    /// Temperature, capacity and conductivity of every cell from its heat.
    fn look_up(&mut self, matter: &Matter) {
        let boils_at = L::splat(matter.to_boiling);
        let per_latent = L::splat(1.0 / matter.latent.max(1.0));
        let (zero, one, two) = (L::splat(0.0), L::splat(1.0), L::splat(2.0));
        let dry = L::splat(1.0 / matter.dry);
        for cell in 0..self.heat.len() {
            let heat = self.heat[cell];
            let temperature = heat.along(&matter.temperature);
            let solid = temperature.along(&matter.solid);
            let bubble = temperature.along(&matter.bubble);
            let bubbles = one - one / self.swollen[cell];
            let twice = two * solid + bubble;
            let less = (solid - bubble) * bubbles;
            let wet = (twice + less) / (solid * (twice - two * less));
            let dryness = ((heat - boils_at) * per_latent).within(zero, one);
            self.temperature[cell] = temperature;
            self.resistivity[cell] = wet + (dry - wet) * dryness;
            self.capacity[cell] = heat.along(&matter.capacity) * L::splat(self.mass[cell]);
        }
    }

    /// Books the heat of a sweep, and the water that it boiled off.
    fn book(&mut self, matter: &Matter) {
        let boils_at = L::splat(matter.to_boiling);
        let full = boils_at + L::splat(matter.latent);
        let mut boiled = L::splat(0.0);
        for (cell, mass) in self.mass.iter().enumerate() {
            let before = self.heat[cell];
            let after = before + self.heat_j[cell] / L::splat(*mass);
            self.heat[cell] = after;
            boiled += (after.within(boils_at, full) - before.within(boils_at, full))
                * L::splat(*mass / LATENT_J_PER_KG);
        }
        self.gone += boiled;
    }

    /// Moves on what lives and what changes for good, s: gas, growth, starch, colour.
    pub fn live(&mut self, matter: &Matter, step_s: f64) {
        let step = L::splat(step_s);
        let (zero, one) = (L::splat(0.0), L::splat(1.0));
        let mut rate = zero;
        let share = 1.0 / self.all;
        for cell in 0..self.heat.len() {
            let temperature = self.heat[cell].along(&matter.temperature);
            self.temperature[cell] = temperature;
            let dying = temperature.along(&matter.dying);
            self.alive[cell] = self.alive[cell] / (one + step * dying);
            let swelling = temperature.along(&matter.swelling);
            self.set[cell] = one - (one - self.set[cell]) / (one + step * swelling);
            let works = temperature.along(&matter.warmth) * self.alive[cell];
            self.works[cell] = works;
            rate += works * L::splat(self.mass[cell] * share);
        }
        self.age += step;
        let lag = one - (-(self.age / L::splat(matter.lag))).each(numerics::math::exp);
        let left = (L::splat(matter.fermentable) - L::splat(0.5) * self.made).max(zero);
        let fed = left / (left + L::splat(FED_HALF));
        let made = L::splat(matter.gassing) * rate * lag * fed * step;
        let volume = self.volume();
        let keeps = ((L::splat(matter.keeps_none_at) - volume)
            / L::splat(matter.keeps_none_at - matter.keeps_all_to))
        .within(zero, one);
        self.made += made;
        self.kept += made * keeps;
        // Its heat goes where it is made.
        let each = made * L::splat(FERMENTATION_J_PER_MOL) / rate.max(L::splat(1e-12));
        for cell in 0..self.heat.len() {
            self.heat[cell] += each * self.works[cell];
        }
        self.swell(matter);
        for rim in [&mut self.bottom, &mut self.side, &mut self.top] {
            for (lightness, surface) in rim.lightness.iter_mut().zip(&rim.surface) {
                *lightness = *lightness / (one + step * surface.along(&matter.darkening));
            }
        }
    }

    /// Each cell's bubbles at its temperature; a cell whose crumb is set no longer moves.
    fn swell(&mut self, matter: &Matter) {
        let one = L::splat(1.0);
        let half = L::splat(0.5);
        let air = L::splat(matter.beaten_in / (1.0 - matter.beaten_in) / 298.15);
        let gas = L::splat(8.314_46 * matter.density / matter.pressure) * self.kept;
        let pressure = L::splat(matter.pressure);
        for cell in 0..self.heat.len() {
            let celsius = self.temperature[cell];
            let kelvin = celsius + L::splat(273.15);
            let air = air * kelvin;
            let all = gas * kelvin;
            let water = celsius.along(&matter.dissolves) * L::splat(matter.water_volume);
            let b = air + water - all;
            let free = half * ((b * b + L::splat(4.0) * all * air).root() - b);
            let steam = celsius
                .along(&matter.vapour)
                .min(pressure * L::splat(MOST_STEAM));
            let volume = one + (air + free) * pressure / (pressure - steam);
            let moves = one - self.set[cell];
            let before = self.swollen[cell];
            self.swollen[cell] = before + (volume - before) * moves;
        }
        self.stretch_out();
    }

    fn stretch_out(&mut self) {
        let volume = self.volume();
        self.stretch = match (self.room, self.mesh.solid()) {
            (Room::Up, _) => Stretch {
                across: L::splat(1.0),
                up: volume,
            },
            (Room::Every, Solid::Prism) => {
                let each = volume.root();
                Stretch {
                    across: each,
                    up: each,
                }
            }
            (Room::Every, Solid::Round) => {
                let each = volume.each(|v| numerics::math::pow(v, 1.0 / 3.0));
                Stretch {
                    across: each,
                    up: each,
                }
            }
        };
    }
}

/// Free sugar at which the yeast works at half its rate, mol of hexose in a kilogram (from memory:
/// a few grams a kilogram).
const FED_HALF: f64 = 0.01;

/// Most of the air's pressure that vapour takes in a bubble before the bubble opens, 1: 75 °C at the
/// sea, where pores are read to open (71 to 81 °C).
const MOST_STEAM: f64 = 0.38;
