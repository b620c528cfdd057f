//! Simple solids that warm in a film: exact series, and the same solid through the section of the simulator.
//!
//! The series are the full ones of any textbook of heat transfer (Incropera and others, Fundamentals
//! of Heat and Mass Transfer, chapter 5): slab z tan z = Bi, cylinder z J1/J0 = Bi, sphere
//! 1 - z cot z = Bi, with J0 and J1 by their own power series. A bar is slab times slab, a short
//! cylinder is cylinder times slab, a brick is slab times slab times slab.

use libm::{cos, exp, sin};
use numerics::lane::{Eight, Lane};
use numerics::lines::{End, Flow, Lines, Scratch};
use numerics::section::{Mesh, Solid};
use std::f64::consts::{FRAC_PI_2, PI};

/// A solid of half thickness or radius 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// A wide slab, both faces in the film.
    Slab,
    /// A long cylinder.
    Cylinder,
    /// A ball, as shells.
    Sphere,
    /// A long square bar: a section in two directions.
    Bar,
    /// A cylinder as high as it is wide: a section in two directions.
    ShortCylinder,
    /// A cube: the bar's section times the slab's.
    Brick,
}

/// All of them.
pub const SHAPES: [Shape; 6] = [
    Shape::Slab,
    Shape::Cylinder,
    Shape::Sphere,
    Shape::Bar,
    Shape::ShortCylinder,
    Shape::Brick,
];

impl Shape {
    /// In words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Slab => "slab",
            Self::Cylinder => "long cylinder",
            Self::Sphere => "sphere",
            Self::Bar => "square bar",
            Self::ShortCylinder => "short cylinder",
            Self::Brick => "brick",
        }
    }
}

/// The exact temperature of the middle, from 1 toward 0, at a Biot and a Fourier number of 0.2 and more.
pub fn exact(shape: Shape, biot: f64, fourier: f64) -> f64 {
    let slab = || slab(biot, fourier);
    match shape {
        Shape::Slab => slab(),
        Shape::Cylinder => cylinder(biot, fourier),
        Shape::Sphere => sphere(biot, fourier),
        Shape::Bar => slab() * slab(),
        Shape::ShortCylinder => cylinder(biot, fourier) * slab(),
        Shape::Brick => slab() * slab() * slab(),
    }
}

/// The same by the section's finite volumes in double precision, in even cells and steps.
pub fn found(shape: Shape, biot: f64, fourier: f64, cells: usize, steps: usize) -> f64 {
    run::<f64>(shape, biot, fourier, cells, steps)
}

/// The same by eight side by side in single precision: the first of them.
pub fn found_by_eight(shape: Shape, biot: f64, fourier: f64, cells: usize, steps: usize) -> f64 {
    run::<Eight>(shape, biot, fourier, cells, steps)
}

fn run<L: Lane>(shape: Shape, biot: f64, fourier: f64, cells: usize, steps: usize) -> f64 {
    match shape {
        Shape::Slab => middle::<L>(Solid::Prism, biot, fourier, cells, steps, false),
        Shape::Cylinder => middle::<L>(Solid::Round, biot, fourier, cells, steps, false),
        Shape::Sphere => ball::<L>(biot, fourier, cells, steps),
        Shape::Bar => middle::<L>(Solid::Prism, biot, fourier, cells, steps, true),
        Shape::ShortCylinder => middle::<L>(Solid::Round, biot, fourier, cells, steps, true),
        Shape::Brick => {
            run::<L>(Shape::Bar, biot, fourier, cells, steps)
                * run::<L>(Shape::Slab, biot, fourier, cells, steps)
        }
    }
}

