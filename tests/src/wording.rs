//! The house rules about what people read: a page for each finding, words, sources of data.

use everyoven_tests::tree::{ending, files, none, root, text};
use recipe::provenance::Had;
use std::collections::{BTreeMap, BTreeSet};

/// Every code that the source declares: a word between quotes after one of the six makers.
fn declared_codes() -> BTreeSet<String> {
    let mut codes = BTreeSet::new();
    for path in ending("crates", ".rs") {
        let body = text(&path).unwrap_or_default();
        for maker in [
            "mend_bake",
            "mend_print",
            "look_bake",
            "look_print",
            "could_bake",
            "could_print",
        ] {
            for piece in body.split(&format!("{maker}(\"")).skip(1) {
                codes.extend(piece.split('"').next().map(str::to_owned));
            }
        }
    }
    codes
}

#[test]
fn every_code_is_found_by_the_search_for_codes() {
    let declared = declared_codes();
    for code in recipe::source::code::ALL {
        assert!(
            declared.contains(code.name),
            "{} is declared in a way the search misses",
            code.name
        );
    }
}

#[test]
fn every_code_has_a_page_with_its_five_headings() {
    let headings = [
        "What it says",
        "Why it matters",
        "Example",
        "What to do",
        "Source",
    ];
    let declared = declared_codes();
    let mut faults = Vec::new();
    for code in &declared {
        let kebab = code
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-');
        if !kebab {
            faults.push(format!("{code} is not in kebab words"));
        }
        let path = format!("crates/edit/explain/{code}.md");
        if !root().join(&path).is_file() {
            faults.push(format!("{path} is not there"));
            continue;
        }
        let body = text(&path).unwrap_or_default();
        if body.lines().next() != Some(&format!("# {code}")) {
            faults.push(format!("{path} does not begin with its code"));
        }
        let found: Vec<&str> = body.lines().filter_map(|l| l.strip_prefix("## ")).collect();
        if found != headings {
            faults.push(format!("{path} has the headings {found:?}"));
        }
        let empty = body
            .split("\n## ")
            .skip(1)
            .any(|part| part.lines().skip(1).all(|l| l.trim().is_empty()));
        if empty {
            faults.push(format!("{path} has a heading with nothing under it"));
        }
    }
    for path in ending("crates/edit/explain", ".md") {
        let name = path
            .trim_start_matches("crates/edit/explain/")
            .trim_end_matches(".md");
        if !declared.contains(name) {
            faults.push(format!("{path} explains what nothing says"));
        }
    }
    none("a page for each code, a code for each page", &faults);
}

/// Words that tell a reader it should have been no trouble.
const DISMISSIVE: &[&str] = &["simply", "just", "easy", "easily", "obviously", "of course"];

fn holds_word(line: &str, word: &str) -> bool {
    let lower = line.to_lowercase();
    lower.match_indices(word).any(|(at, _)| {
        let before = lower[..at].chars().next_back();
        let after = lower[at + word.len()..].chars().next();
        !before.is_some_and(char::is_alphanumeric) && !after.is_some_and(char::is_alphanumeric)
    })
}

#[test]
fn readers_are_not_told_that_it_is_easy() {
    assert!(holds_word("You just wait.", "just") && !holds_word("Adjust the water.", "just"));
    let mut faults = Vec::new();
    let mut look = |path: &str, number: usize, line: &str| {
        for word in DISMISSIVE.iter().filter(|w| holds_word(line, w)) {
            faults.push(format!("{path}:{number}: {word}"));
        }
    };
    let prose = ["crates/edit/explain", "docs", "crates/press/templates"];
    let mut pages: Vec<String> = prose.iter().flat_map(|folder| files(folder)).collect();
    pages.extend(ending("", ".md").into_iter().filter(|p| !p.contains('/')));
    pages.retain(|p| p != "THIRD-PARTY.md");
    for path in pages {
        let mut in_code = false;
        for (index, line) in text(&path).unwrap_or_default().lines().enumerate() {
            in_code ^= line.starts_with("```");
            if !in_code {
                let prose: String = line.split('`').step_by(2).collect();
                look(&path, index + 1, &prose);
            }
        }
    }
    for path in ending("crates", ".rs") {
        // What a reader of quantities, of claims or of questions understands is what others wrote, not what we say.
        let heard = [
            "crates/recipe/src/measure/read/",
            "crates/recipe/src/measure/spoken/",
            "crates/edit/src/talk/anchored/",
            "crates/edit/src/talk/states/",
            "crates/edit/src/talk/claims/",
            "crates/edit/src/talk/facts/",
            "crates/edit/src/talk/late/",
            "crates/edit/src/answers/find.rs",
        ];
        if heard.iter().any(|folder| path.starts_with(folder)) {
            continue;
        }
        let body = text(&path).unwrap_or_default();
        let shipped = body.split("#[cfg(test)]").next().unwrap_or_default();
        let help = path.contains("/cli/");
        for (index, line) in shipped.lines().enumerate() {
            let comment = line.trim_start().starts_with("//");
            if comment && help && line.contains("///") {
                look(&path, index + 1, line);
            } else if !comment {
                // Every second piece between quotes is a string.
                line.split('"')
                    .skip(1)
                    .step_by(2)
                    .for_each(|literal| look(&path, index + 1, literal));
            }
        }
    }
    none(
        "words that a reader in trouble does not want to hear",
        &faults,
    );
}

