//! Every relation of the simulator has its page in docs/models, and every page names code and tests that are there.

use everyoven_tests::tree::{ending, none, root, text};

const HEADINGS: [&str; 6] = [
    "## Relation",
    "## Symbols",
    "## Valid for",
    "## Source",
    "## Departures",
    "## Checked by",
];

fn pages() -> Vec<(String, String)> {
    let pages = ending("docs/models", ".md");
    assert!(pages.len() > 10, "the pages are there");
    pages
        .into_iter()
        .map(|path| {
            let body = text(&path).expect("UTF-8");
            (path, body)
        })
        .collect()
}

/// What stands between backquotes.
fn quoted(text: &str) -> Vec<&str> {
    text.split('`').skip(1).step_by(2).collect()
}

/// The paragraph that names the code.
fn code(page: &str) -> &str {
    let from = page.find("Code:").unwrap_or(page.len());
    let rest = &page[from..];
    &rest[..rest.find("\n\n").unwrap_or(rest.len())]
}

/// The file of a path like `bake::physics::steam`.
fn file(path: &str) -> Option<String> {
    let (name, rest) = path.split_once("::")?;
    let inside = rest.replace("::", "/");
    let (flat, folder) = (
        format!("crates/{name}/src/{inside}.rs"),
        format!("crates/{name}/src/{inside}/mod.rs"),
    );
    [flat, folder]
        .into_iter()
        .find(|path| root().join(path).is_file())
}

/// Whether a path names a file, or something that stands in one.
fn is_there(path: &str) -> bool {
    let inside = |file: String, name: &str| {
        let body = text(&file).unwrap_or_default();
        body.contains(&format!(" {name}"))
    };
    file(path).is_some()
        || path
            .rsplit_once("::")
            .is_some_and(|(parent, name)| file(parent).is_some_and(|file| inside(file, name)))
}

#[test]
fn every_relation_has_its_page() {
    let pages = pages();
    let named: Vec<String> = pages
        .iter()
        .flat_map(|(_, body)| {
            // A short name follows a long one of the same folder.
            let mut before = String::new();
            let mut files = Vec::new();
            for name in quoted(code(body)) {
                let long = if name.contains("::") {
                    name.to_owned()
                } else {
                    format!("{before}::{name}")
                };
                if let Some(found) = file(&long) {
                    before = long.rsplit_once("::").map_or("", |pair| pair.0).to_owned();
                    files.push(found);
                }
            }
            files
        })
        .collect();
    let mut faults = Vec::new();
    for folder in ["crates/bake/src/physics", "crates/bake/src/simulate"] {
        for path in ending(folder, ".rs") {
            let body = text(&path).expect("UTF-8");
            if body.contains("//! # Relation") && !named.contains(&path) {
                faults.push(path);
            }
        }
    }
    none(
        "a relation has a page in docs/models that names its file",
        &faults,
    );
}

#[test]
fn every_page_has_the_six_headings_in_their_order() {
    let mut faults = Vec::new();
    for (path, body) in pages() {
        let places: Vec<Option<usize>> = HEADINGS
            .iter()
            .map(|heading| body.find(&format!("\n{heading}\n")))
            .collect();
        if places.iter().any(Option::is_none) || !places.is_sorted() {
            faults.push(path);
        }
    }
    none(
        "a page says relation, symbols, range, source, departures, checks",
        &faults,
    );
}

#[test]
fn what_a_page_names_is_there() {
    let mut faults = Vec::new();
    for (path, body) in pages() {
        let own = code(&body);
        for name in quoted(own) {
            if name.contains("::") && !is_there(name) {
                faults.push(format!("{path}: {name}"));
            }
        }
        for name in quoted(&body) {
            let is_path = name.starts_with("tests/") || name.starts_with("docs/");
            if is_path && !root().join(name).exists() {
                faults.push(format!("{path}: {name}"));
            }
            let is_page = !name.contains('/')
                && std::path::Path::new(name)
                    .extension()
                    .is_some_and(|ending| ending == "md");
            if is_page && !root().join("docs/models").join(name).is_file() {
                faults.push(format!("{path}: {name}"));
            }
        }
        if own.is_empty() {
            faults.push(format!("{path}: names no code"));
        }
        let checked = &body[body.find("\n## Checked by").unwrap_or(0)..];
        if !checked.contains("tests/") && !checked.contains("docs/validation.md") {
            faults.push(format!("{path}: is checked by nothing"));
        }
    }
    none("code, tests and pages that a page names", &faults);
}
