//! A bake as it is drawn: middle, crust and oven air over minutes, the crust's colour below them.

use super::super::oven::shade_word;
use super::super::reckoned::Told;
use super::super::{Happens, every_step};
use crate::Inputs;
use crate::ledger::say;
use bake::simulate::{Course, DoughCourse, Moment, Shade};
use numerics::decimal::{fixed, round_to};
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::Action;

/// A bake.
#[derive(Clone, Debug, PartialEq)]
pub struct BakeDrawing {
    /// "braid".
    pub of: String,
    /// "The braid in the oven of Cold terrace".
    pub title: String,
    /// What is drawn, for whoever cannot see it.
    pub about: String,
    /// Marks of the minutes.
    pub minutes: Vec<Tick>,
    /// Marks of the temperatures: in °C on the left, in °F on the right.
    pub degrees: Vec<(Tick, String)>,
    /// Oven air, crust, middle.
    pub lines: Vec<Line>,
    /// The written window, and the words on it.
    pub window: Option<Band>,
    /// When it is done, and the words for it.
    pub done: Tick,
    /// The crust's colour, from left to right.
    pub colours: Vec<(Option<Shade>, Band)>,
}

/// A mark: how far along, as a share, and its words.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Share of the axis.
    pub at: f64,
    /// What stands there.
    pub shown: String,
}

/// A stretch of an axis, as shares, and its words.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// What stands on it.
    pub shown: String,
}

/// What a line is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drawn {
    /// Air of the oven.
    Oven,
    /// The crust above.
    Crust,
    /// The middle.
    Middle,
}

/// A line, as shares of both axes from the lower left.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is of.
    pub of: Drawn,
    /// Points from left to right.
    pub points: Vec<(f64, f64)>,
    /// Its words, with what it ends at.
    pub shown: String,
}

/// Marks of temperature, °C.
const DEGREES_STEP: f64 = 50.0;
/// Room for words over the hottest line, K.
const WORDS_OVER: f64 = 20.0;

pub(super) fn bake(
    inputs: &Inputs,
    course: &Course,
    happens: &Happens,
    piece: &DoughCourse,
) -> Option<BakeDrawing> {
    let written = every_step(inputs.recipe);
    let number = written.iter().position(|written| {
        let of = written.product.map(|product| product.name.value.as_str());
        of == Some(piece.of.as_str()) && matches!(written.step.action, Action::Bake { .. })
    })? + 1;
    let goes = course.steps.iter().find(|step| step.number == number)?;
    let moments: Vec<&Moment> = piece.moments.iter().filter(|m| m.step == number).collect();
    moments.first()?;
    // A bake's own first moment need not have been kept.
    let first = goes.begins;
    let range = goes.written_range.filter(|range| range.low < range.high);
    let longest = range.map_or(goes.lasts, |range| {
        if range.high > goes.lasts {
            range.high
        } else {
            goes.lasts
        }
    });
    let most = Duration::from_si(longest.si().max(60.0) * 1.04);
    let hottest = moments
        .iter()
        .map(|m| m.air.celsius().max(m.outside.celsius()))
        .fold(100.0, f64::max);
    let top = ((hottest + WORDS_OVER) / DEGREES_STEP).ceil() * DEGREES_STEP;
    let along = |time: Duration| (time.si() / most.si()).clamp(0.0, 1.0);
    let up = |at: Temperature| (at.celsius() / top).clamp(0.0, 1.0);
    let line = |of: Drawn, word: &str, read: fn(&Moment) -> Temperature| {
        let last = moments
            .last()
            .map_or(Temperature::from_celsius(0.0), |m| read(m));
        Line {
            of,
            points: moments
                .iter()
                .map(|m| (along(m.at - first), up(read(m))))
                .collect(),
            shown: format!("{word} {}", say::temperature(last)),
        }
    };
    let degrees = every(DEGREES_STEP, top)
        .into_iter()
        .map(|at| {
            let at = Temperature::from_celsius(at);
            let tick = Tick {
                at: up(at),
                shown: fixed(at.celsius(), 0),
            };
            (tick, fixed(at.fahrenheit(), 0))
        })
        .collect();
    let done = Told::Bake.said(goes.lasts);
    let said = happens.steps().find(|step| step.number == number)?;
    Some(BakeDrawing {
        of: piece.of.clone(),
        title: format!("The {} in the oven, {}", piece.of, happens.kitchen),
        about: format!(
            "Minutes in the oven from left to right, degrees upward: the air of the oven, the crust, the \
             middle. The hatched stretch is the time that the recipe gives, the upright line the end of \
             the bake here, after {}. Below it the colour of the crust.",
            said.takes.shown
        ),
        minutes: ticks(most, along),
        degrees,
        lines: vec![
            line(Drawn::Oven, "oven", |m| m.air),
            line(Drawn::Crust, "crust", |m| m.outside),
            line(Drawn::Middle, "middle", |m| m.middle),
        ],
        window: range.map(|range| Band {
            from: along(range.low),
            to: along(range.high),
            shown: format!("recipe: {}", say::duration_range(range)),
        }),
        done: Tick {
            at: along(goes.lasts),
            shown: format!("here: {done}"),
        },
        colours: colours(&moments, first, along),
    })
}

/// Nought and every multiple of a step up to an end.
fn every(step: f64, end: f64) -> Vec<f64> {
    let mut all = vec![0.0];
    while let Some(next) = all.last().map(|last| last + step) {
        if next > end + 1e-9 {
            break;
        }
        all.push(next);
    }
    all
}

/// Marks every 5 min, every 10 min, or every quarter of an hour, as they fit.
fn ticks(most: Duration, along: impl Fn(Duration) -> f64) -> Vec<Tick> {
    let step = [2.0, 5.0, 10.0, 15.0, 30.0]
        .into_iter()
        .find(|step| most.minutes() / step <= 8.0)
        .unwrap_or(60.0);
    every(step, most.minutes())
        .into_iter()
        .map(|minutes| Tick {
            at: along(Duration::from_minutes(minutes)),
            shown: fixed(minutes, 0),
        })
        .collect()
}

/// The shade of a lightness L*; none is dough.
fn shade(lightness: f64) -> Option<Shade> {
    match lightness {
        l if l <= 50.0 => Some(Shade::Dark),
        l if l <= 70.0 => Some(Shade::Brown),
        l if l <= 75.0 => Some(Shade::Golden),
        l if l <= 80.0 => Some(Shade::Pale),
        _ => None,
    }
}

/// Stretches of one colour.
fn colours(
    moments: &[&Moment],
    first: Duration,
    along: impl Fn(Duration) -> f64,
) -> Vec<(Option<Shade>, Band)> {
    let mut all: Vec<(Option<Shade>, Band)> = Vec::new();
    for moment in moments {
        let (now, at) = (shade(moment.lightness), along(moment.at - first));
        if let Some((_, band)) = all.last_mut() {
            band.to = round_to(at, 1e-4);
        }
        if all.last().is_none_or(|(shade, _)| *shade != now) {
            let shown = now.map_or("colour of dough", shade_word).to_owned();
            let band = Band {
                from: round_to(at, 1e-4),
                to: round_to(at, 1e-4),
                shown,
            };
            all.push((now, band));
        }
    }
    all.retain(|(_, band)| band.to > band.from);
    all
}
