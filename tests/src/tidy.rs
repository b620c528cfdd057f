//! The house rules about files that a machine can hold: imports, lints, names, lengths, banned text.

use everyoven_tests::tree::{ending, files, none, root, text};

/// The line: each crate with what it may take from outside. It may import the crates before it.
const LINE: &[(&str, &[&str])] = &[
    ("numerics", &["libm", "sobol_burley"]),
    (
        "recipe",
        &[
            "csv",
            "jiff",
            "serde",
            "serde_json",
            "strsim",
            "toml",
            "toml_edit",
        ],
    ),
    ("bake", &[]),
    (
        "plan",
        &[
            "jiff",
            "pumpkin-conflict-resolvers",
            "pumpkin-constraints",
            "pumpkin-core",
        ],
    ),
    ("edit", &["csv", "jiff", "serde", "strsim"]),
    (
        "press",
        &[
            "maud",
            "resvg",
            "serde",
            "serde_json",
            "typst",
            "typst-assets",
            "typst-layout",
            "typst-pdf",
            "typst-svg",
        ],
    ),
    (
        "app",
        &[
            "annotate-snippets",
            "axum",
            "base64",
            "clap",
            "clap_complete",
            "clap_mangen",
            "futures-util",
            "jiff",
            "maud",
            "mimalloc",
            "rusqlite",
            "serde",
            "serde_json",
            "sha2",
            "tokio",
            "toml",
            "tower-http",
            "zip",
        ],
    ),
];

/// No file of ours is longer.
const LONGEST: usize = 450;

fn rust_files() -> Vec<String> {
    ending("", ".rs")
}

fn manifest(path: &str) -> toml::Table {
    text(path)
        .expect("UTF-8")
        .parse()
        .unwrap_or_else(|e| panic!("{path}: {e}"))
}

#[test]
fn each_crate_imports_only_those_before_it() {
    let mut faults = Vec::new();
    for (place, (name, outside)) in LINE.iter().enumerate() {
        let table = manifest(&format!("crates/{name}/Cargo.toml"));
        let before: Vec<&str> = LINE[..place].iter().map(|(n, _)| *n).collect();
        for key in table
            .get("dependencies")
            .and_then(toml::Value::as_table)
            .into_iter()
            .flat_map(|t| t.keys())
        {
            if !before.contains(&key.as_str()) && !outside.contains(&key.as_str()) {
                faults.push(format!("{name} imports {key}"));
            }
        }
        if table.contains_key("build-dependencies") || table.contains_key("target") {
            faults.push(format!(
                "{name} has dependencies that depend on the machine"
            ));
        }
    }
    none(
        "a crate may import those before it in the line and what its row allows",
        &faults,
    );
}

#[test]
fn every_crate_takes_the_house_lints_and_builds_without_a_script() {
    let mut faults = Vec::new();
    let workspace = manifest("Cargo.toml");
    if workspace["workspace"]["lints"]["rust"]["unsafe_code"].as_str() != Some("forbid") {
        faults.push("Cargo.toml no longer forbids unsafe code".to_owned());
    }
    for member in workspace["workspace"]["members"]
        .as_array()
        .expect("members")
    {
        let folder = member.as_str().expect("a path");
        let table = manifest(&format!("{folder}/Cargo.toml"));
        let lints = table
            .get("lints")
            .and_then(|l| l.get("workspace"))
            .and_then(toml::Value::as_bool);
        if lints != Some(true) {
            faults.push(format!("{folder} does not take the workspace's lints"));
        }
        if table["package"].get("build").is_some() || root().join(folder).join("build.rs").exists()
        {
            faults.push(format!("{folder} has a build script"));
        }
    }
    none(
        "lints come from the workspace, and no crate builds by a script",
        &faults,
    );
}

#[test]
fn every_file_says_in_its_first_line_what_it_knows() {
    let faults: Vec<String> = rust_files()
        .into_iter()
        .filter(|path| {
            let first = text(path).unwrap_or_default();
            !first
                .lines()
                .next()
                .is_some_and(|l| l.starts_with("//! ") && l.len() > 12)
        })
        .collect();
    none("the first line of a file is a `//!` sentence", &faults);
}

#[test]
fn nothing_below_app_steps_over_the_wall() {
    let mut faults = Vec::new();
    for path in ending("crates", ".rs") {
        if path.starts_with("crates/app/") {
            continue;
        }
        let body = text(&path).unwrap_or_default();
        for (index, line) in body.lines().enumerate() {
            let lifts =
                (line.contains("allow(") || line.contains("expect(")) && line.contains("clippy::");
            if lifts && (line.contains("clippy::disallowed") || line.contains("clippy::all")) {
                faults.push(format!("{path}:{}", index + 1));
            }
        }
    }
    none("the wall is not lifted below app", &faults);
}

