//! The heat of a mix against printed examples: the factor method, a textbook's dough, a worked balance.

// Printed figures that are exact in binary are compared exactly.
#![allow(clippy::float_cmp)]

use bake::mix::balance::{Melting, Parts, Work, ends, solve_for, work_seen};
use bake::mix::{Share, factor};
use bake::physics::{heats, milk_fat, vessel};
use numerics::quantity::{
    Energy, HeatCapacity, Mass, SpecificHeat, SpecificPower, Temperature, TemperatureDifference,
};
use recipe::document::model::Material;

fn share(what: &str, grams: f64, c_kj_per_kg_k: f64, celsius: f64) -> Share {
    let mass = Mass::from_grams(grams);
    Share {
        what: what.to_owned(),
        mass,
        heat_capacity: mass * SpecificHeat::from_si(c_kj_per_kg_k * 1000.0),
        at: Temperature::from_celsius(celsius),
    }
}

fn no_bowl() -> Share {
    Share {
        what: "bowl".to_owned(),
        mass: Mass::ZERO,
        heat_capacity: HeatCapacity::ZERO,
        at: Temperature::from_celsius(20.0),
    }
}

fn plain(shares: Vec<Share>) -> Parts {
    Parts {
        stage: "dough".to_owned(),
        shares,
        bowl: no_bowl(),
        hydration: Energy::ZERO,
        work: Work::Heat(Energy::ZERO),
        dissolution: Energy::ZERO,
        melting: Melting::Heat(Energy::ZERO),
        ice: None,
    }
}

/// Four printed examples, °F. 1: Pizza Today, June 2018, page 29. 2: a how-to page, 8 min at 2 °F a
/// minute. 3: a cooking question-and-answer archive, no. 107561. 4: Gisslen, Professional Baking
/// (from memory). Each back again gives the friction that was put in.
#[test]
fn the_factor_method_gives_the_printed_water_temperatures() {
    for (dough, others, friction, water) in [
        (80.0, [65.0, 75.0], 35.0, 65.0),
        (78.0, [60.0, 70.0], 16.0, 88.0),
        (78.0, [72.0, 72.0], 0.0, 90.0),
        (80.0, [68.0, 72.0], 20.0, 80.0),
    ] {
        let found = factor::water(dough, &others, friction);
        let same = |one: f64, other: f64| assert!((one - other).abs() < 1e-12, "{one} {other}");
        same(found, water);
        same(factor::friction(dough, &others, found), friction);
        same(factor::dough(&others, found, friction), dough);
    }
}

/// The rule "water 5 °F warmer, dough 2 °F warmer" (Pizza Today, June 2018, page 28): a slope of
/// 0.40. The balance of a 60 % dough without a bowl gives 0.56, with a home mixer's bowl 0.52.
/// The rule is a miss of the bare balance by 0.16, shown here and in docs/models/mix.md: it would take
/// machine and air of 1.8 kJ/K for each kilogram of flour.
#[test]
fn the_slope_of_dough_on_water_is_steeper_than_the_trade_rule() {
    let slope = |bowl_j_per_k: f64| {
        let dough = |water_c: f64| {
            let mut parts = plain(vec![
                share("flour", 1000.0, 1.99, 20.0),
                share("water", 600.0, 4.18, water_c),
            ]);
            parts.bowl.heat_capacity = HeatCapacity::from_si(bowl_j_per_k);
            ends(&parts).ends
        };
        (dough(25.0) - dough(20.0)).si() / 5.0
    };
    let bare = slope(0.0);
    assert!((0.55..=0.58).contains(&bare), "{bare}");
    let with_home_bowl = slope(360.0);
    assert!((0.50..0.55).contains(&with_home_bowl), "{with_home_bowl}");
    assert!(
        bare - 0.40 > 0.14,
        "the rule is no longer missed: say so in docs/models/mix.md"
    );
    assert!((slope(1770.0) - 0.40).abs() < 0.005, "{}", slope(1770.0));
}

