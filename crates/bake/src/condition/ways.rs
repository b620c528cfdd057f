//! All ways that a bake under way may be: possible kitchens, and how the reckoning may stray in each; weighed by readings.

use super::here::Here;
use super::life::Life;
use super::moved::Drawings;
use super::reading::{Possible, Reading, STRAYS_K, STRAYS_LN, Strain};
use numerics::distribution::normal_quantile;
use numerics::draw::{DIMENSIONS, Purpose, SCRAMBLES, unit};
use numerics::math::{exp, ln};
use numerics::weighing::{drawn, that_count, weights};

/// How many ways of straying go with each possible kitchen: they cost no run.
pub const STRAINS: usize = 32;

/// So many ways are enough for the edges of a band.
const SHOWN: usize = 6144;

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
    /// The weight of each possible kitchen, adding to 1.
    pub lives: Vec<f64>,
    /// How many possible kitchens of equal weight say as much.
    pub that_count: f64,
    /// The logarithm of how well each life goes with the readings, without how it was drawn.
    pub(crate) log_goes: Vec<f64>,
    /// How the reckoning strays in each way after the readings, all ways of a life alike likely; empty for a life that
    /// does not count.
    strains: Vec<Vec<Strain>>,
}

impl Weighed {
    /// The lives that are weighed together by several bakes: how the reckoning strayed in each is no matter any more.
    pub(crate) fn of_lives(lives: Vec<f64>, log_goes: Vec<f64>) -> Self {
        Self {
            that_count: that_count(&lives),
            lives,
            log_goes,
            strains: Vec::new(),
        }
    }

    /// Ways that count, each with its weight: all of each life, or fewer where very many lives count.
    pub fn ways<'a>(&'a self, ways: &'a Ways) -> impl Iterator<Item = (Possible<'a>, f64)> {
        let lives = self.strains.iter().step_by(STRAINS);
        let count = lives.filter(|strains| !strains.is_empty()).count();
        let each = (SHOWN / count.max(1)).clamp(4, STRAINS);
        let all = self.strains.iter().enumerate();
        all.filter(move |(way, strains)| way % STRAINS < each && !strains.is_empty())
            .map(move |(way, strains)| {
                let place = way / STRAINS;
                let weight = self.lives[place] / each as f64;
                let life = &ways.lives[place];
                (Possible { life, strains }, weight)
            })
    }
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
    pub fn new(here: &Here, lives: Vec<Life>, round: u64) -> Self {
        let strains = (0..(lives.len() * STRAINS) as u64)
            .map(|way| {
                // The ways of one life are neighbours in one scramble, so that they fill their square evenly.
                let life = way / STRAINS as u64;
                here.strains(round, way * SCRAMBLES + life % SCRAMBLES)
            })
            .collect();
        Self { lives, strains }
    }

    /// More lives, of a later drawing, and every life weighed by how often it was drawn in all.
    pub(crate) fn and(
        mut self,
        here: &Here,
        lives: Vec<Life>,
        round: u64,
        drawings: &Drawings,
    ) -> Self {
        let more = Self::new(here, lives, round);
        self.lives.extend(more.lives);
        self.strains.extend(more.strains);
        for life in &mut self.lives {
            life.log_excess = drawings.log_excess(&life.scores);
        }
        self
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

    /// How well each life goes with the readings, as logarithms, however the reckoning strayed.
    pub fn log_goes(&self, readings: &[Reading]) -> Vec<f64> {
        let by_step = by_step(readings);
        let of = |place: usize| {
            let own = self.goes(place, &by_step, 1.0);
            own.iter().map(|logs| mean(logs)).sum()
        };
        (0..self.lives.len()).map(of).collect()
    }

    /// How well each way of a life goes with the readings of each step, as logarithms.
    fn goes(&self, place: usize, by_step: &[(usize, Vec<&Reading>)], power: f64) -> Vec<Vec<f64>> {
        let of_step = |(_, readings): &(usize, Vec<&Reading>)| {
            let way = |at: usize| {
                let possible = self.of(place * STRAINS + at);
                let goes = readings.iter().filter_map(|one| possible.goes_with(one));
                power * goes.sum::<f64>()
            };
            (0..STRAINS).map(way).collect()
        };
        by_step.iter().map(of_step).collect()
    }

    /// Weighs every life by the readings; a reading of which a life knows nothing says nothing about it. None when no
    /// life at all goes with them.
    pub fn weighed(&self, readings: &[Reading]) -> Option<Weighed> {
        self.weighed_at(readings, 1.0)
    }

    /// The same with readings that count less, to a power between 0 and 1.
    ///
    /// The reckoning strays in each step by itself, so a life's weight is a product over the steps: in each the
    /// mean of how well its ways of straying go with that step's readings. (The mean of the products would be the same
    /// with very many ways; with few, chance among them would be all that it shows.)
    pub fn weighed_at(&self, readings: &[Reading], power: f64) -> Option<Weighed> {
        let by_step = by_step(readings);
        let after: Vec<Vec<Vec<f64>>> = (0..self.lives.len())
            .map(|place| self.goes(place, &by_step, power))
            .collect();
        let log_goes: Vec<f64> = after
            .iter()
            .map(|own| own.iter().map(|logs| mean(logs)).sum())
            .collect();
        let logs: Vec<f64> = log_goes
            .iter()
            .zip(&self.lives)
            .map(|(log, life): (&f64, &Life)| log + life.log_excess)
            .collect();
        let lives = weights(&logs)?;
        let mut strains = Vec::with_capacity(self.strains.len());
        for (place, (weight, own)) in lives.iter().zip(&after).enumerate() {
            let before = &self.strains[place * STRAINS..(place + 1) * STRAINS];
            if *weight <= LIGHT {
                strains.extend(before.iter().map(|_| Vec::new()));
                continue;
            }
            let mut made = before.to_vec();
            for ((step, _), logs) in by_step.iter().zip(own) {
                if let Some(weights) = weights(logs) {
                    drawn_anew(&mut made, before, step - 1, &weights);
                }
            }
            strains.extend(made);
        }
        Some(Weighed {
            that_count: that_count(&lives),
            lives,
            log_goes,
            strains,
        })
    }
}