#[test]
fn files_are_rooms_not_halls() {
    let mut long: Vec<(usize, String)> = rust_files()
        .into_iter()
        .map(|path| (text(&path).unwrap_or_default().lines().count(), path))
        .collect();
    long.sort_by(|a, b| b.cmp(a));
    let worst: Vec<String> = long
        .iter()
        .take(5)
        .map(|(n, p)| format!("{n} lines {p}"))
        .collect();
    let faults: Vec<String> = long
        .iter()
        .filter(|(n, _)| *n > LONGEST)
        .map(|(n, p)| format!("{n} lines {p}"))
        .collect();
    none(
        &format!(
            "no file is longer than {LONGEST} lines (longest now: {})",
            worst.join(", ")
        ),
        &faults,
    );
}

#[test]
fn no_file_is_named_after_nothing() {
    let faults: Vec<String> = rust_files()
        .into_iter()
        .filter(|path| {
            let parts: Vec<&str> = path.trim_end_matches(".rs").split('/').collect();
            parts.iter().any(|p| {
                [
                    "util", "utils", "helper", "helpers", "common", "manager", "misc",
                ]
                .contains(p)
            })
        })
        .collect();
    none("a module is named by a noun of its subject", &faults);
}

/// What no text of the project holds: places on one machine, addresses of package hosts, marks of
/// unfinished work. Written in two halves so that this list does not find itself.
const NEVER: &[(&str, &str)] = &[
    ("/ho", "me/"),
    ("/ro", "ot/"),
    ("/Use", "rs/"),
    ("/t", "mp/"),
    ("/wo", "rk/"),
    ("shar", "ed/"),
    ("issu", "e #"),
    ("crates", ".io/"),
    ("registry.npm", "js"),
    ("pythonhost", "ed.org"),
    ("pypi", ".org"),
    ("FIX", "ME"),
    ("XX", "X"),
    ("to", "do!("),
    ("unimple", "mented!("),
    ("#[ig", "nore"),
    ("this sess", "ion"),
    ("previous sess", "ion"),
];

#[test]
fn no_text_names_one_machine_a_package_host_or_unfinished_work() {
    let mut faults = Vec::new();
    for path in files("") {
        // Cargo writes its index's address into its lock file; licence texts are other people's.
        if path.ends_with("Cargo.lock") || path == "THIRD-PARTY.md" || path.starts_with("LICENSE") {
            continue;
        }
        let Some(body) = text(&path) else { continue };
        for (index, line) in body.lines().enumerate() {
            for (head, tail) in NEVER {
                if line.contains(&format!("{head}{tail}")) {
                    faults.push(format!("{path}:{}: {head}{tail}", index + 1));
                }
            }
            if path.ends_with("package-lock.json") && line.contains("://") {
                faults.push(format!("{path}:{}: an address", index + 1));
            }
        }
    }
    none("words that no file holds", &faults);
}

/// Cargo finds no test in this package by itself: one that `tests/Cargo.toml` does not name never runs.
#[test]
fn every_test_file_is_named_and_so_runs() {
    let table = manifest("tests/Cargo.toml");
    let named: Vec<&str> = table["test"]
        .as_array()
        .expect("tests")
        .iter()
        .filter_map(|test| test["path"].as_str())
        .collect();
    // What is named, and the files that it takes in as modules.
    let mut run: Vec<String> = named.iter().map(|path| format!("tests/{path}")).collect();
    let mut next = 0;
    while let Some(path) = run.get(next).cloned() {
        next += 1;
        let folder = path.rsplit_once('/').map_or("", |(folder, _)| folder);
        let own = path.trim_end_matches(".rs");
        let source = text(&path).unwrap_or_default();
        let mut elsewhere = None;
        for line in source.lines().map(str::trim) {
            let module = line.strip_prefix("pub ").unwrap_or(line);
            if let Some(place) = line.strip_prefix("#[path = \"") {
                elsewhere = place.strip_suffix("\"]");
            } else if let Some(name) = module
                .strip_prefix("mod ")
                .and_then(|rest| rest.strip_suffix(';'))
            {
                run.extend(match elsewhere.take() {
                    Some(place) => vec![straight(&format!("{folder}/{place}"))],
                    None => [folder, own]
                        .map(|place| format!("{place}/{name}.rs"))
                        .to_vec(),
                });
            }
        }
        run.retain(|path| root().join(path).is_file());
    }
    let faults: Vec<String> = ending("tests", ".rs")
        .into_iter()
        .filter(|path| text(path).unwrap_or_default().contains("#[test]") && !run.contains(path))
        .collect();
    none("a test that is never run", &faults);
}

/// A path without the steps back in it.
fn straight(path: &str) -> String {
    let mut parts: Vec<&str> = Vec::new();
    for part in path.split('/') {
        match part {
            ".." => drop(parts.pop()),
            _ => parts.push(part),
        }
    }
    parts.join("/")
}
