//! Labels to stick on bowls and trays: two across and five down on one sheet, with cut lines.

use edit::ledger::model::Ledger;
use serde_json::json;

use crate::pdf::{Laid, PdfFault, Template, lay_out_value, palette};

/// Labels across and down a sheet.
const GRID: (usize, usize) = (2, 5);

/// Paper left free all round, which most printers at home cannot reach, millimetres.
const MARGIN_MM: f64 = 10.0;

/// The labels as they are set; the stages are repeated until a sheet is full.
pub(crate) fn laid(ledger: &Ledger, (width_mm, height_mm): (f64, f64)) -> Result<Laid, PdfFault> {
    let template = Template {
        text: include_str!("../../templates/labels.typ"),
        name: "labels",
        paper: json!({
            "width": width_mm,
            "height": height_mm,
            "margin": MARGIN_MM,
            "across": GRID.0,
            "down": GRID.1,
        }),
    };
    let kinds = ledger.bowl_labels.len().max(1);
    let on_a_sheet = GRID.0 * GRID.1;
    let cells = kinds.div_ceil(on_a_sheet) * on_a_sheet;
    let labels: Vec<_> = ledger
        .bowl_labels
        .iter()
        .cycle()
        .take(cells)
        .map(|label| {
            json!({
                "heading": label.heading,
                "mass": label.mass.as_ref().map(|mass| mass.shown.clone()),
                "stands": label.stands,
                "contains": label.contains,
            })
        })
        .collect();
    let version = ledger
        .version
        .as_ref()
        .map(|version| format!("version {version}"));
    let data = json!({
        "title": ledger.title,
        "version": version,
        "labels": labels,
        "imprint": ledger.imprint,
        "colours": palette(),
    });
    lay_out_value(&data, &ledger.slug, ledger.language, &template)
}
