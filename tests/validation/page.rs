//! docs/validation.md says what is found now, and every miss on it has a reason.

use everyoven_tests::tree::text;
use std::collections::BTreeSet;
use std::sync::LazyLock;
use xtask::validation::PAGE;
use xtask::validation::misses::KNOWN;
use xtask::validation::page::{Found, page};

static FOUND: LazyLock<Found> = LazyLock::new(Found::new);

#[test]
fn the_page_is_current() {
    let written = text(PAGE).expect("UTF-8");
    let now = page(&FOUND);
    let old: BTreeSet<&str> = written.lines().collect();
    let moved: Vec<&str> = now.lines().filter(|line| !old.contains(line)).collect();
    assert!(
        written == now,
        "figures have moved; look at them, then run `cargo run -p xtask -- validation`:\n{}",
        moved.join("\n")
    );
}

/// A miss that nobody has looked at fails, and so does a reason whose miss is gone.
#[test]
fn every_miss_has_its_reason_and_every_reason_its_miss() {
    let missed = FOUND.missed();
    let without: Vec<_> = missed
        .iter()
        .filter(|(what, _)| !KNOWN.iter().any(|known| known.0 == what))
        .collect();
    let gone: Vec<_> = KNOWN
        .iter()
        .filter(|known| !missed.iter().any(|(what, _)| what == known.0))
        .map(|known| known.0)
        .collect();
    assert!(
        without.is_empty() && gone.is_empty(),
        "write or strike reasons in xtask/src/validation/misses.rs\nmissed without a reason: {without:#?}\nno longer missed: {gone:#?}"
    );
}

/// A line is found by its name, so no two may share one.
#[test]
fn every_line_has_a_name_of_its_own() {
    let mut names = BTreeSet::new();
    for row in &FOUND.rows {
        assert!(names.insert(&row.what), "twice: {}", row.what);
        assert!(row.source.len() > 3, "{} has no source", row.what);
    }
    assert!(names.len() > 150, "the list is there");
    let mut known = BTreeSet::new();
    assert!(KNOWN.iter().all(|one| known.insert(one.0)));
}
