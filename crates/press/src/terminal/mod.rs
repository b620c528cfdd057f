//! Answers for the terminal: 80 columns, the measured things in a column of their own to the right.

mod advice;
mod answers;
mod day;
#[cfg(feature = "pdf")]
mod figures;
mod formula;
mod happens;
mod import;
mod label;
mod learnt;
mod mix;
mod others;
mod shoot;
mod shopping;
mod talk;
mod timetable;
mod variant;

pub use advice::advice;
pub use answers::{answer, paragraph, questions};
pub use day::day;
#[cfg(feature = "pdf")]
pub use figures::figures;
pub use formula::formula;
pub use happens::happens;
pub use import::{import, reading, said};
pub use label::{cost, label};
pub use learnt::{kept, learnt};
pub use mix::mix;
pub use others::{others, reader};
pub use shoot::shoot;
pub use shopping::shopping;
pub use talk::{line_of, talk};
pub use timetable::timetable;
pub use variant::variant;

/// Columns of a terminal.
pub const COLUMNS: usize = 80;

/// A published file, its size and what it is, for the line that lists it.
pub fn file_line(name: &str, what: &str, bytes: usize) -> String {
    let size = bytes.div_ceil(1024);
    format!("  {name:<33} {size:>4} kB  {what}\n")
}

/// A paper that a recipe has nothing for, and why.
pub fn left_out(words: &str, why: &str) -> String {
    let mut text = format!("  not made: {words}\n");
    for line in crate::text::wrap::wrap(why, COLUMNS - 4) {
        text.push_str("    ");
        text.push_str(&crate::line::plain(&line));
        text.push('\n');
    }
    text
}

/// Left text and right text on one line of so many columns; two lines when they do not fit.
fn two_ends(left: &str, right: &str, columns: usize) -> String {
    let (l, r) = (left.chars().count(), right.chars().count());
    if r == 0 {
        return format!("{left}\n");
    }
    if l + 2 + r > columns {
        return format!("{left}\n{right:>columns$}\n");
    }
    format!("{left}{}{right}\n", " ".repeat(columns - l - r))
}

/// Right-aligned in a column.
fn right(text: &str, columns: usize) -> String {
    format!(
        "{}{text}",
        " ".repeat(columns.saturating_sub(text.chars().count()))
    )
}

/// Left-aligned in a column.
fn left(text: &str, columns: usize) -> String {
    format!(
        "{text}{}",
        " ".repeat(columns.saturating_sub(text.chars().count()))
    )
}
