//! The recipe as a person writes it: its model, its reader, its writer and its edits.

mod check;
pub mod form;
pub mod model;
pub mod placeholder;
mod print;
mod read;
pub mod revise;
pub mod scope;

pub use placeholder::{Piece, parse_sentence};
pub use print::print_recipe;
pub use read::{
    KitchenValue, Places, read_audience_bytes, read_hours, read_kitchen, read_kitchen_bytes,
    read_log_bytes, read_prices_bytes, read_recipe, read_recipe_bytes, read_scenes_bytes,
    read_time,
};
pub use revise::set_value;
pub use scope::Scope;
