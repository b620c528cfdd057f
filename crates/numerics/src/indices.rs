//! How much of what an outcome varies by goes back to one of its inputs, or to several together.
//!
//! # Relation
//! First order, from any run: S = (B - (m - 1) W/(n - m)) / (B + W), B = sum over parts of
//! `n_p` (`y_p` - y)^2, W what is left within the parts. Total, from pairs in which only the inputs of a
//! group were drawn anew: T = sum (y - y')^2 / (2 n V). Spread of either: the jackknife that leaves out one
//! scramble after the other, interval t(7) = 2.36 standard errors either way.
//!
//! # Symbols
//! S, T, shares of the variance V of y, 1; n, runs; m, parts into which the range of an input is cut; `n_p`,
//! `y_p`, runs in a part and their mean; y', the outcome with the group drawn anew.
//!
//! # Valid for
//! S: any inputs; of inputs that go together it holds what they share. T: a group that is independent of all
//! others. Parts of no fewer than about ten runs.
//!
//! # Source
//! S from given data by parts: Plischke, Borgonovo and Smith 2013, Eur. J. Oper. Res. 226:536; its
//! correction for chance: Kelley 1935, PNAS 21:554. T: Jansen 1999, Comput. Phys. Commun. 117:35. (All from
//! memory.) t(7): tables of Student's distribution.
//!
//! # Departures
//! S may come out a little below 0; whoever prints it says 0.
//!
//! # Checked by
//! `tests/verification/indices.rs`: Ishigami's function and the g-function by their exact values, and `SALib`.

use crate::draw::SCRAMBLES;

/// A figure with how far it may be off, by the scrambles.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Known {
    /// The figure.
    pub value: f64,
    /// Half the width of its interval of 95 %.
    pub within: f64,
}

/// Student's t for seven degrees of freedom, two-sided 95 %.
pub const T7: f64 = 2.364_6;

/// A figure of runs, and its interval by leaving out one scramble after the other. `of`: the figure from the
/// runs that a test lets through.
pub fn jackknife(of: impl Fn(&dyn Fn(u64) -> bool) -> f64) -> Known {
    let value = of(&|_| true);
    let count = SCRAMBLES as f64;
    let without: Vec<f64> = (0..SCRAMBLES)
        .map(|left_out| of(&|scramble| scramble != left_out))
        .collect();
    let mean = without.iter().sum::<f64>() / count;
    let squares: f64 = without.iter().map(|one| (one - mean) * (one - mean)).sum();
    Known {
        value,
        within: T7 * ((count - 1.0) / count * squares).sqrt(),
    }
}

/// One run: which scramble it belongs to, an input as a share, the outcome.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// Its scramble.
    pub scramble: u64,
    /// The input, from 0 to 1.
    pub u: f64,
    /// The outcome.
    pub y: f64,
}

/// Share of the outcome's variance that goes back to one input. `cuts`: inner edges of the parts, rising.
pub fn first_order(runs: &[Run], cuts: &[f64]) -> Known {
    let parts: Vec<usize> = runs
        .iter()
        .map(|run| cuts.partition_point(|cut| *cut <= run.u))
        .collect();
    jackknife(|lets| {
        let mut sums = vec![(0.0, 0.0); cuts.len() + 1];
        let (mut n, mut sum) = (0.0, 0.0);
        for (run, part) in runs
            .iter()
            .zip(&parts)
            .filter(|(run, _)| lets(run.scramble))
        {
            sums[*part].0 += 1.0;
            sums[*part].1 += run.y;
            n += 1.0;
            sum += run.y;
        }
        let mean = sum / n;
        let filled = sums.iter().filter(|(count, _)| *count > 0.0);
        let m = filled.clone().count() as f64;
        let between: f64 = filled
            .map(|(count, sum)| count * (sum / count - mean) * (sum / count - mean))
            .sum();
        let kept = runs.iter().filter(|run| lets(run.scramble));
        let all: f64 = kept.map(|run| (run.y - mean) * (run.y - mean)).sum();
        if all <= 0.0 || n <= m {
            return 0.0;
        }
        let within = (all - between).max(0.0);
        (between - (m - 1.0) * within / (n - m)) / all
    })
}

