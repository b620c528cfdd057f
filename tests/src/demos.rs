//! The demo recipes, by the names of their files.

/// Every complete recipe in `examples/`: name and text.
pub const DEMOS: [(&str, &str); 5] = [
    (
        "same-day-loaf",
        include_str!("../../examples/same-day-loaf.toml"),
    ),
    (
        "cardamom-dough",
        include_str!("../../examples/cardamom-dough.toml"),
    ),
    (
        "hearth-loaf",
        include_str!("../../examples/hearth-loaf.toml"),
    ),
    (
        "feast-bread",
        include_str!("../../examples/feast-bread.toml"),
    ),
    (
        "feast-bread-active-dry",
        include_str!("../../examples/feast-bread-active-dry.toml"),
    ),
];
