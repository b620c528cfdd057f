//! A body of dough moved on in time: heat through its section, gas in its bubbles, crust on its outside.
//!
//! One body serves for a rise in a bowl, a chill as a slab, a proof in a tin, the bake and the
//! cooling: only what stands around it changes. Heat goes along the rows and then along the columns
//! of its section, implicitly (locally one-dimensional splitting); a cell at boiling stands there
//! until its water has gone (see [`super::heat`]).

mod life;
mod look;
mod rim;
mod vapour;

use super::Work;
use super::matter::Matter;
use super::surround::Surround;
use numerics::lane::Lane;
use numerics::lines::{Flow, Lines, Scratch};
use numerics::quantity::Temperature;
use numerics::section::{Mesh, Stretch};
use rim::Rim;

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
    outward: Lines,
    upward: Lines,
    room: Room,
    /// Mass of each cell, kg (of a prism: one metre of half the section), and one over it.
    mass: Vec<f64>,
    per_mass: Vec<f64>,
    all: f64,
    /// Heat from 0 °C as the whole dough would hold it, J/kg.
    heat: Vec<L>,
    /// Latent heat of the water that each cell has given off, J/kg; below 0 where vapour has settled.
    dried: Vec<L>,
    /// Of it, what boiled off in this step.
    boiled: Vec<L>,
    /// Yeast alive in each cell, 1.
    alive: Vec<L>,
    /// Starch swollen in each cell, 1.
    set: Vec<L>,
    /// Volume of each cell against its gas-free volume.
    swollen: Vec<L>,
    /// Of it, the share that is bubbles, and one over what it conducts without water, m K/W.
    bubbles: Vec<L>,
    without_water: Vec<L>,
    /// Carbon dioxide kept, mol/kg.
    kept: L,
    /// Carbon dioxide made, mol/kg.
    made: L,
    /// Yeast cells against those that went in.
    grown: L,
    /// How long the yeast has been at work, s.
    age: L,
    /// Water gone, kg, of the whole section.
    gone: L,
    /// Heat that it took along, J, what dried off the skin only as the liquid would have held it.
    carried_off: L,
    /// Heat taken in from outside, J, of the whole section.
    taken: L,
    stretch: Stretch<L>,
    bottom: Rim<L>,
    side: Rim<L>,
    top: Rim<L>,
    /// As the columns are listed: cell by cell of the mesh.
    upright: Listed<L>,
    /// As the rows are listed: from the middle outward, each upward.
    turned: Listed<L>,
    heat_j: Vec<L>,
    /// Specific heat of a cell against that of the whole dough, and what a joule adds to its heat as
    /// the whole dough would hold it.
    whole: Vec<L>,
    lifts: Vec<L>,
    scratch: Scratch<L>,
    works: Vec<L>,
    /// Counted, not timed.
    pub work: Work,
}

/// What the lines of a direction need of each cell.
#[derive(Clone, Debug)]
struct Listed<L> {
    temperature: Vec<L>,
    capacity: Vec<L>,
    /// One over conductivity, m K/W, in the half of a cell before its middle and in the one behind.
    before: Vec<L>,
    after: Vec<L>,
}

impl<L: Lane> Listed<L> {
    fn of(cells: usize, celsius: f64) -> Self {
        Self {
            temperature: vec![L::splat(celsius); cells],
            capacity: vec![L::splat(1.0); cells],
            before: vec![L::splat(1.0); cells],
            after: vec![L::splat(1.0); cells],
        }
    }
}

/// How near boiling, J/kg below, a cell with water in it is taken to stand still in a step.
const NEAR_BOILING: f64 = 500.0;

/// What a cell that stands still takes for a kelvin, J/K in a kilogram: as good as no end.
const STANDS_STILL: f64 = 1e7;

