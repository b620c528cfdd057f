//! Written times that depend on size: bake and cooling by thickness, shaping by the number of pieces.
//!
//! Relation: bake time x r^1.5 to r^2 for a thickness ratio r, the usual time x r^1.75; cooling
//! x r to r^2, the usual x r^1.5. The oven's dial and the core stay.
//! Source: 2 is conduction alone (time in proportion to the square of the thickness, mathematics);
//! 1.5 is common practice for bread in tins; 1 is a body that cools at its surface alone.
//! Valid for: breads of one dough between about half and twice as thick. Rising times do not
//! depend on size: the same dough at the same temperature rises as fast.

use super::amounts::capital;
use super::figures::figures;
use super::multiply::Ratio;
use super::{Change, Said};
use crate::document::model::{Action, Product, Recipe, Timing};
use crate::source::{Diagnostic, code};
use numerics::decimal::{round_to, trimmed};
use numerics::math::pow;
use numerics::quantity::{Duration, Range};

/// Thickness that differs by less than this leaves a written time as it is.
const NOT_NOTICED: f64 = 0.02;

/// Exponents: low end, usual, high end.
struct Law {
    low: f64,
    usual: f64,
    high: f64,
}

const BAKE: Law = Law {
    low: 1.5,
    usual: 1.75,
    high: 2.0,
};

const COOL: Law = Law {
    low: 1.0,
    usual: 1.5,
    high: 2.0,
};

impl Law {
    /// Factors for the low end, the usual time and the high end, in order.
    fn factors(&self, thickness: f64) -> [f64; 3] {
        let (one, other) = (pow(thickness, self.low), pow(thickness, self.high));
        [one.min(other), pow(thickness, self.usual), one.max(other)]
    }

    /// A timing for bread of another thickness.
    fn apply(&self, timing: &mut Timing, thickness: f64) {
        let [low, usual, high] = self.factors(thickness);
        timing.usual.value = minutes(timing.usual.value * usual);
        let step = step(timing.usual.value);
        if let Some(range) = &mut timing.range {
            range.value = Range {
                low: in_steps(range.value.low * low, step),
                high: in_steps(range.value.high * high, step),
            };
        }
    }
}

/// Whole minutes, five at a time from an hour on; one at least.
fn minutes(time: Duration) -> Duration {
    in_steps(time, step(time))
}

fn step(time: Duration) -> f64 {
    if time.minutes() >= 60.0 { 5.0 } else { 1.0 }
}

fn in_steps(time: Duration, step: f64) -> Duration {
    Duration::from_minutes(round_to(time.minutes(), step).max(1.0))
}

/// Changes the times of every product, and of the cutting.
pub fn settle(new: &mut Recipe, ratios: &[Ratio], thickness: &[f64], said: &mut Said) {
    for ((product, ratio), by) in new.products.iter_mut().zip(ratios).zip(thickness) {
        if (by - 1.0).abs() > NOT_NOTICED {
            bake(product, *by, said);
        }
        let pieces = f64::from(ratio.count) / f64::from(ratio.was.max(1));
        for step in &mut product.steps {
            if let Action::Shape { timing } = &mut step.action {
                hands(timing, pieces);
            }
        }
        if pieces > 1.0 + 1e-9 {
            more_pieces(product, *ratio, said);
        }
    }
    let count = |of: fn(&Ratio) -> u32| ratios.iter().map(|r| f64::from(of(r))).sum::<f64>();
    let pieces = count(|ratio| ratio.count) / count(|ratio| ratio.was).max(1.0);
    for stage in &mut new.stages {
        for step in &mut stage.steps {
            if let Action::Divide { timing, .. } = &mut step.action {
                hands(timing, pieces);
            }
        }
    }
}

/// Work that takes as long as there are pieces.
fn hands(timing: &mut Timing, pieces: f64) {
    if (pieces - 1.0).abs() < 1e-9 {
        return;
    }
    timing.usual.value = minutes(timing.usual.value * pieces);
    if let Some(range) = &mut timing.range {
        range.value.low = minutes(range.value.low * pieces);
        range.value.high = minutes(range.value.high * pieces);
    }
}

