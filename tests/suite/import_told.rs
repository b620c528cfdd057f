//! Recipes told in sentences and in letters are read as was written down from the texts alone.

use everyoven_tests::tree::{root, text};
use recipe::import::LineKind;
use xtask::import_table::{PAGE, texts::Share, told, with_told};

/// What is counted of a text, and how many of a hundred must be right in all of them together.
type Count = (&'static str, usize, fn(&told::Outcome) -> Share);

#[test]
fn what_is_told_in_sentences_is_read() {
    let outcomes = told::score(&root().join(told::TOLD)).expect("the cases");
    println!("{}", told::section(&outcomes));
    assert!(outcomes.len() >= 8, "the cases are there");
    for one in &outcomes {
        assert!(one.title && one.makes, "{}: {:#?}", one.name, one.misses);
        // Whatever is listed is used by a sentence.
        let unused = one
            .to_mend
            .iter()
            .any(|code| code.starts_with("item-never-used"));
        assert!(!unused, "{}: {:?}", one.name, one.to_mend);
    }
    let counts: [Count; 7] = [
        ("amounts", 95, |one| one.reads),
        ("steps", 90, |one| one.steps),
        ("uses", 95, |one| one.uses),
        ("names", 70, |one| one.names),
        ("heat", 100, |one| one.heat),
        ("times", 100, |one| one.times),
        ("outside the recipe", 100, |one| one.outside),
    ];
    for (what, enough, count) in counts {
        let all: Vec<Share> = outcomes.iter().map(count).collect();
        let right: usize = all.iter().map(|share| share.right).sum();
        let wanted: usize = all.iter().map(|share| share.wanted.max(share.given)).sum();
        assert!(
            right * 100 >= wanted * enough,
            "{what}: {right} of {wanted}"
        );
    }
}

#[test]
fn nothing_of_a_letter_is_dropped() {
    for one in told::score(&root().join(told::TOLD)).expect("the cases") {
        for line in &one.imported.lines {
            // A greeting is told as one, with its words.
            if line.kind == LineKind::Other {
                assert!(!line.text.trim().is_empty(), "{}", one.name);
            }
        }
        let numbers: Vec<usize> = one.imported.lines.iter().map(|line| line.number).collect();
        let whole: Vec<usize> = (1..=numbers.len()).collect();
        assert_eq!(numbers, whole, "{}", one.name);
    }
}

#[test]
fn the_page_counts_as_the_reader_reads() {
    let page = text(PAGE).expect("UTF-8");
    let current = with_told(&root(), &page).expect("the section");
    assert!(page == current, "run `cargo run -p xtask -- import-table`");
}
