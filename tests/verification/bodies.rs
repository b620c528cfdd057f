//! A body of dough against reference bakes and against its own account of energy and water.
//!
//! Reference bakes: an independent explicit code on 100 even cells with the constants of Purlis and
//! Salvadori's moving-boundary model as quoted second-hand (a comparison of two codes, not with bread).

use bake::physics::proximate::Proximate;
use bake::simulate::Anchor;
use bake::simulate::body::{Body, Room};
use bake::simulate::matter::{Holds, Matter, capacity_over};
use bake::simulate::surround::{Pan, Side, Surround};
use numerics::lane::Curve;
use numerics::quantity::{Pressure, Temperature};
use numerics::section::{Mesh, Solid};
use recipe::larder::YeastForm;

const LATENT: f64 = 2.2565e6;

fn holds() -> Holds {
    Holds {
        made_of: Proximate {
            water: 0.65 / 1.65,
            carbohydrate: 1.0 / 1.65,
            ..Proximate::default()
        },
        milk_fat: 0.0,
        flour: 0.6,
        sugar: 0.0,
        yeast: 0.0,
        form: YeastForm::Fresh,
        woken: false,
        power: 0.0,
        protein: 0.12,
    }
}

/// Constant properties: 1.0392e6 and 3.84e5 J/(m3 K), 3.521e8 J/m3, k by the published fit.
fn reference() -> Matter {
    let mut matter = Matter::of(holds(), Pressure::from_si(101_325.0), Anchor::default());
    let density = 240.0 * 1.65;
    let (wet, dry, latent) = (1.0392e6 / density, 3.84e5 / density, 3.521e8 / density);
    let boiling = 100.0 * wet;
    let (cold, top) = (-20.0 * wet, boiling + latent + 200.0 * dry);
    matter.density = density;
    matter.beaten_in = 0.0;
    matter.boils = 100.0;
    matter.to_boiling = boiling;
    matter.latent = latent;
    matter.heat = Curve::of(-20.0, 100.0, 480, |t| t * wet);
    matter.temperature = Curve::of(cold, top, 4096, |joules| {
        if joules <= boiling {
            joules / wet
        } else if joules <= boiling + latent {
            100.0
        } else {
            100.0 + (joules - boiling - latent) / dry
        }
    });
    matter.capacity = capacity_over(&matter.temperature, (cold, top), (boiling, latent));
    let fit = |t: f64| 0.2 + 0.9 / (1.0 + libm::exp(-0.1 * (t.min(100.0) - 80.0)));
    matter.solid = Curve::of(-20.0, 110.0, 520, fit);
    matter.bubble = Curve::of(-20.0, 110.0, 520, fit);
    matter.dry = 0.2;
    matter
}

/// A long cylinder of 35 mm radius in an oven of 180 °C: minutes to 90, 93, 95, 98 °C in the middle and
/// per cent lost at 20, 30, 40 min.
fn cylinder(film: f64) -> ([f64; 4], [f64; 3]) {
    let matter = reference();
    let across = Mesh::graded_to_end(0.035, 64, 0.3e-3);
    let mesh = Mesh::of(Solid::Round, across, vec![0.0, 0.05]).expect("edges rise");
    let mut body: Body<f64> = Body::new(mesh, Room::Up, &matter, Temperature::from_celsius(28.0));
    let idle = Side::still(28.0, 0.0, 0.0);
    let around = Surround {
        bottom: idle,
        side: Side::still(180.0, film, 0.9),
        top: idle,
    };
    let (mut minutes, mut lost) = ([0.0; 4], [0.0; 3]);
    for step in 1..=2400 {
        body.warm(&matter, &around, 1.0);
        let now = f64::from(step) / 60.0;
        for (mark, line) in minutes.iter_mut().zip([90.0, 93.0, 95.0, 98.0]) {
            if *mark == 0.0 && body.cell_celsius(&matter, 0) >= line {
                *mark = now;
            }
        }
        for (share, at) in lost.iter_mut().zip([1200, 1800, 2400]) {
            if step == at {
                *share = 100.0 * body.gone();
            }
        }
    }
    (minutes, lost)
}

#[test]
fn two_codes_agree_on_reference_bakes() {
    let cases = [
        (
            "A, film 8",
            8.0,
            [15.33, 16.55, 17.70, 20.75],
            [5.47, 10.29, 14.35],
        ),
        (
            "B, film 20",
            20.0,
            [13.72, 14.86, 15.93, 18.76],
            [9.35, 14.43, 18.46],
        ),
    ];
    for (name, film, minutes, lost) in cases {
        let (found, gone) = cylinder(film);
        for (found, wanted) in found.iter().zip(minutes) {
            assert!(
                (found / wanted - 1.0).abs() < 0.01,
                "{name}: {found:.2} min, {wanted}"
            );
        }
        for (found, wanted) in gone.iter().zip(lost) {
            assert!(
                (found - wanted).abs() < 0.2,
                "{name}: {found:.2} % lost, {wanted}"
            );
        }
    }
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
    let vapour = body.gone() * body.section_mass().si() - body.dried_kg();
    let went = body.stored(&matter) - before + vapour * LATENT;
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
