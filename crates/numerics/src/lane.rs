//! One number or several side by side: what a kernel is written over, so that one text serves both.

use std::fmt::Debug;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

/// A number, or several of them that go through the same arithmetic at once.
///
/// Each lane is a case of its own: no operation looks at a neighbour, so the bits of a case do not
/// depend on what runs beside it.
pub trait Lane:
    Copy
    + Debug
    + PartialEq
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
    + AddAssign
{
    /// How many numbers it holds.
    const LANES: usize;

    /// The same number in every lane.
    fn splat(value: f64) -> Self;

    /// The number in one lane.
    fn lane(self, at: usize) -> f64;

    /// The same with another number in one lane.
    #[must_use]
    fn with_lane(self, at: usize, value: f64) -> Self;

    /// The smaller of two, lane by lane.
    #[must_use]
    fn min(self, other: Self) -> Self;

    /// The larger of two, lane by lane.
    #[must_use]
    fn max(self, other: Self) -> Self;

    /// The square root.
    #[must_use]
    fn root(self) -> Self;

    /// `then` where it is at least `limit`, `otherwise` elsewhere.
    #[must_use]
    fn if_at_least(self, limit: Self, then: Self, otherwise: Self) -> Self;

    /// Whether every lane is exactly 0.
    fn is_nought(self) -> bool;

    /// Reads a curve at each lane.
    #[must_use]
    fn along(self, curve: &Curve) -> Self;

    /// Reads several curves over the same place at each lane.
    #[must_use]
    fn along_all<const N: usize>(self, curves: &Curves<N>) -> [Self; N];

    /// Any function of a number, lane by lane; slow, for what happens once a stage.
    #[must_use]
    fn each(mut self, function: impl Fn(f64) -> f64) -> Self {
        for at in 0..Self::LANES {
            self = self.with_lane(at, function(self.lane(at)));
        }
        self
    }

    /// Kept between two ends.
    #[must_use]
    fn within(self, low: Self, high: Self) -> Self {
        self.max(low).min(high)
    }
}

/// A function tabulated at even steps and read by straight lines; beyond its ends it stays level.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    low: f64,
    steps_per_unit: f64,
    values: Vec<f64>,
    single: Vec<f32>,
}

impl Curve {
    /// Tabulates a function from `low` to `high` in `steps` even steps (at least one).
    pub fn of(low: f64, high: f64, steps: usize, function: impl Fn(f64) -> f64) -> Self {
        let steps = steps.max(1);
        let width = (high - low) / steps as f64;
        let values: Vec<f64> = (0..=steps)
            .map(|step| function(low + width * step as f64))
            .collect();
        #[allow(clippy::cast_possible_truncation)] // rounded to single precision on purpose
        let single = values.iter().map(|value| *value as f32).collect();
        Self {
            low,
            steps_per_unit: 1.0 / width,
            values,
            single,
        }
    }

    /// The same with every value multiplied by a factor.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        let mut all = self.clone();
        #[allow(clippy::cast_possible_truncation)] // rounded to single precision on purpose
        for (value, single) in all.values.iter_mut().zip(&mut all.single) {
            *value *= factor;
            *single = *value as f32;
        }
        all
    }

    /// The value at a place.
    #[inline]
    pub fn at(&self, place: f64) -> f64 {
        let last = self.values.len() - 1;
        let steps = ((place - self.low) * self.steps_per_unit).clamp(0.0, last as f64);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // between 0 and `last`
        let before = (steps as usize).min(last - 1);
        let part = steps - before as f64;
        self.values[before] + (self.values[before + 1] - self.values[before]) * part
    }

    fn single_at(&self, place: f32) -> f32 {
        let last = self.single.len() - 1;
        #[allow(clippy::cast_possible_truncation)] // rounded to single precision on purpose
        let (low, per_unit) = (self.low as f32, self.steps_per_unit as f32);
        let steps = ((place - low) * per_unit).clamp(0.0, last as f32);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // between 0 and `last`
        let before = (steps as usize).min(last - 1);
        let part = steps - before as f32;
        self.single[before] + (self.single[before + 1] - self.single[before]) * part
    }
}

/// Several functions of one place, tabulated together so that one look-up reads them all.
#[derive(Clone, Debug, PartialEq)]
pub struct Curves<const N: usize> {
    low: f64,
    steps_per_unit: f64,
    last: f64,
    /// For each step, each function's value at its beginning and how far it rises in it.
    steps: Vec<[[f64; 2]; N]>,
    single: Vec<[[f32; 2]; N]>,
}

