//! Eggs of another size: whole ones, and the liquid that trues them up.

use super::draft::{At, Draft, new};
use super::lever::levers;
use crate::ledger::say;
use numerics::quantity::Mass;
use recipe::document::model::Amount;
use recipe::larder::Ingredient;
use recipe::measure::weigh;
use recipe::substitution::{Component, whole_eggs};

/// What one egg of a size weighs without its shell.
pub fn one_of(egg: &Ingredient, size: &str) -> Option<Mass> {
    let one = Amount::Count {
        count: 1.0,
        size: Some(size.to_owned()),
    };
    weigh(egg, &one).ok().map(|(mass, _)| mass)
}

/// Counts an item's eggs in another size.
pub fn resize(draft: &mut Draft, at: At, size: &str) {
    let (Some(egg), Some(mass)) = (draft.ingredient(at), draft.mass(at)) else {
        return;
    };
    let Some(one) = one_of(egg, size) else { return };
    let eggs = whole_eggs(mass, one);
    let (what, before) = (draft.whose(at), draft.shown(at));
    let count = match draft.item(at).take.as_ref().map(|take| &take.value) {
        Some(Amount::Count { count, .. }) => Some(*count),
        _ => None,
    };
    let item = draft.item_mut(at);
    item.take = Some(new(Amount::Count {
        count: eggs.count,
        size: Some(size.to_owned()),
    }));
    item.also = None;
    // Parts counted in eggs become parts by mass only when the count changed.
    if count != Some(eggs.count) {
        draft.reckon(at, mass, eggs.mass, count);
    }
    let after = draft.shown(at);
    draft.changed(what, before, after);
    let At::Stage(stage, _) = at else { return };
    let flour = draft.formula().dough.flour;
    if eggs.water.abs() < flour * Component::Water.not_worth_weighing() {
        return;
    }
    let lever = levers(draft, stage, &[at])
        .into_iter()
        .find(|lever| lever.moves == Component::Water);
    let difference = (mass - eggs.mass).abs();
    let more = eggs.water > Mass::ZERO;
    let Some(lever) = lever else {
        draft.said.push(format!(
            "{} of egg {} than before, and no liquid to true it up.",
            say::mass(difference),
            if more { "less" } else { "more" }
        ));
        return;
    };
    let each = lever
        .ingredient
        .composition
        .water
        .map_or(1.0, numerics::quantity::Fraction::si);
    let left = (lever.mass + eggs.water / each).grams().max(1.0);
    draft.take_mass(lever.at, Mass::from_grams(left));
    draft.said.push(format!(
        "{} {size} eggs hold {} {} than before; the {} makes up for its water.",
        numerics::decimal::trimmed(eggs.count, 1),
        say::mass(difference),
        if more { "less" } else { "more" },
        lever.ingredient.name
    ));
}
