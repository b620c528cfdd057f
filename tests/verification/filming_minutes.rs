//! Sets of minutes of a filming day, a bit for each, for the judge who walks it.

/// Minutes that are looked at: from the evening before to the night after.
pub const FROM: i64 = -1200;
/// See [`FROM`].
pub const TO: i64 = 2100;

/// A set of minutes, a bit for each.
#[derive(Clone)]
pub struct Minutes(Vec<u64>);

impl Minutes {
    pub fn all() -> Self {
        let span = usize::try_from(TO - FROM).expect("positive");
        let whole = Self(vec![u64::MAX; span.div_ceil(64)]);
        whole.between(FROM, TO)
    }

    /// Those from one minute up to, not with, another.
    pub fn between(mut self, from: i64, to: i64) -> Self {
        let bit =
            |minute: i64| usize::try_from((minute - FROM).clamp(0, TO - FROM)).expect("small");
        let (from, to) = (bit(from), bit(to));
        for (nth, word) in self.0.iter_mut().enumerate() {
            let (low, high) = (nth * 64, nth * 64 + 64);
            if from >= high || to <= low {
                *word = 0;
                continue;
            }
            if from > low {
                *word &= u64::MAX << (from - low);
            }
            if to < high {
                *word &= (1 << (to - low)) - 1;
            }
        }
        self
    }

    /// Minutes from which one of these is reached in so many.
    pub fn before(&self, by: usize) -> Self {
        let (words, bits) = (by / 64, by % 64);
        let word = |at: usize| self.0.get(at).copied().unwrap_or(0);
        let moved = |at: usize| {
            let low = word(at + words) >> bits;
            let high = if bits == 0 {
                0
            } else {
                word(at + words + 1) << (64 - bits)
            };
            low | high
        };
        Self((0..self.0.len()).map(moved).collect())
    }

    /// Minutes from which one of these is reached in so many or fewer.
    pub fn within(&self, keeps: usize) -> Self {
        let mut wide = self.clone();
        let mut reach = 0;
        while reach < keeps {
            let step = (reach + 1).min(keeps - reach);
            let earlier = wide.before(step);
            wide.0
                .iter_mut()
                .zip(&earlier.0)
                .for_each(|(one, more)| *one |= more);
            reach += step;
        }
        wide
    }

    pub fn and(mut self, other: &Self) -> Self {
        self.0
            .iter_mut()
            .zip(&other.0)
            .for_each(|(one, more)| *one &= more);
        self
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(|word| *word == 0)
    }

    /// The first of them that is no earlier than a minute.
    pub fn first_from(&self, minute: i64) -> Option<i64> {
        let later = self.clone().between(minute, TO);
        let at = later.0.iter().position(|word| *word != 0)?;
        let bit = 64 * at + usize::try_from(later.0[at].trailing_zeros()).expect("small");
        Some(FROM + i64::try_from(bit).expect("a day is short"))
    }
}