fn more_pieces(product: &Product, ratio: Ratio, said: &mut Said) {
    let name = &product.name.value;
    let tin = product.tin.as_ref();
    let flat = tin
        .is_none_or(|tin| matches!(tin.size.value, crate::document::model::TinSize::Tray { .. }));
    said.words.push(if flat {
        format!(
            "{}: {} instead of {}; if they want more than one tray, bake one after the other \
             and keep the second cool until then.",
            capital(name),
            ratio.count,
            ratio.was
        )
    } else {
        format!(
            "{}: {} instead of {}, each in its own {}; side by side in one oven with room \
             between them, the bake may take a few minutes longer.",
            capital(name),
            ratio.count,
            ratio.was,
            tin.map_or("tin", |tin| tin.name.value.as_str())
        )
    });
}

/// Minutes and their range as a change prints them.
fn shown(steps: &[crate::document::model::Step]) -> Option<String> {
    steps.iter().find_map(|step| match &step.action {
        Action::Bake { phases, .. } => {
            let (mut low, mut usual, mut high) = (0.0, 0.0, 0.0);
            for phase in phases {
                let minutes = phase.timing.usual.value.minutes();
                let range = phase.timing.range.as_ref().map(|range| range.value);
                usual += minutes;
                low += range.map_or(minutes, |range| range.low.minutes());
                high += range.map_or(minutes, |range| range.high.minutes());
            }
            let whole = |value: f64| trimmed(value, 0);
            Some(if low < high {
                format!("{} min ({}–{})", whole(usual), whole(low), whole(high))
            } else {
                format!("{} min", whole(usual))
            })
        }
        _ => None,
    })
}

/// Bake, first look and cooling of a product that is thicker or thinner.
fn bake(product: &mut Product, by: f64, said: &mut Said) {
    let before = shown(&product.steps);
    for step in &mut product.steps {
        match &mut step.action {
            Action::Bake { phases, check, .. } => {
                let mut renamed = Vec::new();
                for phase in phases.iter_mut() {
                    let was = phase.timing.usual.value.minutes();
                    BAKE.apply(&mut phase.timing, by);
                    renamed.push((was, phase.timing.usual.value.minutes()));
                }
                if let Some(check) = check {
                    let [low, ..] = BAKE.factors(by);
                    check.value = minutes(check.value * low);
                }
                if let Some(text) = with_minutes(&step.text.value, &renamed) {
                    step.text.value = text;
                }
            }
            Action::Cool { timing, .. } => COOL.apply(timing, by),
            _ => {}
        }
    }
    let name = product.name.value.clone();
    if let Some((before, after)) = before.zip(shown(&product.steps)) {
        let percent = (by - 1.0) * 100.0;
        let word = if percent < 0.0 { "thinner" } else { "thicker" };
        said.words.push(format!(
            "The {name} is {} % {word}: its bake goes with the thickness to the power 1.5 to 2, \
             its cooling to the power 1 to 2. The oven stays as it is; the core temperature \
             decides.",
            trimmed(percent.abs(), 0)
        ));
        said.changes.push(Change {
            what: format!("{name}: bake"),
            before,
            after,
        });
    }
}

/// A sentence in which the minutes of the phases are the new ones.
fn with_minutes(text: &str, renamed: &[(f64, f64)]) -> Option<String> {
    let mut out = text.to_owned();
    let mut changed = false;
    for figure in figures(text).into_iter().rev() {
        if !figure.unit.starts_with("min") || figure.numbers.len() != 1 {
            continue;
        }
        let (place, value) = figure.numbers[0].clone();
        let new = renamed.iter().find(|(was, _)| (was - value).abs() < 0.01);
        if let Some((_, new)) = new {
            out.replace_range(place, &trimmed(*new, 0));
            changed = true;
        }
    }
    changed.then_some(out)
}

