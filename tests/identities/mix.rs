//! Laws of the mix: energy is kept, forward and backward agree, order does not matter.

use bake::kitchen::{Kitchen, in_room};
use bake::mix::balance::{
    Ice, Melting, Parts, Work, ends, ice_for, solve_for, solve_for_both, solve_for_bowl, with_ice,
    with_share_at, work_seen,
};
use bake::mix::{Balance, Share, factor};
use bake::simulate::{How, simulate};
use numerics::quantity::{Energy, Mass, SpecificHeat, Temperature, TemperatureDifference};
use proptest::prelude::*;
use recipe::document::read_recipe;
use recipe::larder::Larder;

fn celsius(degrees: f64) -> Temperature {
    Temperature::from_celsius(degrees)
}

fn any_share() -> impl Strategy<Value = Share> {
    (1.0..2000.0, 800.0..4200.0, -18.0..90.0).prop_map(|(grams, c, at)| {
        let mass = Mass::from_grams(grams);
        let heat_capacity = mass * SpecificHeat::from_si(c);
        Share {
            what: "something".to_owned(),
            mass,
            heat_capacity,
            at: celsius(at),
        }
    })
}

fn any_work() -> impl Strategy<Value = Work> {
    prop_oneof![
        (0.0..60_000.0).prop_map(|joules| Work::Heat(Energy::from_si(joules))),
        (-3.0..15.0).prop_map(|kelvin| Work::NetRise(TemperatureDifference::from_si(kelvin))),
    ]
}

fn any_melting() -> impl Strategy<Value = Melting> {
    prop_oneof![
        (0.0..5000.0).prop_map(|joules| Melting::Heat(Energy::from_si(joules))),
        proptest::collection::vec((1.0..400.0, -5.0..40.0), 0..3).prop_map(|lots| {
            let lots = lots.into_iter();
            Melting::Butter(
                lots.map(|(grams, at)| (Mass::from_grams(grams), celsius(at)))
                    .collect(),
            )
        }),
    ]
}

fn any_ice() -> impl Strategy<Value = Option<Ice>> {
    proptest::option::of((0.0..300.0, -20.0..0.0).prop_map(|(grams, at)| Ice {
        mass: Mass::from_grams(grams),
        at: celsius(at),
    }))
}

fn any_parts() -> impl Strategy<Value = Parts> {
    let shares = proptest::collection::vec(any_share(), 1..9);
    let heats = (0.0..20_000.0, 0.0..5000.0);
    (
        shares,
        any_share(),
        heats,
        any_work(),
        any_melting(),
        any_ice(),
    )
        .prop_map(
            |(shares, bowl, (hydration, dissolution), work, melting, ice)| Parts {
                stage: "dough".to_owned(),
                shares,
                bowl,
                hydration: Energy::from_si(hydration),
                work,
                dissolution: Energy::from_si(dissolution),
                melting,
                ice,
            },
        )
}

/// All that flows, without sign: the scale against which a residual is nothing.
fn flows(balance: &Balance) -> f64 {
    let shares = balance.shares.iter().chain([&balance.bowl]);
    shares
        .map(|one| (one.heat_capacity * (one.at - balance.ends)).si().abs())
        .sum::<f64>()
        + balance.hydration.si()
        + balance.friction.si().abs()
        + balance.dissolution.si()
        + balance.melting.si()
        + balance.ice.si().abs()
        + 1.0
}

