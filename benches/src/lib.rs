//! What the benches share: a section that can be baked by three ways of stepping in time, and the row of a table.

pub mod counted;
pub mod explicit;
pub mod row;
pub mod stepping;
