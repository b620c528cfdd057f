//! What can be read off a body: temperatures, volume, colour, what it has lost.

use super::super::matter::Matter;
use super::rim::Rim;
use super::{Body, Room, cells};
use numerics::lane::Lane;
use numerics::quantity::{Mass, Temperature};
use numerics::section::{Mesh, Stretch};

/// A body at a glance: temperatures in °C, volume against the gas-free dough, shares of 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glance<L> {
    /// Middle.
    pub middle: L,
    /// Mean by mass.
    pub mean: L,
    /// Coldest cell.
    pub coldest: L,
    /// Volume.
    pub volume: L,
    /// Yeast alive.
    pub alive: L,
    /// Starch swollen.
    pub set: L,
}

impl<L: Lane> Body<L> {
    /// Volume against the gas-free dough.
    pub fn volume(&self) -> L {
        cells::sum(&self.swollen, &self.parts)
    }

    /// Mean of a list of cells by mass.
    fn mean(&self, of: impl Fn(usize) -> L) -> L {
        let mut sum = L::splat(0.0);
        for (cell, mass) in self.mass.iter().enumerate() {
            sum += of(cell) * L::splat(*mass);
        }
        sum * L::splat(1.0 / self.all)
    }

    /// All that is looked at between steps, each cell read once.
    pub fn glance(&self, matter: &Matter) -> Glance<L> {
        Glance {
            middle: self.middle(matter),
            mean: cells::sum(&self.celsius, &self.parts),
            coldest: self.coldest(matter),
            volume: self.volume(),
            alive: self.alive(),
            set: self.set(),
        }
    }

    /// Mean temperature by mass, °C.
    pub fn mean_celsius(&self, _: &Matter) -> L {
        cells::sum(&self.celsius, &self.parts)
    }

    /// Temperature of a cell, °C.
    pub fn cell_celsius(&self, _: &Matter, cell: usize) -> L {
        self.celsius[cell]
    }

    /// The coldest cell, °C.
    pub fn coldest(&self, matter: &Matter) -> L {
        let first = self.cell_celsius(matter, 0);
        (1..self.heat.len()).fold(first, |least, cell| {
            least.min(self.cell_celsius(matter, cell))
        })
    }

    /// The hottest cell, °C.
    pub fn hottest(&self, matter: &Matter) -> L {
        let first = self.cell_celsius(matter, 0);
        (1..self.heat.len()).fold(first, |most, cell| {
            most.max(self.cell_celsius(matter, cell))
        })
    }

    /// The middle, °C: the coldest cell while it warms and the hottest while it cools is near it.
    pub fn middle(&self, matter: &Matter) -> L {
        let row = self.mesh.cells_up() / 2;
        let (below, above) = (
            self.mesh.place(0, row.saturating_sub(1)),
            self.mesh.place(0, row),
        );
        (self.cell_celsius(matter, below) + self.cell_celsius(matter, above)) * L::splat(0.5)
    }

    /// Mean by mass of what lies no deeper than so many metres under any side, °C.
    pub fn outer(&self, matter: &Matter, depth_m: f64) -> L {
        let (across, up) = (self.mesh.across_m(), self.mesh.up_m());
        let (width, height) = (across[across.len() - 1], up[up.len() - 1]);
        let depth = L::splat(depth_m);
        let (mut sum, mut all) = (L::splat(0.0), L::splat(0.0));
        for row in 0..self.mesh.cells_up() {
            let above = 0.5 * (up[row] + up[row + 1]);
            let level = L::splat(above.min(height - above)) * self.stretch.up;
            for column in 0..self.mesh.cells_across() {
                let out = width - 0.5 * (across[column] + across[column + 1]);
                let deep = level.min(L::splat(out) * self.stretch.across);
                let cell = self.mesh.place(column, row);
                let mass = deep.if_at_least(depth, L::splat(0.0), L::splat(self.mass[cell]));
                sum += mass * self.cell_celsius(matter, cell);
                all += mass;
            }
        }
        sum / all.max(L::splat(1e-12))
    }

    /// Skin or crust above, °C: the mean over the top by area.
    pub fn outside(&self) -> L {
        over(&self.top, |rim, face| rim.surface[face])
    }

    /// What it stands on, or its underside where it is bare, °C: the mean by area.
    pub fn underside(&self) -> L {
        over(&self.bottom, |rim, face| rim.pan[face])
    }

