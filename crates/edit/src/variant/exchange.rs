//! One ingredient for another by what they are made of: milk, butter, sugar, egg, cream, dry milk.

use super::draft::{At, Draft, new, plain_item};
use super::lever::{Placed, is_watery, levers, stands_in};
use super::naming;
use super::wish::Coming;
use crate::code;
use crate::ledger::say;
use numerics::quantity::Mass;
use recipe::document::model::{Action, Amount};
use recipe::larder::{Found, Ingredient, Role};
use recipe::source::Diagnostic;
use recipe::substitution::{Balanced, Component, Lever, NewOne, balance};

/// So much water on the flour is added where it is missing; common practice.
const MUCH_WATER: f64 = 0.03;

/// A dough that is off by more than these shares of the flour is another dough; common practice.
const WATER_OFF: f64 = 0.015;
const FAT_OFF: f64 = 0.05;

/// Less of a lever than this is nothing: it goes.
const NOTHING: Mass = Mass::from_grams(1.0);

/// Swaps one item of a stage, or a share of it.
pub fn exchange(
    draft: &mut Draft,
    at: At,
    coming: &[Coming],
    share: f64,
    others: &[At],
) -> Result<(), Box<Diagnostic>> {
    let At::Stage(stage, _) = at else {
        return Ok(());
    };
    let (Some(old), Some(all)) = (draft.ingredient(at), draft.mass(at)) else {
        return Ok(());
    };
    let out = all * share;
    let mut not = others.to_vec();
    not.push(at);
    let mut found = levers(draft, stage, &not);
    let here = found
        .iter()
        .any(|one| one.moves == Component::Water && stands_in(one, stage));
    let watery = coming.iter().any(|one| is_watery(one.ingredient));
    let in_dough = draft.formula().stages[stage].in_dough;
    let wanted = in_dough && !here && !watery && old.role != Role::Salt;
    let mut water = water(draft).filter(|_| wanted);
    let mut new_ones: Vec<NewOne> = coming
        .iter()
        .map(|one| NewOne {
            ingredient: one.ingredient,
            mass: None,
        })
        .collect();
    if let Some(water) = water {
        new_ones.push(NewOne {
            ingredient: water,
            mass: None,
        });
    }
    // What comes in by name is no lever of the same kind too: it takes all of the room itself.
    found.retain(|lever| {
        let same = |one: &Coming| one.ingredient.role == lever.ingredient.role;
        let twice = coming.iter().any(same) && lever.moves != Component::Water;
        !twice
    });
    if water.is_some() {
        // Much water that is missing is added here; little, or too much, is a matter for the liquid
        // of another stage.
        let flour = draft.formula().dough.flour;
        let own: Vec<Placed> = found
            .iter()
            .copied()
            .filter(|one| one.moves != Component::Water)
            .collect();
        let tried = solve(&[(old, out)], &new_ones, &own, flour);
        let added = tried.new.last().copied().unwrap_or(Mass::ZERO);
        if added > flour * MUCH_WATER || own.len() == found.len() {
            found = own;
        } else {
            water = None;
            new_ones.pop();
        }
    }
    let flour = draft.formula().dough.flour;
    let balanced = solve(&[(old, out)], &new_ones, &found, flour);
    if in_dough {
        possible(old, coming, &balanced, flour)?;
    }
    let firm = naming::form(old) == naming::Form::SolidFat;
    let runny = |one: &Coming| naming::form(one.ingredient) == naming::Form::Oil;
    if !in_dough && firm && coming.iter().any(runny) {
        let name = draft.recipe.stages[stage].name.value.clone();
        draft.said.push(format!(
            "With oil the {name} does not set: brush it on thin, or keep a fat there that is firm \
             when cold (common practice)."
        ));
    }
    // The levers first: places move when an item comes in.
    let mut gone = Vec::new();
    for (placed, mass) in found.iter().zip(&balanced.levers) {
        if *mass < NOTHING {
            gone.push(placed.at);
        } else if *mass != placed.mass {
            draft.take_mass(placed.at, *mass);
        }
    }
    let mut masses = balanced.new;
    let extra = water.map(|_| masses.split_off(coming.len()));
    let at = replace(draft, at, coming, &masses, share);
    if let Some(mass) = extra.and_then(|extra| extra.first().copied())
        && mass > flour * Component::Water.not_worth_weighing()
    {
        let name = draft.free_name(at, "water");
        let mut item = plain_item("water", mass, &name);
        item.from.clone_from(&draft.item(at).from);
        item.at = draft.item(at).at.clone().filter(|_| item.from.is_none());
        draft.put_beside(at, item);
    }
    for at in gone {
        drop_moved(draft, at);
    }
    Ok(())
}

/// Refuses what no lever can make room for: cream for much butter, syrup where there is no liquid.
fn possible(
    old: &Ingredient,
    coming: &[Coming],
    balanced: &Balanced,
    flour: Mass,
) -> Result<(), Box<Diagnostic>> {
    let off = |component| balanced.difference.of(component);
    let name = coming.first().map_or("", |one| one.name.as_str());
    let (water, fat) = (off(Component::Water), off(Component::Fat));
    let reason = if water > flour * WATER_OFF {
        format!(
            "{} would bring {} more water than {}, and the recipe has not so much liquid to give up.",
            say::capital(name),
            say::mass(water),
            old.name
        )
    } else if old.role == Role::Fat && -fat > flour * FAT_OFF {
        format!(
            "With {name} the dough would have {} less fat than with {}, or far too much water.",
            say::mass(-fat),
            old.name
        )
    } else {
        return Ok(());
    };
    Err(Diagnostic::whole(code::SWAP_CANNOT_KEEP, reason)
        .hint("Swap a part of it, for example 25 %.")
        .into())
}

