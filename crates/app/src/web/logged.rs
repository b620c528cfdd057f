//! Each request leaves a line in the log: which kind of page, what came of it, how long it took.

use crate::world::log::Log;
use axum::extract::{MatchedPath, Request, State};
use axum::middleware::Next;
use axum::response::Response;
use std::time::Instant;

/// Lets a request through and notes it. The kind of page is the router's pattern, in which no name stands.
pub async fn logged(State(log): State<Log>, request: Request, next: Next) -> Response {
    let way = request.method().as_str().to_owned();
    let page = request.extensions().get::<MatchedPath>();
    let page = page.map_or("other", MatchedPath::as_str).to_owned();
    let began = Instant::now();
    let response = next.run(request).await;
    let took = began.elapsed().as_millis();
    let status = response.status().as_u16();
    log.note(&format!("{way} {page} {status} {took} ms"));
    response
}
