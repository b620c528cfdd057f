//! A bake under way, told by its readings: the possible kitchens that this one may be, weighed by what was read.
//!
//! # Relation
//! w(x, e) ~ p(x) p(e) prod over readings of p(reading | x, e). What comes next is told by the shares of this
//! weight. When fewer than a fifth of the possible kitchens count, new ones are drawn where the readings point, and weighed by
//! p(x)/q(x) as well, q being how they were drawn.
//!
//! # Symbols
//! x, how far each thing that is not known well here strays (`unknown`): each a bell by itself. e, how the reckoning
//! strays in each step, in its minutes and in its temperatures (`reading::STRAYS_LN`, `STRAYS_K`). p, how often it is met.
//!
//! # Valid for
//! The simulator's own range. Readings of one step share its e, so ten readings say less than ten independent ones.
//!
//! # Source
//! Weights by readings and systematic draws: Kitagawa 1996; lines through a cloud of runs, and the bell that
//! follows, anew around each cloud: Chen and Oliver 2013, Comput. Geosci. 17:689; several drawings as one: Owen and Zhou 2000, J. Am. Stat.
//! Assoc. 95:135, Cornuet, Marin, Mira and Robert 2012, Scand. J. Stat. 39:798; that a model strays from
//! what it is a model of: Kennedy and O'Hagan 2001, J. R. Stat. Soc. B 63:425. All from memory. How far each thing strays is a
//! judgement, with its label beside it.
//!
//! # Departures
//! Each possible kitchen is simulated once from its mix and looked up afterwards: a step that the cook ended by its sign
//! ends by its sign there too, sooner or later. A step that was ended by the clock is simulated with the minutes it took.
//!
//! # Checked by
//! `tests/verification/weighed.rs`: an exact case. `tests/plausibility/readings.rs`: bands that hold what they say.

mod ahead;
mod here;
mod life;
mod moved;
mod reading;
mod settled;
mod unknown;
mod ways;

pub use ahead::{Ahead, Band, Begun, ahead, last_begun, when_s};
pub use here::{ByClock, Here, here, here_on};
pub use life::{Life, Seen, StepLife};
pub use moved::{Bell, Drawings};
pub use reading::{
    By, CLOCK_S, CRUST, DIAL_K, EYE, LOST, PROBE_K, Possible, Reading, STRAYS_K, STRAYS_LN, Strain,
    What, told_within_s,
};
pub use settled::{Changed, Settled, settle};
pub use unknown::{EDGE, FILM, Strayed, Unknown, with};
pub use ways::{STRAINS, Ways, Weighed};

use crate::code;
use numerics::quantity::Duration;
use numerics::weighing::quantile;
use recipe::source::{Checked, Diagnostic};

/// One possible kitchen, by its place.
pub type OneLife<'a> = dyn Fn(usize) -> Life + Sync + 'a;

/// How so many possible kitchens are simulated: whoever has more than one core may do several at once. They come in
/// the order of their places, whoever did which.
pub type EachLife<'a> = &'a dyn Fn(usize, &OneLife<'_>) -> Vec<Life>;

/// One after the other.
pub fn one_by_one(count: usize, one: &OneLife<'_>) -> Vec<Life> {
    (0..count).map(one).collect()
}

/// So many possible kitchens as a rule.
pub const LIVES: usize = 192;
/// When fewer than this share of them count, new ones are drawn.
pub const ENOUGH: f64 = 0.2;
/// And when fewer than this share do after the last round, readings count less.
pub const AT_LEAST: f64 = 0.1;
/// So often at most.
pub(crate) const ROUNDS: u64 = 3;
/// A reading that is further from all possible bakes than four times its error cannot be.
const OUT_OF_REACH: f64 = -8.0;

/// What is known of one thing after the readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// Which.
    pub unknown: Unknown,
    /// One in ten lies below; a factor, K or W/(m2 K) from what the kitchen is written as.
    pub low: f64,
    /// As many below as above.
    pub middle: f64,
    /// One in ten lies above.
    pub high: f64,
    /// Its band against the one before any reading: 1, nothing was learnt.
    pub narrower: f64,
}