/// Asks the balance.
fn solve(out: &[(&Ingredient, Mass)], new: &[NewOne], levers: &[Placed], flour: Mass) -> Balanced {
    let levers: Vec<Lever> = levers
        .iter()
        .map(|one| Lever {
            ingredient: one.ingredient,
            mass: one.mass,
            least: one.least,
            moves: one.moves,
        })
        .collect();
    balance(out, new, &levers, flour)
}

/// Tap water, as the larder knows it.
fn water<'a>(draft: &Draft<'a>) -> Option<&'a Ingredient> {
    match draft.larder.find("water") {
        Found::One(one) => Some(one),
        _ => None,
    }
}

/// A lever of which nothing is left goes, wherever it is by now.
fn drop_moved(draft: &mut Draft, at: At) {
    // Items were only put in behind others, so one that is not at its old place is further on.
    let At::Stage(s, i) = at else { return };
    let spent = (i..draft.recipe.stages[s].items.len())
        .map(|i| At::Stage(s, i))
        .find(|at| draft.ingredient(*at).is_some_and(is_watery));
    if let Some(at) = spent {
        draft.drop_item(at);
    }
}

/// Puts what comes in into the place of an item, or of a share of it, with these masses.
pub fn replace(draft: &mut Draft, at: At, coming: &[Coming], masses: &[Mass], share: f64) -> At {
    let (Some(old), Some(all)) = (draft.ingredient(at), draft.mass(at)) else {
        return at;
    };
    let mut pairs = coming.iter().zip(masses);
    let mut last = at;
    if share < 1.0 - 1e-9 {
        draft.take_mass(at, all * (1.0 - share));
    } else if let Some((first, mass)) = pairs.next() {
        become_other(
            draft,
            at,
            old,
            first,
            Amount::Mass(super::draft::weighed(*mass)),
        );
    }
    for (one, mass) in pairs {
        if *mass < Mass::from_grams(0.05) {
            continue;
        }
        // One of the same kind that is there already takes it in.
        if let Some(there) = same_kind(draft, at, one) {
            let more = draft.mass(there).unwrap_or(Mass::ZERO);
            draft.take_mass(there, more + *mass);
            continue;
        }
        let name = draft.free_name(last, &one.name);
        let mut item = plain_item(&one.name, *mass, &name);
        item.from.clone_from(&draft.item(at).from);
        item.at = draft.item(at).at.clone().filter(|_| item.from.is_none());
        last = draft.put_beside(last, item);
    }
    at
}

/// An item of the same ingredient in the same stage that no step wakes yeast in.
fn same_kind(draft: &Draft, at: At, coming: &Coming) -> Option<At> {
    let At::Stage(s, own) = at else { return None };
    let all = 0..draft.recipe.stages[s].items.len();
    all.filter(|i| *i != own)
        .map(|i| At::Stage(s, i))
        .find(|at| {
            !super::lever::wakes(draft, *at)
                && draft
                    .ingredient(*at)
                    .is_some_and(|one| one.key == coming.ingredient.key)
        })
}

/// An item becomes another ingredient: its name, amount and state follow.
pub fn become_other(draft: &mut Draft, at: At, old: &Ingredient, coming: &Coming, amount: Amount) {
    let before = (draft.whose(at), draft.shown(at), draft.mass(at));
    let count = match draft.item(at).take.as_ref().map(|take| &take.value) {
        Some(Amount::Count { count, .. }) => Some(*count),
        _ => None,
    };
    let name = naming::called(draft.item(at), old, coming);
    let item = draft.item_mut(at);
    let old_called = item.called().to_owned();
    item.of = new(coming.name.clone());
    // Sentences still call it by the old name until `call` renames them.
    item.name = Some(new(old_called));
    item.take = Some(new(amount));
    item.also = None;
    let name = draft.free_name(at, &name);
    draft.call(at, &name);
    if let (Some(before), Some(after)) = (before.2, draft.mass(at)) {
        draft.reckon(at, before, after, count);
    }
    naming::settle(draft, at, old, coming.ingredient);
    let now = draft.shown(at);
    draft.changed(before.0, before.1, now);
}

/// An egg or milk that merges into one of its new kind that the stage has already.
pub fn merge_alike(draft: &mut Draft, at: At) {
    let At::Stage(s, own) = at else { return };
    let Some(key) = draft.ingredient(at).map(|one| one.key.clone()) else {
        return;
    };
    if super::lever::wakes(draft, at) {
        return;
    }
    let twin = (0..draft.recipe.stages[s].items.len())
        .filter(|i| *i != own)
        .map(|i| At::Stage(s, i))
        .find(|other| {
            !super::lever::wakes(draft, *other)
                && draft.ingredient(*other).is_some_and(|one| one.key == key)
        });
    let Some(twin) = twin else { return };
    let (Some(mine), Some(theirs)) = (draft.mass(at), draft.mass(twin)) else {
        return;
    };
    let called = draft.item(at).called().to_owned();
    let into = draft.item(twin).called().to_owned();
    for step in &mut draft.recipe.stages[s].steps {
        if let Action::Mix {
            adjust: Some(adjust),
            ..
        } = &mut step.action
            && adjust.value == called
        {
            adjust.value.clone_from(&into);
        }
    }
    draft.take_mass(twin, theirs + mine);
    let told = draft.changes.len();
    draft.drop_item(at);
    // That it went into its twin is told by the twin.
    draft.changes.truncate(told);
}