/// Cengel and Boles, Thermodynamics (8th edition), problem 5-157: 2 kg of flour and 1 kg of water,
/// heat of hydration 15 kJ for each kilogram of dough; water that takes all of it up leaves the
/// dough at the 15 °C of flour and tap. The printed answer, 4.2 °C, is from memory. Read for each
/// kilogram of flour instead, it would be 7.8 °C.
#[test]
fn a_textbooks_dough_wants_water_of_4_2_degrees() {
    let water_for = |hydration_j: f64| {
        let mut parts = plain(vec![
            share("flour", 2000.0, 1.76, 15.0),
            share("water", 1000.0, 4.18, 15.0),
        ]);
        parts.hydration = Energy::from_si(hydration_j);
        solve_for(&parts, 1, Temperature::from_celsius(15.0))
            .expect("water")
            .celsius()
    };
    assert!(
        (water_for(15_000.0 * 3.0) - 4.2).abs() < 0.05,
        "{}",
        water_for(45_000.0)
    );
    assert!(
        (water_for(15_000.0 * 2.0) - 7.8).abs() < 0.05,
        "{}",
        water_for(30_000.0)
    );
}

/// A worked balance of an enriched dough: its specific heats are given with it.
fn worked(work: Energy) -> Parts {
    Parts {
        stage: "dough".to_owned(),
        shares: vec![
            share("milk", 250.0, 3.85, 20.0),
            share("flour", 500.0, 1.80, 21.0),
            share("egg", 100.0, 3.18, 20.0),
            share("butter", 100.0, 2.30, 18.0),
            share("sugar", 60.0, 1.24, 21.0),
            share("salt", 9.0, 0.88, 21.0),
            share("yeast", 7.0, 1.5, 21.0),
        ],
        bowl: Share {
            what: "bowl".to_owned(),
            mass: Mass::from_grams(900.0),
            heat_capacity: vessel::following(Material::Steel, Mass::from_grams(900.0), 1.0),
            at: Temperature::from_celsius(21.0),
        },
        hydration: Mass::from_grams(500.0) * heats::HYDRATION,
        work: Work::Heat(work),
        dissolution: Mass::from_grams(60.0) * heats::SUCROSE + Mass::from_grams(9.0) * heats::SALT,
        melting: Melting::Heat(Energy::from_si(1200.0)),
        ice: None,
    }
}

/// A worked example by hand calculation: milk 16.4 °C with a mixer of 25 W/kg over ten minutes,
/// 32.4 °C without friction, and each term on the way.
#[test]
fn a_worked_balance_gives_its_milk_temperatures() {
    let wanted = Temperature::from_celsius(26.0);
    // The example takes 1.025 kg for the mass that is worked on; its items come to 1.026 kg.
    let friction = SpecificPower::from_si(25.0).si() * 1.025 * 600.0;
    let mixed = worked(Energy::from_si(friction));
    assert!((mixed.hydration.si() - 7550.0).abs() < 5.0);
    assert!((friction - 15_390.0).abs() < 20.0, "{friction}");
    assert!(
        (mixed.dissolution.si() - 1540.0).abs() < 20.0,
        "{}",
        mixed.dissolution.si()
    );
    let rest: f64 = mixed
        .shares
        .iter()
        .skip(1)
        .chain([&mixed.bowl])
        .map(|one| (one.heat_capacity * (wanted - one.at)).si())
        .sum();
    assert!((rest - 10_960.0).abs() < 10.0, "{rest}");
    let milk = solve_for(&mixed, 0, wanted).expect("milk").celsius();
    assert!((milk - 16.4).abs() < 0.05, "{milk}");
    let by_hand = worked(Energy::ZERO);
    let milk = solve_for(&by_hand, 0, wanted).expect("milk").celsius();
    assert!((milk - 32.4).abs() < 0.05, "{milk}");
    // The other way round: a cook's mixer, from the dough that was seen.
    let cold = bake::mix::balance::with_share_at(&by_hand, 0, Temperature::from_celsius(16.4));
    let seen = work_seen(&cold, wanted).si();
    assert!((seen - friction).abs() < 50.0, "{seen} against {friction}");
}

