//! Chance as a plain stream of numbers, the same on every machine.

/// A stream (D. E. Knuth's MMIX constants, from memory).
#[derive(Debug)]
pub struct Chance(pub u64);

impl Chance {
    /// A whole number below so much.
    pub fn below(&mut self, most: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % most.max(1)
    }

    /// From nothing to one.
    pub fn share(&mut self) -> f64 {
        const PARTS: u32 = 1 << 20;
        let part = u32::try_from(self.below(PARTS.into())).unwrap_or(0);
        (f64::from(part) + 0.5) / f64::from(PARTS)
    }

    /// The place of one of so many.
    pub fn of(&mut self, count: usize) -> usize {
        let most = u64::try_from(count).unwrap_or(u64::MAX);
        usize::try_from(self.below(most)).unwrap_or(0)
    }

    /// Two that differ, where there are two.
    pub fn pair(&mut self, count: usize) -> (usize, usize) {
        let one = self.of(count);
        let other = (one + 1 + self.of(count.saturating_sub(1))) % count.max(1);
        (one, other)
    }
}
