//! Test support: where the project's files are.

pub mod demos;
pub mod poppler;
pub mod tree;
