//! The outermost layer of a body: what it exchanges with the air, through a tin or bare.

use super::super::matter::Matter;
use super::super::surround::{Side, radiation};
use crate::physics::crust;
use crate::physics::steam::LATENT_J_PER_KG;
use numerics::lane::Lane;
use numerics::lines::End;
use numerics::section::Mesh;

/// Water after whose loss a skin of dough has closed, kg/m2: that of the outermost eighth of a
/// millimetre (ours; nothing read decides it).
const SKIN_WATER_KG_PER_M2: f64 = 0.05;

/// The outermost layer of one side; its faces in the order of the lines that end in them.
#[derive(Clone, Debug)]
pub(super) struct Rim<L> {
    /// Area of each face before swelling, m2.
    pub(super) areas: Vec<f64>,
    /// Half width of the cell behind it before swelling, m.
    halves: Vec<f64>,
    /// The cell behind, and the one behind that.
    pub(super) cells: Vec<(usize, usize)>,
    pub(super) surface: Vec<L>,
    pub(super) pan: Vec<L>,
    pub(super) lightness: Vec<L>,
    /// What each face conducts to in this step.
    pub(super) ends: Vec<End<L>>,
    /// Latent heat of the water that dries off each face in this step, J.
    pub(super) drying: Vec<L>,
    /// Latent heat of what has dried off each face so far, J/m2: a skin forms and lets less through.
    skin: Vec<L>,
    /// From the cell's middle to its face, m2 K/W.
    resistances: Vec<L>,
    /// How many times its area before swelling.
    scale: L,
}

/// Bottom, side and top of a section.
pub(super) fn around<L: Lane>(mesh: &Mesh, celsius: f64) -> (Rim<L>, Rim<L>, Rim<L>) {
    let (across, up) = (mesh.cells_across(), mesh.cells_up());
    let half = |edges: &[f64], cell: usize| 0.5 * (edges[cell + 1] - edges[cell]);
    let level = |row: usize, next: usize| {
        let faces = (0..across).map(|column| Face {
            area: mesh.base_m2(column),
            half: half(mesh.up_m(), row),
            cells: (mesh.place(column, row), mesh.place(column, next)),
        });
        Rim::of(faces, celsius)
    };
    let last = across - 1;
    let side = (0..up).map(|row| Face {
        area: mesh.side_m2(row),
        half: half(mesh.across_m(), last),
        cells: (
            mesh.place(last, row),
            mesh.place(last.saturating_sub(1), row),
        ),
    });
    (
        level(0, usize::from(up > 1)),
        Rim::of(side, celsius),
        level(up - 1, (up - 1).saturating_sub(1)),
    )
}

struct Face {
    area: f64,
    half: f64,
    cells: (usize, usize),
}

/// What a side sees of the body behind it: by face, and by cell.
pub(super) struct Behind<'a, L> {
    pub(super) matter: &'a Matter,
    pub(super) step: L,
    pub(super) resistivity: &'a [L],
    pub(super) dried: &'a [L],
    pub(super) per_mass: &'a [f64],
}

impl<L: Lane> Rim<L> {
    fn of(faces: impl Iterator<Item = Face>, celsius: f64) -> Self {
        let faces: Vec<Face> = faces.collect();
        let count = faces.len();
        let (zero, at) = (L::splat(0.0), L::splat(celsius));
        Self {
            areas: faces.iter().map(|face| face.area).collect(),
            halves: faces.iter().map(|face| face.half).collect(),
            cells: faces.iter().map(|face| face.cells).collect(),
            surface: vec![at; count],
            pan: vec![at; count],
            lightness: vec![L::splat(crust::OF_DOUGH); count],
            ends: vec![End::shut(); count],
            drying: vec![zero; count],
            skin: vec![zero; count],
            resistances: vec![zero; count],
            scale: L::splat(1.0),
        }
    }

    /// Works out what each face conducts to; `stretched`: its area and its depth against the mesh.
    pub(super) fn meet(&mut self, side: &Side<L>, body: &Behind<'_, L>, stretched: (L, L)) {
        let (zero, one) = (L::splat(0.0), L::splat(1.0));
        let (area_times, depth_times) = stretched;
        self.scale = area_times;
        let latent = L::splat(LATENT_J_PER_KG);
        let all_water = L::splat(body.matter.heat.latent);
        let per_skin = L::splat(1.0 / (SKIN_WATER_KG_PER_M2 * LATENT_J_PER_KG));
        for face in 0..self.cells.len() {
            let (cell, _) = self.cells[face];
            let area = L::splat(self.areas[face]) * area_times;
            let resistance = L::splat(self.halves[face]) * depth_times * body.resistivity[face];
            let (conducts, outside) = if let Some(pan) = &side.pan {
                let radiates = radiation(side.emissivity, self.pan[face], side.walls);
                let touches = one / (resistance + one / pan.touches);
                let keeps = pan.holds / body.step;
                let free = keeps + side.film + radiates;
                let wall =
                    (keeps * self.pan[face] + side.film * side.air + radiates * side.walls) / free;
                self.drying[face] = zero;
                (touches * free / (free + touches), wall)
            } else if side.dries.is_nought() {
                // Covered: nothing dries.
                let radiates = radiation(side.emissivity, self.surface[face], side.walls);
                let film = side.film + radiates;
                self.drying[face] = zero;
                (
                    film / (one + film * resistance),
                    (side.film * side.air + radiates * side.walls) / film.max(L::splat(1e-9)),
                )
            } else {
                let surface = self.surface[face];
                let radiates = radiation(side.emissivity, surface, side.walls);
                let left = (all_water - body.dried[cell]).max(zero);
                let over = (surface.along(&body.matter.vapour) - side.vapour).max(zero);
                // No more than there is: J in this step.
                let most = left / L::splat(body.per_mass[cell]);
                let open = (one - self.skin[face] * per_skin).max(zero);
                let dries = (side.dries * over * open * latent * area * body.step).min(most);
                let each = dries / area;
                self.drying[face] = dries;
                self.skin[face] += each;
                let film = side.film + radiates;
                let outside = (side.film * side.air + radiates * side.walls - each / body.step)
                    / film.max(L::splat(1e-9));
                (film / (one + film * resistance), outside)
            };
            self.resistances[face] = resistance;
            self.ends[face] = End {
                conductance: conducts * area,
                outside,
            };
        }
    }

    /// After a sweep: heat that came in, J; surfaces and walls are where they are now.
    pub(super) fn part(&mut self, side: &Side<L>, temperature: &[L], step: L) -> L {
        let mut taken = L::splat(0.0);
        for (face, celsius) in temperature.iter().enumerate() {
            let end = self.ends[face];
            let heat = end.conductance * (end.outside - *celsius);
            taken += heat * step;
            let flow = heat / (self.scale * L::splat(self.areas[face]));
            self.surface[face] = *celsius + flow * self.resistances[face];
            if let Some(pan) = &side.pan {
                // What flows into the dough flows through its touch.
                self.pan[face] = self.surface[face] + flow / pan.touches;
            }
        }
        taken
    }
}
