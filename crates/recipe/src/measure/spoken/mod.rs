//! Quantities as people say them aloud: "two and a quarter cups", "three-fifty", "an hour and twenty".
//!
//! Figures, marks and words come from the one reader's tokens; what is said of a clock, a year or an
//! ordinal is no quantity of a kitchen and is passed over.

mod idiom;
mod number;
mod quantity;
mod unit;
mod words;

pub use quantity::spoken;
pub use unit::{SpokenUnit, is_unit_word};
pub(crate) use words::number_word;
pub use words::{in_words, is_number_word};

use crate::source::Span;
use numerics::quantity::{Duration, Fraction, Length, Mass, Range, Temperature, Volume};

/// How near to the figure the speaker means to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nearness {
    /// The figure itself.
    Exact,
    /// "about", "roughly", "or so".
    About,
    /// "just under", "nearly".
    Under,
    /// "just over", "a bit over".
    Over,
    /// "at least".
    AtLeast,
    /// "up to", "no more than".
    AtMost,
}

/// What is meant by it. A single value is a range whose ends are one.
#[derive(Clone, Debug, PartialEq)]
pub enum Meant {
    /// A mass.
    Mass(Range<Mass>),
    /// A volume, by the measures of the United States.
    Volume(Range<Volume>),
    /// A temperature whose scale is said.
    Temperature(Range<Temperature>),
    /// Degrees whose scale is not said.
    Degrees(f64, f64),
    /// A gas mark.
    Gas(f64, f64),
    /// A stretch of time.
    Time(Range<Duration>),
    /// A length.
    Length(Range<Length>),
    /// Two or three sides: the figures, and the metres of their unit when it is said.
    Sides(Vec<f64>, Option<f64>),
    /// A share.
    Share(Range<Fraction>),
    /// So many times.
    Times(f64, f64),
    /// So many packets.
    Packets(f64, f64),
    /// A number alone; what it counts stands after it.
    Number(f64, f64),
}

/// A quantity as said.
#[derive(Clone, Debug, PartialEq)]
pub struct Spoken {
    /// The bytes that say it, words of nearness left out.
    pub span: Span,
    /// The bytes of its number alone.
    pub number: Span,
    /// The number, or the low end of a range, in its unit.
    pub low: f64,
    /// The high end, or the number again.
    pub high: f64,
    /// The unit it is said in.
    pub unit: SpokenUnit,
    /// What it is.
    pub meant: Meant,
    /// How near the speaker means to be.
    pub nearness: Nearness,
    /// Whether nothing but "a" stands for the number.
    pub article: bool,
    /// Whether the number is said in words rather than figures.
    pub in_words: bool,
}

impl Spoken {
    /// Whether it names two ends.
    pub fn is_range(&self) -> bool {
        self.low < self.high
    }
}

#[cfg(test)]
mod tests;
