//! Words: what the editor finds in the text by families of rules, and a talk held against the recipe.

use super::findings::{Placed, coded, place, placed, sentence, weighed, weight};
use super::{Opened, Tab};
use crate::failure::Failure;
use crate::web::desk::{Asked, Desk, aside};
use crate::web::in_hand::{Doing, Made};
use crate::web::laid_out::Texts;
use crate::web::refusal::Answer;
use crate::web::under_way;
use crate::world::notebook::Kept;
use axum::extract::{Multipart, Path, Query, State};
use axum::http::StatusCode;
use axum::response::IntoResponse;
use edit::book::book;
use edit::talk::track::clock;
use edit::talk::{Finding, Kind, Talk};
use maud::{Markup, html};
use recipe::source::Diagnostic;
use serde::Deserialize;
use std::sync::Arc;

/// What the address says of a talk.
#[derive(Clone, Debug, Default, Deserialize)]
pub struct Held {
    /// The mark of the talk that is kept.
    talk: Option<String>,
}

/// `GET /recipe/{name}/words?talk=MARK`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Query(held): Query<Held>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked)?;
        let kept = held.talk.as_deref().map(|mark| desk.in_hand.kept(mark));
        let pasted = match &kept {
            Some(Some((_, made))) => &*made.pasted,
            _ => "",
        };
        let main = html! {
            @match &kept {
                Some(Some((number, made))) => {
                    (under_way::came_of(*number, made, press::film::what))
                }
                Some(None) => { p { "That talk is not kept any more. Paste it again." } }
                None => {}
            }
            (form(&opened, false, pasted))
            (families(&opened))
        };
        Ok(opened.show(Tab::Words, &main))
    })
    .await
}

/// `POST /recipe/{name}/words`: a talk, pasted or as a file.
pub async fn hold(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    form: Multipart,
) -> Answer {
    let sent = super::sent(form).await?;
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked.clone())?;
        // A file may begin with the mark of its bytes' order and hold nothing besides.
        let words = sent.bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(&sent.bytes);
        if words.trim_ascii().is_empty() || opened.ledger().is_none() {
            let main = html! {
                @if opened.ledger().is_some() { (form_alone(&opened)) } @else { p.lead { "The file cannot be worked out until its findings are mended." } }
                (families(&opened))
            };
            let page = opened.show(Tab::Words, &main);
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
        }
        let texts = Texts {
            file: "",
            recipe: &opened.bytes,
            kitchen: None,
            readers: asked.readers(),
        };
        let talk = crate::web::digest::base64(&sent.bytes);
        let with_papers = sent.fields.contains_key("papers");
        let mark = plain(&texts.mark(&format!("talk {talk} {with_papers}")));
        let carried = asked.carried_and(&format!("talk={mark}"));
        let there = format!("{}{carried}", opened.place("/words"));
        let called = format!("{}: the talk", opened.title());
        let file = Kept::Recipe.file(&opened.name);
        let (bytes, readers) = (opened.bytes.clone(), asked.readers());
        let doing: Doing = Box::new(move |own| {
            own.far.begins("Listening", 0);
            let work = crate::cli::work::on_bytes_for(&file, &bytes, None, readers);
            let made = work
                .made
                .as_ref()
                .ok_or_else(|| Failure::Bug("a recipe that could be read".to_owned()))?;
            let track = edit::talk::track::read(&sent.bytes);
            let mut inputs =
                edit::Inputs::new(&made.recipe, &made.formula, &made.larder, &made.kitchen);
            inputs.market = readers;
            let talk = edit::talk::talk(&inputs, &made.ledger, &track.output);
            let mut faults = track.diagnostics;
            let text = &track.output.text;
            if !with_papers {
                return Ok(Made {
                    main: against(&talk.output, text, &faults).into_string(),
                    pasted: text.clone(),
                    ..Made::default()
                });
            }
            own.far.begins("Setting the film’s papers", 0);
            let cut = edit::talk::film::film(&made.ledger, &track.output, &talk.output.aligned);
            let options = press::address::PageOptions::default();
            let papers = press::film::papers(&made.ledger, &cut.output, &options)
                .map_err(|error| Failure::Bug(error.to_string()))?;
            faults.extend(cut.diagnostics);
            Ok(Made {
                main: against(&talk.output, text, &faults).into_string(),
                files: papers.into_iter().collect(),
                pasted: text.clone(),
                ..Made::default()
            })
        });
        under_way::begin(desk, &mark, called, there, doing)
    })
    .await
}

/// A mark as it can stand in an address.
fn plain(mark: &str) -> String {
    mark.chars().filter(char::is_ascii_alphanumeric).collect()
}

fn form_alone(opened: &Opened) -> Markup {
    html! {
        div.faults role="alert" {
            h2 { "Nothing was pasted" }
            ul { li { a href="#text" { "Put what is said into the field, or choose a file." } } }
        }
        (form(opened, true, ""))
    }
}

