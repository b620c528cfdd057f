//! How a pack names an ingredient and what it is itself made of, for an ingredient list.

use super::table::Table;
use std::collections::BTreeMap;

/// The words of an ingredient list for one ingredient.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StatementWords {
    /// Key of the table row it shares, its own or that of what it is like.
    pub row: String,
    /// The common or usual name by the law of the United States.
    pub us: String,
    /// What it is made of, in descending order, when it is compound.
    pub parts: Option<String>,
    /// The parts are those of the cook's own pack.
    pub from_pack: bool,
    /// The parts are what is usual (from memory), and packs differ.
    pub typical: bool,
    /// Mills often add malted barley flour, which European law wants named.
    pub malt: bool,
}

/// Remarks by which the table says that a list is only the usual one.
const USUAL: [&str; 4] = ["typical", "read ", "often", "some "];

/// The words of every row of the table of packs, by its key.
pub(super) fn words(table: &Table) -> BTreeMap<&str, StatementWords> {
    let [key, us, parts, note] =
        table.columns(["key", "us_label_name", "us_sub_ingredients", "note"]);
    table
        .rows()
        .map(|row| {
            let listed = row.text(parts);
            let cleaned = without_remarks(listed);
            let words = StatementWords {
                row: row.text(key).to_owned(),
                us: row.text(us).to_owned(),
                parts: (!cleaned.is_empty()).then_some(cleaned),
                from_pack: false,
                typical: USUAL.iter().any(|remark| listed.contains(remark)),
                malt: row.text(note).contains("malted barley"),
            };
            (row.text(key), words)
        })
        .collect()
}

/// The list without its remarks: "sugar, chocolate, (milkfat), vanilla (typical)" is "sugar,
/// chocolate, milkfat, vanilla". What is a remark as a whole is nothing.
fn without_remarks(listed: &str) -> String {
    let mut out = String::new();
    let mut rest = listed;
    while let Some(open) = rest.find('(') {
        let Some(close) = rest[open..].find(')').map(|at| open + at) else {
            break;
        };
        let inside = &rest[open + 1..close];
        out.push_str(&rest[..open]);
        let remark = USUAL.iter().any(|word| inside.contains(word)) || inside.contains(':');
        if !remark && !inside.contains("source varies") && !inside.contains("if ") {
            out.push_str(inside);
        }
        rest = &rest[close + 1..];
    }
    out.push_str(rest);
    let parts: Vec<&str> = out
        .split(',')
        .map(str::trim)
        .filter(|part| !part.is_empty() && !part.starts_with("read "))
        .collect();
    parts
        .join(", ")
        .replace(" ...", "")
        .replace("as margarine", "")
        .trim()
        .to_owned()
}
