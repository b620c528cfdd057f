//! Heat through a section against exact series: slab, cylinder, brick, at Biot numbers 0.1, 1 and 10.
//!
//! Values: full series (Incropera and others, Fundamentals of Heat and Mass Transfer, chapter 5: roots
//! of z tan z = Bi and z J1/J0 = Bi), summed anew here with J0 and J1 by their own power series.

use numerics::lane::{Eight, Lane};
use numerics::section::{Faces, Line, Mesh, Rim, Solid, Stretch};

/// A body of unit properties with a film on its outer sides, from 1 toward 0: temperature of the
/// middle at a Fourier number.
fn middle<L: Lane>(
    solid: Solid,
    biot: f64,
    fourier: f64,
    cells: usize,
    steps: usize,
    both: bool,
) -> f64 {
    let rows = if both { cells } else { 1 };
    let up = if both {
        // A square section seen whole: from face to face.
        (0..=2 * rows)
            .map(|edge| 2.0 * edge as f64 / (2 * rows) as f64)
            .collect()
    } else {
        vec![0.0, 1.0]
    };
    let mesh = Mesh::of(solid, Mesh::graded_to_end(1.0, cells, 0.0), up).expect("edges rise");
    let faces = Faces::of(&mesh);
    let count = mesh.cells();
    let one = L::splat(1.0);
    let mut temperature = vec![one; count];
    let mut heat = vec![one; count];
    let volumes: Vec<f64> = (0..mesh.cells_up())
        .flat_map(|row| (0..mesh.cells_across()).map(move |column| (column, row)))
        .map(|(column, row)| mesh.volume_m3(column, row))
        .collect();
    let capacity: Vec<L> = volumes.iter().map(|volume| L::splat(*volume)).collect();
    let resistivity = vec![one; count];
    let mut heat_j = vec![L::splat(0.0); count];
    let mut scratch = vec![[L::splat(0.0); 3]; mesh.cells_across().max(mesh.cells_up())];
    let film = |area: f64, half: f64| Rim {
        conductance: L::splat(area / (half + 1.0 / biot)),
        outside: L::splat(0.0),
    };
    let none = Rim {
        conductance: L::splat(0.0),
        outside: L::splat(0.0),
    };
    let half = 0.5 / cells as f64;
    let side: Vec<_> = (0..mesh.cells_up())
        .map(|row| film(mesh.side_m2(row), half))
        .collect();
    let ends: Vec<_> = (0..mesh.cells_across())
        .map(|column| {
            if both {
                film(mesh.base_m2(column), half)
            } else {
                none
            }
        })
        .collect();
    let each_s = fourier / steps as f64;
    for _ in 0..steps {
        for rows in [true, false] {
            heat_j.fill(L::splat(0.0));
            let mut line = Line {
                step_s: L::splat(each_s),
                stretch: Stretch::none(),
                temperature: &mut temperature,
                capacity: &capacity,
                resistivity: &resistivity,
                heat_j: &mut heat_j,
                scratch: &mut scratch,
            };
            if rows {
                faces.along_rows(&mut line, &side);
            } else {
                faces.along_columns(&mut line, &ends, &ends);
            }
            for (cell, volume) in volumes.iter().enumerate() {
                heat[cell] += heat_j[cell] / L::splat(*volume);
                temperature[cell] = heat[cell];
            }
        }
    }
    let row = mesh.cells_up() / 2;
    // Straight to the axis: the two innermost cells, level across the middle.
    let at = |column: usize| {
        let below = mesh.place(column, row.saturating_sub(usize::from(both)));
        0.5 * (temperature[mesh.place(column, row)].lane(0) + temperature[below].lane(0))
    };
    let (first, second) = (at(0), at(1));
    // T = a + b x^2 through the middles of both cells.
    let h = 1.0 / cells as f64;
    first - (second - first) * (0.25 * h * h) / ((2.25 - 0.25) * h * h)
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

/// The root of a function between two ends, by halving.
fn root(low: f64, high: f64, function: impl Fn(f64) -> f64) -> f64 {
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
            let from = f64::from(n) * std::f64::consts::PI;
            let z = root(
                from + 1e-12,
                from + std::f64::consts::FRAC_PI_2 - 1e-12,
                |z| z * libm::sin(z) - biot * libm::cos(z),
            );
            let c = 4.0 * libm::sin(z) / (2.0 * z + libm::sin(2.0 * z));
            c * libm::exp(-z * z * fourier)
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
            c * libm::exp(-z * z * fourier)
        })
        .sum()
}

#[test]
fn the_series_give_the_printed_values() {
    // Printed: one-term constants and full series, Bi 1, Fo 0.5: 0.772526 and 0.548586.
    assert!((slab(1.0, 0.5) - 0.772_526).abs() < 1e-5);
    assert!((cylinder(1.0, 0.5) - 0.548_586).abs() < 1e-5);
    assert!((slab(10.0, 0.2) - 0.829_255).abs() < 1e-5);
    assert!((cylinder(10.0, 0.2) - 0.600_232).abs() < 1e-5);
}

#[test]
fn slab_cylinder_and_brick_follow_their_series() {
    for biot in [0.1, 1.0, 10.0] {
        for fourier in [0.2, 0.5, 1.0] {
            let cases = [
                ("slab", Solid::Prism, false, slab(biot, fourier)),
                ("cylinder", Solid::Round, false, cylinder(biot, fourier)),
                (
                    "square bar",
                    Solid::Prism,
                    true,
                    slab(biot, fourier) * slab(biot, fourier),
                ),
                (
                    "short cylinder",
                    Solid::Round,
                    true,
                    cylinder(biot, fourier) * slab(biot, fourier),
                ),
            ];
            for (name, solid, both, exact) in cases {
                let found = middle::<f64>(solid, biot, fourier, 20, 800, both);
                assert!(
                    (found - exact).abs() < 1.5e-3,
                    "{name} Bi {biot} Fo {fourier}: {found:.5}, exact {exact:.5}"
                );
            }
        }
    }
}

#[test]
fn the_error_falls_with_the_square_of_the_cells() {
    let exact = slab(1.0, 0.5);
    let error =
        |cells, steps| (middle::<f64>(Solid::Prism, 1.0, 0.5, cells, steps, false) - exact).abs();
    // Time steps fall with the square of the cells, so that both errors fall alike.
    let (coarse, fine) = (error(8, 500), error(16, 2000));
    let order = libm::log2(coarse / fine);
    assert!(order > 1.8, "order {order:.2}: {coarse:.2e}, {fine:.2e}");
}

#[test]
fn eight_in_single_precision_follow_one_in_double() {
    let double = middle::<f64>(Solid::Round, 1.0, 0.5, 24, 500, true);
    let eight = middle::<Eight>(Solid::Round, 1.0, 0.5, 24, 500, true);
    assert!((double - eight).abs() < 2e-5, "{double} {eight}");
}
