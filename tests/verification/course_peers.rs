//! What the simulator does beside other programs: `SciPy`'s bake, `FiPy`'s solids, films by `ht`, air by `CoolProp`.

use crate::peer;
use bake::kitchen::Kitchen;
use bake::physics::proximate::Proximate;
use bake::physics::{conductivity, steam};
use bake::simulate::around;
use bake::simulate::surround::{Surround, radiation};
use numerics::quantity::Temperature;
use recipe::document::model::Material;
use serde_json::{Value, json};
use std::sync::OnceLock;
use xtask::validation::fronts::{CRUST, DENSITY, DRY, LATENT, Section, WATER, WET};
use xtask::validation::solids::{SHAPES, exact, found};

fn films() -> &'static Value {
    static HEARD: OnceLock<Value> = OnceLock::new();
    HEARD.get_or_init(|| peer::ask("films.py", None))
}

fn rows<'a>(of: &'a Value, key: &str) -> &'a [Value] {
    let rows = of[key].as_array().expect("a list");
    assert!(!rows.is_empty(), "{key} is there");
    rows
}

fn number(row: &Value, key: &str) -> f64 {
    row[key].as_f64().expect("a number")
}

/// Minutes at which a list of temperatures, one a minute, passes a line.
fn passes(middles: &[f64], line: f64) -> f64 {
    let after = middles
        .iter()
        .position(|one| *one >= line)
        .expect("it is passed");
    let (low, high) = (middles[after - 1], middles[after]);
    (after - 1) as f64 + (line - low) / (high - low)
}

/// The same mesh and the same equations (plateau of boiling, conductivity of the reference bakes, radiation),
/// method of lines with `SciPy`'s BDF at a tolerance of 1e-4 and a sparse Jacobian.
#[test]
fn a_bake_is_what_scipy_makes_of_the_same_section() {
    const MINUTES: u32 = 30;
    let section = Section::new();
    let side = json!({
        "air": section.oven, "film": section.film, "emissivity": section.emissivity
    });
    let seconds: Vec<u32> = (0..=MINUTES).map(|minute| 60 * minute).collect();
    let heard = peer::ask(
        "bake.py",
        Some(&json!({
            "round": true,
            "across_m": section.mesh.across_m(),
            "up_m": section.mesh.up_m(),
            "wet": WET, "dry": DRY, "latent": LATENT, "crust": CRUST, "boils": 100.0,
            "start": section.start,
            "side": side, "bottom": side, "top": side,
            "seconds": seconds,
            "rtol": 1e-4,
        })),
    );
    assert_eq!(heard["success"], true);
    let list = |key: &str| -> Vec<f64> {
        let all = heard[key].as_array().expect("a list").iter();
        all.map(|one| one.as_f64().expect("a number")).collect()
    };
    let (middles, dried, heats) = (list("middle"), list("dry"), list("mean_heat"));
    // The usual step of a bake is 2.5 s; a fine one shows what is left of the step in it.
    for (steps, what, minutes, points) in [(120, "0.5 s", 0.01, 0.2), (24, "2.5 s", 0.01, 0.2)] {
        let ours = section.baked(MINUTES, steps);
        let own: Vec<f64> = ours.iter().map(|one| one.0).collect();
        for line in [60.0, 88.0, 95.0] {
            let (here, there) = (passes(&own, line), passes(&middles, line));
            println!(
                "steps of {what}: {line} °C after {here:.3} min, SciPy {there:.3}, {:+.2} %",
                100.0 * (here / there - 1.0)
            );
            assert!(
                (here / there - 1.0).abs() < minutes,
                "{line} °C: {here} {there}"
            );
        }
        for minute in [10, 20, 30] {
            let (here, there) = (
                100.0 * WATER * ours[minute].1,
                100.0 * WATER * dried[minute],
            );
            println!(
                "steps of {what}: {here:.3} % lost at {minute} min, SciPy {there:.3}, {:+.3} points",
                here - there
            );
            assert!(
                (here - there).abs() < points,
                "{minute} min: {here} {there}"
            );
            let off = ours[minute].2 / heats[minute] - 1.0;
            assert!(off.abs() < 0.01, "heat at {minute} min: {off:+.4}");
        }
    }
}

