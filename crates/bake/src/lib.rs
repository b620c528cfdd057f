//! What happens: the heat of a mix, in one kitchen.

pub mod kitchen;
pub mod mix;
