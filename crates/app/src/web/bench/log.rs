//! The bench log: every bake with what was read off, beside what was expected; and what readers report.

use super::kept::{self, SoFar};
use super::prepared::Prepared;
use super::recipe;
use super::show::wall;
use crate::web::desk::{Asked, Desk, aside};
use crate::web::recipe::{Opened, Tab};
use crate::web::refusal::Answer;
use crate::web::shell::done;
use crate::world::record::bakes::{Bake, Of};
use axum::Form;
use axum::extract::{Path, Query, State};
use axum::response::{IntoResponse, Redirect};
use edit::ledger::say::capital;
use edit::ledger::timetable::day_words;
use edit::ledger::under_way::{Took, Wall, expected_degrees, read_beside, took};
use maud::{Markup, html};
use numerics::quantity::Duration;
use press::address::relative;
use serde::Deserialize;
use std::collections::BTreeSet;
use std::sync::Arc;

/// The longest report, in bytes.
const LONGEST_REPORT: usize = 4000;

/// `GET /recipe/{name}/log`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let learnt = asked.said.as_deref() == Some("learnt");
        let opened = Opened::of(desk, &name, asked)?;
        let bakes = desk.record.bakes(Some(opened.name.text()))?;
        let mut all = Vec::new();
        let over = bakes.iter().filter(|bake| bake.ended.is_some());
        let kitchens: BTreeSet<String> = over.filter_map(|bake| bake.kitchen.clone()).collect();
        let kitchens: Vec<String> = kitchens.into_iter().collect();
        for bake in bakes {
            all.push(one(desk, &opened, &bake)?);
        }
        let file = crate::world::notebook::Kept::Recipe.file(&opened.name);
        let reports = desk.record.reports(&file)?;
        let main = html! {
            @if learnt { (done("What was learnt is kept in the kitchen\u{2019}s file; the next bake there begins from it.")) }
            section {
                h2 { "Bakes" }
                @if all.is_empty() {
                    p { "No bake was logged yet. " a href=(opened.place("/bench")) { "Bake along" }
                        ", and what you tap and read off stands here." }
                }
                @for bake in &all { (bake) }
            }
            (super::learn::buttons(&opened, &kitchens))
            section {
                h2 #reports { "What readers report" }
                @if reports.is_empty() {
                    p { "Nothing yet." }
                } @else {
                    ul.entries {
                        @for report in &reports {
                            li.row {
                                p { (report.words) }
                                p.beside { (day_words(wall(report.at, 0, edit::ledger::timetable::Hours::Of24).begun)) }
                            }
                        }
                    }
                }
                (form(&opened))
            }
        };
        Ok(opened.show(Tab::Log, &main))
    })
    .await
}

fn one(desk: &Desk, opened: &Opened, bake: &Bake) -> Result<Markup, crate::web::refusal::Refusal> {
    let readings = desk.record.readings(bake.number)?;
    let so_far = kept::so_far(bake.begun, &readings);
    let ready = desk
        .bench
        .prepared(desk, &opened.name, bake.kitchen.as_deref(), so_far.follows)
        .ok();
    let wall = wall(bake.begun, 0, so_far.hours);
    let clock = wall.says(Duration::ZERO, Duration::ZERO);
    Ok(html! {
        section id=(format!("bake-{}", bake.number)) {
            h3 { (day_words(wall.begun)) ", begun " (clock) }
            p.small {
                @if let Some(kitchen) = &bake.kitchen { "In " (kitchen) "." } @else { "In an ordinary kitchen." }
                @if bake.ended.is_none() { " " a href=(opened.place("/bench")) { "Under way" } "." }
            }
            @if let Some(words) = &bake.words { p { (words) } }
            @match &ready {
                Some(ready) => (steps(ready, &so_far, &wall)),
                None => { p { "Its kitchen is no longer in the notebook, so that nothing can be set beside it." } (read(&so_far, &wall)) },
            }
        }
    })
}

