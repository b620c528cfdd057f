//! The tables that travel inside the program, and how a row of them is read.

use csv::{ReaderBuilder, StringRecord};

pub(super) const INGREDIENTS: &str = include_str!("../../data/ingredients.csv");
pub(super) const ADDITIONS: &str = include_str!("../../data/additions.csv");
pub(super) const NAMES: &str = include_str!("../../data/names.csv");
pub(super) const MARKET_NAMES: &str = include_str!("../../data/market_names.csv");
pub(super) const ROLES: &str = include_str!("../../data/roles.csv");
pub(super) const LABELS: &str = include_str!("../../data/labels.csv");
pub(super) const MEASURES: &str = include_str!("../../data/measures.csv");
pub(super) const SUPPLEMENT: &str = include_str!("../../data/measures_supplement.csv");
pub(super) const EGG_SIZES: &str = include_str!("../../data/egg_sizes.csv");

/// A table held in memory: its head and its rows.
pub(super) struct Table {
    head: StringRecord,
    rows: Vec<StringRecord>,
}

impl Table {
    /// Reads an embedded table. Every row has the width of the head, which the tests hold.
    pub(super) fn read(text: &str) -> Self {
        let mut reader = ReaderBuilder::new().from_reader(text.as_bytes());
        let head = reader
            .headers()
            .expect("an embedded table has a head")
            .clone();
        let rows = reader
            .into_records()
            .map(|row| row.expect("every row of an embedded table has the width of its head"))
            .collect();
        Self { head, rows }
    }

    /// The places of columns, so that each is looked for once and not in every row.
    pub(super) fn columns<const N: usize>(&self, names: [&str; N]) -> [usize; N] {
        names.map(|name| {
            self.head
                .iter()
                .position(|title| title == name)
                .expect("the columns of an embedded table are known")
        })
    }

    /// The rows.
    pub(super) fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(Row)
    }
}

/// One row of a table.
#[derive(Clone, Copy)]
pub(super) struct Row<'a>(&'a StringRecord);

impl<'a> Row<'a> {
    /// The text in a column.
    pub(super) fn text(self, column: usize) -> &'a str {
        self.0.get(column).unwrap_or_default()
    }

    /// The number in a column; a blank is not known and is none, never zero.
    pub(super) fn number(self, column: usize) -> Option<f64> {
        self.text(column).parse().ok()
    }
}
