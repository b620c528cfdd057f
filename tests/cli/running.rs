//! What the tests of the terminal share: the program as `cargo build` made it, a folder of one's own, words of an answer.

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::atomic::{AtomicUsize, Ordering};

/// The project's folder.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("tests/ lies in the project")
        .to_owned()
}

/// The program that `cargo build` made beside the tests.
pub fn program() -> PathBuf {
    let exe = std::env::current_exe().expect("a test knows its own path");
    let folder = exe.parent().and_then(Path::parent).expect("target/debug");
    let program = folder.join("everyoven");
    assert!(
        program.exists(),
        "{} is not built: run `cargo build`",
        program.display()
    );
    program
}

/// It, to be run in the project's folder.
pub fn everyoven() -> Command {
    let mut command = Command::new(program());
    command.current_dir(root());
    command
}

/// What it answers to so many words.
pub fn run(arguments: &[&str]) -> Output {
    everyoven()
        .args(arguments)
        .output()
        .expect("the program starts")
}

/// What it printed.
pub fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// A fresh folder for one test.
pub fn folder(name: &str) -> PathBuf {
    static NEXT: AtomicUsize = AtomicUsize::new(0);
    let own = NEXT.fetch_add(1, Ordering::Relaxed);
    let name = format!("everyoven-{name}-{}-{own}", std::process::id());
    let path = std::env::temp_dir().join(name);
    let _ = std::fs::remove_dir_all(&path);
    std::fs::create_dir_all(&path).expect("a folder for the test");
    path
}

/// The entries of a list in JSON.
pub fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

/// A text in JSON.
pub fn word(value: &Value) -> &str {
    value.as_str().unwrap_or_default()
}

/// With one plain space wherever there is space, so that lines and columns do not matter.
pub fn squeezed(text: &str) -> String {
    let plain = text.replace(['\u{a0}', '\u{202f}'], " ");
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}
