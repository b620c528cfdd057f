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
    Around, ENOUGH, EachLife, Here, Known, Reading, Ways, Weighed, heard, known,
};
use numerics::weighing::{that_count, weights};
use recipe::source::Checked;

/// One bake with what was read of it.
#[derive(Clone, Debug)]
pub struct Noted<'a> {
    /// The bake, in the kitchen of its day.
    pub here: Here<'a>,
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
/// New kitchens are drawn so often at most.
const ROUNDS: u64 = 4;

/// Learns from bakes, with so many possible kitchens; nothing when there are none, or no kitchen goes with them.
pub fn learn(bakes: &[Noted<'_>], number: usize, each: EachLife<'_>) -> Checked<Option<Learnt>> {
    let mut said = Vec::new();
    let Some(first) = bakes.first() else {
        return Checked::clean(None);
    };
    let here = &first.here;
    let mut drawn: Vec<(Vec<f64>, f64)> = (0..number as u64)
        .map(|at| (here.scores(at), 0.0))
        .collect();
    let (mut rounds, mut runs) = (0, 0);
    let mut kept: Vec<Vec<Reading>> = Vec::new();
    loop {
        let ways: Vec<Ways> = bakes
            .iter()
            .zip(0..)
            .map(|(bake, place): (_, u64)| {
                let lives = each(number, &|at| {
                    let (scores, excess) = &drawn[at];
                    bake.here.life(scores.clone(), *excess)
                });
                runs += number;
                Ways::new(&bake.here, lives, rounds * bakes.len() as u64 + place)
            })
            .collect();
        if kept.is_empty() {
            kept = bakes
                .iter()
                .zip(&ways)
                .map(|(bake, ways)| heard(&bake.here, ways, &bake.readings, &mut said))
                .collect();
        }
        let Some(weighed) = together(&ways, &kept) else {
            return Checked {
                output: None,
                diagnostics: said,
            };
        };
        let more = weighed.that_count < ENOUGH * number as f64 && rounds < ROUNDS;
        if let (true, Some(around)) = (more, Around::new(&ways[0], &weighed, ENOUGH)) {
            rounds += 1;
            drawn = around.draw(here, number, rounds);
            continue;
        }
        return Checked {
            output: Some(Learnt {
                known: known(here, &ways[0], &weighed),
                counts: (weighed.that_count, number),
                rounds,
                runs,
            }),
            diagnostics: said,
        };
    }
}

/// Each possible kitchen weighed by all bakes.
fn together(ways: &[Ways], readings: &[Vec<Reading>]) -> Option<Weighed> {
    let first = ways.first()?;
    let mut log_goes = vec![0.0; first.lives.len()];
    for (ways, readings) in ways.iter().zip(readings) {
        let weighed = ways.weighed(readings)?;
        for (all, own) in log_goes.iter_mut().zip(&weighed.log_goes) {
            *all += own;
        }
    }
    let logs: Vec<f64> = log_goes
        .iter()
        .zip(&first.lives)
        .map(|(log, life)| log + life.log_excess)
        .collect();
    let lives = weights(&logs)?;
    Some(Weighed {
        goes: Vec::new(),
        ways: Vec::new(),
        that_count: that_count(&lives),
        lives,
        log_goes,
    })
}
