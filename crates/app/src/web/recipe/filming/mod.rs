//! A filming day: scenes from a file, the fewest batches that have every state ready, call sheet and run of show.

pub mod fields;
pub mod scenes;

use super::day::{drawing, hands, parts, table};
use super::{Opened, Tab};
use crate::cli::shoot::{Paper, Whose, ours, papers, planned, what};
use crate::cli::work::{Finding, Work, on_bytes_for};
use crate::failure::Failure;
use crate::web::desk::{Asked, Desk, aside, in_query};
use crate::web::in_hand::{Doing, Made};
use crate::web::laid_out::Texts;
use crate::web::recipe::findings::{coded, sentence, weighed};
use crate::web::refusal::{Answer, Refusal};
use crate::web::under_way;
use crate::world::notebook::{Kept, Name};
use axum::extract::{Multipart, Path as Named, Query, State};
use axum::http::StatusCode;
use axum::response::IntoResponse;
use edit::ledger::shoot::model::{FilmLines, SceneLine};
use edit::ledger::timetable::Hours;
use maud::{Markup, html};
use recipe::measure::Market;
use serde::Deserialize;
use std::path::Path;
use std::sync::Arc;

/// What the address says of a file of scenes.
#[derive(Clone, Debug, Default, Deserialize)]
pub struct Held {
    /// The mark of the day that is kept.
    scenes: Option<String>,
}

/// The file's name in what is said of it.
const FILE: &str = "scenes.toml";

/// `GET /recipe/{name}/filming?scenes=MARK`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Named(name): Named<String>,
    Query(asked): Query<Asked>,
    Query(held): Query<Held>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        let mark = held.scenes.as_deref();
        let gone = mark.map(|_| "That plan is not kept any more. Give the scenes again.");
        let main = html! {
            (under_way::answer(desk, mark, what, gone))
            (form(desk, &opened, false)?)
        };
        Ok(opened.show(Tab::Filming, &main))
    })
    .await
}

/// `POST /recipe/{name}/filming`: begins planning.
pub async fn begin(
    State(desk): State<Arc<Desk>>,
    Named(name): Named<String>,
    Query(asked): Query<Asked>,
    form_sent: Multipart,
) -> Answer {
    let sent = super::sent(form_sent).await?;
    aside(desk, move |desk| {
        let asked = asked.chosen(&sent.fields);
        let opened = Opened::of(desk, &name, asked.clone())?;
        let (_, _, kitchen) = super::texts(desk, &name, &asked)?;
        let field = |name: &str| sent.fields.get(name).map_or("", |words| words.trim());
        let mut scenes = sent.bytes.clone();
        let chosen = Name::of(field("kept")).filter(|_| scenes.trim_ascii().is_empty());
        if let Some(kept) = chosen {
            scenes = scenes_of(desk, &kept)?;
        }
        if scenes.trim_ascii().is_empty() {
            let page = opened.show(Tab::Filming, &form(desk, &opened, true)?);
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
        }
        let whose = match field("times") {
            "reckoned" => Whose::Reckoned,
            _ => Whose::Written,
        };
        let paper = match field("paper") {
            "letter" => Paper::Letter,
            _ => Paper::A4,
        };
        let hours = match field("clock") {
            "12" => Hours::Of12,
            _ => Hours::Of24,
        };
        let texts = Texts {
            file: "",
            recipe: &opened.bytes,
            kitchen: kitchen.clone(),
            readers: asked.readers(),
        };
        let more = format!(
            "filming {} {} {} {}",
            field("times"),
            field("paper"),
            field("clock"),
            crate::web::digest::base64(&scenes)
        );
        let mark: String = texts
            .mark(&more)
            .chars()
            .filter(char::is_ascii_alphanumeric)
            .collect();
        let carried = asked.carried_and(&format!("scenes={mark}"));
        let there = format!("{}{carried}", opened.place("/filming"));
        let called = format!("{}: the filming day", opened.title());
        let file = Kept::Recipe.file(&opened.name);
        let (bytes, readers) = (opened.bytes.clone(), asked.readers());
        let doing: Doing = Box::new(move |own| {
            own.far.begins("Parting the scenes among batches", 0);
            let mut work = on_bytes_for(&file, &bytes, kitchen, readers);
            let filming = planned(&mut work, Path::new(FILE), &scenes, whose);
            own.far.begins("Setting the papers of the day", 0);
            let findings = html! {
                @for one in work.findings.iter().filter(|one| filming.is_none() || ours(one)) {
                    @let said = &one.diagnostic;
                    li {
                        (weighed(said))
                        @if let Some(line) = line_of(&work, one) { span.small { " (" (line) ")" } }
                        @for hint in &said.hints { p.hint { (coded(&sentence(hint))) } }
                    }
                }
            }
            .into_string();
            let said = html! {
                @if !findings.is_empty() {
                    section {
                        h2 { "What to look at" }
                        ul.plain { (maud::PreEscaped(findings)) }
                    }
                }
            };
            let (Some(made), Some(filming)) = (&work.made, &filming) else {
                let main = html! { section { h2 { "Nothing was planned" } } (said) };
                return Ok(Made {
                    main: main.into_string(),
                    ..Made::default()
                });
            };
            if own.stop.wanted() {
                return Err(Failure::Usage(
                    "It was stopped before its papers were made".to_owned(),
                ));
            }
            let lines = filming.lines(made, readers, hours);
            let language = readers.map_or("en", Market::tag);
            let files = papers(&lines, &made.ledger.imprint, language, paper)?;
            Ok(Made {
                first: first(&lines, &said, filming.past.as_deref()).into_string(),
                main: day(&lines).into_string(),
                files,
                ..Made::default()
            })
        });
        under_way::begin(desk, &mark, called, there, doing)
    })
    .await
}

