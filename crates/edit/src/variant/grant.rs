//! One wish for a swap, granted: what goes is found, who may stand for it is asked, and each place is changed.

use super::bakes::Known;
use super::draft::{At, Draft, ingredient, places};
use super::model::Granted;
use super::wish::{self, Coming, Swap};
use super::{eggs, exchange, flour, naming, outside, yeast};
use crate::code;
use numerics::quantity::Mass;
use recipe::document::model::Recipe;
use recipe::larder::{Found, Ingredient, Larder, Role};
use recipe::source::Diagnostic;
use recipe::substitution::may_stand;

/// Grants a wish, or says why it cannot be granted.
pub fn swap(recipe: &Recipe, larder: &Larder, words: &str) -> Result<Granted, Vec<Diagnostic>> {
    let mut swap = wish::read(words, recipe, larder).map_err(|said| vec![*said])?;
    let found = places(recipe, larder, &swap);
    let title = swap.title();
    let mut draft = Draft::new(recipe, larder);
    let olds = olds(&draft, &found);
    for old in &olds {
        let new: Vec<&Ingredient> = swap.new.iter().map(|one| one.ingredient).collect();
        may_stand(old, &new, swap.share).map_err(|refusal| {
            let mut said = Diagnostic::whole(code::SWAP_CANNOT_KEEP, refusal.reason.clone());
            said.hints.extend(refusal.instead);
            vec![said]
        })?;
    }
    if swap.new.is_empty() && olds.iter().any(|old| old.role == Role::Egg) {
        swap.new = for_egg(recipe, larder);
    }
    if olds.iter().any(|old| old.role == Role::Liquid) {
        pour_first(&mut swap.new, larder);
    }
    let known = known(&draft, &found, swap.share);
    work(&mut draft, &swap, &olds).map_err(|said| vec![*said])?;
    let left = |old: &Ingredient| {
        let all = places_of(&draft, old);
        all.into_iter()
            .filter_map(|at| draft.mass(at))
            .sum::<Mass>()
    };
    let known: Vec<_> = known
        .into_iter()
        .map(|(old, out, flour)| {
            let stays = if swap.share < 1.0 {
                Mass::ZERO
            } else {
                left(old)
            };
            (old, out - stays, flour)
        })
        .filter(|(_, out, _)| *out > Mass::ZERO)
        .collect();
    for (old, out, flour) in known {
        let known = Known { old, out, flour };
        for sentence in known.said(&swap.new) {
            if !draft.said.contains(&sentence) {
                draft.said.push(sentence);
            }
        }
    }
    Ok(Granted {
        recipe: draft.recipe,
        changes: draft.changes,
        said: draft.said,
        title,
    })
}

/// Where an ingredient is in the dough.
fn places_of(draft: &Draft, one: &Ingredient) -> Vec<At> {
    let stages = draft.recipe.stages.iter().enumerate();
    stages
        .flat_map(|(s, stage)| (0..stage.items.len()).map(move |i| At::Stage(s, i)))
        .filter(|at| draft.ingredient(*at).is_some_and(|own| own.key == one.key))
        .collect()
}

/// The ingredients that go, each once.
fn olds<'a>(draft: &Draft<'a>, found: &[At]) -> Vec<&'a Ingredient> {
    let mut olds: Vec<&Ingredient> = Vec::new();
    for at in found {
        if let Some(one) = draft.ingredient(*at)
            && olds.iter().all(|other| other.key != one.key)
        {
            olds.push(one);
        }
    }
    olds
}

/// What is asked about the bake: each ingredient with all that goes of it in the dough.
fn known<'a>(draft: &Draft<'a>, found: &[At], share: f64) -> Vec<(&'a Ingredient, Mass, Mass)> {
    let flour = draft.formula().dough.flour;
    let each = olds(draft, found).into_iter().map(|old| {
        let own = found.iter().filter(|at| {
            matches!(at, At::Stage(..)) && draft.ingredient(**at).is_some_and(|o| o.key == old.key)
        });
        let out: Mass = own.filter_map(|at| draft.mass(*at)).sum();
        (old, out * share, flour)
    });
    each.collect()
}

/// What stands for egg when nothing is named: the recipe's own liquid, or water.
fn for_egg<'a>(recipe: &Recipe, larder: &'a Larder) -> Vec<Coming<'a>> {
    let items = recipe.stages.iter().flat_map(|stage| &stage.items);
    let mut best: Option<Coming<'a>> = None;
    for item in items.chain(&recipe.besides) {
        let Some(one) = ingredient(larder, item) else {
            continue;
        };
        let milky = |one: &Ingredient| one.composition.fat.is_some_and(|fat| fat.si() > 0.005);
        if super::lever::is_watery(one)
            && best
                .as_ref()
                .is_none_or(|other| milky(one) && !milky(other.ingredient))
        {
            best = Some(Coming {
                ingredient: one,
                name: item.of.value.clone(),
                size: None,
            });
        }
    }
    let water = || match larder.find("water") {
        Found::One(water) => Some(Coming {
            ingredient: water,
            name: "water".to_owned(),
            size: None,
        }),
        _ => None,
    };
    best.or_else(water).into_iter().collect()
}

