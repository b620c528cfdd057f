//! The page's end: nutrition, for information, a plain table for each product.

use edit::ledger::label::model::{LabelLines, Panel, PanelRow, ProductLabel};
use edit::ledger::model::Ledger;
use maud::{Markup, html};

use super::line;

/// Nutrition by the law of the page's readers; nothing when no product is known.
pub(super) fn label(ledger: &Ledger) -> Markup {
    let lines = &ledger.label;
    html! {
        @if !lines.products.is_empty() {
            section.after.label {
                h2 #nutrition { (lines.heading) }
                p { (lines.purpose) }
                @for product in &lines.products { (one(lines, product)) }
                @for (law, remark) in &lines.remarks {
                    @if *law == lines.law { p.small { (remark) } }
                }
                @if !lines.notes.is_empty() {
                    ul.plain.small { @for note in &lines.notes { li { (note) } } }
                }
            }
        }
    }
}

fn one(lines: &LabelLines, product: &ProductLabel) -> Markup {
    let panel = product.panel(lines.law);
    html! {
        h3 { (product.name) }
        p.small {
            (line(&product.baked, &product.figures)) "."
            @if let Some(serving) = &panel.serving { " " (serving) }
        }
        (table(product, panel))
    }
}

fn table(product: &ProductLabel, panel: &Panel) -> Markup {
    html! {
        table.figures {
            caption.unseen { (product.name) ": nutrition" }
            thead {
                tr {
                    th scope="col" { "In" }
                    @for head in &panel.heads { th.amount scope="col" { (head) } }
                }
            }
            tbody { @for row in &panel.rows { (line_of(row)) } }
        }
    }
}

fn line_of(row: &PanelRow) -> Markup {
    let inset = match row.inset {
        0 => None,
        1 => Some("inset"),
        _ => Some("inset more"),
    };
    html! {
        tr {
            th class=[inset] scope="row" { (row.label) }
            @for cell in &row.cells {
                td { @if let Some(figure) = cell { (figure.shown) } }
            }
        }
    }
}
