//! The formula of a recipe: what goes in, percentages, pieces.

use super::{Opened, Tab};
use crate::web::desk::{Asked, Desk, aside};
use crate::web::refusal::Answer;
use axum::extract::{Path, Query, State};
use maud::html;
use std::sync::Arc;

/// `GET /recipe/{name}/formula`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        Ok(opened.readable(Tab::Formula).map_or_else(
            |instead| *instead,
            |ledger| opened.show(Tab::Formula, &html! { (press::page::formula(ledger)) }),
        ))
    })
    .await
}
