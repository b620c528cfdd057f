//! The paper of a figure: its frame, its type, its patterns, and words that are broken into lines.

use crate::palette::{Colour, PRINT};
use crate::text::wrap::wrap;
use maud::{Markup, html};
use numerics::decimal::trimmed;

/// Width of every figure, in its own units: a telephone across.
pub const WIDE: f64 = 360.0;

/// Sizes of type: words, and second words.
pub const TEXT: f64 = 13.0;
/// See [`TEXT`].
pub const SMALL: f64 = 11.0;

/// Width of a letter in parts of its size, as wide faces without serifs have it on average; and of a
/// heavy one.
const LETTER: f64 = 0.54;
/// See [`LETTER`].
const HEAVY_LETTER: f64 = 0.62;

const FACE: &str = "system-ui, 'Segoe UI', 'Helvetica Neue', Arial, 'DejaVu Sans', sans-serif";

/// A length with two decimals at most.
pub fn n(value: f64) -> String {
    trimmed(value, 2)
}

/// The whole: title and description for whoever cannot see it, white paper, then what is drawn.
pub fn paper(title: &str, about: &str, high: f64, patterns: &Markup, drawn: &Markup) -> String {
    paper_of((WIDE, high), title, about, patterns, drawn)
}

/// The same of another width.
pub fn paper_of(
    (wide, high): (f64, f64),
    title: &str,
    about: &str,
    patterns: &Markup,
    drawn: &Markup,
) -> String {
    let view = format!("0 0 {} {}", n(wide), n(high));
    let whole = html! {
        svg xmlns="http://www.w3.org/2000/svg" viewBox=(view) role="img"
            aria-labelledby="title about" font-family=(FACE) font-size=(n(TEXT))
            fill=(PRINT.ink.css()) {
            title #title { (title) }
            desc #about { (about) }
            defs { (patterns) }
            rect width=(n(wide)) height=(n(high)) fill=(PRINT.paper.css()) {}
            (drawn)
        }
    };
    whole.into_string() + "\n"
}

/// How a text stands at its place.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// It begins there.
    Start,
    /// Its middle is there.
    Middle,
    /// It ends there.
    End,
}

impl Anchor {
    const fn word(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Middle => "middle",
            Self::End => "end",
        }
    }
}

/// A text's look.
#[derive(Clone, Copy)]
pub struct Type {
    /// Its size.
    pub size: f64,
    /// Its colour.
    pub colour: Colour,
    /// Heavier.
    pub bold: bool,
    /// How it stands.
    pub anchor: Anchor,
}

impl Type {
    /// Words.
    pub const WORDS: Self = Self {
        size: TEXT,
        colour: PRINT.ink,
        bold: false,
        anchor: Anchor::Start,
    };
    /// Heavy words.
    pub const BOLD: Self = Self {
        bold: true,
        ..Self::WORDS
    };
    /// Second words.
    pub const SOFT: Self = Self {
        size: SMALL,
        colour: PRINT.ink_soft,
        ..Self::WORDS
    };

    /// Standing otherwise.
    pub const fn at(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }

    /// In another colour.
    pub const fn in_colour(self, colour: Colour) -> Self {
        Self { colour, ..self }
    }
}

/// A text on a white edge, so that lines behind it do not cross it.
pub fn text(x: f64, y: f64, look: Type, words: &str) -> Markup {
    let anchor = (look.anchor != Anchor::Start).then(|| look.anchor.word());
    let colour = (look.colour != PRINT.ink).then(|| look.colour.css());
    let size = ((look.size - TEXT).abs() > 1e-9).then(|| n(look.size));
    html! {
        text x=(n(x)) y=(n(y)) text-anchor=[anchor] fill=[colour] font-size=[size]
            font-weight=[look.bold.then_some("600")] stroke=(PRINT.paper.css()) stroke-width="3"
            stroke-linejoin="round" paint-order="stroke" { (words) }
    }
}

/// How wide a text is set, about.
pub fn width(look: Type, words: &str) -> f64 {
    words.chars().count() as f64 * look.size * if look.bold { HEAVY_LETTER } else { LETTER }
}

/// Words broken into lines of a width.
pub fn broken(words: &str, width: f64, look: Type) -> Vec<String> {
    let letter = look.size * if look.bold { HEAVY_LETTER } else { LETTER };
    let mut letters = 1;
    while f64::from(letters + 1) * letter <= width {
        letters += 1;
    }
    wrap(words, usize::try_from(letters).unwrap_or(1))
}

/// Lines under one another from a first baseline on; and the height they take.
pub fn block(x: f64, y: f64, width: f64, look: Type, words: &str) -> (Markup, f64) {
    let lines = broken(words, width, look);
    let lead = look.size * 1.3;
    let drawn = html! {
        @for (at, line) in lines.iter().enumerate() {
            (text(x, y + lead * at as f64, look, line))
        }
    };
    (drawn, lines.len() as f64 * lead)
}

/// How a pattern is drawn.
#[derive(Clone, Copy)]
pub enum Weave {
    /// Nothing on its ground.
    Plain,
    /// Rings far apart, as bubbles are.
    Bubbles,
    /// Dots so far apart.
    Dots(f64),
    /// Slanting lines so far apart.
    Slant(f64),
    /// Lines both ways so far apart.
    Cross(f64),
}

/// A pattern on its ground.
pub fn pattern(id: &str, ground: Colour, ink: Colour, weave: Weave) -> Markup {
    let apart = match weave {
        Weave::Plain => 8.0,
        Weave::Bubbles => 10.0,
        Weave::Dots(apart) | Weave::Slant(apart) | Weave::Cross(apart) => apart,
    };
    let half = apart / 2.0;
    let ink = ink.css();
    let turned = matches!(weave, Weave::Slant(_) | Weave::Cross(_)).then_some("rotate(45)");
    html! {
        pattern id=(id) width=(n(apart)) height=(n(apart)) patternUnits="userSpaceOnUse"
            patternTransform=[turned] {
            rect width=(n(apart)) height=(n(apart)) fill=(ground.css()) {}
            @match weave {
                Weave::Plain => {}
                Weave::Bubbles => {
                    circle cx="3" cy="3" r="1.5" fill="none" stroke=(ink) stroke-width="0.6" {}
                    circle cx="7.6" cy="7.4" r="1" fill="none" stroke=(ink) stroke-width="0.6" {}
                }
                Weave::Dots(_) => { circle cx=(n(half)) cy=(n(half)) r="0.8" fill=(ink) {} }
                Weave::Slant(_) => {
                    rect x=(n(half - 0.35)) width="0.7" height=(n(apart)) fill=(ink) {}
                }
                Weave::Cross(_) => {
                    rect x=(n(half - 0.35)) width="0.7" height=(n(apart)) fill=(ink) {}
                    rect y=(n(half - 0.35)) height="0.7" width=(n(apart)) fill=(ink) {}
                }
            }
        }
    }
}

/// A reference to a pattern.
pub fn fill(id: &str) -> String {
    format!("url(#{id})")
}
