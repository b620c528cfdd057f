//! What has to be said beside the figures: what is not known, what is not taken off, what is left over.

use super::list::{Honesty, honesty, note};
use super::share;
use crate::Inputs;
use crate::ledger::say;
use numerics::quantity::Mass;
use recipe::label::{Gap, Label, Nutrient, Why};
use recipe::larder::Role;

/// Every note of a recipe's label, each once.
pub fn notes(inputs: &Inputs, label: &Label<'_>) -> Vec<String> {
    let mut notes = Vec::new();
    let whole = label.whole();
    if !label.bought.missing.is_empty() {
        notes.push(format!(
            "In no figure here, because it was not found or not weighed: {}.",
            say::list(&label.bought.missing)
        ));
    }
    notes.extend(gaps(&whole.gaps));
    let has = |test: fn(&Role) -> bool| {
        let mut lots = label.bought.lots.iter();
        lots.any(|lot| test(&lot.ingredient.role))
    };
    if has(|role| matches!(role, Role::Yeast(_))) && whole.of(Nutrient::Sugars).low > 0.0 {
        notes.push(
            "Yeast eats some of the sugars while the dough rises; nothing is taken off for that."
                .to_owned(),
        );
    }
    let poured: Vec<String> = label
        .bought
        .lots
        .iter()
        .filter(|lot| {
            lot.ingredient
                .composition
                .alcohol
                .is_some_and(|share| share.si() > 0.0)
        })
        .map(|lot| lot.ingredient.name.clone())
        .collect();
    if !poured.is_empty() {
        notes.push(format!(
            "The alcohol of {} counts as poured, though some of it bakes off.",
            say::list(&poured)
        ));
    }
    if whole.of(Nutrient::VitaminD).low > 0.0 {
        notes.push(
            "Vitamins count as put in; what heat takes of them is not known here.".to_owned(),
        );
    }
    if !inputs.formula.besides.is_empty() {
        notes.push(
            "What is for bench, tin and top counts in full, shared among the pieces whose steps \
             name it."
                .to_owned(),
        );
    }
    if label.left_over > Mass::from_grams(1.0) {
        notes.push(format!(
            "{} of dough and filling ({}) are left over and in no piece.",
            say::mass(label.left_over),
            share(label.left_over, label.bought.mass())
        ));
    }
    notes.extend(packs(inputs, label, &[Honesty::ByPack]));
    notes
}

/// What is to be read on packs before an ingredient list is copied.
pub fn list_notes(inputs: &Inputs, label: &Label<'_>) -> Vec<String> {
    packs(inputs, label, &[Honesty::Usual, Honesty::Malt])
}

/// One note for each sort of gap: the ingredients with what is not known of them.
fn gaps(gaps: &[Gap]) -> Vec<String> {
    let mut notes: Vec<String> = Vec::new();
    for why in [Why::OldFat, Why::Pack, Why::Blank, Why::Little] {
        // Ingredients of which the same is not known share a clause.
        let mut clauses: Vec<(Vec<String>, Vec<String>)> = Vec::new();
        let mut names: Vec<&str> = Vec::new();
        for gap in gaps.iter().filter(|gap| gap.why == why) {
            if !names.contains(&gap.ingredient.as_str()) {
                names.push(&gap.ingredient);
            }
        }
        for name in names {
            let mut of = gaps
                .iter()
                .filter(|gap| gap.why == why && gap.ingredient == name)
                .map(|gap| gap.nutrient)
                .filter(|nutrient| *nutrient != Nutrient::ProteinByNitrogen)
                .map(|nutrient| nutrient.words().to_owned())
                .collect::<Vec<_>>();
            of.dedup();
            if of.is_empty() {
                continue;
            }
            match clauses.iter_mut().find(|(nutrients, _)| *nutrients == of) {
                Some((_, names)) => names.push(name.to_owned()),
                None => clauses.push((of, vec![name.to_owned()])),
            }
        }
        for (nutrients, names) in clauses {
            notes.push(sentence(why, &say::list(&nutrients), &say::list(&names)));
        }
    }
    notes
}

fn sentence(why: Why, nutrients: &str, names: &str) -> String {
    let capital = say::capital(nutrients);
    match why {
        Why::OldFat => format!(
            "{capital} of {names} must come from the pack: the tables' figures are from the time \
             of partly hydrogenated oils and are not used."
        ),
        Why::Pack => format!("{capital} of {names}: only the pack can say, so none is counted."),
        Why::Blank => format!("Not in the tables, so not counted: {nutrients} of {names}."),
        Why::Little => format!(
            "By nature there is a little {nutrients} in {names} that the tables do not have; it is not counted."
        ),
    }
}

/// Notes of these sorts.
fn packs(inputs: &Inputs, label: &Label<'_>, sorts: &[Honesty]) -> Vec<String> {
    let mut found: Vec<(Honesty, String)> = Vec::new();
    for product in &label.products {
        for one in honesty(inputs, product) {
            if !found.contains(&one) {
                found.push(one);
            }
        }
    }
    sorts
        .iter()
        .filter_map(|sort| {
            let names: Vec<String> = found
                .iter()
                .filter(|(one, _)| one == sort)
                .map(|(_, name)| name.clone())
                .collect();
            (!names.is_empty()).then(|| note(*sort, &names))
        })
        .collect()
}
