//! Possible kitchens weighed by a reading, where the answer is known exactly: everything a bell, and minutes straight lines.

use bake::condition::{Bell, Drawings, Here, Life, Reading, STRAYS_LN, Ways, What, told_within_s};
use bake::simulate::Ended;
use everyoven_tests::tree::root;
use numerics::quantity::Duration;
use numerics::weighing::moments;
use xtask::under_way::{demo, set_up};

/// Minutes of a rise: so many, and more by the first two scores.
const MIDDLE_S: f64 = 6000.0;
const BY_FIRST_S: f64 = 900.0;
const BY_SECOND_S: f64 = -500.0;

/// A bake in which one step takes as long as its scores say.
fn life(here: &Here, place: usize, scores: Vec<f64>, excess: f64) -> Life {
    let mut course = here.course.clone();
    let lasts = MIDDLE_S + BY_FIRST_S * scores[0] + BY_SECOND_S * scores[1];
    course.steps[place].lasts = Duration::from_si(lasts.max(60.0));
    course.steps[place].ended = Ended::Cue;
    Life::of(&course, scores, excess)
}

/// Mean and deviation of the first two scores, exactly, after a rise that was told to be over after so long. How the
/// reckoning strays is a factor e^d, taken for 1 + d about the middle; the weight of that is in the tolerance.
fn exact(told_s: f64) -> [(f64, f64); 2] {
    let error = told_within_s(told_s);
    let strays = STRAYS_LN * MIDDLE_S;
    let all = BY_FIRST_S * BY_FIRST_S + BY_SECOND_S * BY_SECOND_S + strays * strays + error * error;
    [BY_FIRST_S, BY_SECOND_S].map(|by| {
        let mean = by * (told_s - MIDDLE_S) / all;
        (mean, (1.0 - by * by / all).sqrt())
    })
}

fn seen(ways: &Ways, readings: &[Reading]) -> ([(f64, f64); 2], f64) {
    let weighed = ways.weighed(readings).expect("some go with it");
    let of = |at: usize| {
        let cases = ways.lives.iter().zip(&weighed.lives);
        let (mean, variance) = moments(cases.map(|(life, weight)| (life.scores[at], *weight)));
        (mean, variance.sqrt())
    };
    ([of(0), of(1)], weighed.that_count)
}

#[test]
fn a_case_that_is_known_exactly() {
    let (recipe, sums) = demo(&root(), "same-day-loaf");
    let here = set_up(&recipe, &sums);
    let steps = &here.course.steps;
    let place = steps
        .iter()
        .position(|step| step.ended == Ended::Cue)
        .expect("a rise");
    let number = 2000;
    let finer = here.strains(0, 0)[place].slower_ln;
    // What the finer grid adds to this step is taken out again: the mean of very many ways of straying.
    let mean: f64 = (0..4096)
        .map(|at| here.strains(0, at)[place].slower_ln)
        .sum::<f64>()
        / 4096.0;
    assert!((finer - mean).abs() < 5.0 * STRAYS_LN);
    for told_s in [6200.0, 8600.0] {
        let scaled_s = told_s * libm::exp(mean);
        let first = (0..number as u64)
            .map(|at| life(&here, place, here.scores(at), 0.0))
            .collect();
        let ways = Ways::new(&here, first, 0);
        let readings = [Reading {
            step: place + 1,
            after: Duration::from_si(scaled_s),
            what: What::Reached,
        }];
        let by = Drawings::default().last(number);
        let bell = Bell::of(&[(&ways, &readings)], by).expect("a bell");
        let moved = bell
            .draw(&here, number, 1)
            .into_iter()
            .map(|scores| {
                let excess = bell.log_excess(&scores);
                life(&here, place, scores, excess)
            })
            .collect();
        let moved = Ways::new(&here, moved, 1);
        let exact = exact(told_s);
        let (at_first, counted) = seen(&ways, &readings);
        let (anew, counted_anew) = seen(&moved, &readings);
        println!("told {told_s} s: exact {exact:?}");
        println!(
            "  at first {at_first:?}, {counted:.0} count; anew {anew:?}, {counted_anew:.0} count"
        );
        for (found, counted) in [(at_first, counted), (anew, counted_anew)] {
            for ((mean, deviation), (wanted, spread)) in found.iter().zip(exact) {
                // Chance among those that count, four deviations; and what 1 + d leaves of e^d: 0.04.
                let near = 4.0 * spread / counted.sqrt() + 0.04;
                assert!((mean - wanted).abs() < near, "{mean} {wanted} ± {near}");
                assert!(
                    (deviation / spread - 1.0).abs() < 0.15,
                    "{deviation} {spread}"
                );
            }
        }
        if told_s > 8000.0 {
            assert!(counted_anew > 1.5 * counted, "{counted_anew} of {counted}");
        }
    }
}
