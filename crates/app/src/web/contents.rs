//! The contents of the notebook: its recipes, its pasted texts, and the two ways to put something in.

use super::desk::{Asked, By, Desk, aside};
use super::recipe::{history::when, title};
use super::refusal::{Answer, Refusal};
use super::shell::{Shell, done, page};
use crate::cli::publish::look_over;
use crate::cli::work::{DEMO_RECIPE, DEMO_STUDIO, DEMO_TERRACE, Work, on_bytes};
use crate::failure::Failure;
use crate::world::clock;
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

/// Letters of a pasted text's first line that name it in the contents.
const LONGEST_NAME: usize = 80;

/// `GET /`
pub async fn show(State(desk): State<Arc<Desk>>, Query(asked): Query<Asked>) -> Answer {
    aside(desk, move |desk| {
        let said = (asked.said.as_deref() == Some("removed")).then(|| "Removed.".to_owned());
        Ok(page(
            &Shell::titled("Notebook"),
            &contents(
                desk,
                said.as_deref(),
                asked.find.as_deref().unwrap_or_default(),
            )?,
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
                desk.save(kept, &name, text.as_bytes(), &By::made())?;
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
            if no_text(&bytes) {
                return Err(Refusal::new(
                    StatusCode::UNSUPPORTED_MEDIA_TYPE,
                    "That is no plain text: a word processor’s document, a PDF, a picture or an \
                     archive, perhaps. Nothing was kept.",
                )
                .hint(
                    "Copy the words out of it and paste them, or save it as plain text in UTF-8.",
                ));
            }
            // A browser sends line ends of its own; a file keeps those it has.
            text = String::from_utf8_lossy(&bytes).replace("\r\n", "\n");
        }
    }
    aside(desk, move |desk| {
        if text.trim().is_empty() {
            return Ok(nothing_pasted(desk)?.into_response());
        }
        let first = first_line(&text);
        let _one = desk.saving();
        let kinds = [Kept::Pasted, Kept::Recipe, Kept::Mends];
        let wished = Name::of_words(&first, "pasted");
        let name = desk.notebook.free(&kinds, &wished);
        desk.notebook.write(Kept::Pasted, &name, text.as_bytes())?;
        let there = format!("/pasted/{}?said=pasted", relative(name.text()));
        Ok(Redirect::to(&there).into_response())
    })
    .await
}

/// The first line of a pasted text that says something.
fn first_line(text: &str) -> String {
    let plain = super::pasted::plain(text);
    let mut lines = plain.lines().map(str::trim);
    let first = lines.find(|line| !line.is_empty());
    first.unwrap_or_default().to_owned()
}

/// Whether bytes are no text that anybody wrote: no text holds these control characters (a terminal's
/// escape among them may be left in what was copied from one).
fn no_text(bytes: &[u8]) -> bool {
    let odd =
        |byte: &u8| byte.is_ascii_control() && !b"\t\n\r\x08\x0b\x0c\x1a\x1b\x7f".contains(byte);
    bytes.iter().any(odd)
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
    /// Draft, tested, published.
    stage: &'static str,
    /// When its file was last changed, as far as the record knows.
    changed: Option<String>,
    /// Everything that is looked through, in small letters.
    words: String,
}

fn contents(desk: &Desk, said: Option<&str>, find: &str) -> Result<Markup, Failure> {
    // What was changed in the folder meanwhile is told to the record first; where none can be kept,
    // that is said below.
    let _ = desk.record.reconcile(&desk.notebook, clock::moment());
    let recipes = desk.notebook.names(Kept::Recipe)?;
    let pasted = desk.notebook.names(Kept::Pasted)?;
    let gone = gone(desk);
    let empty = recipes.is_empty() && pasted.is_empty();
    let mut entries = Vec::new();
    for name in &recipes {
        if let Some(bytes) = desk.notebook.read(Kept::Recipe, name)? {
            entries.push(entry(desk, name, &bytes)?);
        }
    }
    let wanted: Vec<String> = find.split_whitespace().map(str::to_lowercase).collect();
    let found = |entry: &Entry| {
        wanted
            .iter()
            .all(|word| entry.words.contains(word.as_str()))
    };
    entries.retain(found);
    let mut texts = Vec::new();
    for name in &pasted {
        let bytes = desk.notebook.read(Kept::Pasted, name)?.unwrap_or_default();
        let called: String = first_line(&String::from_utf8_lossy(&bytes))
            .chars()
            .take(LONGEST_NAME)
            .collect();
        texts.push((name, called, recipes.contains(name)));
    }
    let folder = desk.notebook.folder().display().to_string();
    Ok(html! {
        h1 { "Notebook" }
        @if let Some(said) = said { (done(said)) }
        @if let Some(why) = desk.nothing_kept() { p.lead { (why) } }
        @for file in desk.record.moved_aside() {
            p.lead {
                "The record of this notebook was damaged. It was moved aside whole, as "
                span.path { (file) } ", and a new one was begun. The recipes are as they were."
            }
        }
        @if empty {
            p.lead { "Nothing is in it yet: put the demo in, or paste a recipe." }
        } @else {
            @if !recipes.is_empty() { (search_form(find)) }
            @if !entries.is_empty() { (list(&entries)) }
            @else if !wanted.is_empty() { p.lead { "No recipe has all these words." } }
            @if !texts.is_empty() { (pasted_list(&texts)) }
        }
        @if !gone.is_empty() { (gone_list(&gone)) }
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
    look_over(&mut work, &desk.notebook.folder().join(&file))?;
    let count = |severity| {
        let of =
            |finding: &&crate::cli::work::Finding| finding.diagnostic.code.severity == severity;
        work.findings.iter().filter(of).count()
    };
    let last = desk.record.last_revision(&file).ok().flatten();
    let out = desk.record.last_published(&file).ok().flatten();
    let now = last.as_ref().map(|last| last.number);
    let tested = work
        .made
        .as_ref()
        .is_some_and(|made| !made.ledger.tested.is_empty());
    let stage = match out {
        Some(out) if Some(out.revision) == now => "published",
        Some(_) => "published, changed since",
        None if tested => "tested",
        None => "draft",
    };
    Ok(Entry {
        name: name.clone(),
        title: title(&work, bytes).unwrap_or_else(|| Kept::Recipe.file(name)),
        kind: work.kind.map(Kind::word),
        state: super::recipe::findings::counts(count(Severity::Mend), count(Severity::LookAgain)),
        mend: work.stops(),
        stage,
        changed: last.map(|last| when(last.at)),
        words: words(name, &work),
    })
}

/// File, title and everything that goes in.
fn words(name: &Name, work: &Work) -> String {
    let mut words = name.text().to_owned();
    if let Some(made) = &work.made {
        let ledger = &made.ledger;
        let items = ledger.stages.iter().flat_map(|stage| &stage.items);
        let names = items.chain(&ledger.besides).map(|item| &item.name);
        for more in [&ledger.title].into_iter().chain(names) {
            words.push(' ');
            words += more;
        }
        for group in &ledger.shopping.groups {
            for line in &group.lines {
                words.push(' ');
                words += &line.name;
            }
        }
    }
    words.to_lowercase()
}

/// Recipes whose files are no longer there, each with its last version.
fn gone(desk: &Desk) -> Vec<(Name, i64, String)> {
    let gone = desk.record.gone().unwrap_or_default();
    gone.into_iter()
        .filter_map(|gone| {
            let name = Name::of(gone.file.strip_suffix(".toml")?)?;
            let last = desk.record.last_revision(&gone.file).ok()??;
            Some((name, last.number, when(gone.at)))
        })
        .collect()
}

fn gone_list(gone: &[(Name, i64, String)]) -> Markup {
    html! {
        section {
            h2 { "No longer in the folder" }
            ul.entries {
                @for (name, version, at) in gone {
                    li.row {
                        form method="post" action=(format!("/recipe/{}/history", relative(name.text()))) {
                            input type="hidden" name="version" value=(version);
                            p {
                                (Kept::Recipe.file(name)) " "
                                button type="submit" { "Put it back" }
                            }
                        }
                        p.beside { "missing since " (at) ". Its last text, version " (version) ", is kept." }
                    }
                }
            }
        }
    }
}

fn search_form(find: &str) -> Markup {
    html! {
        form.surroundings role="search" method="get" action="/" {
            p {
                label for="find" { "Words of the title or of what goes in" }
                input #find type="text" name="find" value=(find);
            }
            p { button type="submit" { "Find" } }
            @if !find.trim().is_empty() { p { a href="/" { "All recipes" } } }
        }
    }
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
                            (entry.stage) ", "
                            span.strong[entry.mend] { (entry.state) }
                            @if let Some(changed) = &entry.changed { br; "changed " (changed) }
                        }
                    }
                }
            }
        }
    }
}

fn pasted_list(texts: &[(&Name, String, bool)]) -> Markup {
    html! {
        section {
            h2 { "Pasted texts" }
            ul.entries {
                @for (name, called, made) in texts {
                    li.row {
                        p {
                            a href=(format!("/pasted/{}", relative(name.text()))) {
                                @if called.is_empty() { (Kept::Pasted.file(name)) } @else { (called) }
                            }
                        }
                        p.beside {
                            @if *made { "made into a recipe" } @else { "not yet a recipe" }
                            br; span.path { (Kept::Pasted.file(name)) }
                        }
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
