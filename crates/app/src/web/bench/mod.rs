//! The bake-along: one step a screen, its measures huge, its timers by a clock that nobody can set.
//!
//! What the cook taps is kept in the record with its time before the page answers; every page is worked out
//! from that anew, so a reload, a phone that slept or a program begun again change nothing.

mod begin;
mod frame;
mod heard;
mod kept;
mod learn;
mod log;
mod prepared;
mod show;
mod tap;
mod told;
mod view;

pub use prepared::Shelf;
#[cfg(test)]
pub use told::Tellings;

use super::desk::Desk;
use super::refusal::Refusal;
use crate::world::notebook::{Kept, Name};
use axum::Router;
use axum::http::header;
use axum::routing::{get, post};
use press::address::relative;
use std::sync::Arc;

/// The addresses of the bench.
pub fn routes() -> Router<Arc<Desk>> {
    Router::new()
        .route("/recipe/{name}/bench", get(show::show).post(begin::begin))
        .route("/recipe/{name}/bench/tap", post(tap::tap))
        .route("/recipe/{name}/bench/now", get(show::now))
        .route("/recipe/{name}/log", get(log::show).post(log::report))
        .route("/recipe/{name}/learn", get(learn::show).post(learn::begin))
        .route("/recipe/{name}/learn/keep", post(learn::keep))
        .route(
            "/bench.css",
            get(async || {
                let kind = (header::CONTENT_TYPE, "text/css; charset=utf-8");
                ([kind], frame::RULES)
            }),
        )
}

/// Where the bench of a recipe is.
fn address(name: &Name) -> String {
    format!("/recipe/{}/bench", relative(name.text()))
}

/// The name of a recipe that is there.
fn recipe(desk: &Desk, name: &str) -> Result<(Name, Vec<u8>), Refusal> {
    desk.text(Kept::Recipe, name)
}
