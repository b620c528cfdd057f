//! What cannot be answered, said as a page: what is wrong, and a way out.

use super::shell::{Shell, page};
use crate::failure::Failure;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};

/// Why there is no answer.
#[derive(Debug)]
pub struct Refusal {
    status: StatusCode,
    said: String,
    hint: Option<String>,
}

/// What a handler gives back.
pub type Answer = Result<Response, Refusal>;

impl Refusal {
    /// Of a status, with a sentence.
    pub fn new(status: StatusCode, said: impl Into<String>) -> Self {
        Self {
            status,
            said: said.into(),
            hint: None,
        }
    }

    /// Nothing is at this address.
    pub fn not_found(said: &str) -> Self {
        Self::new(StatusCode::NOT_FOUND, said)
            .hint("It may have been renamed. The contents list all there is.")
    }

    /// A mistake of ours.
    pub fn bug(said: &str) -> Self {
        Failure::Bug(said.to_owned()).into()
    }

    /// Adds a way out.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// With the form that it is about, when what was typed into it was not understood: nothing of it is lost.
    pub fn beside(self, form: impl FnOnce(Markup) -> Answer) -> Answer {
        if self.status != StatusCode::UNPROCESSABLE_ENTITY {
            return Err(self);
        }
        let told = html! {
            div.faults role="alert" {
                h2 { "Not understood" }
                p { (self.said) }
                @if let Some(hint) = &self.hint { p { (hint) } }
            }
        };
        let page = form(told)?;
        Ok((self.status, page).into_response())
    }

    /// What to say of a status that something below us answered with.
    pub fn of_status(status: StatusCode) -> Self {
        let said = match status {
            StatusCode::NOT_FOUND => {
                return Self::not_found("There is nothing at this address.");
            }
            StatusCode::METHOD_NOT_ALLOWED => "This address does not take what was sent to it.",
            StatusCode::PAYLOAD_TOO_LARGE => {
                return Self::new(
                    status,
                    "That is larger than 1 MiB, more than a recipe needs.",
                )
                .hint("Paste the part of the text that is the recipe.");
            }
            StatusCode::FORBIDDEN => {
                return Self::new(
                    status,
                    "This form was sent from another site, so nothing was changed.",
                )
                .hint("If it was you, go to the notebook's own page and send it from there.");
            }
            StatusCode::BAD_REQUEST
            | StatusCode::UNPROCESSABLE_ENTITY
            | StatusCode::UNSUPPORTED_MEDIA_TYPE => "What was sent could not be read.",
            _ => "This could not be answered.",
        };
        Self::new(status, said)
    }
}

impl From<Failure> for Refusal {
    fn from(failure: Failure) -> Self {
        let status = match failure {
            Failure::Usage(_) => StatusCode::UNPROCESSABLE_ENTITY,
            Failure::World { .. } | Failure::Bug(_) => StatusCode::INTERNAL_SERVER_ERROR,
        };
        let text = failure.to_string();
        let (said, hint) = match text.split_once('\n') {
            Some((said, hint)) => (said.to_owned(), Some(hint.to_owned())),
            None => (text, None),
        };
        let mut said = edit::ledger::say::capital(&said);
        if !said.ends_with('.') {
            said.push('.');
        }
        Self { status, said, hint }
    }
}

impl IntoResponse for Refusal {
    fn into_response(self) -> Response {
        let title = match self.status {
            StatusCode::NOT_FOUND => "Not found",
            StatusCode::FORBIDDEN | StatusCode::MISDIRECTED_REQUEST => "Refused",
            StatusCode::PAYLOAD_TOO_LARGE => "Too large",
            StatusCode::REQUEST_TIMEOUT => "Too slow",
            status if status.is_server_error() => "Something went wrong",
            _ => "That did not work",
        };
        let body = html! {
            h1 { (title) }
            p.lead { (self.said) }
            @if let Some(hint) = &self.hint { p { (hint) } }
            p { a href="/" { "Contents of the notebook" } }
        };
        (self.status, page(&Shell::titled(title), &body)).into_response()
    }
}
