//! One flour for another: the same mass of flour, with the water that the new one wants, or with gluten.

use super::draft::{At, Draft};
use super::exchange::{merge_alike, replace};
use super::lever::levers;
use super::wish::Coming;
use crate::ledger::say;
use numerics::decimal::{fixed, trimmed};
use numerics::quantity::{Fraction, Mass};
use recipe::larder::{Ingredient, Role};
use recipe::substitution::{Component, absorbs, gluten_for};

/// Swaps the flour of every item, or a share of each.
pub fn swap(draft: &mut Draft, places: &[At], coming: &[Coming], share: f64) {
    let mut water: Vec<(usize, Mass)> = Vec::new();
    // From the last, so that the places before stay what they are.
    for at in places.iter().rev() {
        let At::Stage(stage, _) = *at else { continue };
        let (Some(old), Some(all)) = (draft.ingredient(*at), draft.mass(*at)) else {
            continue;
        };
        let out = all * share;
        let masses = amounts(old, coming, out);
        for (one, mass) in coming.iter().zip(&masses) {
            if one.ingredient.role == Role::Flour {
                let points = absorbs(one.ingredient) - absorbs(old);
                // Added gluten makes up for the protein that the weaker flour lacks.
                let points = if coming.len() > 1 { 0.0 } else { points };
                water.push((stage, *mass * (points / 100.0)));
            }
        }
        let at = replace(draft, *at, coming, &masses, share);
        if share >= 1.0 {
            merge_alike(draft, at);
        }
    }
    give_water(draft, &water);
}

/// Masses of what comes in: the flour, less the gluten that brings it to the protein of the old one.
fn amounts(old: &Ingredient, coming: &[Coming], out: Mass) -> Vec<Mass> {
    let protein = |one: &Ingredient| one.composition.protein.unwrap_or(Fraction::ZERO);
    let gluten = coming
        .iter()
        .position(|one| one.ingredient.role != Role::Flour);
    let flours = coming.len() - usize::from(gluten.is_some());
    let base = coming
        .iter()
        .find(|one| one.ingredient.role == Role::Flour)
        .map(|one| protein(one.ingredient));
    let added = match (gluten, base) {
        (Some(place), Some(base)) => {
            gluten_for(out, protein(old), base, protein(coming[place].ingredient))
                .unwrap_or(Mass::ZERO)
        }
        _ => Mass::ZERO,
    };
    #[expect(clippy::cast_precision_loss, reason = "a handful of flours")]
    let each = (out - super::draft::weighed(added)) / flours.max(1) as f64;
    let of = |place: usize| if Some(place) == gluten { added } else { each };
    (0..coming.len()).map(of).collect()
}

/// Gives or takes the water that the flours want, in the liquid of the same stage if it has one.
fn give_water(draft: &mut Draft, wanted: &[(usize, Mass)]) {
    let all: Mass = wanted.iter().map(|(_, water)| *water).sum();
    let flour = draft.formula().dough.flour;
    if all.abs() < flour * Component::Water.not_worth_weighing() {
        return;
    }
    // One lever for all: that of the stage in which most of the flour is.
    let most = draft
        .formula()
        .stages
        .iter()
        .enumerate()
        .filter(|(_, stage)| stage.in_dough)
        .max_by(|a, b| a.1.flour_share.order(b.1.flour_share))
        .map_or(0, |(place, _)| place);
    let found = levers(draft, most, &[])
        .into_iter()
        .find(|one| one.moves == Component::Water);
    let more = all > Mass::ZERO;
    let points = trimmed((all / flour).abs() * 100.0, 1);
    let Some(lever) = found else {
        draft.said.push(format!(
            "This flour wants {} {} water, and the recipe has no liquid that could be changed.",
            say::mass(all.abs()),
            if more { "more" } else { "less" }
        ));
        return;
    };
    let each = lever
        .ingredient
        .composition
        .water
        .map_or(1.0, numerics::quantity::Fraction::si);
    let (at, name) = (lever.at, lever.ingredient.name.clone());
    let left = (lever.mass + all / each).grams().max(1.0);
    draft.take_mass(at, Mass::from_grams(left));
    draft.said.push(format!(
        "The new flour takes up {} water ({points} points of the flour); the {name} goes from {} \
         to {} g. Hold back or add a spoonful by the feel of the dough.",
        if more { "more" } else { "less" },
        say::mass(lever.mass),
        fixed(super::draft::weighed(Mass::from_grams(left)).grams(), 0),
    ));
}
