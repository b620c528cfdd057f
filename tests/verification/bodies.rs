//! A body of dough against reference bakes and against its own account of energy and water.
//!
//! Reference bakes: an independent explicit code on 100 even cells with the constants of Purlis and
//! Salvadori's moving-boundary model as quoted second-hand (a comparison of two codes, not with bread).

use bake::simulate::Anchor;
use bake::simulate::body::{Body, Room};
use bake::simulate::matter::Matter;
use bake::simulate::surround::{Pan, Side, Surround};
use numerics::quantity::{Pressure, Temperature};
use numerics::section::{Mesh, Solid};
use xtask::validation::fronts::{BAKES, Neumann, baked, front, front_error, holds};

#[test]
fn two_codes_agree_on_reference_bakes() {
    for of in &BAKES {
        let found = baked(of, 64, 0.3e-3, 1.0);
        for (found, wanted) in found.minutes.iter().zip(of.other.minutes) {
            assert!(
                (found / wanted - 1.0).abs() < 0.01,
                "{}: {found:.2} min, {wanted}",
                of.name
            );
        }
        for (found, wanted) in found.lost.iter().zip(of.other.lost) {
            assert!(
                (found - wanted).abs() < 0.2,
                "{}: {found:.2} % lost, {wanted}",
                of.name
            );
        }
    }
}

/// Growth 0.151299; the front at 300, 600, 1200 and 1800 s in mm and 10 mm deep in °C, worked out elsewhere.
#[test]
fn neumanns_front_is_where_it_was_worked_out() {
    for (seconds, depth_mm, celsius) in [
        (300.0, 3.782, 77.256),
        (600.0, 5.349, 87.548),
        (1200.0, 7.565, 95.302),
        (1800.0, 9.265, 98.835),
    ] {
        let exact = Neumann::new();
        assert!((exact.front_m(seconds) * 1e3 - depth_mm).abs() < 6e-4);
        assert!((exact.behind(0.010, seconds) - celsius).abs() < 6e-4);
    }
}

/// The error of the front, as the root of the mean square over 25 min (at each single moment the front
/// stands within a cell); time steps fall with the square of the cells. Wanted is order 1 or more.
#[test]
fn the_front_comes_to_neumanns_with_the_cells() {
    let mut errors = Vec::new();
    for cells in [48_u16, 96, 192] {
        errors.push(front_error(
            usize::from(cells),
            4608.0 / f64::from(cells * cells),
        ));
    }
    let order = |at: usize| libm::log2(errors[at] / errors[at + 1]);
    let (first, second) = (order(0), order(1));
    println!("front, 48, 96, 192 cells: off by {errors:.6?} m, orders {first:.2}, {second:.2}");
    assert!(first > 1.0 && second > 1.0, "{first:.2}, {second:.2}");
    let (depth, celsius) = front(192, 0.5, &[1800.0])[0];
    let exact = Neumann::new();
    assert!((depth - exact.front_m(1800.0)).abs() < 1e-4, "{depth}");
    assert!(
        (celsius - exact.behind(0.010, 1800.0)).abs() < 0.5,
        "{celsius}"
    );
}

/// Heat taken in, less heat that went into warmth and vapour, as a share of what was taken.
fn open_account(around: &Surround<f64>, times: u32, step_s: f64) -> f64 {
    let matter = Matter::of(holds(), Pressure::from_si(101_325.0), Anchor::default());
    let mesh = Mesh::of(
        Solid::Prism,
        Mesh::graded_to_end(0.05, 12, 0.7e-3),
        Mesh::graded_to_both(0.05, 24, 0.7e-3),
    )
    .expect("edges rise");
    let mut body: Body<f64> = Body::new(mesh, Room::Up, &matter, Temperature::from_celsius(25.0));
    let before = body.stored(&matter);
    for _ in 0..times {
        body.warm(&matter, around, step_s);
    }
    let given_off = body.given_off() / body.gone() - 1.0;
    assert!(
        given_off.abs() < 1e-9,
        "water lost is vapour out: {given_off:.2e}"
    );
    let went = body.stored(&matter) - before + body.carried_off();
    (body.taken() - went) / body.taken().abs().max(1.0)
}

#[test]
fn a_whole_bake_accounts_for_its_energy() {
    let oven = Side::still(200.0, 15.0, 0.9);
    let bare = Surround {
        bottom: oven,
        side: oven,
        top: oven,
    };
    let left = open_account(&bare, 960, 2.5);
    assert!(left.abs() < 1e-3, "bare: {left:.2e}");
    let tin = oven.through(Pan {
        holds: 2430.0,
        touches: 200.0,
    });
    let in_tin = Surround {
        bottom: tin,
        side: tin,
        top: oven,
    };
    let left = open_account(&in_tin, 960, 2.5);
    assert!(left.abs() < 1e-3, "in a tin: {left:.2e}");
}

#[test]
fn an_insulated_body_keeps_its_energy() {
    let matter = Matter::of(holds(), Pressure::from_si(101_325.0), Anchor::default());
    let mesh = Mesh::of(
        Solid::Round,
        Mesh::graded_to_end(0.06, 12, 1e-3),
        Mesh::graded_to_both(0.06, 24, 1e-3),
    )
    .expect("edges rise");
    let mut body: Body<f64> = Body::new(mesh, Room::Up, &matter, Temperature::from_celsius(25.0));
    // First made uneven, then shut in.
    let warm = Side::still(60.0, 20.0, 0.9);
    let around = Surround {
        bottom: warm,
        side: warm,
        top: warm,
    };
    for _ in 0..60 {
        body.warm(&matter, &around, 10.0);
    }
    let before = body.stored(&matter);
    let idle = Side::still(25.0, 0.0, 0.0);
    let shut = Surround {
        bottom: idle,
        side: idle,
        top: idle,
    };
    for _ in 0..360 {
        body.warm(&matter, &shut, 10.0);
    }
    let drift = body.stored(&matter) / before - 1.0;
    assert!(drift.abs() < 1e-10, "{drift:.2e}");
    let even = body.hottest(&matter) - body.coldest(&matter);
    assert!(even < 8.0, "heat still moves inward: {even}");
}
