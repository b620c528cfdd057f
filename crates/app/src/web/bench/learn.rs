//! What the logged bakes in a kitchen teach about it: worked out at a button, kept in the kitchen's file at another.

use super::told::{Asked as Read, asked as read, once};
use super::{kept, recipe};
use crate::cli::learn::{NOTHING_GOES, SEED, set_up, taught, today};
use crate::failure::Failure;
use crate::web::desk::{Asked, By, Desk, aside, in_query};
use crate::web::digest::base64;
use crate::web::in_hand::{Doing, Made};
use crate::web::recipe::{Opened, Tab};
use crate::web::refusal::{Answer, Refusal};
use crate::web::under_way;
use crate::world::clock;
use crate::world::notebook::Kept;
use axum::Form;
use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};
use bake::condition::here;
use bake::learn::Noted;
use edit::ledger::learnt::{self as words, LearntLine, LearntLines};
use edit::ledger::say::capital;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use maud::{Markup, html};
use press::address::relative;
use recipe::document::model::KitchenFile;
use recipe::document::read_kitchen_bytes;
use serde::Deserialize;
use std::sync::Arc;

/// The file of what is to be kept, among what came of it.
const FILE: &str = "kitchen.toml";

/// Which kitchen.
#[derive(Debug, Default, Deserialize)]
pub struct Said {
    #[serde(default)]
    kitchen: String,
}

/// What is learnt from: the kitchen's file and what was read.
struct Question {
    kitchen: Vec<u8>,
    reads: Vec<Read>,
    mark: String,
}

/// The bakes in a kitchen that are over, were begun after what its file knows already, and in which something was read.
fn question(desk: &Desk, opened: &Opened, kitchen: &str) -> Result<Question, Refusal> {
    let (_, bytes) = desk.text(Kept::Kitchen, kitchen)?;
    let since = read_kitchen_bytes(&bytes)
        .output
        .and_then(|file| Some(file.measured?.on.value));
    let mut reads = Vec::new();
    for bake in desk.record.bakes(Some(opened.name.text()))? {
        let known = since.is_some_and(|since| day(bake.begun) <= since);
        if bake.ended.is_none() || known || bake.kitchen.as_deref() != Some(kitchen) {
            continue;
        }
        let rows = desk.record.readings(bake.number)?;
        let so_far = kept::so_far(bake.begun, &rows);
        let made_ready = desk
            .bench
            .prepared(desk, &opened.name, Some(kitchen), so_far.follows)?;
        reads.push(read(&made_ready, bake.begun, &so_far, &rows));
    }
    reads.retain(Read::says_something);
    let mark = format!(
        "learn {} {} {reads:?}",
        base64(&opened.bytes),
        base64(&bytes)
    );
    Ok(Question {
        kitchen: bytes,
        reads,
        mark,
    })
}

fn day(at: Timestamp) -> Date {
    let zone = clock::zone().unwrap_or(TimeZone::UTC);
    zone.to_datetime(at).date()
}

fn there(opened: &Opened, kitchen: &str) -> String {
    format!("{}?kitchen={}", opened.place("/learn"), in_query(kitchen))
}

/// A button for each kitchen in which bakes are over.
pub fn buttons(opened: &Opened, kitchens: &[String]) -> Markup {
    html! {
        @if !kitchens.is_empty() {
            section {
                h2 { "What they teach" }
                p { "What you read off says something about the kitchen: the yeast, the mixer, the warm place, the refrigerator, the oven. \
                     What is learnt is shown first, and kept in the kitchen\u{2019}s file only when you say so." }
                @for kitchen in kitchens {
                    form method="post" action=(opened.place("/learn")) {
                        input type="hidden" name="kitchen" value=(kitchen);
                        p { button type="submit" { "Learn about " (kitchen) } }
                    }
                }
            }
        }
    }
}

/// `POST /recipe/{name}/learn`: begins it.
pub async fn begin(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Form(said): Form<Said>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, Asked::default())?;
        let question = question(desk, &opened, &said.kitchen)?;
        let there = there(&opened, &said.kitchen);
        if question.reads.is_empty() {
            return Err(Refusal::new(
                StatusCode::UNPROCESSABLE_ENTITY,
                "No bake in this kitchen is left to learn from.",
            )
            .hint("A bake teaches when it is over and something was read in it: a sign, a thermometer. Each teaches once."));
        }
        let called = format!("What bakes in {} teach", said.kitchen);
        let recipe_file = Kept::Recipe.file(&opened.name);
        let bytes = opened.bytes.clone();
        let (kitchen, reads) = (question.kitchen, question.reads);
        let doing: Doing = Box::new(move |_| learnt(&recipe_file, &bytes, kitchen, &reads));
        under_way::begin(desk, &question.mark, called, there, doing)
    })
    .await
}

