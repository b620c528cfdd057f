//! Whether a dough fits the kitchen's bowl, and in how many lots it is mixed when it does not.

use super::goes_in::Bench;
use crate::code;
use crate::physics::density::density;
use crate::physics::proximate::Proximate;
use crate::physics::specific_heat::OF_A_MIX;
use crate::wording::grams;
use numerics::quantity::{Density, Volume};
use recipe::formula::model::{Formula, Resolved, ResolvedItem, StageSum};
use recipe::formula::vessel::{Why, mixes};
use recipe::source::{Diagnostic, Span};

/// Gas beaten into a dough by mixing, of its volume: the middle of 6 to 10 % (from memory).
const GAS: f64 = 0.08;
/// What is not known of an ingredient: a dough without gas (worked out here for 62 % water).
const USUAL: Density = Density::from_si(1220.0);

/// What is to be said when the dough of a product does not fit the bowl.
pub fn room(bench: Bench<'_>, stage: usize, solids: &[Volume], span: Span) -> Option<Diagnostic> {
    let sums = bench.formula.stages.get(stage)?;
    let is_final = bench
        .recipe
        .products
        .iter()
        .any(|product| product.from.value.eq_ignore_ascii_case(&sums.name));
    if !is_final {
        return None;
    }
    let dough = *solids.get(stage)? / (1.0 - GAS);
    let bowl = &bench.kitchen.bowl;
    let limit = bowl.flour_limit.filter(|_| !bench.kitchen.by_hand);
    let answer = mixes(sums.holds.flour, dough, limit, bowl.holds);
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

/// Volumes of all stages without gas, in written order: a stage holds only earlier ones, so each
/// is worked out once.
pub fn solids(formula: &Formula) -> Vec<Volume> {
    let mut all = Vec::with_capacity(formula.stages.len());
    for sums in &formula.stages {
        all.push(of_stage(formula, sums, &all));
    }
    all
}

/// Volume of a stage without gas: its items', the earlier stages inside it included.
fn of_stage(formula: &Formula, sums: &StageSum, before: &[Volume]) -> Volume {
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
