//! The measures that people own: cups and spoons, and amounts read from and written into words.

mod unit;

pub use unit::Measure;
