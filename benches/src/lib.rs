//! What the benches share: a section that can be baked by three ways of stepping in time.

pub mod counted;
pub mod explicit;
pub mod stepping;