    /// Lightness of the crust above, L*.
    pub fn lightness(&self) -> L {
        over(&self.top, |rim, face| rim.lightness[face])
    }

    /// Share of yeast alive.
    pub fn alive(&self) -> L {
        cells::sum(&self.alive, &self.parts)
    }

    /// Share of starch swollen.
    pub fn set(&self) -> L {
        cells::sum(&self.set, &self.parts)
    }

    /// Carbon dioxide made, mol/kg.
    pub fn made(&self) -> L {
        self.made
    }

    /// Share of its raw mass gone as vapour.
    pub fn gone(&self) -> L {
        self.gone * L::splat(1.0 / self.all)
    }

    /// Water that its cells have given off, as a share of its raw mass: what is gone, counted
    /// where it went from.
    pub fn given_off(&self) -> L {
        self.mean(|cell| self.dried[cell]) * L::splat(1.0 / crate::physics::steam::LATENT_J_PER_KG)
    }

    /// Heat that vapour has carried off, J, beyond what the air took to dry the skin.
    pub fn carried_off(&self) -> L {
        self.carried_off
    }

    /// Heat that came in from outside, J (of a prism: one metre of half the section).
    pub fn taken(&self) -> L {
        self.taken
    }

    /// Heat in it, J, from 0 °C, in dough and liquid water.
    pub fn stored(&self, matter: &Matter) -> L {
        let water = L::splat(matter.heat.water_per_latent);
        self.mean(|cell| {
            self.heat[cell] - self.dried[cell] * water * self.cell_celsius(matter, cell)
        }) * L::splat(self.all)
    }

    /// Mass of the section, kg (of a prism: one metre of half the section).
    pub fn section_mass(&self) -> Mass {
        Mass::from_si(self.all)
    }

    /// How high it stands over its bottom, m.
    pub fn height_m(&self) -> L {
        let edges = self.mesh.up_m();
        L::splat(edges[edges.len() - 1]) * self.stretch.up
    }

    /// How long its yeast has been at work, s.
    pub fn age(&self) -> L {
        self.age
    }

    /// Yeast cells against those that went in.
    pub fn grown(&self) -> L {
        self.grown
    }

    /// Yeast that has been at work before it came into this dough: how long, s, and how many times as
    /// many cells it is now.
    pub fn aged(&mut self, seconds: f64, grown: f64) {
        self.age = L::splat(seconds);
        self.grown = L::splat(grown);
    }

    /// Its mesh, as it lies before swelling.
    pub fn mesh(&self) -> &Mesh {
        &self.mesh
    }

    /// How far it is swollen.
    pub fn stretch(&self) -> Stretch<L> {
        self.stretch
    }

    /// Dry share of a cell.
    pub fn dry(&self, matter: &Matter, cell: usize) -> L {
        (self.dried[cell] * L::splat(1.0 / matter.heat.latent.max(1.0)))
            .within(L::splat(0.0), L::splat(1.0))
    }

    /// The same dough in another shape at its mean temperature: gas, age and yeast go along.
    #[must_use]
    pub fn reshaped(&self, mesh: Mesh, room: Room, matter: &Matter) -> Self {
        let mut other = Self::new(mesh, room, matter, Temperature::from_celsius(20.0));
        let heat = self.mean(|cell| self.heat[cell]);
        let alive = self.alive();
        other.heat.fill(heat);
        other.read(matter);
        other.alive.fill(alive);
        (other.kept, other.made, other.age) = (self.kept, self.made, self.age);
        other.grown = self.grown;
        let [celsius, ..] = heat.along_all(&matter.heat.curves);
        for rim in [&mut other.bottom, &mut other.side, &mut other.top] {
            rim.surface.fill(celsius);
            rim.pan.fill(celsius);
        }
        other.work = self.work;
        other.live(matter, 0.0);
        other
    }
}

fn over<L: Lane>(rim: &Rim<L>, of: impl Fn(&Rim<L>, usize) -> L) -> L {
    let mut sum = L::splat(0.0);
    let mut area = 0.0;
    for (face, one) in rim.areas.iter().enumerate() {
        sum += of(rim, face) * L::splat(*one);
        area += one;
    }
    sum * L::splat(1.0 / area)
}
