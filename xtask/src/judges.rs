//! The page of judges: who that is not us looks at which output, at which version, by which test.

use std::path::Path;

/// Where the page stands.
pub const PAGE: &str = "docs/judges.md";

/// Where a judge's version is written down.
#[derive(Clone, Copy)]
enum From {
    /// `tests/peers/package-lock.json`.
    Npm,
    /// `tests/peers/requirements.txt`.
    PyPi,
    /// `Cargo.lock`.
    Crates,
    /// The machine's own package manager; not pinned.
    System,
}

/// What is judged, the judge, where its version is, the tests that ask it, and whether a bad file is tried on it.
type Judge = (
    &'static str,
    &'static str,
    From,
    &'static [&'static str],
    &'static str,
);

const JUDGES: [Judge; 24] = [
    (
        "Pages (HTML standard's content models)",
        "html-validate",
        From::Npm,
        &["tests/judges.rs", "tests/browser/stories.rs"],
        "`tests/peers/bad/page.html`",
    ),
    (
        "Pages (WCAG 2.2 A and AA, light, dark, 320 px, paper)",
        "axe-core",
        From::Npm,
        &["tests/judges.rs", "tests/browser/stories.rs"],
        "`tests/peers/bad/page.html`",
    ),
    (
        "Pages in a browser, driven",
        "playwright-core",
        From::Npm,
        &["tests/judges.rs", "tests/browser/stories.rs"],
        "not a judge by itself",
    ),
    (
        "The browser itself",
        "chromium",
        From::System,
        &["tests/judges.rs", "tests/browser/stories.rs"],
        "not a judge by itself",
    ),
    (
        "Structured data (JSON-LD expansion, schema.org terms)",
        "jsonld",
        From::Npm,
        &["tests/judges.rs"],
        "`tests/peers/bad/recipe.jsonld`",
    ),
    (
        "Structured data (schema.org's vocabulary as types)",
        "schema-dts",
        From::Npm,
        &["tests/judges.rs"],
        "`tests/peers/bad/recipe.jsonld`",
    ),
    (
        "The compiler of those types",
        "typescript",
        From::Npm,
        &["tests/judges.rs"],
        "`tests/peers/bad/recipe.jsonld`",
    ),
    (
        "PDF (page boxes, fonts embedded, tags, text read back)",
        "poppler-utils",
        From::System,
        &[
            "tests/judges.rs",
            "tests/papers.rs",
            "tests/verification/patterns.rs",
        ],
        "`tests/peers/bad/card.pdf`",
    ),
    (
        "Calendars (RFC 5545)",
        "icalendar",
        From::PyPi,
        &["tests/verification/timetable.rs"],
        "none yet",
    ),
    (
        "Calendars (RFC 5545)",
        "ical.js",
        From::Npm,
        &["tests/verification/timetable.rs"],
        "none yet",
    ),
    (
        "WebVTT",
        "webvtt-parser",
        From::Npm,
        &["tests/verification/tracks.rs"],
        "tracks with faults, in the test",
    ),
    (
        "SubRip",
        "pysubs2",
        From::PyPi,
        &["tests/verification/tracks.rs"],
        "in the test",
    ),
    (
        "Answers for machines (JSON Schema 2020-12)",
        "jsonschema",
        From::Crates,
        &["tests/cli/schemas.rs"],
        "answers spoilt, in the test",
    ),
    (
        "Drawings and label sheets as XML",
        "roxmltree",
        From::Crates,
        &["tests/cli/figures.rs"],
        "none yet",
    ),
    (
        "Least squares with bounds",
        "scipy",
        From::PyPi,
        &["tests/verification/bounded.rs"],
        "figures compared",
    ),
    (
        "Bakes by the method of lines",
        "scipy",
        From::PyPi,
        &["tests/verification/course_peers.rs"],
        "figures compared",
    ),
    (
        "The same scheme compiled",
        "numba",
        From::PyPi,
        &["tests/verification/course_peers.rs"],
        "figures compared",
    ),
    (
        "Bodies that cool",
        "fipy",
        From::PyPi,
        &["tests/verification/course_peers.rs"],
        "figures compared",
    ),
    (
        "Films of air",
        "ht",
        From::PyPi,
        &["tests/verification/course_peers.rs"],
        "figures compared",
    ),
    (
        "Water, steam, specific heats (composition of foods)",
        "coolprop",
        From::PyPi,
        &[
            "tests/verification/course_peers.rs",
            "tests/verification/specific_heats.rs",
        ],
        "figures compared",
    ),
    (
        "Quantiles of distributions",
        "scipy",
        From::PyPi,
        &["tests/verification/draws.rs"],
        "figures compared",
    ),
    (
        "What decides (indices of Sobol)",
        "salib",
        From::PyPi,
        &["tests/verification/indices.rs"],
        "figures compared",
    ),
    (
        "Bake days (constraint solver)",
        "ortools",
        From::PyPi,
        &["tests/verification/day_peer.rs"],
        "figures compared",
    ),
    (
        "Rounding of decimals",
        "proptest",
        From::Crates,
        &["tests/identities/measures.rs"],
        "laws, no outside program",
    ),
];

