//! What the readings of several bakes teach about a kitchen: how far each thing strays there, and whether they could tell.
//!
//! # Relation
//! w(x) ~ p(x)/q(x) prod over bakes of (mean over e of prod over its readings of p(reading | x, e)).
//!
//! # Symbols
//! As in [`condition`](crate::condition): x, how far each thing strays; e, how the reckoning strays in a step of one bake.
//!
//! # Valid for
//! Bakes in one kitchen, of one yeast and flour. What is not known of the room is taken to be the same in all of them.
//!
//! # Source
//! As in [`condition`](crate::condition): the same weights, with priors and ranges of [`anchor`](crate::anchor).
//!
//! # Departures
//! e is drawn anew for each bake and is not learnt.
//!
//! # Checked by
//! `tests/plausibility/readings.rs`: bands of made-up kitchens hold what they say.

use crate::condition::{
    Bell, Drawings, ENOUGH, EachLife, Here, Known, Life, Reading, Ways, Weighed, heard, known,
};
use numerics::weighing::weights;
use recipe::source::Checked;

/// One bake with what was read of it.
#[derive(Clone, Debug)]
pub struct Noted {
    /// The bake, in the kitchen of its day.
    pub here: Here,
    /// Its readings.
    pub readings: Vec<Reading>,
}

/// What several bakes teach.
#[derive(Clone, Debug, PartialEq)]
pub struct Learnt {
    /// What is known of each thing afterwards.
    pub known: Vec<Known>,
    /// How many possible kitchens count, of how many.
    pub counts: (f64, usize),
    /// How often new ones were drawn.
    pub rounds: u64,
    /// How many runs it took.
    pub runs: usize,
}

/// A band that readings leave wider than this share of what it was: they could not tell.
pub const COULD_NOT_TELL: f64 = 0.8;
/// So many possible kitchens as a rule.
pub const LIVES: usize = 192;
/// New kitchens are drawn so often at most.
const ROUNDS: u64 = 4;
/// Learns from bakes, with so many possible kitchens; nothing when there are none, or no kitchen goes with them.
pub fn learn(bakes: &[Noted], number: usize, each: EachLife<'_>) -> Checked<Option<Learnt>> {
    let mut said = Vec::new();
    let Some(first) = bakes.first() else {
        return Checked::clean(None);
    };
    let here = &first.here;
    // Bakes of like days are one to the reckoning: it is done once for all of them.
    let alike: Vec<usize> = bakes
        .iter()
        .map(|bake| {
            let same = bakes.iter().position(|one| one.here.alike(&bake.here));
            same.unwrap_or(0)
        })
        .collect();
    let runs_each = alike
        .iter()
        .enumerate()
        .filter(|(at, like)| at == *like)
        .count()
        * number;
    let in_each = |scores: &dyn Fn(usize) -> Vec<f64>| -> Vec<Vec<Life>> {
        let scores: Vec<Vec<f64>> = (0..number).map(scores).collect();
        let mut made: Vec<Vec<Life>> = Vec::new();
        for (bake, like) in bakes.iter().zip(&alike) {
            let lives = match made.get(*like) {
                Some(lives) => lives.clone(),
                None => each(number, &|at| bake.here.life(scores[at].clone(), 0.0)),
            };
            made.push(lives);
        }
        made
    };
    let round_of = |round: u64, place: u64| round * bakes.len() as u64 + place;
    let mut ways: Vec<Ways> = bakes
        .iter()
        .zip(in_each(&|at| here.scores(at as u64)))
        .zip(0..)
        .map(|((bake, lives), place)| Ways::new(&bake.here, lives, round_of(0, place)))
        .collect();
    let kept: Vec<Vec<Reading>> = bakes
        .iter()
        .zip(&ways)
        .map(|(bake, ways)| heard(&bake.here, ways, &bake.readings, &mut said))
        .collect();
    let (mut rounds, mut runs) = (0, runs_each);
    let mut drawings = Drawings::default();
    let enough = ENOUGH * number as f64;
    loop {
        let all: Vec<&Ways> = ways.iter().collect();
        let Some(weighed) = together(&all, &kept) else {
            return Checked {
                output: None,
                diagnostics: said,
            };
        };
        let more = weighed.that_count < enough && rounds < ROUNDS;
        let bakes_read: Vec<(&Ways, &[Reading])> = ways
            .iter()
            .zip(&kept)
            .map(|(ways, readings)| (ways, readings.as_slice()))
            .collect();
        let bell = more
            .then(|| Bell::of(&bakes_read, drawings.last(number)))
            .flatten();
        let Some(bell) = bell else {
            return Checked {
                output: Some(Learnt {
                    known: known(here, &ways[0], &weighed),
                    counts: (weighed.that_count, ways[0].lives.len()),
                    rounds,
                    runs,
                }),
                diagnostics: said,
            };
        };
        rounds += 1;
        let drawn = bell.draw(here, number, rounds);
        drawings.then(bell);
        runs += runs_each;
        ways = bakes
            .iter()
            .zip(ways)
            .zip(in_each(&|at| drawn[at].clone()))
            .zip(0..)
            .map(|(((bake, ways), lives), place)| {
                ways.and(&bake.here, lives, round_of(rounds, place), &drawings)
            })
            .collect();
    }
}

/// Each possible kitchen weighed by all bakes; the same kitchens stand in the same places of each.
fn together(ways: &[&Ways], readings: &[Vec<Reading>]) -> Option<Weighed> {
    let first = ways.first()?;
    let mut log_goes = vec![0.0; first.lives.len()];
    for (ways, readings) in ways.iter().zip(readings) {
        for (all, own) in log_goes.iter_mut().zip(ways.log_goes(readings)) {
            *all += own;
        }
    }
    let logs: Vec<f64> = log_goes
        .iter()
        .zip(&first.lives)
        .map(|(log, life)| log + life.log_excess)
        .collect();
    let lives = weights(&logs)?;
    Some(Weighed::of_lives(lives, log_goes))
}