/// The factor method is the balance with every specific heat and mass set alike: then both say the
/// same to the last digit.
#[test]
fn factor_method_and_balance_agree_where_their_assumptions_meet() {
    let at = |fahrenheit: f64| Temperature::from_fahrenheit(fahrenheit).celsius();
    let mut parts = plain(vec![
        share("water", 100.0, 3.0, at(65.0)),
        share("flour", 100.0, 3.0, at(65.0)),
        share("room", 100.0, 3.0, at(75.0)),
    ]);
    parts.work = Work::NetRise(TemperatureDifference::from_si(35.0 / 3.0 / 1.8));
    let balance = solve_for(&parts, 0, Temperature::from_fahrenheit(80.0)).expect("water");
    assert!((balance.fahrenheit() - factor::water(80.0, &[65.0, 75.0], 35.0)).abs() < 1e-9);
}

/// Where they part: the method gives the liquid a third of the say, whatever it weighs. In the
/// worked dough with its bowl, milk has 0.326 of it, and 5 °C more in the dough is 15.0 °C against
/// 15.3 °C more in the milk. In a bare 62 % lean dough water has 0.57, and the method overshoots: 9.0 °C
/// where 5.3 °C would do for 3 °C more in the dough.
#[test]
fn factor_method_and_balance_part_with_the_share_of_the_liquid() {
    let apart = |parts: &Parts, more_k: f64| {
        let now = ends(parts).ends;
        let wanted = now + TemperatureDifference::from_si(more_k);
        let others = [parts.bowl.at.celsius(), parts.shares[1].at.celsius()];
        let before = parts.shares[0].at.celsius();
        let friction = factor::friction(now.celsius(), &others, before);
        let by_factor = factor::water(wanted.celsius(), &others, friction) - before;
        let by_balance = solve_for(parts, 0, wanted).expect("liquid").celsius() - before;
        println!("{more_k} °C more: factor {by_factor:.2} °C, balance {by_balance:.2} °C");
        (by_factor, by_balance)
    };
    let (by_factor, by_balance) = apart(&worked(Energy::from_si(15_375.0)), 5.0);
    assert!((by_factor - 15.0).abs() < 1e-9);
    assert!((by_balance - 15.3).abs() < 0.1, "{by_balance}");
    let lean = plain(vec![
        share("water", 620.0, 4.13, 20.0),
        share("flour", 1000.0, 1.99, 20.0),
    ]);
    let (by_factor, by_balance) = apart(&lean, 3.0);
    assert!((by_factor - 9.0).abs() < 1e-9);
    assert!((by_balance - 5.3).abs() < 0.1, "{by_balance}");
}

/// Soft butter in a dough of 25 °C: 10-15 kJ for each kilogram brought at 15-18 °C is the rough
/// figure of the trade (from memory). The table of solid shares gives 13.9 kJ/kg from 18 °C and
/// 21.9 kJ/kg from 15 °C: the second is a miss of 7 kJ/kg, half a degree in a dough with 30 % butter.
#[test]
fn soft_butter_takes_about_what_the_trade_says() {
    let fat = Mass::from_si(0.811);
    let from = |celsius: f64| {
        milk_fat::melting(
            fat,
            Temperature::from_celsius(celsius),
            Temperature::from_celsius(25.0),
        )
        .si()
            / 1000.0
    };
    println!(
        "butter into 25 °C: {:.1} kJ/kg from 15 °C, {:.1} from 18 °C",
        from(15.0),
        from(18.0)
    );
    assert!((10.0..=15.0).contains(&from(18.0)), "{}", from(18.0));
    assert!(from(15.0) > from(18.0));
    assert!(
        from(30.0).abs() < 1e-12,
        "melted fat does not set in the bowl"
    );
}
