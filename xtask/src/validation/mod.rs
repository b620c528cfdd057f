//! The page that holds the simulator against the world: what others found, what is found here, the miss.

pub mod bread;
pub mod doughs;
pub mod fronts;
pub mod grid;
pub mod life;
pub mod misses;
pub mod numbers;
pub mod page;
pub mod relations;
pub mod rows;
pub mod solids;

use std::path::Path;

/// The page.
pub const PAGE: &str = "docs/validation.md";

/// Writes the page anew.
///
/// # Errors
/// When it cannot be written.
pub fn write(root: &Path) -> Result<String, String> {
    let found = page::Found::new();
    let path = root.join(PAGE);
    let before = std::fs::read_to_string(&path).unwrap_or_default();
    let now = page::page(&found);
    std::fs::write(&path, &now).map_err(|e| format!("{}: {e}", path.display()))?;
    let old: Vec<&str> = before.lines().collect();
    let moved = now.lines().filter(|line| !old.contains(line));
    let mut said = format!("{PAGE} is written; lines that are new or moved:\n");
    for line in moved {
        said.push_str(&format!("  {line}\n"));
    }
    Ok(said)
}