impl<const N: usize> Curves<N> {
    /// Tabulates functions from `low` to `high` in `steps` even steps (at least one).
    pub fn of(
        low: f64,
        high: f64,
        steps: usize,
        mut functions: impl FnMut(f64) -> [f64; N],
    ) -> Self {
        let (count, mut before) = (steps.max(1), functions(low));
        let width = (high - low) / count as f64;
        let mut steps = Vec::with_capacity(count);
        for step in 1..=count {
            let after = functions(low + width * step as f64);
            let mut row = [[0.0; 2]; N];
            for (cell, (one, next)) in row.iter_mut().zip(before.iter().zip(after)) {
                *cell = [*one, next - one];
            }
            steps.push(row);
            before = after;
        }
        #[allow(clippy::cast_possible_truncation)] // rounded to single precision on purpose
        let single = steps
            .iter()
            .map(|row| row.map(|cell| cell.map(|value| value as f32)))
            .collect();
        Self {
            low,
            steps_per_unit: 1.0 / width,
            last: count as f64,
            steps,
            single,
        }
    }

    /// The same with every function multiplied by a factor of its own.
    #[must_use]
    pub fn times(&self, factors: [f64; N]) -> Self {
        let mut all = self.clone();
        #[allow(clippy::cast_possible_truncation)] // rounded to single precision on purpose
        for (row, single) in all.steps.iter_mut().zip(&mut all.single) {
            for (at, factor) in factors.into_iter().enumerate() {
                row[at] = row[at].map(|value| value * factor);
                single[at] = row[at].map(|value| value as f32);
            }
        }
        all
    }

    /// All values at a place.
    #[inline]
    pub fn at(&self, place: f64) -> [f64; N] {
        let along = ((place - self.low) * self.steps_per_unit)
            .max(0.0)
            .min(self.last);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // between 0 and `last`
        let step = (along as u32 as usize).min(self.steps.len() - 1);
        let part = along - step as f64;
        // A loop, for `map` over an array is not inlined here and took two fifths of a whole day's time.
        let mut values = [0.0; N];
        for (read, [value, rise]) in values.iter_mut().zip(&self.steps[step]) {
            *read = value + rise * part;
        }
        values
    }

    #[inline]
    #[allow(clippy::cast_possible_truncation)] // rounded to single precision on purpose
    fn single_at(&self, place: f32) -> [f32; N] {
        let along = ((place - self.low as f32) * self.steps_per_unit as f32)
            .max(0.0)
            .min(self.last as f32);
        #[allow(clippy::cast_sign_loss)] // between 0 and `last`
        let step = (along as u32 as usize).min(self.single.len() - 1);
        let part = along - step as f32;
        let mut values = [0.0; N];
        for (read, [value, rise]) in values.iter_mut().zip(&self.single[step]) {
            *read = value + rise * part;
        }
        values
    }
}

impl Lane for f64 {
    const LANES: usize = 1;

    #[inline]
    fn splat(value: f64) -> Self {
        value
    }

    #[inline]
    fn lane(self, _: usize) -> f64 {
        self
    }

    fn with_lane(self, _: usize, value: f64) -> Self {
        value
    }

    #[inline]
    fn min(self, other: Self) -> Self {
        if other < self { other } else { self }
    }

    #[inline]
    fn max(self, other: Self) -> Self {
        if other > self { other } else { self }
    }

    #[inline]
    fn root(self) -> Self {
        self.sqrt()
    }

    #[inline]
    fn if_at_least(self, limit: Self, then: Self, otherwise: Self) -> Self {
        if self >= limit { then } else { otherwise }
    }

    #[inline]
    #[allow(clippy::float_cmp)] // exactly nothing is meant
    fn is_nought(self) -> bool {
        self == 0.0
    }

    #[inline]
    fn along(self, curve: &Curve) -> Self {
        curve.at(self)
    }

    #[inline]
    fn along_all<const N: usize>(self, curves: &Curves<N>) -> [Self; N] {
        curves.at(self)
    }
}

/// Eight numbers of single precision.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Eight([f32; 8]);

macro_rules! lane_by_lane {
    ($trait:ident, $name:ident, $operator:tt) => {
        impl $trait for Eight {
            type Output = Self;
            #[inline]
            fn $name(self, other: Self) -> Self {
                let mut out = self.0;
                for (one, other) in out.iter_mut().zip(other.0) {
                    *one $operator other;
                }
                Self(out)
            }
        }
    };
}

