//! What is really taken: scooped or weighed, too much salt, an egg of another size, tired yeast.

use super::super::met::Met;
use super::super::setup::Setup;
use super::super::variable::Variable;
use super::{Facts, things};
use crate::mix::goes_in::is_butter;
use numerics::quantity::{Fraction, Mass};
use recipe::document::model::{Amount, Item};
use recipe::formula::model::{Formula, Resolved, ResolvedItem};
use recipe::formula::sum::{Resolution, add_up};
use recipe::larder::{FLOUR_CUP, Ingredient, Role, YeastForm};

/// From this volume on a cup is filled, below it spoons: a quarter of a US cup, m3.
const CUPS_FROM_M3: f64 = 59e-6;
/// Below this a kitchen scale of 1 g weighs badly, kg.
const FEW_GRAMS: f64 = 0.005;
/// Tablespoon for teaspoon.
const THREE_SPOONS: f64 = 3.0;
/// What yeast in liquid that is too hot can still do (a fifth, from memory).
const KILLED_LEAVES: f64 = 0.2;
/// Dense coarse and flake salt against fine, by the spoon: 4.8 and 2.8 g to 6 g (salt pages, second-hand).
const SALT_BY_SPOON: [f64; 3] = [1.0, 0.80, 0.47];
/// Water that a flour wants more for each point of protein more: 1 to 1.5 points (common practice).
const THIRST: f64 = 1.25;
/// Whole eggs weigh so much without their shell, kg: between these a count is of whole eggs.
const WHOLE_EGG_KG: (f64, f64) = (0.034, 0.075);
/// A large US egg without its shell, kg (USDA classes).
const LARGE_EGG_KG: f64 = 0.050;

/// The formula as it is really made.
pub fn taken(setup: &Setup<'_>, met: &Met, facts: &mut Facts) -> Formula {
    facts.by_volume = !met.yes(Variable::Weighs);
    facts.yeast_power = met.value(Variable::YeastPower);
    facts.killed = met.yes(Variable::LiquidTooHot) && setup.warms_liquid;
    let left_out = left_out(setup, met);
    let mut stages = Vec::with_capacity(setup.formula.stages.len());
    for (place, sums) in setup.formula.stages.iter().enumerate() {
        let written = &setup.recipe.stages[place].items;
        let items = sums.items.iter().zip(written).enumerate();
        stages.push(
            items
                .map(|(at, (resolved, item))| {
                    let gone = left_out == Some((place, at));
                    one(setup, met, item, resolved, gone, facts)
                })
                .collect(),
        );
    }
    let made = add_up(
        setup.recipe,
        Resolution {
            stages,
            with: Vec::new(),
            besides: Vec::new(),
        },
    )
    .output;
    told(setup, &made, facts);
    made
}

/// Which ingredient is left out: its stage and its place there.
fn left_out(setup: &Setup<'_>, met: &Met) -> Option<(usize, usize)> {
    if !met.yes(Variable::LeavesOut) || setup.can_be_left_out.is_empty() {
        return None;
    }
    let count = setup.can_be_left_out.len();
    let at = met.value(Variable::LeftOut).clamp(0.0, 0.999_999) * count as f64;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // below the count
    setup.can_be_left_out.get(at as usize).copied()
}

/// One item as it is really taken.
fn one(
    setup: &Setup<'_>,
    met: &Met,
    item: &Item,
    resolved: &ResolvedItem,
    gone: bool,
    facts: &mut Facts,
) -> ResolvedItem {
    let mut taken = resolved.clone();
    match &mut taken.what {
        Resolved::Stage(_) => {
            // All of an earlier stage is all of what it came to here.
            if item.take.is_none() {
                taken.mass = None;
            }
        }
        Resolved::Unknown(_) => {}
        Resolved::Ingredient(ingredient) => {
            if let Some(mass) = resolved.mass {
                let times = times(setup, met, item, ingredient, mass, facts);
                taken.mass = Some(mass * times);
            }
            bought(met, ingredient, facts);
            if gone {
                taken.mass = Some(Mass::ZERO);
                facts.left_out = Some(ingredient.role);
            }
        }
    }
    taken
}

