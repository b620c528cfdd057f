//! The published page: one HTML file that stands alone, without script and without a request.

mod amounts;
mod fragment;
mod label;
mod method;
mod reckoned;
mod style;

use edit::ledger::model::{Fact, Figure, FilmLine, Ledger};
use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::address::{relative, web};
use crate::jsonld::jsonld;
use crate::marks::{Piece, pieces};

pub use crate::address::PageOptions;
pub use fragment::fragment;
pub use reckoned::HEADING as IN_YOUR_KITCHEN;
pub use style::style;

/// The page of a recipe.
pub fn page(ledger: &Ledger, options: &PageOptions) -> String {
    document(ledger, options, &jsonld(ledger, options))
}

/// The page alone, to see what is on it.
#[cfg(feature = "pdf")]
pub(crate) fn without_data(ledger: &Ledger, options: &PageOptions) -> String {
    document(ledger, options, "")
}

fn document(ledger: &Ledger, options: &PageOptions, data: &str) -> String {
    let document = html! {
        (DOCTYPE)
        html lang=(ledger.language) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (ledger.title) }
                @if let Some(headnote) = &ledger.headnote {
                    meta name="description" content=(headnote);
                }
                @if let Some(author) = &ledger.author {
                    meta name="author" content=(author);
                }
                meta name="generator" content=(ledger.imprint);
                style { (PreEscaped(style())) }
                // Structured data has no `<` in it, so it cannot end its element.
                script type="application/ld+json" { (PreEscaped(data)) }
            }
            body {
                a.skip href="#method" { "Skip to the method" }
                main {
                    (head(ledger, options))
                    (amounts::amounts(ledger))
                    (amounts::products(ledger))
                    (method::cautions(ledger))
                    (method::method(ledger))
                    (reckoned::reckoned(ledger))
                    (after(ledger))
                    (label::label(ledger))
                }
                footer { p { (ledger.imprint) } }
            }
        }
    };
    document.into_string()
}

fn head(ledger: &Ledger, options: &PageOptions) -> Markup {
    html! {
        header.head {
            h1 { (ledger.title) }
            @if !ledger.byline.is_empty() {
                p.byline { @for phrase in &ledger.byline { span { (phrase) } } }
            }
            (jump(ledger))
            div.row {
                div {
                    @if let Some(headnote) = &ledger.headnote { p { (headnote) } }
                    @if let Some(disclosure) = &ledger.disclosure { p { (disclosure) } }
                    @if let Some(film) = &ledger.film { (film_line(film)) }
                    @for (file, alt, credit) in &ledger.photos {
                        @if options.has(file) {
                            figure.photo {
                                img src=(relative(file)) alt=(alt);
                                @if let Some(credit) = credit { figcaption { (credit) } }
                            }
                        }
                    }
                    p { (ledger.allergens.contains) " " (ledger.allergens.honesty) }
                    @if !ledger.kit.is_empty() {
                        p.tools { "Tools: " (ledger.kit.join("; ")) "." }
                    }
                }
                div.beside {
                    @if !ledger.facts.is_empty() {
                        dl.facts { @for fact in &ledger.facts { (fact_line(fact)) } }
                    }
                }
            }
        }
    }
}

fn jump(ledger: &Ledger) -> Markup {
    html! {
        nav.jump aria-label="On this page" {
            ul {
                li { a href="#amounts" { "Amounts" } }
                li { a href="#method" { "Method" } }
                @if ledger.reckoned.is_some() {
                    li { a href="#rooms" { (IN_YOUR_KITCHEN) } }
                }
                @if !ledger.label.products.is_empty() {
                    li { a href="#nutrition" { "Nutrition" } }
                }
                @if !ledger.footnotes.is_empty() {
                    li { a href="#notes" { "Where the figures come from" } }
                }
            }
        }
    }
}

fn fact_line(fact: &Fact) -> Markup {
    html! { dt { (fact.label) } dd { (line(&fact.shown, &fact.figures)) } }
}

fn film_line(film: &FilmLine) -> Markup {
    html! {
        p.film {
            "Film: "
            @if web(&film.address) {
                a href=(film.address) { (film.title) }
            } @else {
                (film.title)
            }
            @if let Some((date, when)) = film.date.as_ref().zip(film.when.as_ref()) {
                ", " time datetime=(date) { (when) }
            }
        }
    }
}

fn after(ledger: &Ledger) -> Markup {
    html! {
        @if !ledger.paragraphs.is_empty() || !ledger.tested.is_empty() {
            section.after {
                h2 { "Afterwards" }
                @for (heading, text) in &ledger.paragraphs {
                    h3 { (heading) }
                    p { (text) }
                }
                @if !ledger.tested.is_empty() {
                    h3 { "Tested" }
                    ul.plain { @for bake in &ledger.tested { li { (bake) } } }
                }
            }
        }
        (notes(ledger))
    }
}

fn notes(ledger: &Ledger) -> Markup {
    html! {
        @if !ledger.footnotes.is_empty() {
            section.after {
                h2 #notes { "Where the figures come from" }
                ol.notes {
                    @for (index, note) in ledger.footnotes.iter().enumerate() {
                        li id=(format!("note-{}", index + 1)) { (note) }
                    }
                }
            }
        }
    }
}

/// The page's amounts, pieces and footnotes alone, for a face that shows the formula.
pub fn formula(ledger: &Ledger) -> Markup {
    html! {
        (amounts::amounts(ledger))
        (amounts::products(ledger))
        (notes(ledger))
    }
}

/// A printed line in which short figures are never parted at a line's end.
fn line(shown: &str, figures: &[Figure]) -> Markup {
    html! {
        @for piece in pieces(shown, figures) {
            @match piece {
                Piece::Words(words) => { (words) }
                Piece::Figure(figure) => { (whole(figure)) }
            }
        }
    }
}

/// A figure kept whole when it is short enough to fit a narrow margin.
fn whole(shown: &str) -> Markup {
    const SHORT: usize = 22;
    html! {
        @if shown.chars().count() <= SHORT { span.whole { (shown) } } @else { (shown) }
    }
}

#[cfg(test)]
mod tests;
