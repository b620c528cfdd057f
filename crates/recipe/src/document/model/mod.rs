//! The written recipe as plain values: stages with items and steps, products, and what surrounds them.

mod audience;
mod house;
mod item;
mod kitchen;
mod log;
mod prices;
mod product;
mod scenes;
mod step;
mod words;

pub use audience::{AudienceFile, Met, VariableEntry};
pub use house::{Actions, Degrees, House, ListOrder, Measures, Opening, Ranges, Scales};
pub use item::{Amount, Item, Place, Spooned, Store};
pub use kitchen::{BowlFile, DayFile, Hours, KitchenFile, MeasuredFile, MixerFile, OvenFile};
pub use log::{LogBake, LogFile, LogReading, Logged};
pub use prices::{Money, PriceEntry, PriceFile};
pub use product::{Part, Product, Test, Tin, TinSize};
pub use scenes::{HoldFile, Meal, Member, PlaceFile, SceneEntry, SceneFile, ShotEntry, ShotSize};
pub use step::{Action, OvenPhase, Phase, Step, Timing, Until};
pub use words::{Crust, Material, Speed, Standing, Tool};

use crate::source::{Located, Span};
use jiff::civil::Date;
use numerics::quantity::{Duration, Fraction, Mass};

/// The format version that this program writes.
pub const FORMAT: i64 = 1;

/// A recipe as written.
#[derive(Clone, Debug, PartialEq)]
pub struct Recipe {
    /// Version of the file format.
    pub format: i64,
    /// Its name.
    pub title: Located<String>,
    /// The kind of bread, which chooses the bands it is judged by.
    pub kind: Located<Kind>,
    /// The author's version of this recipe.
    pub version: Option<Located<String>>,
    /// Who wrote it.
    pub author: Option<Located<String>>,
    /// First published on.
    pub published: Option<Located<Date>>,
    /// Last changed on.
    pub changed: Option<Located<Date>>,
    /// A few sentences before the recipe.
    pub headnote: Option<Located<String>>,
    /// Notes after it.
    pub notes: Vec<Located<String>>,
    /// What can be done the day before.
    pub make_ahead: Option<Located<String>>,
    /// How it keeps.
    pub storage: Option<Located<String>>,
    /// For how many people.
    pub serves: Option<Located<String>>,
    /// What title or film promise.
    pub promise: Option<Promise>,
    /// The film of it.
    pub film: Option<Film>,
    /// Photographs.
    pub photos: Vec<Photo>,
    /// Who paid or gave.
    pub sponsor: Option<Sponsor>,
    /// What its author chose where guides to recipe writing disagree.
    pub house: House,
    /// The cook's own ingredients, and what a pack says.
    pub pantry: Vec<PantryEntry>,
    /// Stages in the order of work.
    pub stages: Vec<Stage>,
    /// What is made of them.
    pub products: Vec<Product>,
    /// Items for bench, tin and top, outside the dough's sum.
    pub besides: Vec<Item>,
    /// Bakes that were done.
    pub tested: Vec<Test>,
}

/// The kinds of bread that have bands of their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Flour, water, salt, yeast, little else.
    Lean,
    /// A soft tin loaf or roll with a little sugar and fat.
    Soft,
    /// Milk, eggs, sugar and butter in moderation.
    Enriched,
    /// Butter-rich: a third of the flour or more.
    Rich,
}

impl Recipe {
    /// How many steps come before those of a stage; with the number of stages, before those of the products.
    pub fn steps_before(&self, stage: usize) -> usize {
        let earlier = self.stages.iter().take(stage);
        earlier.map(|stage| stage.steps.len()).sum()
    }
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 4] = [Self::Lean, Self::Soft, Self::Enriched, Self::Rich];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Lean => "lean",
            Self::Soft => "soft",
            Self::Enriched => "enriched",
            Self::Rich => "rich",
        }
    }
}

/// What the title or the film promises.
#[derive(Clone, Debug, PartialEq)]
pub struct Promise {
    /// From the first step of the day to the first slice.
    pub within: Option<Located<Duration>>,
    /// Tools that are not needed: "mixer", "thermometer".
    pub without: Vec<Located<String>>,
    /// Where it stands.
    pub span: Span,
}

/// The film that goes with the page.
#[derive(Clone, Debug, PartialEq)]
pub struct Film {
    /// Its title.
    pub title: Option<Located<String>>,
    /// Its address on the web.
    pub address: Located<String>,
    /// When it went out.
    pub date: Option<Located<Date>>,
    /// File name of its still.
    pub thumbnail: Option<Located<String>>,
}

/// A photograph.
#[derive(Clone, Debug, PartialEq)]
pub struct Photo {
    /// File name beside the page.
    pub file: Located<String>,
    /// What it shows, for whoever cannot see it.
    pub alt: Option<Located<String>>,
    /// Who took it.
    pub credit: Option<Located<String>>,
}

/// Who paid for the recipe or gave things for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sponsor {
    /// Their name.
    pub name: Located<String>,
    /// What they gave.
    pub gave: Option<Located<String>>,
}

/// An ingredient of the cook's own, or what its pack says of a known one.
#[derive(Clone, Debug, PartialEq)]
pub struct PantryEntry {
    /// The name by which items call it.
    pub name: Located<String>,
    /// Key of the larder row whose composition it shares, or a name of it.
    pub like: Option<Located<String>>,
    /// Protein as the pack declares it.
    pub protein: Option<Located<Fraction>>,
    /// Water, if known.
    pub water: Option<Located<Fraction>>,
    /// Fat as the pack declares it.
    pub fat: Option<Located<Fraction>>,
    /// Sugars as the pack declares them.
    pub sugars: Option<Located<Fraction>>,
    /// Salt as the pack declares it.
    pub salt: Option<Located<Fraction>>,
    /// Saturated fat as the pack declares it.
    pub saturated: Option<Located<Fraction>>,
    /// Trans fat as the pack declares it.
    pub trans: Option<Located<Fraction>>,
    /// Added sugars as the pack declares them.
    pub added_sugars: Option<Located<Fraction>>,
    /// The ingredient list of the pack, in its own order.
    pub ingredients: Option<Located<String>>,
    /// Allergens as the pack declares them, lower case.
    pub allergens: Option<Vec<Located<String>>>,
    /// Grams in one US cup of 236.6 mL, measured by the cook.
    pub cup: Option<Located<Mass>>,
    /// Where it stands.
    pub span: Span,
}

/// A stage: things put together, and what is done with them.
#[derive(Clone, Debug, PartialEq)]
pub struct Stage {
    /// Its name, by which later stages and products call it.
    pub name: Located<String>,
    /// What goes in, in written order.
    pub items: Vec<Item>,
    /// What is done, in written order.
    pub steps: Vec<Step>,
    /// Water that leaves in cooking.
    pub evaporates: Option<Located<Mass>>,
    /// Where it stands.
    pub span: Span,
}
