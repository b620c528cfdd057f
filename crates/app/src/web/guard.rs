//! Who may ask, and what every answer carries: the host check and the headers that keep pages to themselves.

use super::desk::Desk;
use super::refusal::Refusal;
use super::share;
use axum::body::{Body, Bytes, HttpBody};
use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::future::poll_fn;
use std::pin::Pin;
use std::sync::Arc;

/// The largest thing that may be sent, in bytes.
pub const MOST_BYTES: usize = 1024 * 1024;

/// Our pages load their own style, scripts and icon and ask this program alone; none can be framed.
const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; \
                      img-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// Headers of every answer, besides the policy.
const HEADERS: [(HeaderName, &str); 4] = [
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (
        HeaderName::from_static("cross-origin-resource-policy"),
        "same-origin",
    ),
    (
        HeaderName::from_static("cross-origin-opener-policy"),
        "same-origin",
    ),
];

/// Checks the host, answers, and puts headers on the answer.
///
/// A site elsewhere can let its name point at this machine; its visitors' browsers would then let it
/// read the pages. They would still ask for it by its own name, which is not on our list.
pub async fn guard(State(desk): State<Arc<Desk>>, request: Request, next: Next) -> Response {
    let mut answer = if known(&desk, &request) {
        let answer = match tokio::time::timeout(desk.patience, taken_in(request)).await {
            Err(_) => slow().into_response(),
            Ok(None) => Refusal::of_status(StatusCode::PAYLOAD_TOO_LARGE).into_response(),
            Ok(Some(request)) => match share::gate(&desk, request).await {
                Ok(request) => next.run(request).await,
                Err(answer) => answer,
            },
        };
        spoken(answer)
    } else {
        let said = "The notebook answers under its own address alone.";
        let hint = "Open the address that the program printed when it began.";
        Refusal::new(StatusCode::MISDIRECTED_REQUEST, said)
            .hint(hint)
            .into_response()
    };
    let headers = answer.headers_mut();
    for (name, value) in HEADERS {
        headers.insert(name, HeaderValue::from_static(value));
    }
    if desk.pairing.is_some() {
        // Over the network a browser says nothing of the site that a form is from but its origin, and says
        // even that only where it may say where it comes from.
        headers.insert(
            header::REFERRER_POLICY,
            HeaderValue::from_static("same-origin"),
        );
    }
    if !headers.contains_key(header::CONTENT_SECURITY_POLICY) {
        headers.insert(
            header::CONTENT_SECURITY_POLICY,
            HeaderValue::from_static(POLICY),
        );
    }
    answer
}

/// Whether the request is for one of our hosts: by its one Host header, and by its address where
/// that carries a host too.
fn known(desk: &Desk, request: &Request) -> bool {
    let ours = |host: &str| desk.hosts.contains(&host.to_ascii_lowercase());
    let by_address = request
        .uri()
        .authority()
        .is_none_or(|authority| ours(authority.as_str()));
    let mut hosts = request.headers().get_all(header::HOST).iter();
    let by_header = match (hosts.next(), hosts.next()) {
        (Some(host), None) => host.to_str().is_ok_and(ours),
        _ => false,
    };
    by_address && by_header
}

/// A request with all that is sent in it; none when that is too much. What is too much is taken in to
/// its end and thrown away, so that the browser gets to hear why.
async fn taken_in(request: Request) -> Option<Request> {
    const PATIENCE_BYTES: u64 = 1024 * 1024 * 1024;
    let claimed = length(request.headers());
    let (parts, mut body) = request.into_parts();
    if claimed.is_some_and(|length| length > PATIENCE_BYTES) {
        return None;
    }
    let mut bytes = Vec::new();
    let mut taken = 0;
    // A body that breaks off is one that the forms cannot read; they say so.
    while let Some(Ok(frame)) = poll_fn(|context| Pin::new(&mut body).poll_frame(context)).await {
        let data = frame.into_data().unwrap_or_else(|_| Bytes::new());
        taken += data.len() as u64;
        if taken > PATIENCE_BYTES {
            return None;
        }
        if taken <= MOST_BYTES as u64 {
            bytes.extend_from_slice(&data);
        } else {
            bytes = Vec::new();
        }
    }
    (taken <= MOST_BYTES as u64).then(|| Request::from_parts(parts, Body::from(bytes)))
}

fn length(headers: &HeaderMap) -> Option<u64> {
    let text = headers.get(header::CONTENT_LENGTH)?.to_str().ok()?;
    text.parse().ok()
}

fn slow() -> Refusal {
    Refusal::new(
        StatusCode::REQUEST_TIMEOUT,
        "What was sent came too slowly, so nothing of it was kept.",
    )
    .hint("Your browser’s way back leads to what you wrote; send it again.")
}

/// A refusal that is not a page yet becomes one.
fn spoken(answer: Response) -> Response {
    let status = answer.status();
    let is_page = answer
        .headers()
        .get(header::CONTENT_TYPE)
        .is_some_and(|kind| kind.as_bytes().starts_with(b"text/html"));
    if is_page || !(status.is_client_error() || status.is_server_error()) {
        return answer;
    }
    Refusal::of_status(status).into_response()
}
