//! The findings of a recipe: what, where, and the ways out.

use super::{Opened, Tab};
use crate::cli::work::{Finding, Work};
use crate::web::desk::{Asked, Desk, aside};
use crate::web::refusal::Answer;
use axum::extract::{Path, Query, State};
use maud::{Markup, html};
use recipe::source::{Concern, Diagnostic, Severity};
use std::sync::Arc;

/// `GET /recipe/{name}/findings`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        Ok(opened.show(Tab::Findings, &all(&opened)))
    })
    .await
}

/// "2 to mend, 1 to look at again".
pub fn counts(mend: usize, look: usize) -> String {
    match (mend, look) {
        (0, 0) => "nothing to mend".to_owned(),
        (0, look) => format!("{look} to look at again"),
        (mend, 0) => format!("{mend} to mend"),
        (mend, look) => format!("{mend} to mend, {look} to look at again"),
    }
}

/// A finding with its line in the file; counted from 1.
pub struct Placed<'a> {
    /// The finding.
    pub finding: &'a Finding,
    /// Its line, when it is about a place in the recipe's file.
    pub line: Option<usize>,
}

/// Findings in the order of weight, each with its line.
pub fn placed(work: &Work) -> Vec<Placed<'_>> {
    let mut all: Vec<Placed> = work
        .findings
        .iter()
        .map(|finding| {
            let text = &work.source(finding.file).text;
            let line = finding.diagnostic.span.map(|span| {
                let ends = text.bytes().take(span.start);
                ends.fold(1, |line, byte| line + usize::from(byte == b'\n'))
            });
            Placed { finding, line }
        })
        .collect();
    all.sort_by_key(|placed| {
        let code = placed.finding.diagnostic.code;
        (code.severity, code.concern)
    });
    all
}

/// The findings that are about the bake, then those about the page.
fn all(opened: &Opened) -> Markup {
    let placed = placed(&opened.work);
    let groups = [
        (Concern::Bake, "What would spoil the bake"),
        (Concern::Print, "What would spoil the page"),
    ];
    html! {
        @if placed.is_empty() { p.lead { "Nothing to mend." } }
        @for (concern, heading) in groups {
            @let here: Vec<_> = placed
                .iter()
                .filter(|placed| placed.finding.diagnostic.code.concern == concern)
                .collect();
            @if !here.is_empty() {
                section {
                    h2 { (heading) }
                    ol.found { @for placed in here { li { (one(opened, placed)) } } }
                }
            }
        }
    }
}

fn one(opened: &Opened, placed: &Placed) -> Markup {
    let diagnostic = &placed.finding.diagnostic;
    html! {
        div.row {
            div {
                p { (coded(&sentence(&diagnostic.message))) }
                @for hint in &diagnostic.hints { p.hint { (coded(&sentence(hint))) } }
            }
            p.beside {
                (weight(diagnostic.code.severity))
                (place(opened, placed))
                br;
                a href=(format!("/explain/{}", diagnostic.code.name)) { (diagnostic.code.name) }
            }
        }
    }
}

/// The word of a finding's weight; a filled mark stands before what must be mended.
pub fn weight(severity: Severity) -> Markup {
    html! {
        span.weight.strong[severity == Severity::Mend] { (edit::ledger::say::capital(severity.word())) }
        " "
    }
}

/// What is said, with its weight before it.
pub fn weighed(said: &Diagnostic) -> Markup {
    let severity = said.code.severity;
    html! {
        span.weight.strong[severity == Severity::Mend] { (edit::ledger::say::capital(severity.word())) ":" }
        " " (coded(&sentence(&said.message)))
    }
}

/// Where it is: a link to the line, or the name of the other file.
pub fn place(opened: &Opened, placed: &Placed) -> Markup {
    html! {
        @if placed.finding.file != 0 {
            span.whole { "in " (opened.work.source(placed.finding.file).path) }
        } @else if let Some(line) = placed.line {
            a.whole href=(format!("{}#line-{line}", opened.address(Tab::Write))) { "line " (line) }
        } @else {
            span.whole { "the whole" }
        }
    }
}

/// A message as a sentence.
pub fn sentence(message: &str) -> String {
    let mut text = edit::ledger::say::units_kept(&edit::ledger::say::capital(message));
    let inside = text.trim_end_matches('”');
    if !inside.ends_with(['.', '?', ':', '!']) {
        text.push('.');
    }
    text
}

/// Words between backquotes set as what is written in a file.
pub fn coded(words: &str) -> Markup {
    html! {
        @for (index, piece) in words.split('`').enumerate() {
            @if index % 2 == 1 { code { (piece) } } @else { (piece) }
        }
    }
}
