//! Taking flour, water and yeast out of a stage into a preferment of their own, and putting one back.

use super::model::{Formula, Resolved};
use crate::document::model::{Amount, Item, Recipe, Stage};
use crate::larder::Role;
use crate::source::{Located, Span};
use numerics::quantity::{Fraction, Mass};

/// What a preferment shall hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Its name.
    pub name: String,
    /// Flour that goes into it, as a share of the flour of the stage that is split.
    pub flour: Fraction,
    /// Its liquid, as a share of its own flour.
    pub liquid: Fraction,
    /// Yeast that goes into it, as a share of the stage's yeast.
    pub yeast: Fraction,
}

/// Why a stage cannot be split or put back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hindrance {
    /// There is no such stage.
    NoSuchStage,
    /// A share outside 0 to 1, or nothing to put into the preferment.
    ShareOutOfRange,
    /// The stage does not hold flour, liquid and yeast of its own with known masses.
    LacksPart,
    /// The stage has less liquid than the preferment wants.
    TooLittleLiquid,
    /// There is a stage of that name already.
    NameTaken,
    /// The preferment goes whole into no later stage, or into several.
    NotTakenWholeOnce,
    /// An amount that is neither a mass nor the same measure as the one it is added to.
    AmountsDoNotAdd,
}

/// Splits a stage: a new stage before it holds the plan's flour, liquid and yeast, each taken from
/// the stage's items in proportion, and the stage takes the new one whole. Masses come from the
/// formula. Steps and sentences are the author's to write; the new stage has none.
pub fn split(
    recipe: &Recipe,
    formula: &Formula,
    stage: usize,
    plan: &Plan,
) -> Result<Recipe, Hindrance> {
    let (Some(written), Some(sum)) = (recipe.stages.get(stage), formula.stages.get(stage)) else {
        return Err(Hindrance::NoSuchStage);
    };
    let share_fits = |share: Fraction| (0.0..=1.0).contains(&share.si());
    if !share_fits(plan.flour) || !share_fits(plan.yeast) || plan.flour <= Fraction::ZERO {
        return Err(Hindrance::ShareOutOfRange);
    }
    if !(plan.liquid.is_finite() && plan.liquid > Fraction::ZERO) {
        return Err(Hindrance::ShareOutOfRange);
    }
    if recipe
        .stages
        .iter()
        .any(|other| other.name.value == plan.name)
    {
        return Err(Hindrance::NameTaken);
    }
    let part_of = |item: usize| {
        let resolved = sum.items.get(item)?;
        let Resolved::Ingredient(ingredient) = &resolved.what else {
            return None;
        };
        let part = match ingredient.role {
            Role::Flour => Portion::Flour,
            Role::Liquid => Portion::Liquid,
            Role::Yeast(_) => Portion::Yeast,
            _ => return None,
        };
        Some((part, resolved.mass?))
    };
    let total = |wanted: Portion| -> Mass {
        (0..written.items.len())
            .filter_map(part_of)
            .filter(|(part, _)| *part == wanted)
            .map(|(_, mass)| mass)
            .sum()
    };
    let (flour, liquid, yeast) = (
        total(Portion::Flour),
        total(Portion::Liquid),
        total(Portion::Yeast),
    );
    if [flour, liquid, yeast].contains(&Mass::ZERO) {
        return Err(Hindrance::LacksPart);
    }
    let liquid_share = flour * plan.flour.si() * plan.liquid.si() / liquid;
    if liquid_share > 1.0 + 1e-12 {
        return Err(Hindrance::TooLittleLiquid);
    }
    let mut preferment = Vec::new();
    let mut rest = vec![whole_stage(&plan.name)];
    for (place, item) in written.items.iter().enumerate() {
        let share = match part_of(place) {
            Some((Portion::Flour, _)) => plan.flour.si(),
            Some((Portion::Liquid, _)) => liquid_share.min(1.0),
            Some((Portion::Yeast, _)) => plan.yeast.si(),
            None => 0.0,
        };
        let Some((_, mass)) = part_of(place).filter(|_| share > 0.0) else {
            rest.push(item.clone());
            continue;
        };
        preferment.push(with_mass(item, mass * share));
        if share < 1.0 {
            rest.push(with_mass(item, mass - mass * share));
        }
    }
    let mut changed = recipe.clone();
    changed.stages[stage].items = rest;
    let new = Stage {
        name: unplaced(plan.name.clone()),
        items: preferment,
        steps: Vec::new(),
        evaporates: None,
        span: Span::default(),
    };
    changed.stages.insert(stage, new);
    Ok(changed)
}

