//! How often a value is met: distributions by their quantiles, so that evenly spread points stay so.
//!
//! # Relation
//! x = F^-1(u). Of one cut off at a and b, x = F^-1(F(a) + u (F(b) - F(a))).
//!
//! # Symbols
//! u, a share between 0 and 1; F, the share of values below x.
//!
//! # Valid for
//! u from 1e-12 to 1 - 1e-12. A cut normal is exact while its cut reaches within 8 deviations of the middle.
//!
//! # Source
//! Normal: Wichura 1988, Algorithm AS 241, Appl. Stat. 37:477 (coefficients from memory, checked against
//! `SciPy`). Beta: the continued fraction of the incomplete beta function, DLMF 8.17.22, by Lentz's method;
//! its inverse by halving. Everything else follows from the definition.
//!
//! # Departures
//! None.
//!
//! # Checked by
//! `tests/verification/draws.rs` against `SciPy`.

use crate::math::{erfc, exp, ln, ln_gamma};

/// How often a value is met.
#[derive(Clone, Debug, PartialEq)]
pub enum Distribution {
    /// As often everywhere between two ends.
    Even {
        /// The lower end.
        low: f64,
        /// The upper end.
        high: f64,
    },
    /// The bell curve, cut off at two ends.
    Normal {
        /// Its middle before it is cut.
        middle: f64,
        /// Its standard deviation before it is cut.
        deviation: f64,
        /// Nothing below.
        low: f64,
        /// Nothing above.
        high: f64,
    },
    /// A wait without memory.
    Exponential {
        /// Its mean.
        mean: f64,
    },
    /// The beta distribution stretched over two ends; the first may be the greater.
    Beta {
        /// Its first exponent.
        alpha: f64,
        /// Its second exponent.
        beta: f64,
        /// Where its 0 lies.
        from: f64,
        /// Where its 1 lies.
        to: f64,
    },
    /// One value.
    Fixed(f64),
    /// One of several, each with its share; shares add up to 1.
    OneOf(Vec<(f64, Distribution)>),
}

impl Distribution {
    /// A plain yes or no as 1 or 0; yes lies at the upper end of u.
    pub fn yes(share: f64) -> Self {
        Self::OneOf(vec![
            (1.0 - share, Self::Fixed(0.0)),
            (share, Self::Fixed(1.0)),
        ])
    }

    /// The value below which a share lies. Of several, u chooses the one and what is left of it the
    /// value within, so that it rises only inside each.
    pub fn quantile(&self, u: f64) -> f64 {
        match self {
            Self::Even { low, high } => low + u * (high - low),
            Self::Normal {
                middle,
                deviation,
                low,
                high,
            } => {
                if *deviation <= 0.0 {
                    return middle.clamp(*low, *high);
                }
                let below = |x: f64| normal_share((x - middle) / deviation);
                let (from, to) = (below(*low), below(*high));
                let z = normal_quantile(from + u * (to - from));
                (middle + deviation * z).clamp(*low, *high)
            }
            Self::Exponential { mean } => -mean * ln(1.0 - u),
            Self::Beta {
                alpha,
                beta,
                from,
                to,
            } => from + (to - from) * beta_quantile(*alpha, *beta, u),
            Self::Fixed(value) => *value,
            Self::OneOf(several) => {
                let (place, left) = chosen(several.iter().map(|(share, _)| *share), u);
                several
                    .get(place)
                    .map_or(f64::NAN, |(_, one)| one.quantile(left))
            }
        }
    }

    /// Which of several u chooses, from 0; 0 for one alone.
    pub fn which(&self, u: f64) -> usize {
        match self {
            Self::OneOf(several) => chosen(several.iter().map(|(share, _)| *share), u).0,
            _ => 0,
        }
    }

