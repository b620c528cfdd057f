//! A body of dough moved on in time: heat through its section, gas in its bubbles, crust on its outside.
//!
//! One body serves for a rise in a bowl, a chill as a slab, a proof in a tin, the bake and the
//! cooling: only what stands around it changes. Heat goes along the rows and then along the columns
//! of its section, implicitly (locally one-dimensional splitting); a cell at boiling stands there
//! until its water has gone (see [`super::heat`]).

mod cells;
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
    /// Of each cell as it stands: temperature, °C; specific heat as the whole dough would have it, J/(kg K); one over it.
    celsius: Vec<L>,
    capacity: Vec<L>,
    per_capacity: Vec<L>,
    /// Share of each cell in the whole mass.
    parts: Vec<f64>,
    /// Lists of cells to work with: what they hold and conduct, and how what lives in them goes on.
    room_for: [Vec<L>; 6],
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
            celsius: vec![zero; cells],
            capacity: vec![one; cells],
            per_capacity: vec![one; cells],
            parts: Vec::new(),
            room_for: std::array::from_fn(|_| vec![zero; cells]),
            whole: vec![one; cells],
            lifts: vec![one; cells],
            scratch: Scratch::of(&mesh),
            works: vec![zero; cells],
            work: Work::default(),
            mesh,
        };
        body.parts = body.mass.iter().map(|mass| mass / body.all).collect();
        body.read(matter);
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
        self.read(matter);
        self.work.steps += 1;
        self.work.cell_steps += self.heat.len() as u64;
    }

    /// Reads what every cell is at its heat.
    fn read(&mut self, matter: &Matter) {
        let cells = self.heat.len();
        let (celsius, capacity) = (&mut self.celsius[..cells], &mut self.capacity[..cells]);
        let per_capacity = &mut self.per_capacity[..cells];
        for (cell, heat) in self.heat.iter().enumerate() {
            [celsius[cell], capacity[cell], per_capacity[cell]] =
                heat.along_all(&matter.heat.curves);
        }
    }

    /// What every cell is as it stands, as the rows list it, and what it conducts, listed both ways.
    fn look_up(&mut self, matter: &Matter) {
        let (across, up) = (self.mesh.cells_across(), self.mesh.cells_up());
        let [solid, bubble, holds, ..] = &mut self.room_for;
        let n = self.celsius.len();
        let (solid, bubble) = (&mut solid[..n], &mut bubble[..n]);
        for (cell, celsius) in self.celsius.iter().enumerate() {
            [solid[cell], bubble[cell]] = celsius.along_all(&matter.heat.conducts);
        }
        let stand = cells::Stand {
            heat: &self.heat,
            dried: &self.dried,
            capacity: &self.capacity,
            per_capacity: &self.per_capacity,
        };
        cells::hold(matter, stand, holds, &mut self.whole, &mut self.lifts);
        let by = cells::Conducts {
            solid,
            bubble,
            bubbles: &self.bubbles,
            without_water: &self.without_water,
        };
        let half = up / 2 * across;
        let (before, after) = (&mut self.upright.before, &mut self.upright.after);
        let (before_below, before_above) = before.split_at_mut(half);
        let (after_below, after_above) = after.split_at_mut(half);
        cells::resist(matter, stand, by, 0, (after_below, before_below));
        cells::resist(matter, stand, by, half, (before_above, after_above));
        for (row, cells) in (0..up).map(|row| (row, row * across..(row + 1) * across)) {
            for (column, cell) in cells.clone().enumerate() {
                let at = column * up + row;
                self.turned.temperature[at] = self.celsius[cell];
                self.turned.capacity[at] = holds[cell] * L::splat(self.mass[cell]);
                let both = (self.upright.before[cell], self.upright.after[cell]);
                let (outward, inward) = if row < up / 2 { both } else { (both.1, both.0) };
                self.turned.before[at] = inward;
                self.turned.after[at] = outward;
            }
        }
    }

    /// Books the heat of a sweep and the water that it boiled off; after the rows (`TURNED`) it looks up
    /// what the columns need.
    fn book<const TURNED: bool>(&mut self, matter: &Matter) {
        let (across, up) = (self.mesh.cells_across(), self.mesh.cells_up());
        let [flows, goes, ..] = &mut self.room_for;
        if TURNED {
            for row in 0..up {
                for column in 0..across {
                    flows[row * across + column] = self.heat_j[column * up + row];
                }
            }
        } else {
            std::mem::swap(flows, &mut self.heat_j);
        }
        let by = cells::Booked {
            per_mass: &self.per_mass,
            whole: &self.whole,
            lifts: &self.lifts,
        };
        cells::boil(matter, flows, by, &mut self.heat, &mut self.dried, goes);
        for (boiled, goes) in self.boiled.iter_mut().zip(&*goes) {
            *boiled += *goes;
        }
        let boiled = cells::sum(goes, &self.mass);
        if TURNED {
            self.read(matter);
            let [holds, ..] = &mut self.room_for;
            let stand = cells::Stand {
                heat: &self.heat,
                dried: &self.dried,
                capacity: &self.capacity,
                per_capacity: &self.per_capacity,
            };
            cells::hold(matter, stand, holds, &mut self.whole, &mut self.lifts);
            self.upright.temperature.copy_from_slice(&self.celsius);
            let capacity = self.upright.capacity.iter_mut().zip(&*holds);
            for ((capacity, holds), mass) in capacity.zip(&self.mass) {
                *capacity = *holds * L::splat(*mass);
            }
        }
        self.leaves(matter, boiled);
    }
}

/// One of the sides of a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Which {
    Bottom,
    Side,
    Top,
}
