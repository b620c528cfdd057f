//! What is not known about the reckoning itself: a second loop over everything that is fitted, from memory or habit.
//!
//! # Relation
//! For each of at least 64 ways that it might be, the share of the same kitchens in which all comes out well;
//! the band holds the middle nine of ten differences from the usual way.
//!
//! # Symbols
//! A way: a normal score for each doubt, by [`Purpose::Model`].
//!
//! # Valid for
//! What is drawn below; what cannot be reached from outside is named in [`OUT_OF_REACH`] and is part of no band.
//!
//! # Source
//! Two loops, what varies inside and what is not known outside: Helton 1997, J. Stat. Comput. Simul. 57:3
//! (from memory). How far each doubt goes is a judgement.
//!
//! # Departures
//! All ways see the same kitchens, so that chance in the kitchens does not widen the band.
//!
//! # Checked by
//! `tests/plausibility/kitchens.rs`.

use super::audience::Audience;
use super::departure::of;
use super::judge::Limits;
use super::met::met;
use super::setup::Setup;
use super::tally::{Row, outcome};
use super::variable::Variable;
use crate::anchor::Factor;
use crate::simulate::Anchor;
use numerics::distribution::{Distribution, normal_quantile};
use numerics::draw::{Purpose, unit};
use numerics::math::{exp, ln};
use recipe::provenance::Had;
use std::ops::Range;

/// So many ways at least.
pub const WAYS: u64 = 64;

/// What is not known either, and cannot be varied from here: it is part of no band.
pub const OUT_OF_REACH: [&str; 6] = [
    "how yeast answers warmth, sugar and salt",
    "how much gas a dough holds",
    "films, walls and radiation of ovens and tins",
    "when starch sets",
    "how an oven falls when its door opens",
    "shapes of loose pieces",
];

/// One way that the reckoning might be.
#[derive(Clone, Debug)]
pub struct Way {
    /// How often each thing is met.
    pub audience: Audience,
    /// Factors of the simulator.
    pub anchor: Anchor,
    /// The lines at which a bread has a flaw.
    pub limits: Limits,
}

/// The way of a number.
pub fn way(setup: &Setup<'_>, audience: &Audience, seed: u64, number: u64) -> Way {
    let score = |stream: u64, dimension: u32| {
        normal_quantile(unit(
            seed.wrapping_add(stream),
            Purpose::Model,
            number,
            dimension,
        ))
    };
    Way {
        audience: doubted(audience, &score),
        anchor: anchor(setup, &score),
        limits: limits(&score),
    }
}

/// How far a factor may be off, of its logarithm: as it usually strays, or by what a tested figure is good for.
pub(crate) fn strays(anchor: &Anchor, tested: usize, factor: Factor) -> f64 {
    let moved = (factor.of(anchor) - 1.0).abs() > 0.01 && tested > 0;
    if !moved {
        return factor.strays();
    }
    // A figure's own good, over what a factor does to it (`anchor::figure`).
    let figure = match factor {
        Factor::Vigour => crate::anchor::RISE_LN / 0.8,
        Factor::Vapour => crate::anchor::CORE_LN / 0.25,
        Factor::Browning => crate::anchor::CRUST / 14.0,
    };
    let (usual, figure) = (
        1.0 / (factor.strays() * factor.strays()),
        1.0 / (figure * figure),
    );
    1.0 / (usual + figure).sqrt()
}

fn anchor(setup: &Setup<'_>, score: &impl Fn(u64, u32) -> f64) -> Anchor {
    let of = |factor: Factor, dimension: u32| {
        let (low, high) = factor.range();
        let log = ln(factor.of(&setup.anchor))
            + strays(&setup.anchor, setup.tested, factor) * score(1, dimension);
        exp(log).clamp(low, high)
    };
    Anchor {
        vigour: of(Factor::Vigour, 0),
        vapour: of(Factor::Vapour, 1),
        browning: of(Factor::Browning, 2),
        ..setup.anchor
    }
}

fn limits(score: &impl Fn(u64, u32) -> f64) -> Limits {
    let usual = Limits::USUAL;
    let mut dimension = 2;
    let mut by = |size: f64| {
        dimension += 1;
        // A line that is nowhere: no further than two steps.
        size * score(1, dimension).clamp(-2.0, 2.0)
    };
    Limits {
        little_rise: usual.little_rise + by(0.05),
        much_rise: usual.much_rise + by(0.10),
        butter_celsius: usual.butter_celsius + by(1.0),
        stiff: usual.stiff + by(0.03),
        slack: usual.slack + by(0.03),
        bland: usual.bland + by(0.05),
        salty: usual.salty + by(0.07),
        core_celsius: usual.core_celsius + by(1.0),
        pale: (usual.pale + by(2.0)).max(1.0),
        dark: (usual.dark + by(4.0)).max(2.0),
        small: usual.small + by(0.05),
        low_in_tin: usual.low_in_tin + by(0.05),
        over_tin: usual.over_tin + by(0.08),
    }
}

/// An audience as it might be: figures that were read somewhere stand.
fn doubted(audience: &Audience, score: &impl Fn(u64, u32) -> f64) -> Audience {
    let mut made = audience.clone();
    for variable in Variable::ALL {
        let varied = &mut made.variables[variable.place()];
        if !matches!(varied.origin.had, Had::FromMemory | Had::CommonPractice) {
            continue;
        }
        let dimension = variable.dimension();
        shaken(&mut varied.distribution, &|stream| {
            score(2 + stream, dimension)
        });
    }
    made
}

fn shaken(distribution: &mut Distribution, score: &impl Fn(u64) -> f64) {
    match distribution {
        Distribution::Even { low, high } => {
            let (middle, half) = (0.5 * (*low + *high), 0.5 * (*high - *low));
            let wider = half * exp(0.26 * score(0));
            (*low, *high) = (middle - wider, middle + wider);
        }
        Distribution::Normal {
            middle,
            deviation,
            low,
            high,
        } => {
            // Not past its own ends: there would be nothing left of it.
            *middle = (*middle + 0.33 * *deviation * score(0)).clamp(*low, *high);
            *deviation *= exp(0.26 * score(1));
        }
        Distribution::Exponential { mean } => *mean *= exp(0.4 * score(0)),
        Distribution::OneOf(several) => {
            let mut whole = 0.0;
            for (place, (share, _)) in several.iter_mut().enumerate() {
                // Of a yes and a no the odds are 1.6 times either way.
                *share *= exp(0.33 * score(place as u64));
                whole += *share;
            }
            for (share, _) in several.iter_mut() {
                *share /= whole;
            }
        }
        Distribution::Beta { .. } | Distribution::Fixed(_) => {}
    }
}

/// What comes of kitchens as they might be; `None`: of the usual way.
pub fn in_a_way(
    setup: &Setup<'_>,
    audience: &Audience,
    seed: u64,
    way: Option<&Way>,
    numbers: Range<u64>,
) -> Vec<Row> {
    let usual = Way {
        audience: audience.clone(),
        anchor: setup.anchor,
        limits: Limits::USUAL,
    };
    let way = way.unwrap_or(&usual);
    numbers
        .map(|number| {
            let departure = of(setup, &met(&way.audience, seed, number, &[]));
            outcome(setup, &departure, number, way.anchor, &way.limits)
        })
        .collect()
}