fn scenes_of(desk: &Desk, name: &Name) -> Result<Vec<u8>, Refusal> {
    let gone = |_| Refusal::not_found("There are no scenes of that name in the notebook.");
    let (_, bytes) = desk.text(Kept::Scenes, name.text()).map_err(gone)?;
    Ok(bytes)
}

fn form(desk: &Desk, opened: &Opened, faulty: bool) -> Result<Markup, Refusal> {
    let kept = desk.notebook.names(Kept::Scenes)?;
    let new = format!("{}{}", opened.place("/filming/scenes"), opened.carried());
    Ok(html! {
        @if faulty {
            div.faults role="alert" {
                h2 { "No scenes were given" }
                ul { li { a href="#text" { "Put the file of scenes into the field, or choose one." } } }
            }
        }
        section {
            h2 { "Scenes" }
            @if kept.is_empty() {
                p { "A filming day begins with its scenes: what is filmed one after the other, and what must be ready for it." }
            } @else {
                ul.entries {
                    @for name in &kept {
                        li.row id=(format!("scenes-{}", in_query(name.text()))) {
                            p { a href=(scenes::address(opened, name)) { (name.text()) } }
                        }
                    }
                }
            }
            form method="post" action=(new) { p { button type="submit" { "Begin new scenes" } } }
        }
        section {
            h2 { "Plan a filming day" }
            form.row method="post" enctype="multipart/form-data" action=(opened.place("/filming")) {
                div {
                    @if !kept.is_empty() {
                        p {
                            label for="kept" { "Scenes in the notebook" }
                            select #kept name="kept" {
                                option value="" { "none of them" }
                                @for name in &kept { option value=(name.text()) { (name.text()) } }
                            }
                        }
                    }
                    p {
                        label for="file" { "A file of scenes" }
                        input #file type="file" name="file" accept=".toml";
                    }
                    p.write {
                        label for="text" { "Or its text" }
                        textarea #text name="text" rows="8" spellcheck="false" aria-describedby="scenes-note"
                            aria-invalid=[faulty.then_some("true")] {}
                    }
                    (opened.kitchen_field())
                    p {
                        label for="times" { "Whose minutes" }
                        select #times name="times" {
                            option value="" { "the author’s written times" }
                            option value="reckoned" { "as reckoned in this kitchen" }
                        }
                    }
                    p {
                        label for="paper" { "Paper" }
                        select #paper name="paper" { option value="" { "A4" } option value="letter" { "Letter" } }
                    }
                    p {
                        label for="clock" { "Hours" }
                        select #clock name="clock" { option value="" { "13:05" } option value="12" { "1:05 pm" } }
                    }
                    (opened.readers_field())
                    p { button type="submit" { "Plan the filming" } }
                }
                p.beside #scenes-note {
                    "Scenes in the order in which they are filmed, each with what must be ready when it \
                     begins. " a href="/handbook/filming-day" { "What such a file holds" }
                }
            }
        }
    })
}

