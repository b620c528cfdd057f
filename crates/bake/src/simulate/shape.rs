//! The section of a body: how wide and high a dough lies in a bowl, on a tray, in a tin.
//!
//! Lengths are those of the dough without its gas; the body swells from there. Shapes of loose dough
//! are common practice: a bowl's dough a drum twice as wide as it is high, a round piece
//! 1.6 times as wide as high.

use super::Grid;
use super::body::Room;
use numerics::math::pow;
use numerics::quantity::{Length, Mass};
use numerics::section::{Mesh, Solid};
use recipe::document::model::{Product, Tin, TinSize};

/// A body's section and where it may grow.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// The section.
    pub mesh: Mesh,
    /// Where it may grow.
    pub room: Room,
    /// Height of the rim over the bottom, m; none without walls.
    pub rim_m: Option<f64>,
    /// Length that the section stands for, m: of a prism its length, of a round body 1.
    pub length_m: f64,
}

/// How a section is cut: cells across and up, and the thinnest of them, at a surface, as a share of the
/// way from there to the middle.
type Cut = (usize, usize, f64);

/// For what is baked: a crust is a few millimetres thick on a loaf and thinner on a bun.
const fn baked(grid: Grid) -> Cut {
    match grid {
        Grid::Rough => (5, 10, 0.05),
        Grid::Coarse => (7, 14, 0.035),
        Grid::Usual => (12, 24, 0.018),
        Grid::Fine => (24, 48, 0.009),
    }
}

/// For dough that rests: nothing in it is as steep as under a crust.
const fn at_rest(grid: Grid) -> Cut {
    match grid {
        Grid::Rough => (3, 6, 0.10),
        Grid::Coarse => (5, 10, 0.05),
        Grid::Usual => (8, 16, 0.03),
        Grid::Fine => (16, 32, 0.015),
    }
}

fn built(solid: Solid, across: f64, up: f64, cut: Cut) -> Option<Mesh> {
    let (columns, rows, part) = cut;
    Mesh::of(
        solid,
        Mesh::graded_to_end(across, columns, part * across),
        Mesh::graded_to_both(up, rows, part * 0.5 * up),
    )
}

/// Dough in a bowl: a drum as wide as it is high twice over, walls around it.
pub fn in_bowl(mass: Mass, density: f64, grid: Grid) -> Option<Shape> {
    let volume = mass.si() / density;
    let radius = pow(volume / std::f64::consts::PI, 1.0 / 3.0);
    Some(Shape {
        mesh: built(Solid::Round, radius, radius, at_rest(grid))?,
        room: Room::Up,
        rim_m: None,
        length_m: 1.0,
    })
}

/// A slab of a thickness as it lies now, `swollen` times its gas-free volume.
pub fn slab(mass: Mass, density: f64, thick: Length, swollen: f64, grid: Grid) -> Option<Shape> {
    let thick = thick.si() / swollen.max(1.0);
    let volume = mass.si() / density;
    let radius = (volume / (std::f64::consts::PI * thick)).sqrt();
    Some(Shape {
        mesh: built(Solid::Round, radius, thick, at_rest(grid))?,
        room: Room::Up,
        rim_m: None,
        length_m: 1.0,
    })
}

/// A loose round piece, its width 1.6 times its height.
pub fn round(mass: Mass, density: f64, grid: Grid) -> Option<Shape> {
    let volume = mass.si() / density;
    // V = pi r^2 h with r = 0.8 h.
    let height = pow(volume / (0.64 * std::f64::consts::PI), 1.0 / 3.0);
    Some(Shape {
        mesh: built(Solid::Round, 0.8 * height, height, baked(grid))?,
        room: Room::Every,
        rim_m: None,
        length_m: 1.0,
    })
}

/// A long loose piece, its section 1.6 times as wide as high.
fn long(mass: Mass, density: f64, length: f64, grid: Grid) -> Option<Shape> {
    let area = mass.si() / density / length;
    let height = (area / 1.6).sqrt();
    Some(Shape {
        mesh: built(Solid::Prism, 0.8 * height, height, baked(grid))?,
        room: Room::Every,
        rim_m: None,
        length_m: length,
    })
}

/// A piece in its tin.
fn in_tin(mass: Mass, density: f64, tin: &Tin, grid: Grid) -> Option<Shape> {
    let volume = mass.si() / density;
    match tin.size.value {
        TinSize::Round { diameter, height } => {
            let radius = 0.5 * diameter.si();
            let up = volume / (std::f64::consts::PI * radius * radius);
            Some(Shape {
                mesh: built(Solid::Round, radius, up, baked(grid))?,
                room: Room::Up,
                rim_m: Some(height.si()),
                length_m: 1.0,
            })
        }
        TinSize::Box {
            length,
            width,
            depth,
        } => {
            // Walls slope: the mean width is had from the water that the tin holds.
            let straight = length.si() * width.si() * depth.si();
            let holds = tin
                .holds
                .as_ref()
                .map_or(0.87 * straight, |holds| holds.value.si());
            let slope = (holds / straight).min(1.0).sqrt();
            let (length, width) = (length.si() * slope, width.si() * slope);
            let up = volume / (length * width);
            Some(Shape {
                mesh: built(Solid::Prism, 0.5 * width, up, baked(grid))?,
                room: Room::Up,
                rim_m: Some(depth.si()),
                length_m: length,
            })
        }
        TinSize::Tray { .. } => None,
    }
}

/// One piece of a product where it is baked.
///
/// A long or ring-shaped piece on a tray is told by its name; everything else on a tray is round. A
/// wreath is a ring of 22 cm across its middle, a long loaf 30 cm (common practice).
pub fn piece(product: &Product, mass: Mass, density: f64, grid: Grid) -> Option<Shape> {
    let flat = |size: &TinSize| matches!(size, TinSize::Tray { .. });
    if let Some(tin) = product.tin.as_ref().filter(|tin| !flat(&tin.size.value)) {
        return in_tin(mass, density, tin, grid);
    }
    let name = product.name.value.to_lowercase();
    let named = |words: &[&str]| words.iter().any(|word| name.contains(word));
    if mass.si() > 0.25 && named(&["wreath", "ring", "crown"]) {
        return long(mass, density, 0.22 * std::f64::consts::PI, grid);
    }
    if mass.si() > 0.25 && named(&["braid", "plait", "baguette", "stick", "batard"]) {
        return long(mass, density, 0.30, grid);
    }
    round(mass, density, grid)
}
