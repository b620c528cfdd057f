//! What must hold for any bytes, shared with the tests that replay the kept corpora.

#[path = "../tests/suite/corpus_targets.rs"]
mod corpus_targets;

pub use corpus_targets::*;
