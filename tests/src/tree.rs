//! The project's own files: their paths from the root, and their text.

use std::fs;
use std::path::{Path, PathBuf};

/// Folders that hold what was built or fetched, not what was written.
const NOT_OURS: &[&str] = &[
    "target",
    "node_modules",
    ".venv",
    ".git",
    "out",
    "__pycache__",
];

/// The root of the project.
///
/// # Panics
/// When the tests were built in a folder that is gone.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("tests stands in the root")
        .to_path_buf()
}

/// Where cargo puts what it builds.
pub fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), PathBuf::from)
}

/// Every file under `folder` (from the root), as paths from the root with `/`, in order.
///
/// # Panics
/// When a folder cannot be read.
pub fn files(folder: &str) -> Vec<String> {
    let mut found = Vec::new();
    let top = root();
    let start = top.join(folder);
    if start.is_dir() {
        walk(&top, &start, &mut found);
    }
    found.sort();
    found
}

fn walk(top: &Path, folder: &Path, found: &mut Vec<String>) {
    for entry in fs::read_dir(folder).expect("a folder of the project") {
        let path = entry.expect("an entry").path();
        let name = path
            .file_name()
            .and_then(|n| n.to_str())
            .unwrap_or_default();
        if NOT_OURS.contains(&name) {
            continue;
        }
        if path.is_dir() {
            walk(top, &path, found);
        } else if let Ok(rest) = path.strip_prefix(top) {
            found.push(rest.to_string_lossy().replace('\\', "/"));
        }
    }
}

/// The files under `folder` whose name ends in `ending`.
pub fn ending(folder: &str, ending: &str) -> Vec<String> {
    let mut found = files(folder);
    found.retain(|path| path.ends_with(ending));
    found
}

/// Fails with every fault on a line of its own, so that one run shows all of them.
///
/// # Panics
/// When there is a fault.
pub fn none(rule: &str, faults: &[String]) {
    assert!(faults.is_empty(), "{rule}:\n  {}", faults.join("\n  "));
}

/// The text of a file; none when it is not UTF-8.
///
/// # Panics
/// When the file cannot be read.
pub fn text(path: &str) -> Option<String> {
    let bytes = fs::read(root().join(path)).unwrap_or_else(|e| panic!("{path}: {e}"));
    String::from_utf8(bytes).ok()
}
