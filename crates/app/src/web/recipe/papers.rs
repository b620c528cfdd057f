//! What can be taken away: sheets to print, the page, the texts; and publishing all of it.

use super::{Opened, Tab};
use crate::cli::publish as command;
use crate::cli::reckoned::reckoned;
use crate::web::desk::{Asked, Desk, aside};
use crate::web::refusal::{Answer, Refusal};
use crate::web::under_way::taken_away;
use crate::world::bundle::bundle;
use axum::extract::{Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Redirect};
use edit::ledger::model::Ledger;
use edit::ledger::say::capital;
use maud::{Markup, html};
use press::page::PageOptions;
use press::papers::Paper;
use press::pdf::PdfFault;
use std::sync::Arc;

/// A text that goes out, by the name of its file.
#[derive(Clone, Copy)]
enum Text {
    Page,
    Plain,
    Data,
    Own,
}

impl Text {
    const ALL: [Self; 4] = [Self::Page, Self::Plain, Self::Data, Self::Own];

    const fn file_name(self) -> &'static str {
        match self {
            Self::Page => "index.html",
            Self::Plain => "recipe.txt",
            Self::Data => "recipe.jsonld",
            Self::Own => "recipe.toml",
        }
    }

    const fn said(self) -> &'static str {
        match self {
            Self::Page => "the page",
            Self::Plain => "plain text",
            Self::Data => "structured data for search engines",
            Self::Own => "the recipe’s own file",
        }
    }

    const fn kind(self) -> &'static str {
        match self {
            Self::Page => "text/html; charset=utf-8",
            Self::Plain => "text/plain; charset=utf-8",
            Self::Data => "application/ld+json",
            Self::Own => "application/toml",
        }
    }

    fn make(self, opened: &Opened, ledger: &Ledger, options: &PageOptions) -> Vec<u8> {
        match self {
            Self::Page => press::page::page(ledger, options).into_bytes(),
            Self::Plain => press::text::text(ledger, press::terminal::COLUMNS).into_bytes(),
            Self::Data => press::jsonld::jsonld(ledger, options).into_bytes(),
            Self::Own => opened.bytes.clone(),
        }
    }
}

/// A file by its name: its bytes and their media type; none when no paper is called so.
fn made(
    file: &str,
    opened: &Opened,
    ledger: &Ledger,
    options: &PageOptions,
) -> Option<Result<(&'static str, Vec<u8>), PdfFault>> {
    if let Some(paper) = Paper::of_file(file) {
        let bytes = press::papers::make(ledger, paper);
        return Some(bytes.map(|bytes| ("application/pdf", bytes)));
    }
    let text = Text::ALL
        .into_iter()
        .find(|text| text.file_name() == file)?;
    Some(Ok((text.kind(), text.make(opened, ledger, options))))
}

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
            |instead| *instead,
            |ledger| {
                let sheet = |paper: Paper| (paper.file_name(), paper.said());
                let usual = Paper::USUAL.map(sheet);
                let others = Paper::ALL
                    .into_iter()
                    .filter(|paper| !Paper::USUAL.contains(paper))
                    .filter(|paper| paper.why_not(ledger).is_none());
                let others: Vec<_> = others.map(sheet).collect();
                let texts = Text::ALL.map(|text| (text.file_name().to_owned(), text.said()));
                let main = html! {
                    section { h2 { "To print" } (list(&opened, &usual)) }
                    section { h2 { "To put on the web or to keep" } (list(&opened, &texts)) }
                    (publish_form(&opened))
                    section { h2 { "Other papers to print on" } (list(&opened, &others)) }
                    @if !opened.work.stops() {
                        section {
                            h2 { "All of it" }
                            p {
                                a href=(format!("{}{}", opened.place("/papers.zip"), opened.carried()))
                                    download=(format!("{}.zip", command::folder_name(ledger))) {
                                    "Page, texts and every paper in one archive"
                                }
                            }
                        }
                    }
                };
                opened.show(Tab::Papers, &main)
            },
        ))
    })
    .await
}

fn list(opened: &Opened, files: &[(String, &str)]) -> Markup {
    html! {
        ul.entries {
            @for (file, said) in files {
                li.row {
                    p {
                        a href=(format!("{}{file}{}", opened.place("/file/"), opened.carried()))
                            download=(file) { (capital(said)) }
                    }
                    p.beside { span.path { (file) } }
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
                        "The page, the texts and the two usual sheets in one folder, "
                        span.path { "published/" (opened.ledger().map_or_else(String::new, command::folder_name)) }
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
        let mut opened = Opened::of(desk, &name, asked)?;
        reckoned(&mut opened.work);
        let ledger = match opened.readable(Tab::Papers) {
            Ok(ledger) => ledger,
            Err(instead) => return Ok(*instead),
        };
        let (kind, bytes) = made(&file, &opened, ledger, &options(desk, ledger))
            .ok_or_else(|| Refusal::not_found("No paper of that name is made of a recipe."))?
            .map_err(|fault| match fault {
                PdfFault::NothingToPrint(why) => Refusal::not_found(&why),
                fault => Refusal::bug(&fault.to_string()),
            })?;
        let headers = [
            (header::CONTENT_TYPE, kind.to_owned()),
            (
                header::CONTENT_DISPOSITION,
                format!("attachment; filename=\"{}-{file}\"", ledger.slug),
            ),
            (header::CACHE_CONTROL, "no-store".to_owned()),
        ];
        Ok((headers, bytes).into_response())
    })
    .await
}

/// `GET /recipe/{name}/papers.zip`: everything that is published, on every paper, in one archive.
pub async fn archive(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let mut opened = Opened::of(desk, &name, asked)?;
        let folder = desk.notebook.folder();
        let made = command::everything(&mut opened.work, Some(folder), None, &Paper::ALL)?;
        let (Some((files, _)), Some(ledger)) = (made, opened.ledger()) else {
            return Ok(Redirect::to(&opened.address(Tab::Findings)).into_response());
        };
        let called = command::folder_name(ledger);
        let bytes = bundle(&called, &files)?;
        Ok(taken_away(&format!("{called}.zip"), bytes))
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
        let report = command::publish(&mut opened.work, &into, Some(folder), None, &Paper::USUAL)?;
        if report.stops {
            return Ok(Redirect::to(&opened.address(Tab::Findings)).into_response());
        }
        super::history::went_out(desk, &opened);
        let there = format!("{}{carried}", opened.place("/papers"));
        Ok(Redirect::to(&there).into_response())
    })
    .await
}
