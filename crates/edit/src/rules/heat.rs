//! Ovens and middles: dials, heating up, when to look, and the temperature at which bread is done.

use super::limits::Limit;
use super::route::{added, bakes, stage};
use super::{Case, Rule};
use crate::code;
use crate::ledger::say;
use bake::physics::boiling;
use numerics::decimal::fixed;
use numerics::quantity::{Duration, Temperature, TemperatureDifference};
use recipe::document::model::{Action, Kind, Material, Product, Standing, Step};
use recipe::source::{Diagnostic, Located, Span};

pub const RULES: &[Rule] = &[
    core,
    near_boiling,
    dials,
    heating,
    waits_for_oven,
    late_checks,
    cues,
    cold_moulds,
];

/// Distance from the boiling point within which the middle of a bread creeps, and the half degree
/// that a probe and the day's weather leave open anyway.
const CREEP: TemperatureDifference = TemperatureDifference::from_si(3.0);
const PROBE: TemperatureDifference = TemperatureDifference::from_si(0.5);

/// Where a product's middle is to be read, as its bake or its cue says.
pub fn core_of(step: &Step) -> Option<&Located<Temperature>> {
    let written = match &step.action {
        Action::Bake { core, .. } => core.as_ref(),
        _ => None,
    };
    written.or_else(|| step.until.as_ref().and_then(|until| until.core.as_ref()))
}

fn core(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let mut found = Vec::new();
    for core in recipe.products.iter().flat_map(bakes).filter_map(core_of) {
        let here = say::temperature(core.value);
        if core.value < Limit::CrumbSet.temperature() {
            found.push(
                Diagnostic::at(
                    code::CORE_TOO_LOW,
                    core.span,
                    format!("At {here} in the middle the crumb has not set; it stays gummy."),
                )
                .hint("Rich breads are done at 85–93 °C, lean ones at 93–98 °C."),
            );
        } else if core.value < Limit::LeanCrumbSet.temperature() && recipe.kind.value == Kind::Lean
        {
            found.push(
                Diagnostic::at(
                    code::CORE_LOW_FOR_LEAN,
                    core.span,
                    format!("A lean loaf taken out at {here} has a damp middle and a soft crust."),
                )
                .label(recipe.kind.span, "lean")
                .hint("Take it to 93–98 °C, or look whether `kind` is right."),
            );
        }
    }
    found
}

fn near_boiling(case: &Case) -> Vec<Diagnostic> {
    let kitchen = case.inputs.kitchen;
    let boils = boiling::boiling_point(boiling::pressure(kitchen.altitude));
    case.inputs
        .recipe
        .products
        .iter()
        .flat_map(bakes)
        .filter_map(core_of)
        .filter(|core| core.value > boils - CREEP + PROBE)
        .map(|core| {
            let altitude = fixed(kitchen.altitude.si(), 0);
            let reached = boils - CREEP;
            Diagnostic::at(
                code::CORE_NEAR_BOILING,
                core.span,
                format!(
                    "At {altitude} m water boils at {}, and the middle of a bread stays below \
                     that; {} is reached late or never, while the crust dries.",
                    say::celsius_fine(boils),
                    say::celsius(core.value)
                ),
            )
            .hint(format!(
                "In this kitchen take it out at {}.",
                say::celsius(reached)
            ))
            .because(format!(
                "Boiling point of water at {altitude} m less {}.",
                say::difference(CREEP)
            ))
        })
        .collect()
}

/// Dials that are everyday figures in °F, and no household oven's in °C.
pub(super) const USUAL_FAHRENHEIT: [f64; 6] = [325.0, 350.0, 375.0, 400.0, 425.0, 450.0];
/// Hotter than this many household ovens do not go (250 °C; 500 °F is 260 °C).
const HOT: Temperature = Temperature::from_celsius(250.5);

/// Every dial that is written, in the order of the products.
fn every_dial(products: &[Product]) -> Vec<&Located<Temperature>> {
    let steps = products.iter().flat_map(|product| &product.steps);
    steps
        .flat_map(|step| match &step.action {
            Action::Preheat { to, .. } => vec![to],
            Action::Bake { phases, .. } => phases.iter().map(|phase| &phase.at).collect(),
            _ => Vec::new(),
        })
        .collect()
}

