//! New possible kitchens around those that the readings left, when too few of them count.

use super::here::Here;
use super::unknown::Unknown;
use super::ways::{Ways, Weighed};
use numerics::distribution::normal_quantile;
use numerics::draw::{Purpose, unit};
use numerics::math::{exp, ln, pow};
use numerics::symmetric::{forward, lower, times};
use numerics::weighing::{drawn, that_count, weights};

const D: usize = Unknown::ALL.len();

/// One of so many is drawn as at the first, wherever the readings point: what they rule out wrongly is not lost.
const AS_AT_FIRST: usize = 10;

/// How the kitchens of a bake were drawn so far: as at first, and around those that were left, each time as many. A kitchen
/// is weighed by how often it was drawn in all of them together, so that those of an earlier time still count and none
/// that was drawn by a narrow bell counts for too much (Owen and Zhou 2000, J. Am. Stat. Assoc. 95:135; Cornuet,
/// Marin, Mira and Robert 2012, Scand. J. Stat. 39:798; from memory).
#[derive(Default)]
pub struct Drawings(Vec<Around>);

impl Drawings {
    /// Another one.
    pub fn then(&mut self, around: Around) {
        self.0.push(around);
    }

    /// How much more often scores are met than drawn, as a logarithm.
    pub fn log_excess(&self, scores: &[f64]) -> f64 {
        let rarer = self.0.iter().map(|around| exp(-around.log_excess(scores)));
        let all = 1.0 + rarer.sum::<f64>();
        ln((1 + self.0.len()) as f64 / all)
    }
}

/// Where new kitchens are drawn: bells around the old ones, by their weights.
pub struct Around {
    /// Middles, each old score drawn a little towards the mean of all.
    middles: Vec<Vec<f64>>,
    weights: Vec<f64>,
    /// The triangle of one bell.
    triangle: Vec<f64>,
    log_volume: f64,
}

impl Around {
    /// Bells around the lives that the readings left. Where few are left, readings count less for this
    /// purpose, until at least so many of the lives count.
    pub fn new(ways: &Ways, weighed: &Weighed, least: f64) -> Option<Self> {
        let at = |power: f64| -> Option<Vec<f64>> {
            let logs: Vec<f64> = ways
                .lives
                .iter()
                .zip(&weighed.log_goes)
                .map(|(life, log)| power * log + life.log_excess)
                .collect();
            weights(&logs)
        };
        let mut own = at(1.0)?;
        let (mut low, mut high) = (0.0, 1.0);
        while that_count(&own) < least && high - low > 1e-3 {
            let power = 0.5 * (low + high);
            let tried = at(power)?;
            if that_count(&tried) < least {
                high = power;
            } else {
                low = power;
            }
            if high - low <= 2e-3 {
                own = at(low)?;
            }
        }
        let scores = || ways.lives.iter().map(|life| &life.scores);
        let mean: Vec<f64> = (0..D)
            .map(|at| scores().zip(&own).map(|(z, w)| w * z[at]).sum())
            .collect();
        let mut spread = vec![0.0; D * D];
        for (z, w) in scores().zip(&own) {
            for row in 0..D {
                for column in 0..D {
                    spread[row * D + column] +=
                        w * (z[row] - mean[row]) * (z[column] - mean[column]);
                }
            }
        }
        // Few kitchens show less of the spread than there is: as many more count as it has directions, spread as at first.
        let more = D as f64 / (D as f64 + that_count(&own));
        for (at, value) in spread.iter_mut().enumerate() {
            let as_at_first = if at % (D + 1) == 0 { 1.0 } else { 0.0 };
            *value += more * (as_at_first - *value);
        }
        // Silverman's width for the number that counts (1986, eq. 4.14, from memory), and middles drawn
        // in by as much, so that the bells are together no wider than the lives were (Liu and West 2001, from memory).
        let d = D as f64;
        let width = pow(
            4.0 / ((d + 2.0) * that_count(&own).max(2.0)),
            1.0 / (d + 4.0),
        )
        .min(0.95);
        let keep = (1.0 - width * width).sqrt();
        let triangle: Vec<f64> = lower(&spread, D)?.iter().map(|one| one * width).collect();
        let log_volume = (0..D).map(|at| ln(triangle[at * D + at])).sum();
        let middles = scores()
            .map(|z| {
                z.iter()
                    .zip(&mean)
                    .map(|(z, m)| keep * z + (1.0 - keep) * m)
                    .collect()
            })
            .collect();
        Some(Self {
            middles,
            weights: own,
            triangle,
            log_volume,
        })
    }

    /// New scores, so many, each with the logarithm of how much more often it is met than it is drawn.
    pub fn draw(&self, here: &Here, number: usize, round: u64) -> Vec<(Vec<f64>, f64)> {
        let seed = here.seed.wrapping_add(round);
        let from = round * number as u64;
        let fair = unit(seed, Purpose::Moved, 0, 0);
        let ancestors = drawn(&self.weights, number, fair);
        (0..number)
            .zip(0_u64..)
            .map(|(place, at)| {
                let scores: Vec<f64> = if place % AS_AT_FIRST == 0 {
                    here.scores(from + at)
                } else {
                    let by: Vec<f64> = (0..D)
                        .zip(1..)
                        .map(|(_, dimension)| {
                            normal_quantile(unit(seed, Purpose::Moved, at, dimension))
                        })
                        .collect();
                    let moved = times(&self.triangle, &by);
                    let middle = &self.middles[ancestors[place]];
                    middle.iter().zip(&moved).map(|(m, by)| m + by).collect()
                };
                let excess = self.log_excess(&scores);
                (scores, excess)
            })
            .collect()
    }

    /// How much more often scores are met than drawn here, as a logarithm; the same power of 2 pi is left out of both.
    fn log_excess(&self, scores: &[f64]) -> f64 {
        let square = |list: &[f64]| list.iter().map(|one| one * one).sum::<f64>();
        let met = -0.5 * square(scores);
        let logs: Vec<f64> = self
            .middles
            .iter()
            .zip(&self.weights)
            .filter(|(_, weight)| **weight > 0.0)
            .map(|(middle, weight)| {
                let off: Vec<f64> = scores.iter().zip(middle).map(|(z, m)| z - m).collect();
                ln(*weight) - 0.5 * square(&forward(&self.triangle, &off)) - self.log_volume
            })
            .collect();
        let as_at_first = 1.0 / AS_AT_FIRST as f64;
        let most = logs.iter().copied().fold(met, f64::max);
        let bells: f64 = logs.iter().map(|log| exp(log - most)).sum();
        let drawn = (1.0 - as_at_first) * bells + as_at_first * exp(met - most);
        met - (most + ln(drawn))
    }
}
