//! The ledger as plain values, arranged as the recipe is: facts, stages, steps, products, tables.

pub use super::bowl_labels::BowlLabel;
pub use super::happens::other_rooms::{Reckoned, ReckonedRow};
use super::label::model::LabelLines;
pub use super::patterns::model::{Part, Pattern, PatternKind, Patterns};
pub use super::shopping::{Shopping, ShoppingGroup, ShoppingLine};
use recipe::provenance::Origin;

/// A figure: its value in SI, its unit there, the string that is printed, and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Its place in the ledger, in dotted words: `stage.sponge.milk.mass`.
    pub name: String,
    /// Full precision, SI.
    pub value: f64,
    /// SI unit of `value`: "kg", "K", "s", "m3", "1".
    pub unit: &'static str,
    /// What every face prints: "210 g", "180 °C / 350 °F", "50–85 min".
    pub shown: String,
    /// Where it comes from.
    pub origin: Origin,
}

/// Everything that the outputs print about one recipe in one kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct Ledger {
    /// Title, as written.
    pub title: String,
    /// Short name for files and addresses: `same-day-braid-and-tied-buns`.
    pub slug: String,
    /// Language of the page (BCP 47): "en", or that of the country it is printed for.
    pub language: &'static str,
    /// Title of the film, its address, its date and its still, when there is one.
    pub film: Option<FilmLine>,
    /// Author, version and dates, each as a phrase: "by Petra", "version 3".
    pub byline: Vec<String>,
    /// Author alone.
    pub author: Option<String>,
    /// Version alone.
    pub version: Option<String>,
    /// Date of publication as 2026-02-14.
    pub published: Option<String>,
    /// Date of the last change.
    pub changed: Option<String>,
    /// A few sentences before the recipe.
    pub headnote: Option<String>,
    /// Yield, times and the like: ("Makes", "1 braid and 10 buns"), ("Hands-on", "1 h 5 min").
    pub facts: Vec<Fact>,
    /// The figures of the author's own words, in the order of a page.
    pub said: Vec<Said>,
    /// Durations for structured data, ISO 8601.
    pub iso_times: IsoTimes,
    /// What is made, for structured data: "1 braid and 10 buns".
    pub yield_line: String,
    /// "Contains wheat (gluten), milk, egg, almond." and its honesty about traces.
    pub allergens: AllergenLine,
    /// Tools that steps need: tins with their size and volume, mixer, thermometer.
    pub kit: Vec<String>,
    /// Stages with their items.
    pub stages: Vec<StageLines>,
    /// Items for bench, tin and top.
    pub besides: Vec<ItemLine>,
    /// Sections of steps in order: one for each stage, then one for each product.
    pub sections: Vec<Section>,
    /// Products with their masses and tins.
    pub products: Vec<ProductLine>,
    /// The formula table: ("Water in all", figure), in the order that a baker reads.
    pub formula: Vec<(String, Figure)>,
    /// What the liquid must read in other rooms: for the page's margin.
    pub rooms: Vec<RoomTable>,
    /// How long each rise takes in other rooms, when a day was followed for it.
    pub reckoned: Option<Reckoned>,
    /// Cautions that the recipe's ingredients and steps call for, each with its source.
    pub cautions: Vec<Caution>,
    /// Paragraphs after the recipe: ("Make ahead", ...), ("Storage", ...), ("Note", ...).
    pub paragraphs: Vec<(String, String)>,
    /// Tested bakes, each as one sentence.
    pub tested: Vec<String>,
    /// Whose cups and spoons these are when it is printed for a country, and how flour is measured
    /// by the cup wherever cups are printed.
    pub cup_note: Option<String>,
    /// That the author's sentences are not translated, when it is printed for a country. For pages
    /// and texts; a card says what a cook needs at the bowl.
    pub words_note: Option<String>,
    /// Disclosure when somebody paid or gave.
    pub disclosure: Option<String>,
    /// Photographs: file, alt text, credit.
    pub photos: Vec<(String, String, Option<String>)>,
    /// Nutrition, for information.
    pub label: LabelLines,
    /// Footnotes: sources of the figures above, numbered from 1.
    pub footnotes: Vec<String>,
    /// "everyoven 0.1.0 · data 1 · recipe version 3".
    pub imprint: String,
    /// What to buy for one batch.
    pub shopping: Shopping,
    /// What is stuck on bowls and trays while they stand.
    pub bowl_labels: Vec<BowlLabel>,
    /// Linings, sheets of dough, rings and strips at true size.
    pub patterns: Patterns,
}

/// The film as a line.
#[derive(Clone, Debug, PartialEq)]
pub struct FilmLine {
    /// Its title.
    pub title: String,
    /// Its address.
    pub address: String,
    /// When it went out, as 2026-02-14.
    pub date: Option<String>,
    /// The same in words: "14 February 2026".
    pub when: Option<String>,
    /// File name of its still.
    pub thumbnail: Option<String>,
    /// Its parts, when its talk was looked at.
    pub parts: Vec<FilmPart>,
}

