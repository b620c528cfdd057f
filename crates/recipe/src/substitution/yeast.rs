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

/// Less liquid than two tablespoons is cold before the yeast is awake; common practice.
const LEAST: Mass = Mass::from_grams(30.0);

/// The liquid that wakes so much active dry yeast, in steps of 5 g, two tablespoons at least.
pub fn waking_liquid(yeast: Mass) -> Mass {
    let grams = round_to(yeast.grams() * WAKES_IN, 5.0);
    Mass::from_grams(grams.max(LEAST.grams()))
}