fn dials(case: &Case) -> Vec<Diagnostic> {
    let mut found: Vec<(f64, Diagnostic)> = Vec::new();
    for dial in every_dial(&case.inputs.recipe.products) {
        let celsius = dial.value.celsius();
        if dial.value < HOT {
            continue;
        }
        let digits = fixed(celsius, 0);
        if let Some((_, finding)) = found.iter_mut().find(|(own, _)| fixed(*own, 0) == digits) {
            let again = finding.clone().label(dial.span, "here too");
            *finding = again;
            continue;
        }
        let usual = USUAL_FAHRENHEIT
            .iter()
            .any(|usual| (usual - celsius).abs() < 0.5);
        let meant = Temperature::from_fahrenheit(celsius);
        let finding = if usual {
            Diagnostic::at(
                code::OVEN_LOOKS_LIKE_FAHRENHEIT,
                dial.span,
                format!(
                    "{digits} °C is hotter than a household oven; {digits} °F is an everyday \
                     setting."
                ),
            )
            .hint(format!(
                "Write `\"{digits} °F\"` if that is meant; it is about {}.",
                say::celsius(meant)
            ))
        } else {
            Diagnostic::at(
                code::OVEN_VERY_HOT,
                dial.span,
                format!("{digits} °C is hotter than many household ovens go."),
            )
            .hint(format!(
                "If °F is meant, write so; {digits} °F is about {}.",
                say::celsius(meant)
            ))
            .hint("If it is meant, say in the headnote which oven it takes.")
        };
        found.push((celsius, finding));
    }
    found.into_iter().map(|(_, finding)| finding).collect()
}

/// A difference of dials that is nobody's intention.
const SAME_DIAL: TemperatureDifference = TemperatureDifference::from_si(4.0);

fn heating(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let mut dial: Option<(Temperature, Span)> = None;
    let mut found = Vec::new();
    let of_stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    let of_products = recipe.products.iter().flat_map(|product| &product.steps);
    for step in of_stages.chain(of_products) {
        match &step.action {
            Action::Preheat { to, timing } => {
                if dial.is_none() && timing.usual.value < Limit::HeatingOfOven.time() {
                    found.push(
                        Diagnostic::at(
                            code::PREHEAT_SHORT,
                            timing.usual.span,
                            format!(
                                "{} is short for a cold oven: its air may be hot by then, its \
                                 walls are not, and the first minutes bake too cool.",
                                say::duration(timing.usual.value)
                            ),
                        )
                        .hint("Give it 20–30 min, with a stone or a tray inside 35–45 min."),
                    );
                }
                dial = Some((to.value, to.span));
            }
            Action::Bake { phases, .. } => {
                let (Some(first), Some(last)) = (phases.first(), phases.last()) else {
                    continue;
                };
                match dial {
                    None => found.push(
                        Diagnostic::at(
                            code::PREHEAT_MISSING,
                            first.at.span,
                            "Nothing says that the oven is heated before this bake.",
                        )
                        .hint(format!(
                            "Add a step before it: `preheat = {{ to = \"{} °C\", for = \"25 min\" }}`.",
                            fixed(first.at.value.celsius(), 0)
                        ))
                        .hint("If it begins in a cold oven, say so in the sentence, and how much longer it takes."),
                    ),
                    Some((to, span)) if (to - first.at.value).abs() > SAME_DIAL => found.push(
                        Diagnostic::at(
                            code::PREHEAT_DIFFERS,
                            first.at.span,
                            format!(
                                "The oven stands at {} and this bake begins at {}.",
                                say::oven(to),
                                say::oven(first.at.value)
                            ),
                        )
                        .label(span, "the oven before")
                        .hint("Add a step that turns the oven up or down, with the minutes it takes, or bring the two together."),
                    ),
                    Some(_) => {}
                }
                dial = Some((last.at.value, last.at.span));
            }
            _ => {}
        }
    }
    found
}

