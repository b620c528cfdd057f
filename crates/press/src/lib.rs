//! What goes out: the ledger's strings arranged for page, card, bench sheet, text and machine.

pub mod address;
pub mod answers;
#[cfg(feature = "pdf")]
pub mod bench;
#[cfg(feature = "pdf")]
mod bowl_labels;
pub mod captions;
#[cfg(feature = "pdf")]
pub mod card;
pub mod figure;
#[cfg(feature = "pdf")]
pub mod film;
pub mod jsonld;
pub mod line;
pub mod marks;
pub mod page;
pub mod palette;
#[cfg(feature = "pdf")]
pub mod papers;
#[cfg(feature = "pdf")]
mod patterns;
#[cfg(feature = "pdf")]
pub mod pdf;
#[cfg(feature = "pdf")]
pub mod printed;
#[doc(hidden)]
pub mod sample;
#[cfg(feature = "pdf")]
pub mod shoot;
#[cfg(feature = "pdf")]
pub mod shopping;
pub mod terminal;
pub mod text;
pub mod timetable;