    /// Whether there is anything in it: ends in order, shares that add up to 1, spreads that are none below 0.
    pub fn can_be(&self) -> bool {
        match self {
            Self::Even { low, high } => low.is_finite() && high.is_finite() && low <= high,
            Self::Normal {
                middle,
                deviation,
                low,
                high,
            } => {
                let reaches = |x: f64, side: f64| {
                    *deviation <= 0.0 && side * (x - middle) >= 0.0
                        || side * (x - middle) > -8.0 * deviation
                };
                middle.is_finite()
                    && deviation.is_finite()
                    && *deviation >= 0.0
                    && low < high
                    && reaches(*high, 1.0)
                    && reaches(*low, -1.0)
            }
            Self::Exponential { mean } => mean.is_finite() && *mean >= 0.0,
            Self::Beta {
                alpha,
                beta,
                from,
                to,
            } => {
                let exponent = |e: f64| e > 0.0 && e < 1e4;
                exponent(*alpha) && exponent(*beta) && from.is_finite() && to.is_finite()
            }
            Self::Fixed(value) => value.is_finite(),
            Self::OneOf(several) => {
                let whole: f64 = several.iter().map(|(share, _)| share).sum();
                let each = |(share, one): &(f64, Self)| *share >= 0.0 && one.can_be();
                !several.is_empty() && (whole - 1.0).abs() < 1e-6 && several.iter().all(each)
            }
        }
    }
}

/// Which of several shares holds u, and where in it u lies.
fn chosen(shares: impl Iterator<Item = f64>, u: f64) -> (usize, f64) {
    let mut below = 0.0;
    let mut last = (0, 0.5);
    for (place, share) in shares.enumerate() {
        if share <= 0.0 {
            continue;
        }
        let within = (u - below) / share;
        last = (place, within.clamp(1e-12, 1.0 - 1e-12));
        if u < below + share {
            return last;
        }
        below += share;
    }
    last
}

/// The share of a standard normal below x.
pub fn normal_share(x: f64) -> f64 {
    0.5 * erfc(-x / std::f64::consts::SQRT_2)
}

/// The standard normal's quantile.
pub fn normal_quantile(u: f64) -> f64 {
    let q = u - 0.5;
    if q.abs() <= 0.425 {
        let r = 0.180_625 - q * q;
        return q * ratio(r, &MIDDLE_OVER, &MIDDLE_UNDER);
    }
    let tail = if q < 0.0 { u } else { 1.0 - u };
    let r = (-ln(tail.max(f64::MIN_POSITIVE))).sqrt();
    let z = if r <= 5.0 {
        ratio(r - 1.6, &NEAR_OVER, &NEAR_UNDER)
    } else {
        ratio(r - 5.0, &FAR_OVER, &FAR_UNDER)
    };
    if q < 0.0 { -z } else { z }
}

/// A ratio of two polynomials, highest powers first.
fn ratio(r: f64, over: &[f64; 8], under: &[f64; 8]) -> f64 {
    let sum = |of: &[f64; 8]| of.iter().fold(0.0, |so_far, next| so_far * r + next);
    sum(over) / sum(under)
}

const MIDDLE_OVER: [f64; 8] = [
    2_509.080_928_730_122_7,
    33_430.575_583_588_13,
    67_265.770_927_008_7,
    45_921.953_931_549_87,
    13_731.693_765_509_46,
    1_971.590_950_306_551_3,
    133.141_667_891_784_38,
    3.387_132_872_796_366_5,
];
const MIDDLE_UNDER: [f64; 8] = [
    5_226.495_278_852_545,
    28_729.085_735_721_943,
    39_307.895_800_092_71,
    21_213.794_301_586_597,
    5_394.196_021_424_751,
    687.187_007_492_057_9,
    42.313_330_701_600_91,
    1.0,
];
const NEAR_OVER: [f64; 8] = [
    7.745_450_142_783_414e-4,
    0.022_723_844_989_269_184,
    0.241_780_725_177_450_6,
    1.270_458_252_452_368_4,
    3.647_848_324_763_204_5,
    5.769_497_221_460_691,
    4.630_337_846_156_546,
    1.423_437_110_749_683_5,
];
const NEAR_UNDER: [f64; 8] = [
    1.050_750_071_644_416_9e-9,
    5.475_938_084_995_345e-4,
    0.015_198_666_563_616_457,
    0.148_103_976_427_480_08,
    0.689_767_334_985_1,
    1.676_384_830_183_803_8,
    2.053_191_626_637_759,
    1.0,
];
const FAR_OVER: [f64; 8] = [
    2.010_334_399_292_288_1e-7,
    2.711_555_568_743_487_6e-5,
    0.001_242_660_947_388_078_4,
    0.026_532_189_526_576_124,
    0.296_560_571_828_504_87,
    1.784_826_539_917_291_3,
    5.463_784_911_164_114,
    6.657_904_643_501_103,
];
const FAR_UNDER: [f64; 8] = [
    2.044_263_103_389_939_8e-15,
    1.421_511_758_316_446e-7,
    1.846_318_317_510_054_8e-5,
    7.868_691_311_456_133e-4,
    0.014_875_361_290_850_615,
    0.136_929_880_922_735_8,
    0.599_832_206_555_887_9,
    1.0,
];