fn middle<L: Lane>(
    solid: Solid,
    biot: f64,
    fourier: f64,
    cells: usize,
    steps: usize,
    both: bool,
) -> f64 {
    let up = if both {
        // A section seen whole: from face to face.
        (0..=2 * cells)
            .map(|edge| 2.0 * edge as f64 / (2 * cells) as f64)
            .collect()
    } else {
        vec![0.0, 1.0]
    };
    let mesh = Mesh::of(solid, Mesh::graded_to_end(1.0, cells, 0.0), up).expect("edges rise");
    let volumes: Vec<f64> = (0..mesh.cells_up())
        .flat_map(|row| (0..mesh.cells_across()).map(move |column| (column, row)))
        .map(|(column, row)| mesh.volume_m3(column, row))
        .collect();
    let temperature = cooled::<L>(&mesh, &volumes, biot, fourier, steps, both);
    let row = mesh.cells_up() / 2;
    // Straight to the axis: the two innermost cells, level across the middle.
    let at = |column: usize| {
        let below = mesh.place(column, row.saturating_sub(usize::from(both)));
        0.5 * (temperature[mesh.place(column, row)] + temperature[below])
    };
    // T = a + b x^2 through the middles of both cells.
    at(0) - (at(1) - at(0)) * 0.25 / (2.25 - 0.25)
}

fn ball<L: Lane>(biot: f64, fourier: f64, cells: usize, steps: usize) -> f64 {
    let radii = Mesh::graded_to_end(1.0, cells, 0.0);
    let mesh = shells(&radii);
    let volumes = shell_volumes(&radii);
    let temperature = cooled::<L>(&mesh, &volumes, biot, fourier, steps, false);
    // T = a + b r^2.
    let (first, second) = (mean_square(&radii, 0), mean_square(&radii, 1));
    let slope = (temperature[1] - temperature[0]) / (second - first);
    temperature[0] - slope * first
}

/// A ball as a prism whose lengths are the resistances between its shells, for 1 m2 of its surface:
/// exact for a temperature that rises with the square of the radius, as it does in a ball warmed evenly.
///
/// Through a radius r flows what the difference of two shells' means drives over a resistance of
/// R^2 (m' - m) / (2 r^3), m being the mean of r^2 over a shell. From the surface inward each half
/// width is what is left of it.
///
/// # Panics
/// When the radii do not rise.
pub fn shells(radii: &[f64]) -> Mesh {
    let surface = radii[radii.len() - 1];
    let square = surface * surface;
    let last = radii.len() - 2;
    let mut half = square * (square - mean_square(radii, last)) / (2.0 * surface.powi(3));
    let mut widths = vec![2.0 * half];
    for cell in (0..last).rev() {
        let between = mean_square(radii, cell + 1) - mean_square(radii, cell);
        half = square * between / (2.0 * radii[cell + 1].powi(3)) - half;
        widths.push(2.0 * half);
    }
    let mut edges = vec![0.0];
    let mut at = 0.0;
    for width in widths.iter().rev() {
        at += width;
        edges.push(at);
    }
    Mesh::of(Solid::Prism, edges, vec![0.0, 1.0]).expect("edges rise")
}

/// Mean of the square of the radius over a shell.
fn mean_square(radii: &[f64], cell: usize) -> f64 {
    let (inner, outer) = (radii[cell], radii[cell + 1]);
    0.6 * (outer.powi(5) - inner.powi(5)) / (outer.powi(3) - inner.powi(3))
}

/// Volumes of those shells behind 1 m2 of the surface, m3.
pub fn shell_volumes(radii: &[f64]) -> Vec<f64> {
    let surface = radii[radii.len() - 1];
    radii
        .windows(2)
        .map(|pair| (pair[1].powi(3) - pair[0].powi(3)) / (3.0 * surface * surface))
        .collect()
}

