//! The day as it is drawn: every step under the one before it, and the dough as a level in a jar.

use super::super::{Happens, StepHappens, every_step};
use crate::Inputs;
use crate::ledger::model::MarginKind;
use crate::ledger::say;
use bake::simulate::{Course, DoughCourse, StepCourse};
use numerics::decimal::round_to;
use numerics::quantity::Duration;
use recipe::document::model::{Action, Standing};

/// A day.
#[derive(Clone, Debug, PartialEq)]
pub struct DayDrawing {
    /// "Same-day braid and tied buns in Cold terrace".
    pub title: String,
    /// What is drawn, for whoever cannot see it.
    pub about: String,
    /// Headings and steps from the top down.
    pub rows: Vec<DayRow>,
}

/// A row of it.
#[derive(Clone, Debug, PartialEq)]
pub enum DayRow {
    /// A stage or a product.
    Heading(String),
    /// A step.
    Step(DayStep),
}

/// A step of a day.
#[derive(Clone, Debug, PartialEq)]
pub struct DayStep {
    /// "4 h 35 min".
    pub begins: String,
    /// "rise".
    pub what: String,
    /// "2 h 35 min"; none where only the recipe says it.
    pub takes: Option<String>,
    /// What is around it, its sign, what the recipe says.
    pub lines: Vec<String>,
    /// Where it stands.
    pub stands: Stands,
    /// How tall the row is against the shortest one: longer steps are taller, by the root of their time.
    pub tall: f64,
    /// The written window and the time here.
    pub window: Option<Window>,
    /// The dough.
    pub jar: Option<Jar>,
    /// Whether it differs by so much that it matters.
    pub differs: bool,
}

/// Where a dough stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// In somebody's hands or a machine.
    Hands,
    /// In the room.
    Room,
    /// In a warm place or the oven.
    Warm,
    /// In the cold.
    Cold,
}

/// A written window and a time, as shares of one length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Where the window begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Where the time here lies.
    pub here: f64,
}

/// A dough in a jar, as shares of the jar's height.
#[derive(Clone, Debug, PartialEq)]
pub struct Jar {
    /// Level when the step begins.
    pub from: f64,
    /// Level when it ends.
    pub to: f64,
    /// Where it would be doubled.
    pub doubled: f64,
    /// "2 times"; empty where it is no larger than before.
    pub grown: String,
}

/// White over the fullest jar.
const OVER: f64 = 1.06;

pub(super) fn day(inputs: &Inputs, course: &Course, happens: &Happens) -> DayDrawing {
    let written = every_step(inputs.recipe);
    let levels: Vec<Option<(f64, f64)>> = written
        .iter()
        .enumerate()
        .map(|(at, written)| match written.step.action {
            Action::Rest { .. } => levels(course, at + 1),
            _ => None,
        })
        .collect();
    let tallest = levels
        .iter()
        .flatten()
        .map(|(from, to)| to.max(2.0 * from))
        .fold(1.0, f64::max)
        * OVER;
    let mut rows = Vec::new();
    for part in &happens.sections {
        rows.push(DayRow::Heading(part.heading.clone()));
        for step in &part.steps {
            let at = step.number - 1;
            let Some(goes) = course.steps.iter().find(|goes| goes.number == step.number) else {
                continue;
            };
            rows.push(DayRow::Step(DayStep {
                begins: step.begins.shown.clone(),
                what: step.what.clone(),
                takes: takes(step),
                lines: lines(step, &written[at].step.action),
                stands: stands(&written[at].step.action),
                tall: tall(goes.lasts),
                window: window(&written[at].step.action, goes),
                jar: levels[at].map(|(from, to)| Jar {
                    from: from / tallest,
                    to: to / tallest,
                    doubled: 2.0 * from / tallest,
                    grown: grown(goes.grown),
                }),
                differs: happens
                    .differences
                    .iter()
                    .any(|told| told.step == Some(step.number)),
            }));
        }
    }
    DayDrawing {
        title: format!("{} in {}", happens.title, happens.kitchen),
        about: "The day from the top down; on the left when a step begins, counted from the first. Beside \
                each rise and rest the dough in a jar, as full as it is at the end: the broken line is \
                where it began, the mark on the wall where it has doubled. The hatched bar is the time \
                that the recipe gives, the pointer the time here; ≠ stands where that matters. Longer \
                steps are taller, but not in proportion."
            .to_owned(),
        rows,
    }
}

