//! The page's table of rises in rooms of other temperatures, and which times are whose.

use super::whole;
use edit::ledger::model::{Ledger, Reckoned};
use maud::{Markup, html};

/// What the table is called everywhere.
pub const HEADING: &str = "In your kitchen";

/// The table under its heading; nothing where no day was followed.
pub(super) fn reckoned(ledger: &Ledger) -> Markup {
    html! {
        @if let Some(reckoned) = &ledger.reckoned {
            section.after {
                h2 #rooms { (HEADING) }
                p { (reckoned.note) }
                @if !reckoned.rows.is_empty() { (table(reckoned)) }
            }
        }
    }
}

fn table(reckoned: &Reckoned) -> Markup {
    html! {
        table.figures.kitchens {
            caption { "How long each rise takes, by the room" }
            thead {
                tr {
                    th scope="col" { span.unseen { "Rise" } }
                    @for room in &reckoned.rooms { th.amount scope="col" { (room.shown) } }
                }
            }
            tbody {
                @for row in &reckoned.rows {
                    tr {
                        th scope="row" { (row.step) " " (row.what) span.small { " " (row.place) } }
                        @for time in &row.times { td { (whole(&time.shown)) } }
                    }
                }
            }
        }
    }
}
