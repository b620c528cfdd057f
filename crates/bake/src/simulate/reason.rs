//! What the simulator was made for, and what is said of a kitchen, a recipe or a run outside of it.

use super::{Course, Ended, StepCourse, around};
use crate::code;
use crate::kitchen::Kitchen;
use crate::wording::{capital, degrees, time, written};
use numerics::decimal::{fixed, trimmed};
use numerics::quantity::{Mass, Temperature};
use recipe::document::model::{Action, OvenPhase, Product, Recipe, Stage, Step, Until};
use recipe::formula::Formula;
use recipe::source::Diagnostic;

/// The coldest and hottest of each place, °C (common practice; the same as a kitchen's file may say, but
/// for the room and the warm place, in which no dough was ever measured that hot).
const ROOM: (f64, f64) = (-10.0, 45.0);
/// See [`ROOM`].
const REFRIGERATOR: (f64, f64) = (-5.0, 15.0);
/// See [`ROOM`].
const WARM_PLACE: (f64, f64) = (-10.0, 50.0);
/// See [`ROOM`].
const TAP: (f64, f64) = (0.0, 50.0);
/// Lowest and highest place where people live, m (from memory).
const HEIGHT_M: (f64, f64) = (-450.0, 5500.0);
/// An oven further from its dial than this is out of order, K (common practice).
const OVEN_OFF_K: f64 = 60.0;
/// Ovens for which films and radiation were had, °C (`around`).
const OVEN: (f64, f64) = (120.0, 260.0);
/// Below it no crumb sets in reasonable time, °C.
const CRUMB_SETS: f64 = 100.0;
/// The heaviest piece that a home oven takes (common practice).
const HEAVIEST: Mass = Mass::from_grams(5000.0);
/// Beyond these nothing can be worked out at all: °C, m.
const TABLES: (f64, f64) = (-60.0, 200.0);
/// The air's pressure is known so far, m.
const AIR_M: (f64, f64) = (-500.0, 11_000.0);

/// Whether a kitchen can be worked out at all.
pub fn bears(kitchen: &Kitchen) -> bool {
    let oven = kitchen.oven.hotter.si();
    let within = |value: f64, (low, high): (f64, f64)| (low..=high).contains(&value);
    places(kitchen)
        .iter()
        .all(|(_, at, _)| within(at.celsius(), TABLES))
        && within(kitchen.altitude.si(), AIR_M)
        && within(oven, (-300.0, 300.0))
}

