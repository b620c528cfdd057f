//! New possible kitchens where the readings point, when too few of the first ones count.
//!
//! # Relation
//! Off what was read by o = a + B x + r, straight lines through the last kitchens; then x goes as a bell of
//! precision P = I + B^T R^-1 B about -P^-1 B^T R^-1 a. R is the readings' own errors, how the reckoning strays in a step, and
//! the r that lines leave. New kitchens are drawn from a bell that is somewhat wider.
//!
//! # Symbols
//! x, scores of a kitchen, at first a bell of 1 in each direction; o, what a kitchen would read less what was read.
//!
//! # Valid for
//! Proposals alone: what they are wrong by is put right by the weights.
//!
//! # Source
//! As in [`condition`](super), which names the texts.
//!
//! # Departures
//! "Not yet" is no line and draws no bell; it counts in the weights.
//!
//! # Checked by
//! `tests/verification/weighed.rs`.

use super::here::Here;
use super::reading::{Possible, Reading};
use super::unknown::Unknown;
use super::ways::{STRAINS, Ways};
use numerics::distribution::normal_quantile;
use numerics::draw::{Purpose, unit};
use numerics::math::{exp, ln};
use numerics::symmetric::{forward, inverse, lower, solve, times};

const D: usize = Unknown::ALL.len();

/// One of so many is drawn as at the first, wherever the readings point: what they rule out wrongly is not lost.
const AS_AT_FIRST: usize = 10;
/// So much wider than the bell that lines give: a tail that is drawn too seldom weighs too much (worked out here: in ten directions
/// a bell that is right loses a third of what counts by it).
const WIDER: f64 = 1.15;

/// How the kitchens of a bake were drawn so far: as at first, and where readings pointed, each time as many. A kitchen
/// is weighed by how often it was drawn in all of them together, so that those of an earlier time still count and none
/// that was drawn by a narrow bell counts for too much.
#[derive(Default)]
pub struct Drawings(Vec<Bell>);

impl Drawings {
    /// Another one.
    pub fn then(&mut self, bell: Bell) {
        self.0.push(bell);
    }

    /// How much more often scores are met than drawn, as a logarithm.
    pub fn log_excess(&self, scores: &[f64]) -> f64 {
        let rarer = self.0.iter().map(|bell| exp(-bell.log_excess(scores)));
        let all = 1.0 + rarer.sum::<f64>();
        ln((1 + self.0.len()) as f64 / all)
    }

    /// The kitchens that were drawn last, of so many each time, without those that were drawn as at first.
    pub fn last(&self, number: usize) -> impl Iterator<Item = usize> + Clone + use<> {
        let from = self.0.len() * number;
        let pointed = from > 0;
        (0..number)
            .filter(move |at| !pointed || at % AS_AT_FIRST != 0)
            .map(move |at| from + at)
    }
}

/// Where new kitchens are drawn.
pub struct Bell {
    middle: Vec<f64>,
    /// The triangle of its spread.
    triangle: Vec<f64>,
    log_volume: f64,
}

impl Bell {
    /// The bell of what goes with the readings of one or several bakes; the same kitchens stand in the same places of each, and
    /// `by` are those that lines are drawn through. None when no reading can be drawn by.
    pub fn of(
        bakes: &[(&Ways, &[Reading])],
        by: impl Iterator<Item = usize> + Clone,
    ) -> Option<Self> {
        let offs = Offs::of(bakes, by);
        let n = offs.errors.len();
        if n == 0 {
            return None;
        }
        let lines = offs.lines()?;
        let errors = lower(&lines.errors, n)?;
        // R^-1 of each column of B, and of a.
        let by_errors: Vec<Vec<f64>> = (0..=D)
            .map(|column| {
                let own: Vec<f64> = (0..n).map(|row| lines.slopes[row][column]).collect();
                solve(&errors, &own)
            })
            .collect();
        let product = |column: usize, other: &[f64]| -> f64 {
            (0..n)
                .map(|row| lines.slopes[row][column] * other[row])
                .sum()
        };
        let mut precision = vec![0.0; D * D];
        for row in 0..D {
            for column in 0..D {
                let own = if row == column { 1.0 } else { 0.0 };
                precision[row * D + column] = own + product(row, &by_errors[column]);
            }
        }
        let towards: Vec<f64> = (0..D).map(|row| -product(row, &by_errors[D])).collect();
        let precision = lower(&precision, D)?;
        let spread = inverse(&precision, D);
        let triangle: Vec<f64> = lower(&spread, D)?.iter().map(|one| one * WIDER).collect();
        Some(Self {
            middle: solve(&precision, &towards),
            log_volume: (0..D).map(|at| ln(triangle[at * D + at])).sum(),
            triangle,
        })
    }

    /// New scores, so many.
    pub fn draw(&self, here: &Here, number: usize, round: u64) -> Vec<Vec<f64>> {
        let seed = here.seed.wrapping_add(round);
        let from = round * number as u64;
        let one = |(place, at): (usize, u64)| -> Vec<f64> {
            if place % AS_AT_FIRST == 0 {
                return here.scores(from + at);
            }
            let by: Vec<f64> = (0..D)
                .zip(0..)
                .map(|(_, dimension)| normal_quantile(unit(seed, Purpose::Moved, at, dimension)))
                .collect();
            let moved = times(&self.triangle, &by);
            self.middle
                .iter()
                .zip(&moved)
                .map(|(m, by)| m + by)
                .collect()
        };
        (0..number).zip(0_u64..).map(one).collect()
    }

