//! Every figure says how it was had; the page is current, and figures that were read in no source only become fewer.

use everyoven_tests::tree::{root, text};
use xtask::provenance::{PAGE, found, page};

/// Figures read in no source, as counted on 28 November 2026: constants, rows of data and mentions in headings together.
/// Whoever finds a source for one lowers the number; nobody raises it. A figure may go from a constant into a table.
const NOT_READ: usize = 765;

#[test]
fn every_figure_says_how_it_was_had() {
    let found = found(&root()).unwrap_or_else(|why| panic!("{why}"));
    let kinds = ["constants", "rows of data", "mentions in headings"];
    for (what, now) in kinds.into_iter().zip(found.not_read()) {
        println!("{what}: {now} are read in no source");
    }
    let now: usize = found.not_read().into_iter().sum();
    assert!(
        now <= NOT_READ,
        "{now} are read in no source, {NOT_READ} were"
    );
    let kept = text(PAGE).expect("UTF-8");
    assert!(
        kept == page(&found),
        "run `cargo run -p xtask -- provenance`"
    );
}

#[test]
fn the_page_of_judges_names_the_versions_of_the_lock_files() {
    let kept = text(xtask::judges::PAGE).expect("UTF-8");
    let now = xtask::judges::page(&root()).unwrap_or_else(|why| panic!("{why}"));
    assert!(kept == now, "run `cargo run -p xtask -- judges`");
}
