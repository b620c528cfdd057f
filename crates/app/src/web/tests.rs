//! The pages asked for without a network.

use std::path::PathBuf;

/// A fresh folder for one test.
pub fn folder(name: &str) -> PathBuf {
    let path = std::env::temp_dir().join(format!("everyoven-web-{name}-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&path);
    std::fs::create_dir_all(&path).expect("a folder for the test");
    path
}
