//! The recipe's file to write in, its findings beside it and its lines numbered below.

use super::between::{self, Unsaved};
use super::findings::{Placed, coded, counts, place, placed, sentence, weight};
use super::{Opened, Tab};
use crate::web::desk::{Asked, By, Desk, aside};
use crate::web::refusal::{Answer, Refusal};
use crate::world::notebook::{Kept, Name};
use crate::world::record::revisions::How;
use axum::extract::{Form, Path, Query, State};
use axum::response::{IntoResponse, Redirect, Response};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
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
        let sent = Unsaved {
            name: &name,
            text: &text,
            seen: &written.seen,
            window: written.window.as_deref(),
            carried: &asked.carried(),
            tab: Tab::Write,
        };
        let beside = written.under.as_deref() == Some("beside");
        let (name, mut more) = match kept(desk, &sent, there.as_deref(), beside) {
            Ok(kept) => kept,
            Err(page) => return Ok(*page),
        };
        if let Some(window) = &written.window {
            more += &format!("&window={}", relative(window));
        }
        let carried = asked.carried_and(&more);
        let there = format!("/recipe/{}{carried}", relative(name.text()));
        Ok(Redirect::to(&there).into_response())
    })
    .await
}

/// Saves what a page sent, under its name or beside it: that name, and what is to be said. A file that
/// was changed since the page was filled stays, and the page in the answer shows both.
pub fn kept(
    desk: &Desk,
    sent: &Unsaved,
    there: Option<&[u8]>,
    beside: bool,
) -> Result<(Name, String), Box<Response>> {
    let changed = there.filter(|bytes| mark(bytes) != sent.seen && *bytes != sent.text.as_bytes());
    let mut by = By {
        how: How::Written,
        window: sent.window.map(str::to_owned),
        from: None,
    };
    let (name, more) = match changed {
        Some(_) if beside => {
            by.how = How::Beside;
            let free = desk.notebook.free(&[Kept::Recipe, Kept::Pasted], sent.name);
            let more = format!("said=beside&other={}", relative(sent.name.text()));
            (free, more)
        }
        Some(bytes) => return Err(Box::new(between::choose(desk, sent, bytes))),
        None => (sent.name.clone(), "said=saved".to_owned()),
    };
    desk.save(Kept::Recipe, &name, sent.text.as_bytes(), &by)
        .map_err(|failure| Box::new(between::not_saved(sent, &failure)))?;
    Ok((name, more))
}

/// The text that a page was filled from, when the record has it.
pub fn filled_from(desk: &Desk, name: &Name, seen: &str) -> Option<Vec<u8>> {
    let digest = STANDARD.decode(seen).ok()?;
    let file = Kept::Recipe.file(name);
    desk.record.revision_of_digest(&file, &digest).ok()?
}

/// What is to be said of a file that is no longer what its page was filled from.
pub fn changed_elsewhere(there: Option<&[u8]>, seen: &str, text: &[u8]) -> Option<&'static str> {
    match there {
        Some(bytes) if mark(bytes) != seen && bytes != text => Some(
            "This recipe was changed in another window or by another program since this page was \
             opened. Save, and both versions are shown beside each other.",
        ),
        None if !seen.is_empty() => {
            Some("The recipe’s file is no longer in the notebook. Saving puts this text there.")
        }
        _ => None,
    }
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
        let elsewhere = changed_elsewhere(there.as_deref(), &written.seen, text.as_bytes());
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
pub fn hint(elsewhere: Option<&str>) -> Markup {
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
            data-live="elsewhere found by-line" data-watch
            data-ask=(format!("{}{}", opened.place("/beside"), opened.carried())) {
            div {
                label for="file" { "The recipe’s file, " (Kept::Recipe.file(&opened.name)) }
                input type="hidden" name="seen" value=(mark(&opened.bytes));
                input type="hidden" name="window" value=(window);
                // A reader of HTML drops the first line end of a text field.
                div.by-lines {
                    textarea #file name="text" rows=(rows) spellcheck="false" autocapitalize="off"
                        autocomplete="off" aria-describedby="counts at-line" { (PreEscaped("\n")) (text) }
                }
                // What is to be said of the line in hand; only a script knows which one that is.
                p #at-line .at-line role="status" {}
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
        p #counts { (sentence(&counts(of(Severity::Mend), of(Severity::LookAgain)))) }
        ul.plain.findings {
            @for (index, placed) in placed.iter().enumerate() {
                @let severity = placed.finding.diagnostic.code.severity;
                @let line = placed.line.filter(|_| placed.finding.file == 0);
                li id=(format!("finding-{index}")) data-line=[line]
                    data-weight=[(severity == Severity::Mend).then_some("mend")] {
                    p {
                        (weight(severity))
                        (place(opened, placed))
                    }
                    p.message { (coded(&sentence(&placed.finding.diagnostic.message))) }
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
