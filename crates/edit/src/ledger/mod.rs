//! The ledger: every figure of a recipe once, with its value, the string that every face prints
//! and where it comes from.

pub mod model;
pub mod say;
