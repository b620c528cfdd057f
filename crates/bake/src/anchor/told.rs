//! What a fit has to say: the factors and what moved them, every tested figure beside ours, and what fails.

use super::factor::Factor;
use super::figure::{Figure, MET, What};
use super::fit::{Found, Try};
use super::tested::Bake;
use crate::code;
use crate::simulate::{Anchored, Compared};
use crate::wording::{capital, degrees, time};
use numerics::decimal::fixed;
use numerics::math::exp;
use numerics::quantity::Temperature;
use recipe::source::Diagnostic;

/// A factor that differs from one by less than this has not moved, of its logarithm.
const STANDS: f64 = 0.01;

/// The outcome as values.
pub fn anchored(bakes: &[Bake], found: &Found) -> Anchored {
    let mut compared = Vec::new();
    for (bake, figure, value) in every(bakes, &found.last) {
        compared.push(Compared {
            what: format!("{}, {}", figure.words, bake.date),
            tested: figure.tested,
            worked_out: value,
            unit: figure.unit,
            met: figure.off(value).abs() <= MET,
        });
    }
    Anchored {
        bakes: bakes.len(),
        factors: found.factors(),
        moved: Factor::ALL
            .into_iter()
            .filter_map(|factor| moved(factor, bakes, found))
            .collect(),
        compared,
        runs: found.runs,
    }
}

/// Every figure with what it came to.
fn every<'a>(
    bakes: &'a [Bake],
    last: &'a Try,
) -> impl Iterator<Item = (&'a Bake, &'a Figure, f64)> {
    bakes
        .iter()
        .zip(&last.worked_out)
        .flat_map(|(bake, values)| {
            let known = bake.figures.iter().zip(values);
            known.filter_map(move |(figure, value)| Some((bake, figure, (*value)?)))
        })
}

/// "The yeast works 1.24 times as fast as reckoned: by the rise of the sponge of 2026-01-18 and one
/// more figure."
fn moved(factor: Factor, bakes: &[Bake], found: &Found) -> Option<String> {
    let log = found.last.logs[factor.place()];
    if log.abs() < STANDS {
        return None;
    }
    let mut by = every(bakes, &found.last).filter(|(_, figure, _)| figure.pulls() == Some(factor));
    let (bake, first, _) = by.next()?;
    let others = by.count();
    let more = match others {
        0 => String::new(),
        1 => " and one more figure".to_owned(),
        many => format!(" and {many} more figures"),
    };
    Some(format!(
        "{}: by the {} of {}{more}.",
        factor.told(&fixed(exp(log), 2)),
        first.words,
        bake.date
    ))
}

/// Everything that does not fit.
pub fn findings(bakes: &[Bake], found: &Found) -> Vec<Diagnostic> {
    let mut all = Vec::new();
    if !found.settled {
        all.push(unsettled(bakes, found));
    }
    let mut named = Vec::new();
    for (factor, asks) in &found.refused {
        all.extend(refused(*factor, *asks, bakes, found, &mut named));
    }
    for factor in Factor::ALL {
        all.extend(disagreement(factor, bakes, found, &mut named));
    }
    for (bake, figure, value) in every(bakes, &found.last) {
        if figure.off(value).abs() > MET && !named.contains(&figure.span.start) {
            all.push(not_met(bake, figure, value));
        }
    }
    all
}

/// A value of a figure as a cook says it.
fn shown(figure: &Figure, value: f64) -> String {
    match figure.what {
        What::Rise(_) | What::Core(_) => time(value),
        What::Crust => format!("L* {}", fixed(value, 0)),
        What::Loss => format!("{}\u{a0}%", fixed(100.0 * value, 1)),
        What::Dough => degrees(Temperature::from_si(value)),
    }
}

fn not_met(bake: &Bake, figure: &Figure, value: f64) -> Diagnostic {
    let hint = match figure.what {
        What::Rise(_) => {
            "Look whether room, warm place and dough temperature are noted as they were."
        }
        What::Core(_) => "Look whether the oven's own temperature, tin and mass are as they were.",
        What::Crust => "Look whether the word for the crust is meant so, and what was brushed on.",
        What::Loss => {
            "Look whether it was weighed hot or cold, and with its tin. From tins less is reckoned to go than bakers weigh: there your scale is right."
        }
        What::Dough => {
            "Look whether the mixer's friction and what went in cold are written as they were."
        }
    };
    Diagnostic::at(
        code::TESTED_FIGURE_NOT_MET,
        figure.span,
        format!(
            "{}: {} as tested on {}, {} as worked out; no factor that tests may move brings them together.",
            capital(&figure.words),
            shown(figure, figure.tested),
            bake.date,
            shown(figure, value)
        ),
    )
    .hint(hint)
}

