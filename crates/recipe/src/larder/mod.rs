//! The larder: what ingredients are made of, what they weigh by the cup, what they may do to people.

mod ingredient;

pub use ingredient::{Composition, Ingredient, Role, YeastForm};
