//! Places in a text, and what is to be said about them.

pub mod code;
mod diagnostic;
mod near;
mod span;

pub use diagnostic::{Change, Checked, Code, Concern, Diagnostic, Label, Severity};
pub use near::{listed, near};
pub use span::{Located, Span};
