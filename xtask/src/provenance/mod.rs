//! The page of where every figure is from: constants of the code, rows of the data, and how many were read in no source.

mod constants;
mod label;
mod tables;

pub use label::{Label, Row};
use std::collections::BTreeMap;
use std::path::Path;

/// Where the page stands.
pub const PAGE: &str = "docs/provenance.md";

/// Labels of constants whose own comment says none, and of tables without a column for it: for a file, a folder
/// or a name; the first that fits.
const LABELS: &str = "xtask/src/provenance/labels.csv";

/// Everything that was found.
pub struct Found {
    /// Constants.
    pub constants: Vec<Row>,
    /// Rows of data, one row of the page for each table and label.
    pub tables: Vec<Row>,
    /// Headings `Source` of files that say of a figure inside a function how it was had: file, how often each.
    pub headings: Vec<(String, BTreeMap<&'static str, usize>)>,
}

impl Found {
    /// How many figures nobody of us has read in a source: constants, rows, and mentions in headings.
    pub fn not_read(&self) -> [usize; 3] {
        let of = |rows: &[Row]| -> usize {
            let rows = rows.iter().filter(|row| row.label.is_not_read());
            rows.map(|row| row.figures).sum()
        };
        let mentions = self.headings.iter().flat_map(|(_, said)| said.values());
        [of(&self.constants), of(&self.tables), mentions.sum()]
    }
}

/// Looks the project over.
///
/// # Errors
/// When a file cannot be read, or a figure has no label: then each is named.
pub fn found(root: &Path) -> Result<Found, String> {
    let labels = labels(root)?;
    let given = |place: &str, name: &str| {
        let fits = |row: &&(String, String, Label, String)| {
            let (of, one, ..) = *row;
            (place == of || of.ends_with('/') && place.starts_with(of.as_str()))
                && (one == "*" || one == name)
        };
        labels
            .iter()
            .find(fits)
            .map(|(.., label, says)| (*label, says.clone()))
    };
    let all = constants::constants(root)?;
    let mut headings: Vec<(String, BTreeMap<&'static str, usize>)> = Vec::new();
    for one in &all {
        if headings
            .last()
            .is_some_and(|(place, _)| *place == one.place)
            || one.heading.is_empty()
        {
            continue;
        }
        let said = [
            Label::Memory,
            Label::CommonPractice,
            Label::SecondHand,
            Label::Fitted,
        ];
        let count = |label: Label| one.heading.to_lowercase().matches(label.word()).count();
        let said = said.map(|label| (label.word(), count(label)));
        headings.push((
            one.place.clone(),
            said.into_iter().filter(|(_, number)| *number > 0).collect(),
        ));
    }
    headings.retain(|(_, said)| !said.is_empty());
    let (constants, mut without) = constants::rows(all, given);
    let (tables, more) = tables::rows(root, given)?;
    without.extend(more);
    if !without.is_empty() {
        return Err(format!(
            "{} figures say nowhere how they were had; say it in the comment, or in {LABELS}:\n{}",
            without.len(),
            without.join("\n")
        ));
    }
    Ok(Found {
        constants,
        tables,
        headings,
    })
}

fn labels(root: &Path) -> Result<Vec<(String, String, Label, String)>, String> {
    let mut reader =
        csv::Reader::from_path(root.join(LABELS)).map_err(|why| format!("{LABELS}: {why}"))?;
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|why| format!("{LABELS}: {why}"))?;
        let word = |at: usize| record.get(at).unwrap_or("").to_owned();
        let label = Label::of_word(&word(2))
            .ok_or_else(|| format!("{LABELS}: {:?} is no label", word(2)))?;
        rows.push((word(0), word(1), label, word(3)));
    }
    Ok(rows)
}

/// The page.
pub fn page(found: &Found) -> String {
    let [constants, rows, mentions] = found.not_read();
    let all = constants + rows + mentions;
    let mut out = format!(
        "# Where the figures are from\n\n\
        Written by `cargo run -p xtask -- provenance` out of the comments of the code, the columns of the data and\n\
        `{LABELS}`. A figure that says nowhere how it was had is an error, and the page is then not written.\n\n\
        **{all} figures were read in no source**: {constants} constants, {rows} rows of data, and {mentions} mentions in headings of\n\
        figures that stand inside a function. That number may only fall (`tests/src/provenance.rs`). Figures from memory are used\n\
        because something has to stand there; each says so on the page on which it decides something.\n\n\
        Left out: `numerics` (numerical methods, held against published values by its tests), `press` (measures of drawings and\n\
        paper), whole numbers that count things, and figures inside functions, which the heading Source of their file tells.\n\n\
        | label | what it means | constants | rows of data |\n|---|---|---|---|\n"
    );
    for label in Label::ALL {
        let of = |rows: &[Row]| -> usize {
            let rows = rows.iter().filter(|row| row.label == label);
            rows.map(|row| row.figures).sum()
        };
        let (one, other) = (of(&found.constants), of(&found.tables));
        out.push_str(&format!(
            "| {} | {} | {one} | {other} |\n",
            label.word(),
            label.means()
        ));
    }
    out.push_str(
        "\n## Rows of data\n\n| table | label | rows | where it is said |\n|---|---|---|---|\n",
    );
    for row in &found.tables {
        let place = &row.place;
        let (label, figures, says) = (row.label.word(), row.figures, cell(&row.says));
        out.push_str(&format!(
            "| [{place}](../crates/{place}) | {label} | {figures} | {says} |\n"
        ));
    }
    out.push_str("\n## Headings that speak of figures inside a function\n\n| file | how often it says what |\n|---|---|\n");
    for (place, said) in &found.headings {
        let said: Vec<String> = said
            .iter()
            .map(|(word, number)| format!("{word} {number}"))
            .collect();
        out.push_str(&format!(
            "| [{place}](../crates/{place}) | {} |\n",
            said.join(", ")
        ));
    }
    out.push_str("\n## Constants\n\n");
    for label in Label::ALL {
        let mut own: Vec<&Row> = found
            .constants
            .iter()
            .filter(|row| row.label == label)
            .collect();
        own.sort();
        if own.is_empty() {
            continue;
        }
        out.push_str(&format!(
            "### {}\n\n| file | name | what it says |\n|---|---|---|\n",
            label.word()
        ));
        for row in own {
            let (place, name, says) = (&row.place, &row.name, cell(&row.says));
            out.push_str(&format!(
                "| [{place}](../crates/{place}) | `{name}` | {says} |\n"
            ));
        }
        out.push('\n');
    }
    out.trim_end().to_owned() + "\n"
}

/// A comment within a table's cell.
fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('<', "&lt;")
}

/// Writes it.
///
/// # Errors
/// When a figure has no label, or the page cannot be written.
pub fn write(root: &Path) -> Result<String, String> {
    let found = found(root)?;
    std::fs::write(root.join(PAGE), page(&found)).map_err(|why| format!("{PAGE}: {why}"))?;
    let [constants, rows, mentions] = found.not_read();
    Ok(format!(
        "{PAGE} is written; read in no source: {constants} constants, {rows} rows, {mentions} mentions"
    ))
}
