//! Answers for the terminal: 80 columns, the measured things in a column of their own to the right.

mod formula;
mod mix;

pub use formula::formula;
pub use mix::mix;

/// Columns of a terminal.
pub const COLUMNS: usize = 80;

/// What a published file is, for the line that lists it.
pub fn file_line(name: &str, bytes: usize) -> String {
    let what = match name {
        "index.html" => "the page",
        "card-a5.pdf" => "print card, A5",
        "bench-a4.pdf" => "bench sheet, A4",
        "recipe.jsonld" => "structured data",
        "recipe.toml" => "the recipe itself",
        "recipe.txt" => "plain text",
        _ => "photograph",
    };
    let size = bytes.div_ceil(1024);
    format!("  {name:<14} {what:<18} {size:>5} kB\n")
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
