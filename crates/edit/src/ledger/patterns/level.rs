//! Strips for a straight jar: where a piece of the dough stands when it has risen as it should.
//!
//! One strip serves every starting level. Its left scale is in millimetres; its right scale says
//! the same numbers at as many times the height as the cue wants. A dough that began at 30 on the
//! left is ready when it stands at 30 on the right.

use super::Made;
use super::model::{Line, Part, Pattern, PatternKind};
use crate::Inputs;
use crate::ledger::model::Fact;
use crate::ledger::{figure, say};
use numerics::decimal::trimmed;
use numerics::quantity::Length;
use recipe::document::model::Step;
use recipe::provenance::{Had, Origin};

/// Height of the scales, mm: what a small jam jar or a straight glass has (common practice).
const TALL_MM: f64 = 140.0;

/// Room for the heading above the scales, mm.
const HEAD_MM: f64 = 16.0;

/// Width of a strip, mm.
const WIDE_MM: f64 = 44.0;

/// Width of the lane that each of three scales has, mm.
const LANE_MM: f64 = WIDE_MM / 3.0;

/// The level on which the printed example is worked out, mm.
const EXAMPLE_MM: f64 = 30.0;

/// On the way to a larger rise a scale at half as much again is drawn as well.
const ON_THE_WAY: f64 = 1.5;

/// One strip for each multiple that a rest waits for.
pub(super) fn patterns(inputs: &Inputs) -> Made {
    let recipe = inputs.recipe;
    let stages = recipe.stages.iter().map(|s| (&s.name.value, &s.steps));
    let products = recipe.products.iter().map(|p| (&p.name.value, &p.steps));
    let mut strips: Vec<(f64, Vec<String>)> = Vec::new();
    for (name, steps) in stages.chain(products) {
        for times in steps.iter().filter_map(multiple) {
            match strips
                .iter_mut()
                .find(|(other, _)| (other - times).abs() < 1e-9)
            {
                Some((_, names)) if names.contains(name) => {}
                Some((_, names)) => names.push(name.clone()),
                None => strips.push((times, vec![name.clone()])),
            }
        }
    }
    if strips.is_empty() {
        return Err("No rest waits for a multiple of the starting volume.".to_owned());
    }
    let mut pattern = Pattern {
        kind: PatternKind::Level,
        title: "Strips for the rising jar".to_owned(),
        of: "a piece of the dough in a small straight jar shows how far all of it has come".to_owned(),
        lengths: Vec::new(),
        parts: Vec::new(),
        steps: vec![
            "Cut a strip out and tape it to the outside of a straight-sided jar, its foot level \
             with the inside of the jar's bottom."
                .to_owned(),
            "When the dough is mixed, press about 20 g of it flat into the jar and read its level \
             on the left scale."
                .to_owned(),
            "Keep the jar beside the bowl. The dough is ready when it reaches the same number on \
             the right scale."
                .to_owned(),
        ],
        notes: vec![
            "In a jar that widens upwards the level rises less than the dough does: take a straight one. A small \
             piece follows the room faster than the bowl does (common practice)."
                .to_owned(),
        ],
    };
    for (times, names) in strips {
        pattern.lengths.push(said(times, &names));
        pattern.parts.push(strip(times, &names));
    }
    Ok(vec![pattern])
}

fn multiple(step: &Step) -> Option<f64> {
    let times = step.until.as_ref()?.volume.as_ref()?.value;
    (times > 1.0 && times < 10.0).then_some(times)
}

/// "Sponge": "2 times: 30 to 60 mm".
fn said(times: f64, names: &[String]) -> Fact {
    let written = Origin::new("the recipe", Had::Written);
    let name = say::list(names);
    let place = format!("pattern.level.{name}");
    let multiple = figure(
        format!("{place}.multiple"),
        times,
        "1",
        say::times(times),
        written,
    );
    let in_mm = |mm: f64| format!("{}{}mm", trimmed(mm, 0), say::NBSP);
    let to = figure(
        format!("{place}.example"),
        Length::from_millimetres(EXAMPLE_MM * times).si(),
        Length::SI,
        in_mm(EXAMPLE_MM * times),
        Origin::new("worked example for a straight jar", Had::Derived),
    );
    Fact {
        label: say::capital(&name),
        shown: format!(
            "{}: {} to {}",
            multiple.shown,
            trimmed(EXAMPLE_MM, 0),
            to.shown
        ),
        figures: vec![multiple, to],
    }
}

fn strip(times: f64, names: &[String]) -> Part {
    let name = say::capital(&say::list(names));
    let alt = format!(
        "A strip for {name}: millimetres on the left, the same numbers at {} the height on the \
         right.",
        say::times(times)
    );
    let mut part = Part::new("", alt, WIDE_MM, HEAD_MM + TALL_MM);
    let foot = HEAD_MM + TALL_MM;
    part.rectangle(Line::Cut, (0.0, 0.0), (WIDE_MM, foot));
    part.word((WIDE_MM / 2.0, 4.5), 9.5, name);
    part.line(Line::Scale, vec![(0.0, HEAD_MM), (WIDE_MM, HEAD_MM)]);
    part.word((LANE_MM / 2.0, 12.0), 7.5, "start");
    part.word((WIDE_MM - LANE_MM / 2.0, 12.0), 7.5, say::times(times));
    scale(&mut part, 1.0, 0.0, 1.0, 10.0);
    // Close multiples would run into each other.
    if times > ON_THE_WAY + 0.15 {
        part.word((WIDE_MM / 2.0, 12.0), 7.5, say::times(ON_THE_WAY));
        scale(&mut part, ON_THE_WAY, LANE_MM, 1.0, 10.0);
        for lane in [LANE_MM, 2.0 * LANE_MM] {
            part.line(Line::Scale, vec![(lane, HEAD_MM), (lane, foot)]);
        }
    }
    scale(&mut part, times, WIDE_MM, -1.0, 5.0);
    part
}

/// A scale whose number n stands at so many times n millimetres above the foot; its ticks begin at
/// `x` and go right or left.
fn scale(part: &mut Part, times: f64, x: f64, towards: f64, numbered: f64) {
    let foot = HEAD_MM + TALL_MM;
    let mut start = 0.0_f64;
    while start * times <= TALL_MM - 1.5 {
        let y = foot - start * times;
        let whole = |by: f64| (start / by).fract().abs() < 1e-9;
        let tick = if whole(10.0) {
            7.0
        } else if whole(5.0) {
            5.0
        } else {
            2.5
        };
        if start > 0.0 {
            part.line(Line::Scale, vec![(x, y), (x + towards * tick, y)]);
            if whole(numbered) {
                part.word((x + towards * 10.0, y), 7.5, trimmed(start, 0));
            }
        }
        start += 1.0;
    }
}
