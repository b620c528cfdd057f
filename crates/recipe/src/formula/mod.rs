//! Baker's percentages: every mass resolved, and every sum done.

pub mod model;

pub use model::{Formula, PartSum, ProductSum, Resolved, ResolvedItem, StageSum};