/// The share of a beta distribution below x.
pub fn beta_share(alpha: f64, beta: f64, x: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    if x >= 1.0 {
        return 1.0;
    }
    // The fraction converges fast on the side of the mean that it is turned to.
    if x > (alpha + 1.0) / (alpha + beta + 2.0) {
        return 1.0 - beta_share_near(beta, alpha, 1.0 - x);
    }
    beta_share_near(alpha, beta, x)
}

fn beta_share_near(alpha: f64, beta: f64, x: f64) -> f64 {
    let log_beta = ln_gamma(alpha) + ln_gamma(beta) - ln_gamma(alpha + beta);
    let front = exp(alpha * ln(x) + beta * ln(1.0 - x) - log_beta) / alpha;
    front * continued(alpha, beta, x)
}

/// Lentz's evaluation of the continued fraction DLMF 8.17.22.
fn continued(alpha: f64, beta: f64, x: f64) -> f64 {
    const TINY: f64 = 1e-300;
    let kept = |value: f64| if value.abs() < TINY { TINY } else { value };
    let mut over = 1.0;
    let mut under = 1.0 / kept(1.0 - (alpha + beta) * x / (alpha + 1.0));
    let mut fraction = under;
    for step in 1..=500 {
        let m = f64::from(step);
        let at = alpha + 2.0 * m;
        let even = m * (beta - m) * x / ((at - 1.0) * at);
        under = 1.0 / kept(1.0 + even * under);
        over = kept(1.0 + even / over);
        fraction *= under * over;
        let odd = -(alpha + m) * (alpha + beta + m) * x / (at * (at + 1.0));
        under = 1.0 / kept(1.0 + odd * under);
        over = kept(1.0 + odd / over);
        let change = under * over;
        fraction *= change;
        if (change - 1.0).abs() < 1e-15 {
            break;
        }
    }
    fraction
}

/// A beta distribution's quantile, by halving.
pub fn beta_quantile(alpha: f64, beta: f64, u: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if beta_share(alpha, beta, middle) < u {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::Distribution;

    #[test]
    fn of_several_each_has_its_share_and_its_own_spread() {
        let cups = Distribution::OneOf(vec![
            (
                0.25,
                Distribution::Even {
                    low: 0.0,
                    high: 1.0,
                },
            ),
            (0.75, Distribution::Fixed(7.0)),
        ]);
        assert!(cups.can_be());
        assert!((cups.quantile(0.125) - 0.5).abs() < 1e-12);
        assert!((cups.quantile(0.3) - 7.0).abs() < 1e-12);
        assert_eq!(cups.which(0.3), 1);
        assert_eq!(cups.which(0.2499), 0);
        let never = Distribution::yes(0.0);
        assert!(never.quantile(1.0 - 1e-9).abs() < 1e-12);
        assert!((Distribution::yes(1.0).quantile(1e-9) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn what_cannot_be_is_seen() {
        let normal = |deviation, low, high| Distribution::Normal {
            middle: 20.0,
            deviation,
            low,
            high,
        };
        assert!(normal(2.0, 10.0, 30.0).can_be());
        assert!(!normal(-1.0, 10.0, 30.0).can_be());
        assert!(!normal(2.0, 30.0, 10.0).can_be());
        assert!(!normal(2.0, 90.0, 99.0).can_be(), "nothing of it is left");
        assert!(!Distribution::OneOf(Vec::new()).can_be());
        let too_much = Distribution::OneOf(vec![
            (0.9, Distribution::Fixed(1.0)),
            (0.9, Distribution::Fixed(2.0)),
        ]);
        assert!(!too_much.can_be());
    }
}
