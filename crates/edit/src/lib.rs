//! Whether it is right, and how a figure is said.

pub mod code;
pub mod explain;
pub mod ledger;
