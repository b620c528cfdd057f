//! The recipe's file to write in, its findings beside it and its lines numbered below.

use super::between::{self, Unsaved};
use super::findings::{Placed, coded, counts, place, placed, sentence, weight};
use super::{Opened, Tab};
use crate::web::desk::{Asked, By, Desk, aside};
use crate::web::refusal::{Answer, Refusal};
use crate::world::notebook::{Kept, Name};
use crate::world::record::revisions::How;
use axum::extract::{Form, Path, Query, State};
use axum::response::{IntoResponse, Redirect};
use maud::{Markup, PreEscaped, html};
use press::address::relative;
use recipe::source::Severity;
use serde::Deserialize;
use std::sync::Arc;

/// `GET /recipe/{name}`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        let main = match std::str::from_utf8(&opened.bytes) {
            Ok(text) => writing(desk, &opened, text),
            Err(_) => reading(&opened),
        };
        Ok(opened.show(Tab::Write, &main))
    })
    .await
}

/// What the form sends.
#[derive(Deserialize)]
pub struct Written {
    text: String,
    /// What the file was when the form was filled.
    seen: String,
    /// The open page that sends it.
    #[serde(default)]
    window: Option<String>,
    /// `beside` when it is to get a name of its own.
    #[serde(default)]
    under: Option<String>,
}

/// `POST /recipe/{name}`: the text becomes the file. A file that was changed elsewhere meanwhile
/// stays as it is, and the cook chooses between both.
pub async fn save(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Form(written): Form<Written>,
) -> Answer {
    aside(desk, move |desk| {
        let name =
            Name::of(&name).ok_or_else(|| Refusal::not_found("A recipe cannot have that name."))?;
        let _one = desk.saving();
        let there = desk.notebook.read(Kept::Recipe, &name)?;
        let text = with_line_ends_of(&written.text, there.as_deref());
        let changed = there
            .as_deref()
            .filter(|bytes| mark(bytes) != written.seen && *bytes != text.as_bytes());
        let mut by = By {
            how: How::Written,
            window: written.window.clone(),
            from: None,
        };
        let sent = Unsaved {
            name: &name,
            text: &text,
            seen: &written.seen,
            window: written.window.as_deref(),
            carried: &asked.carried(),
        };
        let (name, mut more) = match changed {
            Some(_) if written.under.as_deref() == Some("beside") => {
                let free = desk.notebook.free(&[Kept::Recipe, Kept::Pasted], &name);
                by.how = How::Beside;
                (free, format!("said=beside&other={}", relative(name.text())))
            }
            Some(bytes) => return Ok(between::choose(desk, &sent, bytes)),
            None => (name.clone(), "said=saved".to_owned()),
        };
        match desk.save(Kept::Recipe, &name, text.as_bytes(), &by) {
            Ok(_) => {}
            Err(failure) => return Ok(between::not_saved(&sent, &failure)),
        }
        if let Some(window) = &written.window {
            more += &format!("&window={}", relative(window));
        }
        let carried = asked.carried_and(&more);
        let there = format!("/recipe/{}{carried}", relative(name.text()));
        Ok(Redirect::to(&there).into_response())
    })
    .await
}

/// A browser sends CR LF; the file keeps the line ends that it has.
fn with_line_ends_of(text: &str, there: Option<&[u8]>) -> String {
    let text = text.replace("\r\n", "\n");
    if there.is_some_and(|bytes| bytes.windows(2).any(|two| two == b"\r\n")) {
        text.replace('\n', "\r\n")
    } else {
        text
    }
}

/// `POST /recipe/{name}/beside`: what is to be said of a text while it is written. Nothing is kept.
pub async fn beside_it(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Form(written): Form<Written>,
) -> Answer {
    aside(desk, move |desk| {
        let name =
            Name::of(&name).ok_or_else(|| Refusal::not_found("A recipe cannot have that name."))?;
        let there = desk.notebook.read(Kept::Recipe, &name)?;
        let text = with_line_ends_of(&written.text, there.as_deref());
        let elsewhere = match &there {
            Some(bytes) if mark(bytes) != written.seen && *bytes != text.as_bytes() => Some(
                "This recipe was changed in another window or by another program since this page \
                 was opened. Save, and both versions are shown beside each other.",
            ),
            None if !written.seen.is_empty() => {
                Some("The recipe’s file is no longer in the notebook. Saving puts this text there.")
            }
            _ => None,
        };
        let opened = Opened::with(desk, &name, text.clone().into_bytes(), asked)?;
        let placed = placed(&opened.work);
        let main = html! {
            (hint(elsewhere))
            (found(&opened, &placed))
            (lines(&text, &placed))
        };
        Ok(opened.show(Tab::Write, &main))
    })
    .await
}

