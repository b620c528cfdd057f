//! A recipe written by filling in a form; the file beneath it keeps everything that has no field.

mod about;
pub mod view;
mod words;

use super::between::Unsaved;
use super::write::{changed_elsewhere, filled_from, kept, mark};
use super::{Opened, Tab};
use crate::web::desk::{Asked, Desk, aside};
use crate::web::refusal::{Answer, Refusal};
use crate::world::notebook::{Kept, Name};
use axum::extract::{Form, Path, Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use press::address::relative;
use recipe::document::form::{Act, acted, filled, form};
use std::collections::BTreeMap;
use std::sync::Arc;

/// `GET /recipe/{name}/form`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        Ok(page(&opened, None))
    })
    .await
}

/// `POST /recipe/{name}/form/look`: the page as it would be, nothing kept.
pub async fn look(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Form(sent): Form<Vec<(String, String)>>,
) -> Answer {
    aside(desk, move |desk| {
        let sent = Sent::of(sent);
        let (name, there) = there(desk, &name)?;
        let base = shown(desk, &name, &sent.seen, there.as_deref()).ok_or_else(gone)?;
        let made = made(&base, &sent)?;
        let elsewhere = changed_elsewhere(there.as_deref(), &sent.seen, made.as_bytes());
        let opened = Opened::with(desk, &name, made.into_bytes(), asked)?;
        Ok(page(&opened, Some((&sent.seen, elsewhere))))
    })
    .await
}

/// `POST /recipe/{name}/form`: what was filled in becomes part of the file. When the file was changed
/// elsewhere meanwhile it stays, and the cook chooses between both.
pub async fn save(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Form(sent): Form<Vec<(String, String)>>,
) -> Answer {
    aside(desk, move |desk| {
        let sent = Sent::of(sent);
        let _one = desk.saving();
        let (name, there) = there(desk, &name)?;
        let base = shown(desk, &name, &sent.seen, there.as_deref()).ok_or_else(gone)?;
        let text = made(&base, &sent)?;
        let unsaved = Unsaved {
            name: &name,
            text: &text,
            seen: &sent.seen,
            window: None,
            carried: &asked.carried(),
            tab: Tab::Form,
        };
        let (name, more) = match kept(desk, &unsaved, there.as_deref(), false) {
            Ok(kept) => kept,
            Err(page) => return Ok(*page),
        };
        let carried = asked.carried_and(&more);
        let to = sent.back_to.map(|place| format!("#{place}"));
        let there = format!(
            "/recipe/{}{}{carried}{}",
            relative(name.text()),
            Tab::Form.path(),
            to.unwrap_or_default()
        );
        Ok(Redirect::to(&there).into_response())
    })
    .await
}

fn gone() -> Refusal {
    Refusal::not_found("There is no recipe of that name in the notebook.")
}

/// The file of a name; none when it is not there.
fn there(desk: &Desk, name: &str) -> Result<(Name, Option<Vec<u8>>), Refusal> {
    let name = Name::of(name).ok_or_else(gone)?;
    let there = desk.notebook.read(Kept::Recipe, &name)?;
    Ok((name, there))
}

/// The text whose fields the page showed: what was changed elsewhere since then has no part in what it
/// sends. Without a record there is only the file as it is now.
fn shown(desk: &Desk, name: &Name, seen: &str, there: Option<&[u8]>) -> Option<Vec<u8>> {
    let now = there.filter(|bytes| mark(bytes) == seen);
    match now {
        Some(bytes) => Some(bytes.to_vec()),
        None => filled_from(desk, name, seen).or_else(|| there.map(<[u8]>::to_vec)),
    }
}

/// What a form sends.
struct Sent {
    typed: BTreeMap<String, String>,
    act: Option<Act>,
    /// What the file was when the form was shown.
    seen: String,
    /// The part of the page to come back to.
    back_to: Option<String>,
}

impl Sent {
    fn of(fields: Vec<(String, String)>) -> Self {
        let mut sent = Self {
            typed: BTreeMap::new(),
            act: None,
            seen: String::new(),
            back_to: None,
        };
        let mut kinds = BTreeMap::new();
        let mut act = None;
        for (name, value) in fields {
            match name.as_str() {
                "seen" => sent.seen = value,
                _ => {
                    if let Some(words) = name.strip_prefix("act:") {
                        act = Some(words.replace(':', " "));
                    } else if let Some(part) = name.strip_prefix("kind.") {
                        kinds.insert(part.to_owned(), value);
                    } else {
                        sent.typed.insert(name, value);
                    }
                }
            }
        }
        let Some(act) = act else { return sent };
        // The kind of a new step is chosen in a list beside its button.
        let whole = match act.strip_prefix("add-step ") {
            Some(part) => kinds.get(part).map(|kind| format!("{act} {kind}")),
            None => Some(act.clone()),
        };
        sent.act = whole.as_deref().and_then(Act::of);
        let part = act.split(' ').nth(1).unwrap_or_default();
        let place: Vec<&str> = part.split('.').take(2).collect();
        sent.back_to = Some(view::id(&place.join(".")));
        sent
    }
}

/// The file with what was sent.
fn made(there: &[u8], sent: &Sent) -> Result<String, Refusal> {
    let unreadable = || {
        Refusal::new(
            StatusCode::UNPROCESSABLE_ENTITY,
            "The file cannot be read, so nothing in it was changed.",
        )
        .hint("Mend it as text first; your browser’s way back leads to what you filled in.")
    };
    let text = std::str::from_utf8(there).map_err(|_| unreadable())?;
    let filled = filled(text, &sent.typed).map_err(|_| unreadable())?;
    match &sent.act {
        None => Ok(filled),
        Some(act) => acted(&filled, act).map_err(|fault| {
            Refusal::new(StatusCode::CONFLICT, fault.to_string())
                .hint("The recipe was changed in another window.")
        }),
    }
}

/// The form; while it is filled in it goes on from the text that it was shown for, and says what was
/// changed elsewhere.
fn page(opened: &Opened, filling: Option<(&str, Option<&str>)>) -> Response {
    let text = std::str::from_utf8(&opened.bytes).ok();
    let (seen, elsewhere) = match filling {
        Some((seen, elsewhere)) => (seen.to_owned(), elsewhere),
        None => (mark(&opened.bytes), None),
    };
    let main = match text.and_then(form) {
        Some(form) => view::form(opened, &form, &seen, elsewhere),
        None => view::unreadable(opened),
    };
    opened.show(Tab::Form, &main)
}

impl Sent {
    /// For tests: whether an act was understood.
    #[cfg(test)]
    const fn acts(&self) -> bool {
        self.act.is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::Sent;

    #[test]
    fn a_new_step_takes_the_kind_beside_its_button() {
        let pair = |name: &str, value: &str| (name.to_owned(), value.to_owned());
        let sent = Sent::of(vec![
            pair("seen", "x"),
            pair("kind.stage.0", "rest"),
            pair("stage.0.name", "dough"),
            pair("act:add-step:stage.0", ""),
        ]);
        assert!(sent.acts());
        assert_eq!(sent.back_to.as_deref(), Some("stage-0"));
        assert_eq!(sent.typed.len(), 1);
        let without = Sent::of(vec![pair("act:add-step:stage.0", "")]);
        assert!(!without.acts());
    }
}