/// A factor that its figures would push out of its range stays one.
fn refused(
    factor: Factor,
    asks: f64,
    bakes: &[Bake],
    found: &Found,
    named: &mut Vec<usize>,
) -> Option<Diagnostic> {
    let of_it = |one: &(&Bake, &Figure, f64)| one.1.pulls() == Some(factor);
    let (bake, figure, value) = every(bakes, &found.last)
        .filter(of_it)
        .max_by(|one, other| {
            one.1
                .off(one.2)
                .abs()
                .total_cmp(&other.1.off(other.2).abs())
        })?;
    named.push(figure.span.start);
    let (low, high) = factor.range();
    Some(
        Diagnostic::at(
            code::ANCHOR_OUTSIDE_RANGE,
            figure.span,
            format!(
                "{}: {} as tested on {}, {} as worked out. For that {}; no more than {} to {} times is believed, so nothing is moved.",
                capital(&figure.words),
                shown(figure, figure.tested),
                bake.date,
                shown(figure, value),
                factor.asked(&fixed(asks.min(99.0), if asks < 1.0 { 2 } else { 1 })),
                fixed(low, 2),
                fixed(high, 1)
            ),
        )
        .hint("Look whether the figure is noted right, and the amount of yeast, the oven and the kitchen of that bake."),
    )
}

/// Two figures of one factor, each far off on its own side.
fn disagreement(
    factor: Factor,
    bakes: &[Bake],
    found: &Found,
    named: &mut Vec<usize>,
) -> Option<Diagnostic> {
    let of_it = |one: &(&Bake, &Figure, f64)| one.1.pulls() == Some(factor);
    let off = |one: &(&Bake, &Figure, f64)| one.1.off(one.2);
    let by_off = |one: &(&Bake, &Figure, f64), other: &(&Bake, &Figure, f64)| {
        off(one).total_cmp(&off(other))
    };
    let most = every(bakes, &found.last).filter(of_it).max_by(by_off)?;
    let least = every(bakes, &found.last).filter(of_it).min_by(by_off)?;
    if off(&most) <= MET || off(&least) >= -MET {
        return None;
    }
    named.extend([most.1.span.start, least.1.span.start]);
    let told = |one: &(&Bake, &Figure, f64)| {
        format!(
            "{} {} on {}",
            one.1.words,
            shown(one.1, one.1.tested),
            one.0.date
        )
    };
    Some(
        Diagnostic::at(
            code::TESTED_BAKES_DISAGREE,
            least.1.span,
            format!(
                "Two tested figures contradict each other even when room and dough are taken as noted: {}, but {}. No one yeast and no one crumb does both.",
                told(&most),
                told(&least)
            ),
        )
        .label(most.1.span, "the other one")
        .hint("Look at both notes; leave out the one that was not seen well, or say what was different. If both were so, the reckoning is wrong for one of them."),
    )
}

/// The factors went on moving.
fn unsettled(bakes: &[Bake], found: &Found) -> Diagnostic {
    let tries = found.tries.len();
    let mut finding = Diagnostic::whole(
        code::ANCHOR_DOES_NOT_SETTLE,
        format!(
            "After {tries} tries the factors of the tested bakes still move; the last try is used."
        ),
    )
    .hint("Look at the tested bakes one by one: leave out all but one, and add the others again.");
    for (place, one) in found.tries.iter().enumerate() {
        let seen: Vec<String> = every(bakes, one)
            .map(|(_, figure, value)| format!("{} {}", figure.words, shown(figure, value)))
            .collect();
        let factors: Vec<String> = one.logs.iter().map(|log| fixed(exp(*log), 2)).collect();
        finding = finding.because(format!(
            "Try {}: yeast, vapour, browning times {}: {}.",
            place + 1,
            factors.join(", "),
            seen.join("; ")
        ));
    }
    finding
}
