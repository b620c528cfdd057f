//! Times and oven heats inside sentences: what a cook's prose says, with the bytes that say it.

mod heat;
mod quantity;
mod time;
mod token;

pub use heat::{GAS_MARKS, OVEN_WORDS, Shown, heats};
pub use quantity::{holds, quantities};
pub use time::times;
pub(crate) use token::{Token, What, count_word, tokens};

use crate::source::Span;

/// Something that a sentence says, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Said<T> {
    /// The bytes of the sentence.
    pub span: Span,
    /// What they say.
    pub value: T,
}