/// Said while the page is open, when the file is no longer what it shows.
fn hint(elsewhere: Option<&str>) -> Markup {
    html! { p #elsewhere .strong role="status" { (elsewhere.unwrap_or_default()) } }
}

/// By what a text is known again.
pub fn mark(bytes: &[u8]) -> String {
    crate::web::digest::base64(bytes)
}

fn writing(desk: &Desk, opened: &Opened, text: &str) -> Markup {
    let placed = placed(&opened.work);
    let rows = (text.lines().count() + 3).clamp(8, 28);
    let window = opened.asked().window.clone();
    let window = window.unwrap_or_else(|| desk.window());
    html! {
        @if opened.work.stops() { (summary(&placed)) }
        form.row.write method="post" action=(opened.address(Tab::Write))
            data-live="elsewhere found by-line"
            data-ask=(format!("{}{}", opened.place("/beside"), opened.carried())) {
            div {
                label for="file" { "The recipe’s file, " (Kept::Recipe.file(&opened.name)) }
                input type="hidden" name="seen" value=(mark(&opened.bytes));
                input type="hidden" name="window" value=(window);
                // A reader of HTML drops the first line end of a text field.
                textarea #file name="text" rows=(rows) spellcheck="false" autocapitalize="off"
                    autocomplete="off" { (PreEscaped("\n")) (text) }
                (hint(None))
                p { button type="submit" { "Save" } }
            }
            (found(opened, &placed))
        }
        (super::history::undo_form(desk, opened))
        (lines(text, &placed))
    }
}

/// The findings, as a part of the page that follows what is written.
fn found(opened: &Opened, placed: &[Placed]) -> Markup {
    html! { div.beside #found { (beside(opened, placed)) } }
}

/// A file that is not UTF-8 is shown, and not written over.
fn reading(opened: &Opened) -> Markup {
    let placed = placed(&opened.work);
    let text = &opened.work.source(0).text;
    html! {
        (summary(&placed))
        div.row {
            p {
                "This file is not in UTF-8, so it cannot be written in here without loss. Save it in \
                 UTF-8 with the program it comes from."
            }
            div.beside { (beside(opened, &placed)) }
        }
        (lines(text, &placed))
    }
}

/// What must be mended, first on the page.
fn summary(placed: &[Placed]) -> Markup {
    let mend = placed
        .iter()
        .enumerate()
        .filter(|(_, placed)| placed.finding.diagnostic.code.severity == Severity::Mend);
    html! {
        div.faults role="group" aria-labelledby="to-mend" {
            h2 #to-mend { "To mend before it can be published" }
            ul {
                @for (index, placed) in mend {
                    li {
                        a href=(format!("#finding-{index}")) {
                            (coded(&sentence(&placed.finding.diagnostic.message)))
                        }
                    }
                }
            }
        }
    }
}

fn beside(opened: &Opened, placed: &[Placed]) -> Markup {
    let of = |severity| {
        let is = |placed: &&Placed| placed.finding.diagnostic.code.severity == severity;
        placed.iter().filter(is).count()
    };
    html! {
        h2 { "Findings" }
        p { (sentence(&counts(of(Severity::Mend), of(Severity::LookAgain)))) }
        ul.plain.findings {
            @for (index, placed) in placed.iter().enumerate() {
                li id=(format!("finding-{index}")) {
                    p {
                        (weight(placed.finding.diagnostic.code.severity))
                        (place(opened, placed))
                    }
                    p { (coded(&sentence(&placed.finding.diagnostic.message))) }
                    @if let Some(hint) = placed.finding.diagnostic.hints.first() {
                        p.hint { (coded(&sentence(hint))) }
                    }
                }
            }
        }
    }
}

/// The file again, line by line, so that a link can lead to one.
fn lines(text: &str, placed: &[Placed]) -> Markup {
    html! {
        section #by-line {
            h2 { "Line by line" }
            ol.file-lines {
                @for (index, line) in text.lines().enumerate() {
                    @let here: Vec<_> = placed
                        .iter()
                        .enumerate()
                        .filter(|(_, placed)| {
                            placed.finding.file == 0 && placed.line == Some(index + 1)
                        })
                        .collect();
                    li id=(format!("line-{}", index + 1)) .found-here[!here.is_empty()] {
                        code { (line) }
                        @for (number, placed) in here {
                            a.note href=(format!("#finding-{number}")) {
                                (placed.finding.diagnostic.code.severity.word()) ": "
                                (placed.finding.diagnostic.code.name)
                            }
                        }
                    }
                }
            }
        }
    }
}