/// Readings by the step that they are of, in order.
fn by_step(readings: &[Reading]) -> Vec<(usize, Vec<&Reading>)> {
    let mut steps: Vec<usize> = readings.iter().map(|one| one.step).collect();
    steps.sort_unstable();
    steps.dedup();
    let of_step = |step: usize| {
        let own = readings.iter().filter(|one| one.step == step);
        (step, own.collect())
    };
    steps.into_iter().map(of_step).collect()
}

/// A life that weighs less than this moves no edge that anybody could see.
const LIGHT: f64 = 1e-7;

/// The logarithm of the mean of what is given as logarithms.
fn mean(logs: &[f64]) -> f64 {
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if !most.is_finite() {
        return most;
    }
    let all: f64 = logs.iter().map(|log| exp(log - most)).sum();
    most + ln(all / logs.len() as f64)
}

/// Draws the strains of one step anew by their weights. Which way gets which goes by the order of what it had there
/// before, which says nothing about any other step.
fn drawn_anew(made: &mut [Vec<Strain>], before: &[Vec<Strain>], place: usize, weights: &[f64]) {
    let Some(had) = before
        .iter()
        .map(|strains| strains.get(place).map(|strain| strain.slower_ln))
        .collect::<Option<Vec<f64>>>()
    else {
        return;
    };
    let mut order: Vec<usize> = (0..had.len()).collect();
    order.sort_by(|one, other| had[*one].total_cmp(&had[*other]));
    for (way, from) in order.into_iter().zip(drawn(weights, had.len(), 0.5)) {
        made[way][place] = before[from][place];
    }
}
