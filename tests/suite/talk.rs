//! Talks are held against their recipes as was written down by somebody who had not seen the reader.

use everyoven_tests::tree::{root, text};
use xtask::talk_table::tracks::Count;
use xtask::talk_table::{
    FOURTH_SENTENCES, MORE_SENTENCES, PAGE, PRACTICE_SENTENCES, SENTENCES, THIRD_SENTENCES,
    WORKED_WITH, page, phrases, sentences, tracks,
};

#[test]
fn slips_are_found_and_true_figures_left_alone() {
    let (mut slips, mut found, mut decoys, mut disturbed) = (0, 0, 0, 0);
    for folder in WORKED_WITH {
        let score = tracks::score(&root(), &root().join(folder)).expect("the cases");
        println!("{folder}: {:#?}", score.misses);
        for count in score.kinds.values() {
            slips += count.slips;
            found += count.found;
            decoys += count.decoys;
            disturbed += count.disturbed;
        }
    }
    assert!(slips >= 350 && decoys >= 590, "the cases are there");
    assert!(found * 100 >= slips * 95, "{found} of {slips} slips");
    assert!(
        disturbed * 100 <= decoys * 3,
        "{disturbed} of {decoys} decoys"
    );
}

#[test]
fn single_sentences_are_heard_at_their_place() {
    for file in [
        SENTENCES,
        MORE_SENTENCES,
        THIRD_SENTENCES,
        FOURTH_SENTENCES,
        PRACTICE_SENTENCES,
    ] {
        let (kinds, misses) = sentences::score(&root(), &root().join(file)).expect("the sentences");
        println!("{file}: {misses:#?}");
        let sum = |of: fn(&Count) -> usize| kinds.values().map(of).sum::<usize>();
        let (slips, decoys) = (sum(|count| count.slips), sum(|count| count.decoys));
        assert!(slips >= 20 && decoys >= 40, "the sentences are there");
        // They were written for a mending and tried once before it: what they show stands on the page.
        assert!(sum(|count| count.found) * 100 >= slips * 80, "{kinds:#?}");
        assert!(
            sum(|count| count.disturbed) * 100 <= decoys * 5,
            "{kinds:#?}"
        );
    }
}

#[test]
fn phrases_are_heard_as_they_are_meant() {
    let (mut all, mut missed) = (0, 0);
    for folder in WORKED_WITH {
        let score = phrases::score(&root().join(folder)).expect("the cases");
        println!("{folder}: {:#?}", score.misses);
        all += score.kinds.values().map(|count| count.all).sum::<usize>();
        missed += score.misses.len();
    }
    assert!(all >= 650, "the phrases are there");
    assert!(missed <= 16, "{missed} of {all}");
}

/// What is said of a broken track against the braid: names and whether they are about words.
fn said_of(file: &str) -> Vec<(&'static str, bool)> {
    let bytes = std::fs::read(root().join("tests/suite/talk/bad").join(file)).expect("the track");
    let recipe = text("examples/same-day-loaf.toml").expect("UTF-8");
    let track = edit::talk::track::read(&bytes).output;
    let talk = tracks::held(&recipe, &track).expect("the recipe reads");
    talk.findings
        .iter()
        .map(|finding| (finding.diagnostic.code.name, finding.cue.is_some()))
        .collect()
}

#[test]
fn a_talk_about_something_else_is_told_once() {
    assert_eq!(
        said_of("another-recipe.txt"),
        [("talk-of-another-recipe", false)]
    );
    assert_eq!(said_of("german.txt"), [("talk-not-english", false)]);
}

#[test]
fn an_hour_of_silence_is_no_wait_of_the_recipe() {
    let said = said_of("an-hour-of-silence.vtt");
    assert!(said.iter().all(|(_, words)| !words), "{said:?}");
}

#[test]
fn the_page_counts_as_the_reader_hears() {
    let current = page(&root()).expect("the cases");
    let shown = text(PAGE).expect("UTF-8");
    assert!(shown == current, "run `cargo run -p xtask -- talk-table`");
}
