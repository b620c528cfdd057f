//! What makes room for a swap: the liquid, fat, sugar and salt that a recipe has already.

use super::draft::{At, Draft};
use numerics::quantity::Mass;
use recipe::document::model::Action;
use recipe::larder::{Ingredient, Role};
use recipe::substitution::Component;

/// A lever and where it stands.
#[derive(Clone, Copy)]
pub struct Placed<'a> {
    /// Where.
    pub at: At,
    /// What it is.
    pub ingredient: &'a Ingredient,
    /// How much there is.
    pub mass: Mass,
    /// How much must stay.
    pub least: Mass,
    /// What it is moved for.
    pub moves: Component,
}

/// So much of a liquid that wakes yeast stays: with less the granules do not all get wet; common
/// practice.
const STAYS: f64 = 0.7;

/// So much of what another stage holds stays there: a sponge needs its own liquid; common practice.
const STAYS_ELSEWHERE: f64 = 0.5;

/// A liquid has at least so much water.
const WATERY: f64 = 0.75;

/// Whether an ingredient is a liquid that may be taken more or less of.
pub fn is_watery(ingredient: &Ingredient) -> bool {
    let water = ingredient
        .composition
        .water
        .map_or(0.0, numerics::quantity::Fraction::si);
    ingredient.role == Role::Liquid && water >= WATERY
}

/// What an ingredient may be moved for.
fn moves(ingredient: &Ingredient) -> Option<Component> {
    match ingredient.role {
        Role::Liquid if is_watery(ingredient) => Some(Component::Water),
        Role::Fat => Some(Component::Fat),
        Role::Sugar => Some(Component::Sugar),
        Role::Salt => Some(Component::Salt),
        _ => None,
    }
}

/// The best lever for each component: in the same stage if there is one, else the largest of the
/// other stages of the dough. Liquids that wake yeast are the last to be taken from; what goes out
/// is left alone.
pub fn levers<'a>(draft: &Draft<'a>, stage: usize, not: &[At]) -> Vec<Placed<'a>> {
    let formula = draft.formula();
    let mut best: Vec<Placed<'a>> = Vec::new();
    // A filling is balanced within itself.
    let alone = formula.stages.get(stage).is_none_or(|own| !own.in_dough);
    for (s, sums) in formula.stages.iter().enumerate() {
        if s != stage && (alone || !sums.in_dough) {
            continue;
        }
        for (i, sum) in sums.items.iter().enumerate() {
            let at = At::Stage(s, i);
            let (Some(mass), Some(ingredient)) = (sum.mass, draft.ingredient(at)) else {
                continue;
            };
            let Some(moves) = moves(ingredient) else {
                continue;
            };
            if not.contains(&at) {
                continue;
            }
            let least = if wakes(draft, at) {
                mass * STAYS
            } else if s == stage {
                Mass::ZERO
            } else {
                mass * STAYS_ELSEWHERE
            };
            let one = Placed {
                at,
                ingredient,
                mass,
                least,
                moves,
            };
            let here = |at: At| matches!(at, At::Stage(own, _) if own == stage);
            match best.iter_mut().find(|other| other.moves == moves) {
                None => best.push(one),
                Some(other) => {
                    let rank = |one: &Placed| {
                        let (woken, heated) = (wakes(draft, one.at), is_heated(draft, one.at));
                        (!woken, here(one.at), !heated, one.mass)
                    };
                    let nearer = rank(&one) > rank(other);
                    if nearer {
                        *other = one;
                    }
                }
            }
        }
    }
    best
}

/// Whether an item is cooked in its stage, where its share of liquid matters to the pan.
fn is_heated(draft: &Draft, at: At) -> bool {
    let At::Stage(s, _) = at else { return false };
    draft.recipe.stages[s]
        .steps
        .iter()
        .any(|step| matches!(step.action, Action::Heat { .. }))
}

/// Whether a lever stands in a stage and wakes nothing there.
pub fn stands_in(placed: &Placed, stage: usize) -> bool {
    matches!(placed.at, At::Stage(own, _) if own == stage)
}

/// Whether an item wakes yeast.
pub fn wakes(draft: &Draft, at: At) -> bool {
    let At::Stage(s, _) = at else { return false };
    let called = draft.item(at).called();
    draft.recipe.stages[s]
        .steps
        .iter()
        .any(|step| matches!(&step.action, Action::Wake { liquid, .. } if liquid.value == called))
}
