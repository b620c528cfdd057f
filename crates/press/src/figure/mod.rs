//! Figures that stand alone: a day running down the page, a bake over its minutes, a piece cut through.
//!
//! Each is one SVG with presentation attributes and no style sheet, as wide as a telephone, in black on
//! white with every colour doubled by a pattern or a word.

mod day;
mod oven;
mod section;
mod svg;

use edit::ledger::happens::drawn::Drawings;
use edit::ledger::kebab;

/// A figure, ready to be written.
pub struct Figure {
    /// Its file name: `day.svg`, `bake-braid.svg`, `cut-braid.svg`.
    pub name: String,
    /// What it is.
    pub what: &'static str,
    /// The drawing.
    pub svg: String,
}

/// Every figure of a recipe in one kitchen.
pub fn figures(drawings: &Drawings) -> Vec<Figure> {
    let mut all = vec![Figure {
        name: "day.svg".to_owned(),
        what: "the day, running down",
        svg: day::day(&drawings.day),
    }];
    all.extend(drawings.bakes.iter().map(|bake| Figure {
        name: file("bake", &bake.of),
        what: "the bake over its minutes",
        svg: oven::bake(bake),
    }));
    all.extend(drawings.sections.iter().map(|section| Figure {
        name: file("cut", &section.of),
        what: "the piece cut through",
        svg: section::section(section),
    }));
    all
}

fn file(what: &str, of: &str) -> String {
    format!("{what}-{}.svg", kebab(of).replace('.', "-"))
}
