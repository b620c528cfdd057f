//! The measures that people own: cups and spoons, and amounts read from and written into words.

pub mod market;
pub mod read;
pub mod spoken;
mod spoon;
mod unit;
mod weight;
pub mod write;

pub use market::Market;
pub use read::{Quantity, Unread};
pub use spoon::{KITCHEN, Spoons, WRAPPER, count_for, counted, mixed, spoons, spoons_of};
pub use unit::Measure;
pub use weight::{NoWeight, volume, weigh};
