//! From percentages to grams and back.

use super::model::{Formula, PartSum, Resolved};
use numerics::quantity::{Fraction, Mass};

/// A formula in parts of its flour.
#[derive(Clone, Debug, PartialEq)]
pub struct Percentages {
    /// Stages of the dough, in written order.
    pub stages: Vec<StagePercentages>,
}

/// A stage in parts of all flour of the dough.
#[derive(Clone, Debug, PartialEq)]
pub struct StagePercentages {
    /// Its name.
    pub name: String,
    /// Ingredients of its own, by the name that sentences use.
    pub items: Vec<(String, Fraction)>,
    /// Water that evaporates.
    pub evaporates: Fraction,
}

impl Percentages {
    /// Of a formula; none when it holds no flour. A stage of which only part goes into the dough
    /// counts with that part.
    pub fn of(formula: &Formula) -> Option<Self> {
        formula.dough.of_flour(Mass::ZERO)?;
        let stages = formula
            .stages
            .iter()
            .filter(|stage| stage.in_dough)
            .map(|stage| {
                let items = stage
                    .items
                    .iter()
                    .filter(|item| matches!(item.what, Resolved::Ingredient(_)))
                    .filter_map(|item| Some((item.called.clone(), item.of_flour?)))
                    .collect();
                StagePercentages {
                    name: stage.name.clone(),
                    items,
                    evaporates: evaporates_of_flour(stage, &formula.dough),
                }
            })
            .collect();
        Some(Self { stages })
    }

    /// The whole dough in parts of its flour: 1.9887 for 198.87 %.
    pub fn total(&self) -> Fraction {
        self.stages
            .iter()
            .map(|stage| {
                let items: Fraction = stage.items.iter().map(|(_, share)| *share).sum();
                items - stage.evaporates
            })
            .sum()
    }

    /// Mass of flour that this target asks for; none when the percentages come to nothing.
    pub fn flour_for(&self, target: Target) -> Option<Mass> {
        let total = self.total().si();
        let dough = match target {
            Target::Flour(flour) => return (flour > Mass::ZERO).then_some(flour),
            Target::Dough(dough) => dough,
            Target::Pieces { count, piece, trim } => {
                let kept = 1.0 - trim.si();
                if kept <= 0.0 {
                    return None;
                }
                piece * f64::from(count) / kept
            }
        };
        (total > 0.0 && dough > Mass::ZERO).then(|| dough / total)
    }

    /// Masses of every stage's items for a target, in the same order.
    pub fn masses(&self, target: Target) -> Option<Vec<StageMasses>> {
        let flour = self.flour_for(target)?;
        let masses = self.stages.iter().map(|stage| StageMasses {
            name: stage.name.clone(),
            items: stage
                .items
                .iter()
                .map(|(name, share)| (name.clone(), flour * share.si()))
                .collect(),
            evaporates: flour * stage.evaporates.si(),
        });
        Some(masses.collect())
    }
}

/// The part of a stage's evaporation that counts in the dough.
fn evaporates_of_flour(stage: &super::model::StageSum, dough: &PartSum) -> Fraction {
    let whole: Mass = stage.items.iter().filter_map(|item| item.mass).sum();
    let shown = stage
        .items
        .iter()
        .find_map(|item| Some((item.mass?, item.of_flour?)));
    let reach = match shown {
        Some((mass, share)) if mass > Mass::ZERO => dough.flour * share.si() / mass,
        _ => 1.0,
    };
    if whole <= Mass::ZERO {
        return Fraction::ZERO;
    }
    dough
        .of_flour(stage.evaporates * reach)
        .unwrap_or(Fraction::ZERO)
}

/// What the masses shall come to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// So much flour.
    Flour(Mass),
    /// So much dough.
    Dough(Mass),
    /// So many pieces of so much, and a share of the dough for trim.
    Pieces {
        /// How many.
        count: u32,
        /// Each.
        piece: Mass,
        /// Share of the dough that is left when all is cut.
        trim: Fraction,
    },
}

/// A stage in masses.
#[derive(Clone, Debug, PartialEq)]
pub struct StageMasses {
    /// Its name.
    pub name: String,
    /// Ingredients of its own.
    pub items: Vec<(String, Mass)>,
    /// Water that evaporates.
    pub evaporates: Mass,
}
