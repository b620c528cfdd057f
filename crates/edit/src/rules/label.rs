//! Rules about what a label needs and only a pack can say.

use super::{Case, Rule};
use crate::code;
use recipe::formula::{Resolved, ResolvedItem};
use recipe::larder::Trans;
use recipe::source::{Diagnostic, Span};

/// The family.
pub const RULES: &[Rule] = &[fat_by_pack];

/// Fats whose rows date from partly hydrogenated oils, each said once.
fn fat_by_pack(case: &Case) -> Vec<Diagnostic> {
    let (recipe, formula) = (case.inputs.recipe, case.inputs.formula);
    let stages = recipe.stages.iter().zip(&formula.stages);
    let in_stages = stages.flat_map(|(written, sum)| written.items.iter().zip(&sum.items));
    let besides = recipe.besides.iter().zip(&formula.besides);
    let mut said: Vec<&str> = Vec::new();
    let mut all = Vec::new();
    for (written, item) in in_stages.chain(besides) {
        let Some(name) = old_fat(case, item) else {
            continue;
        };
        if !said.contains(&name) {
            all.push(finding(name, written.of.span));
            said.push(name);
        }
    }
    all
}

/// The name of an item whose fats only the pack can say.
fn old_fat<'a>(case: &Case, item: &'a ResolvedItem) -> Option<&'a str> {
    let Resolved::Ingredient(ingredient) = &item.what else {
        return None;
    };
    let nutrients = case.inputs.larder.nutrients(ingredient)?;
    (nutrients.trans == Trans::AskPack || nutrients.saturated.is_none() && is_old(ingredient))
        .then_some(ingredient.name.as_str())
}

fn is_old(ingredient: &recipe::larder::Ingredient) -> bool {
    let mut flags = ingredient.flags.iter();
    flags.any(|flag| flag.starts_with("pho_era"))
}

fn finding(name: &str, span: Span) -> Diagnostic {
    let message = format!(
        "Saturated and trans fat of {name} are not counted in its nutrition: the tables' figures are out of date."
    );
    Diagnostic::at(code::FAT_BY_PACK, span, message).hint(format!(
        "Copy them from your pack: [[pantry]] with name = \"{name}\", saturated = \"18 %\", trans = \"0.5 %\"."
    ))
}
