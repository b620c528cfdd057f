//! Why a card or a sheet could not be made.

use std::fmt;

/// A character that no embedded face has, and where it stands in the recipe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MissingGlyph {
    /// The character.
    pub character: char,
    /// Where it stands, in a cook's words: "title", "step 4", "ingredient 2 of Sponge".
    pub place: String,
}

impl fmt::Display for MissingGlyph {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            out,
            "\"{}\" (U+{:04X}) in {}",
            self.character,
            u32::from(self.character),
            self.place
        )
    }
}

/// Why no PDF was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PdfFault {
    /// Characters that would have come out as empty boxes.
    Glyphs(Vec<MissingGlyph>),
    /// The typesetter refused one of our own templates: a fault of the program.
    Typesetter(Vec<String>),
    /// The recipe has nothing for this paper, and why.
    NothingToPrint(String),
}

impl fmt::Display for PdfFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Glyphs(missing) => {
                write!(out, "the card's type has no sign for ")?;
                for (at, glyph) in missing.iter().enumerate() {
                    let comma = if at == 0 { "" } else { ", " };
                    write!(out, "{comma}{glyph}")?;
                }
                write!(out, "; write it in other letters")
            }
            Self::NothingToPrint(why) => write!(out, "nothing to print: {why}"),
            Self::Typesetter(messages) => {
                write!(out, "the typesetter stopped: {}", messages.join("; "))
            }
        }
    }
}

impl std::error::Error for PdfFault {}
