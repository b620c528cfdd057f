//! What the cook paid, as written in a file of prices.

use super::Amount;
use crate::source::{Located, Span};
use jiff::civil::Date;

/// A file of prices.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceFile {
    /// Version of the file format.
    pub format: i64,
    /// Prices, in written order.
    pub prices: Vec<PriceEntry>,
}

/// What was paid for so much of something, and when.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceEntry {
    /// Of what: an ingredient by name.
    pub of: Located<String>,
    /// How much was paid.
    pub pay: Located<Money>,
    /// For how much of it.
    pub amount: Located<Amount>,
    /// When the price was seen.
    pub seen: Located<Date>,
    /// Where it stands.
    pub span: Span,
}

/// A sum of money as written.
#[derive(Clone, Debug, PartialEq)]
pub struct Money {
    /// How much.
    pub sum: f64,
    /// The currency by its three letters (ISO 4217).
    pub currency: String,
    /// How many decimals were written.
    pub decimals: usize,
}
