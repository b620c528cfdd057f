//! The house style of a recipe: where guides to recipe writing disagree, its author chooses.

use crate::source::Located;

/// Declares a switch: its words, the first of them taken when nothing is written.
macro_rules! switch {
    ($(#[$doc:meta])* $name:ident { $($(#[$own:meta])* $variant:ident = $word:literal,)* }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$own])* $variant,)* }

        impl $name {
            /// Every choice.
            pub const ALL: &[Self] = &[$(Self::$variant),*];

            /// The word in a document.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word,)* }
            }
        }
    };
}

switch! {
    /// In what order a stage lists what goes in.
    ListOrder {
        /// As the steps take it up.
        ByStep = "by step",
        /// As the steps take it up, and the heavier first where one step takes several.
        HeaviestFirst = "by step, heaviest first",
        /// As the author has it.
        AsWritten = "as written",
    }
}

switch! {
    /// Whose measures may stand in a sentence.
    Measures {
        /// A cup never without grams or millilitres.
        Both = "both",
        /// Grams and millilitres alone.
        Metric = "metric",
        /// Cups and spoons alone.
        Cups = "cups",
    }
}

switch! {
    /// On which scale sentences give a temperature.
    Scales {
        /// On both.
        Both = "both",
        /// In °C alone.
        Celsius = "celsius",
        /// In °F alone.
        Fahrenheit = "fahrenheit",
    }
}

switch! {
    /// How sentences write a range.
    Ranges {
        /// One way throughout, whichever.
        Alike = "alike",
        /// "45–60 min".
        Dash = "dash",
        /// "45 to 60 min".
        To = "to",
    }
}

switch! {
    /// Whether a degree sign stands off its number.
    Degrees {
        /// "180 °C", as the SI brochure has it.
        Spaced = "spaced",
        /// "180°C", as newspapers have it.
        Closed = "closed",
    }
}

switch! {
    /// How a step begins.
    Opening {
        /// As the author likes.
        Free = "free",
        /// With a verb: "Knead the dough".
        Verb = "verb",
    }
}

switch! {
    /// How much one step may hold.
    Actions {
        /// As much as sixty words hold.
        Free = "free",
        /// Three things to do.
        Three = "three",
    }
}

/// What is chosen; what is not written is the first of each list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct House {
    /// `list`.
    pub list: Option<Located<ListOrder>>,
    /// `measures`.
    pub measures: Option<Located<Measures>>,
    /// `scales`.
    pub scales: Option<Located<Scales>>,
    /// `ranges`.
    pub ranges: Option<Located<Ranges>>,
    /// `degrees`.
    pub degrees: Option<Located<Degrees>>,
    /// `opening`.
    pub opening: Option<Located<Opening>>,
    /// `actions`.
    pub actions: Option<Located<Actions>>,
}

impl House {
    /// The order of lists.
    pub fn list(&self) -> ListOrder {
        chosen(self.list.as_ref(), ListOrder::ByStep)
    }

    /// The measures of sentences.
    pub fn measures(&self) -> Measures {
        chosen(self.measures.as_ref(), Measures::Both)
    }

    /// The scales of sentences.
    pub fn scales(&self) -> Scales {
        chosen(self.scales.as_ref(), Scales::Both)
    }

    /// How ranges are written.
    pub fn ranges(&self) -> Ranges {
        chosen(self.ranges.as_ref(), Ranges::Alike)
    }

    /// How degrees are written.
    pub fn degrees(&self) -> Degrees {
        chosen(self.degrees.as_ref(), Degrees::Spaced)
    }

    /// How steps begin.
    pub fn opening(&self) -> Opening {
        chosen(self.opening.as_ref(), Opening::Free)
    }

    /// How much a step may hold.
    pub fn actions(&self) -> Actions {
        chosen(self.actions.as_ref(), Actions::Free)
    }
}

/// What is written, or the usual.
fn chosen<T: Copy>(written: Option<&Located<T>>, usual: T) -> T {
    written.map_or(usual, |one| one.value)
}
