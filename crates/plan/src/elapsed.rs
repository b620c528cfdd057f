//! The written process laid end to end: its longest way, its hands-on minutes, its waits.

use numerics::quantity::{Duration, Range};

/// The times of a recipe, summed from its written steps.
#[derive(Clone, Debug, PartialEq)]
pub struct Elapsed {
    /// From the first step to the last product cool: the longest way through the stages.
    pub total: Duration,
    /// The same by the low and high ends of the written ranges.
    pub total_range: Range<Duration>,
    /// The part of the total before the day of the bake: a preferment of six hours or more.
    pub day_before: Duration,
    /// Minutes in which hands are at work, all steps added.
    pub hands_on: Duration,
    /// Minutes of the longest way before the first bake.
    pub before_bake: Duration,
    /// Minutes in which something is in the oven, one product after another.
    pub baking: Duration,
    /// What must be done before the first step, with its lead: ("eggs, butter", 60 min).
    pub leads: Vec<(String, Duration)>,
}
