//! The page that counts how pasted recipes are understood: each section is made from its cases.

pub mod cases;
pub mod lines;
pub mod texts;

use std::path::Path;

/// The page.
pub const PAGE: &str = "docs/import.md";

/// Where the section of ingredient lines begins and ends on the page.
const LINES: [&str; 2] = [
    "<!-- ingredient lines -->",
    "<!-- end of ingredient lines -->",
];

/// Where the section of whole texts begins and ends on the page.
const TEXTS: [&str; 2] = ["<!-- whole texts -->", "<!-- end of whole texts -->"];

/// Writes the sections anew.
///
/// # Errors
/// When a file cannot be read or written, or a case has not its form.
pub fn write(root: &Path) -> Result<String, String> {
    let path = root.join(PAGE);
    let page = std::fs::read_to_string(&path).unwrap_or_else(|_| empty());
    let current = with_texts(root, &with_lines(root, &page)?)?;
    std::fs::write(&path, &current).map_err(|e| format!("{}: {e}", path.display()))?;
    Ok(format!("{PAGE} is written"))
}

/// The page with its section of ingredient lines made anew.
///
/// # Errors
/// When the cases cannot be read, or the page has lost its marks.
pub fn with_lines(root: &Path, page: &str) -> Result<String, String> {
    between(
        page,
        LINES,
        &lines::section(&lines::score(&root.join(lines::CASES))?),
    )
}

/// The page with its section of whole texts made anew.
///
/// # Errors
/// When the cases cannot be read, or the page has lost its marks.
pub fn with_texts(root: &Path, page: &str) -> Result<String, String> {
    between(
        page,
        TEXTS,
        &texts::section(&texts::score(&root.join(texts::RECIPES))?),
    )
}

/// The page with a section between its two marks.
fn between(page: &str, [open, close]: [&str; 2], section: &str) -> Result<String, String> {
    let lost = |mark| format!("the page has lost its mark {mark}");
    let start = page.find(open).ok_or_else(|| lost(open))?;
    let end = page.find(close).ok_or_else(|| lost(close))?;
    Ok(format!(
        "{}{open}\n\n{section}\n{}",
        &page[..start],
        &page[end..]
    ))
}

fn empty() -> String {
    format!(
        "# How pasted recipes are understood\n\n\
         Counted from the cases in `tests/suite/import/`, which were written by somebody who had not \
         seen the reader. Made by `cargo run -p xtask -- import-table`.\n\n{}\n{}\n\n{}\n{}\n",
        LINES[0], LINES[1], TEXTS[0], TEXTS[1]
    )
}