/// Says what the author's own words still give for the old size, and changes what is certain: the
/// mass of a part of a piece.
pub fn words(new: &mut Recipe, before: &Recipe, ratios: &[Ratio], stages: &[f64], said: &mut Said) {
    for (place, product) in new.products.iter_mut().enumerate() {
        let ratio = ratios[place];
        if !ratio.resized() {
            continue;
        }
        let parts: Vec<(f64, f64)> = before.products[place]
            .piece
            .value
            .iter()
            .zip(&product.piece.value)
            .map(|(was, now)| (was.mass.grams(), now.mass.grams()))
            .collect();
        let side = pow(ratio.size, 1.0 / 3.0);
        for step in &mut product.steps {
            let mut left = Vec::new();
            for figure in figures(&step.text.value).into_iter().rev() {
                let rest = &step.text.value[figure.span.end..];
                let distance = ["apart", "below", "above", "from"]
                    .iter()
                    .any(|word| rest.trim_start().starts_with(word));
                let bracketed = in_brackets(&step.text.value, figure.span.start);
                match figure.unit.as_str() {
                    _ if bracketed || distance => {}
                    "g" | "grams" if figure.numbers.len() == 1 => {
                        let (at, value) = figure.numbers[0].clone();
                        match parts.iter().find(|(was, _)| (was - value).abs() < 1e-6) {
                            Some((_, now)) => {
                                step.text.value.replace_range(at, &trimmed(*now, 1));
                            }
                            None => left.push((figure, None)),
                        }
                    }
                    "cm" | "mm" | "in" | "inch" | "inches" => left.push((figure, Some(side))),
                    unit if unit.starts_with("min") => {}
                    _ => left.push((figure, None)),
                }
            }
            for (figure, by) in left.into_iter().rev() {
                let numbers = |by: f64| {
                    let all = figure.numbers.iter().map(|(_, value)| {
                        trimmed(
                            round_to(value * by, if value * by < 10.0 { 0.5 } else { 1.0 }),
                            1,
                        )
                    });
                    format!("{} {}", all.collect::<Vec<_>>().join(" × "), figure.unit)
                };
                if by.is_some_and(|by| numbers(by) == numbers(1.0)) {
                    continue;
                }
                let advice = by.map_or_else(
                    || "Look whether it still fits.".to_owned(),
                    |by| format!("{} keeps the shape.", numbers(by)),
                );
                said.findings.push(
                    Diagnostic::at(
                        code::WORDS_FOR_OLD_SIZE,
                        step.text.span,
                        format!(
                            "A sentence about the {} still says {}, which is for the old size.",
                            product.name.value,
                            numbers(1.0)
                        ),
                    )
                    .hint(advice),
                );
            }
        }
    }
    for (stage, factor) in new.stages.iter().zip(stages) {
        if (factor - 1.0).abs() < 0.005 {
            continue;
        }
        for step in &stage.steps {
            let text = &step.text.value;
            for figure in figures(text) {
                let amount = [
                    "g", "grams", "kg", "mL", "ml", "L", "cup", "cups", "Tbsp", "tbsp", "tsp",
                ];
                if amount.contains(&figure.unit.as_str()) && !in_brackets(text, figure.span.start) {
                    let written = text[figure.span.clone()].to_owned();
                    let message = format!(
                        "{} still says {written} in the author's own words, which is for the old \
                         size.",
                        capital(&format!("a sentence of the {}", stage.name.value)),
                    );
                    said.findings.push(
                        Diagnostic::at(code::WORDS_FOR_OLD_SIZE, step.text.span, message)
                            .hint("Write it as part of an item, as in [20 g of the milk]."),
                    );
                }
            }
        }
    }
}

/// Whether a place in a sentence stands inside a placeholder.
fn in_brackets(text: &str, at: usize) -> bool {
    let before = &text[..at];
    before.rfind('[') > before.rfind(']')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thinner_loaf_is_done_sooner_and_less_surely() {
        let [low, usual, high] = BAKE.factors(0.8);
        assert!(low < usual && usual < high && high < 1.0);
        let [low, usual, high] = BAKE.factors(1.25);
        assert!(1.0 < low && low < usual && usual < high);
    }

    #[test]
    fn minutes_of_the_phases_follow_into_the_sentence() {
        let text = "Cover with foil after 25 minutes; turn out after 5 minutes.";
        let new = with_minutes(text, &[(25.0, 17.0), (23.0, 15.0)]);
        assert_eq!(
            new.as_deref(),
            Some("Cover with foil after 17 minutes; turn out after 5 minutes.")
        );
    }

    #[test]
    fn what_stands_in_brackets_is_not_in_words() {
        let text = "Add [60 g of sugar] and 5 g more.";
        let found = figures(text);
        assert!(in_brackets(text, found[0].span.start));
        assert!(!in_brackets(text, found[1].span.start));
    }
}
