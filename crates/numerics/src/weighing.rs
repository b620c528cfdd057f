//! Cases that are weighed: weights from logarithms, how many cases really count, a fair draw of them, their quantiles.
//!
//! # Relation
//! w = exp(l - the greatest l) / sum; the number that counts is 1 / (sum of w^2). The draw: of n marks at
//! (u + k)/n each takes the case in whose part of the sum of weights it falls.
//!
//! # Symbols
//! l, logarithm of a weight up to a constant; w, weight, all adding to 1; u, between 0 and 1.
//!
//! # Valid for
//! Any number of cases; a weight may be nothing.
//!
//! # Source
//! Number that counts: Kong, Liu and Wong 1994, J. Am. Stat. Assoc. 89:278. Systematic draw: Kitagawa 1996,
//! J. Comput. Graph. Stat. 5:1 (both from memory).
//!
//! # Departures
//! None.
//!
//! # Checked by
//! The tests below; `tests/verification/weighed.rs`.

use crate::math::exp;

/// Weights that add up to 1; none when no case has any.
pub fn weights(logs: &[f64]) -> Option<Vec<f64>> {
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if !most.is_finite() {
        return None;
    }
    let raw: Vec<f64> = logs
        .iter()
        .map(|log| if log.is_nan() { 0.0 } else { exp(log - most) })
        .collect();
    let all: f64 = raw.iter().sum();
    Some(raw.into_iter().map(|weight| weight / all).collect())
}

/// How many cases of equal weight say as much.
pub fn that_count(weights: &[f64]) -> f64 {
    let squares: f64 = weights.iter().map(|weight| weight * weight).sum();
    if squares > 0.0 { 1.0 / squares } else { 0.0 }
}

/// So many cases drawn by their weights, by place, in order: each as often as its share of the number, give or
/// take less than one.
pub fn drawn(weights: &[f64], number: usize, u: f64) -> Vec<usize> {
    let mut places = Vec::with_capacity(number);
    let (mut below, mut at) = (0.0, 0);
    for mark in 0..number {
        let wanted = (u + mark as f64) / number as f64;
        while at + 1 < weights.len() && below + weights[at] <= wanted {
            below += weights[at];
            at += 1;
        }
        places.push(at);
    }
    places
}

/// The value below which a share of the weight lies, in a straight line between the middles of two cases.
/// Values need no order; none when there are none.
pub fn quantile(cases: &[(f64, f64)], share: f64) -> Option<f64> {
    quantiles(cases, [share]).map(|[value]| value)
}

/// The same for several shares at once.
pub fn quantiles<const N: usize>(cases: &[(f64, f64)], shares: [f64; N]) -> Option<[f64; N]> {
    let mut sorted: Vec<(f64, f64)> = cases
        .iter()
        .copied()
        .filter(|(value, weight)| value.is_finite() && *weight > 0.0)
        .collect();
    sorted.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (last, _) = *sorted.last()?;
    let all: f64 = sorted.iter().map(|(_, weight)| weight).sum();
    Some(shares.map(|share| below(&sorted, share.clamp(0.0, 1.0) * all).unwrap_or(last)))
}

/// The value at which so much of the weight lies below, of cases in order; none beyond the middle of the last.
fn below(sorted: &[(f64, f64)], wanted: f64) -> Option<f64> {
    let mut before: Option<(f64, f64)> = None;
    let mut below = 0.0;
    for (value, weight) in sorted {
        let middle = below + 0.5 * weight;
        if middle >= wanted {
            return Some(match before {
                Some((was, at)) if middle > at => {
                    was + (value - was) * (wanted - at) / (middle - at)
                }
                _ => *value,
            });
        }
        before = Some((*value, middle));
        below += weight;
    }
    None
}

/// Mean and variance by weight.
pub fn moments(cases: impl Iterator<Item = (f64, f64)> + Clone) -> (f64, f64) {
    let all: f64 = cases.clone().map(|(_, weight)| weight).sum();
    let mean = cases
        .clone()
        .map(|(value, weight)| value * weight)
        .sum::<f64>()
        / all;
    let apart = |(value, weight): (f64, f64)| weight * (value - mean) * (value - mean);
    (mean, cases.map(apart).sum::<f64>() / all)
}

#[cfg(test)]
mod tests {
    use super::{drawn, moments, quantile, that_count, weights};

    #[test]
    fn each_is_drawn_as_often_as_its_weight_to_within_one() {
        let weights = weights(&[0.0, -1.0, -2.5, f64::NEG_INFINITY, 0.7]).expect("some");
        for u in [0.001, 0.3, 0.999] {
            let places = drawn(&weights, 100, u);
            for (place, weight) in weights.iter().enumerate() {
                let often = places.iter().filter(|one| **one == place).count() as f64;
                assert!((often - 100.0 * weight).abs() < 1.0, "{place}: {often}");
            }
        }
    }

    #[test]
    fn equal_cases_all_count_and_one_alone_counts_once() {
        assert!((that_count(&[0.25; 4]) - 4.0).abs() < 1e-12);
        assert!((that_count(&[1.0, 0.0, 0.0]) - 1.0).abs() < 1e-12);
        assert_eq!(weights(&[f64::NEG_INFINITY]), None);
    }

    #[test]
    fn quantiles_of_equal_cases_are_the_usual_ones() {
        let cases: Vec<(f64, f64)> = (1..=9_u32).rev().map(|x| (f64::from(x), 1.0)).collect();
        assert_eq!(quantile(&cases, 0.5), Some(5.0));
        assert_eq!(quantile(&cases, 0.0), Some(1.0));
        assert_eq!(quantile(&[], 0.5), None);
        let (mean, variance) = moments(cases.iter().copied());
        assert!((mean - 5.0).abs() < 1e-12 && (variance - 60.0 / 9.0).abs() < 1e-12);
    }
}
