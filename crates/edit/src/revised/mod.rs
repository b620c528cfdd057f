//! Two versions of a recipe held against each other: line by line, as figures, and as what must go out anew.

mod figures;
pub mod lines;
pub mod merge;
mod pin;

pub use figures::{About, Change, changes};
pub use pin::note;
