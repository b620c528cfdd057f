//! Pasted text becomes a recipe file, and every line of it is answered for.

pub mod line;
pub mod model;

pub use model::{
    Assumed, Bearing, Imported, Line, LineAmount, LineKind, LineUnit, Mark, Piece, Reading,
};