/// The sum of every term, written out here and not asked of the program.
fn sum(balance: &Balance) -> f64 {
    let shares = balance.shares.iter().chain([&balance.bowl]);
    shares
        .map(|one| one.heat_capacity.si() * (one.at.si() - balance.ends.si()))
        .sum::<f64>()
        + balance.hydration.si()
        + balance.friction.si()
        - balance.dissolution.si()
        - balance.melting.si()
        - balance.ice.si()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn energy_is_kept(parts in any_parts()) {
        let balance = ends(&parts);
        prop_assert!(sum(&balance).abs() < 1e-9 * flows(&balance), "{}", sum(&balance));
    }

    /// What is solved for and put back gives the dough that was wanted.
    #[test]
    fn forward_undoes_backward(parts in any_parts(), wanted in 5.0..40.0, pick in 0usize..8) {
        let share = pick % parts.shares.len();
        let reads = solve_for(&parts, share, celsius(wanted)).expect("it has a heat capacity");
        let reached = ends(&with_share_at(&parts, share, reads)).ends;
        // Butter that is liquid at the one and set at the other would be another lot; the shares'
        // temperatures do not move it here, so one answer exists.
        prop_assert!((reached.celsius() - wanted).abs() < 1e-8, "{}", reached.celsius());
    }

    #[test]
    fn the_bowl_can_be_solved_for_too(parts in any_parts(), wanted in 5.0..40.0) {
        let mut parts = parts;
        parts.bowl.at = solve_for_bowl(&parts, celsius(wanted)).expect("a bowl");
        prop_assert!((ends(&parts).ends.celsius() - wanted).abs() < 1e-8);
    }

    #[test]
    fn a_share_and_the_bowl_can_be_solved_for_together(
        parts in any_parts(),
        wanted in 5.0..40.0,
        pick in 0usize..8,
    ) {
        let share = pick % parts.shares.len();
        let both = solve_for_both(&parts, share, celsius(wanted)).expect("a bowl");
        let mut warmed = with_share_at(&parts, share, both);
        warmed.bowl.at = both;
        prop_assert!((ends(&warmed).ends.celsius() - wanted).abs() < 1e-8);
    }

    /// With the ice that is found, the dough ends where it is wanted, and nothing weighs more.
    #[test]
    fn ice_brings_the_dough_down(parts in any_parts(), pick in 0usize..8, colder in 0.5..5.0) {
        let mut parts = parts;
        parts.ice = None;
        let share = pick % parts.shares.len();
        let wanted = ends(&parts).ends - TemperatureDifference::from_si(colder);
        if let Some(mass) = ice_for(&parts, share, celsius(0.0), wanted)
            && mass < parts.shares[share].mass
        {
            let iced = with_ice(&parts, share, Ice { mass, at: celsius(0.0) });
            prop_assert!((ends(&iced).ends - wanted).si().abs() < 1e-7);
            prop_assert!((iced.mass() - parts.mass()).grams().abs() < 1e-9);
        }
    }

    #[test]
    fn the_work_seen_is_the_work_done(parts in any_parts()) {
        let balance = ends(&parts);
        let seen = work_seen(&parts, balance.ends);
        prop_assert!((seen - balance.friction).si().abs() < 1e-8 * flows(&balance));
    }

    #[test]
    fn the_order_of_shares_is_irrelevant(parts in any_parts(), turn in 0usize..8) {
        let mut turned = parts.clone();
        let by = turn % parts.shares.len();
        turned.shares.rotate_left(by);
        turned.shares.reverse();
        prop_assert!((ends(&turned).ends - ends(&parts).ends).si().abs() < 1e-9);
    }

    /// Without any heat of its own a dough ends between its coldest and its warmest part.
    #[test]
    fn a_mean_lies_between(parts in any_parts()) {
        let mut still = parts;
        still.hydration = Energy::ZERO;
        still.dissolution = Energy::ZERO;
        still.work = Work::Heat(Energy::ZERO);
        still.melting = Melting::Heat(Energy::ZERO);
        still.ice = None;
        let all = || still.shares.iter().chain([&still.bowl]).map(|one| one.at.celsius());
        let (low, high) = (all().fold(f64::MAX, f64::min), all().fold(f64::MIN, f64::max));
        let found = ends(&still).ends.celsius();
        prop_assert!((low - 1e-9..=high + 1e-9).contains(&found));
    }

    /// Two doughs' worth of everything ends where one does.
    #[test]
    fn scaling_leaves_the_temperature(parts in any_parts(), times in 0.1..10.0) {
        let scaled = |share: &Share| Share {
            mass: share.mass * times,
            heat_capacity: share.heat_capacity * times,
            ..share.clone()
        };
        let large = Parts {
            shares: parts.shares.iter().map(scaled).collect(),
            bowl: scaled(&parts.bowl),
            hydration: parts.hydration * times,
            dissolution: parts.dissolution * times,
            work: match parts.work {
                Work::Heat(heat) => Work::Heat(heat * times),
                rise @ Work::NetRise(_) => rise,
            },
            melting: match &parts.melting {
                Melting::Heat(heat) => Melting::Heat(*heat * times),
                Melting::Butter(lots) => {
                    Melting::Butter(lots.iter().map(|(fat, at)| (*fat * times, *at)).collect())
                }
            },
            ice: parts.ice.map(|ice| Ice { mass: ice.mass * times, at: ice.at }),
            ..parts.clone()
        };
        prop_assert!((ends(&large).ends - ends(&parts).ends).si().abs() < 1e-8);
    }

    /// A measured rise is the whole difference between the dough and the mean of what went in.
    #[test]
    fn a_measured_rise_is_kept(parts in any_parts(), rise in -3.0..15.0) {
        let mut risen = parts;
        risen.ice = None;
        risen.work = Work::NetRise(TemperatureDifference::from_si(rise));
        let all = || risen.shares.iter().chain([&risen.bowl]);
        let warms: f64 = all().map(|one| one.heat_capacity.si()).sum();
        let mean = all().map(|one| one.heat_capacity.si() * one.at.si()).sum::<f64>() / warms;
        prop_assert!((ends(&risen).ends.si() - mean - rise).abs() < 1e-9);
    }

    #[test]
    fn the_factor_method_goes_there_and_back(
        dough in 60.0..90.0,
        others in proptest::collection::vec(40.0..90.0, 1..4),
        friction in 0.0..40.0,
    ) {
        let water = factor::water(dough, &others, friction);
        prop_assert!((factor::dough(&others, water, friction) - dough).abs() < 1e-9);
        prop_assert!((factor::friction(dough, &others, water) - friction).abs() < 1e-9);
    }

    /// Moving a kitchen to another room and back changes nothing.
    #[test]
    fn a_room_and_back(there in 10.0..35.0) {
        let home = Kitchen::standard();
        let away = in_room(&home, celsius(there));
        prop_assert_eq!(away.room, celsius(there));
        prop_assert_eq!(away.bowl.at, away.room);
        prop_assert_eq!(away.refrigerator, home.refrigerator);
        prop_assert_eq!(in_room(&away, home.room), home);
    }
}

