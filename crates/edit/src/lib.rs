//! Whether it is right, and how a figure is said.

pub mod advice;
pub mod answers;
pub mod book;
pub mod code;
pub mod explain;
pub mod ledger;
pub mod mend;
pub mod mixture;
pub mod pasted;
pub mod prose;
pub mod revised;
pub mod rules;
pub mod stretch;
pub mod talk;
pub mod turned;
pub mod variant;
mod work_out;

pub use work_out::{Heard, Inputs, work_out};
