//! The examples of this repository read without a word.

use recipe::document::{read_kitchen, read_recipe};

const RECIPES: [(&str, &str); 5] = [
    (
        "same-day-loaf",
        include_str!("../../../examples/same-day-loaf.toml"),
    ),
    (
        "hearth-loaf",
        include_str!("../../../examples/hearth-loaf.toml"),
    ),
    (
        "cardamom-dough",
        include_str!("../../../examples/cardamom-dough.toml"),
    ),
    (
        "feast-bread",
        include_str!("../../../examples/feast-bread.toml"),
    ),
    (
        "feast-bread-active-dry",
        include_str!("../../../examples/feast-bread-active-dry.toml"),
    ),
];

const KITCHENS: [(&str, &str); 4] = [
    ("flat", include_str!("../../../examples/kitchens/flat.toml")),
    (
        "plateau",
        include_str!("../../../examples/kitchens/plateau.toml"),
    ),
    (
        "studio",
        include_str!("../../../examples/kitchens/studio.toml"),
    ),
    (
        "terrace",
        include_str!("../../../examples/kitchens/terrace.toml"),
    ),
];

#[test]
fn every_example_recipe_reads_clean() {
    for (name, text) in RECIPES {
        let read = read_recipe(text);
        assert_eq!(read.diagnostics, [], "{name}");
        assert!(read.output.is_some(), "{name}");
    }
}

#[test]
fn every_example_kitchen_reads_clean() {
    for (name, text) in KITCHENS {
        let read = read_kitchen(text);
        assert_eq!(read.diagnostics, [], "{name}");
        assert!(read.output.is_some(), "{name}");
    }
}
