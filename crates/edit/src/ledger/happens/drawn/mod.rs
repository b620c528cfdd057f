//! What is drawn of a day, a bake and a piece: the strings that are printed, and where things stand as shares of a drawing.

mod day;
mod oven;
mod section;

pub use day::{DayDrawing, DayRow, DayStep, Jar, Stands, Window};
pub use oven::{BakeDrawing, Band, Drawn, Line, Tick};
pub use section::{Key, Run, SectionDrawing, View, Warmth};

use super::Happens;
use crate::Inputs;
use bake::simulate::Course;

/// Everything that is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawings {
    /// The day, running down.
    pub day: DayDrawing,
    /// Each product's bake.
    pub bakes: Vec<BakeDrawing>,
    /// Each product cut through, at chosen minutes.
    pub sections: Vec<SectionDrawing>,
}

/// What is drawn of a course; `happens`: the same course as it is said.
pub fn drawn(inputs: &Inputs, course: &Course, happens: &Happens) -> Drawings {
    let pieces = || course.doughs.iter().filter(|dough| dough.piece);
    Drawings {
        day: day::day(inputs, course, happens),
        bakes: pieces()
            .filter_map(|piece| oven::bake(inputs, course, happens, piece))
            .collect(),
        sections: pieces()
            .filter_map(|piece| section::section(course, happens, piece))
            .collect(),
    }
}
