//! The liquid in which active dry yeast wakes.

use numerics::decimal::round_to;
use numerics::quantity::{Mass, Range};

/// Parts of liquid to one of active dry yeast: makers and packets ask for four to five (read).
pub const WAKES_IN: f64 = 4.5;

/// The least and most that is asked for.
pub const WAKES_IN_RANGE: Range<f64> = Range {
    low: 4.0,
    high: 5.0,
};

/// The liquid that wakes so much active dry yeast, rounded to 5 g from 20 g up.
pub fn waking_liquid(yeast: Mass) -> Mass {
    let grams = yeast.grams() * WAKES_IN;
    let step = if grams >= 20.0 { 5.0 } else { 1.0 };
    Mass::from_grams(round_to(grams, step).max(step))
}