/// How many times the written mass is taken.
fn times(
    setup: &Setup<'_>,
    met: &Met,
    item: &Item,
    ingredient: &Ingredient,
    mass: Mass,
    facts: &mut Facts,
) -> f64 {
    let weighs = met.yes(Variable::Weighs);
    let counted = match item
        .take
        .as_ref()
        .or(item.each.as_ref())
        .map(|take| &take.value)
    {
        Some(Amount::Count { count, .. }) if *count > 0.0 => Some(*count),
        _ => None,
    };
    let volume = ingredient
        .by_volume
        .as_ref()
        .map(|(density, _)| mass.si() / density.si());
    let cup = volume.is_some_and(|volume| volume >= CUPS_FROM_M3);
    let holds = met.value(if cup {
        Variable::CupHolds
    } else {
        Variable::SpoonHolds
    });
    let spooned = !weighs && volume.is_some();
    let scale = || (mass.grams() + met.value(Variable::ScaleOff)).max(0.0) / mass.grams().max(1e-6);
    let few = |variable: Variable| {
        if mass.si() < FEW_GRAMS && !met.yes(Variable::FineScale) {
            met.value(variable)
        } else if met.yes(Variable::FineScale) {
            1.0
        } else {
            scale()
        }
    };
    match ingredient.role {
        Role::Flour if spooned => {
            met.value(Variable::FlourCup) / FLOUR_CUP.grams() * met.value(Variable::CupHolds)
        }
        Role::Egg => {
            let egg = met.value(Variable::Egg) / 1000.0;
            match counted.map(|count| mass.si() / count) {
                Some(each) if (WHOLE_EGG_KG.0..WHOLE_EGG_KG.1).contains(&each) => egg / each,
                None if weighs => scale(),
                _ => egg / LARGE_EGG_KG,
            }
        }
        Role::Fat if is_butter(ingredient) && !weighs => met.value(Variable::Butter),
        Role::Liquid if spooned => met.value(Variable::Liquid) * holds,
        Role::Salt if spooned => {
            let kind = met.word(Variable::SaltKind).unwrap_or(0);
            facts.other_salt = kind > 0;
            let slip = met.yes(Variable::SpoonMixedUp) && met.value(Variable::LeftOut) < 0.5;
            if slip {
                facts.mixed_up = Some(Role::Salt);
            }
            holds * SALT_BY_SPOON[kind.min(2)] * if slip { THREE_SPOONS } else { 1.0 }
        }
        Role::Salt => few(Variable::FewGramsOfSalt),
        Role::Yeast(form) => {
            let slip =
                spooned && met.yes(Variable::SpoonMixedUp) && met.value(Variable::LeftOut) >= 0.5;
            if slip {
                facts.mixed_up = Some(ingredient.role);
            }
            let measured = match (counted, spooned) {
                (Some(_), _) => 1.0,
                (None, true) => holds * if slip { THREE_SPOONS } else { 1.0 },
                (None, false) => few(Variable::FewGramsOfYeast),
            };
            // What is dead is as if it had not been put in; its grams are not missed.
            let alive = met.value(Variable::YeastPower).clamp(0.0, 1.0)
                * if facts.killed { KILLED_LEAVES } else { 1.0 };
            let other = met.yes(Variable::OtherYeast) && form != YeastForm::Fresh;
            facts.other_yeast |= other && setup.has_dry_yeast;
            measured * alive
        }
        _ if spooned => holds,
        _ if weighs && counted.is_none() => {
            if mass.si() < FEW_GRAMS {
                few(Variable::FewGramsOfSalt)
            } else {
                scale()
            }
        }
        _ => 1.0,
    }
}

/// What was bought in its place.
fn bought(met: &Met, ingredient: &mut Ingredient, facts: &mut Facts) {
    match ingredient.role {
        Role::Flour if things::is_white_flour(ingredient) => {
            let share = |of: Option<Fraction>| of.map_or(0.0, Fraction::si);
            let (protein, water) = (
                share(ingredient.composition.protein),
                share(ingredient.composition.water),
            );
            let bread = (protein >= things::BREAD_FROM) != met.yes(Variable::OtherFlour);
            let drawn = met.value(if bread {
                Variable::BreadProtein
            } else {
                Variable::PlainProtein
            });
            let moisture = met.value(Variable::FlourMoisture);
            facts.protein_more = drawn - protein;
            facts.moisture_more = moisture - water;
            things::flour(ingredient, drawn, moisture);
        }
        Role::Liquid if met.yes(Variable::MilkSkimmed) && things::is_fat_milk(ingredient) => {
            things::skimmed(ingredient);
        }
        Role::Fat if is_butter(ingredient) => {
            let salted = met.yes(Variable::ButterSalted);
            facts.salted_butter |= salted;
            things::butter(ingredient, met.value(Variable::ButterFat), salted);
        }
        Role::Yeast(form) if met.yes(Variable::OtherYeast) => {
            ingredient.role = Role::Yeast(match form {
                YeastForm::Fresh => YeastForm::Fresh,
                YeastForm::ActiveDry => YeastForm::Instant,
                YeastForm::Instant | YeastForm::InstantOsmotolerant => YeastForm::ActiveDry,
            });
        }
        _ => {}
    }
}

/// How the sums differ from the written ones.
fn told(setup: &Setup<'_>, made: &Formula, facts: &mut Facts) {
    let (written, here) = (&setup.formula.dough, &made.dough);
    let ratio = |one: Mass, other: Mass| {
        if other > Mass::ZERO { one / other } else { 1.0 }
    };
    facts.flour = ratio(here.flour, written.flour);
    facts.liquid = ratio(here.water, written.water);
    facts.yeast = ratio(here.yeast_fresh, written.yeast_fresh);
    let of_flour =
        |sum: &recipe::formula::PartSum, mass: Mass| sum.of_flour(mass).map_or(0.0, Fraction::si);
    let before = of_flour(written, written.water);
    let felt = of_flour(here, here.water) + facts.moisture_more - THIRST * facts.protein_more;
    facts.hydration_of_flour = felt;
    facts.hydration = if before > 0.0 { felt / before } else { 1.0 };
    let salt = of_flour(written, written.salt);
    facts.salt_of_flour = of_flour(here, here.salt);
    facts.salt = if salt > 0.0 {
        facts.salt_of_flour / salt
    } else {
        1.0
    };
    let butter = |sum: &Formula| {
        let stages = sum.stages.iter().filter(|stage| stage.in_dough);
        let items = stages.flat_map(|stage| &stage.items);
        items
            .filter(|item| matches!(&item.what, Resolved::Ingredient(one) if is_butter(one)))
            .filter_map(|item| item.mass)
            .sum::<Mass>()
    };
    facts.butter_of_flour = of_flour(here, butter(made));
}
