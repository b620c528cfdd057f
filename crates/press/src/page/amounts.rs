//! The page's amounts: a table for each stage, what goes beside the dough, the formula, the rooms,
//! and the pieces that the dough is cut into.

use edit::ledger::model::{
    Figure, ItemLine, Ledger, MarginKind, ProductLine, RoomTable, StageLines,
};
use maud::{Markup, html};

use super::method::mark;
use super::{line, whole};
use crate::line::{HOW_FAR, says_how_far};

/// Stages with their items on the left; cups, formula and rooms in the margin.
pub(super) fn amounts(ledger: &Ledger) -> Markup {
    html! {
        section {
            h2 #amounts { "Amounts" }
            div.row.tables {
                div {
                    @for stage in &ledger.stages { (stage_table(stage)) }
                    @if !ledger.besides.is_empty() {
                        h3 { "Besides" }
                        (table("Besides the dough", &ledger.besides, None))
                    }
                }
                div.beside {
                    @for note in [&ledger.cup_note, &ledger.words_note].into_iter().flatten() {
                        p { (note) }
                    }
                    @if says_how_far(ledger) { p { (HOW_FAR) } }
                    @if !ledger.formula.is_empty() { (formula(&ledger.formula)) }
                    @for room in &ledger.rooms { (rooms(room)) }
                }
            }
        }
    }
}

fn stage_table(stage: &StageLines) -> Markup {
    let caption = format!("{}: what goes in", stage.heading);
    html! {
        h3 {
            (stage.heading)
            @if let Some(share) = &stage.flour_share { ", " (whole(&share.shown)) }
        }
        (table(&caption, &stage.items, Some(&stage.sum)))
    }
}

/// Grams, kitchen measure, name and share of the flour; the sum under its rule.
fn table(caption: &str, items: &[ItemLine], sum: Option<&Figure>) -> Markup {
    let percents = items.iter().any(|item| item.percent.is_some());
    html! {
        table.amounts {
            caption.unseen { (caption) }
            thead {
                tr {
                    th.grams scope="col" { span.unseen { "Mass" } }
                    th.measure scope="col" { span.unseen { "Kitchen measure" } }
                    th.name scope="col" { span.unseen { "Ingredient" } }
                    @if percents { th.percent scope="col" { "of flour" } }
                }
            }
            tbody { @for item in items { (row(item, percents)) } }
            @if let Some(sum) = sum {
                tfoot {
                    tr {
                        td.grams { (sum.shown) }
                        td.measure {}
                        (name(percents, &html! { "in all" }))
                        @if percents { td.percent {} }
                    }
                }
            }
        }
    }
}

fn row(item: &ItemLine, percents: bool) -> Markup {
    html! {
        tr {
            td.grams { @if let Some(grams) = &item.grams { (grams.shown) } }
            td.measure {
                @if let Some(measure) = &item.measure { (measure.shown) }
                @if let Some(error) = &item.measure_error { " " span.whole { "(" (error.shown) ")" } }
            }
            (name(percents, &html! {
                (item.name)
                @if let Some(detail) = &item.detail { span.detail { ", " (detail) } }
                @if let Some(place) = &item.place { span.detail { ", " (place) } }
                @if let Some(note) = item.footnote {
                    sup { a href=(format!("#note-{note}")) { span.unseen { "note " } (note) } }
                }
            }))
            @if percents {
                td.percent { @if let Some(percent) = &item.percent { (percent.shown) } }
            }
        }
    }
}

/// A row's name: its header when a cell follows it, else a cell, for a header must head something.
fn name(heads: bool, content: &Markup) -> Markup {
    html! {
        @if heads { th.name scope="row" { (content) } } @else { td.name { (content) } }
    }
}

fn formula(lines: &[(String, Figure)]) -> Markup {
    html! {
        table.figures {
            caption { "The formula, in parts of the flour" }
            thead { tr { th scope="col" { span.unseen { "Part" } } th scope="col" { span.unseen { "Amount" } } } }
            tbody {
                @for (label, figure) in lines {
                    tr { th scope="row" { (label) } td { (whole(&figure.shown)) } }
                }
            }
        }
    }
}

fn rooms(table: &RoomTable) -> Markup {
    html! {
        table.figures {
            caption { (table.caption) }
            thead { tr { th scope="col" { "Room" } th.amount scope="col" { "Liquid" } } }
            tbody {
                @for (room, liquid, figure) in &table.rows {
                    tr {
                        th scope="row" { (whole(&room.shown)) }
                        td { (line(liquid, figure.as_slice())) }
                    }
                }
            }
        }
    }
}

/// Products: what they are on the left, bake and mass after it in the margin.
pub(super) fn products(ledger: &Ledger) -> Markup {
    html! {
        @if !ledger.products.is_empty() {
            section {
                h2 { "Pieces" }
                @for product in &ledger.products { (piece(product)) }
            }
        }
    }
}

fn piece(product: &ProductLine) -> Markup {
    html! {
        div.piece {
            div.row {
                div {
                    p {
                        strong { (product.name) } ": " (line(&product.pieces, &product.figures))
                        @if let Some(tin) = &product.tin {
                            span.small { (line(tin, &product.figures)) }
                        }
                    }
                }
                ul.margin.beside {
                    @if let Some(bake) = &product.bake {
                        li.heat {
                            (mark(MarginKind::Heat))
                            (line(bake, &product.figures))
                        }
                    }
                    @if let Some(after) = &product.after {
                        li { (mark(MarginKind::How)) (line(after, &product.figures)) ", baked" }
                    }
                }
            }
        }
    }
}
