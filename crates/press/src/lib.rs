//! What goes out: the ledger's strings arranged for page, card, bench sheet, text and machine.

pub mod address;
pub mod jsonld;
pub mod line;
pub mod marks;
pub mod page;
pub mod palette;
#[doc(hidden)]
pub mod sample;
pub mod text;
