//! A bake day: recipes and batches, what the kitchen has, and when everything is done.

mod chain;
pub mod lengths;
mod list;
pub mod means;
mod posted;
pub mod problem;
mod search;
pub mod solve;
pub mod tasks;
pub mod trays;
mod words;
