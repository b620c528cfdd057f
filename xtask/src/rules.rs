//! The page of the editor's rules, written from their table.

use std::path::Path;

/// Where the page stands.
pub const PAGE: &str = "docs/rules.md";

/// Writes it.
///
/// # Errors
/// When the page cannot be written.
pub fn write(root: &Path) -> Result<String, String> {
    std::fs::write(root.join(PAGE), edit::book::markdown())
        .map_err(|fault| format!("{PAGE}: {fault}"))?;
    Ok(format!("{PAGE} is written"))
}
