//! A log of bakes in one kitchen, as written: on which day, and what was read in which step.

use crate::source::{Located, Span};
use jiff::civil::Date;
use numerics::quantity::{Duration, Fraction, Temperature};

/// A log.
#[derive(Clone, Debug, PartialEq)]
pub struct LogFile {
    /// Version of the file format.
    pub format: i64,
    /// Of what, in the cook's words.
    pub name: Located<String>,
    /// The bakes, in written order.
    pub bakes: Vec<LogBake>,
}

/// One bake.
#[derive(Clone, Debug, PartialEq)]
pub struct LogBake {
    /// The day.
    pub on: Located<Date>,
    /// Air of the room that day; the kitchen's when left out.
    pub room: Option<Located<Temperature>>,
    /// What was read.
    pub readings: Vec<LogReading>,
    /// Where it stands.
    pub span: Span,
}

/// One reading.
#[derive(Clone, Debug, PartialEq)]
pub struct LogReading {
    /// Number of the step on the page.
    pub step: Located<i64>,
    /// How long after the step began; for how long it lasted, that.
    pub after: Duration,
    /// What.
    pub what: Logged,
    /// Read with a thermometer with a dial, and not with a probe.
    pub dial: bool,
    /// Where it stands.
    pub span: Span,
}

/// What was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Logged {
    /// The middle of the dough or bread.
    Inside(Temperature),
    /// The air where it stands.
    Air(Temperature),
    /// So many times its volume at the step's beginning.
    Grown(f64),
    /// The sign is there.
    There,
    /// The sign is not there yet.
    NotYet,
    /// Share of the raw mass lost.
    Lost(Fraction),
    /// The step was ended by the clock after so long.
    Lasted,
}
