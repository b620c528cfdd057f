//! Every address of the notebook and what answers there.

use super::desk::Desk;
use super::{bench, contents, explain, guard, pasted, recipe, script, shell};
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::http::{StatusCode, header};
use axum::middleware::from_fn_with_state;
use axum::response::IntoResponse;
use axum::routing::{get, post};
use std::sync::Arc;
use tower_http::csrf::CsrfLayer;
use tower_http::limit::RequestBodyLimitLayer;

/// The pages of a desk.
pub fn router(desk: Desk) -> Router {
    let desk = Arc::new(desk);
    Router::new()
        .route("/", get(contents::show))
        .route("/demo", post(contents::demo))
        .route("/paste", post(contents::paste))
        .route("/pasted/{name}", get(pasted::show))
        .route("/pasted/{name}/line", post(pasted::mend))
        .route("/pasted/{name}/recipe", post(pasted::make))
        .route(
            "/recipe/{name}",
            get(recipe::write::show).post(recipe::write::save),
        )
        .route(
            "/recipe/{name}/form",
            get(recipe::form::show).post(recipe::form::save),
        )
        .route("/recipe/{name}/form/look", post(recipe::form::look))
        .route("/recipe/{name}/formula", get(recipe::formula::show))
        .route("/recipe/{name}/findings", get(recipe::findings::show))
        .route("/recipe/{name}/text", get(recipe::text::show))
        .route(
            "/recipe/{name}/papers",
            get(recipe::papers::show).post(recipe::papers::publish),
        )
        .route("/recipe/{name}/page/", get(recipe::preview::page))
        .route("/recipe/{name}/page/{file}", get(recipe::preview::beside))
        .route("/recipe/{name}/file/{file}", get(recipe::papers::file))
        .merge(bench::routes())
        .route("/explain/{code}", get(explain::show))
        .route("/script/{file}", get(script::show))
        .route(
            "/style.css",
            get(async || {
                (
                    [(header::CONTENT_TYPE, "text/css; charset=utf-8")],
                    shell::style(),
                )
            }),
        )
        .route(
            "/icon.svg",
            get(async || ([(header::CONTENT_TYPE, "image/svg+xml")], shell::icon())),
        )
        .route("/favicon.ico", get(async || StatusCode::NO_CONTENT))
        .fallback(async || StatusCode::NOT_FOUND.into_response())
        .layer(DefaultBodyLimit::max(guard::MOST_BYTES))
        .layer(RequestBodyLimitLayer::new(guard::MOST_BYTES))
        .layer(CsrfLayer::new())
        .layer(from_fn_with_state(desk.clone(), guard::guard))
        .with_state(desk)
}
