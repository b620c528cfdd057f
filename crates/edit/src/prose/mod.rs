//! The author's own words: every passage of a recipe, where it stands, and the figures in it.

pub mod figures;
mod known;
mod passages;
mod spoken;

pub use figures::{Standing, WordFigure, figures};
pub use passages::{Of, Passage, Spot, passages, sentences, words};
