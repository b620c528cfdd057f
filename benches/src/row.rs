//! One row of the table of targets: what was timed, what was aimed at, what was seen, and its peer in the same run.

use std::fmt;

/// What a program of timings prints before each row, so that `every` finds it among what else it says.
pub const MARK: &str = "target ";

/// A row; written after [`MARK`] with strokes between its cells, as Markdown has them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What was timed, with its demo.
    pub what: String,
    /// What was aimed at, empty when nothing was.
    pub aim: String,
    /// What was seen.
    pub seen: String,
    /// The peer and what it took; empty where nothing comparable is known.
    pub peer: String,
}

impl Row {
    /// From its four cells.
    pub fn new(
        what: impl Into<String>,
        aim: impl Into<String>,
        seen: impl Into<String>,
        peer: impl Into<String>,
    ) -> Self {
        Self {
            what: what.into(),
            aim: aim.into(),
            seen: seen.into(),
            peer: peer.into(),
        }
    }

    /// The row in a line that a program printed, if it is one.
    pub fn of_line(line: &str) -> Option<Self> {
        let cells: Vec<&str> = line
            .strip_prefix(MARK)?
            .trim()
            .trim_matches('|')
            .split('|')
            .map(str::trim)
            .collect();
        let [what, aim, seen, peer] = cells[..] else {
            return None;
        };
        Some(Self::new(what, aim, seen, peer))
    }

    /// Prints it for `every`.
    pub fn tell(&self) {
        println!("{MARK}{self}");
    }
}

impl fmt::Display for Row {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            what,
            aim,
            seen,
            peer,
        } = self;
        write!(f, "| {what} | {aim} | {seen} | {peer} |")
    }
}

/// Seconds in the unit that reads best: "41 ms", "6.5 s", "11 µs".
pub fn said_s(seconds: f64) -> String {
    let (value, unit) = if seconds >= 1.0 {
        (seconds, "s")
    } else if seconds >= 1e-3 {
        (1e3 * seconds, "ms")
    } else {
        (1e6 * seconds, "µs")
    };
    if value >= 10.0 {
        format!("{value:.0} {unit}")
    } else {
        format!("{value:.1} {unit}")
    }
}

#[cfg(test)]
mod tests {
    use super::{MARK, Row, said_s};

    #[test]
    fn a_row_is_found_again_in_what_was_printed() {
        let row = Row::new("start", "30 ms", "2.5 ms", "");
        assert_eq!(Row::of_line(&format!("{MARK}{row}")), Some(row));
        assert_eq!(Row::of_line("| start | 30 ms | 2.5 ms | |"), None);
        assert_eq!(Row::of_line("target of three | a | b |"), None);
    }

    #[test]
    fn seconds_are_said_in_the_unit_that_reads_best() {
        assert_eq!(said_s(6.52), "6.5 s");
        assert_eq!(said_s(0.0412), "41 ms");
        assert_eq!(said_s(11.4e-6), "11 µs");
    }
}