lane_by_lane!(Add, add, +=);
lane_by_lane!(Sub, sub, -=);
lane_by_lane!(Mul, mul, *=);
lane_by_lane!(Div, div, /=);

impl Neg for Eight {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.map(|value| -value))
    }
}

impl AddAssign for Eight {
    #[inline]
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Lane for Eight {
    const LANES: usize = 8;

    #[inline]
    #[allow(clippy::cast_possible_truncation)] // rounded to single precision on purpose
    fn splat(value: f64) -> Self {
        Self([value as f32; 8])
    }

    fn lane(self, at: usize) -> f64 {
        f64::from(self.0[at])
    }

    #[allow(clippy::cast_possible_truncation)] // rounded to single precision on purpose
    fn with_lane(mut self, at: usize, value: f64) -> Self {
        self.0[at] = value as f32;
        self
    }

    #[inline]
    fn min(self, other: Self) -> Self {
        let mut out = self.0;
        for (one, other) in out.iter_mut().zip(other.0) {
            *one = if other < *one { other } else { *one };
        }
        Self(out)
    }

    #[inline]
    fn max(self, other: Self) -> Self {
        let mut out = self.0;
        for (one, other) in out.iter_mut().zip(other.0) {
            *one = if other > *one { other } else { *one };
        }
        Self(out)
    }

    #[inline]
    fn root(self) -> Self {
        Self(self.0.map(f32::sqrt))
    }

    #[inline]
    fn if_at_least(self, limit: Self, then: Self, otherwise: Self) -> Self {
        let mut out = self.0;
        for (at, one) in out.iter_mut().enumerate() {
            *one = if self.0[at] >= limit.0[at] {
                then.0[at]
            } else {
                otherwise.0[at]
            };
        }
        Self(out)
    }

    #[inline]
    #[allow(clippy::float_cmp)] // exactly nothing is meant
    fn is_nought(self) -> bool {
        self.0.iter().all(|one| *one == 0.0)
    }

    #[inline]
    fn along(self, curve: &Curve) -> Self {
        Self(self.0.map(|place| curve.single_at(place)))
    }

    #[inline]
    fn along_all<const N: usize>(self, curves: &Curves<N>) -> [Self; N] {
        let mut all = [Self([0.0; 8]); N];
        for (lane, place) in self.0.iter().enumerate() {
            for (one, value) in all.iter_mut().zip(curves.single_at(*place)) {
                one.0[lane] = value;
            }
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::{Curve, Curves, Eight, Lane};

    fn polynomial<L: Lane>(x: L) -> L {
        let two = L::splat(2.0);
        (x * x - two * x).max(L::splat(-0.5)) / (x + two)
    }

    #[test]
    fn a_lane_has_the_bits_of_the_same_number_alone() {
        let mut side_by_side = Eight::splat(0.0);
        for at in 0..8 {
            side_by_side = side_by_side.with_lane(at, 0.3 * at as f64);
        }
        let together = polynomial(side_by_side);
        for at in 0..8 {
            let alone = polynomial(Eight::splat(0.3 * at as f64));
            assert_eq!(alone.lane(5).to_bits(), together.lane(at).to_bits());
            let double = polynomial(0.3 * at as f64);
            assert!((double - together.lane(at)).abs() < 1e-6);
        }
    }

    #[test]
    fn a_curve_is_exact_at_its_steps_and_level_beyond() {
        let square = Curve::of(0.0, 10.0, 10, |x| x * x);
        assert!((square.at(3.0) - 9.0).abs() < 1e-12);
        assert!((square.at(3.5) - 12.5).abs() < 1e-12);
        assert!((square.at(-4.0)).abs() < 1e-12);
        assert!((square.at(40.0) - 100.0).abs() < 1e-12);
        assert!((Eight::splat(3.5).along(&square).lane(2) - 12.5).abs() < 1e-5);
    }

    #[test]
    fn curves_read_together_are_the_curves_read_alone() {
        let square = Curve::of(0.0, 10.0, 10, |x| x * x);
        let cube = Curve::of(0.0, 10.0, 10, |x| x * x * x);
        let both = Curves::of(0.0, 10.0, 10, |x| [x * x, x * x * x]);
        for place in [-4.0, 0.0, 3.5, 9.99, 10.0, 40.0] {
            let [one, other] = both.at(place);
            assert!((one - square.at(place)).abs() < 1e-12);
            assert!((other - cube.at(place)).abs() < 1e-12);
            let [one, _] = Eight::splat(place).along_all(&both);
            assert!((one.lane(5) - square.at(place)).abs() < 1e-4);
        }
    }
}
