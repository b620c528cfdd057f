//! Lines about the numbers themselves: exact series, another code's bakes, the exact front.

use super::fronts::{BAKES, Neumann, baked, front, front_error};
use super::rows::{Kind, Row, lines};
use super::solids::{SHAPES, exact, found};

/// All of them.
pub fn numbers() -> Vec<Row> {
    let mut rows = Vec::new();
    let mut table = lines(
        &mut rows,
        Kind::Verification,
        "full series, Incropera and others, chapter 5",
        ("", 5, 5e-4),
    );
    for shape in SHAPES {
        for biot in [0.1, 1.0, 10.0] {
            table.one(
                format!("middle of a {}, Bi {biot}, Fo 0.5, 20 cells", shape.name()),
                exact(shape, biot, 0.5),
                found(shape, biot, 0.5, 20, 4000),
            );
        }
    }
    let mut table = lines(
        &mut rows,
        Kind::Verification,
        "order wanted of a smooth problem: 2",
        ("", 2, 0.1),
    );
    for shape in SHAPES {
        let error = |cells: usize| {
            let found = found(shape, 1.0, 0.5, cells, 10 * cells * cells);
            (found - exact(shape, 1.0, 0.5)).abs()
        };
        let order = libm::log2(error(10) / error(20));
        table.one(
            format!("order from 10 to 20 cells, {}, Bi 1", shape.name()),
            2.0,
            order,
        );
    }
    for of in &BAKES {
        let found = baked(of, 64, 0.3e-3, 1.0);
        let mut table = lines(
            &mut rows,
            Kind::Verification,
            "an explicit code on 100 even cells (worked out)",
            ("min", 2, 0.01),
        );
        for (at, celsius) in [90, 93, 95, 98].into_iter().enumerate() {
            // One per cent of the time.
            table.good_to = 0.01 * of.other.minutes[at];
            table.one(
                format!("{}: middle at {celsius} °C", of.name),
                of.other.minutes[at],
                found.minutes[at],
            );
        }
        (table.unit, table.good_to) = ("%", 0.2);
        for (at, minute) in [20, 30, 40].into_iter().enumerate() {
            table.one(
                format!("{}: lost at {minute} min", of.name),
                of.other.lost[at],
                found.lost[at],
            );
        }
    }
    front_lines(&mut rows);
    rows
}

fn front_lines(rows: &mut Vec<Row>) {
    let exact = Neumann::new();
    let mut table = lines(
        rows,
        Kind::Verification,
        "Neumann's two phases, exact",
        ("mm", 3, 0.1),
    );
    let times = [300.0, 600.0, 1200.0, 1800.0];
    let found = front(192, 0.5, &times);
    for (time, (depth, _)) in times.iter().zip(&found) {
        table.one(
            format!("front of evaporation after {time} s, 192 cells of 0.5 mm"),
            1e3 * exact.front_m(*time),
            1e3 * depth,
        );
    }
    (table.unit, table.good_to) = ("°C", 0.5);
    for (time, (_, celsius)) in times.iter().zip(&found) {
        table.one(
            format!("10 mm deep after {time} s"),
            exact.behind(0.010, *time),
            *celsius,
        );
    }
    // Time steps fall with the square of the cells; at one number of cells the error depends on where in a
    // cell the front stands, so two halvings are taken together.
    let (coarse, fine) = (front_error(48, 2.0), front_error(192, 0.125));
    let mut table = lines(
        rows,
        Kind::Verification,
        "order wanted with a front: 1 or more",
        // More is no miss; less than 1 is caught by the test of the front itself.
        ("", 2, 1.0),
    );
    table.one(
        "order of the front from 48 to 192 cells",
        1.0,
        0.5 * libm::log2(coarse / fine),
    );
}
