//! THIRD-PARTY.md: under what terms everything built into the program may be used.

mod expression;
mod folder;
mod page;
mod shipped;

pub use expression::alternatives;
pub use page::listed;
pub use shipped::shipped;

use folder::Notice;
use std::path::Path;
use std::process::Command;

/// The page of notices, from the root.
pub const PAGE: &str = "THIRD-PARTY.md";

/// Writes the page anew and says how many packages it lists.
///
/// # Errors
/// When cargo cannot say where the packages are, or one of them gives no terms at all.
pub fn write(root: &Path) -> Result<String, String> {
    let shipped = shipped(root)?;
    let out = Command::new("cargo")
        .args(["metadata", "--format-version", "1", "--locked"])
        .current_dir(root)
        .output()
        .map_err(|e| format!("cargo metadata: {e}"))?;
    if !out.status.success() {
        return Err(String::from_utf8_lossy(&out.stderr).into_owned());
    }
    let metadata: serde_json::Value =
        serde_json::from_slice(&out.stdout).map_err(|e| format!("cargo metadata: {e}"))?;
    let mut notices = Vec::new();
    for package in metadata["packages"].as_array().into_iter().flatten() {
        let word = |key: &str| package[key].as_str().unwrap_or_default().to_owned();
        if shipped.contains(&(word("name"), word("version"))) {
            notices.push(Notice::read(package)?);
        }
    }
    notices.sort_by(|a, b| (&a.name, &a.version).cmp(&(&b.name, &b.version)));
    if notices.len() != shipped.len() {
        return Err(format!(
            "{} packages in Cargo.lock, {} found",
            shipped.len(),
            notices.len()
        ));
    }
    let (page, texts) = page::page(&notices);
    std::fs::write(root.join(PAGE), &page).map_err(|e| format!("{PAGE}: {e}"))?;
    Ok(format!(
        "{PAGE}: {} packages, {texts} texts, {} kB",
        notices.len(),
        page.len() / 1000
    ))
}
