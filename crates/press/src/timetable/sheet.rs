//! A planned day on paper: when each bread is ready, what to look at, the table with boxes to tick, the drawing.

use edit::ledger::day::{BreadLine, DayLines};
use edit::ledger::model::Figure;
use edit::ledger::timetable::TableLines;
use serde_json::{Value, json};

use crate::papers::Sheet;
use crate::pdf::{PdfFault, Template, lay_out_with, palette};

/// Blank at the edges of the paper, and what the foot of a page takes besides, mm.
const MARGIN_MM: f64 = 14.0;
const FOOT_MM: f64 = 3.0;
/// Height of the heading over the drawing, mm.
const HEADING_MM: f64 = 12.0;

/// The sheet as PDF/UA-1; the same bytes for the same day. `language` is that of its readers (BCP 47).
pub fn sheet(
    table: &TableLines,
    imprint: &str,
    language: &str,
    size: Sheet,
) -> Result<Vec<u8>, PdfFault> {
    let head = json!({ "breads": [], "sums": [], "verdict": [], "legend": [], "findings": [] });
    set(table, &head, imprint, language, size)
}

/// The sheet of a bake day: its breads stand first, with what was found about the day.
pub fn day_sheet(
    day: &DayLines,
    findings: &[String],
    imprint: &str,
    language: &str,
    size: Sheet,
) -> Result<Vec<u8>, PdfFault> {
    let several = day
        .breads
        .iter()
        .any(|bread| bread.batch != day.breads[0].batch);
    let shown = |figure: &Option<Figure>| figure.as_ref().map(|figure| figure.shown.clone());
    let bread = |bread: &BreadLine| {
        json!({
            "name": bread.name,
            "batch": if several { &bread.batch } else { "" },
            "into": bread.into.shown,
            "out": bread.out.shown,
            "ready": bread.ready.shown,
            "wanted": shown(&bread.wanted),
            "waits": shown(&bread.waits),
        })
    };
    let sums = day.sums.iter();
    let head = json!({
        "breads": day.breads.iter().map(bread).collect::<Vec<_>>(),
        "sums": sums.map(|(what, figure)| json!([what, figure.shown])).collect::<Vec<_>>(),
        "verdict": day.verdict,
        "legend": day.legend,
        "findings": findings,
    });
    set(&day.table, &head, imprint, language, size)
}

fn set(
    table: &TableLines,
    head: &Value,
    imprint: &str,
    language: &str,
    size: Sheet,
) -> Result<Vec<u8>, PdfFault> {
    let (width_mm, height_mm) = size.size_mm();
    let template = Template {
        text: include_str!("../../templates/day.typ"),
        name: "day",
        paper: json!({ "width": width_mm, "height": height_mm, "margin": MARGIN_MM, "foot": FOOT_MM }),
    };
    let rows = |date: usize| -> Vec<Value> {
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
                    "tick": row.to_do(),
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
        "kinds": table.legend(),
        "head": head,
        "dates": dates,
        "imprint": imprint,
        "colours": palette(),
    });
    // The drawing lies across a page of its own, on the longer side.
    let room = (
        height_mm - 2.0 * MARGIN_MM,
        width_mm - 2.0 * MARGIN_MM - FOOT_MM - HEADING_MM,
    );
    let drawing = crate::figure::gantt_on(table, room);
    let files = vec![("gantt.svg", drawing)];
    lay_out_with(&data, files, &table.slug, language, &template)?.export()
}
