//! The outermost layer of a body: what it exchanges with the air, through a tin or bare.

use super::super::matter::Matter;
use super::super::surround::{Side, radiation};
use crate::physics::steam::LATENT_J_PER_KG;
use numerics::lane::Lane;
use numerics::section::Rim as Ends;

/// The outermost layer of one side.
#[derive(Clone, Debug)]
pub(super) struct Rim<L> {
    /// Area of each face before swelling, m2.
    pub(super) areas: Vec<f64>,
    /// Half width of the cell behind it before swelling, m.
    pub(super) halves: Vec<f64>,
    /// The cell behind, and the one behind that.
    pub(super) cells: Vec<(usize, usize)>,
    pub(super) surface: Vec<L>,
    pub(super) pan: Vec<L>,
    pub(super) lightness: Vec<L>,
    /// What each face conducts to in this step.
    pub(super) ends: Vec<Ends<L>>,
    /// From the cell's middle to its face, m2 K/W.
    resistances: Vec<L>,
    /// Water that dries off each face, kg/s.
    drying: Vec<L>,
    /// How many times its area before swelling.
    scale: L,
    /// Dry share of the cell when it was last looked at, to see what boils off behind a wall.
    pub(super) dry: Vec<L>,
}

impl<L: Lane> Rim<L> {
    pub(super) fn of(faces: &[(f64, f64, usize, usize)], celsius: f64) -> Self {
        let count = faces.len();
        Self {
            areas: faces.iter().map(|face| face.0).collect(),
            halves: faces.iter().map(|face| face.1).collect(),
            cells: faces.iter().map(|face| (face.2, face.3)).collect(),
            surface: vec![L::splat(celsius); count],
            pan: vec![L::splat(celsius); count],
            lightness: vec![L::splat(crate::physics::crust::OF_DOUGH); count],
            ends: vec![
                Ends {
                    conductance: L::splat(0.0),
                    outside: L::splat(celsius)
                };
                count
            ],
            resistances: vec![L::splat(0.0); count],
            drying: vec![L::splat(0.0); count],
            scale: L::splat(1.0),
            dry: vec![L::splat(0.0); count],
        }
    }
}

/// What a side sees of the body behind it.
pub(super) struct Outside<'a, L> {
    pub(super) matter: &'a Matter,
    pub(super) step: L,
    pub(super) resistivity: &'a [L],
    pub(super) heat: &'a [L],
}

impl<L: Lane> Rim<L> {
    /// Works out what each face conducts to; `stretched`: its area and its depth against the mesh.
    pub(super) fn meet(&mut self, side: &Side<L>, body: &Outside<'_, L>, stretched: (L, L)) {
        let (zero, one) = (L::splat(0.0), L::splat(1.0));
        let (area_times, depth_times) = stretched;
        self.scale = area_times;
        let latent = L::splat(LATENT_J_PER_KG);
        for face in 0..self.cells.len() {
            let (cell, _) = self.cells[face];
            let area = L::splat(self.areas[face]) * area_times;
            let resistance = L::splat(self.halves[face]) * depth_times * body.resistivity[cell];
            let (conducts, outside) = if let Some(pan) = &side.pan {
                let radiates = radiation(side.emissivity, self.pan[face], side.walls);
                let touches = one / (resistance + one / pan.touches);
                let keeps = pan.holds / body.step;
                let free = keeps + side.film + radiates;
                let wall =
                    (keeps * self.pan[face] + side.film * side.air + radiates * side.walls) / free;
                (touches * free / (free + touches), wall)
            } else {
                let radiates = radiation(side.emissivity, self.surface[face], side.walls);
                let dryness = ((body.heat[cell] - L::splat(body.matter.to_boiling))
                    / L::splat(body.matter.latent.max(1.0)))
                .within(zero, one);
                let over = (self.surface[face].along(&body.matter.vapour) - side.vapour).max(zero);
                let dries = side.dries * over * (one - dryness);
                self.drying[face] = dries * area;
                let film = side.film + radiates;
                let outside = (side.film * side.air + radiates * side.walls - dries * latent)
                    / film.max(L::splat(1e-9));
                (film / (one + film * resistance), outside)
            };
            self.resistances[face] = resistance;
            self.ends[face] = Ends {
                conductance: conducts * area,
                outside,
            };
        }
    }

    /// After a sweep: heat that came in, J, and water that dried off, kg; surfaces and walls are
    /// where they are now.
    pub(super) fn part(&mut self, side: &Side<L>, temperature: &[L], step: L) -> (L, L) {
        let (mut taken, mut dried) = (L::splat(0.0), L::splat(0.0));
        for face in 0..self.cells.len() {
            let (cell, _) = self.cells[face];
            let end = self.ends[face];
            let heat = end.conductance * (end.outside - temperature[cell]);
            taken += heat * step;
            let area = L::splat(self.areas[face]);
            if let Some(pan) = &side.pan {
                // What flows into the dough flows through its touch.
                let flow = heat / (self.scale * area);
                let resistance = self.resistances[face];
                self.surface[face] = temperature[cell] + flow * resistance;
                self.pan[face] = self.surface[face] + flow / pan.touches;
            } else {
                let flow = heat / (self.scale * area);
                self.surface[face] = temperature[cell] + flow * self.resistances[face];
                dried += self.drying[face] * step;
            }
        }
        (taken, dried)
    }
}

/// Behind a wall vapour has no way out: what boils off there goes one cell inward and condenses, and
/// takes its heat along. `faces`: those that pass it on by this side. Gives back the water that has not
/// left the body, kg.
pub(super) fn inward<L: Lane>(
    rim: &mut Rim<L>,
    faces: usize,
    mass: &[f64],
    heat: &mut [L],
    ends: (L, L),
) -> L {
    let (boils_at, full) = ends;
    let mut back = L::splat(0.0);
    for face in 0..faces {
        let (cell, behind) = rim.cells[face];
        let now = heat[cell].within(boils_at, full) - boils_at;
        let more = (now - rim.dry[face]).max(L::splat(0.0));
        rim.dry[face] = now;
        if behind != cell {
            let before = heat[behind];
            let after = before + more * L::splat(mass[cell] / mass[behind]);
            heat[behind] = after;
            // What boils there in its turn has left; it counts with that cell.
            let boiled = after.within(boils_at, full) - before.within(boils_at, full);
            back += (more * L::splat(mass[cell]) - boiled * L::splat(mass[behind]))
                * L::splat(1.0 / LATENT_J_PER_KG);
        }
    }
    back
}
