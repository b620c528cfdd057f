//! What is said in a film about a recipe: its track, read from the file that holds it, and the film's papers.

pub mod film;
mod said;
pub mod track;

pub use said::Said;