/// Every place of a kitchen: its key, its temperature, what such a place has.
fn places(kitchen: &Kitchen) -> [(&'static str, Temperature, (f64, f64)); 4] {
    [
        ("room", kitchen.room, ROOM),
        ("refrigerator", kitchen.refrigerator, REFRIGERATOR),
        ("warm-place", kitchen.warm_place, WARM_PLACE),
        ("tap", kitchen.tap, TAP),
    ]
}

/// What is to be said before a run.
pub fn before(recipe: &Recipe, formula: &Formula, kitchen: &Kitchen) -> Vec<Diagnostic> {
    let mut said = of_kitchen(kitchen);
    for product in &recipe.products {
        let mass = recipe::formula::piece_mass(&product.piece.value);
        if mass > HEAVIEST {
            said.push(
                Diagnostic::at(
                    code::PIECE_TOO_LARGE,
                    product.piece.span,
                    format!(
                        "One piece of {} weighs {}\u{a0}kg; the reckoning was made for pieces up to {}\u{a0}kg, and no kitchen oven takes more.",
                        product.name.value,
                        trimmed(mass.si(), 1),
                        trimmed(HEAVIEST.si(), 1)
                    ),
                )
                .hint("Look at the unit: g or kg. If it is meant so, cut it into pieces."),
            );
        }
        said.extend(product.steps.iter().filter_map(|step| oven(step, kitchen)));
    }
    said.extend(without_yeast(recipe, formula));
    said
}

fn of_kitchen(kitchen: &Kitchen) -> Vec<Diagnostic> {
    let mut said = Vec::new();
    for (key, at, (low, high)) in places(kitchen) {
        if !(low..=high).contains(&at.celsius()) {
            said.push(
                Diagnostic::whole(
                    code::KITCHEN_OUT_OF_REASON,
                    format!(
                        "`{key}` of {} is {}; the reckoning holds from {} to {}\u{a0}°C.",
                        kitchen.name,
                        written(at),
                        minus(low),
                        minus(high)
                    ),
                )
                .hint(format!(
                    "Look at the unit of `{key}`: {}\u{a0}°F would be {}\u{a0}°C.",
                    minus(at.celsius()),
                    minus((at.celsius() - 32.0) / 1.8)
                )),
            );
        }
    }
    let height = kitchen.altitude.si();
    if !(HEIGHT_M.0..=HEIGHT_M.1).contains(&height) {
        said.push(
            Diagnostic::whole(
                code::KITCHEN_OUT_OF_REASON,
                format!(
                    "`altitude` of {} is {}\u{a0}m; the reckoning holds from {} to {}\u{a0}m, where crumb still sets before its water boils away.",
                    kitchen.name,
                    minus(height),
                    minus(HEIGHT_M.0),
                    minus(HEIGHT_M.1)
                ),
            )
            .hint("Write the height of the place above the sea, in m."),
        );
    }
    let off = kitchen.oven.hotter.si();
    if off.is_nan() || off.abs() > OVEN_OFF_K {
        said.push(
            Diagnostic::whole(
                code::KITCHEN_OUT_OF_REASON,
                format!(
                    "The oven of {} is {}\u{a0}°C off its dial; more than {}\u{a0}°C is an oven out of order.",
                    kitchen.name,
                    minus(off),
                    fixed(OVEN_OFF_K, 0)
                ),
            )
            .hint("Look at `dial` and `inside` of `[oven]`: both in the same unit."),
        );
    }
    if kitchen.refrigerator > kitchen.room {
        said.push(
            Diagnostic::whole(
                code::REFRIGERATOR_WARMER_THAN_ROOM,
                format!(
                    "The refrigerator of {} has {}, its room {}: a dough would warm where it is to be chilled.",
                    kitchen.name,
                    written(kitchen.refrigerator),
                    written(kitchen.room)
                ),
            )
            .hint("Look whether `room` and `refrigerator` are exchanged."),
        );
    }
    said
}

/// "−10", whole.
fn minus(number: f64) -> String {
    fixed(number, 0).replace('-', "−")
}

/// The coldest setting of a bake, when it is too cold or outside what films and radiation were had for.
fn oven(step: &Step, kitchen: &Kitchen) -> Option<Diagnostic> {
    let Action::Bake { phases, fan, .. } = &step.action else {
        return None;
    };
    let inside = |phase: &OvenPhase| {
        around::dial_here(kitchen, phase.at.value, fan.value) + kitchen.oven.hotter
    };
    let far = |phase: &&OvenPhase| !(OVEN.0..=OVEN.1).contains(&inside(phase).celsius());
    let by_heat =
        |one: &&OvenPhase, other: &&OvenPhase| inside(one).si().total_cmp(&inside(other).si());
    let phase = phases.iter().filter(far).min_by(by_heat)?;
    let here = inside(phase);
    // In its last minutes an oven may fall; a bake that is never hotter sets no crumb.
    let hottest = phases.iter().max_by(by_heat).map(inside)?;
    if hottest.celsius() < CRUMB_SETS {
        return Some(
            Diagnostic::at(
                code::OVEN_TOO_COLD,
                phase.at.span,
                format!(
                    "With its dial at {} the oven of {} has {} inside; below {} no crumb sets.",
                    written(phase.at.value),
                    kitchen.name,
                    degrees(here),
                    degrees(Temperature::from_celsius(CRUMB_SETS))
                ),
            )
            .hint("Look at the dial, and at `dial` and `inside` of the kitchen's oven."),
        );
    }
    Some(
        Diagnostic::at(
            code::RELATION_OUTSIDE_ITS_RANGE,
            phase.at.span,
            format!(
                "An oven of {} inside lies outside {} to {}\u{a0}°C, for which its heat was worked out.",
                degrees(here),
                fixed(OVEN.0, 0),
                fixed(OVEN.1, 0)
            ),
        )
        .hint("Take the minutes as a first guess, and go by the colour and the probe."),
    )
}

/// Whether an end asks a dough to grow.
fn grows(until: &Until) -> bool {
    until.height.is_some()
        || until
            .volume
            .as_ref()
            .is_some_and(|times| times.value > 1.05)
}

/// The first step of each stage and product that waits for a dough without yeast to grow.
fn without_yeast(recipe: &Recipe, formula: &Formula) -> Vec<Diagnostic> {
    let lacks = |name: &str| {
        let found = |stage: &&recipe::formula::StageSum| stage.name.eq_ignore_ascii_case(name);
        let holds = formula.stages.iter().find(found).map(|stage| &stage.holds);
        holds.is_some_and(|holds| holds.flour > Mass::ZERO && holds.yeast_fresh <= Mass::ZERO)
    };
    let stages = recipe
        .stages
        .iter()
        .map(|stage| (&stage.name.value, &stage.name.value, &stage.steps));
    let products = recipe
        .products
        .iter()
        .map(|product| (&product.from.value, &product.name.value, &product.steps));
    stages
        .chain(products)
        .filter(|(of, _, _)| lacks(of))
        .filter_map(|(_, name, steps)| {
            let until = steps
                .iter()
                .filter_map(|step| step.until.as_ref())
                .find(|until| grows(until))?;
            Some(
                Diagnostic::at(
                    code::DOUGH_WITHOUT_YEAST,
                    until.span,
                    format!(
                        "{} is to grow, but it holds 0\u{a0}g of yeast: it never will.",
                        capital(name)
                    ),
                )
                .hint("Add the yeast, or the sponge that brings it."),
            )
        })
        .collect()
}

/// What is to be said of a run: steps that did not end, doughs that were not followed.
pub fn after(recipe: &Recipe, formula: &Formula, course: &Course) -> Vec<Diagnostic> {
    let stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    let products = recipe.products.iter().flat_map(|product| &product.steps);
    let mut said: Vec<Diagnostic> = stages
        .chain(products)
        .zip(1..)
        .filter_map(|(step, number): (&Step, usize)| {
            let run = course.steps.iter().find(|one| one.number == number)?;
            (run.ended == Ended::Limit).then(|| never(step, run))
        })
        .collect();
    said.extend(not_followed(recipe, formula, course));
    said
}

/// A cue that did not come, with what was seen instead.
fn never(step: &Step, run: &StepCourse) -> Diagnostic {
    let until = step.until.as_ref();
    let reads = run.dough.map_or_else(String::new, degrees);
    let mut waited = Vec::new();
    let mut seen = Vec::new();
    if let Action::Bake { core, .. } = &step.action {
        let core = core
            .as_ref()
            .or_else(|| until.and_then(|until| until.core.as_ref()));
        waited.extend(core.map(|core| format!("{} in the middle", written(core.value))));
        seen.push(format!("reads {reads} there"));
    }
    if let Some(times) = until.and_then(|until| until.volume.as_ref()) {
        waited.push(format!("{} times its volume", trimmed(times.value, 2)));
    }
    if until.is_some_and(|until| until.height.is_some()) {
        waited.push("its height against the rim".to_owned());
    }
    if seen.is_empty() {
        seen.push(format!("has {} times its volume", fixed(run.grown, 2)));
        if let Some(dough) = until.and_then(|until| until.dough.as_ref()) {
            waited.push(written(dough.value));
        }
        seen.push(format!("reads {reads}"));
    }
    let hint = match &step.action {
        Action::Bake { .. } => {
            "Turn the oven up, bake longer, or look whether the core temperature is meant so."
        }
        _ => {
            "Look whether the place is warm or cold enough and the yeast enough; or wait for less, or go by the clock."
        }
    };
    Diagnostic::at(
        code::CUE_NEVER_MET,
        until.map_or(step.span, |until| until.span),
        format!(
            "{} is waited for; after {} it {}, and the cook gives up.",
            capital(&waited.join(" and ")),
            time(run.lasts.si()),
            seen.join(" and ")
        ),
    )
    .hint(hint)
}

/// Stages with flour, and products, of which nothing could be worked out.
fn not_followed(recipe: &Recipe, formula: &Formula, course: &Course) -> Vec<Diagnostic> {
    let followed = |name: &str, piece: bool| {
        let mut doughs = course.doughs.iter();
        doughs.any(|dough| dough.piece == piece && dough.of.eq_ignore_ascii_case(name))
    };
    let has_flour = |stage: &Stage| {
        let found = |sums: &&recipe::formula::StageSum| sums.name == stage.name.value;
        let sums = formula.stages.iter().find(found);
        sums.is_some_and(|sums| sums.in_dough && sums.holds.flour > Mass::ZERO)
    };
    let rests = |steps: &[Step]| {
        let rest = |step: &Step| matches!(step.action, Action::Rest { .. } | Action::Bake { .. });
        steps.iter().any(rest)
    };
    let stages = recipe
        .stages
        .iter()
        .filter(|stage| {
            has_flour(stage) && rests(&stage.steps) && !followed(&stage.name.value, false)
        })
        .map(|stage| {
            (
                &stage.name,
                "it is not mixed in a step, or too little of what it holds is known",
            )
        });
    let products = recipe
        .products
        .iter()
        .filter(|product: &&Product| rests(&product.steps) && !followed(&product.name.value, true))
        .map(|product| (&product.name, "its dough is not followed either"));
    stages
        .chain(products)
        .map(|(name, why)| {
            Diagnostic::at(
                code::DOUGH_NOT_FOLLOWED,
                name.span,
                format!("{} is not followed, for {why}: its steps have their written times only.", capital(&name.value)),
            )
            .hint("Say in `[[pantry]]` what an unknown ingredient is like, and write the mix as a step.")
        })
        .collect()
}
