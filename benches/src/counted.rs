//! A number that counts what is done with it, so that the work of a step is counted and not guessed.

use numerics::lane::{Curve, Curves, Lane};
use std::cell::Cell;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

/// How often something was done.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Sums, differences, products, signs, smaller and larger of two.
    pub simple: u64,
    /// Quotients and roots.
    pub quotients: u64,
    /// Values read from a table, each with its product and sum.
    pub read: u64,
}

impl Tally {
    /// All of them, a value read as two.
    pub fn all(self) -> u64 {
        self.simple + self.quotients + 2 * self.read
    }
}

thread_local! {
    static TALLY: Cell<Tally> = const { Cell::new(Tally { simple: 0, quotients: 0, read: 0 }) };
}

/// What has been counted since it was last asked.
pub fn taken() -> Tally {
    TALLY.with(Cell::take)
}

fn count(simple: u64, quotients: u64, read: u64) {
    TALLY.with(|tally| {
        let now = tally.get();
        tally.set(Tally {
            simple: now.simple + simple,
            quotients: now.quotients + quotients,
            read: now.read + read,
        });
    });
}

/// A number that counts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counted(f64);

macro_rules! counts {
    ($trait:ident, $name:ident, $operator:tt, $simple:literal, $quotients:literal) => {
        impl $trait for Counted {
            type Output = Self;
            fn $name(self, other: Self) -> Self {
                count($simple, $quotients, 0);
                Self(self.0 $operator other.0)
            }
        }
    };
}

counts!(Add, add, +, 1, 0);
counts!(Sub, sub, -, 1, 0);
counts!(Mul, mul, *, 1, 0);
counts!(Div, div, /, 0, 1);

impl Neg for Counted {
    type Output = Self;
    fn neg(self) -> Self {
        count(1, 0, 0);
        Self(-self.0)
    }
}

impl AddAssign for Counted {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Lane for Counted {
    const LANES: usize = 1;

    fn splat(value: f64) -> Self {
        Self(value)
    }

    fn lane(self, _: usize) -> f64 {
        self.0
    }

    fn with_lane(self, _: usize, value: f64) -> Self {
        Self(value)
    }

    fn min(self, other: Self) -> Self {
        count(1, 0, 0);
        Self(Lane::min(self.0, other.0))
    }

    fn max(self, other: Self) -> Self {
        count(1, 0, 0);
        Self(Lane::max(self.0, other.0))
    }

    fn root(self) -> Self {
        count(0, 1, 0);
        Self(self.0.sqrt())
    }

    fn if_at_least(self, limit: Self, then: Self, otherwise: Self) -> Self {
        count(1, 0, 0);
        if self.0 >= limit.0 { then } else { otherwise }
    }

    fn is_nought(self) -> bool {
        self.0.is_nought()
    }

    fn along(self, curve: &Curve) -> Self {
        // Its place in the table and how far behind the last step.
        count(3, 0, 1);
        Self(curve.at(self.0))
    }

    fn along_all<const N: usize>(self, curves: &Curves<N>) -> [Self; N] {
        count(3, 0, N as u64);
        curves.at(self.0).map(Self)
    }
}

#[cfg(test)]
mod tests {
    use super::{Counted, Tally, taken};
    use numerics::lane::{Curves, Lane};

    #[test]
    fn what_is_done_is_counted() {
        let _ = taken();
        let (a, b) = (Counted::splat(3.0), Counted::splat(2.0));
        assert_eq!((a * b + a).lane(0).to_bits(), 9.0_f64.to_bits());
        assert_eq!((a / b).lane(0).to_bits(), 1.5_f64.to_bits());
        let both = Curves::of(0.0, 4.0, 4, |x| [x, 2.0 * x]);
        let [_, twice] = a.along_all(&both);
        assert_eq!(twice.lane(0).to_bits(), 6.0_f64.to_bits());
        let tally = taken();
        let expected = Tally {
            simple: 5,
            quotients: 1,
            read: 2,
        };
        assert_eq!(tally, expected);
        assert_eq!(tally.all(), 10);
        assert_eq!(taken(), Tally::default(), "asked once");
    }
}