    /// How much more often scores are met than drawn here, as a logarithm; the same power of 2 pi is left out of both.
    pub fn log_excess(&self, scores: &[f64]) -> f64 {
        let square = |list: &[f64]| list.iter().map(|one| one * one).sum::<f64>();
        let met = -0.5 * square(scores);
        let off: Vec<f64> = scores
            .iter()
            .zip(&self.middle)
            .map(|(z, m)| z - m)
            .collect();
        let bell = -0.5 * square(&forward(&self.triangle, &off)) - self.log_volume;
        let as_at_first = 1.0 / AS_AT_FIRST as f64;
        let most = bell.max(met);
        let drawn = (1.0 - as_at_first) * exp(bell - most) + as_at_first * exp(met - most);
        met - (most + ln(drawn))
    }
}

/// How far possible kitchens read off what was read.
struct Offs {
    /// Of each kitchen its scores and, for each reading, the mean of its ways.
    means: Vec<(Vec<f64>, Vec<f64>)>,
    /// Each reading's own error.
    errors: Vec<f64>,
    /// How the ways of a kitchen stray about its mean, reading by reading, n by n.
    strays: Vec<f64>,
}

/// Lines through them.
struct Lines {
    /// Of each reading, the slope by each score and, last, what it is off where all scores are nothing.
    slopes: Vec<Vec<f64>>,
    /// Errors of all kinds, n by n.
    errors: Vec<f64>,
}

impl Offs {
    fn of(bakes: &[(&Ways, &[Reading])], by: impl Iterator<Item = usize> + Clone) -> Self {
        // A reading of which some kitchen knows nothing draws no line.
        let known = |ways: &Ways, reading: &Reading| {
            by.clone()
                .all(|place| ways.of(place * STRAINS).off(reading).is_some())
        };
        let bakes: Vec<(&Ways, Vec<&Reading>)> = bakes
            .iter()
            .map(|(ways, readings)| {
                let own = readings.iter().filter(|reading| known(ways, reading));
                (*ways, own.collect())
            })
            .collect();
        let errors: Vec<f64> = bakes
            .iter()
            .flat_map(|(ways, readings)| readings.iter().map(move |one| (*ways, *one)))
            .filter_map(|(ways, reading)| {
                let first = by.clone().next()?;
                Some(ways.of(first * STRAINS).off(reading)?.1)
            })
            .collect();
        let n = errors.len();
        let mut strays = vec![0.0; n * n];
        let mut means = Vec::new();
        for place in by {
            let mut own = Vec::with_capacity(n);
            let mut begins = 0;
            for (ways, readings) in &bakes {
                let offs: Vec<Vec<f64>> = (0..STRAINS)
                    .map(|way| all_off(ways.of(place * STRAINS + way), readings))
                    .collect();
                let mean: Vec<f64> = (0..readings.len())
                    .map(|at| offs.iter().map(|way| way[at]).sum::<f64>() / STRAINS as f64)
                    .collect();
                for (row, one) in readings.iter().enumerate() {
                    for (column, other) in readings.iter().enumerate() {
                        // Each step strays by itself.
                        if one.step == other.step {
                            let product: f64 = offs
                                .iter()
                                .map(|way| (way[row] - mean[row]) * (way[column] - mean[column]))
                                .sum();
                            strays[(begins + row) * n + begins + column] +=
                                product / (STRAINS - 1) as f64;
                        }
                    }
                }
                begins += readings.len();
                own.extend(mean);
            }
            let scores = bakes[0].0.lives[place].scores.clone();
            means.push((scores, own));
        }
        let count = means.len().max(1) as f64;
        for one in &mut strays {
            *one /= count;
        }
        Self {
            means,
            errors,
            strays,
        }
    }

    /// Lines by least squares; none when there are too few kitchens.
    fn lines(&self) -> Option<Lines> {
        let n = self.errors.len();
        let free = self.means.len().checked_sub(D + 2)? as f64;
        let at = |scores: &[f64], column: usize| scores.get(column).copied().unwrap_or(1.0);
        let mut squares = vec![0.0; (D + 1) * (D + 1)];
        for (scores, _) in &self.means {
            for row in 0..=D {
                for column in 0..=D {
                    squares[row * (D + 1) + column] += at(scores, row) * at(scores, column);
                }
            }
        }
        let squares = lower(&squares, D + 1)?;
        let slopes: Vec<Vec<f64>> = (0..n)
            .map(|reading| {
                let sums: Vec<f64> = (0..=D)
                    .map(|column| {
                        let product = |(scores, offs): &(Vec<f64>, Vec<f64>)| {
                            at(scores, column) * offs[reading]
                        };
                        self.means.iter().map(product).sum()
                    })
                    .collect();
                solve(&squares, &sums)
            })
            .collect();
        let mut errors = self.strays.clone();
        for (scores, offs) in &self.means {
            let left: Vec<f64> = slopes
                .iter()
                .zip(offs)
                .map(|(slopes, off)| {
                    let line: f64 = (0..=D)
                        .map(|column| slopes[column] * at(scores, column))
                        .sum();
                    off - line
                })
                .collect();
            for row in 0..n {
                for column in 0..n {
                    errors[row * n + column] += left[row] * left[column] / free;
                }
            }
        }
        for (row, error) in self.errors.iter().enumerate() {
            errors[row * n + row] += error * error;
        }
        Some(Lines { slopes, errors })
    }
}

fn all_off(possible: Possible<'_>, readings: &[&Reading]) -> Vec<f64> {
    readings
        .iter()
        .map(|reading| possible.off(reading).map_or(0.0, |(off, _)| off))
        .collect()
}