/// So many times as large; nothing where that is once.
fn grown(times: f64) -> String {
    let times = round_to(times, 0.1);
    if (times - 1.0).abs() < 0.05 {
        return String::new();
    }
    say::times(times)
}

/// The dough's volume at the beginning and the end of a step, against the dough without gas.
fn levels(course: &Course, number: usize) -> Option<(f64, f64)> {
    let in_step = |dough: &DoughCourse| {
        let mut moments = dough.moments.iter().filter(|moment| moment.step == number);
        let first = moments.next()?;
        let last = moments.next_back().unwrap_or(first);
        Some((first.volume, last.volume))
    };
    course.doughs.iter().find_map(in_step)
}

/// The time here, where it is not only the recipe's.
fn takes(step: &StepHappens) -> Option<String> {
    let here = |line: &super::super::Beside| line.here.as_ref() == Some(&step.takes.shown);
    let timed = step
        .lines
        .iter()
        .any(|line| line.kind == MarginKind::Time && here(line));
    timed.then(|| step.takes.shown.clone())
}

/// Lines under a step's name: where it stands, what the recipe says, its sign.
fn lines(step: &StepHappens, action: &Action) -> Vec<String> {
    let place = match action {
        Action::Rest { place, .. } => Some(place.value.word()),
        _ => None,
    };
    let timed = takes(step).is_some();
    let mut all = Vec::new();
    for line in &step.lines {
        let air = line
            .figures
            .iter()
            .any(|figure| figure.name.rsplit('.').next() == Some("air"));
        match (line.kind, &line.written, &line.here) {
            // The phases of a bake: the whole of it is told.
            (MarginKind::Time, _, None) if timed => {}
            (MarginKind::Time, Some(written), _) => {
                all.push(format!("recipe: {}", written.trim_start_matches("in all ")));
            }
            (_, _, Some(here)) if air => {
                all.push(place.map_or_else(|| here.clone(), |place| format!("{place}, {here}")));
            }
            (MarginKind::Cue, Some(written), Some(here)) => all.push(format!("{written}: {here}")),
            (_, _, Some(here)) => all.push(here.clone()),
            _ => {}
        }
    }
    // Two phases of a bake at one dial say the same.
    all.dedup();
    all
}

fn stands(action: &Action) -> Stands {
    match action {
        Action::Rest { place, .. } => match place.value {
            Standing::Room => Stands::Room,
            Standing::WarmPlace => Stands::Warm,
            Standing::Refrigerator | Standing::CoolPlace => Stands::Cold,
        },
        Action::Bake { .. } => Stands::Warm,
        Action::Cool { .. } => Stands::Room,
        _ => Stands::Hands,
    }
}

/// By the root of its time: an hour is half as tall again as the shortest, a night twice and a half.
fn tall(lasts: Duration) -> f64 {
    1.0 + lasts.hours().max(0.0).sqrt() * 0.45
}

/// The written window of a step that has one and takes time here.
fn window(action: &Action, goes: &StepCourse) -> Option<Window> {
    if !matches!(action, Action::Rest { .. } | Action::Bake { .. }) {
        return None;
    }
    let range = goes.written_range.filter(|range| range.low < range.high)?;
    let most = range.high.si().max(goes.lasts.si()) * OVER;
    Some(Window {
        from: range.low.si() / most,
        to: range.high.si() / most,
        here: goes.lasts.si() / most,
    })
}
