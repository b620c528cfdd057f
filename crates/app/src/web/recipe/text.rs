//! The recipe as plain text, as it would be mailed or printed.

use super::{Opened, Tab};
use crate::web::desk::{Asked, Desk, aside};
use crate::web::refusal::Answer;
use axum::extract::{Path, Query, State};
use maud::html;
use std::sync::Arc;

/// Columns of a telephone held upright, 320 CSS pixels of which the page's margins take 32.
const NARROW: usize = 32;

/// `GET /recipe/{name}/text`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        Ok(opened.readable(Tab::Text).map_or_else(
            |instead| *instead,
            |ledger| {
                let wide = press::text::text(ledger, press::terminal::COLUMNS);
                let narrow = press::text::text(ledger, NARROW);
                let main = html! {
                    section {
                        h2 { "As plain text" }
                        pre.sheet.wide tabindex="0" role="group" aria-label="The recipe as plain text" { (wide) }
                        pre.sheet.narrow tabindex="0" role="group" aria-label="The recipe as plain text" { (narrow) }
                    }
                };
                opened.show(Tab::Text, &main)
            },
        ))
    })
    .await
}