/// What stands for a liquid is poured first; dry milk alone comes with water.
fn pour_first<'a>(coming: &mut Vec<Coming<'a>>, larder: &'a Larder) {
    let poured = |one: &Coming| one.ingredient.role == Role::Liquid;
    if !coming.iter().any(poured)
        && let Found::One(ingredient) = larder.find("water")
    {
        coming.push(Coming {
            ingredient,
            name: "water".to_owned(),
            size: None,
        });
    }
    coming.sort_by_key(|one| !poured(one));
}

/// Changes every place.
fn work(draft: &mut Draft, swap: &Swap, olds: &[&Ingredient]) -> Result<(), Box<Diagnostic>> {
    let larder = draft.larder;
    let find = |draft: &Draft| places(&draft.recipe, larder, swap);
    let found = find(draft);
    let names = names(draft, &found);
    let is = |role: fn(Role) -> bool| olds.iter().any(|old| role(old.role));
    if let Some(size) = swap.sizes().map(str::to_owned) {
        for at in found.iter().rev() {
            eggs::resize(draft, *at, &size);
        }
        return Ok(());
    }
    if swap.new.is_empty() {
        while let Some(at) = find(draft).last().copied() {
            draft.drop_item(at);
        }
        return Ok(());
    }
    if is(|role| role == Role::Flour) {
        flour::swap(draft, &found, &swap.new, swap.share);
        outside_of(draft, swap, &find);
    } else if is(|role| matches!(role, Role::Yeast(_))) {
        yeasts(draft, swap, &find)?;
    } else {
        let turns = if swap.share < 1.0 { 0 } else { found.len() };
        for _ in 0..turns {
            let others = find(draft);
            let Some(at) = in_stages(&others) else { break };
            exchange::exchange(draft, at, &swap.new, 1.0, &others)?;
            exchange::merge_alike(draft, at);
        }
        if swap.share < 1.0 {
            for at in found.iter().rev().filter(|at| matches!(at, At::Stage(..))) {
                exchange::exchange(draft, *at, &swap.new, swap.share, &found)?;
            }
        }
        outside_of(draft, swap, &find);
    }
    if swap.share >= 1.0
        && let (Some(first), Some(old)) = (swap.new.first(), olds.first())
    {
        naming::follow_words(draft, old, &names, first);
    }
    Ok(())
}

/// Swaps every yeast that can be; one that cannot stays and is told, unless none can.
fn yeasts(
    draft: &mut Draft,
    swap: &Swap,
    find: &impl Fn(&Draft) -> Vec<At>,
) -> Result<(), Box<Diagnostic>> {
    let mut stays: Vec<Box<Diagnostic>> = Vec::new();
    let mut done = false;
    for _ in 0..find(draft).len() {
        let left: Vec<At> = find(draft);
        // Those that stay are the last of what is left.
        let Some(at) = left.iter().rev().nth(stays.len()).copied() else {
            break;
        };
        match yeast::swap(draft, at, &swap.new[0]) {
            Ok(()) => done = true,
            Err(said) => stays.push(said),
        }
    }
    match stays.pop() {
        Some(said) if !done => Err(said),
        Some(said) => {
            draft
                .said
                .push(format!("One yeast stays as it is. {}", said.message));
            Ok(())
        }
        None => Ok(()),
    }
}

/// The last place in a stage.
fn in_stages(found: &[At]) -> Option<At> {
    found
        .iter()
        .rev()
        .find(|at| matches!(at, At::Stage(..)))
        .copied()
}

/// Bench, tin and top follow.
fn outside_of(draft: &mut Draft, swap: &Swap, find: &impl Fn(&Draft) -> Vec<At>) {
    if swap.share < 1.0 {
        return;
    }
    let turns = find(draft).len();
    for _ in 0..turns {
        let beside = find(draft)
            .into_iter()
            .rev()
            .find(|at| matches!(at, At::Beside(_)));
        let Some(at) = beside else { break };
        outside::swap(draft, at, &swap.new, swap.share);
    }
}

/// Every name by which sentences may speak of what goes.
fn names(draft: &Draft, found: &[At]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for at in found {
        let item = draft.item(*at);
        for name in [item.called(), item.of.value.as_str()] {
            if !names.iter().any(|own| own == name) {
                names.push(name.to_owned());
            }
        }
    }
    names
}
