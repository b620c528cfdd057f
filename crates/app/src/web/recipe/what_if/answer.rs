//! The day that follows: what differs and matters, every step beside what is written, figures, safety.

use super::tried::{Faults, Tried};
use crate::web::drawing;
use crate::web::recipe::findings::{coded, sentence, weighed};
use edit::ledger::happens::{Beside, Happens, StepHappens, Told};
use edit::ledger::model::MarginKind;
use maud::{Markup, html};

/// What differs, as the part of the page that stands before the dials where there is no room beside them.
pub fn first(tried: Option<&Tried>, faults: &Faults) -> Markup {
    html! {
        div.first #first {
            @if let Some(tried) = tried {
                @if !faults.is_empty() {
                    p { "What cannot be asked is left as it is in this kitchen." }
                }
                (head(&tried.happens))
                (differences(&tried.happens))
                @if !tried.changes.is_empty() { (changes(tried)) }
            }
        }
    }
}

/// All the rest of the day.
pub fn day(tried: Option<&Tried>) -> Markup {
    html! {
        div.day #day {
            @if let Some(tried) = tried {
                (steps(&tried.happens))
                (said(tried))
                section {
                    h2 { "The day as a drawing" }
                    div.drawings {
                        @for (at, figure) in tried.figures.iter().enumerate() {
                            (drawing::set(&figure.svg, at + 1))
                        }
                    }
                }
                (told("For safety", &tried.happens.safety))
                (told("The recipe’s own bakes", &tried.happens.tested))
            }
        }
    }
}

fn head(happens: &Happens) -> Markup {
    html! {
        p.lead {
            "In " (happens.kitchen_alone()) ": "
            @for (at, (what, figure)) in happens.conditions.iter().enumerate() {
                @if at > 0 { ", " }
                (what) " " span.whole { (figure.shown) }
            }
            ". " (happens.follows)
        }
    }
}

fn changes(tried: &Tried) -> Markup {
    html! {
        section {
            h2 { "What changes in the recipe" }
            ul.plain {
                @for change in &tried.changes {
                    li {
                        @match (change.before.as_str(), change.after.as_str()) {
                            ("", after) => { (change.what) ", new: " (after) }
                            (before, "") => { (change.what) ", gone: " (before) }
                            (before, after) => { (change.what) ": " (after) ", not " (before) }
                        }
                    }
                }
            }
            @for words in &tried.mind { p.hint { (words) } }
        }
    }
}

fn differences(happens: &Happens) -> Markup {
    html! {
        section {
            h2 { "What differs here, and matters" }
            @if happens.differences.is_empty() {
                p { "Nothing here differs by so much that it matters." }
            } @else {
                ul.plain {
                    @for told in &happens.differences {
                        li {
                            @if let Some(step) = told.step { span.of-step { (step) } " " }
                            (coded(&on_a_page(&told.sentence)))
                        }
                    }
                }
            }
        }
    }
}

/// A sentence without what is said to whoever sits at a terminal.
fn on_a_page(sentence: &str) -> String {
    sentence.replace(" (`everyoven mix` says what the liquid must read)", "")
}

fn steps(happens: &Happens) -> Markup {
    html! {
        section {
            h2 { "Every step" }
            @for part in &happens.sections {
                table.figures.goes {
                    caption { (part.heading) }
                    thead {
                        tr {
                            th scope="col" { "Step" }
                            th scope="col" { "Written" }
                            th scope="col" { "Here" }
                        }
                    }
                    @for step in &part.steps { (rows(step)) }
                }
            }
        }
    }
}

fn rows(step: &StepHappens) -> Markup {
    let none = [Beside {
        kind: MarginKind::Here,
        written: None,
        here: None,
        figures: Vec::new(),
        differs: false,
    }];
    let lines = if step.lines.is_empty() {
        &none[..]
    } else {
        &step.lines[..]
    };
    html! {
        tbody {
            @for (at, line) in lines.iter().enumerate() {
                tr {
                    @if at == 0 {
                        th scope="rowgroup" rowspan=(lines.len()) {
                            (step.number) " " (step.what)
                            span.small { " at " (step.begins.shown) }
                        }
                    }
                    td {
                        @if line.kind == MarginKind::Cue && line.written.is_some() { "until " }
                        (line.written.as_deref().unwrap_or_default())
                    }
                    td.strong[line.differs] {
                        @if line.differs { span aria-hidden="true" { "≠ " } span.unseen { "other: " } }
                        (line.here.as_deref().unwrap_or_default())
                    }
                }
            }
        }
    }
}

/// What the day could not be followed in, or must be minded.
fn said(tried: &Tried) -> Markup {
    html! {
        @if !tried.said.is_empty() {
            section {
                h2 { "What the reckoning has to say" }
                ul.plain {
                    @for said in &tried.said {
                        li {
                            (weighed(said))
                            @for hint in &said.hints { p.hint { (coded(&sentence(hint))) } }
                        }
                    }
                }
            }
        }
    }
}

fn told(heading: &str, all: &[Told]) -> Markup {
    html! {
        @if !all.is_empty() {
            section {
                h2 { (heading) }
                ul.plain {
                    @for one in all {
                        li {
                            @if let Some(step) = one.step { span.of-step { (step) } " " }
                            (one.sentence)
                            @if let Some(source) = &one.source { span.small { " (" (source) ")" } }
                        }
                    }
                }
            }
        }
    }
}
