//! A recipe printed and read again is the same recipe, and printed once more the same text.

use crate::places::without;
use crate::recipes::recipe;
use proptest::prelude::*;
use recipe::document::{print_recipe, read_recipe};

const WRITTEN: [&str; 7] = [
    include_str!("../../../../examples/same-day-loaf.toml"),
    include_str!("../../../../examples/hearth-loaf.toml"),
    include_str!("../../../../examples/cardamom-dough.toml"),
    include_str!("../../../../examples/feast-bread.toml"),
    include_str!("../../../../examples/feast-bread-active-dry.toml"),
    include_str!("../../../../tests/golden/documents/v1/same-day-loaf.toml"),
    include_str!("../../../../tests/golden/documents/v1/every-key.toml"),
];

#[test]
fn written_recipes_come_back_from_print() {
    for text in WRITTEN {
        let first = read_recipe(text).output.expect("the examples read clean");
        let printed = print_recipe(&first);
        let again = read_recipe(&printed);
        assert_eq!(again.diagnostics, [], "{printed}");
        let again = again.output.expect("what is printed reads");
        assert_eq!(print_recipe(&again), printed);
        assert_eq!(without(again), without(first), "{printed}");
    }
}

#[test]
fn the_printed_form_of_every_key() {
    let loaf = read_recipe(WRITTEN[6]).output.expect("it reads clean");
    insta::assert_snapshot!(print_recipe(&loaf));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_recipe_comes_back_from_print(recipe in recipe()) {
        let printed = print_recipe(&recipe);
        let again = read_recipe(&printed);
        let Some(read) = again.output else {
            panic!("{printed}\n{:#?}", again.diagnostics);
        };
        prop_assert_eq!(print_recipe(&read), printed.clone());
        prop_assert_eq!(without(read), recipe, "{}", printed);
    }
}