fn form(opened: &Opened, faulty: bool, pasted: &str) -> Markup {
    html! {
        section {
            h2 #talk { "Hold what is said in a film against the recipe" }
            form.row method="post" enctype="multipart/form-data" action=(opened.address(Tab::Words)) {
                div {
                    p {
                        label for="text" { "What is said" }
                        textarea #text name="text" rows="8" aria-describedby="talk-note"
                            aria-invalid=[faulty.then_some("true")] { "\n" (pasted) }
                    }
                    p {
                        label for="file" { "Or a file: .txt, .srt or .vtt" }
                        input #file type="file" name="file" accept=".txt,.srt,.vtt,text/plain,text/vtt";
                    }
                    p.check {
                        input type="checkbox" #papers name="papers" value="yes";
                        label for="papers" { "Make the film’s papers too; that takes a little longer" }
                    }
                    p { button type="submit" { "Hold it against the recipe" } }
                }
                p.beside #talk-note {
                    "Plain text with or without marks such as [1:20], SubRip or WebVTT. You get what is \
                     said otherwise than written, with its time, what is never said, and on request the \
                     papers of the film: captions, chapters, cards, figures to say. At most 1 MiB."
                }
            }
        }
    }
}

/// What is said otherwise, then what is never said.
fn against(talk: &Talk, text: &str, faults: &[Diagnostic]) -> Markup {
    let said = |one: &&Finding| one.cue.is_some() || one.kind == Kind::Whole;
    let unsaid: Vec<&Finding> = talk.findings.iter().filter(|one| !said(one)).collect();
    let said: Vec<&Finding> = talk.findings.iter().filter(said).collect();
    html! {
        section {
            h2 { "The talk" }
            @if talk.figures == 0 {
                p { "No amount, temperature, time or size is said." }
            } @else {
                p {
                    (talk.figures) " amounts, temperatures, times and sizes are said; " (talk.agree)
                    " of them are the recipe’s."
                }
            }
            @for fault in faults { p.hint { (weighed(fault)) } }
        }
        section {
            h2 { "Said otherwise" }
            @if said.is_empty() { p { "Nothing is said otherwise than the recipe has it." } }
            ol.found { @for one in said { li { (row(one, text)) } } }
        }
        @if !unsaid.is_empty() {
            section {
                h2 { "Never said" }
                ul.plain { @for one in unsaid { li { (coded(&sentence(&one.diagnostic.message))) } } }
            }
        }
    }
}

fn row(one: &Finding, text: &str) -> Markup {
    let message = one
        .at
        .and_then(|at| {
            one.diagnostic
                .message
                .strip_prefix(&format!("At {}: ", clock(at)))
        })
        .unwrap_or(&one.diagnostic.message);
    html! {
        div.row {
            div {
                p { (coded(&sentence(message))) }
                @for hint in &one.diagnostic.hints { p.hint { (coded(&sentence(hint))) } }
            }
            p.beside {
                @if let Some(at) = one.at {
                    strong { (clock(at)) } " "
                } @else if let Some(line) = press::terminal::line_of(one, text) {
                    strong { "line " (line) } " "
                }
                (weight(one.diagnostic.code.severity)) (one.kind.word())
            }
        }
    }
}

/// Findings that hold a rule of the book, by its families.
fn families(opened: &Opened) -> Markup {
    let all = placed(&opened.work);
    let mut names: Vec<&str> = Vec::new();
    for rule in book() {
        if !names.contains(&rule.family.as_str()) {
            names.push(&rule.family);
        }
    }
    let of = |family: &str| -> Vec<&Placed<'_>> {
        let codes = || book().iter().filter(|rule| rule.family == family);
        let ours = |placed: &&Placed<'_>| {
            codes().any(|rule| rule.codes.contains(&placed.finding.diagnostic.code))
        };
        all.iter().filter(ours).collect()
    };
    html! {
        section {
            h2 { "What the editor finds" }
            @if names.iter().all(|family| of(family).is_empty()) {
                p { "Nothing: every rule of the book is kept." }
            }
        }
        @for family in names {
            @let found = of(family);
            @if !found.is_empty() {
                section {
                    h3 { (edit::ledger::say::capital(family)) }
                    ol.found { @for one in found { li { (finding(opened, one)) } } }
                }
            }
        }
    }
}

fn finding(opened: &Opened, placed: &Placed<'_>) -> Markup {
    let diagnostic = &placed.finding.diagnostic;
    html! {
        div.row {
            div {
                p { (coded(&sentence(&diagnostic.message))) }
                @for hint in &diagnostic.hints { p.hint { (coded(&sentence(hint))) } }
            }
            p.beside {
                (weight(diagnostic.code.severity)) (place(opened, placed)) br;
                a href=(format!("/explain/{}", diagnostic.code.name)) { (diagnostic.code.name) }
            }
        }
    }
}
