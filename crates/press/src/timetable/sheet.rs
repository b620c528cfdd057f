//! A planned day on paper: the drawing across a first page, then the table with boxes to tick.

use edit::ledger::timetable::TableLines;
use serde_json::json;

use crate::papers::Sheet;
use crate::pdf::{PdfFault, Template, lay_out_with, palette};

/// The sheet as PDF/UA-1; the same bytes for the same day. `language` is that of its readers (BCP 47).
pub fn sheet(
    table: &TableLines,
    imprint: &str,
    language: &str,
    size: Sheet,
) -> Result<Vec<u8>, PdfFault> {
    let (width_mm, height_mm) = size.size_mm();
    let template = Template {
        text: include_str!("../../templates/day.typ"),
        name: "day",
        paper: json!({ "width": width_mm, "height": height_mm, "margin": 14.0 }),
    };
    let rows = |date: usize| -> Vec<serde_json::Value> {
        table
            .rows
            .iter()
            .filter(|row| row.date == date)
            .map(|row| {
                json!({
                    "number": row.number.to_string(),
                    "begins": row.begins.shown,
                    "takes": row.takes.as_ref().map(|takes| takes.shown.clone()),
                    "words": row.words,
                    "batch": row.batch,
                    "kind": row.kind.word(),
                    "busy": row.occupies.join(", "),
                    "note": row.note,
                    "alarm": row.alarm,
                })
            })
            .collect()
    };
    let dates: Vec<_> = table
        .dates
        .iter()
        .enumerate()
        .map(|(at, date)| json!({ "date": date, "rows": rows(at) }))
        .collect();
    let data = json!({
        "title": table.title,
        "when": table.when,
        "notes": table.notes,
        "dates": dates,
        "imprint": imprint,
        "colours": palette(),
    });
    let drawing = crate::figure::gantt(table);
    let files = vec![("gantt.svg", drawing)];
    lay_out_with(&data, files, &table.slug, language, &template)?.export()
}
