//! What keeps a dough and its eaters well: how long egg and milk are warm, butter, sugar and yeast.

use super::heat::core_of;
use super::limits::Limit;
use super::route::{bakes, ingredients, is_butter, is_egg_or_milk, reaching, stage};
use super::{Case, Rule};
use crate::code;
use crate::ledger::say;
use numerics::quantity::{Duration, Fraction, Mass, Temperature};
use recipe::document::model::{Action, Product, Recipe, Step};
use recipe::formula::Formula;
use recipe::formula::bands::{Measured, band};
use recipe::larder::{Ingredient, Role, YeastForm};
use recipe::source::{Code, Diagnostic};

pub const RULES: &[Rule] = &[warm_dough, warm_filling, warm_butter, sugar];

const ZONE: &str = "Zone: US FDA Food Code 3-501.19, four hours for moist food above 21 °C that \
                    is not kept cold; second-hand. It is written for those who sell food.";

/// A recipe with its sums.
type Of<'a> = (&'a Recipe, &'a Formula);

const fn of<'a>(case: &Case<'a>) -> Of<'a> {
    (case.inputs.recipe, case.inputs.formula)
}

/// A rest that counts, with its length.
type Warm<'a> = (&'a Step, Duration);

fn rests(steps: &[Step]) -> impl Iterator<Item = (&Step, Temperature, Duration)> {
    steps.iter().filter_map(|step| match &step.action {
        Action::Rest { at, timing, .. } => Some((step, at.value, timing.usual.value)),
        _ => None,
    })
}

fn warm_rests(steps: &[Step]) -> Vec<Warm<'_>> {
    // A tenth of a degree of a °F figure does not decide.
    rests(steps)
        .filter(|(_, at, _)| at.celsius() >= Limit::WarmHoursBegin.temperature().celsius() - 0.2)
        .map(|(step, _, length)| (step, length))
        .collect()
}

fn sum(warm: &[Warm]) -> Duration {
    warm.iter().map(|(_, length)| *length).sum()
}

/// Whether a stage holds such an ingredient, in stages inside it too.
fn holds((recipe, formula): Of<'_>, last: &str, is: fn(&Ingredient) -> bool) -> bool {
    reaching(recipe, last)
        .into_iter()
        .any(|stage| ingredients(recipe, formula, stage).any(|(_, ingredient, _)| is(ingredient)))
}

