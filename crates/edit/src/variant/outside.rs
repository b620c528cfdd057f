//! What is for bench, tin and top follows a swap: the same mass of the new thing, milk for an egg wash.

use super::draft::{At, Draft};
use super::exchange::become_other;
use super::naming::form;
use super::sentence;
use super::wish::Coming;
use numerics::quantity::Mass;
use recipe::document::model::{Amount, Place};
use recipe::larder::Role;

/// Milk that brushes what one beaten egg did; common practice.
const WASH: Mass = Mass::from_grams(20.0);

/// Swaps what stands outside the dough.
pub fn swap(draft: &mut Draft, at: At, coming: &[Coming], share: f64) {
    let (Some(old), Some(mass)) = (draft.ingredient(at), draft.mass(at)) else {
        return;
    };
    // Part of a flour or milk is swapped in the dough alone.
    if share < 1.0 {
        return;
    }
    let Some(first) = coming.iter().find(|one| {
        !matches!(one.ingredient.role, Role::MilkPowder) && one.ingredient.key != "gluten_vital"
    }) else {
        return;
    };
    if old.role == Role::Egg && first.ingredient.role != Role::Egg {
        wash(draft, at, first);
        return;
    }
    // The same count of a thing that is counted too, else the same mass.
    let counted = draft.item(at).take.as_ref().map(|take| take.value.clone());
    let weighs = counted
        .as_ref()
        .is_some_and(|amount| recipe::measure::weigh(first.ingredient, amount).is_ok());
    let amount = match counted {
        Some(amount @ (Amount::Count { .. } | Amount::Mass(_))) if weighs => amount,
        _ => Amount::Mass(super::draft::weighed(mass)),
    };
    become_other(draft, at, old, first, amount);
    let top = draft
        .item(at)
        .on
        .as_ref()
        .is_some_and(|on| on.value == Place::Top);
    if top && form(old) != form(first.ingredient) {
        draft.said.push(format!(
            "What goes on top was written for {}: read its step again with {}.",
            old.name, first.name
        ));
    }
    merge(draft, at);
}

/// An egg wash without egg.
fn wash(draft: &mut Draft, at: At, coming: &Coming) {
    let Some(old) = draft.ingredient(at) else {
        return;
    };
    let on = draft.item(at).on.as_ref().map(|on| on.value);
    let mass = if on == Some(Place::Top) {
        WASH
    } else {
        draft.mass(at).unwrap_or(WASH)
    };
    become_other(draft, at, old, coming, Amount::Mass(mass));
    merge(draft, at);
    for step in draft
        .recipe
        .products
        .iter_mut()
        .flat_map(|product| &mut product.steps)
    {
        let bracket = format!("Beat [{} for the top]", coming.name);
        let short = step.text.value.starts_with(&bracket)
            || step.text.value.starts_with("Beat [milk for the top]");
        if short {
            step.text.value = step.text.value.replacen("Beat ", "Take ", 1);
        }
        step.text.value = sentence::replace_words(&step.text.value, "egg wash", "wash");
    }
    draft.said.push(format!(
        "Brushed with {} the bread is paler and duller than with egg (common practice).",
        coming.name
    ));
}

/// Two of one thing in one place become one.
fn merge(draft: &mut Draft, at: At) {
    let At::Beside(own) = at else { return };
    let Some(key) = draft.ingredient(at).map(|one| one.key.clone()) else {
        return;
    };
    let on = draft.item(at).on.as_ref().map(|on| on.value);
    let twin = (0..draft.recipe.besides.len())
        .filter(|i| *i != own)
        .map(At::Beside)
        .find(|other| {
            draft.item(*other).on.as_ref().map(|on| on.value) == on
                && draft.ingredient(*other).is_some_and(|one| one.key == key)
        });
    let Some(twin) = twin else { return };
    let (Some(mine), Some(theirs)) = (draft.mass(at), draft.mass(twin)) else {
        return;
    };
    draft.take_mass(twin, mine + theirs);
    let told = draft.changes.len();
    draft.drop_item(at);
    draft.changes.truncate(told);
}
