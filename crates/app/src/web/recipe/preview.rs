//! The published page at an address of its own, under a policy that lets exactly its own style through.

use super::{Opened, Tab};
use crate::cli::reckoned::reckoned;
use crate::web::desk::{Asked, Desk, aside};
use crate::web::digest;
use crate::web::refusal::{Answer, Refusal};
use crate::world::read;
use axum::extract::{Path, Query, State};
use axum::http::header;
use axum::response::{Html, IntoResponse};
use std::sync::Arc;

/// `GET /recipe/{name}/page/`
pub async fn page(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let mut opened = Opened::of(desk, &name, asked)?;
        reckoned(&mut opened.work);
        let ledger = match opened.readable(Tab::Page) {
            Ok(ledger) => ledger,
            Err(instead) => return Ok(*instead),
        };
        let options = super::papers::options(desk, ledger);
        let style = digest::base64(press::page::style().as_bytes());
        let policy = format!(
            "default-src 'none'; style-src 'sha256-{style}'; img-src 'self'; form-action 'none'; \
             base-uri 'none'; frame-ancestors 'none'"
        );
        let headers = [
            (header::CONTENT_SECURITY_POLICY, policy),
            (header::CACHE_CONTROL, "no-store".to_owned()),
        ];
        Ok((headers, Html(press::page::page(ledger, &options))).into_response())
    })
    .await
}

/// `GET /recipe/{name}/page/{file}`: a photograph that the recipe names.
pub async fn beside(
    State(desk): State<Arc<Desk>>,
    Path((name, file)): Path<(String, String)>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, Asked::default())?;
        let named = opened
            .ledger()
            .is_some_and(|ledger| ledger.photos.iter().any(|(photo, _, _)| *photo == file));
        let path = desk.notebook.beside(&file)?.filter(|_| named);
        let path = path.ok_or_else(|| Refusal::not_found("No photograph of that name is here."))?;
        let kind = [(header::CONTENT_TYPE, kind(&file))];
        Ok((kind, read::whole(&path)?).into_response())
    })
    .await
}

/// The media type of a photograph. Nothing that a browser could run is among them.
fn kind(file: &str) -> &'static str {
    let ending = file
        .rsplit('.')
        .next()
        .unwrap_or_default()
        .to_ascii_lowercase();
    match ending.as_str() {
        "jpg" | "jpeg" => "image/jpeg",
        "png" => "image/png",
        "webp" => "image/webp",
        "avif" => "image/avif",
        "gif" => "image/gif",
        _ => "application/octet-stream",
    }
}