fn learnt(file: &str, recipe: &[u8], kitchen: Vec<u8>, reads: &[Read]) -> Result<Made, Failure> {
    let bug = || Failure::Bug("a recipe and a kitchen that could be read".to_owned());
    let text = String::from_utf8(kitchen.clone()).map_err(|_| bug())?;
    let of_kitchen: KitchenFile = read_kitchen_bytes(&kitchen).output.ok_or_else(bug)?;
    let work =
        crate::cli::work::on_bytes_for(file, recipe, Some(("kitchen".to_owned(), kitchen)), None);
    let made = work.made.as_ref().ok_or_else(bug)?;
    let bakes: Vec<Noted> = set_up(made, |anchored, yardstick| {
        let one = |read: &Read| Noted {
            here: here(
                &made.recipe,
                &made.formula,
                &made.kitchen,
                anchored,
                read.by_clock(),
                SEED,
            )
            .at_pace(|number| yardstick.pace(number)),
            readings: read.readings().to_vec(),
        };
        reads.iter().map(one).collect()
    });
    let found = taught(&bakes);
    let left_out = once(found.diagnostics);
    let Some(learnt) = found.output else {
        return Err(Failure::Usage(NOTHING_GOES.trim().to_owned()));
    };
    let here = &bakes[0].here;
    let lines = words::learnt(here, &learnt, bakes.len());
    let (made, changes) = words::kept(&text, &of_kitchen, here, &learnt, today(), bakes.len())
        .map_err(|why| Failure::Usage(why.to_string()))?;
    let main = html! {
        (table(&lines))
        @for said in &left_out { p { (said) } }
        section {
            h2 { "Measured here" }
            @if changes.is_empty() {
                p { "The readings told nothing that a kitchen\u{2019}s file keeps." }
            } @else {
                ul.plain {
                    @for change in &changes {
                        li { code { (change.place) " = " (change.is) } @if let Some(was) = &change.was { ", was " (was) } }
                    }
                }
            }
        }
    };
    let mut all = Made {
        main: main.into_string(),
        ..Made::default()
    };
    if !changes.is_empty() {
        all.files.insert(FILE.to_owned(), made.into_bytes());
    }
    Ok(all)
}

fn table(lines: &LearntLines) -> Markup {
    let (told, not): (Vec<&LearntLine>, Vec<&LearntLine>) =
        lines.lines.iter().partition(|line| line.told);
    let bakes = if lines.bakes == 1 { "bake" } else { "bakes" };
    html! {
        section {
            h2 { "What " (lines.bakes) " " (bakes) " told of this kitchen" }
            @if told.is_empty() { p { "The readings could not tell anything more than was known." } }
            ul.entries {
                @for line in told {
                    li.row {
                        p { (capital(&line.what)) }
                        p.beside { strong { (line.after) } ", before " (line.before) }
                    }
                }
            }
            p { (lines.about) }
            @for said in &lines.not_kept { p { (said) } }
        }
        @if !not.is_empty() {
            section {
                h2 { "What the readings could not tell" }
                ul.entries {
                    @for line in not { li.row { p { (capital(&line.what)) } p.beside { (line.after) } } }
                }
            }
        }
    }
}

/// `GET /recipe/{name}/learn?kitchen=studio`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(said): Query<Said>,
) -> Answer {
    aside(desk, move |desk| {
        let opened = Opened::of(desk, &name, Asked::default())?;
        if said.kitchen.is_empty() {
            // What is learnt is of one kitchen; the log lists those in which somebody baked.
            return Ok(Redirect::to(&opened.place("/log")).into_response());
        }
        let question = question(desk, &opened, &said.kitchen)?;
        let found = desk.in_hand.kept(&question.mark);
        let main = html! {
            @if let Some((_, made)) = &found {
                (maud::PreEscaped(&made.main))
                @if made.files.contains_key(FILE) {
                    form method="post" action=(opened.place("/learn/keep")) {
                        input type="hidden" name="kitchen" value=(said.kitchen);
                        p { button type="submit" { "Keep it in " (said.kitchen) } }
                    }
                }
            } @else {
                section { p { "This has not been worked out yet, or is not kept any more." } }
                (buttons(&opened, std::slice::from_ref(&said.kitchen)))
            }
            section { p { a href=(opened.place("/log")) { "Bench log" } } }
        };
        Ok(opened.show(Tab::Log, &main))
    })
    .await
}

/// `POST /recipe/{name}/learn/keep`
pub async fn keep(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Form(said): Form<Said>,
) -> Answer {
    aside(desk, move |desk| {
        let (recipe, _) = recipe(desk, &name)?;
        let opened = Opened::of(desk, &name, Asked::default())?;
        let _one = desk.saving();
        // Of a kitchen that was changed meanwhile the question is another, and nothing is written over it.
        let question = question(desk, &opened, &said.kitchen)?;
        let found = desk.in_hand.kept(&question.mark);
        let made = found.as_ref().and_then(|(_, made)| made.files.get(FILE));
        let Some(bytes) = made else {
            return Ok(Redirect::to(&there(&opened, &said.kitchen)).into_response());
        };
        let (kitchen, _) = desk.text(Kept::Kitchen, &said.kitchen)?;
        desk.save(Kept::Kitchen, &kitchen, bytes, &By::made())?;
        Ok(Redirect::to(&format!(
            "/recipe/{}/log?said=learnt",
            relative(recipe.text())
        ))
        .into_response())
    })
    .await
}
