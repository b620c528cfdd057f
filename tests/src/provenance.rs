//! Every figure says how it was had; the page is current, and figures that were read in no source only become fewer.

use everyoven_tests::tree::{root, text};
use xtask::provenance::{PAGE, found, page};

/// Figures read in no source, as counted on 28 November 2026: constants, rows of data, mentions in headings.
/// Whoever finds a source for one lowers the number; nobody raises it.
const NOT_READ: [usize; 3] = [165, 565, 35];

#[test]
fn every_figure_says_how_it_was_had() {
    let found = found(&root()).unwrap_or_else(|why| panic!("{why}"));
    for (what, (now, most)) in ["constants", "rows of data", "mentions in headings"]
        .into_iter()
        .zip(found.not_read().into_iter().zip(NOT_READ))
    {
        assert!(
            now <= most,
            "{what}: {now} are read in no source, {most} were"
        );
        println!("{what}: {now} of at most {most} are read in no source");
    }
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
