//! Printed formulas against themselves: totals that their parts do not come to, percentages that
//! their masses contradict, spoons that cannot weigh what is printed beside them.

use crate::document::model::Spooned;
use crate::provenance::Origin;
use crate::source::{Diagnostic, Span, code};
use numerics::decimal::{fixed, round_to, trimmed};
use numerics::quantity::{Density, Mass};

/// A number as printed: its value and the place of its last digit (0.1 for one decimal).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Printed {
    /// The value.
    pub value: f64,
    /// The step of its last digit.
    pub step: f64,
}

impl Printed {
    /// Reads a plain decimal: "184.4" has the step 0.1, "760" the step 1.
    pub fn read(text: &str) -> Option<Self> {
        let text = text.trim();
        let plain = |c: char| c.is_ascii_digit() || c == '.';
        if text.is_empty() || !text.chars().all(plain) {
            return None;
        }
        let decimals = text.split_once('.').map_or(0, |(_, after)| after.len());
        let mut step = 1.0;
        for _ in 0..decimals {
            step /= 10.0;
        }
        text.parse().ok().map(|value| Self { value, step })
    }

    /// Half of the last digit's step: what rounding may have taken or added.
    fn half(self) -> f64 {
        self.step / 2.0
    }

    fn decimals(self) -> usize {
        let mut step = self.step;
        let mut decimals = 0;
        while step < 0.99 && decimals < 9 {
            step *= 10.0;
            decimals += 1;
        }
        decimals
    }
}

/// How a printed total stands to its printed parts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Total {
    /// It is their sum.
    Agrees,
    /// It is their sum within what the rounding of each part and of the total explains.
    WithinRounding,
    /// It is their sum rounded to tens, to whole units: coarser than the parts are printed.
    Rounded {
        /// To what it was rounded.
        to: f64,
    },
    /// It is another number.
    Differs {
        /// Total less sum of the parts.
        by: f64,
    },
}

/// The sum of printed parts, at the finest step among them.
pub fn sum_of(parts: &[Printed]) -> Printed {
    let finest = parts
        .iter()
        .map(|part| part.step)
        .fold(f64::INFINITY, f64::min);
    let step = if finest.is_finite() { finest } else { 1.0 };
    let value = parts.iter().map(|part| part.value).sum();
    Printed {
        value: round_to(value, step),
        step,
    }
}

/// Compares a printed total with its printed parts.
///
/// A part printed without decimals among parts with one ("60" beside "1.2") is taken as exact to
/// the finest step. Each part may be off by half that step, so n parts may be off by n halves, and
/// the total by half of its own. A whole total that ends in noughts may have been rounded to tens
/// or hundreds where its parts were not: then it must be the sum rounded so.
pub fn compare(parts: &[Printed], total: Printed) -> Total {
    let sum = sum_of(parts);
    let by = total.value - sum.value;
    if by.abs() < sum.step.min(total.step) * 1e-6 {
        return Total::Agrees;
    }
    if total.step > sum.step * 1.5 && same(round_to(sum.value, total.step), total.value) {
        return Total::Rounded { to: total.step };
    }
    if total.step >= 1.0 {
        let mut to = total.step * 10.0;
        while to <= total.value / 10.0 && same(round_to(total.value, to), total.value) {
            if same(round_to(sum.value, to), total.value) {
                return Total::Rounded { to };
            }
            to *= 10.0;
        }
    }
    let allowed = sum.half() * parts.len() as f64 + total.half();
    if by.abs() <= allowed * (1.0 + 1e-9) {
        return Total::WithinRounding;
    }
    Total::Differs { by }
}

fn same(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-6
}

