//! The outermost layer of a body: what it exchanges with the air, through a tin or bare.

use super::super::matter::Matter;
use super::super::surround::{Side, radiation};
use crate::physics::steam::LATENT_J_PER_KG;
use numerics::lane::Lane;

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
            dry: vec![L::splat(0.0); count],
        }
    }
}

/// What a side exchanges heat with.
pub(super) struct Field<'a, L> {
    pub(super) temperature: &'a [L],
    pub(super) resistivity: &'a [L],
    pub(super) heat: &'a [L],
    pub(super) flow: &'a mut [L],
    pub(super) gone: &'a mut L,
    pub(super) taken: &'a mut L,
}

/// Heat over one side; `stretched`: its area and its depth against the mesh.
pub(super) fn exchange<L: Lane>(
    rim: &mut Rim<L>,
    side: &Side<L>,
    matter: &Matter,
    stretched: (L, L),
    step: L,
    field: &mut Field<'_, L>,
) {
    let one = L::splat(1.0);
    let (area_times, depth_times) = stretched;
    let latent = L::splat(LATENT_J_PER_KG);
    for face in 0..rim.cells.len() {
        let (cell, _) = rim.cells[face];
        let temperature = field.temperature[cell];
        let area = L::splat(rim.areas[face]) * area_times;
        let resistance = L::splat(rim.halves[face]) * depth_times * field.resistivity[cell];
        let flow = if let Some(pan) = &side.pan {
            let radiates = radiation(side.emissivity, rim.pan[face], side.walls);
            let touches = one / (resistance + one / pan.touches);
            let keeps = pan.holds / step;
            let outside = side.film * side.air + radiates * side.walls;
            let wall = (keeps * rim.pan[face] + outside + touches * temperature)
                / (keeps + side.film + radiates + touches);
            rim.pan[face] = wall;
            let flow = touches * (wall - temperature);
            rim.surface[face] = temperature + flow * resistance;
            flow
        } else {
            let radiates = radiation(side.emissivity, rim.surface[face], side.walls);
            let dryness = ((field.heat[cell] - L::splat(matter.to_boiling))
                / L::splat(matter.latent.max(1.0)))
            .within(L::splat(0.0), one);
            let over = (rim.surface[face].along(&matter.vapour) - side.vapour).max(L::splat(0.0));
            let dries = side.dries * over * (one - dryness);
            let inside = one / resistance;
            let surface = (temperature * inside + side.film * side.air + radiates * side.walls
                - dries * latent)
                / (inside + side.film + radiates);
            rim.surface[face] = surface;
            *field.gone += dries * area * step;
            (surface - temperature) * inside
        };
        let heat = flow * area;
        field.flow[cell] += heat;
        *field.taken += heat * step;
    }
}

/// Behind a wall vapour has no way out: what boils off there goes one cell inward and condenses, and
/// takes its heat along. Gives back the water that has not left the body, kg.
pub(super) fn inward<L: Lane>(
    rim: &mut Rim<L>,
    mass: &[f64],
    heat: &mut [L],
    boils_at: L,
    full: L,
) -> L {
    let mut back = L::splat(0.0);
    for face in 0..rim.cells.len() {
        let (cell, behind) = rim.cells[face];
        let now = heat[cell].within(boils_at, full) - boils_at;
        let more = (now - rim.dry[face]).max(L::splat(0.0));
        rim.dry[face] = now;
        if behind != cell {
            heat[behind] += more * L::splat(mass[cell] / mass[behind]);
            back += more * L::splat(mass[cell] / LATENT_J_PER_KG);
        }
    }
    back
}
