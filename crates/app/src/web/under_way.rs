//! The page of long work under way: how far it is, a button to stop, and the files that came of it.

use super::desk::{Asked, Desk};
use super::in_hand::{Doing, Made, State, Work};
use super::recipe::Opened;
use super::refusal::{Answer, Refusal};
use super::script::Script;
use super::shell::{Shell, page};
use crate::cli::work as cli;
use crate::failure::Failure;
use crate::world::progress::so_much;
use axum::extract::{Path, State as Of};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use edit::ledger::say::capital;
use maud::{Markup, PreEscaped, html};
use std::sync::Arc;

/// How often the page asks again, in milliseconds with a script and in seconds without.
const AGAIN_MS: u32 = 700;
const AGAIN_S: u32 = 2;

/// Begins long work and leads to its page; straight to the answer when it is kept.
pub fn begin(desk: &Desk, mark: &str, called: String, there: String, doing: Doing) -> Answer {
    let work = desk
        .in_hand
        .begin(mark, called, there, doing)
        .ok_or_else(|| {
            Refusal::new(
                StatusCode::SERVICE_UNAVAILABLE,
                "Too much is in hand already, so nothing more is taken into the line.",
            )
            .hint("Wait until something is over, or cancel what is not wanted any more.")
        })?;
    Ok(Redirect::to(&format!("/in-hand/{}", work.number)).into_response())
}

/// Where what comes of a recipe's work is shown: `below` its own address, with what was asked.
pub fn there(opened: &Opened, asked: &Asked, below: &str, question: &str) -> String {
    format!("{}{}", opened.place(below), asked.carried_and(question))
}

/// The recipe of a piece of work, which cannot be followed while something in it is to be mended.
pub fn to_follow(work: &cli::Work) -> Result<&cli::Made, Failure> {
    work.made.as_ref().ok_or_else(|| {
        Failure::Usage("It can be followed when what must be mended is mended.".to_owned())
    })
}

/// What is kept of a question, with `what` its files are; otherwise what is said in its place, when something was
/// asked.
pub fn answer(
    desk: &Desk,
    mark: Option<&str>,
    what: fn(&str) -> &'static str,
    otherwise: Option<&str>,
) -> Markup {
    let kept = mark.and_then(|mark| desk.in_hand.kept(mark));
    html! {
        @if let Some((number, made)) = kept {
            (came_of(number, &made, what))
        } @else if let Some(otherwise) = otherwise {
            p { (otherwise) }
        }
    }
}

fn numbered(desk: &Desk, number: u64) -> Result<Arc<Work>, Refusal> {
    desk.in_hand
        .numbered(number)
        .ok_or_else(|| Refusal::new(StatusCode::NOT_FOUND, "That work is not in hand any more.")
            .hint("Only the last few answers are kept, and none when the program has been ended. Ask again from the recipe."))
}

/// `GET /in-hand/{number}`
pub async fn show(Of(desk): Of<Arc<Desk>>, Path(number): Path<u64>) -> Answer {
    let work = numbered(&desk, number)?;
    Ok(match work.state() {
        State::Over(_) => Redirect::to(&work.there).into_response(),
        State::Nothing(why) => nothing(&work, &why),
        State::InLine => waiting(&work, Some(desk.in_hand.before(number))),
        State::UnderWay => waiting(&work, None),
    })
}

fn waiting(work: &Work, before: Option<usize>) -> Response {
    let body = html! {
        h1 { (work.called) }
        (far(work, before))
        form method="post" action=(format!("/in-hand/{}/stop", work.number)) {
            p.buttons {
                button type="submit" { "Cancel" }
                span { "What is known by then is kept, where it is enough to say anything." }
            }
        }
    };
    let shell = Shell::titled(&work.called)
        .with(&[Script::Live])
        .again_after(AGAIN_S);
    page(&shell, &body)
}

