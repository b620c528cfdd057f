//! The recipe as plain text, as it would be mailed or printed.

use super::{Opened, Tab};
use crate::web::desk::{Asked, Desk, aside};
use crate::web::refusal::Answer;
use axum::extract::{Path, Query, State};
use maud::html;
use std::sync::Arc;

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
                let text = press::text::text(ledger, press::terminal::COLUMNS);
                let main = html! {
                    section {
                        h2 { "As plain text" }
                        // Its lines are 80 characters long; on a narrow screen they scroll inside.
                        pre.sheet tabindex="0" role="group" aria-label="The recipe as plain text" { (text) }
                    }
                };
                opened.show(Tab::Text, &main)
            },
        ))
    })
    .await
}
