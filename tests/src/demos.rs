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

/// A small lean recipe that nothing is wrong with, to be spoilt or changed: ten buns.
pub const BUNS: &str = r#"everyoven = 1
title = "Buns"
kind = "soft"
[[stage]]
name = "dough"
items = [
  { of = "bread flour", take = "500 g" },
  { of = "water", take = "310 g", at = "30 °C" },
  { of = "instant yeast", take = "6 g", as = "yeast" },
  { of = "fine salt", take = "9 g", as = "salt" },
]
[[stage.step]]
do = "Mix [bread flour], [water], [yeast] and [salt]."
mix = { by = "hand", phases = [{ speed = "medium", for = "10 min" }], dough = "26 °C" }
[[stage.step]]
do = "Let rise."
rest = { for = "60 min", at = "26 °C", where = "room", in = "bowl", covered = "lid" }
until = { see = "doubled", volume = "2 times" }
[[stage.step]]
do = "Cut: [buns pieces]."
divide = { into = ["buns"], for = "5 min" }
[[product]]
name = "buns"
from = "dough"
count = 10
piece = "80 g"
[[product.step]]
do = "Round them."
shape = { for = "5 min" }
[[product.step]]
do = "Bake."
bake = { phases = [{ at = "200 °C", for = "16 min" }], fan = false, core = "92 °C" }
"#;
