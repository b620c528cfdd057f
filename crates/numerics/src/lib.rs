//! Numbers with their units, and the few solvers that work on them.
//!
//! Nothing here knows what the numbers are about.

pub mod bounded;
pub mod decimal;
pub mod distribution;
pub mod draw;
pub mod flat;
pub mod indices;
pub mod lane;
pub mod lines;
pub mod math;
pub mod quantity;
pub mod section;
pub mod symmetric;
pub mod weighing;
