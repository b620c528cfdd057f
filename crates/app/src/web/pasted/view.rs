//! The page of a pasted text: its lines on the left, what was understood of each in the margin.

use super::Understood;
use super::mends::{KINDS, word_of};
use crate::web::desk::Asked;
use crate::web::shell::{self, Shell, done};
use crate::world::notebook::Kept;
use axum::response::Response;
use edit::ledger::say::NBSP;
use maud::{Markup, html};
use press::address::relative;
use recipe::import::{Imported, Line, LineKind, Mark, Reading};
use recipe::larder::Larder;

/// The whole page.
pub fn page(understood: &Understood, asked: &Asked) -> Response {
    let file = Kept::Pasted.file(&understood.name);
    let title = understood.imported.title.as_ref().unwrap_or(&file);
    let said = match asked.said.as_deref() {
        Some("pasted") => Some(format!("The text is kept whole as {file}.")),
        Some("mended") => Some("The line was mended; the pasted one is kept.".to_owned()),
        _ => None,
    };
    let body = html! {
        h1 { (title) }
        @if let Some(said) = said { (done(&said)) }
        (overview(understood))
        ol.pasted {
            @for line in &understood.imported.lines {
                (one(understood, line, asked.line == Some(line.number)))
            }
        }
        (assumed(understood))
        (make_form(understood))
    };
    shell::page(&Shell::titled(title), &body)
}