/// The mix and the day agree on how warm a dough ends whose cooked paste cools by the clock: one paste, one
/// temperature. A paste that is used sooner makes a warmer dough.
#[test]
fn a_paste_that_cools_by_the_clock_is_as_warm_in_the_mix_as_in_the_day() {
    let whole = include_str!("../../examples/cardamom-dough.toml");
    let by_the_clock = |minutes: u32| {
        let text = whole
            .replace(
                "until = { see = \"cool to a finger\", dough = \"30 °C\" }",
                "until = { see = \"cool to a finger\" }",
            )
            .replace(
                "for = \"45 min\", range = \"35-60 min\", in = \"plate\"",
                &format!("for = \"{minutes} min\", in = \"plate\""),
            );
        assert_ne!(text, whole);
        let recipe = read_recipe(&text).output.expect("it reads");
        let formula = recipe::formula::formula(&recipe, &Larder::open()).output;
        let kitchen = Kitchen::standard();
        let mixes = bake::mix::mix(&recipe, &formula, &kitchen).output;
        let answer = mixes
            .iter()
            .find(|mix| mix.stage == "dough")
            .expect("a mix");
        let course = simulate(&recipe, &formula, &kitchen, &How::default()).output;
        let day = course
            .steps
            .iter()
            .filter(|step| step.of == "dough")
            .find_map(|step| step.dough)
            .expect("a dough");
        let apart = (answer.as_written.ends - day).si().abs();
        assert!(apart < 0.3, "{minutes} min: {apart} K");
        answer.as_written.ends
    };
    assert!(by_the_clock(10) > by_the_clock(60) + TemperatureDifference::from_si(0.5));
}
