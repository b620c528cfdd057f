//! Figures that stand alone: a day running down the page, a bake over its minutes, a piece cut through.
//!
//! Each is one SVG with presentation attributes and no style sheet, as wide as a telephone, in black on
//! white with every colour doubled by a pattern or a word.

mod day;
mod gantt;
mod others;
mod oven;
mod section;
mod svg;

use edit::ledger::happens::drawn::Drawings;
use edit::ledger::kebab;
use edit::ledger::others::Others;

pub use gantt::{gantt, gantt_on};

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

/// The figures of a recipe in other kitchens.
pub fn of_others(found: &Others) -> Vec<Figure> {
    let mut all = vec![Figure {
        name: "other-kitchens.svg".to_owned(),
        what: "all kitchens, well or lost to what",
        svg: others::strip(found),
    }];
    if !found.drawn.decides.is_empty() {
        all.push(Figure {
            name: "what-decides.svg".to_owned(),
            what: "what decides it",
            svg: others::decides(found),
        });
    }
    if !found.drawn.times.is_empty() {
        all.push(Figure {
            name: "stated-times.svg".to_owned(),
            what: "stated times beside what is written",
            svg: others::times(found),
        });
    }
    all
}

fn file(what: &str, of: &str) -> String {
    format!("{what}-{}.svg", kebab(of).replace('.', "-"))
}
