//! How stages flow into each other: what each holds, and what share of it ends in the dough.

use super::contribution::brings;
use super::model::{PartSum, Resolved, ResolvedItem};
use numerics::quantity::Mass;

/// A stage taken by a later one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Take {
    /// The stage that takes.
    pub by: usize,
    /// Which of its items says so.
    pub item: usize,
    /// The earlier stage.
    pub of: usize,
    /// How much of it.
    pub mass: Mass,
    /// As a share of it.
    pub share: f64,
}

/// Every stage's sums and takes.
#[derive(Clone, Debug, Default)]
pub struct Flow {
    /// What each stage brings of its own, evaporation taken off.
    pub own: Vec<PartSum>,
    /// What each stage holds, stages inside it included.
    pub holds: Vec<PartSum>,
    /// Every take, in order of the taking stage.
    pub takes: Vec<Take>,
    /// What share of each stage ends in the dough.
    pub reach: Vec<f64>,
}

/// Adds a share of one sum to another.
pub fn add(to: &mut PartSum, what: &PartSum, share: f64) {
    to.mass += what.mass * share;
    to.flour += what.flour * share;
    to.water += what.water * share;
    to.fat += what.fat * share;
    to.sugar += what.sugar * share;
    to.salt += what.salt * share;
    to.yeast_fresh += what.yeast_fresh * share;
    to.milk_solids += what.milk_solids * share;
    to.egg_solids += what.egg_solids * share;
    to.flour_protein += what.flour_protein * share;
    if share > 0.0 {
        for figure in &what.unknown {
            if !to.unknown.contains(figure) {
                to.unknown.push(figure.clone());
            }
        }
    }
}

impl Flow {
    /// Follows the stages in written order; a stage can hold only earlier ones.
    ///
    /// `ends[s]` says that products are cut from stage `s`.
    pub fn follow(stages: &[Vec<ResolvedItem>], evaporates: &[Mass], ends: &[bool]) -> Self {
        let mut flow = Self::default();
        for (by, items) in stages.iter().enumerate() {
            let mut own = PartSum::default();
            let first_take = flow.takes.len();
            for (item, resolved) in items.iter().enumerate() {
                match (&resolved.what, resolved.mass) {
                    (Resolved::Ingredient(ingredient), Some(mass)) => {
                        add(&mut own, &brings(ingredient, mass), 1.0);
                    }
                    (Resolved::Stage(of), mass) if *of < by => {
                        let whole = flow.holds[*of].mass;
                        let mass = mass.unwrap_or(whole);
                        let share = if whole > Mass::ZERO {
                            mass / whole
                        } else {
                            0.0
                        };
                        flow.takes.push(Take {
                            by,
                            item,
                            of: *of,
                            mass,
                            share,
                        });
                    }
                    _ => {}
                }
            }
            own.mass += -evaporates[by];
            own.water += -evaporates[by];
            let mut holds = own.clone();
            for take in &flow.takes[first_take..] {
                add(&mut holds, &flow.holds[take.of], take.share);
            }
            flow.own.push(own);
            flow.holds.push(holds);
        }
        flow.reach = flow.back_from(|stage| ends[stage]);
        flow
    }

    /// The share of each stage that reaches one of these, directly or through later stages.
    pub fn back_from(&self, is_end: impl Fn(usize) -> bool) -> Vec<f64> {
        let mut reach = vec![0.0; self.own.len()];
        for stage in (0..reach.len()).rev() {
            reach[stage] = if is_end(stage) {
                1.0
            } else {
                let onward = self.takes.iter().filter(|take| take.of == stage);
                f64::min(onward.map(|take| take.share * reach[take.by]).sum(), 1.0)
            };
        }
        reach
    }

    /// Which stages are preferments: they hold yeast and flour, go into a later stage, and more
    /// flour comes after them. A dough to which only butter is added later is no preferment.
    pub fn preferments(&self, ends: &[bool], dough: &PartSum) -> Vec<bool> {
        (0..self.own.len())
            .map(|stage| {
                let holds = &self.holds[stage];
                let goes_on = self.takes.iter().any(|take| take.of == stage);
                goes_on
                    && !ends[stage]
                    && self.reach[stage] > 0.0
                    && holds.yeast_fresh > Mass::ZERO
                    && holds.flour > Mass::ZERO
                    && holds.flour * self.reach[stage] < dough.flour * (1.0 - 1e-9)
            })
            .collect()
    }

    /// What the dough holds.
    pub fn dough(&self) -> PartSum {
        let mut dough = PartSum::default();
        for (own, reach) in self.own.iter().zip(&self.reach) {
            add(&mut dough, own, *reach);
        }
        dough
    }

    /// Flour that passes through a preferment on its way into the dough.
    pub fn prefermented(&self, preferments: &[bool]) -> Mass {
        let mut through = vec![0.0; self.own.len()];
        let mut flour = Mass::ZERO;
        for stage in (0..through.len()).rev() {
            through[stage] = if preferments[stage] {
                self.reach[stage]
            } else {
                let onward = self.takes.iter().filter(|take| take.of == stage);
                onward.map(|take| take.share * through[take.by]).sum()
            };
            flour += self.own[stage].flour * through[stage];
        }
        flour
    }
}
