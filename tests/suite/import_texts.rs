//! Pasted whole recipes are read as somebody wrote down who had not seen the reader.

use everyoven_tests::tree::{root, text};
use proptest::prelude::*;
use recipe::document::read_recipe;
use recipe::import::{Imported, LineKind, import, saved_page};
use recipe::larder::Larder;
use std::sync::LazyLock;
use xtask::import_table::{PAGE, texts, with_texts};

static LARDER: LazyLock<Larder> = LazyLock::new(Larder::open);

/// How many of a hundred must be right in all open recipes together.
const ENOUGH: usize = 95;

/// What is counted of a text.
type Count = fn(&texts::Outcome) -> texts::Share;

#[test]
fn the_open_recipes_are_read() {
    let outcomes = texts::score(&root().join(texts::RECIPES)).expect("the cases");
    println!("{}", texts::section(&outcomes));
    assert!(outcomes.len() >= 8, "the cases are there");
    for one in &outcomes {
        assert!(one.title && one.makes, "{}: {:#?}", one.name, one.misses);
        assert!(one.usable, "{}: {}", one.name, one.file);
    }
    let counts: [(&str, Count); 5] = [
        ("lines", |one| one.kinds),
        ("readings", |one| one.readings),
        ("heat", |one| one.heat),
        ("times", |one| one.times),
        ("left out", |one| one.left_out),
    ];
    for (what, count) in counts {
        let all: Vec<texts::Share> = outcomes.iter().map(count).collect();
        let right: usize = all.iter().map(|share| share.right).sum();
        let wanted: usize = all.iter().map(|share| share.wanted.max(share.given)).sum();
        assert!(
            right * 100 >= wanted * ENOUGH,
            "{what}: {right} of {wanted}"
        );
    }
}

#[test]
fn the_page_counts_as_the_reader_reads() {
    let page = text(PAGE).expect("UTF-8");
    let current = with_texts(&root(), &page).expect("the section");
    assert!(page == current, "run `cargo run -p xtask -- import-table`");
}

/// What an import owes for any text.
fn holds(pasted: &str, imported: &Imported) -> Result<(), TestCaseError> {
    // Every line is there, in order, at its place.
    let mut end = 0;
    for (index, line) in imported.lines.iter().enumerate() {
        prop_assert_eq!(line.number, index + 1);
        prop_assert_eq!(&pasted[line.span.start..line.span.end], &line.text);
        let between = &pasted[end..line.span.start];
        let ends = |c: char| matches!(c, '\n' | '\r' | '\u{2028}' | '\u{2029}');
        prop_assert!(between.chars().all(ends));
        end = line.span.end;
        if line.text.trim().is_empty() {
            prop_assert_eq!(line.kind, LineKind::Blank);
        }
    }
    is_readable(imported)
}

/// The file is read without a fault of its text.
fn is_readable(imported: &Imported) -> Result<(), TestCaseError> {
    let read = read_recipe(&imported.document);
    for said in &read.diagnostics {
        let of_the_text = [
            "text-unreadable",
            "text-not-utf8",
            "file-empty",
            "file-too-large",
            "too-many-parts",
            "format-missing",
            "key-unknown",
            "value-wrong-kind",
            "number-unreadable",
            "number-without-unit",
            "unit-unknown",
            "unit-does-not-fit",
            "word-unknown",
            "placeholder-unclosed",
            "placeholder-unknown",
            "step-without-action",
            "step-with-two-actions",
            "name-twice",
            "item-name-twice",
        ];
        prop_assert!(
            !of_the_text.contains(&said.code.name),
            "{}: {}\n{}",
            said.code.name,
            said.message,
            imported.document
        );
    }
    Ok(())
}

/// Lines as people paste them, some of them broken.
const LINES: &[&str] = &[
    "Dough",
    "For the sponge:",
    "Filling",
    "INGREDIENTS",
    "Method",
    "Notes",
    "",
    "  ",
    "# Bread",
    "500 g strong white flour",
    "2 eggs, beaten",
    "1 (14 oz) can milk",
    "3-4 cups flour",
    "a pinch of \"salt\"",
    "butter",
    "1 egg, for brushing",
    "250 ml milk, lukewarm",
    "7 g instant yeast",
    "2 tbsp sugar\\",
    "sponge",
    "100 g dough",
    "1. Mix everything and knead for 10 minutes.",
    "Preheat the oven to 200C and bake 30 min.",
    "Let it [rise] overnight.",
    "Divide into 12 pieces.",
    "Brush with egg.",
    "Bake at 9999 degrees for 0 minutes.",
    "Cool.",
    "Makes 12 buns",
    "Makes 0 loaves",
    "Serves 4",
    "Prep time: 20 min",
    "Add the sponge to the flour. Fold every 30 minutes.",
    "Dissolve the yeast in the milk and wait until foamy.",
    "\u{202E}turned",
    "\u{0}\u{7}",
    "{ of = \"x\" }",
    "\"\"\"",
    "]]",
    "½",
    "Chill 1-2 days.",
    "Subject: Re: rye buns",
    "From: Ana",
    "Dear Ana,",
    "On Sunday Eva wrote:",
    "> Mix 500 g of flour with an egg and half a cup (120 ml) of warm milk, then",
    "> knead in 50 g of butter. Let it rise for an hour and bake it at 200 °C",
    "knead it with the rest of the milk and 100 g of the flour until it is smooth. Divide",
    "For two loaves you need 1 kg of flour, 2 eggs, a spoonful of sugar and the zest of an orange.",
    ">",
    "Love,",
    "Rest -5 minutes at -300 °C.",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_text_gives_a_file_that_is_read(pasted in "(?s).{0,300}") {
        holds(&pasted, &import(&pasted, &LARDER))?;
        is_readable(&saved_page(&pasted, &LARDER))?;
    }

    #[test]
    fn any_recipe_like_text_gives_a_file_that_is_read(lines in prop::collection::vec(prop::sample::select(LINES), 0..24), end in prop::sample::select(&["\n", "\r\n", "\n\n"][..])) {
        let pasted = lines.join(end);
        holds(&pasted, &import(&pasted, &LARDER))?;
    }

    #[test]
    fn any_structured_data_is_borne(name in ".{0,30}", lines in prop::collection::vec(prop::sample::select(LINES), 0..12), nested in any::<bool>()) {
        let recipe = serde_json::json!({ "@type": "Recipe", "name": name, "recipeIngredient": lines, "recipeInstructions": lines.iter().map(|line| serde_json::json!({"@type": "HowToStep", "text": line})).collect::<Vec<_>>() });
        let data = if nested { serde_json::json!({ "@graph": [[recipe]] }) } else { recipe };
        let page = format!("<html><script type=\"application/ld+json\">{data}</script></html>");
        is_readable(&saved_page(&page, &LARDER))?;
    }
}
