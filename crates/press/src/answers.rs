//! The page of answers: one HTML file that stands alone, every answer under its question.

use crate::marks::{Piece, pieces};
use crate::page::style;
use edit::answers::{About, Answer, Cause, QUESTIONS};
use edit::ledger::model::Ledger;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// What is said once for all answers.
const OWN: &str = "Amounts come from the recipe’s formula, times from the author’s in proportion. What comes from elsewhere is named under its answer. Causes of a fault are tried one at a time on the recipe as written.";

/// The page of a recipe's answers; `holds_for`: the kitchen for which they are worked out.
pub fn page(ledger: &Ledger, holds_for: &str, answers: &[Answer]) -> String {
    let document = html! {
        (DOCTYPE)
        html lang=(ledger.language) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (ledger.title) ": answers" }
                meta name="generator" content=(ledger.imprint);
                style { (PreEscaped(style())) }
            }
            body {
                a.skip href="#answers" { "Skip to the answers" }
                main {
                    header.head {
                        h1 { (ledger.title) ": answers" }
                        @if !ledger.byline.is_empty() {
                            p.byline { @for phrase in &ledger.byline { span { (phrase) } } }
                        }
                        (jump(answers))
                        div.row { div { p { (holds_for) } p.small { (OWN) } } }
                    }
                    div #answers {
                        @for about in About::ALL { (part(about, answers)) }
                    }
                }
                footer { p { (ledger.imprint) } }
            }
        }
    };
    document.into_string()
}

fn of(about: About, answers: &[Answer]) -> impl Iterator<Item = &Answer> {
    answers.iter().filter(move |answer| answer.about == about)
}

fn jump(answers: &[Answer]) -> Markup {
    html! {
        nav.jump aria-label="On this page" {
            ul {
                @for about in About::ALL {
                    @if let Some(first) = of(about, answers).next() {
                        li { a href=(format!("#{}", first.name)) { (about.heading()) } }
                    }
                }
            }
        }
    }
}

fn part(about: About, answers: &[Answer]) -> Markup {
    html! {
        @if of(about, answers).next().is_some() {
            section.after {
                h2 { (about.heading()) }
                @for answer in of(about, answers) { (one(answer)) }
            }
        }
    }
}

fn one(answer: &Answer) -> Markup {
    let rests = answer.rests(true);
    html! {
        h3 id=(answer.name) { (answer.asks) }
        div.piece {
            div.row {
                div {
                    p { (said(&answer.reply, answer)) }
                    @if !answer.causes.is_empty() { (causes(&answer.causes)) }
                    @if !answer.more.is_empty() || !rests.is_empty() {
                        details.more {
                            summary { "More" }
                            @for words in &answer.more { p.small { (said(words, answer)) } }
                            @if !rests.is_empty() {
                                p.small { "Rests on: " (linked(&rests.join("; "))) "." }
                            }
                        }
                    }
                }
                @if answer.refused {
                    div.beside { p.said { "No figure would be honest" } }
                } @else if !answer.changes.is_empty() {
                    div.beside {
                        p.said { "In the recipe" }
                        ul.plain { @for change in &answer.changes { li { (change) } } }
                    }
                }
            }
        }
    }
}

/// Sentences of an answer with their short figures kept whole.
fn said(words: &str, answer: &Answer) -> Markup {
    const SHORT: usize = 22;
    html! {
        @for piece in pieces(words, &answer.figures) {
            @match piece {
                Piece::Words(words) => { (linked(words)) }
                Piece::Figure(figure) => {
                    @if figure.chars().count() <= SHORT { span.whole { (figure) } } @else { (figure) }
                }
            }
        }
    }
}

/// Words between backticks: a question of this page is a link, a command stands as code.
fn linked(words: &str) -> Markup {
    html! {
        @for (place, part) in words.split('`').enumerate() {
            @if place % 2 == 0 {
                (part)
            } @else if QUESTIONS.iter().any(|question| question.name == part) {
                a href=(format!("#{part}")) { (part.replace('-', " ")) }
            } @else {
                code { (part) }
            }
        }
    }
}

fn causes(all: &[Cause]) -> Markup {
    html! {
        ol.notes.causes {
            @for cause in all {
                li {
                    strong { (cause.what) } ", " em { (cause.verdict) } ": "
                    (linked(&cause.does)) ". " (linked(&cause.way_out))
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::linked;

    #[test]
    fn a_question_in_backticks_is_a_link_and_a_command_is_code() {
        let text = linked("See `other-tin`, or `everyoven mix` & more.").into_string();
        assert_eq!(
            text,
            "See <a href=\"#other-tin\">other tin</a>, or <code>everyoven mix</code> &amp; more."
        );
    }
}