/// Least part of a boiling cell that heat still has to pass on either side of its middle, so that no
/// resistance is nothing.
const LEAST_LEFT: f64 = 0.02;

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
        let cells = mesh.cells();
        let celsius = at.celsius();
        let (zero, one) = (L::splat(0.0), L::splat(1.0));
        let fresh = L::splat(1.0 / (1.0 - matter.beaten_in));
        let (bottom, side, top) = rim::around(&mesh, celsius);
        let mut body = Self {
            outward: Lines::across(&mesh),
            upward: Lines::up(&mesh),
            room,
            all: mass.iter().sum(),
            per_mass: mass.iter().map(|mass| 1.0 / mass).collect(),
            mass,
            heat: vec![L::splat(matter.heat.at(at)); cells],
            dried: vec![zero; cells],
            boiled: vec![zero; cells],
            alive: vec![one; cells],
            set: vec![zero; cells],
            swollen: vec![fresh; cells],
            bubbles: vec![zero; cells],
            without_water: vec![one; cells],
            kept: zero,
            made: zero,
            grown: one,
            age: zero,
            gone: zero,
            carried_off: zero,
            taken: zero,
            stretch: Stretch::none(),
            bottom,
            side,
            top,
            upright: Listed::of(cells, celsius),
            turned: Listed::of(cells, celsius),
            heat_j: vec![zero; cells],
            whole: vec![one; cells],
            lifts: vec![one; cells],
            scratch: Scratch::of(&mesh),
            works: vec![zero; cells],
            work: Work::default(),
            mesh,
        };
        body.stretch_out(matter);
        body
    }

    /// Moves heat on by one step, s: along the rows, then along the columns.
    pub fn warm(&mut self, matter: &Matter, around: &Surround<L>, step_s: f64) {
        let step = L::splat(step_s);
        let solid = self.mesh.solid();
        let (base, side) = (self.stretch.base(solid), self.stretch.side(solid));
        let (across, up) = (self.mesh.cells_across(), self.mesh.cells_up());
        let (outmost, topmost) = ((across - 1) * up, (up - 1) * across);
        self.boiled.fill(L::splat(0.0));

        self.look_up(matter);
        self.side.meet(
            &around.side,
            &rim::Behind {
                matter,
                step,
                resistivity: &self.turned.after[outmost..],
                dried: &self.dried,
                per_mass: &self.per_mass,
            },
            (side, self.stretch.across),
        );
        self.outward.step(
            step,
            self.stretch.outward(solid),
            &mut Flow {
                temperature: &mut self.turned.temperature,
                capacity: &self.turned.capacity,
                before: &self.turned.before,
                after: &self.turned.after,
                heat_j: &mut self.heat_j,
                scratch: &mut self.scratch,
            },
            None,
            &self.side.ends,
        );
        let left = self
            .side
            .part(&around.side, &self.turned.temperature[outmost..], step);
        self.taken += left;
        self.dry_off(matter, Which::Side);
        self.book::<true>(matter);

        let halves = (
            &self.upright.before[..across],
            &self.upright.after[topmost..],
        );
        for (rim, around, resistivity) in [
            (&mut self.bottom, &around.bottom, halves.0),
            (&mut self.top, &around.top, halves.1),
        ] {
            rim.meet(
                around,
                &rim::Behind {
                    matter,
                    step,
                    resistivity,
                    dried: &self.dried,
                    per_mass: &self.per_mass,
                },
                (base, self.stretch.up),
            );
        }
        self.upward.step(
            step,
            self.stretch.upward(solid),
            &mut Flow {
                temperature: &mut self.upright.temperature,
                capacity: &self.upright.capacity,
                before: &self.upright.before,
                after: &self.upright.after,
                heat_j: &mut self.heat_j,
                scratch: &mut self.scratch,
            },
            Some(&self.bottom.ends),
            &self.top.ends,
        );
        for (rim, around, from) in [
            (&mut self.bottom, &around.bottom, 0),
            (&mut self.top, &around.top, topmost),
        ] {
            self.taken += rim.part(around, &self.upright.temperature[from..from + across], step);
        }
        self.dry_off(matter, Which::Bottom);
        self.dry_off(matter, Which::Top);
        self.book::<false>(matter);
        self.settle(matter, around);
        self.work.steps += 1;
        self.work.cell_steps += self.heat.len() as u64;
    }

    /// What every cell is at its heat, as the rows list it, and what it conducts, listed both ways. In a
    /// cell that boils the dry part lies outward of its boiling middle and the wet part inward,
    /// however much of it there is of each.
    fn look_up(&mut self, matter: &Matter) {
        let (across, up) = (self.mesh.cells_across(), self.mesh.cells_up());
        let (zero, one, two) = (L::splat(0.0), L::splat(1.0), L::splat(2.0));
        let per_latent = L::splat(1.0 / matter.heat.latent.max(1.0));
        let near = L::splat(matter.heat.to_boiling - NEAR_BOILING);
        let least = L::splat(LEAST_LEFT);
        let at_heat = AtHeat::of(matter);
        for row in 0..up {
            for column in 0..across {
                let cell = row * across + column;
                let at = column * up + row;
                let heat = self.heat[cell];
                let seen = at_heat.see(matter, heat, self.dried[cell]);
                self.turned.temperature[at] = seen.celsius;
                self.turned.capacity[at] = seen.capacity * L::splat(self.mass[cell]);
                self.whole[cell] = seen.whole;
                self.lifts[cell] = seen.lifts;
                let [solid, bubble] = seen.celsius.along_all(&matter.heat.conducts);
                let twice = two * solid + bubble;
                let less = (solid - bubble) * self.bubbles[cell];
                let wet = (twice + less) / (solid * (twice - two * less));
                let without = self.without_water[cell];
                let dryness = (self.dried[cell] * per_latent).within(zero, one);
                let mixed = wet + (without - wet) * dryness;
                let boils = heat.if_at_least(near, one, zero);
                let boils = dryness.if_at_least(one, zero, boils);
                let outer = two * dryness.max(least) * without;
                let inner = two * (one - dryness).max(least) * wet;
                let outer = mixed + (outer - mixed) * boils;
                let inner = mixed + (inner - mixed) * boils;
                (self.turned.before[at], self.turned.after[at]) = (inner, outer);
                (self.upright.before[cell], self.upright.after[cell]) = if row < up / 2 {
                    (outer, inner)
                } else {
                    (inner, outer)
                };
            }
        }
    }

    /// Books the heat of a sweep and the water that it boiled off; after the rows (`TURNED`) it looks up
    /// what the columns need.
    fn book<const TURNED: bool>(&mut self, matter: &Matter) {
        let (across, up) = (self.mesh.cells_across(), self.mesh.cells_up());
        let boils_at = L::splat(matter.heat.to_boiling);
        let latent = L::splat(matter.heat.latent);
        let zero = L::splat(0.0);
        let at_heat = AtHeat::of(matter);
        let mut boiled = zero;
        for row in 0..up {
            for column in 0..across {
                let cell = row * across + column;
                let at = if TURNED { column * up + row } else { cell };
                let lift = self.lifts[cell];
                let heat = self.heat[cell] + self.heat_j[at] * L::splat(self.per_mass[cell]) * lift;
                let over = (heat - boils_at).max(zero) * self.whole[cell];
                let dried = self.dried[cell];
                let goes = over.min((latent - dried).max(zero));
                let (heat, dried) = (heat - goes * lift, dried + goes);
                self.heat[cell] = heat;
                self.dried[cell] = dried;
                self.boiled[cell] += goes;
                boiled += goes * L::splat(self.mass[cell]);
                if TURNED {
                    let seen = at_heat.see(matter, heat, dried);
                    self.upright.temperature[cell] = seen.celsius;
                    self.upright.capacity[cell] = seen.capacity * L::splat(self.mass[cell]);
                    self.whole[cell] = seen.whole;
                    self.lifts[cell] = seen.lifts;
                }
            }
        }
        self.leaves(matter, boiled);
    }
}