/// Unit properties, from 1 toward 0 outside, after a Fourier number: every cell's temperature.
fn cooled<L: Lane>(
    mesh: &Mesh,
    volumes: &[f64],
    biot: f64,
    fourier: f64,
    steps: usize,
    both: bool,
) -> Vec<f64> {
    let (columns, rows) = (mesh.cells_across(), mesh.cells_up());
    let count = mesh.cells();
    let one = L::splat(1.0);
    let mut temperature = vec![one; count];
    let mut listed = vec![one; count];
    let mut capacity = vec![one; count];
    let resistivity = vec![one; count];
    let mut heat_j = vec![L::splat(0.0); count];
    let mut scratch = Scratch::of(mesh);
    let film = |area: f64, half: f64| End {
        conductance: L::splat(area / (half + 1.0 / biot)),
        outside: L::splat(0.0),
    };
    let last_half = |edges: &[f64]| 0.5 * (edges[edges.len() - 1] - edges[edges.len() - 2]);
    let side: Vec<_> = (0..rows)
        .map(|row| film(mesh.side_m2(row), last_half(mesh.across_m())))
        .collect();
    let ends: Vec<_> = (0..columns)
        .map(|column| {
            if both {
                film(mesh.base_m2(column), last_half(mesh.up_m()))
            } else {
                End::shut()
            }
        })
        .collect();
    let (outward, upward) = (Lines::across(mesh), Lines::up(mesh));
    let each_s = L::splat(fourier / steps as f64);
    for _ in 0..steps {
        for sideways in [true, false] {
            // The rows are listed from the middle outward, each upward.
            let at = |cell: usize| {
                if sideways {
                    cell % columns * rows + cell / columns
                } else {
                    cell
                }
            };
            for cell in 0..count {
                listed[at(cell)] = temperature[cell];
                capacity[at(cell)] = L::splat(volumes[cell]);
            }
            let mut flow = Flow {
                temperature: &mut listed,
                capacity: &capacity,
                before: &resistivity,
                after: &resistivity,
                heat_j: &mut heat_j,
                scratch: &mut scratch,
            };
            if sideways {
                outward.step(each_s, one, &mut flow, None, &side);
            } else {
                upward.step(each_s, one, &mut flow, Some(&ends), &ends);
            }
            for (cell, volume) in volumes.iter().enumerate() {
                temperature[cell] += heat_j[at(cell)] / L::splat(*volume);
            }
        }
    }
    temperature.iter().map(|one| one.lane(0)).collect()
}

/// The root of a function between two ends, by halving.
pub fn root(low: f64, high: f64, function: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (low, high);
    let sign = function(low);
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if function(middle) * sign > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

fn slab(biot: f64, fourier: f64) -> f64 {
    (0..12)
        .map(|n| {
            let from = f64::from(n) * PI;
            let z = root(from + 1e-12, from + FRAC_PI_2 - 1e-12, |z| {
                z * sin(z) - biot * cos(z)
            });
            let c = 4.0 * sin(z) / (2.0 * z + sin(2.0 * z));
            c * exp(-z * z * fourier)
        })
        .sum()
}

fn cylinder(biot: f64, fourier: f64) -> f64 {
    // Zeros of J1 bound the roots.
    let bounds = [1e-9, 3.831_706, 7.015_587, 10.173_468, 13.323_692];
    bounds
        .windows(2)
        .map(|pair| {
            let z = root(pair[0], pair[1], |z| z * bessel(1, z) - biot * bessel(0, z));
            let (j0, j1) = (bessel(0, z), bessel(1, z));
            let c = 2.0 / z * j1 / (j0 * j0 + j1 * j1);
            c * exp(-z * z * fourier)
        })
        .sum()
}

fn sphere(biot: f64, fourier: f64) -> f64 {
    (0..12)
        .map(|n| {
            let from = f64::from(n) * PI;
            let z = root(from + 1e-9, from + PI - 1e-9, |z| {
                (1.0 - biot) * sin(z) - z * cos(z)
            });
            let c = 4.0 * (sin(z) - z * cos(z)) / (2.0 * z - sin(2.0 * z));
            c * exp(-z * z * fourier)
        })
        .sum()
}

fn bessel(order: u32, x: f64) -> f64 {
    let mut term = if order == 0 { 1.0 } else { 0.5 * x };
    let mut sum = term;
    for k in 1..60 {
        term *= -0.25 * x * x / (f64::from(k) * f64::from(k + order));
        sum += term;
    }
    sum
}