/// The simulator's own scheme written a second time, in Python compiled by Numba: rows, then columns, the same
/// step. Two programs of one scheme must agree far better than either does with the truth; what is left is
/// how each reads its tables.
#[test]
fn a_bake_is_what_the_same_scheme_makes_in_numba() {
    const MINUTES: u32 = 30;
    let section = Section::new();
    for steps in [24, 60] {
        let step = 60.0 / f64::from(steps);
        let heard = peer::ask(
            "lines.py",
            Some(&json!({
                "across_m": section.mesh.across_m(), "up_m": section.mesh.up_m(),
                "wet": WET, "dry": DRY, "latent": LATENT, "crust": CRUST, "density": DENSITY,
                "start": section.start, "step": step, "last": 60 * MINUTES,
                "side": { "air": section.oven, "film": section.film, "emissivity": section.emissivity },
            })),
        );
        let list = |key: &str| -> Vec<f64> {
            let all = heard[key].as_array().expect("a list").iter();
            all.map(|one| one.as_f64().expect("a number")).collect()
        };
        let (middles, dried) = (list("middle"), list("dry"));
        let ours = section.baked(MINUTES, steps);
        let a_minute = usize::try_from(steps).expect("small");
        for (minute, here) in ours.iter().enumerate().skip(1) {
            let at = minute * a_minute - 1;
            let off = here.0 - middles[at];
            assert!(
                off.abs() < 0.02,
                "{minute} min: the middle is {off:+} K off"
            );
            let points = 100.0 * WATER * (here.1 - dried[at]);
            assert!(
                points.abs() < 0.01,
                "{minute} min: {points:+} points of loss"
            );
            if minute % 10 == 0 {
                println!("steps of {step} s, {minute} min: {off:+.5} K, {points:+.5} points");
            }
        }
    }
}

/// `FiPy` 4.0.3, 50 cells and 200 steps of the first order in time; ours 50 cells and 8000 steps; the exact
/// series between them. For the long cylinder at Bi 1 and Fo 0.5 it is 0.548586.
#[test]
fn solids_cool_as_in_fipy() {
    let heard = peer::ask("linear.py", None);
    for row in rows(&heard, "middles") {
        let name = row["of"].as_str().expect("a word");
        let shape = SHAPES.into_iter().find(|shape| shape.name() == name);
        let shape = shape.expect("one of ours");
        let (biot, fourier) = (number(row, "biot"), number(row, "fourier"));
        let (theirs, exact) = (number(row, "middle"), exact(shape, biot, fourier));
        let ours = found(shape, biot, fourier, 50, 8000);
        println!("{name} Bi {biot}: FiPy {theirs:.6}, ours {ours:.6}, exact {exact:.6}");
        assert!((theirs - exact).abs() < 2.5e-3, "{name}: FiPy is off");
        assert!((ours - exact).abs() < 2.5e-4, "{name}: {ours} {exact}");
        assert!((ours - theirs).abs() < 2.5e-3, "{name}: {ours} {theirs}");
    }
}

/// Radiation as a film is the same law: `ht` gives the flow, we the film, and they must agree to the digits
/// of Stefan and Boltzmann's constant, which `ht` has from 2014: 1.2 parts in a million less.
#[test]
fn walls_radiate_as_in_ht() {
    for row in rows(films(), "radiation") {
        let ours: f64 = radiation(0.9, number(row, "surface"), number(row, "walls"));
        let theirs = number(row, "film");
        assert!((ours / theirs - 1.0).abs() < 2e-6, "{row}: {ours}");
    }
}

