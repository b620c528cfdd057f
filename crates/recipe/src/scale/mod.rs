//! A recipe made larger, smaller or for another tin, with its percentages kept and whole eggs.

mod amounts;
mod eggs;
mod factors;
mod figures;
pub mod household;
mod multiply;
mod products;
mod scaled;
mod sentence;
mod times;
pub mod vessel;
mod wish;

pub use factors::tin_volume;
pub use multiply::{Cut, Factors, Ratio, multiply, times};
pub use scaled::{Change, Drift, Scaled, scale};
pub use wish::{Eggs, TinWish, To, Wish, for_product, read_tin};

use crate::source::Diagnostic;

/// What is said while a recipe is brought to its new size.
#[derive(Default)]
struct Said {
    /// What is different.
    changes: Vec<Change>,
    /// To the cook.
    words: Vec<String>,
    /// With a name.
    findings: Vec<Diagnostic>,
}