#[test]
fn pages_do_not_shout() {
    let mut faults = Vec::new();
    for path in ending("crates/edit/explain", ".md")
        .into_iter()
        .chain(ending("docs", ".md"))
    {
        let mut in_code = false;
        for (index, line) in text(&path).unwrap_or_default().lines().enumerate() {
            in_code ^= line.starts_with("```");
            let prose: String = line.split('`').step_by(2).collect();
            if !in_code && prose.replace("<!--", "").contains('!') && !prose.contains("![") {
                faults.push(format!("{path}:{}", index + 1));
            }
        }
    }
    none("no exclamation marks", &faults);
}

fn table(path: &str) -> Vec<BTreeMap<String, String>> {
    let body = text(path).unwrap_or_else(|| panic!("{path} is not UTF-8"));
    let mut reader = csv::Reader::from_reader(body.as_bytes());
    reader
        .deserialize()
        .map(|row| row.unwrap_or_else(|e| panic!("{path}: {e}")))
        .collect()
}

#[test]
fn every_data_file_has_a_row_and_every_figure_a_source() {
    let mut faults = Vec::new();
    let data: Vec<String> = ending("crates", ".csv")
        .into_iter()
        .filter(|p| p.contains("/data/"))
        .collect();
    for path in &data {
        let (folder, name) = path.rsplit_once('/').expect("a folder");
        let readme = format!("{folder}/README.md");
        let listed = root().join(&readme).is_file()
            && text(&readme)
                .unwrap_or_default()
                .lines()
                .any(|l| l.starts_with('|') && l.contains(name));
        if !listed {
            faults.push(format!("{readme} has no row for {name}"));
        }
        // A file of its own, or one named among what a bundle holds.
        let upstream: Vec<String> = data
            .iter()
            .filter(|p| p.ends_with("/sources.csv") && p.starts_with(folder))
            .flat_map(|p| table(p))
            .flat_map(|row| [row["file"].clone(), row["what"].clone()])
            .collect();
        for (index, row) in table(path).into_iter().enumerate() {
            let line = index + 2;
            if row.get("source").is_some_and(|s| s.trim().is_empty()) {
                faults.push(format!("{path}:{line} has no source"));
            }
            if row.get("had").is_some_and(|h| Had::from_word(h).is_none()) {
                faults.push(format!("{path}:{line} was had by {:?}", row["had"]));
            }
            for file in row
                .get("upstream_file")
                .into_iter()
                .flat_map(|f| f.split('+'))
            {
                if !upstream
                    .iter()
                    .any(|known| known.split([' ', ',']).any(|word| word == file))
                {
                    faults.push(format!("{path}:{line}: {file} is not in sources.csv"));
                }
            }
        }
    }
    faults.truncate(20);
    none(
        "data files are listed and their figures have sources",
        &faults,
    );
}

#[test]
fn every_path_that_a_document_names_is_there() {
    let mut faults = Vec::new();
    let mut pages = ending("docs", ".md");
    pages.extend(ending("", ".md").into_iter().filter(|p| !p.contains('/')));
    pages.retain(|p| p != "THIRD-PARTY.md");
    let ours = [
        "crates/",
        "tests/",
        "docs/",
        "examples/",
        "xtask/",
        "benches/",
        ".ci/",
    ];
    let mut seen = 0;
    for page in &pages {
        for named in text(page).unwrap_or_default().split('`').skip(1).step_by(2) {
            // Capitals and brackets stand for something that the reader fills in.
            let filled = named.contains(char::is_uppercase) || named.contains(['{', '*', ' ']);
            if filled || !ours.iter().any(|folder| named.starts_with(folder)) {
                continue;
            }
            seen += 1;
            if !root().join(named.trim_end_matches('/')).exists() {
                faults.push(format!("{page}: {named}"));
            }
        }
    }
    assert!(
        seen > 20,
        "only {seen} paths were found in {} documents",
        pages.len()
    );
    none("documents name what is there", &faults);
}
