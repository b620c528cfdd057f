//! Points that fill a cube evenly: each a function of a seed, its number and its purpose, of nothing else.
//!
//! # Relation
//! The point of number i: scramble r = i mod 8, place k = (i / 8) mod 65 536 in block i / (8 · 65 536);
//! coordinate d is that of place k in an Owen-scrambled Sobol sequence whose scrambling is seeded by
//! (seed, purpose, r, block).
//!
//! # Symbols
//! i, number of the point; d, its coordinate; r, one of eight scrambles that know nothing of each other.
//!
//! # Valid for
//! 256 coordinates; any number of points: a sequence has 65 536, and then the next block begins. Coordinates
//! have 24 bits and are never 0 or 1.
//!
//! # Source
//! Burley 2020, Practical Hash-based Owen Scrambling, J. Comput. Graph. Tech. 9(4):1, in the crate
//! `sobol_burley`; scrambles side by side to see the error: Owen 1997, SIAM J. Numer. Anal. 34:1884 (from
//! memory). Seeds are mixed by the finalizer of Steele, Lea and Flood 2014, OOPSLA 453 (from memory).
//!
//! # Departures
//! Every point takes part in one of eight scrambles by turns, so that any beginning of the points holds all
//! eight, as many of each.
//!
//! # Checked by
//! The tests below; `tests/verification/draws.rs`.

/// How many scrambles stand side by side.
pub const SCRAMBLES: u64 = 8;
/// Points of one sequence: the crate checks this only when it is built for finding faults.
const SEQUENCE: u64 = 1 << 16;
/// Coordinates that a point has at most.
pub const DIMENSIONS: u32 = 256;

/// Which points are meant: of two purposes, those of one say nothing about those of the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Purpose {
    /// The points themselves.
    First,
    /// The same numbers drawn a second time, to change some coordinates and keep the others.
    Again,
    /// Points for what is uncertain about the whole reckoning.
    Model,
    /// Points for what is not known of one kitchen.
    Here,
    /// Points around those that the readings left.
    Moved,
    /// How far the reckoning itself strays from a dough.
    Strays,
}

/// Which of the scrambles a point belongs to.
pub const fn scramble(number: u64) -> u64 {
    number % SCRAMBLES
}

/// One coordinate of one point, between 0 and 1, both excluded.
///
/// # Panics
/// When there is no such coordinate: who asks has a table of them.
pub fn unit(seed: u64, purpose: Purpose, number: u64, dimension: u32) -> f64 {
    assert!(dimension < DIMENSIONS, "no coordinate {dimension}");
    let row = number / SCRAMBLES;
    let block = row / SEQUENCE;
    let stream = [purpose as u64, scramble(number), block]
        .into_iter()
        .fold(mixed(seed), |so_far, next| {
            mixed(so_far ^ next.wrapping_add(1))
        });
    let (place, _) = halves(row % SEQUENCE);
    let (low, high) = halves(stream);
    // f32 has 24 bits: the middle of each of its cells is neither 0 nor 1.
    f64::from(sobol_burley::sample(place, dimension, low ^ high)) + HALF_CELL
}

/// Half of 2^-24.
const HALF_CELL: f64 = 1.0 / 33_554_432.0;

/// The lower and the upper 32 bits.
#[allow(clippy::cast_possible_truncation)] // each half has 32 bits
const fn halves(of: u64) -> (u32, u32) {
    (of as u32, (of >> 32) as u32)
}

/// Spreads neighbouring numbers far apart.
const fn mixed(of: u64) -> u64 {
    let mut x = of.wrapping_add(0x9e37_79b9_7f4a_7c15);
    x = (x ^ (x >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    x = (x ^ (x >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    x ^ (x >> 31)
}

#[cfg(test)]
mod tests {
    use super::{DIMENSIONS, Purpose, SCRAMBLES, unit};

    #[test]
    fn each_scramble_puts_one_point_into_each_cell() {
        // 256 points of a scrambled Sobol sequence: one in each 256th of every coordinate.
        for dimension in [0, 1, 17, DIMENSIONS - 1] {
            for scramble in 0..SCRAMBLES {
                let mut seen = [0; 256];
                for row in 0..256 {
                    let x = unit(7, Purpose::First, row * SCRAMBLES + scramble, dimension);
                    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // 0 to 255
                    let cell = (x * 256.0) as usize;
                    seen[cell] += 1;
                }
                assert!(
                    seen.iter().all(|count| *count == 1),
                    "{dimension}: {seen:?}"
                );
            }
        }
    }

    #[test]
    fn seeds_purposes_scrambles_and_blocks_know_nothing_of_each_other() {
        let block = SCRAMBLES << 16;
        let streams = [
            (1, Purpose::First, 0),
            (2, Purpose::First, 0),
            (1, Purpose::Again, 0),
            (1, Purpose::Model, 0),
            (1, Purpose::First, 1),
            (1, Purpose::First, block),
        ];
        for (at, one) in streams.iter().enumerate() {
            for other in &streams[..at] {
                let mut product = 0.0;
                for row in 0..4096 {
                    let x = |(seed, purpose, from): (u64, Purpose, u64)| {
                        unit(seed, purpose, from + row * SCRAMBLES, 3) - 0.5
                    };
                    product += x(*one) * x(*other);
                }
                // A twelfth is the product with itself; of independent points it is 0 ± 0.0013.
                assert!((product / 4096.0).abs() < 0.006, "{one:?} {other:?}");
            }
        }
    }

    #[test]
    fn no_point_lies_on_an_edge() {
        for number in 0..40_000 {
            for dimension in 0..4 {
                let x = unit(0, Purpose::First, number, dimension);
                assert!(x > 0.0 && x < 1.0);
            }
        }
    }
}
