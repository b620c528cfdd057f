//! Changes that are a word more: a sign, a temperature, from when to when, when to look, wait for the oven.

use super::edits::{added, bakes_for, each_step};
use crate::ledger::say;
use bake::kitchens::Setup;
use numerics::decimal::round_to;
use numerics::quantity::{Duration, Range, Temperature};
use recipe::document::model::{Action, Recipe, Standing, Step, Timing, Until};
use recipe::source::Located;

/// A rise that grows less than this has no sign in its volume.
const LEAST_GROWTH: f64 = 1.3;
/// Looked into after so much of the bake.
const LOOK_AT: f64 = 0.8;
/// A room so much colder or warmer, °C, is as usual as the written one (common practice), and yeast works ten per
/// cent faster a degree (the trade press).
const ROOM_OFF_KELVIN: f64 = 4.0;
const A_DEGREE: f64 = 0.0953;
/// An oven so much hotter or colder than its dial, °C, is usual (common practice); dough bakes at 95 °C.
const OVEN_OFF_KELVIN: f64 = 13.0;
const BAKES_AT_C: f64 = 95.0;
/// Either side of a dough's temperature, °C (common practice).
const DOUGH_OFF_KELVIN: f64 = 1.0;

/// A sign that can be seen in the dough itself.
fn has_sign(step: &Step) -> bool {
    let seen = |until: &Until| until.volume.is_some() || until.height.is_some();
    matches!(step.action, Action::Rest { .. }) && step.until.as_ref().is_some_and(seen)
}

/// Go by the sign.
pub fn go_by_sign(recipe: &mut Recipe) -> Option<String> {
    let words = "Go by the dough, not by the clock.";
    let mut found = false;
    for step in each_step(recipe).filter(|step| has_sign(step)) {
        added(step, words);
        found = true;
    }
    found.then(|| words.to_owned())
}

/// A sign for each rise that has none that can be measured.
pub fn give_sign(recipe: &mut Recipe, base: &Setup<'_>) -> Option<String> {
    let grown: Vec<f64> = base.course.steps.iter().map(|step| step.grown).collect();
    let mut sentence = None;
    for (step, grown) in each_step(recipe).zip(grown) {
        let Action::Rest { place, .. } = &step.action else {
            continue;
        };
        if has_sign(step) || place.value == Standing::Refrigerator || grown < LEAST_GROWTH {
            continue;
        }
        let times = round_to(grown, 0.1);
        let said = format!("Let it stand until it is {} as large.", say::times(times));
        added(step, &said);
        let span = step.span;
        let until = step.until.get_or_insert(Until {
            see: None,
            volume: None,
            height: None,
            core: None,
            dough: None,
            span,
        });
        until.volume = Some(Located::new(times, span));
        sentence = sentence.or(Some(said));
    }
    sentence
}

/// When to look for the first time.
pub fn look_earlier(recipe: &mut Recipe) -> Option<String> {
    let mut sentence = None;
    for step in each_step(recipe) {
        let span = step.span;
        if let Action::Bake { phases, check, .. } = &mut step.action
            && check.is_none()
        {
            let minutes = round_to(LOOK_AT * bakes_for(phases).minutes(), 1.0);
            let at = Duration::from_minutes(minutes);
            *check = Some(Located::new(at, span));
            let said = format!("Look for the first time after {}.", say::duration(at));
            added(step, &said);
            sentence = sentence.or(Some(said));
        }
    }
    sentence
}

/// Wait for the oven.
pub fn heat_oven(recipe: &mut Recipe) -> Option<String> {
    let said = "Wait until a thermometer in the oven says so; that takes a quarter of an hour more than the lamp.";
    let step = each_step(recipe).find(|step| matches!(step.action, Action::Preheat { .. }))?;
    added(step, said);
    Some(said.to_owned())
}

/// How warm each mixed dough that rises must end, where nothing is said of it: as it does in the usual kitchen.
pub fn give_dough_temperature(recipe: &mut Recipe, base: &Setup<'_>) -> Option<String> {
    let ends: Vec<Option<Temperature>> = base.course.steps.iter().map(|step| step.dough).collect();
    let mut number = 0;
    let mut sentence = None;
    for stage in &mut recipe.stages {
        let first = number;
        number += stage.steps.len();
        let is_mix = |step: &Step| matches!(step.action, Action::Mix { .. });
        let rises = stage.steps.iter().any(has_sign);
        let said = |step: &Step| matches!(&step.action, Action::Mix { dough: Some(_), .. });
        if !rises || stage.steps.iter().any(said) {
            continue;
        }
        let Some(last) = stage.steps.iter().rposition(is_mix) else {
            continue;
        };
        let Some(Some(at)) = ends.get(first + last) else {
            continue;
        };
        let middle = round_to(at.celsius(), 1.0);
        let range = Range {
            low: Temperature::from_celsius(middle - DOUGH_OFF_KELVIN),
            high: Temperature::from_celsius(middle + DOUGH_OFF_KELVIN),
        };
        let step = &mut stage.steps[last];
        let span = step.span;
        if let Action::Mix { dough, .. } = &mut step.action {
            *dough = Some(Located::new(range, span));
        }
        let words = format!(
            "The {} should end at {}.",
            stage.name.value,
            say::temperature_range(range)
        );
        added(step, &words);
        sentence = sentence.or(Some(words));
    }
    sentence
}

/// From when to when each rise with a sign and each bake may end, where what is written is narrower or nothing.
pub fn widen_window(recipe: &mut Recipe) -> Option<String> {
    let rise = numerics::math::exp(A_DEGREE * ROOM_OFF_KELVIN);
    let mut sentence = None;
    for step in each_step(recipe) {
        let rises = has_sign(step);
        match &mut step.action {
            Action::Rest { timing, place, .. }
                if rises && place.value != Standing::Refrigerator =>
            {
                let wider = widened(timing, 1.0 / rise, rise, 5.0);
                let range = timing.range.as_ref().filter(|_| wider);
                let said = range.map(|range| {
                    format!(
                        "Its sign may come after {}.",
                        say::duration_range(range.value)
                    )
                });
                sentence = sentence.or(said);
            }
            Action::Bake { phases, .. } => {
                for phase in phases {
                    let over = phase.at.value.celsius() - BAKES_AT_C;
                    if over <= 2.0 * OVEN_OFF_KELVIN {
                        continue;
                    }
                    let times = |off: f64| over / (over + off);
                    let (low, high) = (times(OVEN_OFF_KELVIN), times(-OVEN_OFF_KELVIN));
                    if widened(&mut phase.timing, low, high, 1.0) {
                        let said = phase
                            .timing
                            .range
                            .as_ref()
                            .map(|range| format!("Bake {}.", say::duration_range(range.value)));
                        sentence = sentence.or(said);
                    }
                }
            }
            _ => {}
        }
    }
    sentence
}

/// Widens a time to so many times its usual one, in steps of so many minutes; never narrows it.
fn widened(timing: &mut Timing, low: f64, high: f64, step: f64) -> bool {
    let usual = timing.usual.value.minutes();
    let by = |times: f64| Duration::from_minutes(round_to(usual * times, step).max(1.0));
    let (mut low, mut high) = (by(low), by(high));
    if let Some(range) = &timing.range {
        let written = range.value;
        if written.low < low {
            low = written.low;
        }
        if written.high > high {
            high = written.high;
        }
        if written.low <= low && written.high >= high {
            return false;
        }
    }
    if low >= timing.usual.value || high <= timing.usual.value {
        return false;
    }
    timing.range = Some(Located::new(Range { low, high }, timing.usual.span));
    true
}
