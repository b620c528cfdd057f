//! The page's method: each step's sentence, its margin beside it, and the marks of the margin.

use edit::ledger::model::{Ledger, MarginKind, MarginLine, Run, StepLine};
use maud::{Markup, html};

use super::line;
use crate::line::until;
use crate::marks::{used, word};

/// Cautions, calm and with their sources beside them.
pub(super) fn cautions(ledger: &Ledger) -> Markup {
    html! {
        @if !ledger.cautions.is_empty() {
            section {
                h2 { "Take care" }
                @for caution in &ledger.cautions {
                    div.caution {
                        div.row {
                            p { (caution.text) }
                            p.source.beside { span.unseen { "Source: " } (caution.source) }
                        }
                    }
                }
            }
        }
    }
}

/// The steps under their headings, numbered through.
pub(super) fn method(ledger: &Ledger) -> Markup {
    let key = used(ledger);
    html! {
        section.method {
            h2 #method { "Method" }
            @if !key.is_empty() {
                ul.key.margin {
                    @for kind in key { li class=(class(kind)) { (mark(kind)) (word(kind)) } }
                }
            }
            @for section in &ledger.sections {
                h3 { (section.heading) }
                @if let Some(first) = section.steps.first() {
                    ol.steps start=(first.number) { @for one in &section.steps { (step(one)) } }
                }
            }
        }
    }
}

fn step(step: &StepLine) -> Markup {
    html! {
        li {
            div.row {
                p {
                    @for run in &step.runs {
                        @match run {
                            Run::Words(words) => { (words) }
                            Run::Figure(figure) => {
                                span.said { (figure.shown) }
                            }
                        }
                    }
                }
                @if !step.margin.is_empty() {
                    ul.margin.beside { @for one in &step.margin { (margin(one)) } }
                }
            }
        }
    }
}

fn margin(one: &MarginLine) -> Markup {
    html! {
        li class=(class(one.kind)) {
            (mark(one.kind))
            @if until(one) { "until " }
            @else if one.kind != MarginKind::Cue { span.unseen { (word(one.kind)) ": " } }
            (line(&one.shown, &one.figures))
        }
    }
}

const fn class(kind: MarginKind) -> &'static str {
    match kind {
        MarginKind::Time => "time",
        MarginKind::Heat => "heat",
        MarginKind::Cold => "cold",
        MarginKind::Cue => "cue",
        MarginKind::How => "how",
        MarginKind::Here => "here",
    }
}

/// A mark drawn in the colour of its line: hidden from screen readers, which hear the word.
pub(super) fn mark(kind: MarginKind) -> Markup {
    drawn(kind, "mark")
}

/// The same under another class.
pub(super) fn drawn(kind: MarginKind, class: &str) -> Markup {
    let (shape, filled) = match kind {
        // A clock face with its hands.
        MarginKind::Time => ("M6 1a5 5 0 1 0 .01 0zM6 3.2V6l2 1.4", false),
        // A flame's triangle.
        MarginKind::Heat => ("M6 1 11 11H1z", true),
        // A drop.
        MarginKind::Cold => (
            "M6 .8C8 4 9.8 5.7 9.8 7.7a3.8 3.8 0 0 1-7.6 0C2.2 5.7 4 4 6 .8z",
            true,
        ),
        // An arrow to where the step ends.
        MarginKind::Cue => ("M1 6h9M6.8 2.6 10.4 6 6.8 9.4", false),
        // A square.
        MarginKind::How => ("M2.5 2.5h7v7h-7z", false),
        // A house.
        MarginKind::Here => ("M1 6.2 6 1.5l5 4.7M2.6 5.2v5.6h6.8V5.2", false),
    };
    html! {
        svg class=(class) viewBox="0 0 12 12" aria-hidden="true" focusable="false" {
            @if filled {
                path d=(shape) fill="currentColor" {}
            } @else {
                path d=(shape) fill="none" stroke="currentColor" stroke-width="1.3" {}
            }
        }
    }
}
