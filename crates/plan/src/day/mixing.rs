//! How long a mix takes in this kitchen: in lots where the bowl is small, by hand where there is no mixer.

use super::lengths::minutes;
use bake::kitchen::Kitchen;
use bake::mix::{MUCH_BUTTER, by_hand, is_butter, lots};
use numerics::quantity::{Duration, Mass};
use recipe::document::model::{Action, Phase, Recipe, Stage, Step, Tool};
use recipe::formula::Formula;
use recipe::formula::model::{Resolved, StageSum};

/// Minutes of every step that mixes, by its place among all steps of the stages; none for other steps.
pub fn mixing(recipe: &Recipe, formula: &Formula, kitchen: &Kitchen) -> Vec<Option<i32>> {
    let lots = lots(recipe, formula, kitchen);
    let stages = recipe.stages.iter().enumerate();
    let all = stages.flat_map(|(place, stage)| {
        let lots = i32::try_from(lots.get(place).copied().unwrap_or(1)).unwrap_or(1);
        let sums = formula.stages.get(place);
        let mut own: Vec<Option<i32>> = stage.steps.iter().map(written).collect();
        if let Some((last, all)) = worked_by_hand(recipe, stage, sums, kitchen) {
            let others: i32 = own.iter().flatten().sum::<i32>() - own[last].unwrap_or(0);
            own[last] = own[last].map(|written| written.max(all - others));
        }
        own.into_iter()
            .map(move |minutes| minutes.map(|minutes| minutes * lots))
    });
    all.collect()
}

/// A mix as it is written.
fn written(step: &Step) -> Option<i32> {
    let Action::Mix { phases, .. } = &step.action else {
        return None;
    };
    let usual = |phase: &Phase| phase.timing.usual.value;
    let all: Duration = phases.iter().map(usual).sum();
    Some(minutes(all).max(1))
}

/// The last mix of a dough that is written for a mixer where there is none, and how long all its mixes take by hand.
fn worked_by_hand(
    recipe: &Recipe,
    stage: &Stage,
    sums: Option<&StageSum>,
    kitchen: &Kitchen,
) -> Option<(usize, i32)> {
    let mut products = recipe.products.iter();
    let is_dough =
        products.any(|product| product.from.value.eq_ignore_ascii_case(&stage.name.value));
    if !kitchen.by_hand || !is_dough {
        return None;
    }
    let sums = sums?;
    let by_mixer =
        |step: &Step| matches!(&step.action, Action::Mix { by, .. } if by.value == Tool::Mixer);
    let last = stage.steps.iter().rposition(by_mixer)?;
    let butter = sums.items.iter().filter(|item| match &item.what {
        Resolved::Ingredient(ingredient) => is_butter(ingredient),
        _ => false,
    });
    let butter: Mass = butter.filter_map(|item| item.mass).sum();
    let flour = sums.holds.flour;
    let much = flour > Mass::ZERO && butter / flour > MUCH_BUTTER;
    Some((last, by_hand::minutes(much)))
}
