//! What `CoolProp` says, asked once.

use everyoven_tests::tree::root;
use serde_json::Value;
use std::process::Command;
use std::sync::OnceLock;

/// The answer of `tests/peers/specific_heats.py`.
pub fn coolprop() -> &'static Value {
    static HEARD: OnceLock<Value> = OnceLock::new();
    HEARD.get_or_init(|| {
        let peers = root().join("tests/peers");
        let python = peers.join(".venv/bin/python");
        assert!(
            python.exists(),
            "CoolProp is not installed; this installs it: \
             python3 -m venv tests/peers/.venv && \
             tests/peers/.venv/bin/pip install -r tests/peers/requirements.txt"
        );
        let out = Command::new(&python)
            .arg(peers.join("specific_heats.py"))
            .output()
            .expect("Python starts");
        let said = String::from_utf8_lossy(&out.stderr);
        assert!(out.status.success(), "specific_heats.py failed:\n{said}");
        serde_json::from_slice(&out.stdout).expect("JSON")
    })
}
