//! Routes to the answers about swaps, amounts and mixing: factors of tables and sums by hand.

use super::{In, Row, row};

/// Swaps, cups, tins, batches.
pub fn swaps_and_amounts() -> Vec<Row> {
    use In::{Grams, Plain};
    let textbook = "a professional bread textbook: fresh 1, active dry 0.40, instant 0.33";
    vec![
        row(
            "other-dry-yeast",
            &[],
            "instead",
            Grams,
            (9.8 / 0.33 * 0.40, 0.25),
            textbook,
        ),
        row(
            "fresh-yeast",
            &[],
            "instead",
            Grams,
            (9.8 / 0.33, 0.3),
            textbook,
        ),
        row(
            "one-packet",
            &[],
            "with-less.rise-of-the-dough",
            In::Minutes,
            (80.0 * libm::pow(9.8 / 7.0, 0.9), 15.0),
            "by hand: 80 min by (9.8 / 7) to the power 0.9, a rule of thumb",
        ),
        row(
            "old-yeast",
            &[],
            "more-of-it",
            Grams,
            (9.8 / 0.7, 0.06),
            "by hand: 9.8 g / 0.7",
        ),
        row(
            "other-flour",
            &["protein=10.5%"],
            "gluten",
            Grams,
            (980.0 * 1.7 / (75.0 - 10.5), 0.05),
            "by hand, a mean of proteins: 980 g (12.2 - 10.5) / (75 - 10.5)",
        ),
        row(
            "wholemeal",
            &[],
            "lower",
            Plain,
            (0.25 * 0.5, 1e-9),
            "common practice: 5 % lower for each tenth",
        ),
        row(
            "sourdough",
            &[],
            "half-of-it",
            Grams,
            (98.0, 1e-6),
            "by hand: a fifth of 980 g, half water",
        ),
        row(
            "no-dairy",
            &[],
            "oil",
            Grams,
            (157.0 * 0.8111, 1.5),
            "USDA 01145: butter has 81.11 % of fat, oil 100 %",
        ),
        row(
            "no-egg",
            &[],
            "water",
            Grams,
            (100.0 * 0.7615, 0.5),
            "USDA 01123: egg has 76.15 % of water",
        ),
        row(
            "less-sugar",
            &["share=25%"],
            "left-out",
            Grams,
            (157.0 * 0.25, 1e-6),
            "by hand: a quarter of 157 g",
        ),
        row(
            "honey",
            &[],
            "honey",
            Grams,
            (157.0 / 0.824, 1.0),
            "USDA 19296: honey has 82.4 % of sugars",
        ),
        row(
            "salted-butter",
            &[],
            "salt-then",
            Grams,
            (17.5 - 157.0 * 0.643e-2 * 2.54, 0.1),
            "USDA 01001: 643 mg of sodium in 100 g, 2.54 g of salt for a gram of it",
        ),
        row(
            "coarse-salt",
            &[],
            "flaky-teaspoons",
            Plain,
            (17.5 / 2.8, 1e-9),
            "pages on salt: 2.8 g of flakes a teaspoon",
        ),
        row(
            "egg-size",
            &[],
            "water",
            Grams,
            ((100.0 - 88.0) * 0.7615, 0.1),
            "USDA: a medium egg 44 g without its shell",
        ),
        row(
            "cups",
            &["cup=145g"],
            "cups-scooped",
            Plain,
            (980.0 / 145.0, 1e-9),
            "by hand: 980 g / 145 g",
        ),
        row(
            "other-tin",
            &["tin=1893mL"],
            "dough",
            Grams,
            (826.0, 1.0),
            "the author: 826 g for the 8-cup tin",
        ),
        row(
            "half-batch",
            &[],
            "half-the-dough",
            Grams,
            (1976.3 / 2.0, 1.5),
            "the author's sum of 1 976.3 g, halved",
        ),
        row(
            "double-batch",
            &[],
            "flour",
            Grams,
            (1960.0, 1e-6),
            "by hand: twice 980 g",
        ),
    ]
}

/// Hands and machines.
pub fn mixing() -> Vec<Row> {
    use In::{Celsius, Grams, Plain};
    vec![
        row(
            "no-mixer",
            &[],
            "by-hand",
            Celsius,
            // 42 °C for 26 °C; the author's two milks, 42 and 9 °C, are 3.5 °C of dough apart: 9.4 for one.
            (42.0 - 9.4 * 0.5, 2.0),
            "the author's plain balance: milk 42 °C for 26 °C by hand, so 37 °C for 25.5 °C",
        ),
        row(
            "food-processor",
            &["flour-limit=600g"],
            "batches",
            Plain,
            (4.0, 1e-9),
            "by hand: 980 g by 300 g, rounded up",
        ),
        row(
            "small-mixer",
            &["flour-limit=300g"],
            "flour-each",
            Grams,
            (980.0 / 4.0, 1e-6),
            "by hand: 980 g in 4",
        ),
        row(
            "bread-machine",
            &[],
            "part",
            Plain,
            (500.0 / 980.0, 1e-9),
            "by hand: 500 g of 980 g",
        ),
        row(
            "kneaded",
            &[],
            "dough",
            Celsius,
            (25.6, 1.0),
            "the author's plain balance: 25.6 °C",
        ),
        row(
            "salt-last",
            &[],
            "salt",
            Plain,
            (0.0179, 1e-4),
            "the author: 1.79 % of salt",
        ),
    ]
}
