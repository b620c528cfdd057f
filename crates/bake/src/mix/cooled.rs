//! What a cooked paste, a scald or a filling reads when it goes into a dough after its minutes of cooling.

use crate::kitchen::Kitchen;
use crate::simulate::cooled_to;
use numerics::quantity::Temperature;
use recipe::document::model::{Action, Recipe, Stage};
use recipe::formula::model::{Formula, Resolved};

/// What the stages read that are left to cool for a time and then used in a later one, in written
/// order; none for all others: a dough that rests comes in at the temperature of its place.
pub fn left_by_cooling(
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
) -> Vec<Option<Temperature>> {
    let used = |place: usize| {
        let mut items = formula.stages.iter().flat_map(|stage| &stage.items);
        items.any(|item| matches!(item.what, Resolved::Stage(inner) if inner == place))
    };
    let cooled = |(place, stage): (usize, &Stage)| {
        let asked = cools_for_a_time(stage) && used(place);
        asked.then(|| cooled_to(recipe, formula, kitchen, place))?
    };
    recipe.stages.iter().enumerate().map(cooled).collect()
}

/// Whether cooling, by the clock, is the last thing that a stage stands.
fn cools_for_a_time(stage: &Stage) -> bool {
    let stands = |action: &Action| matches!(action, Action::Rest { .. } | Action::Cool { .. });
    let last = stage.steps.iter().rfind(|step| stands(&step.action));
    last.is_some_and(|step| {
        let until = step.until.as_ref().and_then(|until| until.dough.as_ref());
        matches!(step.action, Action::Cool { .. }) && until.is_none()
    })
}