/// Every step that was begun or read in, beside what was expected.
fn steps(ready: &Prepared, so_far: &SoFar, wall: &Wall) -> Markup {
    let inputs = ready.inputs();
    html! {
        ul.entries {
            @for (piece, step) in ready.pieces.iter().zip(&ready.steps) {
                @let done = so_far.done.get(&piece.number);
                @let read: Vec<_> = so_far.read.iter().filter(|read| read.step == Some(piece.number)).collect();
                @let timed = done.and_then(|done| Some((done.began?, done.ended?)));
                @let told = timed.map(|(began, ended)| took(piece, began, ended));
                @if told.is_some() || !read.is_empty() {
                    li.row {
                        p { (step.heading) ", " (step.what) }
                        div.beside {
                            @if let Some(Took { took, expected, differs }) = &told {
                                p { (took) @if let Some(expected) = expected { "; expected " (expected) } }
                                @if let Some(differs) = differs { p.strong { (differs) } }
                            }
                            @for read in read {
                                @let began = done.and_then(|done| done.began).unwrap_or(read.at);
                                @let expected = expected_degrees(&inputs, &ready.course, piece.number, read.at - began);
                                p {
                                    (wall.says(read.at, Duration::ZERO)) ": " (capital(&read.words))
                                    @if let (Of::Temperature, Some(value), Some(expected)) = (read.of, read.value, expected) {
                                        "; " (read_beside(value, expected))
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn read(so_far: &SoFar, wall: &Wall) -> Markup {
    html! {
        ul { @for read in &so_far.read { li { (wall.says(read.at, Duration::ZERO)) " " (read.words) } } }
    }
}

fn form(opened: &Opened) -> Markup {
    html! {
        form.row method="post" action=(opened.place("/log")) {
            div {
                p {
                    label for="room" { "Their room, °C" }
                    input #room type="text" name="room" inputmode="decimal";
                }
                p {
                    label for="outcome" { "How it came out" }
                    select #outcome name="outcome" {
                        @for outcome in OUTCOMES { option { (outcome) } }
                    }
                }
                p {
                    label for="report" { "In their own words" }
                    textarea #report name="words" rows="3" {}
                }
                p { button type="submit" { "Keep the report" } }
            }
            p.beside {
                "What a reader writes under the film or in a letter. It is kept beside this recipe and is shown to nobody else. \
                 How usual it is in a kitchen like theirs is counted under "
                a href=(format!("{}#reader", opened.place("/elsewhere"))) { "In other kitchens" } "."
            }
        }
    }
}

/// How a bake can come out.
const OUTCOMES: [&str; 8] = [
    "as in the recipe",
    "did not rise enough",
    "rose too far and fell",
    "pale",
    "too dark",
    "raw in the middle",
    "dry",
    "something else",
];

/// A reader's report, as the form sends it.
#[derive(Debug, Deserialize)]
pub struct Reported {
    #[serde(default)]
    room: String,
    #[serde(default)]
    outcome: String,
    #[serde(default)]
    words: String,
}

/// `POST /recipe/{name}/log`
pub async fn report(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Form(form): Form<Reported>,
) -> Answer {
    aside(desk, move |desk| {
        let (name, _) = recipe(desk, &name)?;
        let outcome = OUTCOMES
            .into_iter()
            .find(|outcome| *outcome == form.outcome);
        let mut said = capital(outcome.unwrap_or("something else"));
        let room = form.room.trim().replace(',', ".").parse::<f64>().ok();
        if let Some(room) = room.filter(|room| (-10.0..=50.0).contains(room)) {
            said.push_str(&format!(
                ", in a room of {}",
                edit::ledger::under_way::read_off(room)
            ));
        }
        said.push('.');
        let words = form.words.trim();
        if !words.is_empty() {
            let cut = words.char_indices().find(|(at, _)| *at >= LONGEST_REPORT);
            said.push(' ');
            said.push_str(cut.map_or(words, |(at, _)| &words[..at]));
        }
        let file = crate::world::notebook::Kept::Recipe.file(&name);
        desk.record
            .keep_report(&file, &said, desk.bench.clock.now())?;
        let there = format!("/recipe/{}/log#reports", relative(name.text()));
        Ok(Redirect::to(&there).into_response())
    })
    .await
}