/// How many lines stand how, with a way to the first that wants looking at.
fn overview(understood: &Understood) -> Markup {
    let marked = |mark| {
        let lines = understood.imported.lines.iter();
        lines.filter(move |line| line.kind != LineKind::Blank && line.mark == mark)
    };
    html! {
        div.row {
            p {
                "The text stands here as it was pasted; beside each line stands what was understood. \
                 A line that was not can be mended in its place, and the pasted one is kept."
            }
            ul.plain.beside {
                @for mark in [Mark::Understood, Mark::Doubtful, Mark::NotUnderstood] {
                    @let count = marked(mark).count();
                    li {
                        (sign(mark)) (count) " " (word(mark))
                        @if mark != Mark::Understood {
                            @if let Some(first) = marked(mark).next() {
                                ", first in "
                                a href=(format!("#line-{}", first.number)) { "line " (first.number) }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn one(understood: &Understood, line: &Line, open: bool) -> Markup {
    let number = line.number;
    if line.kind == LineKind::Blank && !open && !understood.mends.0.contains_key(&number) {
        return html! { li.blank id=(format!("line-{number}")) aria-hidden="true" {} };
    }
    let mended = understood.mends.0.contains_key(&number);
    let original = understood.original(number).unwrap_or_default();
    html! {
        li id=(format!("line-{number}")) value=(number) class=(class(line.kind)) {
            div.row {
                div {
                    p.line { (line.text) }
                    @if mended && original.trim() != line.text.trim() {
                        p.was { "pasted as: " (original) }
                    }
                }
                div.beside {
                    p {
                        span.mark-word { (sign(line.mark)) (word(line.mark)) }
                        @if let Some(kind) = kind_word(line.kind) { ", " (kind) }
                        @if mended { ", mended" }
                        @if !open {
                            " · "
                            a.mend href=(format!("{}?line={number}#line-{number}", understood.place())) {
                                "mend" span.unseen { " line " (number) }
                            }
                        }
                    }
                    @for reading in &line.readings { (read(reading, &understood.larder)) }
                    @for (sign, words) in press::terminal::said(line, &understood.imported) {
                        p.read { span aria-hidden="true" { (sign) } " " (words) }
                    }
                    @if let Some(reason) = &line.reason { p.reason { (reason) } }
                }
            }
            @if open { (line_form(understood, line, mended)) }
        }
    }
}

/// What it weighs, and what was read; the weight is not said twice when it is what was written.
fn read(reading: &Reading, larder: &Larder) -> Markup {
    let words = press::terminal::reading(reading, larder);
    let grams = edit::pasted::grams(reading);
    let written = grams.as_ref().is_some_and(|grams| {
        let mut after = words.chars();
        grams.chars().all(|sign| {
            let same = after.next();
            same == Some(sign) || sign == NBSP && same == Some(' ')
        }) && after.next() == Some(' ')
    });
    html! {
        p.read {
            @if written {
                strong { (grams.as_deref().unwrap_or_default()) }
                (words.split_once(" g").map_or("", |(_, rest)| rest))
            } @else {
                strong { (grams.as_deref().unwrap_or("weight not known")) } ": " (words)
            }
        }
    }
}

/// The form that writes one line anew.
fn line_form(understood: &Understood, line: &Line, mended: bool) -> Markup {
    let number = line.number;
    let named = understood.mends.0.get(&number).and_then(|mend| mend.kind);
    html! {
        form.mending method="post" action=(format!("{}/line", understood.place())) {
            input type="hidden" name="line" value=(number);
            p {
                label for="anew" { "Line " (number) " anew" }
                input #anew type="text" name="text" value=(line.text.trim()) autocomplete="off" autofocus;
            }
            p {
                label for="kind" { "It is" }
                select #kind name="kind" {
                    option value="" { "what it looks like" }
                    @for (kind, word) in KINDS {
                        option value=(word) selected[named == Some(kind)] { (says(kind)) }
                    }
                }
            }
            p.buttons {
                button type="submit" { "Mend the line" }
                @if mended { button type="submit" name="again" value="yes" { "Take the pasted line again" } }
                a href=(format!("{}#line-{number}", understood.place())) { "leave it" }
            }
        }
    }
}

/// What the text does not say, and what the file takes for granted instead.
fn assumed(understood: &Understood) -> Markup {
    let Imported {
        assumed, left_out, ..
    } = &understood.imported;
    html! {
        @if !assumed.is_empty() || !left_out.is_empty() {
            section {
                h2 { "What the text leaves out" }
                @if !left_out.is_empty() { p { "It does not say: " (left_out.join(", ")) "." } }
                @if !assumed.is_empty() {
                    p { "Assumed, each marked in the recipe’s file where it stands:" }
                    ul.plain.assumed {
                        @for one in assumed {
                            li.row {
                                p { (edit::ledger::say::capital(&one.what)) ": " (one.sentence) }
                                @if let Some(line) = one.file_line {
                                    p.beside { "line " (line) " of the file" }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn make_form(understood: &Understood) -> Markup {
    let recipe = Kept::Recipe.file(&understood.name);
    html! {
        section {
            h2 { "Make it a recipe" }
            form.row method="post" action=(format!("{}/recipe", understood.place())) {
                p { button type="submit" { "Make it a recipe" } }
                @if understood.made {
                    p.beside {
                        "There is one already: "
                        a href=(format!("/recipe/{}", relative(understood.name.text()))) { (recipe) }
                        ". A new one is kept beside it."
                    }
                } @else {
                    p.beside {
                        "It becomes " span.path { (recipe) } "; the pasted text stays as it is. What the \
                         text does not say can be written into the recipe afterwards."
                    }
                }
            }
        }
    }
}

/// A mark's shape: full, half full, empty. Screen readers hear its word.
fn sign(mark: Mark) -> Markup {
    html! {
        svg.mark viewBox="0 0 12 12" aria-hidden="true" focusable="false" {
            circle cx="6" cy="6" r="4.6" fill="none" stroke="currentColor" stroke-width="1.3" {}
            @match mark {
                Mark::Understood => { circle cx="6" cy="6" r="4.6" fill="currentColor" {} }
                Mark::Doubtful => { path d="M6 1.4a4.6 4.6 0 0 1 0 9.2z" fill="currentColor" {} }
                Mark::NotUnderstood => { path d="M3.600 3.600l4.800 4.800M8.400 3.600l-4.800 4.800" fill="none" stroke="currentColor" stroke-width="1.3" {} }
            }
        }
    }
}

const fn word(mark: Mark) -> &'static str {
    match mark {
        Mark::Understood => "understood",
        Mark::Doubtful => "doubtful",
        Mark::NotUnderstood => "not understood",
    }
}

fn kind_word(kind: LineKind) -> Option<&'static str> {
    match kind {
        LineKind::Time => Some("times"),
        LineKind::Other | LineKind::Blank => None,
        kind => word_of(kind),
    }
}

/// What a kind is called where it is chosen.
const fn says(kind: LineKind) -> &'static str {
    match kind {
        LineKind::Ingredient => "an ingredient",
        LineKind::Step => "a step",
        LineKind::Heading => "the heading of a part",
        LineKind::Title => "the title",
        LineKind::About => "words about the recipe",
        LineKind::Makes => "what it makes",
        LineKind::Note => "a note",
        LineKind::Time => "times",
        LineKind::Blank | LineKind::Other => "nothing that belongs to the recipe",
    }
}

const fn class(kind: LineKind) -> &'static str {
    match kind {
        LineKind::Title => "title",
        LineKind::Heading => "heading",
        _ => "plain-line",
    }
}
