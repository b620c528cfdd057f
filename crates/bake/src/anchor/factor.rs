//! The three factors that tested bakes may move, how far each usually strays and how far it is believed.

use crate::simulate::Anchor;
use numerics::math::{exp, ln};

/// A factor on a constant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Factor {
    /// On the gassing power of the yeast.
    Vigour,
    /// On the part of the vapour's conductivity that acts.
    Vapour,
    /// On the rate of browning.
    Browning,
}

impl Factor {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Vigour, Self::Vapour, Self::Browning];

    /// Its place in lists.
    pub(super) const fn place(self) -> usize {
        self as usize
    }

    /// Lowest and highest value that is believed, 1. Yeast: strains, age and storage differ by two to
    /// three times either way, and the figure for sugar is a placeholder of as much. Vapour: as
    /// `physics::conductivity` has it. Browning: sugars and egg of a crust change its rate by more than the
    /// published bread does.
    pub const fn range(self) -> (f64, f64) {
        match self {
            Self::Vigour | Self::Vapour => (0.4, 2.5),
            Self::Browning => (0.25, 4.0),
        }
    }

    /// How far its logarithm usually strays, 1 (a judgement, from memory of the trade).
    pub const fn strays(self) -> f64 {
        match self {
            Self::Vigour => 0.35,
            Self::Vapour => 0.4,
            Self::Browning => 0.6,
        }
    }

    /// "The yeast works 1.24 times as fast as reckoned".
    pub fn told(self, times: &str) -> String {
        match self {
            Self::Vigour => format!("The yeast works {times} times as fast as reckoned"),
            Self::Vapour => {
                format!("Vapour carries {times} times as much heat into the crumb as reckoned")
            }
            Self::Browning => format!("The crust browns {times} times as fast as reckoned"),
        }
    }

    /// "the yeast would have to work 13.5 times as fast as reckoned".
    pub(super) fn asked(self, times: &str) -> String {
        match self {
            Self::Vigour => {
                format!("the yeast would have to work {times} times as fast as reckoned")
            }
            Self::Vapour => format!(
                "vapour would have to carry {times} times as much heat into the crumb as reckoned"
            ),
            Self::Browning => {
                format!("the crust would have to brown {times} times as fast as reckoned")
            }
        }
    }

    /// Its value in an anchor.
    pub const fn of(self, anchor: &Anchor) -> f64 {
        match self {
            Self::Vigour => anchor.vigour,
            Self::Vapour => anchor.vapour,
            Self::Browning => anchor.browning,
        }
    }

    /// Lowest and highest logarithm.
    pub(super) fn bounds(self) -> (f64, f64) {
        let (low, high) = self.range();
        (ln(low), ln(high))
    }
}

/// Factors from their logarithms.
pub(super) fn factors(logs: &[f64; 3]) -> Anchor {
    Anchor {
        vigour: exp(logs[0]),
        vapour: exp(logs[1]),
        browning: exp(logs[2]),
        ..Anchor::default()
    }
}
