//! What happens: the heat of a mix, in one kitchen.

pub mod anchor;
pub mod code;
pub mod condition;
pub mod kitchen;
pub mod kitchens;
pub mod learn;
pub mod log;
pub mod mix;
pub mod physics;
pub mod simulate;
mod wording;
