//! Bakes under way that are made up with the same doubts as are reckoned with: bands of eight tenths must hold eight of
//! ten truths. In other worlds than the reckoned one the shares are told and not asserted.

use bake::code;
use bake::condition::{By, Reading, Ways, What, condition, one_by_one};
use everyoven_tests::tree::root;
use numerics::quantity::{Duration, Temperature};
use xtask::under_way::{World, demo, from_bank, lives, set_up};

/// Possible kitchens.
const BANK: u64 = 480;
/// Made-up bakes of the world that is reckoned with, and of each other one.
const BAKES: u64 = 240;
const ELSEWHERE: u64 = 60;

#[test]
fn bands_hold_as_many_truths_as_they_say() {
    let (recipe, sums) = demo(&root(), "same-day-loaf");
    let here = set_up(&recipe, &sums);
    let bank = Ways::new(&here, lives(&here, 0, BANK, World::AsReckoned), 0);
    for world in World::ALL {
        let reckoned = world == World::AsReckoned;
        let bakes = if reckoned { BAKES } else { ELSEWHERE };
        let held = from_bank(&here, &bank, world, 0..bakes);
        let (next, all) = held.shares();
        let (narrowed, _) = held.shares_of_known();
        let bakes = held.trials - held.left_out;
        println!(
            "{}, {bakes} bakes: next {:.1} %, all to come {:.1} % of {}, of the kitchen {:.1} % of {}",
            world.words(),
            100.0 * next,
            100.0 * all,
            held.all.0,
            100.0 * narrowed,
            held.narrowed.0,
        );
        if !reckoned {
            continue;
        }
        assert!(bakes > 60, "enough bakes are left: {bakes}");
        // Three deviations of as many independent bakes of chance 0.8: what is said of one bake goes together.
        let near = 3.0 * (0.16 / bakes as f64).sqrt();
        for share in [next, all, narrowed] {
            assert!((share - 0.8).abs() < near, "{share} ± {near}");
        }
        let (with, without) = held.width_min;
        assert!(
            with < 0.8 * without,
            "readings narrow the band: {with} of {without}"
        );
    }
}

#[test]
fn a_reading_that_no_dough_has_is_named_and_one_that_some_have_is_not() {
    let (recipe, sums) = demo(&root(), "same-day-loaf");
    let here = set_up(&recipe, &sums);
    let possible = lives(&here, 0, 24, World::AsReckoned);
    let said = |step: usize, celsius: f64| -> Vec<_> {
        let reading = Reading {
            step,
            after: Duration::from_minutes(10.0),
            what: What::Inside(Temperature::from_celsius(celsius), By::Probe),
        };
        let now = Duration::from_minutes(0.0);
        let told = condition(&here, possible.clone(), &[reading], &[], now, &one_by_one);
        let codes = told.diagnostics.iter();
        codes.map(|found| found.code).collect()
    };
    let risen = (1..=here.course.steps.len()).find(|step| said(*step, 26.0).is_empty());
    let risen = risen.expect("a step in which a dough of 26 °C is likely");
    assert_eq!(said(risen, 95.0), [code::READING_OUT_OF_REACH]);
    assert_eq!(said(99, 26.0), [code::READING_OF_NOTHING]);
}