/// What is to be said about a printed total; nothing when it agrees or differs by rounding of the
/// parts alone. `unit` is "%" or "g" or "oz".
pub fn total(parts: &[Printed], printed: Printed, unit: &str, at: Span) -> Option<Diagnostic> {
    let sum = sum_of(parts);
    let said = |number: Printed| format!("{} {unit}", fixed(number.value, number.decimals()));
    let said_by = |by: f64| format!("{} {unit}", fixed(by.abs(), sum.decimals()));
    match compare(parts, printed) {
        Total::Agrees | Total::WithinRounding => None,
        Total::Rounded { to } => {
            let to_what = if to > 1.5 {
                format!("{} {unit}", trimmed(to, 0))
            } else {
                format!("whole {unit}")
            };
            let message = format!(
                "The parts come to {}; the printed total, {}, is that rounded to {to_what}.",
                said(sum),
                said(printed)
            );
            Some(
                Diagnostic::at(code::PRINTED_TOTAL_ROUNDED, at, message).hint(format!(
                    "Print {}, so that a reader who adds up gets the same.",
                    said(sum)
                )),
            )
        }
        Total::Differs { by } => {
            let side = if by > 0.0 { "more" } else { "less" };
            let message = format!(
                "The parts come to {}; the printed total, {}, is {} {side}.",
                said(sum),
                said(printed),
                said_by(by)
            );
            let parts: Vec<String> = parts
                .iter()
                .map(|part| fixed(part.value, part.decimals()))
                .collect();
            let mut finding = Diagnostic::at(code::PRINTED_TOTAL_DIFFERS, at, message)
                .because(format!("{} = {}", parts.join(" + "), said(sum)));
            if let Some(digit) = one_digit_away(sum, printed) {
                finding = finding.hint(format!(
                    "One digit differs ({digit}): the total is probably a misprint for {}.",
                    said(sum)
                ));
            }
            Some(finding.hint(format!(
                "Print {}, or mend the part that is wrong.",
                said(sum)
            )))
        }
    }
}

/// When two numbers printed alike differ in one digit: which for which.
fn one_digit_away(sum: Printed, printed: Printed) -> Option<String> {
    let decimals = sum.decimals().max(printed.decimals());
    let (sum, printed) = (fixed(sum.value, decimals), fixed(printed.value, decimals));
    if sum.len() != printed.len() {
        return None;
    }
    let mut different = sum
        .chars()
        .zip(printed.chars())
        .filter(|(one, other)| one != other);
    let (right, wrong) = different.next()?;
    different
        .next()
        .is_none()
        .then(|| format!("{wrong} for {right}"))
}

/// A line of a printed formula with both its mass and its percentage.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintedLine {
    /// What it is.
    pub name: String,
    /// Its mass in the formula's unit.
    pub mass: Printed,
    /// Its share of the flour, in per cent.
    pub percent: Printed,
    /// Where it stands.
    pub span: Span,
}

/// Lines whose percentage is not their mass on the flour, beyond the rounding of the three.
pub fn percentages(lines: &[PrintedLine], flour: Printed) -> Vec<Diagnostic> {
    if flour.value <= 0.0 {
        return Vec::new();
    }
    lines
        .iter()
        .filter_map(|line| {
            let exact = line.mass.value / flour.value * 100.0;
            let flour_least = (flour.value - flour.half()).max(f64::MIN_POSITIVE);
            let high = (line.mass.value + line.mass.half()) / flour_least * 100.0;
            let low = (line.mass.value - line.mass.half()) / (flour.value + flour.half()) * 100.0;
            let half = line.percent.half() * (1.0 + 1e-9);
            if (low - half..=high + half).contains(&line.percent.value) {
                return None;
            }
            let decimals = line.percent.decimals();
            let message = format!(
                "{} is printed as {} % of the flour, and its mass makes it {} %.",
                line.name,
                fixed(line.percent.value, decimals),
                fixed(exact, decimals.max(1))
            );
            Some(
                Diagnostic::at(code::PRINTED_PERCENT_DIFFERS, line.span, message)
                    .because(format!(
                        "{} / {} = {} %",
                        fixed(line.mass.value, line.mass.decimals()),
                        fixed(flour.value, flour.decimals()),
                        fixed(exact, 2)
                    ))
                    .hint("Mend the percentage or the mass; nobody can bake both."),
            )
        })
        .collect()
}

