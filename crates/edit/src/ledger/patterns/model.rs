//! A pattern as plain values: what is cut, folded and marked, in millimetres, with its figures.

use crate::ledger::model::Fact;
use numerics::flat::Point;

/// What a pattern is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PatternKind {
    /// Baking paper for a tin.
    Lining,
    /// Dough rolled out, or pieces on a tray.
    Dough,
    /// A wreath: outer and inner circle.
    Ring,
    /// Strips for a straight jar in which a piece of the dough rises.
    Level,
}

impl PatternKind {
    /// Every kind.
    pub const ALL: [Self; 4] = [Self::Lining, Self::Dough, Self::Ring, Self::Level];

    /// Short word to ask for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Lining => "lining",
            Self::Dough => "dough",
            Self::Ring => "ring",
            Self::Level => "level",
        }
    }
}

/// Every pattern of a recipe, and why a kind has none.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Patterns {
    /// The patterns, linings first.
    pub drawn: Vec<Pattern>,
    /// A kind without any pattern here and one sentence why.
    pub left_out: Vec<(PatternKind, String)>,
}

impl Patterns {
    /// The patterns of one kind.
    pub fn of(&self, kind: PatternKind) -> impl Iterator<Item = &Pattern> {
        self.drawn
            .iter()
            .filter(move |pattern| pattern.kind == kind)
    }

    /// Why a kind has none; none when it has one.
    pub fn why_none(&self, kind: PatternKind) -> Option<&str> {
        let (_, why) = self.left_out.iter().find(|(left, _)| *left == kind)?;
        Some(why)
    }
}

/// One thing at its true size.
#[derive(Clone, Debug, PartialEq)]
pub struct Pattern {
    /// What it is for.
    pub kind: PatternKind,
    /// "Lining for the loaf tin".
    pub title: String,
    /// "for the braid".
    pub of: String,
    /// Its lengths as they are printed: "Base", "199 × 97 mm / 7⅞ × 3⅞ in".
    pub lengths: Vec<Fact>,
    /// The sheets of paper it is cut from; each is drawn by itself.
    pub parts: Vec<Part>,
    /// What to do with it, in order.
    pub steps: Vec<String>,
    /// What was assumed, and what to mind.
    pub notes: Vec<String>,
}

/// One piece of paper with what is drawn on it; its corner is the top left one.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// "Base", "Wall"; empty when there is one part alone.
    pub name: String,
    /// What the drawing shows, for whoever cannot see it.
    pub alt: String,
    /// Width, mm.
    pub width_mm: f64,
    /// Height, mm.
    pub height_mm: f64,
    /// Lines.
    pub strokes: Vec<Stroke>,
    /// Words on the drawing.
    pub words: Vec<Word>,
}

/// What a line means; each is drawn in its own way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Line {
    /// Cut along it.
    Cut,
    /// Fold along it.
    Fold,
    /// The edge of dough or tin.
    Edge,
    /// A scale's tick.
    Scale,
    /// Something to go by: the rim's height, the middle of a piece.
    Guide,
}

impl Line {
    /// The word by which a drawing knows it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Fold => "fold",
            Self::Edge => "edge",
            Self::Scale => "scale",
            Self::Guide => "guide",
        }
    }
}

/// A line through points, mm from the part's corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// What it means.
    pub line: Line,
    /// Its points.
    pub points: Vec<Point>,
    /// Whether it comes back to its beginning.
    pub closed: bool,
}

/// Words whose middle stands at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Word {
    /// Where the middle stands, mm from the part's corner.
    pub at: Point,
    /// What is printed.
    pub text: String,
    /// Height of its type, points.
    pub size_pt: f64,
    /// Turned by a quarter, to be read from the right.
    pub upright: bool,
}

impl Part {
    /// An empty sheet.
    pub fn new(name: &str, alt: String, width_mm: f64, height_mm: f64) -> Self {
        Self {
            name: name.to_owned(),
            alt,
            width_mm,
            height_mm,
            strokes: Vec::new(),
            words: Vec::new(),
        }
    }

    /// Adds a line through points.
    pub fn line(&mut self, line: Line, points: Vec<Point>) {
        self.strokes.push(Stroke {
            line,
            points,
            closed: false,
        });
    }

    /// Adds a closed line.
    pub fn closed(&mut self, line: Line, points: Vec<Point>) {
        self.strokes.push(Stroke {
            line,
            points,
            closed: true,
        });
    }

    /// Adds a rectangle by two corners.
    pub fn rectangle(&mut self, line: Line, from: Point, to: Point) {
        let points = vec![from, (to.0, from.1), to, (from.0, to.1)];
        self.closed(line, points);
    }

    /// Adds a whole circle.
    pub fn circle(&mut self, line: Line, centre: Point, radius: f64) {
        let mut points = numerics::flat::arc(centre, radius, 0.0, 2.0 * std::f64::consts::PI);
        points.pop();
        self.closed(line, points);
    }

    /// Adds a small cross at a place.
    pub fn cross(&mut self, at: Point, arm: f64) {
        self.line(Line::Guide, vec![(at.0 - arm, at.1), (at.0 + arm, at.1)]);
        self.line(Line::Guide, vec![(at.0, at.1 - arm), (at.0, at.1 + arm)]);
    }

    /// Adds words about a place.
    pub fn word(&mut self, at: Point, size_pt: f64, text: impl Into<String>) {
        self.words.push(Word {
            at,
            text: text.into(),
            size_pt,
            upright: false,
        });
    }
}