/// Puts a stage back into the one that takes it whole: its items join those of the same name, the
/// others are added; what evaporates is added. Its steps go with it.
pub fn fold(recipe: &Recipe, name: &str) -> Result<Recipe, Hindrance> {
    let place = recipe
        .stages
        .iter()
        .position(|stage| stage.name.value == name)
        .ok_or(Hindrance::NoSuchStage)?;
    let takers: Vec<(usize, usize)> = recipe
        .stages
        .iter()
        .enumerate()
        .skip(place + 1)
        .flat_map(|(stage, written)| {
            let items = written.items.iter().enumerate();
            items
                .filter(|(_, item)| item.of.value == name)
                .map(move |(item, _)| (stage, item))
        })
        .collect();
    let [(taker, item)] = takers[..] else {
        return Err(Hindrance::NotTakenWholeOnce);
    };
    let of_product = |item: &Item| item.of.value == name;
    let fills = recipe
        .products
        .iter()
        .any(|product| product.from.value == name || product.with.iter().any(of_product));
    if fills || recipe.stages[taker].items[item].take.is_some() {
        return Err(Hindrance::NotTakenWholeOnce);
    }
    let mut changed = recipe.clone();
    let folded = changed.stages.remove(place);
    let stage = &mut changed.stages[taker - 1];
    stage.items.remove(item);
    for from in folded.items {
        match stage
            .items
            .iter_mut()
            .find(|to| to.of.value == from.of.value)
        {
            Some(to) => {
                let sum = match (to.take.as_ref(), from.take.as_ref()) {
                    (Some(one), Some(other)) => added(&one.value, &other.value),
                    _ => None,
                };
                to.take = Some(unplaced(sum.ok_or(Hindrance::AmountsDoNotAdd)?));
                to.also = None;
            }
            None => stage.items.push(from),
        }
    }
    if let Some(more) = folded.evaporates {
        let already = stage
            .evaporates
            .as_ref()
            .map_or(Mass::ZERO, |mass| mass.value);
        stage.evaporates = Some(Located::new(already + more.value, more.span));
    }
    Ok(changed)
}

/// What of a stage goes into a preferment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Portion {
    Flour,
    Liquid,
    Yeast,
}

/// Two amounts together, when they are of one sort.
fn added(one: &Amount, other: &Amount) -> Option<Amount> {
    match (one, other) {
        (Amount::Mass(one), Amount::Mass(other)) => Some(Amount::Mass(*one + *other)),
        (Amount::Measures(one), Amount::Measures(other)) => Some(Amount::Measures(
            [one.as_slice(), other.as_slice()].concat(),
        )),
        (
            Amount::Count { count, size },
            Amount::Count {
                count: more,
                size: other,
            },
        ) if size == other => Some(Amount::Count {
            count: count + more,
            size: size.clone(),
        }),
        _ => None,
    }
}

/// The same item with another mass; a printed measure would no longer be true.
fn with_mass(item: &Item, mass: Mass) -> Item {
    let span = item.take.as_ref().map_or(item.span, |take| take.span);
    Item {
        take: Some(Located::new(Amount::Mass(mass), span)),
        also: None,
        ..item.clone()
    }
}

/// A stage as an item, all of it.
fn whole_stage(name: &str) -> Item {
    Item::bare(unplaced(name.to_owned()), Span::default())
}

fn unplaced<T>(value: T) -> Located<T> {
    Located::new(value, Span::default())
}