/// One film stands for every surface of a place. It must lie among those that the correlations give for a
/// ball of 20 cm, a lying cylinder and a standing plate of 10 cm while the dough goes from cold to hot.
#[test]
fn films_lie_among_those_of_the_correlations() {
    let among = |key: &str, shapes: &[&str]| {
        let all = || {
            rows(films(), key)
                .iter()
                .flat_map(|row| shapes.iter().map(|shape| number(row, shape)))
        };
        (
            all().fold(f64::INFINITY, f64::min),
            all().fold(f64::NEG_INFINITY, f64::max),
        )
    };
    let still = ["ball", "cylinder", "plate"];
    let at = Temperature::from_celsius;
    let mut kitchen = Kitchen::standard();
    let oven = |kitchen: &Kitchen| -> Surround<f64> {
        around::baking(kitchen, at(180.0), None, false, false, false)
    };
    let static_oven = oven(&kitchen).top.film;
    kitchen.oven.fan = true;
    let with_fan = oven(&kitchen).top.film;
    let rack: Surround<f64> = around::cooling(at(22.0));
    let bowl: Surround<f64> = around::resting(at(4.0), "bowl", Material::Steel, true);
    for (what, ours, (low, high)) in [
        ("still oven", static_oven, among("oven", &still)),
        ("oven with its fan", with_fan, among("fan", &["film"])),
        ("rack in a room", rack.top.film, among("room", &still)),
        (
            "bowl in a refrigerator",
            bowl.side.film,
            among("cold", &still),
        ),
    ] {
        println!("{what}: {ours:.1} W/(m2 K), ht {low:.1} to {high:.1}");
        assert!((low..=high).contains(&ours), "{what}: {ours}");
    }
}

/// Antoine's equation, the straight line of the latent heat and that of dry air, against `CoolProp`'s
/// formulations (IAPWS-95; Lemmon and Jacobsen): misses are printed.
#[test]
fn steam_and_air_against_coolprop() {
    for row in rows(films(), "steam") {
        let celsius = number(row, "celsius");
        let pressure = steam::saturation_pa(celsius) / number(row, "pascal") - 1.0;
        let latent = steam::latent_at(celsius) / number(row, "latent") - 1.0;
        println!(
            "{celsius} °C: pressure {:+.2} %, latent heat {:+.2} %",
            100.0 * pressure,
            100.0 * latent
        );
        assert!(pressure.abs() < 0.01 && latent.abs() < 0.004, "{row}");
    }
    for row in rows(films(), "air") {
        let off = conductivity::air(number(row, "celsius")) / number(row, "k") - 1.0;
        assert!(off.abs() < 0.01, "{row}: {off:+.4}");
    }
}

/// A wet surface in a film settles where what the film gives goes off as vapour: the wet bulb. 64.7 Pa/K ties
/// the film to the vapour (from memory); `CoolProp` has the psychrometrics of ASHRAE.
#[test]
fn a_wet_surface_settles_at_the_wet_bulb() {
    for row in rows(films(), "wet_bulb") {
        let (air, humid) = (number(row, "celsius"), number(row, "humid"));
        let vapour = humid * steam::saturation_pa(air);
        let (mut low, mut high) = (-5.0, air);
        for _ in 0..60 {
            let wet = 0.5 * (low + high);
            let gives = around::PASCAL_PER_KELVIN * (air - wet);
            if gives > steam::saturation_pa(wet) - vapour {
                low = wet;
            } else {
                high = wet;
            }
        }
        let theirs = number(row, "wet");
        println!("{air} °C, {humid}: wet {low:.2} °C, CoolProp {theirs:.2}");
        assert!((low - theirs).abs() < 0.4, "{row}: {low}");
    }
}

/// Each component's conductivity, typed from the same handbook by others.
#[test]
fn components_conduct_as_coolprop_has_them() {
    for row in rows(films(), "foods") {
        let one = |of: Proximate| conductivity::gas_free(&of, number(row, "celsius"));
        let nothing = Proximate::default();
        let ours = match row["of"].as_str().expect("a word") {
            "water" => one(Proximate {
                water: 1.0,
                ..nothing
            }),
            "protein" => one(Proximate {
                protein: 1.0,
                ..nothing
            }),
            "fat" => one(Proximate {
                fat: 1.0,
                ..nothing
            }),
            "carbohydrate" => one(Proximate {
                carbohydrate: 1.0,
                ..nothing
            }),
            "fiber" => one(Proximate {
                fibre: 1.0,
                ..nothing
            }),
            _ => one(Proximate {
                ash: 1.0,
                ..nothing
            }),
        };
        assert!(
            (ours / number(row, "k") - 1.0).abs() < 1e-6,
            "{row}: {ours}"
        );
    }
}
