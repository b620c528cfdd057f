//! All ways that a bake under way may be: possible kitchens, and how the reckoning may stray in each; weighed by readings.

use super::here::Here;
use super::life::Life;
use super::reading::{Possible, Reading, STRAYS_K, STRAYS_LN, Strain};
use numerics::distribution::normal_quantile;
use numerics::draw::{DIMENSIONS, Purpose, unit};
use numerics::math::{exp, ln};
use numerics::weighing::{that_count, weights};

/// How many ways of straying go with each possible kitchen: they cost no run.
pub const STRAINS: usize = 16;

/// Ways that a bake may be.
#[derive(Clone, Debug)]
pub struct Ways {
    /// The possible kitchens.
    pub lives: Vec<Life>,
    /// How the reckoning strays: for each life one after the other [`STRAINS`] lists, a strain for each step.
    strains: Vec<Vec<Strain>>,
}

/// Ways weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// The weight of each way, adding to 1, in the order of [`Ways::of`].
    pub ways: Vec<f64>,
    /// The weight of each possible kitchen.
    pub lives: Vec<f64>,
    /// How many possible kitchens of equal weight say as much.
    pub that_count: f64,
    /// The logarithm of how well each way goes with the readings.
    pub(crate) goes: Vec<f64>,
    /// The logarithm of each life's weight before it is put into proportion, without how it was drawn.
    pub(crate) log_goes: Vec<f64>,
}

/// Ways of straying of a number, for so many steps.
pub(super) fn strains(seed: u64, number: u64, steps: usize) -> Vec<Strain> {
    let score = |dimension: usize| match u32::try_from(dimension) {
        Ok(dimension) if dimension < DIMENSIONS => {
            normal_quantile(unit(seed, Purpose::Strays, number, dimension))
        }
        // A recipe of more steps than there are coordinates strays no more from there on.
        _ => 0.0,
    };
    (0..steps)
        .map(|place| Strain {
            slower_ln: STRAYS_LN * score(2 * place),
            warmer_k: STRAYS_K * score(2 * place + 1),
        })
        .collect()
}

impl Ways {
    /// Every life with its ways of straying. `round`: of which drawing they are, so that each has its own.
    pub fn new(here: &Here<'_>, lives: Vec<Life>, round: u64) -> Self {
        let strains = (0..(lives.len() * STRAINS) as u64)
            .map(|number| here.strains(round, number))
            .collect();
        Self { lives, strains }
    }

    /// How many ways there are.
    pub fn count(&self) -> usize {
        self.strains.len()
    }

    /// A way by its number.
    pub fn of(&self, way: usize) -> Possible<'_> {
        Possible {
            life: &self.lives[way / STRAINS],
            strains: &self.strains[way],
        }
    }

    /// Weighs every way by the readings; a reading of which a way knows nothing says nothing about it. None when no
    /// way at all goes with them.
    pub fn weighed(&self, readings: &[Reading]) -> Option<Weighed> {
        self.weighed_without(readings, None)
    }

    /// The same, one life left out.
    pub fn weighed_without(&self, readings: &[Reading], without: Option<usize>) -> Option<Weighed> {
        let goes: Vec<f64> = (0..self.count())
            .map(|way| {
                if without == Some(way / STRAINS) {
                    return f64::NEG_INFINITY;
                }
                let possible = self.of(way);
                readings
                    .iter()
                    .filter_map(|one| possible.goes_with(one))
                    .sum()
            })
            .collect();
        self.in_proportion(goes)
    }

    /// The same weights with readings that count less, to a power between 0 and 1.
    pub fn counting_less(&self, weighed: &Weighed, power: f64) -> Option<Weighed> {
        let goes = weighed.goes.iter();
        // What does not go at all does not go with a part of the reading either.
        self.in_proportion(goes.map(|log| log * power).collect())
    }

    fn in_proportion(&self, goes: Vec<f64>) -> Option<Weighed> {
        let logs: Vec<f64> = goes
            .iter()
            .enumerate()
            .map(|(way, log)| log + self.lives[way / STRAINS].log_excess)
            .collect();
        let ways = weights(&logs)?;
        let lives: Vec<f64> = ways.chunks(STRAINS).map(|own| own.iter().sum()).collect();
        let mean = |own: &[f64]| {
            let most = own.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            if most.is_finite() {
                let all: f64 = own.iter().map(|log| exp(log - most)).sum();
                most + ln(all / own.len() as f64)
            } else {
                most
            }
        };
        Some(Weighed {
            that_count: that_count(&lives),
            log_goes: goes.chunks(STRAINS).map(mean).collect(),
            goes,
            ways,
            lives,
        })
    }
}
