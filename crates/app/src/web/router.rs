//! Every address of the notebook and what answers there.

use super::desk::Desk;
use super::{bench, contents, explain, guard, pasted, recipe, script, shell, under_way};
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
        .route("/recipe/{name}/beside", post(recipe::write::beside_it))
        .route(
            "/recipe/{name}/history",
            get(recipe::history::show).post(recipe::history::bring_back),
        )
        .route(
            "/recipe/{name}/history/{number}",
            get(recipe::history::version::show),
        )
        .route("/recipe/{name}/pin", post(recipe::history::pin))
        .route("/recipe/{name}/formula", get(recipe::formula::show))
        .route("/recipe/{name}/findings", get(recipe::findings::show))
        .route("/recipe/{name}/what-if", get(recipe::what_if::show))
        .route(
            "/recipe/{name}/elsewhere",
            get(recipe::elsewhere::show).post(recipe::elsewhere::begin),
        )
        .route(
            "/recipe/{name}/reader",
            get(recipe::reader::show).post(recipe::reader::begin),
        )
        .route(
            "/recipe/{name}/words",
            get(recipe::words::show).post(recipe::words::hold),
        )
        .route("/recipe/{name}/answers", get(recipe::answers::show))
        .route("/recipe/{name}/answers.html", get(recipe::answers::page))
        .route(
            "/recipe/{name}/day",
            get(recipe::day::show).post(recipe::day::begin),
        )
        .route(
            "/recipe/{name}/filming",
            get(recipe::filming::show).post(recipe::filming::begin),
        )
        .route(
            "/recipe/{name}/filming/scenes",
            get(recipe::filming::scenes::show).post(recipe::filming::scenes::save),
        )
        .route("/recipe/{name}/papers.zip", get(recipe::papers::archive))
        .route("/in-hand/{number}", get(under_way::show))
        .route("/in-hand/{number}/stop", post(under_way::stop))
        .route("/in-hand/{number}/file/{file}", get(under_way::file))
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
        .route("/handbook/filming-day", get(explain::filming_day))
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
