//! The page that counts how pasted recipes are understood: each section is made from its cases.

pub mod cases;
pub mod file;
pub mod lines;
pub mod texts;
pub mod told;

use std::path::Path;

/// The page.
pub const PAGE: &str = "docs/import.md";

/// The headings of the sections; each reaches to the next heading of its rank or the end.
const LINES: &str = "## Ingredient lines\n";
const TEXTS: &str = "## Whole texts\n";
const SENTENCES: &str = "## Recipes told in sentences\n";

/// Writes the sections anew.
///
/// # Errors
/// When a file cannot be read or written, or a case has not its form.
pub fn write(root: &Path) -> Result<String, String> {
    let path = root.join(PAGE);
    let page = std::fs::read_to_string(&path).unwrap_or_else(|_| empty());
    let current = with_told(root, &with_texts(root, &with_lines(root, &page)?)?)?;
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

/// The page with its section of recipes told in sentences made anew.
///
/// # Errors
/// When the cases cannot be read, or the page has lost its marks.
pub fn with_told(root: &Path, page: &str) -> Result<String, String> {
    between(
        page,
        SENTENCES,
        &told::section(&told::score(&root.join(told::TOLD))?),
    )
}

/// The page with the section of that heading made anew.
fn between(page: &str, heading: &str, section: &str) -> Result<String, String> {
    let start = page
        .find(heading)
        .ok_or_else(|| format!("the page has lost its heading {heading}"))?;
    let after = start + heading.len();
    let end = page[after..]
        .find("\n## ")
        .map_or(page.len(), |at| after + at + 1);
    let gap = if end == page.len() { "" } else { "\n" };
    Ok(format!("{}{section}{gap}{}", &page[..start], &page[end..]))
}

fn empty() -> String {
    format!(
        "# How pasted recipes are understood\n\n\
         Counted from the cases in `tests/suite/import/`, which were written by somebody who had not \
         seen the reader. Made by `cargo run -p xtask -- import-table`.\n\n{LINES}\n{TEXTS}\n{SENTENCES}"
    )
}