/// A pair of runs that differ in a group of inputs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// Its scramble.
    pub scramble: u64,
    /// The outcome.
    pub y: f64,
    /// The outcome with the group drawn anew.
    pub anew: f64,
}

/// Share of the outcome's variance that the group has any part in; 0 when nothing varies.
pub fn total(pairs: &[Pair]) -> Known {
    jackknife(|lets| {
        let kept = || pairs.iter().filter(|pair| lets(pair.scramble));
        let n = kept().count() as f64;
        // Both runs of a pair are runs: the variance is had from all of them.
        let mean = kept().map(|pair| pair.y + pair.anew).sum::<f64>() / (2.0 * n);
        let off = |y: f64| (y - mean) * (y - mean);
        let variance = kept().map(|pair| off(pair.y) + off(pair.anew)).sum::<f64>() / (2.0 * n);
        if variance <= 0.0 {
            return 0.0;
        }
        let apart = |pair: &Pair| (pair.y - pair.anew) * (pair.y - pair.anew);
        kept().map(apart).sum::<f64>() / (2.0 * n * variance)
    })
}

/// The value below which a share of sorted values lies, in a straight line between two of them.
pub fn quantile(sorted: &[f64], share: f64) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    let at = share.clamp(0.0, 1.0) * last as f64;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // from 0 to the last place
    let below = (at.floor() as usize).min(last);
    let above = (below + 1).min(last);
    Some(sorted[below] + (sorted[above] - sorted[below]) * (at - below as f64))
}

#[cfg(test)]
mod tests {
    use super::{Pair, Run, first_order, quantile, total};

    #[test]
    fn an_input_that_is_all_and_one_that_is_nothing() {
        let run = |number: u32, y: f64| Run {
            scramble: u64::from(number % 8),
            u: (f64::from(number) + 0.5) / 800.0,
            y,
        };
        let step = |number: u32| f64::from(number / 400);
        let cuts = [0.25, 0.5, 0.75];
        let all: Vec<Run> = (0..800).map(|n| run(n, step(n))).collect();
        assert!((first_order(&all, &cuts).value - 1.0).abs() < 1e-9);
        // The outcome goes round eight by eight: no part of the input tells it.
        let none: Vec<Run> = (0..800).map(|n| run(n, f64::from(n / 8 % 2))).collect();
        assert!(first_order(&none, &cuts).value.abs() < 0.01);
        let flat: Vec<Run> = (0..800).map(|n| run(n, 3.0)).collect();
        assert!(first_order(&flat, &cuts).value.abs() < 1e-12);
    }

    #[test]
    fn a_group_that_decides_and_one_that_does_not() {
        let pair = |n: u32, anew: f64| Pair {
            scramble: u64::from(n % 8),
            y: f64::from(n / 8 % 2),
            anew,
        };
        let same: Vec<Pair> = (0..64).map(|n| pair(n, f64::from(n / 8 % 2))).collect();
        assert!(total(&same).value.abs() < 1e-12);
        let anew: Vec<Pair> = (0..64).map(|n| pair(n, f64::from(n / 16 % 2))).collect();
        assert!((total(&anew).value - 1.0).abs() < 1e-9);
    }

    #[test]
    fn between_two_values_in_a_straight_line() {
        let sorted = [1.0, 2.0, 4.0];
        assert_eq!(quantile(&sorted, 0.5), Some(2.0));
        assert_eq!(quantile(&sorted, 0.75), Some(3.0));
        assert_eq!(quantile(&sorted, 1.0), Some(4.0));
        assert_eq!(quantile(&[], 0.5), None);
    }
}
