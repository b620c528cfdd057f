//! Chance as a plain stream of numbers, the same on every machine.

/// A stream (D. E. Knuth's MMIX constants, from memory).
pub struct Chance(pub u64);

impl Chance {
    /// A number below so much.
    pub fn below(&mut self, most: u32) -> u32 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        u32::try_from(self.0 >> 33).expect("31 bits") % most
    }

    /// The same with a sign.
    pub fn whole(&mut self, most: u32) -> i32 {
        i32::try_from(self.below(most)).expect("small")
    }

    /// The place of one of so many.
    pub fn index(&mut self, most: usize) -> usize {
        usize::try_from(self.below(u32::try_from(most).expect("small"))).expect("it fits")
    }
}
