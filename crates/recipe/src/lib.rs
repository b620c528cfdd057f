//! What is written: the document and its diagnostics, the larder, measures and formula algebra.
//!
//! Written times and temperatures are data here; nothing in this crate works out heat or time.

pub mod document;
pub mod formula;
pub mod import;
pub mod label;
pub mod larder;
pub mod measure;
pub mod provenance;
pub mod scale;
pub mod source;
pub mod substitution;
