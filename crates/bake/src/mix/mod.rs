//! The heat of a mix: what temperature a dough ends at, and what the liquid must read for it.

mod account;
mod answer;
pub mod balance;
pub mod by_hand;
mod cooled;
pub mod factor;
pub(crate) mod goes_in;
mod limits;
mod model;
mod room;
mod wake;
mod ways_out;
mod work;

pub use answer::{MUCH_BUTTER, mix, mixed};
pub use cooled::left_by_cooling;
pub use goes_in::is_butter;
pub use model::{Balance, MixAnswer, Share, WakeAnswer};
pub use room::lots;
pub use wake::wake;
