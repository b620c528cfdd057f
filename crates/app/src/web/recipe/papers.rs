//! What can be taken away: sheets to print, the page, the texts; and publishing all of it.

use super::{Opened, Tab};
use crate::cli::publish as command;
use crate::web::desk::{Asked, Desk, aside};
use crate::web::refusal::{Answer, Refusal};
use axum::extract::{Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Redirect};
use edit::ledger::model::Ledger;
use maud::{Markup, html};
use press::card::CardSize;
use press::page::PageOptions;
use press::pdf::PdfFault;
use std::sync::Arc;

/// A file that is made on request.
struct Paper {
    file: &'static str,
    what: &'static str,
    kind: &'static str,
    make: fn(&Opened, &Ledger, &PageOptions) -> Result<Vec<u8>, PdfFault>,
}

const SHEETS: [Paper; 2] = [
    Paper {
        file: "card-a5.pdf",
        what: "Card for the kitchen, A5",
        kind: "application/pdf",
        make: |_, ledger, _| press::card::card(ledger, CardSize::A5),
    },
    Paper {
        file: "bench-a4.pdf",
        what: "Sheet for the bench, A4",
        kind: "application/pdf",
        make: |_, ledger, _| press::bench::sheet(ledger),
    },
];

const TEXTS: [Paper; 4] = [
    Paper {
        file: "index.html",
        what: "The page",
        kind: "text/html; charset=utf-8",
        make: |_, ledger, options| Ok(press::page::page(ledger, options).into_bytes()),
    },
    Paper {
        file: "recipe.txt",
        what: "Plain text",
        kind: "text/plain; charset=utf-8",
        make: |_, ledger, _| Ok(press::text::text(ledger, press::terminal::COLUMNS).into_bytes()),
    },
    Paper {
        file: "recipe.jsonld",
        what: "Structured data for search engines",
        kind: "application/ld+json",
        make: |_, ledger, options| Ok(press::jsonld::jsonld(ledger, options).into_bytes()),
    },
    Paper {
        file: "recipe.toml",
        what: "The recipe’s own file",
        kind: "application/toml",
        make: |opened, _, _| Ok(opened.bytes.clone()),
    },
];

/// Photographs that the recipe names and the notebook does not hold.
pub fn options(desk: &Desk, ledger: &Ledger) -> PageOptions {
    let there = |file: &str| matches!(desk.notebook.beside(file), Ok(Some(_)));
    let names = ledger.photos.iter().map(|(file, _, _)| file);
    PageOptions {
        base: None,
        absent: names.filter(|file| !there(file)).cloned().collect(),
    }
}

/// `GET /recipe/{name}/papers`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        Ok(opened.readable(Tab::Papers).map_or_else(
            |instead| instead,
            |_| {
                let main = html! {
                    section { h2 { "To print" } (list(&opened, &SHEETS)) }
                    section { h2 { "To put on the web or to keep" } (list(&opened, &TEXTS)) }
                    (publish_form(&opened))
                };
                opened.show(Tab::Papers, &main)
            },
        ))
    })
    .await
}

fn list(opened: &Opened, papers: &[Paper]) -> Markup {
    html! {
        ul.entries {
            @for paper in papers {
                li.row {
                    p {
                        a href=(format!("{}{}{}", opened.place("/file/"), paper.file, opened.carried()))
                            download=(paper.file) { (paper.what) }
                    }
                    p.beside { span.path { (paper.file) } }
                }
            }
        }
    }
}

fn publish_form(opened: &Opened) -> Markup {
    html! {
        section {
            h2 { "Publish into the notebook" }
            @if opened.work.stops() {
                p {
                    "It can be published when its findings are mended: "
                    a href=(opened.address(Tab::Findings)) { "findings" } "."
                }
            } @else {
                form.row method="post" action=(opened.address(Tab::Papers)) {
                    p { button type="submit" { "Publish" } }
                    p.beside {
                        "Everything above in one folder, "
                        span.path { "published/" (opened.ledger().map_or("", |ledger| &ledger.slug)) }
                        ", over what was published there before."
                    }
                }
            }
        }
    }
}

/// `GET /recipe/{name}/file/{file}`
pub async fn file(
    State(desk): State<Arc<Desk>>,
    Path((name, file)): Path<(String, String)>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        let paper = SHEETS
            .iter()
            .chain(&TEXTS)
            .find(|paper| paper.file == file)
            .ok_or_else(|| Refusal::not_found("No paper of that name is made of a recipe."))?;
        let ledger = match opened.readable(Tab::Papers) {
            Ok(ledger) => ledger,
            Err(instead) => return Ok(instead),
        };
        let bytes = (paper.make)(&opened, ledger, &options(desk, ledger))
            .map_err(|fault| Refusal::bug(&fault.to_string()))?;
        let headers = [
            (header::CONTENT_TYPE, paper.kind.to_owned()),
            (
                header::CONTENT_DISPOSITION,
                format!("attachment; filename=\"{}-{}\"", ledger.slug, paper.file),
            ),
            (header::CACHE_CONTROL, "no-store".to_owned()),
        ];
        Ok((headers, bytes).into_response())
    })
    .await
}

/// `POST /recipe/{name}/papers`: publishes as the command does, into the notebook.
pub async fn publish(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let carried = asked.carried_and("said=published");
        let mut opened = Opened::of(desk, &name, asked)?;
        let _one = desk.saving();
        let folder = desk.notebook.folder();
        let into = folder.join("published");
        let report = command::publish(&mut opened.work, &into, Some(folder), None)?;
        if report.stops {
            return Ok(Redirect::to(&opened.address(Tab::Findings)).into_response());
        }
        let there = format!("{}{carried}", opened.place("/papers"));
        Ok(Redirect::to(&there).into_response())
    })
    .await
}
