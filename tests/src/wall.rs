//! The wall bites: every marked line of `tests/wall` is barred below `app`, and `app` keeps what guards the bits.

use everyoven_tests::tree::{root, target};
use std::collections::BTreeSet;
use std::process::Command;

/// Line numbers and names that clippy bars in the fixture under the given crate folder's file.
fn barred(conf: &str, folder: &str) -> BTreeSet<(usize, String)> {
    let out = Command::new(env!("CARGO"))
        .args([
            "clippy",
            "--offline",
            "--locked",
            "--message-format",
            "short",
        ])
        .arg("--manifest-path")
        .arg(root().join("tests/wall/Cargo.toml"))
        .arg("--target-dir")
        .arg(target().join("wall").join(folder))
        .env("CLIPPY_CONF_DIR", root().join(conf))
        .env_remove("RUSTFLAGS")
        .output()
        .expect("cargo clippy starts");
    let said = String::from_utf8_lossy(&out.stderr).into_owned();
    assert!(
        out.status.success(),
        "clippy could not judge the fixture:\n{said}"
    );
    assert!(
        !said.contains("does not refer to"),
        "{conf}/clippy.toml names what is not there:\n{said}"
    );
    said.lines()
        .filter_map(|line| {
            let (place, rest) = line.split_once(": warning: use of a disallowed ")?;
            let number = place.split(':').nth(1)?.parse().ok()?;
            Some((number, rest.split('`').nth(1)?.to_owned()))
        })
        .collect()
}

/// Line numbers and names that the fixture's own marks promise.
fn marked(sorts: &[&str]) -> BTreeSet<(usize, String)> {
    let text = std::fs::read_to_string(root().join("tests/wall/src/lib.rs")).expect("fixture");
    text.lines()
        .enumerate()
        .filter_map(|(index, line)| {
            let (sort, name) = line.split_once("// bars: ")?.1.split_once(' ')?;
            sorts.contains(&sort).then(|| (index + 1, name.to_owned()))
        })
        .collect()
}

#[test]
fn below_app_every_marked_line_is_barred_and_no_other() {
    let promised = marked(&["world", "bits"]);
    assert!(promised.len() > 20, "the fixture has lost its marks");
    assert_eq!(barred("crates", "core"), promised);
}

#[test]
fn in_app_the_world_is_free_and_the_bits_stay_guarded() {
    assert_eq!(barred("crates/app", "app"), marked(&["bits"]));
}

/// The second half of the wall and the app's file name the same things.
#[test]
fn the_app_repeats_every_ban_that_guards_the_bits() {
    let names = |file: &str, key: &str| -> BTreeSet<String> {
        let text = std::fs::read_to_string(root().join(file)).expect("clippy.toml");
        let table: toml::Table = text.parse().expect("TOML");
        let list = table
            .get(key)
            .and_then(toml::Value::as_array)
            .cloned()
            .unwrap_or_default();
        list.iter()
            .map(|entry| {
                assert!(
                    entry["reason"].as_str().is_some_and(|r| !r.is_empty()),
                    "{entry:?} has no reason"
                );
                entry["path"].as_str().expect("path").to_owned()
            })
            .collect()
    };
    for key in ["disallowed-methods", "disallowed-types"] {
        let wall = names("crates/clippy.toml", key);
        let app = names("crates/app/clippy.toml", key);
        let guards = |name: &String| {
            ["f64::", "f32::", "std::collections::", "std::hash::"]
                .iter()
                .any(|p| name.starts_with(p))
        };
        assert_eq!(
            wall.into_iter().filter(guards).collect::<BTreeSet<_>>(),
            app,
            "{key}"
        );
    }
}
