//! The sample's amounts: its two stages and what goes on bench, tin and top.

use edit::ledger::model::{ItemLine, StageLines};

use super::{derived, text, written};

/// The two stages.
pub(super) fn stages() -> Vec<StageLines> {
    vec![
        StageLines {
            heading: text("Sponge"),
            flour_share: Some(derived("stage.sponge.flour", 0.3, "1", "30 % of the flour")),
            items: vec![
                Row {
                    percent: Some((0.3, "30 %")),
                    detail: Some("11 % protein, at room temperature"),
                    footnote: Some(1),
                    ..row(
                        "sponge.flour",
                        "all-purpose flour",
                        180.0,
                        "180 g",
                        "1 cup + 7 Tbsp",
                    )
                }
                .line(),
                Row {
                    percent: Some((0.1, "10 %")),
                    detail: Some("warm, 41 °C / 106 °F"),
                    ..row("sponge.waking-milk", "whole milk", 60.0, "60 g", "¼ cup")
                }
                .line(),
                Row {
                    percent: Some((0.25, "25 %")),
                    detail: Some("from the refrigerator"),
                    ..row(
                        "sponge.milk",
                        "whole milk",
                        150.0,
                        "150 g",
                        "½ cup + 2 Tbsp",
                    )
                }
                .line(),
                Row {
                    percent: Some((0.0133, "1.3 %")),
                    error: Some((0.05, "+5 %")),
                    ..row("sponge.sugar", "granulated sugar", 8.0, "8 g", "2 tsp")
                }
                .line(),
                Row {
                    percent: Some((0.015, "1.5 %")),
                    footnote: Some(3),
                    ..row("sponge.yeast", "active dry yeast", 9.0, "9 g", "1 Tbsp")
                }
                .line(),
            ],
            sum: derived("stage.sponge.sum", 0.407, "kg", "407 g"),
            in_dough: true,
        },
        StageLines {
            heading: text("Dough"),
            flour_share: Some(derived("stage.dough.flour", 0.7, "1", "70 % of the flour")),
            items: vec![
                ItemLine {
                    grams: None,
                    measure: None,
                    measure_error: None,
                    name: text("sponge"),
                    detail: Some(text("all of it")),
                    percent: None,
                    place: None,
                    footnote: None,
                },
                Row {
                    percent: Some((0.7, "70 %")),
                    detail: Some("11 % protein, at room temperature"),
                    footnote: Some(1),
                    ..row(
                        "dough.flour",
                        "all-purpose flour",
                        420.0,
                        "420 g",
                        "3⅓ cups",
                    )
                }
                .line(),
                Row {
                    percent: Some((0.25, "25 %")),
                    detail: Some("at 20 °C / 68 °F"),
                    footnote: Some(2),
                    ..row("dough.eggs", "eggs", 150.0, "150 g", "3 large")
                }
                .line(),
                Row {
                    percent: Some((0.1067, "10.7 %")),
                    error: Some((-0.023, "−2.3 %")),
                    ..row("dough.sugar", "granulated sugar", 64.0, "64 g", "5 Tbsp")
                }
                .line(),
                Row {
                    percent: Some((0.0183, "1.8 %")),
                    error: Some((-0.045, "−4.5 %")),
                    footnote: Some(4),
                    ..row("dough.salt", "fine salt", 11.0, "11 g", "1¾ tsp")
                }
                .line(),
                Row {
                    percent: Some((0.3, "30 %")),
                    detail: Some("soft but cool, in pieces, 18 °C / 64 °F"),
                    ..row(
                        "dough.butter",
                        "unsalted butter",
                        180.0,
                        "180 g",
                        "¾ cup + 2 tsp",
                    )
                }
                .line(),
            ],
            sum: derived("stage.dough.sum", 1.232, "kg", "1232 g"),
            in_dough: true,
        },
    ]
}

/// What goes on bench, tin and top.
pub(super) fn besides() -> Vec<ItemLine> {
    vec![
        Row {
            place: Some("for the bench"),
            ..row("besides.flour", "all-purpose flour", 15.0, "15 g", "2 Tbsp")
        }
        .line(),
        Row {
            place: Some("for the tin"),
            ..row("besides.butter", "unsalted butter", 8.0, "8 g", "1¾ tsp")
        }
        .line(),
        Row {
            place: Some("for the top"),
            detail: Some("35 % fat"),
            ..row("besides.cream", "cream", 20.0, "20 g", "4 tsp")
        }
        .line(),
        Row {
            place: Some("for the top of the buns"),
            error: Some((-0.042, "−4.2 %")),
            ..row(
                "besides.almonds",
                "flaked almonds with their skin, lightly toasted and cooled",
                15.0,
                "15 g",
                "2½ Tbsp",
            )
        }
        .line(),
    ]
}

/// An ingredient line in short.
struct Row {
    key: &'static str,
    name: &'static str,
    grams: f64,
    shown: &'static str,
    measure: &'static str,
    error: Option<(f64, &'static str)>,
    percent: Option<(f64, &'static str)>,
    detail: Option<&'static str>,
    place: Option<&'static str>,
    footnote: Option<usize>,
}

const fn row(
    key: &'static str,
    name: &'static str,
    grams: f64,
    shown: &'static str,
    measure: &'static str,
) -> Row {
    Row {
        key,
        name,
        grams,
        shown,
        measure,
        error: None,
        percent: None,
        detail: None,
        place: None,
        footnote: None,
    }
}

impl Row {
    fn line(self) -> ItemLine {
        let key = |part: &str| format!("stage.{}.{part}", self.key);
        ItemLine {
            grams: Some(written(&key("mass"), self.grams / 1e3, "kg", self.shown)),
            measure: Some(derived(
                &key("measure"),
                self.grams / 1e3,
                "kg",
                self.measure,
            )),
            measure_error: self
                .error
                .map(|(share, shown)| derived(&key("error"), share, "1", shown)),
            name: text(self.name),
            detail: self.detail.map(text),
            percent: self
                .percent
                .map(|(share, shown)| derived(&key("percent"), share, "1", shown)),
            place: self.place.map(text),
            footnote: self.footnote,
        }
    }
}
