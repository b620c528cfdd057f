//! Heat through a section against exact series, slab to brick, at Biot numbers 0.1, 1 and 10, and how
//! the error falls with the cells.

use xtask::validation::solids::{SHAPES, Shape, exact, found, found_by_eight};

#[test]
fn the_series_give_the_printed_values() {
    // Printed: full series at the middle.
    for (shape, biot, fourier, printed) in [
        (Shape::Slab, 1.0, 0.5, 0.772_526),
        (Shape::Cylinder, 1.0, 0.5, 0.548_586),
        (Shape::Sphere, 1.0, 0.5, 0.370_777),
        (Shape::Slab, 10.0, 0.2, 0.829_255),
        (Shape::Cylinder, 10.0, 0.2, 0.600_232),
        (Shape::Sphere, 10.0, 0.2, 0.382_664),
        (Shape::Sphere, 2.0, 0.5, 0.188_932),
    ] {
        let ours = exact(shape, biot, fourier);
        assert!((ours - printed).abs() < 2e-6, "{shape:?}: {ours}");
    }
}

#[test]
fn every_solid_follows_its_series() {
    for shape in SHAPES {
        for biot in [0.1, 1.0, 10.0] {
            for fourier in [0.2, 0.5, 1.0] {
                let exact = exact(shape, biot, fourier);
                let found = found(shape, biot, fourier, 20, 800);
                assert!(
                    (found - exact).abs() < 1.5e-3,
                    "{} Bi {biot} Fo {fourier}: {found:.5}, exact {exact:.5}",
                    shape.name()
                );
            }
        }
    }
}

/// Time steps fall with the square of the cells, so that both errors fall alike.
#[test]
fn the_error_falls_with_the_square_of_the_cells() {
    for shape in SHAPES {
        for biot in [0.1, 1.0, 10.0] {
            let exact = exact(shape, biot, 0.5);
            let mut errors = Vec::new();
            for cells in [5, 10, 20] {
                let found = found(shape, biot, 0.5, cells, 10 * cells * cells);
                errors.push((found - exact).abs());
            }
            let order = libm::log2(errors[1] / errors[2]);
            println!(
                "{}, Bi {biot}: 5, 10, 20 cells {:.1e} {:.1e} {:.1e}, order {order:.2}",
                shape.name(),
                errors[0],
                errors[1],
                errors[2]
            );
            assert!(order > 1.8, "{shape:?} Bi {biot}: order {order:.2}");
        }
    }
}

#[test]
fn eight_in_single_precision_follow_one_in_double() {
    let double = found(Shape::ShortCylinder, 1.0, 0.5, 24, 500);
    let eight = found_by_eight(Shape::ShortCylinder, 1.0, 0.5, 24, 500);
    assert!((double - eight).abs() < 2e-5, "{double} {eight}");
}
