//! The sample's nutrition: a table of each law with a figure that is known and one that is not.

use super::text;
use edit::ledger::label::model::{LabelLines, Law, Panel, PanelRow, Part, ProductLabel};
use edit::ledger::model::Figure;
use recipe::provenance::{Had, Origin};

fn figure(name: &str, value: f64, unit: &'static str, shown: &str) -> Figure {
    Figure {
        name: text(name),
        value,
        unit,
        shown: text(shown),
        origin: Origin::new("sample, worked out on paper", Had::Derived),
    }
}

fn row(
    what: &'static str,
    label: &str,
    inset: u8,
    cells: [Option<Figure>; 2],
    complete: bool,
) -> PanelRow {
    PanelRow {
        what,
        label: text(label),
        inset,
        cells,
        complete,
    }
}

/// Nutrition of the braid.
pub fn label() -> LabelLines {
    LabelLines {
        heading: text("Nutrition, for information"),
        purpose: text("Worked out from the ingredients; read your packs."),
        law: Law::UnitedStates,
        remarks: vec![
            (Law::UnitedStates, text("* Share of a day of 2,000 kcal.")),
            (Law::Europe, text("Energy by the factors of the law.")),
        ],
        products: vec![ProductLabel {
            name: text("Braid"),
            baked: text("590 g baked, 10.6 % less than went into the oven"),
            figures: vec![
                figure("label.braid.baked", 0.59, "kg", "590 g"),
                figure("label.braid.loss", 0.106, "1", "10.6 %"),
            ],
            us: Panel {
                serving: Some(text("Serving: 1 slice (56 g); about 11 in all.")),
                heads: [text("1 slice (56 g)"), text("Of a day*")],
                rows: vec![
                    row(
                        "energy-kcal",
                        "Calories",
                        0,
                        [
                            Some(figure("label.braid.us.energy-kcal", 837e3, "J", "200 kcal")),
                            None,
                        ],
                        true,
                    ),
                    row(
                        "fat",
                        "Total fat",
                        0,
                        [
                            Some(figure("label.braid.us.fat", 0.009, "kg", "9 g")),
                            Some(figure("label.braid.us.fat.of-a-day", 0.12, "1", "12 %")),
                        ],
                        true,
                    ),
                    row(
                        "trans-fat",
                        "Trans fat",
                        1,
                        [
                            Some(figure("label.braid.us.trans-fat", 0.0, "kg", "not known")),
                            None,
                        ],
                        false,
                    ),
                ],
            },
            eu: Panel {
                serving: None,
                heads: [text("100 g"), text("1 braid (590 g)")],
                rows: vec![row(
                    "energy-kj",
                    "Energy",
                    0,
                    [
                        Some(figure(
                            "label.braid.eu.energy-kj.in-100-g",
                            1.5e6,
                            "J",
                            "1500 kJ",
                        )),
                        Some(figure(
                            "label.braid.eu.energy-kj.in-a-piece",
                            8.85e6,
                            "J",
                            "8850 kJ",
                        )),
                    ],
                    true,
                )],
            },
            ingredients_us: vec![Part::Words(text("Ingredients: flour. Contains: wheat."))],
            ingredients_eu: vec![
                Part::Words(text("Ingredients: flour (")),
                Part::Allergen(text("wheat")),
                Part::Words(text(").")),
            ],
        }],
        list_notes: Vec::new(),
        notes: vec![text("Trans fat of whole milk is not in the tables.")],
    }
}