/// A measure and a mass of one thing contradict each other when they differ by more than this.
/// One method of filling a cup differs by some 3 % between people (a test with ten, second-hand),
/// and printed spoons are rounded to quarters; a tenth leaves room for both. Our own choice.
pub const MEASURE_TOLERANCE: f64 = 0.10;

/// A finding when spoons or cups of a thing cannot weigh what is printed beside them.
pub fn measure(
    name: &str,
    measures: &[Spooned],
    mass: Mass,
    density: Density,
    origin: &Origin,
    at: Span,
) -> Option<Diagnostic> {
    let volume = measures
        .iter()
        .map(|spooned| spooned.measure.volume() * spooned.count)
        .sum::<numerics::quantity::Volume>();
    let weighs = volume * density;
    if weighs <= Mass::ZERO || mass <= Mass::ZERO {
        return None;
    }
    let off = mass / weighs - 1.0;
    if off.abs() <= MEASURE_TOLERANCE {
        return None;
    }
    let words: Vec<String> = measures
        .iter()
        .map(|spooned| format!("{} {}", trimmed(spooned.count, 3), spooned.measure.word()))
        .collect();
    let words = words.join(" + ");
    let message = format!(
        "{words} of {name} weigh {} g, not {} g: {} % {}.",
        trimmed(weighs.grams(), 1),
        trimmed(mass.grams(), 1),
        trimmed(off.abs() * 100.0, 0),
        if off > 0.0 {
            "less than printed"
        } else {
            "more than printed"
        }
    );
    let per = |mass: Mass| {
        measures.first().map(|one| {
            let of_one = one.measure.volume() / volume;
            format!(
                "{} g/{}",
                trimmed((mass * of_one).grams(), 2),
                one.measure.word()
            )
        })
    };
    let mut finding = Diagnostic::at(code::MEASURE_CONTRADICTS_MASS, at, message)
        .hint("Keep the mass and let the measure be worked out from it.")
        .hint("If it is another kind of it (coarse salt, sifted flour), name that kind.");
    if let (Some(printed), Some(known)) = (per(mass), per(weighs)) {
        finding = finding.because(format!(
            "printed {printed}; known {known} ({}, {})",
            origin.source,
            origin.had.words()
        ));
    }
    Some(finding)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn printed(text: &str) -> Printed {
        Printed::read(text).expect("a plain decimal")
    }

    fn parts(texts: &[&str]) -> Vec<Printed> {
        texts.iter().map(|text| printed(text)).collect()
    }

    #[test]
    fn a_number_keeps_the_step_of_its_last_digit() {
        assert_eq!(printed("760").decimals(), 0);
        assert_eq!(printed("1.20").decimals(), 2);
        assert_eq!(Printed::read("1,2"), None);
        assert_eq!(Printed::read(""), None);
        assert_eq!(Printed::read("."), None);
    }

    #[test]
    fn rounding_of_the_parts_is_no_misprint() {
        // Thirds printed to one decimal: 33.3 + 33.3 + 33.3 = 99.9, printed 100.0.
        let thirds = parts(&["33.3", "33.3", "33.3"]);
        assert_eq!(compare(&thirds, printed("100.0")), Total::WithinRounding);
        assert!(matches!(
            compare(&thirds, printed("100.4")),
            Total::Differs { .. }
        ));
    }

    #[test]
    fn a_percentage_that_its_mass_contradicts_is_named() {
        let line = |mass: &str, percent: &str| PrintedLine {
            name: "milk".to_owned(),
            mass: printed(mass),
            percent: printed(percent),
            span: Span::default(),
        };
        assert!(percentages(&[line("333", "33.3")], printed("1000")).is_empty());
        assert_eq!(percentages(&[line("333", "35")], printed("1000")).len(), 1);
    }
}
