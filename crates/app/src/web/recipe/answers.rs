//! What readers ask: every question, an answer with this recipe's figures, and the reply to copy.

use super::{Opened, Tab};
use crate::cli::answers::answered;
use crate::web::desk::{Asked, Desk, aside, in_query};
use crate::web::laid_out::Texts;
use crate::web::refusal::Answer as Page;
use crate::web::script::Script;
use crate::web::under_way::taken_away;
use crate::world::notebook::Kept;
use crate::world::progress::{Far, Told};
use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use axum::response::IntoResponse;
use edit::answers::{About, Answer, Fact, Found, NAMES, QUESTIONS, Question, find};
use maud::{Markup, html};
use recipe::document::KitchenValue;
use serde::Deserialize;
use std::sync::Arc;

/// What is asked.
#[derive(Clone, Debug, Default, Deserialize)]
pub struct Said {
    /// A question's name, or a fault in a word or two.
    ask: Option<String>,
    /// What the asker says, one thing a line.
    facts: Option<String>,
}

impl Said {
    fn ask(&self) -> Option<&str> {
        self.ask
            .as_deref()
            .map(str::trim)
            .filter(|ask| !ask.is_empty())
    }

    /// What the asker says; what cannot be read is said.
    fn facts(&self) -> Result<Vec<Fact>, String> {
        let all = self.facts.as_deref().unwrap_or_default();
        let parts = all.split(['\n', ';']).map(str::trim);
        parts
            .filter(|part| !part.is_empty())
            .map(Fact::read)
            .collect()
    }
}

/// `GET /recipe/{name}/answers?ask=cold-kitchen&facts=room%3D16C`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Query(said): Query<Said>,
) -> Page {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked.clone())?;
        if opened.work.stops() || opened.ledger().is_none() {
            let main = html! {
                p.lead { "Questions can be answered when what must be mended is mended." }
                p { a href=(opened.address(Tab::Findings)) { "Findings" } }
            };
            return Ok(opened.show(Tab::Answers, &main));
        }
        let facts = said.facts();
        let found = said.ask().map(find);
        let answer = match (&found, &facts) {
            (Some(Found::One(question)), Ok(facts)) => {
                answers(desk, &opened, &asked, facts, &[question])
            }
            _ => None,
        };
        let main = html! {
            @if let Err(wrong) = &facts {
                div.faults role="alert" {
                    h2 { "Not understood" }
                    ul { li { a href="#facts" { (wrong) } } }
                }
            }
            @if let Some(Found::Near(names)) = &found {
                div.faults role="alert" {
                    h2 { "That is no question that is answered here" }
                    @if names.is_empty() { p { "Every question there is stands below." } } @else {
                        p { "Is one of these meant?" }
                        ul { @for near in names { li { a href=(link(&opened, &asked, &said, near)) { (asks(near)) } } } }
                    }
                }
            }
            (form(&opened, &asked, &said, facts.is_err()))
            @if let Some((above, answers)) = &answer {
                @for one in answers { (reply(one, above, &|name| link(&opened, &asked, &said, name))) }
            }
            (list(&opened, &asked, &said))
        };
        let page = opened.show_with(Tab::Answers, &main, &[Script::Live]);
        let wrong = facts.is_err() || matches!(found, Some(Found::Near(_)));
        Ok(if wrong {
            (StatusCode::UNPROCESSABLE_ENTITY, page).into_response()
        } else {
            page
        })
    })
    .await
}

/// `GET /recipe/{name}/answers.html`: every answer as one page to take away.
pub async fn page(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
    Query(said): Query<Said>,
) -> Page {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, asked.clone())?;
        let facts = said.facts().map_err(|wrong| {
            crate::web::refusal::Refusal::new(StatusCode::UNPROCESSABLE_ENTITY, wrong)
        })?;
        let all: Vec<&Question> = QUESTIONS.iter().collect();
        let ledger = match opened.readable(Tab::Answers) {
            Ok(ledger) => ledger,
            Err(instead) => return Ok(*instead),
        };
        let Some((above, answers)) = answers(desk, &opened, &asked, &facts, &all) else {
            return Ok(opened.show(
                Tab::Answers,
                &html! { p.lead { "Mend the findings first." } },
            ));
        };
        let page = press::answers::page(ledger, &above, &answers);
        Ok(taken_away("answers.html", page.into_bytes()))
    })
    .await
}

/// Answers for the kitchen of the address.
fn answers(
    desk: &Desk,
    opened: &Opened,
    asked: &Asked,
    facts: &[Fact],
    wanted: &[&Question],
) -> Option<(String, Vec<Answer>)> {
    let (_, bytes, kitchen) = super::texts(desk, opened.name.text(), asked).ok()?;
    let file = Kept::Recipe.file(&opened.name);
    let laid = desk.laid_out.of(Texts {
        file: &file,
        recipe: &bytes,
        kitchen,
        readers: asked.readers(),
    });
    let made = laid.work.made.as_ref().filter(|_| !laid.work.stops())?;
    let far = Far::default();
    let taught = laid.taught_quickly();
    Some(answered(
        made,
        &made.kitchen,
        facts,
        taught,
        wanted,
        Told::Page(&far),
    ))
}

