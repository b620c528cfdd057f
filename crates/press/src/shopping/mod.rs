//! The shopping list on paper: boxes to tick, grams, packs and what is left of them.

use edit::ledger::model::{Figure, Ledger, Shopping, ShoppingLine};
use serde_json::{Value, json};

use crate::pdf::{Laid, PdfFault, Template, lay_out_value, palette};

/// The paper of a list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum ListSize {
    /// ISO 216 A5, for the pocket.
    #[default]
    A5,
    /// ISO 216 A4.
    A4,
    /// US letter.
    Letter,
}

impl ListSize {
    /// Width and height in millimetres.
    pub const fn size_mm(self) -> (f64, f64) {
        match self {
            Self::A5 => (148.0, 210.0),
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }
}

/// The list as PDF/UA-1; the same bytes for the same list. `language` is that of its readers
/// (BCP 47).
pub fn list(
    shopping: &Shopping,
    imprint: &str,
    language: &str,
    size: ListSize,
) -> Result<Vec<u8>, PdfFault> {
    laid(shopping, "shopping", imprint, language, size)?.export()
}

/// The list of a ledger: one batch.
pub(crate) fn of_ledger(ledger: &Ledger, size: ListSize) -> Result<Laid, PdfFault> {
    laid(
        &ledger.shopping,
        &ledger.slug,
        &ledger.imprint,
        ledger.language,
        size,
    )
}

fn laid(
    shopping: &Shopping,
    ident: &str,
    imprint: &str,
    language: &str,
    size: ListSize,
) -> Result<Laid, PdfFault> {
    let (width_mm, height_mm) = size.size_mm();
    let roomy = size != ListSize::A5;
    let template = Template {
        text: include_str!("../../templates/shopping.typ"),
        name: "shopping",
        paper: json!({
            "width": width_mm,
            "height": height_mm,
            "type": if roomy { 11.0 } else { 9.5 },
            "margin": if roomy { 15.0 } else { 10.0 },
        }),
    };
    let data = json!({
        "title": "Shopping list",
        "of": shopping.of,
        "groups": shopping.groups.iter().map(|group| json!({
            "heading": group.heading,
            "lines": group.lines.iter().map(line).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "contains": shopping.contains,
        "notes": shopping.notes,
        "imprint": imprint,
        "colours": palette(),
    });
    lay_out_value(&data, ident, language, &template)
}

/// What a line prints.
pub(crate) fn printed(own: &ShoppingLine) -> String {
    line(own).to_string()
}

fn line(line: &ShoppingLine) -> Value {
    let shown = |figure: &Option<Figure>| figure.as_ref().map(|figure| figure.shown.clone());
    json!({
        "need": shown(&line.need),
        "count": shown(&line.count),
        "name": line.name,
        "detail": line.detail,
        "packs": shown(&line.packs),
        "left": shown(&line.left),
        "goes": line.goes,
    })
}
