//! Small corpora of what fuzzers found worth keeping, and everything that once fell over, replayed.

use crate::corpus_targets::TARGETS;
use everyoven_tests::tree::root;
use std::fs;
use std::path::{Path, PathBuf};

/// No corpus is larger than this: the tests replay it, the fuzzers grow their own.
const MOST_FILES: usize = 40;

fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap_or_else(|why| panic!("{}: {why}", folder.display()));
    let mut all: Vec<PathBuf> = entries
        .map(|entry| entry.expect("an entry").path())
        .collect();
    all.sort();
    all
}

#[test]
fn whatever_was_thrown_at_a_way_in_holds() {
    for (name, target) in TARGETS {
        let all = files(&root().join("tests/suite/corpus").join(name));
        assert!(
            (8..=MOST_FILES).contains(&all.len()),
            "{name} has {} files",
            all.len()
        );
        for file in all {
            println!("{}", file.display());
            target(&fs::read(&file).expect("a file that can be read"));
        }
    }
}

/// A corpus without a way in would be replayed by nobody.
#[test]
fn every_corpus_has_its_way_in() {
    for folder in files(&root().join("tests/suite/corpus")) {
        let name = folder
            .file_name()
            .expect("a name")
            .to_string_lossy()
            .into_owned();
        assert!(TARGETS.iter().any(|(target, _)| *target == name), "{name}");
    }
}
