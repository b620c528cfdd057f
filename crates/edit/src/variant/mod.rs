//! A variant of a recipe: wishes granted one after another, and what is to be said about each.
//!
//! Every wish takes a whole recipe and gives a whole recipe, so that wishes of different kinds can
//! follow each other in any order.

mod model;

pub use model::{Change, Granted, Kept, Variant};
