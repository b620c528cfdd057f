//! Whether a dough fits the kitchen's bowl, and in how many lots it is mixed when it does not.

use super::goes_in::Bench;
use crate::code;
use crate::kitchen::Kitchen;
use crate::physics::density::density;
use crate::physics::proximate::Proximate;
use crate::physics::specific_heat::OF_A_MIX;
use crate::wording::grams;
use numerics::quantity::{Density, Volume};
use recipe::document::model::Recipe;
use recipe::formula::model::{Formula, Resolved, ResolvedItem, StageSum};
use recipe::formula::vessel::{Mixes, Why, mixes};
use recipe::source::{Diagnostic, Span};

/// Gas beaten into a dough by mixing, of its volume: the middle of 6 to 10 % (from memory).
const GAS: f64 = 0.08;
/// What is not known of an ingredient: a dough without gas (worked out here for 62 % water).
const USUAL: Density = Density::from_si(1220.0);

/// What is to be said when the dough of a product does not fit the bowl.
pub fn room(bench: Bench<'_>, stage: usize, solids: &[Volume], span: Span) -> Option<Diagnostic> {
    let sums = bench.formula.stages.get(stage)?;
    let answer = of_stage(bench.recipe, bench.formula, bench.kitchen, stage, solids)?;
    let why = answer.why?;
    let code = match why {
        Why::FlourAboveLimit { .. } | Why::FlourNearLimit { .. } => code::FLOUR_ABOVE_BOWL,
        Why::BowlTooSmall { .. } => code::BOWL_TOO_SMALL,
    };
    Some(Diagnostic::at(code, span, why.sentence()).hint(format!(
        "Mix it in {} lots of {} each.",
        answer.count,
        grams(sums.mass / f64::from(answer.count)),
    )))
}

/// Of every stage in how many lots it is mixed in this kitchen: one where it fits, or where nothing is known of the bowl.
pub fn lots(recipe: &Recipe, formula: &Formula, kitchen: &Kitchen) -> Vec<u32> {
    let solids = solids(formula);
    let of = |stage| of_stage(recipe, formula, kitchen, stage, &solids);
    let all = (0..formula.stages.len()).map(|stage| of(stage).map_or(1, |mixes| mixes.count));
    all.collect()
}

/// How the dough of a product is mixed; none for what is no such dough.
fn of_stage(
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    stage: usize,
    solids: &[Volume],
) -> Option<Mixes> {
    let sums = formula.stages.get(stage)?;
    let mut products = recipe.products.iter();
    products.find(|product| product.from.value.eq_ignore_ascii_case(&sums.name))?;
    let dough = *solids.get(stage)? / (1.0 - GAS);
    let bowl = &kitchen.bowl;
    let limit = bowl.flour_limit.filter(|_| !kitchen.by_hand);
    Some(mixes(sums.holds.flour, dough, limit, bowl.holds))
}

/// Volumes of all stages without gas, in written order: a stage holds only earlier ones, so each
/// is worked out once.
pub fn solids(formula: &Formula) -> Vec<Volume> {
    let mut all = Vec::with_capacity(formula.stages.len());
    for sums in &formula.stages {
        all.push(volume(formula, sums, &all));
    }
    all
}

/// Volume of a stage without gas: its items', the earlier stages inside it included.
fn volume(formula: &Formula, sums: &StageSum, before: &[Volume]) -> Volume {
    let of_item = |item: &ResolvedItem| -> Volume {
        let Some(mass) = item.mass else {
            return Volume::ZERO;
        };
        match &item.what {
            Resolved::Ingredient(ingredient) => {
                let made_of = Proximate::of(&ingredient.composition);
                mass / made_of
                    .and_then(|of| density(&of, OF_A_MIX))
                    .unwrap_or(USUAL)
            }
            // A stage names only stages written before it; anything else is reported elsewhere.
            Resolved::Stage(earlier) => match before.get(*earlier) {
                Some(volume) => {
                    let whole = formula.stages[*earlier].mass;
                    let part = if whole.si() > 0.0 { mass / whole } else { 1.0 };
                    *volume * part
                }
                None => mass / USUAL,
            },
            Resolved::Unknown(_) => mass / USUAL,
        }
    };
    let steam = sums.evaporates / Density::from_si(1000.0);
    sums.items.iter().map(of_item).sum::<Volume>() - steam
}
