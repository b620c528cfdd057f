//! Pasted text becomes a recipe file, and every line of it is answered for.

mod act;
mod amounts;
mod arrange;
mod clause;
mod compose;
mod cut;
mod draft;
mod fold;
mod from_work;
mod item;
mod kinds;
mod left_out;
pub mod line;
mod look_up;
mod made;
pub mod model;
mod page;
mod place;
mod prose;
mod sheet;
mod split;
mod tin;
mod uses;
mod usual;
mod work;
mod yields;

pub use made::{import, import_with};
pub use model::{
    Assumed, Bearing, HeatSaid, Imported, Line, LineAmount, LineKind, LineUnit, Mark, Piece,
    Reading, TimeSaid,
};
pub use page::{is_page, page_as_text, saved_page};
