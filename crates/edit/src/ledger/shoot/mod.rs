//! A planned filming day in words and strings.

mod build;
pub mod model;
mod sheets;
mod shown;

pub use build::{Filmed, film_lines};
pub use model::FilmLines;