/// A bake under way, told by its readings.
#[derive(Clone, Debug, PartialEq)]
pub struct Conditioned {
    /// Every step that has not ended.
    pub ahead: Vec<Ahead>,
    /// What the readings say about this kitchen.
    pub known: Vec<Known>,
    /// How many possible kitchens count, of how many.
    pub counts: (f64, usize),
    /// How often new ones were drawn.
    pub rounds: u64,
    /// How many runs it took.
    pub runs: usize,
}

/// The first possible kitchens of a bake, before any reading: worth keeping between readings.
pub fn first(here: &Here, number: usize, each: EachLife<'_>) -> Vec<Life> {
    each(number, &|place| here.life(here.scores(place as u64), 0.0))
}

/// Tells a bake under way. `lives`: the first possible kitchens; `now`, `begun`: by the cook's clock.
pub fn condition(
    here: &Here,
    lives: Vec<Life>,
    readings: &[Reading],
    begun: &[Begun],
    now: Duration,
    each: EachLife<'_>,
) -> Checked<Conditioned> {
    let number = lives.len();
    let settled = settle(here, lives, readings, each);
    let output = match settled.output {
        Some(settled) => Conditioned {
            ahead: settled.ahead(here, begun, now),
            known: settled.known(here),
            counts: settled.counts(),
            rounds: settled.rounds,
            runs: settled.runs,
        },
        None => Conditioned {
            ahead: Vec::new(),
            known: Vec::new(),
            counts: (0.0, number),
            rounds: 0,
            runs: number,
        },
    };
    Checked {
        output,
        diagnostics: settled.diagnostics,
    }
}

/// The readings of which something is known and that can be; of the others it is said why they are left out.
pub(crate) fn heard(
    here: &Here,
    ways: &Ways,
    readings: &[Reading],
    said: &mut Vec<Diagnostic>,
) -> Vec<Reading> {
    let mut heard = Vec::new();
    for reading in readings {
        let best = (0..ways.count())
            .filter_map(|way| ways.of(way).goes_with(reading))
            .fold(None, |best: Option<f64>, log| {
                Some(best.map_or(log, |best| best.max(log)))
            });
        let step = here.course.steps.get(reading.step.wrapping_sub(1));
        let of = step.map_or("no step", |step| step.of.as_str());
        match best {
            None => said.push(
                Diagnostic::whole(
                    code::READING_OF_NOTHING,
                    format!(
                        "Nothing is reckoned that the reading in step {} ({of}) could be held against.",
                        reading.step
                    ),
                )
                .hint("Note it at a step in which the dough rises, chills, bakes or cools."),
            ),
            Some(best) if best < OUT_OF_REACH => said.push(
                Diagnostic::whole(
                    code::READING_OUT_OF_REACH,
                    format!(
                        "No dough that this kitchen could have {} in step {} ({of}) after {}\u{a0}min; the reading is left out.",
                        reading.what.of_a_dough(),
                        reading.step,
                        numerics::decimal::fixed(reading.after.minutes(), 0)
                    ),
                )
                .hint("Look whether step, minutes and unit are right; if they are, the recipe was made otherwise than written."),
            ),
            Some(_) => heard.push(*reading),
        }
    }
    heard
}

/// What weighed readings say about each thing that is not known of the kitchen.
pub fn known(here: &Here, ways: &Ways, weighed: &Weighed) -> Vec<Known> {
    let tail = ahead::outside(weighed.that_count);
    let of = |unknown: Unknown| {
        let place = unknown.place();
        let cases: Vec<(f64, f64)> = ways
            .lives
            .iter()
            .zip(&weighed.lives)
            .map(|(life, weight)| (life.scores[place], *weight))
            .collect();
        let at = |share: f64| quantile(&cases, share);
        let (low, middle, high) = (at(tail)?, at(0.5)?, at(1.0 - tail)?);
        let told = |score: f64| here.told(unknown, score);
        Some(Known {
            unknown,
            low: told(low),
            middle: told(middle),
            high: told(high),
            narrower: (high - low) / (2.0 * 1.281_551_565_5),
        })
    };
    Unknown::ALL.into_iter().filter_map(of).collect()
}
