//! When a figure as said is the figure as written: other units, rounding, and what "about" allows.
//!
//! How much is allowed is common practice of recipes in two systems of units: a dial to 6 °C, a probe to
//! a degree, a spoon to a tenth, a scale to 3 %.

#![allow(clippy::float_cmp)] // numbers as they are said are whole, or the same number twice

use crate::talk::facts::{Fact, Fine};
use numerics::quantity::Temperature;
use recipe::measure::read::sentence::GAS_MARKS;
use recipe::measure::spoken::{Meant, Nearness, Spoken};

/// A scale of temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::talk) enum Scale {
    Celsius,
    Fahrenheit,
}

/// Degrees of a scale as kelvin.
pub(in crate::talk) fn as_temperature(degrees: f64, scale: Scale) -> f64 {
    match scale {
        Scale::Celsius => Temperature::from_celsius(degrees).si(),
        Scale::Fahrenheit => Temperature::from_fahrenheit(degrees).si(),
    }
}

/// The ends that a figure reaches when it is meant so nearly.
pub(super) fn reach(low: f64, high: f64, nearness: Nearness, about: f64) -> (f64, f64) {
    match nearness {
        Nearness::Exact => (low, high),
        Nearness::About => (low * (1.0 - about), high * (1.0 + about)),
        Nearness::Under => (low * (1.0 - 2.0 * about), high),
        Nearness::Over => (low, high * (1.0 + 2.0 * about)),
        Nearness::AtLeast => (low, high * 1.6),
        Nearness::AtMost => (low * 0.5, high),
    }
}

/// Kelvin by which a temperature may differ.
fn slack(fine: Fine, nearness: Nearness) -> f64 {
    let exact = match fine {
        Fine::Dial => 5.8,
        Fine::Probe => 1.4,
        Fine::Place => 2.3,
    };
    match (nearness, fine) {
        (Nearness::Exact, _) => exact,
        (_, Fine::Dial) => 8.0,
        _ => exact + 1.2,
    }
}

/// Whether temperatures in kelvin agree.
pub(super) fn heat(low: f64, high: f64, nearness: Nearness, fact: &Fact) -> bool {
    let slack = slack(fact.fine, nearness);
    let one = high - low < 0.01;
    let (mut from, mut to) = (fact.low - slack, fact.high + slack);
    match nearness {
        Nearness::Under | Nearness::AtMost => from -= slack,
        Nearness::Over | Nearness::AtLeast => to += slack,
        _ => {}
    }
    if one {
        (from..=to).contains(&low)
    } else {
        low <= to && high >= from && high - low <= (fact.high - fact.low).max(slack) * 3.0
    }
}

/// A fan takes so much off the dial, from and to, in kelvin (customs of the United States and of Europe).
const FAN: (f64, f64) = (10.0, 26.0);

/// Whether a dial with its fan on agrees with one without.
pub(super) fn fan(low: f64, fact: &Fact) -> bool {
    fact.fine == Fine::Dial && (fact.low - FAN.1..=fact.low - FAN.0).contains(&low)
}

/// Whether a gas mark agrees with a dial.
pub(super) fn gas(low: f64, high: f64, fact: &Fact) -> bool {
    let celsius = |mark: f64| {
        GAS_MARKS
            .iter()
            .min_by(|a, b| (a.0 - mark).abs().total_cmp(&(b.0 - mark).abs()))
            .map_or(0.0, |(_, celsius)| *celsius)
    };
    let slack = 7.0;
    fact.fine == Fine::Dial
        && Temperature::from_celsius(celsius(low) - slack).si() <= fact.high
        && Temperature::from_celsius(celsius(high) + slack).si() >= fact.low
}

/// Whether times agree, in seconds.
pub(super) fn time(low: f64, high: f64, nearness: Nearness, fact: &Fact) -> bool {
    let (from, to) = reach(low, high, nearness, 0.15);
    // A tenth beyond the ends, and twenty seconds at a mixer.
    let slack = (0.1 * fact.usual).max(20.0);
    if low == high || nearness != Nearness::Exact {
        return from <= fact.high + slack && to >= fact.low - slack;
    }
    let overlap = from <= fact.high + slack && to >= fact.low - slack;
    let middle = f64::midpoint(low, high);
    let inside = (fact.low - 1.5 * slack..=fact.high + 1.5 * slack).contains(&middle);
    let holds = low - slack <= fact.usual && fact.usual <= high + slack;
    overlap && (inside || holds)
}

/// Whether masses agree, in kilograms; measures of volume are coarser than scales.
pub(super) fn mass(low: f64, high: f64, spoken: &Spoken, written: f64) -> bool {
    let coarse = matches!(spoken.meant, Meant::Volume(_) | Meant::Packets(..));
    let about = if coarse { 0.2 } else { 0.08 };
    let (from, to) = reach(low, high, spoken.nearness, about);
    let slack = if coarse {
        0.125
    } else if matches!(spoken.unit, recipe::measure::spoken::SpokenUnit::Mass(size) if size > 0.02 && size < 0.9)
    {
        // Ounces and pounds are rounded to quarters.
        0.075
    } else {
        0.045
    };
    // A scale of tenths of a gram is not read finer than half a tenth.
    let least = if coarse { 0.0 } else { 0.000_05 };
    from * (1.0 - slack) - least <= written && written <= to * (1.0 + slack) + least
}

/// Whether lengths agree, in metres.
pub(super) fn length(low: f64, high: f64, nearness: Nearness, written: f64) -> bool {
    let (from, to) = reach(low, high, nearness, 0.15);
    let slack = 0.085;
    from * (1.0 - slack) <= written && written <= to * (1.0 + slack)
}

/// Whether sides agree: each of the shorter list near one of the longer, in order.
pub(super) fn sides(said: &[f64], written: &[f64]) -> bool {
    if said.len() > written.len() {
        return false;
    }
    let sorted = |sides: &[f64]| {
        let mut sides = sides.to_vec();
        sides.sort_by(|a, b| b.total_cmp(a));
        sides
    };
    let (said, written) = (sorted(said), sorted(written));
    said.iter()
        .zip(&written)
        .all(|(a, b)| (a / b - 1.0).abs() <= 0.045)
}