/// The page, with versions as the lock files have them.
///
/// # Errors
/// When a lock file cannot be read, a judge is not in it, or a test that is named is not there.
pub fn page(root: &Path) -> Result<String, String> {
    let read = |file: &str| {
        std::fs::read_to_string(root.join(file)).map_err(|why| format!("{file}: {why}"))
    };
    let npm: serde_json::Value = serde_json::from_str(&read("tests/peers/package-lock.json")?)
        .map_err(|why| format!("package-lock.json: {why}"))?;
    let pypi = read("tests/peers/requirements.txt")?;
    let crates: toml::Value =
        toml::from_str(&read("Cargo.lock")?).map_err(|why| format!("Cargo.lock: {why}"))?;
    let mut out = String::from(
        "# Who judges what\n\n\
        Written by `cargo run -p xtask -- judges` out of the lock files. What goes out is looked at by programs that are not ours; each\n\
        judge that can refuse a file is tried on a bad one too, so that a judge who says yes to everything is found out. What no\n\
        outside program judges is said below.\n\n\
        | what | judge | version | pinned in | tests | tried on something bad |\n|---|---|---|---|---|---|\n",
    );
    for (what, judge, from, tests, bad) in JUDGES {
        for test in tests {
            if !root.join(test).is_file() {
                return Err(format!("{judge}: {test} is not there"));
            }
        }
        let (version, pinned) = match from {
            From::Npm => (
                npm["packages"][format!("node_modules/{judge}")]["version"]
                    .as_str()
                    .map(str::to_owned),
                "`tests/peers/package-lock.json`",
            ),
            From::PyPi => (
                pypi.lines()
                    .find_map(|line| line.strip_prefix(judge)?.strip_prefix("=="))
                    .map(str::to_owned),
                "`tests/peers/requirements.txt`",
            ),
            From::Crates => (version_of(&crates, judge), "`Cargo.lock`"),
            From::System => (Some("the system's".to_owned()), "not pinned"),
        };
        let version = version.ok_or_else(|| format!("{judge} is in no lock file"))?;
        let tests: Vec<String> = tests.iter().map(|test| format!("`{test}`")).collect();
        out.push_str(&format!(
            "| {what} | {judge} | {version} | {pinned} | {} | {bad} |\n",
            tests.join(", ")
        ));
    }
    out.push_str(
        "\nNot judged by an outside program: whether a PDF meets PDF/UA (poppler shows its tags, fonts and text; no checker of PDF/UA\n\
        is among the judges); composition and nutrition after the bake (held against the 37 baked breads of USDA SR28 by\n\
        `tests/validation/labels.rs`, which are figures and no program); the composition tables themselves (digests of the files\n\
        they were cut from stand in `crates/recipe/data/sources.csv`); the words (a cook has to read them).\n",
    );
    Ok(out)
}

/// The version of a crate; of several the newest, which is the one that the tests ask for.
fn version_of(lock: &toml::Value, name: &str) -> Option<String> {
    let packages = lock.get("package")?.as_array()?;
    let word = |one: &toml::Value, key: &str| one.get(key)?.as_str().map(str::to_owned);
    let named = packages
        .iter()
        .filter(|one| word(one, "name").as_deref() == Some(name));
    named.filter_map(|one| word(one, "version")).next_back()
}

/// Writes it.
///
/// # Errors
/// As [`page`], or when the page cannot be written.
pub fn write(root: &Path) -> Result<String, String> {
    std::fs::write(root.join(PAGE), page(root)?).map_err(|why| format!("{PAGE}: {why}"))?;
    Ok(format!("{PAGE} is written"))
}
