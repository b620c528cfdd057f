//! Eight kitchens side by side in single precision, held against one in double precision from the same text.

use bake::physics::proximate::Proximate;
use bake::simulate::Anchor;
use bake::simulate::body::{Body, Room};
use bake::simulate::matter::{Holds, Matter};
use bake::simulate::surround::{Pan, Side, Surround};
use numerics::lane::{Eight, Lane};
use numerics::quantity::{Pressure, Temperature};
use numerics::section::{Mesh, Solid};
use recipe::larder::YeastForm;

const OVENS: [f64; 8] = [150.0, 165.0, 175.0, 180.0, 190.0, 200.0, 220.0, 240.0];

fn matter() -> Matter {
    let holds = Holds {
        made_of: Proximate {
            water: 0.42,
            protein: 0.08,
            fat: 0.06,
            carbohydrate: 0.42,
            fibre: 0.01,
            salt: 0.01,
            ..Proximate::default()
        },
        milk_fat: 0.04,
        flour: 0.55,
        sugar: 0.05,
        yeast: 0.012,
        form: YeastForm::Instant,
        woken: false,
        power: 1.0,
        protein: 0.12,
    };
    Matter::of(holds, Pressure::from_si(101_325.0), Anchor::default())
}

fn mesh() -> Mesh {
    Mesh::of(
        Solid::Prism,
        Mesh::graded_to_end(0.05, 6, 1.2e-3),
        Mesh::graded_to_both(0.06, 12, 1.2e-3),
    )
    .expect("edges rise")
}

/// A tin with its top bare, in an oven of such air.
fn oven<L: Lane>(air: L) -> Surround<L> {
    let mut top = Side::still(0.0, 6.5, 0.9);
    top.air = air;
    top.walls = air;
    top.dries = L::splat(4e-9);
    top.vapour = L::splat(3000.0);
    let mut walls = top.through(Pan {
        holds: L::splat(1845.0),
        touches: L::splat(200.0),
    });
    walls.dries = L::splat(0.0);
    Surround {
        bottom: walls,
        side: walls,
        top,
    }
}

/// A proof of a quarter of an hour and a bake of twenty minutes.
fn baked<L: Lane>(air: L, matter: &Matter) -> Body<L> {
    let mut body = Body::new(mesh(), Room::Up, matter, Temperature::from_celsius(25.0));
    let room = oven(L::splat(27.0));
    for _ in 0..15 {
        for _ in 0..4 {
            body.warm(matter, &room, 15.0);
        }
        body.live(matter, 60.0);
    }
    let around = oven(air);
    for _ in 0..240 {
        for _ in 0..2 {
            body.warm(matter, &around, 2.5);
        }
        body.live(matter, 5.0);
    }
    body
}

fn eight() -> Eight {
    (0..8).fold(Eight::splat(0.0), |all, at| all.with_lane(at, OVENS[at]))
}

/// Stated error of single precision over proof and bake: 0.05 K in any cell, 1e-4 of the mass lost, 1e-3
/// of the volume, 0.05 L*.
#[test]
fn single_precision_stays_within_its_error() {
    let matter = matter();
    let together = baked(eight(), &matter);
    let (mut heat, mut lost, mut volume, mut light) = (0.0_f64, 0.0_f64, 0.0_f64, 0.0_f64);
    for (at, air) in OVENS.iter().enumerate() {
        let alone: Body<f64> = baked(*air, &matter);
        for cell in 0..mesh().cells() {
            let off =
                together.cell_celsius(&matter, cell).lane(at) - alone.cell_celsius(&matter, cell);
            heat = heat.max(off.abs());
        }
        lost = lost.max((together.gone().lane(at) - alone.gone()).abs());
        volume = volume.max((together.volume().lane(at) - alone.volume()).abs());
        light = light.max((together.lightness().lane(at) - alone.lightness()).abs());
    }
    println!("{heat:.1e} K, {lost:.1e} of the mass, {volume:.1e} of the volume, {light:.1e} L*");
    assert!(heat < 0.05, "{heat} K");
    assert!(lost < 1e-4, "{lost}");
    assert!(volume < 1e-3, "{volume}");
    assert!(light < 0.05, "{light}");
}

#[test]
fn a_lane_alone_has_the_bits_of_the_same_lane_among_others() {
    let matter = matter();
    let together = baked(eight(), &matter);
    for at in [0, 3, 7] {
        let alone = baked(Eight::splat(OVENS[at]), &matter);
        for cell in 0..mesh().cells() {
            let (one, other) = (
                together.cell_celsius(&matter, cell),
                alone.cell_celsius(&matter, cell),
            );
            assert_eq!(
                one.lane(at).to_bits(),
                other.lane(5).to_bits(),
                "lane {at}, cell {cell}"
            );
        }
        assert_eq!(
            together.gone().lane(at).to_bits(),
            alone.gone().lane(5).to_bits()
        );
        assert_eq!(
            together.volume().lane(at).to_bits(),
            alone.volume().lane(5).to_bits()
        );
        assert_eq!(
            together.lightness().lane(at).to_bits(),
            alone.lightness().lane(5).to_bits()
        );
    }
}