/// How long a step takes on the way; what happens inside other waits takes nothing.
fn takes(step: &Step) -> Duration {
    match &step.action {
        Action::Rest { timing, .. }
        | Action::Divide { timing, .. }
        | Action::Shape { timing }
        | Action::Finish { timing } => timing.usual.value,
        _ => Duration::ZERO,
    }
}

fn waits_for_oven(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let mut found = Vec::new();
    let Some(product) = recipe.products.first() else {
        return found;
    };
    let Some(from) = stage(recipe, &product.from.value) else {
        return found;
    };
    let mut waits: Duration = from.steps.iter().map(takes).sum();
    for step in &product.steps {
        match &step.action {
            Action::Bake { .. } => break,
            Action::Preheat { .. } => {}
            _ => waits += takes(step),
        }
    }
    for step in &product.steps {
        let Action::Preheat { timing, .. } = &step.action else {
            continue;
        };
        let heats = timing.usual.value;
        if heats > waits {
            found.push(
                Diagnostic::at(
                    code::PREHEAT_LONGER_THAN_WAIT,
                    timing.usual.span,
                    format!(
                        "The oven heats for {}, and the dough is ready after {}; it would wait \
                         and rise too far.",
                        say::duration(heats),
                        say::duration(waits)
                    ),
                )
                .hint("Move the heating of the oven to an earlier step."),
            );
        }
    }
    found
}

fn late_checks(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for step in case.inputs.recipe.products.iter().flat_map(bakes) {
        let Action::Bake {
            phases,
            check: Some(check),
            ..
        } = &step.action
        else {
            continue;
        };
        let low = added(phases.iter().map(|phase| &phase.timing)).low;
        if check.value > low {
            found.push(
                Diagnostic::at(
                    code::CHECK_TOO_LATE,
                    check.span,
                    format!(
                        "The first look comes after {}, and the bread may be done after {}.",
                        say::duration(check.value),
                        say::duration(low)
                    ),
                )
                .hint(format!(
                    "Look after {} at the latest, better a few minutes before.",
                    say::duration(low)
                )),
            );
        }
    }
    found
}

fn cues(case: &Case) -> Vec<Diagnostic> {
    let seen = |step: &Step| step.until.as_ref().is_some_and(|until| until.see.is_some());
    case.inputs
        .recipe
        .products
        .iter()
        .flat_map(bakes)
        .filter(|step| !seen(step) && core_of(step).is_none())
        .map(|step| {
            Diagnostic::at(
                code::BAKE_WITHOUT_CUE,
                step.text.span,
                "Nothing but the clock tells when this bake is over, and ovens differ by a tenth \
                 and more.",
            )
            .hint("Add `core` for a thermometer, and in `until` what is seen: colour, sound, firmness.")
        })
        .collect()
}

/// A rest colder than this leaves a mould cold.
const COLD: Temperature = Temperature::from_celsius(12.0);

fn cold_moulds(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for product in &case.inputs.recipe.products {
        let Some(tin) = &product.tin else { continue };
        let brittle = [Material::Glass, Material::Stoneware].contains(&tin.material.value);
        let before_bake = product
            .steps
            .iter()
            .take_while(|step| !matches!(step.action, Action::Bake { .. }));
        let last_rest = before_bake
            .filter_map(|step| match &step.action {
                Action::Rest { at, place, .. } => Some((at, place)),
                _ => None,
            })
            .last();
        let Some((at, place)) = last_rest else {
            continue;
        };
        let cold = at.value < COLD || place.value == Standing::Refrigerator;
        if brittle && cold && bakes(product).next().is_some() {
            found.push(
                Diagnostic::at(
                    code::COLD_GLASS_IN_HOT_OVEN,
                    at.span,
                    format!(
                        "The {} is {} and goes from {} into a hot oven; it may crack.",
                        tin.name.value,
                        tin.material.value.word(),
                        say::celsius(at.value)
                    ),
                )
                .label(tin.material.span, tin.material.value.word())
                .hint("Let it stand in the room until it is no longer cold to the hand, or use a metal tin."),
            );
        }
    }
    found
}