/// What a step reads off a cell's heat, its limits worked out once.
struct AtHeat<L> {
    near_boiling: L,
    all_water: L,
    water: L,
}

/// What a cell is at its heat.
struct Seen<L> {
    celsius: L,
    /// J/(kg K).
    capacity: L,
    /// Specific heat against that of the whole dough, and one over it.
    whole: L,
    lifts: L,
}

impl<L: Lane> AtHeat<L> {
    fn of(matter: &Matter) -> Self {
        Self {
            near_boiling: L::splat(matter.heat.to_boiling - NEAR_BOILING),
            all_water: L::splat(matter.heat.latent * (1.0 - 1e-6)),
            water: L::splat(matter.heat.water_per_latent),
        }
    }

    #[inline]
    fn see(&self, matter: &Matter, heat: L, dried: L) -> Seen<L> {
        let (zero, one) = (L::splat(0.0), L::splat(1.0));
        let [celsius, capacity, per_capacity] = heat.along_all(&matter.heat.curves);
        if dried.is_nought() {
            // Most cells: nothing has dried, so they hold what the whole dough holds.
            let stands = heat.if_at_least(self.near_boiling, L::splat(STANDS_STILL), zero);
            return Seen {
                celsius,
                capacity: capacity + stands,
                whole: one,
                lifts: one,
            };
        }
        let whole = one - dried * self.water * per_capacity;
        let hot = heat.if_at_least(self.near_boiling, L::splat(STANDS_STILL), zero);
        let stands = dried.if_at_least(self.all_water, zero, hot);
        Seen {
            celsius,
            capacity: capacity * whole + stands,
            whole,
            lifts: one / whole,
        }
    }
}

/// One of the sides of a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Which {
    Bottom,
    Side,
    Top,
}
