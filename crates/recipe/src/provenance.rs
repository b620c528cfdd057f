//! Where a figure comes from and how it was had.

/// How a figure was had.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Had {
    /// Read in the source.
    Read,
    /// Read in a text that quotes the source.
    SecondHand,
    /// From memory, not read.
    FromMemory,
    /// A habit of the trade without a source.
    CommonPractice,
    /// Worked out here from figures that have sources of their own.
    Derived,
    /// Written by the author of the recipe or declared on a pack.
    Written,
    /// Measured by the cook.
    Measured,
}

impl Had {
    /// The way that a word of the data tables names.
    pub fn from_word(word: &str) -> Option<Self> {
        Some(match word {
            "read" => Self::Read,
            "second-hand" => Self::SecondHand,
            "memory" => Self::FromMemory,
            "common practice" => Self::CommonPractice,
            "derived" => Self::Derived,
            _ => return None,
        })
    }

    /// The words that a footnote prints.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Read => "read in the source",
            Self::SecondHand => "second-hand",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice",
            Self::Derived => "worked out here",
            Self::Written => "as written",
            Self::Measured => "measured",
        }
    }
}

/// A source and how its figure was had.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Origin {
    /// The source, as a footnote names it.
    pub source: String,
    /// How the figure was had.
    pub had: Had,
}

impl Origin {
    /// From a source and the way it was had.
    pub fn new(source: impl Into<String>, had: Had) -> Self {
        Self {
            source: source.into(),
            had,
        }
    }
}