fn asks(name: &str) -> &str {
    let question = QUESTIONS.iter().find(|one| one.name == name);
    question.map_or(name, |question| question.asks)
}

/// The address of a question, with what the asker says.
fn link(opened: &Opened, asked: &Asked, said: &Said, name: &str) -> String {
    let mut more = format!("ask={name}");
    if let Some(facts) = said
        .facts
        .as_deref()
        .filter(|facts| !facts.trim().is_empty())
    {
        more += &format!("&facts={}", in_query(facts));
    }
    format!("{}{}", opened.place("/answers"), asked.carried_and(&more))
}

fn form(opened: &Opened, asked: &Asked, said: &Said, faulty: bool) -> Markup {
    html! {
        form.row method="get" action=(opened.place("/answers")) {
            @if let Some(kitchen) = asked.kitchen() { input type="hidden" name="kitchen" value=(kitchen.text()); }
            @if let Some(market) = asked.readers() { input type="hidden" name="readers" value=(market.tag()); }
            div {
                p {
                    label for="ask" { "What is asked" }
                    input type="text" #ask name="ask" value=(said.ask().unwrap_or_default()) aria-describedby="ask-note";
                }
                p {
                    label for="facts" { "What they say of their kitchen, one thing a line" }
                    textarea #facts name="facts" rows="3" aria-describedby="facts-note"
                        aria-invalid=[faulty.then_some("true")] { (said.facts.as_deref().unwrap_or_default()) }
                }
                p { button type="submit" { "Answer" } }
            }
            div.beside {
                p #ask-note { "A word or two: dense, cold kitchen, no milk, another tin. Or choose below." }
                p #facts-note {
                    "For example "
                    @for (at, (name, example)) in KitchenValue::NAMES.iter().take(4).chain(NAMES.iter().take(5)).enumerate() {
                        @if at > 0 { ", " }
                        code { (name) "=" (example) }
                    }
                }
            }
        }
    }
}

/// An answer: the reply to copy first, behind "More" what else there is to say and what it rests on.
fn reply(one: &Answer, above: &str, to: &dyn Fn(&str) -> String) -> Markup {
    let rests = one.rests(false);
    html! {
        section #answer {
            h2 { (one.asks) }
            div.row {
                div {
                    p.reply { (linked(&one.reply, to)) }
                    @if one.refused { p.hint { "No figure would be honest here." } }
                    // Without a script the reply above is marked and copied by hand.
                    p hidden {
                        textarea #copy hidden readonly aria-label="The reply as it is copied" { (one.reply) }
                        button type="button" data-copy="copy" { "Copy the reply" }
                    }
                }
                div.beside {
                    @if !one.changes.is_empty() {
                        p { strong { "In the recipe" } }
                        ul.plain { @for change in &one.changes { li { (change) } } }
                    }
                    p { (above) }
                }
            }
            @if !one.causes.is_empty() {
                h3 { "Causes, tried one at a time" }
                ol.notes.causes {
                    @for cause in &one.causes {
                        li {
                            strong { (cause.what) } ", " em { (cause.verdict) } ": " (linked(&cause.does, to)) ". "
                            (linked(&cause.way_out, to))
                        }
                    }
                }
            }
            @if !one.more.is_empty() || !rests.is_empty() {
                details.more {
                    summary { "More" }
                    @for words in &one.more { p { (linked(words, to)) } }
                    @if !rests.is_empty() {
                        h3 { "It rests on" }
                        ul.plain { @for line in &rests { li { (linked(line, to)) } } }
                    }
                }
            }
        }
    }
}

/// Words between backquotes: another question leads to its answer, a command stands as code.
fn linked(words: &str, to: &dyn Fn(&str) -> String) -> Markup {
    html! {
        @for (place, part) in words.split('`').enumerate() {
            @if place % 2 == 0 {
                (part)
            } @else if QUESTIONS.iter().any(|question| question.name == part) {
                a href=(to(part)) { (asks(part)) }
            } @else {
                code { (part) }
            }
        }
    }
}

/// Every question by what it is about.
fn list(opened: &Opened, asked: &Asked, said: &Said) -> Markup {
    html! {
        @for about in About::ALL {
            section {
                h2 { (about.heading()) }
                ul.plain {
                    @for question in QUESTIONS.iter().filter(|one| one.about == about) {
                        li { a href=(link(opened, asked, said, question.name)) { (question.asks) } }
                    }
                }
            }
        }
        section {
            h2 { "To take away" }
            p {
                a href=(format!("{}{}", opened.place("/answers.html"), asked.carried())) download="answers.html" {
                    "Every answer as one page"
                }
            }
        }
    }
}
