//! The contents of the notebook: its recipes, its pasted texts, and the two ways to put something in.

use super::desk::{Asked, Desk, aside};
use super::refusal::{Answer, Refusal};
use super::shell::{Shell, done, page};
use crate::cli::publish::look_over;
use crate::cli::work::{DEMO_RECIPE, DEMO_STUDIO, DEMO_TERRACE, Work, on_bytes};
use crate::failure::Failure;
use crate::world::notebook::{Kept, Name};
use axum::extract::{Multipart, Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};
use maud::{Markup, html};
use press::address::relative;
use recipe::document::model::Kind;
use recipe::source::Severity;
use std::sync::Arc;

/// Name of the demo in the notebook.
const DEMO: &str = "same-day-loaf";

/// `GET /`
pub async fn show(State(desk): State<Arc<Desk>>, Query(asked): Query<Asked>) -> Answer {
    aside(desk, move |desk| {
        let said = (asked.said.as_deref() == Some("removed")).then(|| "Removed.".to_owned());
        Ok(page(
            &Shell::titled("Notebook"),
            &contents(desk, said.as_deref())?,
        ))
    })
    .await
}

/// `POST /demo`: the built-in recipe and its kitchens become files of the notebook.
pub async fn demo(State(desk): State<Arc<Desk>>) -> Answer {
    aside(desk, |desk| {
        let _one = desk.saving();
        let texts = [
            (Kept::Kitchen, "studio", DEMO_STUDIO),
            (Kept::Kitchen, "terrace", DEMO_TERRACE),
            (Kept::Recipe, DEMO, DEMO_RECIPE),
        ];
        for (kept, name, text) in texts {
            let name = Name::of_words(name, "demo");
            // What is there already may have been changed: it stays.
            if desk.notebook.read(kept, &name)?.is_none() {
                desk.notebook.write(kept, &name, text.as_bytes())?;
            }
        }
        let there = format!("/recipe/{DEMO}?kitchen=studio&said=demo");
        Ok(Redirect::to(&there).into_response())
    })
    .await
}

/// `POST /paste`: a text or a file becomes a pasted text of the notebook.
pub async fn paste(State(desk): State<Arc<Desk>>, mut form: Multipart) -> Answer {
    let mut text = String::new();
    let unread =
        |error: axum::extract::multipart::MultipartError| Refusal::of_status(error.status());
    while let Some(field) = form.next_field().await.map_err(unread)? {
        let bytes = field.bytes().await.map_err(unread)?;
        if text.trim().is_empty() && !bytes.is_empty() {
            // A browser sends line ends of its own; a file keeps those it has.
            text = String::from_utf8_lossy(&bytes).replace("\r\n", "\n");
        }
    }
    aside(desk, move |desk| {
        if text.trim().is_empty() {
            return Ok(nothing_pasted(desk)?.into_response());
        }
        let first = super::pasted::plain(&text);
        let first = first.lines().map(str::trim).find(|line| !line.is_empty());
        let _one = desk.saving();
        let kinds = [Kept::Pasted, Kept::Recipe, Kept::Mends];
        let wished = Name::of_words(first.unwrap_or_default(), "pasted");
        let name = desk.notebook.free(&kinds, &wished);
        desk.notebook.write(Kept::Pasted, &name, text.as_bytes())?;
        let there = format!("/pasted/{}?said=pasted", relative(name.text()));
        Ok(Redirect::to(&there).into_response())
    })
    .await
}

fn nothing_pasted(desk: &Desk) -> Answer {
    let error = html! {
        div.faults role="alert" {
            h2 { "Nothing was pasted" }
            ul { li { a href="#text" { "Put the text of a recipe into the field, or choose a file." } } }
        }
    };
    let body = html! {
        h1 { "Paste a recipe" }
        (error)
        (paste_form(true))
        @if desk.notebook.names(Kept::Recipe)?.is_empty() { (demo_form()) }
    };
    let page = page(&Shell::faulty("Paste a recipe"), &body);
    Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response())
}

/// What the contents say of one recipe.
struct Entry {
    name: Name,
    title: String,
    kind: Option<&'static str>,
    /// "2 to mend".
    state: String,
    mend: bool,
}

