//! What the peers say: each script is asked with a problem, or asked nothing.

use everyoven_tests::tree::root;
use serde_json::Value;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::OnceLock;

/// The answer of `tests/peers/specific_heats.py`.
pub fn coolprop() -> &'static Value {
    static HEARD: OnceLock<Value> = OnceLock::new();
    HEARD.get_or_init(|| ask("specific_heats.py", None))
}

/// The answer of a script in `tests/peers/` to a problem on its standard input.
pub fn ask(script: &str, problem: Option<&Value>) -> Value {
    let peers = root().join("tests/peers");
    let mut running = program(script)
        .arg(peers.join(script))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| panic!("{script} does not start: {error}"));
    let mut stdin = running.stdin.take().expect("a pipe");
    if let Some(problem) = problem {
        // A script that stops early says why on its standard error.
        let _ = stdin.write_all(problem.to_string().as_bytes());
    }
    drop(stdin);
    let out = running.wait_with_output().expect("it ends");
    let said = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "{script} failed:\n{said}");
    serde_json::from_slice(&out.stdout).expect("JSON")
}

/// What runs a script: node, or the Python of the peers.
fn program(script: &str) -> Command {
    if Path::new(script)
        .extension()
        .is_some_and(|end| end == "mjs")
    {
        return Command::new("node");
    }
    let python = root().join("tests/peers/.venv/bin/python");
    assert!(
        python.exists(),
        "the Python peers are not installed; this installs them: \
         python3 -m venv tests/peers/.venv && \
         tests/peers/.venv/bin/pip install -r tests/peers/requirements.txt"
    );
    Command::new(python)
}
