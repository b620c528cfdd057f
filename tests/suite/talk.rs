//! Talks are held against their recipes as was written down by somebody who had not seen the reader.

use everyoven_tests::tree::{root, text};
use xtask::talk_table::{OPEN, PAGE, page, phrases, tracks};

#[test]
fn slips_are_found_and_true_figures_left_alone() {
    let score = tracks::score(&root(), &root().join(OPEN)).expect("the cases");
    println!("{:#?}", score.misses);
    let (mut slips, mut found, mut decoys, mut disturbed) = (0, 0, 0, 0);
    for count in score.kinds.values() {
        slips += count.slips;
        found += count.found;
        decoys += count.decoys;
        disturbed += count.disturbed;
    }
    assert!(slips >= 70 && decoys >= 170, "the cases are there");
    assert!(found * 100 >= slips * 90, "{found} of {slips} slips");
    assert!(
        disturbed * 100 <= decoys * 3,
        "{disturbed} of {decoys} decoys"
    );
}

#[test]
fn phrases_are_heard_as_they_are_meant() {
    let score = phrases::score(&root().join(OPEN)).expect("the cases");
    println!("{:#?}", score.misses);
    let all: usize = score.kinds.values().map(|count| count.all).sum();
    assert!(all >= 290, "the phrases are there");
    assert!(
        score.misses.len() * 100 <= all * 2,
        "{} of {all}",
        score.misses.len()
    );
}

#[test]
fn the_page_counts_as_the_reader_hears() {
    let current = page(&root()).expect("the cases");
    let shown = text(PAGE).expect("UTF-8");
    assert!(shown == current, "run `cargo run -p xtask -- talk-table`");
}