fn contents(desk: &Desk, said: Option<&str>) -> Result<Markup, Failure> {
    let recipes = desk.notebook.names(Kept::Recipe)?;
    let pasted = desk.notebook.names(Kept::Pasted)?;
    let empty = recipes.is_empty() && pasted.is_empty();
    let mut entries = Vec::new();
    for name in &recipes {
        if let Some(bytes) = desk.notebook.read(Kept::Recipe, name)? {
            entries.push(entry(desk, name, &bytes)?);
        }
    }
    let texts: Vec<_> = pasted
        .iter()
        .map(|name| (name, recipes.contains(name)))
        .collect();
    let folder = desk.notebook.folder().display().to_string();
    Ok(html! {
        h1 { "Notebook" }
        @if let Some(said) = said { (done(said)) }
        @if empty {
            p.lead { "Nothing is in it yet: put the demo in, or paste a recipe." }
        } @else {
            @if !entries.is_empty() { (list(&entries)) }
            @if !texts.is_empty() { (pasted_list(&texts)) }
        }
        section {
            h2 #paste { "Paste a recipe" }
            (paste_form(false))
        }
        @if !recipes.iter().any(|name| name.text() == DEMO) { (demo_form()) }
        footer { p { "The notebook is the folder " span.path { (folder) } "." } }
    })
}

fn entry(desk: &Desk, name: &Name, bytes: &[u8]) -> Result<Entry, Failure> {
    let file = Kept::Recipe.file(name);
    let mut work = on_bytes(&file, bytes, None);
    look_over(&mut work, &desk.notebook.folder().join(file))?;
    let count = |severity| {
        let of =
            |finding: &&crate::cli::work::Finding| finding.diagnostic.code.severity == severity;
        work.findings.iter().filter(of).count()
    };
    Ok(Entry {
        name: name.clone(),
        title: title(&work).unwrap_or_else(|| Kept::Recipe.file(name)),
        kind: work.kind.map(Kind::word),
        state: super::recipe::findings::counts(count(Severity::Mend), count(Severity::LookAgain)),
        mend: work.stops(),
    })
}

fn title(work: &Work) -> Option<String> {
    work.made.as_ref().map(|made| made.ledger.title.clone())
}

fn list(entries: &[Entry]) -> Markup {
    html! {
        section {
            h2 { "Recipes" }
            ul.entries {
                @for entry in entries {
                    li.row {
                        p {
                            a href=(format!("/recipe/{}", relative(entry.name.text()))) { (entry.title) }
                        }
                        p.beside {
                            @if let Some(kind) = entry.kind { (kind) ", " }
                            span.strong[entry.mend] { (entry.state) }
                        }
                    }
                }
            }
        }
    }
}

fn pasted_list(texts: &[(&Name, bool)]) -> Markup {
    html! {
        section {
            h2 { "Pasted texts" }
            ul.entries {
                @for (name, made) in texts {
                    li.row {
                        p {
                            a href=(format!("/pasted/{}", relative(name.text()))) {
                                (Kept::Pasted.file(name))
                            }
                        }
                        p.beside { @if *made { "made into a recipe" } @else { "not yet a recipe" } }
                    }
                }
            }
        }
    }
}

fn paste_form(faulty: bool) -> Markup {
    html! {
        form.row method="post" action="/paste" enctype="multipart/form-data" {
            div {
                p {
                    label for="text" { "Text of the recipe" }
                    textarea #text name="text" rows="12" aria-describedby="paste-note"
                        aria-invalid=[faulty.then_some("true")] {}
                }
                p {
                    label for="file" { "Or a file: a text, or a saved web page" }
                    input #file type="file" name="file" accept=".txt,.md,.html,.htm,text/plain,text/html";
                }
                p { button type="submit" { "Read it" } }
            }
            p.beside #paste-note {
                "The text is kept whole. What is understood of each line stands beside it, and every \
                 line can be mended before a recipe is made of it. At most 1 MiB."
            }
        }
    }
}

fn demo_form() -> Markup {
    html! {
        section {
            h2 #demo { "Put the demo in" }
            form.row method="post" action="/demo" {
                p { button type="submit" { "Put the demo in" } }
                p.beside { "A complete recipe, a braid and tied buns from one dough, with two kitchens to try it in." }
            }
        }
    }
}