/// A part of a film.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FilmPart {
    /// What it is about.
    pub name: String,
    /// Seconds from the film's beginning to its own.
    pub from_seconds: u64,
    /// Seconds from the film's beginning to its end.
    pub to_seconds: u64,
}

/// A label and what is printed after it.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    /// "Makes", "Start to finish", "Hands-on".
    pub label: String,
    /// What is printed.
    pub shown: String,
    /// The figures in it.
    pub figures: Vec<Figure>,
}

/// A figure of the author's own words.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// The figure as the words have it; its origin says how it stands to the recipe's own.
    pub figure: Figure,
    /// The passage that it stands in: "headnote", "step.4".
    pub passage: String,
    /// Whether the recipe's own figures say the same.
    pub held: bool,
}

/// Durations as ISO 8601, equal to the printed ones.
#[derive(Clone, Debug, PartialEq)]
pub struct IsoTimes {
    /// Before the bake.
    pub prep: String,
    /// In the oven.
    pub cook: String,
    /// From the first step to the last product cool.
    pub total: String,
}

/// The allergens of a recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct AllergenLine {
    /// "Contains wheat (gluten), milk, egg and almond."
    pub contains: String,
    /// That traces come from the kitchen and packs must be read.
    pub honesty: String,
    /// The names alone, by US law.
    pub us: Vec<String>,
    /// The names alone, by EU law.
    pub eu: Vec<String>,
}

/// A stage's items with its heading.
#[derive(Clone, Debug, PartialEq)]
pub struct StageLines {
    /// "Sponge".
    pub heading: String,
    /// "30 % of the flour"; none outside the dough.
    pub flour_share: Option<Figure>,
    /// Items.
    pub items: Vec<ItemLine>,
    /// Its sum under the rule.
    pub sum: Figure,
    /// Its dough or not: fillings and finishes have no percentages.
    pub in_dough: bool,
}

/// One ingredient line.
#[derive(Clone, Debug, PartialEq)]
pub struct ItemLine {
    /// "210 g"; none for a whole stage, which says "all of it".
    pub grams: Option<Figure>,
    /// "¾ cup + 2 Tbsp"; none when none can be measured or is needed.
    pub measure: Option<Figure>,
    /// How far the measure is from the mass, when it is worth saying: "−2.8 %".
    pub measure_error: Option<Figure>,
    /// "whole milk".
    pub name: String,
    /// "soft but cool, in pieces", "warm, 41 °C / 106 °F", "from the refrigerator".
    pub detail: Option<String>,
    /// "35 %" of the flour.
    pub percent: Option<Figure>,
    /// For bench, tin or top.
    pub place: Option<String>,
    /// Number of its footnote.
    pub footnote: Option<usize>,
}

/// A run of steps under one heading.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// "Sponge", "Braid".
    pub heading: String,
    /// The steps, numbered through the whole recipe.
    pub steps: Vec<StepLine>,
}

/// A step as printed: the sentence and its margin.
#[derive(Clone, Debug, PartialEq)]
pub struct StepLine {
    /// Its number.
    pub number: usize,
    /// The sentence, placeholders resolved, in runs.
    pub runs: Vec<Run>,
    /// What can be measured.
    pub margin: Vec<MarginLine>,
}

/// A run of text within a sentence.
#[derive(Clone, Debug, PartialEq)]
pub enum Run {
    /// The author's words.
    Words(String),
    /// A figure with or without a name, from a placeholder.
    Figure(Figure),
}

/// What a margin line is about; each has its own mark besides its colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MarginKind {
    /// Minutes.
    Time,
    /// Heat: oven, core, warm place.
    Heat,
    /// Cold and water: refrigerator, liquid.
    Cold,
    /// The cue that ends it.
    Cue,
    /// Speed, thickness, vessel.
    How,
    /// What this kitchen's physics says.
    Here,
}

/// A line of the margin.
#[derive(Clone, Debug, PartialEq)]
pub struct MarginLine {
    /// What it is about.
    pub kind: MarginKind,
    /// What is printed.
    pub shown: String,
    /// The figures in it.
    pub figures: Vec<Figure>,
}

/// A product as printed.
#[derive(Clone, Debug, PartialEq)]
pub struct ProductLine {
    /// "Braid".
    pub name: String,
    /// "1 of 660 g (3 × 220 g)".
    pub pieces: String,
    /// "loaf tin 21.6 × 11.4 × 6.4 cm, 1 420 mL / 6 cups, light metal".
    pub tin: Option<String>,
    /// "180 °C / 350 °F, 36 min (32–40)".
    pub bake: Option<String>,
    /// "about 590 g each".
    pub after: Option<String>,
    /// The figures in it.
    pub figures: Vec<Figure>,
}

/// What a liquid must read in rooms of several temperatures.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomTable {
    /// "Milk for the sponge, so that the dough ends at 26 °C".
    pub caption: String,
    /// (room, liquid): ("16 °C / 61 °F", "34 °C / 93 °F" or "too hot: warm the bowl").
    pub rows: Vec<(Figure, String, Option<Figure>)>,
}

/// A caution with its source.
#[derive(Clone, Debug, PartialEq)]
pub struct Caution {
    /// What to mind.
    pub text: String,
    /// Who says so.
    pub source: String,
}