/// Where a finding is: "line 12 of scenes.toml".
fn line_of(work: &Work, finding: &Finding) -> Option<String> {
    let source = work.source(finding.file);
    let at = finding.diagnostic.span?.start.min(source.text.len());
    let before = source.text.bytes().take(at);
    let line = 1 + before.filter(|byte| *byte == b'\n').count();
    Some(format!("line {line} of {}", source.path))
}

/// What stands before the papers: the day in a sentence, what was found, the call sheet.
fn first(film: &FilmLines, said: &Markup, past: Option<&str>) -> Markup {
    html! {
        @if let Some(past) = past { p.done { (past) } }
        section {
            h2 { (film.title) }
            p { (film.date) ". " (film.fewest) ". " (film.times) }
            (parts())
        }
        (said)
        section {
            h2 { "Call sheet" }
            div.row {
                dl.facts {
                    @for (what, at) in &film.call.hours { dt { (what) } dd { (at) } }
                    @for (what, words) in &film.call.place { dt { (what) } dd { (words) } }
                }
                ul.plain.beside {
                    @for (does, who, when) in &film.call.crew { li { (does) ": " (who) ", " (when) } }
                }
            }
        }
    }
}

/// The day: batches, run of show, what stands ready, oven, what fewer would cost, everything by the clock.
fn day(film: &FilmLines) -> Markup {
    html! {
        section {
            h2 { "Batches" }
            p.hint { "Under each: what is made before its mix, and as what it is held, for how long of how long it may be, and where." }
            ul.entries {
                @for batch in &film.batches {
                    li.row {
                        div {
                            p { strong { (batch.name) } " for " (batch.serves) @if batch.on_camera { ", on camera" } }
                            @for hold in &batch.holds { p.hint { (hold) } }
                            @if let Some(spare) = &batch.spare { p.hint { "No scene wants its " (spare) "." } }
                        }
                        p.beside {
                            "mix from " strong { (batch.starts.shown) }
                            @if batch.latest.shown != batch.starts.shown { ", not after " (batch.latest.shown) }
                        }
                    }
                }
            }
            @for extra in &film.extras { p { (extra) } }
        }
        section {
            h2 { "Run of show" }
            ul.entries { @for scene in &film.scenes { li.row { (scene_row(scene)) } } }
        }
        section {
            h2 { "Ready before the camera" }
            ul.entries {
                @for swap in &film.swaps {
                    li.row {
                        p { strong.clock { (swap.at.shown) } " " (swap.scene) ": " (swap.state) ", " (swap.batch) }
                        p.beside {
                            @if let Some(waits) = &swap.waits { (waits) }
                            @if let Some(spare) = &swap.spare { br; "spare: " (spare) }
                        }
                    }
                }
            }
        }
        @if !film.oven.is_empty() {
            section {
                h2 { "Oven" }
                ul.entries {
                    @for bake in &film.oven {
                        li.row {
                            p { strong.clock { (bake.begins.shown) } " to " (bake.ends.shown) " " (bake.what) ", " (bake.why) }
                            p.beside { (bake.dial.shown) }
                        }
                    }
                }
            }
        }
        @if let Some(cold) = &film.refrigerator { p { "Refrigerator: " (cold) "." } }
        section {
            h2 { "How many batches" }
            ul.plain {
                @for line in &film.trade {
                    li {
                        (line.batches) ": wrap " (line.wrap)
                        @if !line.later.is_empty() { ", " (line.later) }
                        @if let Some(people) = &line.people { ", " (people) }
                    }
                }
            }
        }
        @if !film.cautions.is_empty() {
            section {
                h2 { "Take care" }
                ul.plain { @for caution in &film.cautions { li { (caution.text) span.small { " (" (caution.source) ")" } } } }
                p { (film.contains) }
            }
        }
        (hands(&film.table))
        (table(&film.table))
        (drawing(&film.table))
    }
}

fn scene_row(scene: &SceneLine) -> Markup {
    let mut said = scene.figures.clone();
    said.extend(scene.says.iter().cloned());
    html! {
        div {
            p { strong.clock { (scene.begins.shown) } " " (scene.name) " " (scene.about) }
            @for need in &scene.needs { p.hint { (need) } }
            @if !said.is_empty() { p.hint { "say: " (said.join(" · ")) } }
            @if let Some(note) = &scene.note { p.hint { (note) } }
        }
        p.beside { (scene.takes.shown) }
    }
}