/// For every stage the warm rests of it and of the longest way into it, from where egg or milk
/// goes in; each stage is looked at once, in written order.
fn ways((recipe, formula): Of<'_>) -> Vec<Vec<Warm<'_>>> {
    let mut all: Vec<(bool, Vec<Warm<'_>>)> = Vec::with_capacity(recipe.stages.len());
    for (place, stage) in recipe.stages.iter().enumerate() {
        let fed: Vec<usize> = stage
            .items
            .iter()
            .filter_map(|item| {
                let before = &recipe.stages[..place];
                before
                    .iter()
                    .position(|other| other.name.value == item.of.value)
            })
            .collect();
        let own = ingredients(recipe, formula, stage)
            .any(|(_, ingredient, _)| is_egg_or_milk(ingredient));
        let holds = own || fed.iter().any(|feed| all[*feed].0);
        let mut longest = fed
            .iter()
            .map(|feed| &all[*feed].1)
            .max_by(|a, b| sum(a).order(sum(b)))
            .cloned()
            .unwrap_or_default();
        if holds {
            longest.extend(warm_rests(&stage.steps));
        }
        all.push((holds, longest));
    }
    all.into_iter().map(|(_, warm)| warm).collect()
}

fn fully_baked(product: &Product) -> bool {
    bakes(product)
        .filter_map(core_of)
        .any(|core| core.value >= Limit::EggBakedThrough.temperature())
}

/// Of every product the rests in which its dough is warm with egg or milk in it.
fn of_products((recipe, formula): Of<'_>) -> Vec<(&Product, Vec<Warm<'_>>)> {
    let ways = ways((recipe, formula));
    let all = recipe.products.iter().filter_map(|product| {
        let from = &product.from.value;
        let place = recipe
            .stages
            .iter()
            .position(|stage| stage.name.value == *from)?;
        let mut warm = ways[place].clone();
        if holds((recipe, formula), from, is_egg_or_milk) {
            warm.extend(warm_rests(&product.steps));
        }
        Some((product, warm))
    });
    all.collect()
}

/// What so much time warm is, and what follows from it; nothing while it is not too much.
fn weighed(product: &Product, total: Duration) -> Option<(Code, &'static str)> {
    if total <= Limit::WarmHours.time() {
        return None;
    }
    Some(if total > Limit::WarmHoursAtMost.time() {
        (
            code::WARM_TOO_LONG,
            "a bake does not undo what some germs leave behind",
        )
    } else if fully_baked(product) {
        (
            code::WARM_OVER_FOUR_HOURS,
            "a full bake follows, so this is for your information",
        )
    } else {
        (
            code::WARM_TOO_LONG,
            "no temperature in the middle is written that would make it safe",
        )
    })
}

const LESS_WARM: &str = "Put one of the rises into the refrigerator, or let the flour and water part ripen without egg and milk.";

/// The same of a plan. `stands`: of products by their places, how many minutes their rests stand, by the places of those
/// among all steps from 0. The product that is warm for longest is told.
pub fn warm_as_planned(
    recipe: &Recipe,
    formula: &Formula,
    label: &str,
    stands: &[(usize, &[(usize, i32)])],
) -> Option<Diagnostic> {
    let all = stands
        .iter()
        .filter_map(|(product, rests)| as_planned((recipe, formula), *product, rests));
    let (product, total) = all.max_by(|a, b| a.1.order(b.1))?;
    let product = recipe.products.get(product)?;
    let (code, then) = weighed(product, total)?;
    let finding = Diagnostic::whole(
        code,
        format!(
            "{label}: as it is planned, dough with egg or milk stands out of the refrigerator for {} until {} is baked, more than {}; {then}.",
            say::duration(total),
            product.name.value,
            say::duration(Limit::WarmHours.time())
        ),
    );
    Some(finding.hint(LESS_WARM).because("Rests written at 21 °C or warmer, as long as they are planned, from where egg or milk goes in.").because(ZONE))
}

/// How long a product's dough is warm when its rests stand so many minutes.
fn as_planned(
    (recipe, formula): Of<'_>,
    product: usize,
    rests: &[(usize, i32)],
) -> Option<(usize, Duration)> {
    let mut planned = recipe.clone();
    for (step, minutes) in rests {
        let step = plan::day::lengths::step_mut(&mut planned, *step)?;
        if let Action::Rest { timing, .. } = &mut step.action {
            timing.usual.value = Duration::from_minutes(f64::from(*minutes));
        }
    }
    let own = planned.products.get(product)?;
    let all = of_products((&planned, formula));
    let (_, warm) = all
        .into_iter()
        .find(|(other, _)| std::ptr::eq(*other, own))?;
    Some((product, sum(&warm)))
}

fn warm_dough(case: &Case) -> Vec<Diagnostic> {
    let worst = of_products(of(case))
        .into_iter()
        .max_by(|a, b| sum(&a.1).order(sum(&b.1)));
    let Some((product, warm)) = worst else {
        return Vec::new();
    };
    let total = sum(&warm);
    let Some((code, then)) = weighed(product, total) else {
        return Vec::new();
    };
    let (first, _) = warm[0];
    let mut finding = Diagnostic::at(
        code,
        first.text.span,
        format!(
            "Dough with egg or milk stands at 21 °C or warmer for {} until {} is baked, more than \
             {}; {then}.",
            say::duration(total),
            product.name.value,
            say::duration(Limit::WarmHours.time())
        ),
    )
    .hint(LESS_WARM)
    .because("Written rests at 21 °C or warmer, by their usual times, from where egg or milk goes in; a rise after the refrigerator is counted whole.")
    .because(ZONE);
    for (step, length) in &warm {
        finding = finding.label(step.span, format!("{} warm", say::duration(*length)));
    }
    vec![finding]
}

fn warm_filling(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let mut found = Vec::new();
    for product in &recipe.products {
        for filling in &product.with {
            let Some(stage) = stage(recipe, &filling.of.value) else {
                continue;
            };
            if !holds(of(case), &stage.name.value, is_egg_or_milk) {
                continue;
            }
            let mut warm = warm_rests(&stage.steps);
            warm.extend(warm_rests(&product.steps));
            let total = sum(&warm);
            if total <= Limit::WarmHours.time() {
                continue;
            }
            found.push(
                Diagnostic::at(
                    code::FILLING_WARM_TOO_LONG,
                    filling.of.span,
                    format!(
                        "The {} holds egg, milk or cream and stands at 21 °C or warmer for {}, \
                         more than {}.",
                        filling.of.value,
                        say::duration(total),
                        say::duration(Limit::WarmHours.time())
                    ),
                )
                .hint("Fill after the rise, let the filled pieces rise in the refrigerator, or take a filling without egg, milk and cream.")
                .because(ZONE),
            );
        }
    }
    found
}

fn warm_butter(case: &Case) -> Vec<Diagnostic> {
    let (recipe, formula) = (case.inputs.recipe, case.inputs.formula);
    let mut found: Vec<Diagnostic> = Vec::new();
    for product in &recipe.products {
        let stages = reaching(recipe, &product.from.value);
        let butter: Mass = stages
            .iter()
            .flat_map(|stage| ingredients(recipe, formula, stage))
            .filter(|(_, ingredient, _)| is_butter(ingredient))
            .filter_map(|(_, _, mass)| mass)
            .sum();
        let share = formula.dough.of_flour(butter).unwrap_or(Fraction::ZERO);
        if share.si() <= Limit::ButterOfWarmRise.share() {
            continue;
        }
        let buttered = stages
            .into_iter()
            .filter(|stage| holds(of(case), &stage.name.value, is_butter));
        for (step, at, _) in buttered
            .flat_map(|stage| rests(&stage.steps))
            .chain(rests(&product.steps))
        {
            let Action::Rest { at: written, .. } = &step.action else {
                continue;
            };
            let said = found
                .iter()
                .any(|finding| finding.span == Some(written.span));
            // A tenth of a degree of a °F figure does not decide.
            if said || at.celsius() <= Limit::RiseOfButterDough.temperature().celsius() + 0.6 {
                continue;
            }
            found.push(
                Diagnostic::at(
                    code::RISE_TOO_WARM_FOR_BUTTER,
                    written.span,
                    format!(
                        "At {} the butter, {} of the flour, runs out of the dough before the oven \
                         sets it; the crumb turns coarse and greasy.",
                        say::temperature(at),
                        say::percent_whole(share)
                    ),
                )
                .hint("Let it rise at 26–29 °C and a little longer."),
            );
        }
    }
    found
}

fn sugar(case: &Case) -> Vec<Diagnostic> {
    let (recipe, formula) = (case.inputs.recipe, case.inputs.formula);
    let dough = &formula.dough;
    let (Some(share), Some(on_water)) = (dough.of_flour(dough.sugar), dough.sugar_on_water())
    else {
        return Vec::new();
    };
    let usual = band(recipe.kind.value, Measured::SugarOnWater);
    let much = usual.is_some_and(|usual| !usual.holds(on_water.si()));
    if !much && share.si() <= Limit::SugarThatSlows.share() + 1e-9 {
        return Vec::new();
    }
    let yeasts: Vec<_> = recipe
        .stages
        .iter()
        .zip(&formula.stages)
        .filter(|(_, sum)| sum.in_dough)
        .flat_map(|(stage, _)| ingredients(recipe, formula, stage))
        .filter_map(|(item, ingredient, _)| match ingredient.role {
            Role::Yeast(form) => Some((item, form)),
            _ => None,
        })
        .collect();
    let ordinary = |form: &YeastForm| matches!(form, YeastForm::ActiveDry | YeastForm::Instant);
    let spoken_for = yeasts.iter().any(|(item, _)| item.note.is_some());
    let Some((item, _)) = yeasts.last() else {
        return Vec::new();
    };
    if spoken_for || !yeasts.iter().all(|(_, form)| ordinary(form)) {
        return Vec::new();
    }
    let code = if much {
        code::SUGAR_WANTS_OTHER_YEAST
    } else {
        code::SUGAR_SLOWS_YEAST
    };
    let says = if much {
        "holds back an ordinary dried yeast so much that rises take half as long again and more"
    } else {
        "slows an ordinary dried yeast; rises take longer than in a lean dough"
    };
    let mut finding = Diagnostic::at(
        code,
        item.of.span,
        format!(
            "Sugar, {} of the flour and {} of the water, {says}.",
            say::percent(share),
            say::percent_whole(on_water)
        ),
    )
    .hint("Take instant yeast made for sweet doughs, or a quarter to a half more of the ordinary one.")
    .hint("If it is meant, say in the yeast's `note` what a reader does with another yeast.");
    if let Some(usual) = usual.filter(|_| much) {
        finding = finding.because(format!(
            "Usual are up to {} of the water: {}.",
            say::percent_whole(Fraction::from_si(usual.high)),
            usual.origin.source
        ));
    }
    vec![finding]
}
