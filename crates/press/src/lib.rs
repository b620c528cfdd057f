//! What goes out: the ledger's strings arranged for page, card, bench sheet, text and machine.

pub mod palette;
#[doc(hidden)]
pub mod sample;
