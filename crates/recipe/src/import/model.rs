//! What was made of a pasted text, as plain values: each line with its mark, and the recipe file.

use crate::document::model::Place;
use crate::source::Span;
use numerics::quantity::{Duration, Mass, Range, Temperature};

/// A pasted text as it was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Imported {
    /// Every line of the text in order, blank ones included; none is left out.
    pub lines: Vec<Line>,
    /// The recipe file made of it. It may want mending: what was not said is not in it.
    pub document: String,
    /// What the text leaves out and the file assumes from the class of bread.
    pub assumed: Vec<Assumed>,
    /// The title, if there is one.
    pub title: Option<String>,
    /// What it makes, in the text's words: "12 buns".
    pub makes: Option<String>,
    /// Every oven temperature of its steps, in order.
    pub heats: Vec<HeatSaid>,
    /// Every stretch of time of its steps, in order.
    pub times: Vec<TimeSaid>,
    /// What a baker needs and the text does not say: "oven temperature", "yield".
    pub left_out: Vec<&'static str>,
}

/// An oven temperature of a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatSaid {
    /// Number of its line.
    pub line: usize,
    /// From and to; one value twice when it is no range.
    pub heat: Range<Temperature>,
}

/// A stretch of time of a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TimeSaid {
    /// Number of its line.
    pub line: usize,
    /// From and to; one value twice when it is no range.
    pub time: Range<Duration>,
}

/// How far something was understood.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mark {
    /// Amount and ingredient are clear, and what it weighs follows without a guess.
    Understood,
    /// Something is left to be decided.
    Doubtful,
    /// Nothing could be read.
    NotUnderstood,
}

/// What a line is in a recipe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LineKind {
    /// Nothing stands on it.
    Blank,
    /// The name of the recipe.
    Title,
    /// Words about it, before it begins.
    About,
    /// The heading of a part: "For the dough:".
    Heading,
    /// Things that go in.
    Ingredient,
    /// What is done.
    Step,
    /// What it makes: "Makes 12 buns".
    Makes,
    /// Times of the whole: "Prep time: 30 min".
    Time,
    /// Keeping, freezing, a word for the reader.
    Note,
    /// Nothing that a recipe holds.
    Other,
}

/// A line of the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Its number in the text, from 1; of a saved page, in the structured data's lists.
    pub number: usize,
    /// Its bytes in the text.
    pub span: Span,
    /// The line as pasted.
    pub text: String,
    /// What it is.
    pub kind: LineKind,
    /// How far it was understood.
    pub mark: Mark,
    /// Why it is not wholly understood, or what was taken for granted: a sentence.
    pub reason: Option<String>,
    /// What goes in by this line.
    pub readings: Vec<Reading>,
}

/// One thing that goes in, as a line says it.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// How far this one was understood.
    pub mark: Mark,
    /// Why no further, or what was taken for granted.
    pub reason: Option<String>,
    /// How much; none when the line does not say.
    pub amount: Option<LineAmount>,
    /// The same said in another measure.
    pub also: Option<LineAmount>,
    /// The words of the line that name it.
    pub words: String,
    /// Key of the larder; none when it has none of that name.
    pub key: Option<String>,
    /// For bench, tin or top.
    pub place: Option<Place>,
    /// "softened", "lightly beaten".
    pub state: Option<String>,
    /// What else the line says of it.
    pub note: Option<String>,
    /// The words of the sentence that put it in, where no list does: "half a cup of warm milk".
    pub said: Option<String>,
    /// What it weighs: one value twice, or as far as published measures lie apart; none when that
    /// cannot be known.
    pub mass: Option<Range<Mass>>,
}

/// An amount as people write it: pieces added together, and how carefully they are meant.
#[derive(Clone, Debug, PartialEq)]
pub struct LineAmount {
    /// "1 cup plus 2 tablespoons" has two.
    pub pieces: Vec<Piece>,
    /// How it is meant.
    pub bearing: Option<Bearing>,
}

/// A number or a range of numbers, with its unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The low end.
    pub low: f64,
    /// The high end; the low one again when there is no range.
    pub high: f64,
    /// Of what.
    pub unit: LineUnit,
}

impl Piece {
    /// Whether it is two numbers.
    pub fn is_range(&self) -> bool {
        self.low < self.high
    }
}

/// How an amount is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Bearing {
    /// "scant 1 cup".
    Scant,
    /// "1 heaped tsp".
    Heaped,
    /// "1 rounded Tbsp".
    Rounded,
    /// "a generous pinch".
    Generous,
    /// "1 level tsp".
    Level,
    /// "1 cup packed".
    Packed,
    /// "about 500 g".
    About,
}

/// Every unit that a line may use.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LineUnit {
    /// Grams.
    Gram,
    /// Kilograms.
    Kilogram,
    /// Milligrams.
    Milligram,
    /// Ounces by weight.
    Ounce,
    /// Pounds.
    Pound,
    /// Millilitres.
    Millilitre,
    /// Centilitres.
    Centilitre,
    /// Decilitres.
    Decilitre,
    /// Litres.
    Litre,
    /// Cups.
    Cup,
    /// Tablespoons.
    Tablespoon,
    /// Teaspoons.
    Teaspoon,
    /// Fluid ounces.
    FluidOunce,
    /// Pints.
    Pint,
    /// Quarts.
    Quart,
    /// A number with nothing after it: "3 eggs".
    Number,
    /// A size or a pack, in the singular: "large", "packet", "stick", "pinch".
    Thing(&'static str),
}

/// What a text leaves out and the file assumes.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumed {
    /// What: "oven", "tin", "dough temperature".
    pub what: String,
    /// A sentence with the value and why: "180 °C / 350 °F, as is usual for soft rolls."
    pub sentence: String,
    /// Line of the recipe file where it stands.
    pub file_line: Option<usize>,
}