fn far(work: &Work, before: Option<usize>) -> Markup {
    let (what, done, of) = work.far.seen();
    html! {
        div #far data-follow=(AGAIN_MS) {
            @match before {
                Some(0) => p.lead role="status" { "Next in line: two others are worked on." },
                Some(more) => p.lead role="status" { "In line, with " (more) " before it: two others are worked on." },
                None if work.stop.wanted() => p.lead role="status" { "Stopping; what is known so far follows." },
                None if of == 0 && what.is_empty() => p.lead role="status" { "Beginning." },
                None if of == 0 => p.lead role="status" { (capital(&what)) "." },
                None => {
                    p.lead { label for="done" { (capital(&what)) ":" (so_much(done, of)) } }
                    progress #done max=(of) value=(done) {}
                },
            }
        }
    }
}

fn nothing(work: &Work, why: &str) -> Response {
    let back = work.there.split('?').next().unwrap_or("/");
    let body = html! {
        h1 { (work.called) }
        p.lead { (capital(why)) }
        p { a href=(back) { "Ask again" } }
    };
    page(&Shell::titled(&work.called), &body)
}

/// `POST /in-hand/{number}/stop`
pub async fn stop(Of(desk): Of<Arc<Desk>>, Path(number): Path<u64>) -> Answer {
    let work = numbered(&desk, number)?;
    desk.in_hand.stop(&work);
    Ok(Redirect::to(&format!("/in-hand/{number}")).into_response())
}

/// `GET /in-hand/{number}/file/{file}`
pub async fn file(Of(desk): Of<Arc<Desk>>, Path((number, file)): Path<(u64, String)>) -> Answer {
    let work = numbered(&desk, number)?;
    let gone = || Refusal::not_found("No file of that name came of it.");
    let State::Over(made) = work.state() else {
        return Err(gone());
    };
    let bytes = made.files.get(&file).ok_or_else(gone)?.clone();
    Ok(taken_away(&file, bytes))
}

/// A file to be taken away.
pub fn taken_away(file: &str, bytes: Vec<u8>) -> Response {
    let headers = [
        (header::CONTENT_TYPE, kind(file).to_owned()),
        (
            header::CONTENT_DISPOSITION,
            format!("attachment; filename=\"{file}\""),
        ),
        (header::CACHE_CONTROL, "no-store".to_owned()),
    ];
    (headers, bytes).into_response()
}

/// The media type of a file by its ending.
fn kind(file: &str) -> &'static str {
    match file.rsplit('.').next().unwrap_or_default() {
        "pdf" => "application/pdf",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "csv" => "text/csv; charset=utf-8",
        "ics" => "text/calendar; charset=utf-8",
        "vtt" => "text/vtt; charset=utf-8",
        "jsonld" => "application/ld+json",
        "zip" => "application/zip",
        "html" => "text/html; charset=utf-8",
        _ => "text/plain; charset=utf-8",
    }
}

/// What came of it: whether it was broken off, the part of a page, and the files to take away, each with `what` it
/// is.
pub fn came_of(number: u64, made: &Made, what: fn(&str) -> &'static str) -> Markup {
    let last = made.first.is_empty();
    let link = |file: &str| {
        html! { a href=(format!("/in-hand/{number}/file/{file}")) download=(file) { (capital(what(file))) } }
    };
    let files = html! {
        @if !made.files.is_empty() {
            section {
                h2 #take-away { "To take away" }
                @if last {
                    ul.entries {
                        @for file in made.files.keys() {
                            li.row {
                                p { (link(file)) }
                                p.beside { span.path { (file) } }
                            }
                        }
                    }
                } @else {
                    // Before a long answer they stand in a few lines.
                    ul.taken { @for file in made.files.keys() { li { (link(file)) } } }
                }
            }
        }
    };
    html! {
        @if made.stopped { p.done { "It was stopped: this is what was known by then." } }
        (PreEscaped(&made.first))
        @if !last { (files) }
        (PreEscaped(&made.main))
        @if last { (files) }
    }
}
