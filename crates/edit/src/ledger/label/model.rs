//! The lines of a label as plain values: panels by law, ingredient lists, what is to be said with them, the cost.

use crate::ledger::model::Figure;

/// Whose rules a table follows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Law {
    /// The United States (21 CFR 101.9).
    #[default]
    UnitedStates,
    /// The European Union (Regulation (EU) 1169/2011), which the United Kingdom kept.
    Europe,
}

impl Law {
    /// The word in names of figures and on the command line.
    pub const fn word(self) -> &'static str {
        match self {
            Self::UnitedStates => "us",
            Self::Europe => "eu",
        }
    }
}

/// Everything that is printed about nutrition.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LabelLines {
    /// "Nutrition, for information".
    pub heading: String,
    /// What it is for and what it is not.
    pub purpose: String,
    /// Whose table the page prints.
    pub law: Law,
    /// What the table of that law says of itself, under it.
    pub remarks: Vec<(Law, String)>,
    /// Each product.
    pub products: Vec<ProductLabel>,
    /// What is not known, what is not taken off, what is left over.
    pub notes: Vec<String>,
    /// What is to be read on packs before an ingredient list is copied; printed where lists are.
    pub list_notes: Vec<String>,
}

/// The label of one product.
#[derive(Clone, Debug, PartialEq)]
pub struct ProductLabel {
    /// "Braid".
    pub name: String,
    /// "590 g baked, as weighed", "about 810 g baked, not weighed: the usual loss of 14.5 %".
    pub baked: String,
    /// The figures in that line.
    pub figures: Vec<Figure>,
    /// By the rules of the United States.
    pub us: Panel,
    /// By European rules.
    pub eu: Panel,
    /// The ingredient list of the United States and what it contains.
    pub ingredients_us: Vec<Part>,
    /// The European ingredient list, allergens marked.
    pub ingredients_eu: Vec<Part>,
}

impl ProductLabel {
    /// Its table by a law.
    pub const fn panel(&self, law: Law) -> &Panel {
        match law {
            Law::UnitedStates => &self.us,
            Law::Europe => &self.eu,
        }
    }

    /// Its ingredient list by a law.
    pub fn ingredients(&self, law: Law) -> &[Part] {
        match law {
            Law::UnitedStates => &self.ingredients_us,
            Law::Europe => &self.ingredients_eu,
        }
    }
}

/// A run of an ingredient list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Part {
    /// Words.
    Words(String),
    /// An allergen, to be set apart.
    Allergen(String),
}

/// A table of one law.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Panel {
    /// "1 slice (56 g), about 11 in all"; none where the heads say it.
    pub serving: Option<String>,
    /// Heads of its columns of figures.
    pub heads: [String; 2],
    /// Its rows.
    pub rows: Vec<PanelRow>,
}

/// A row of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelRow {
    /// Which, in one word: "fat", "energy-kcal".
    pub what: &'static str,
    /// "Saturated fat".
    pub label: String,
    /// How far it is set in, from 0.
    pub inset: u8,
    /// Figures of the two columns; none where the law has none.
    pub cells: [Option<Figure>; 2],
    /// Every ingredient's share of the first figure is known, as far as its rounding goes.
    pub complete: bool,
}

/// What a recipe costs by the cook's own prices.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CostLines {
    /// ("bread flour, 500 g", figure or none without a price).
    pub lines: Vec<(String, Option<Figure>)>,
    /// Some of what is used has no price.
    pub partial: bool,
    /// The sum.
    pub sum: Option<Figure>,
    /// ("1 bun", figure).
    pub pieces: Vec<(String, Figure)>,
    /// That the sum is partial, old, without packs, oven and work.
    pub notes: Vec<String>,
}

impl LabelLines {
    /// Every figure of both laws.
    pub fn figures(&self) -> Vec<&Figure> {
        let mut all = Vec::new();
        for product in &self.products {
            all.extend(&product.figures);
            for panel in [&product.us, &product.eu] {
                all.extend(panel.figures());
            }
        }
        all
    }
}

impl Panel {
    /// Its figures, row by row.
    pub fn figures(&self) -> impl Iterator<Item = &Figure> {
        self.rows.iter().flat_map(|row| row.cells.iter().flatten())
    }

    /// A row by its word.
    pub fn row(&self, what: &str) -> Option<&PanelRow> {
        self.rows.iter().find(|row| row.what == what)
    }
}

impl CostLines {
    /// Every figure.
    pub fn figures(&self) -> Vec<&Figure> {
        let lines = self.lines.iter().filter_map(|(_, figure)| figure.as_ref());
        lines
            .chain(&self.sum)
            .chain(self.pieces.iter().map(|(_, figure)| figure))
            .collect()
    }
}
