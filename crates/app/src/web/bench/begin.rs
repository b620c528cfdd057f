//! The beginning of a bake: in which kitchen, and what the cook goes by.

use super::{address, frame, kept, recipe};
use crate::failure::Failure;
use crate::web::desk::{Desk, aside};
use crate::web::refusal::{Answer, Refusal};
use crate::world::notebook::{Kept, Name};
use axum::Form;
use axum::extract::{Path, State};
use axum::response::{IntoResponse, Redirect, Response};
use bake::simulate::Follows;
use edit::ledger::timetable::Hours;
use maud::{Markup, html};
use press::address::relative;
use serde::Deserialize;
use std::sync::Arc;

/// What the form says.
#[derive(Debug, Deserialize)]
pub struct Begins {
    #[serde(default)]
    kitchen: String,
    #[serde(default)]
    follows: String,
    #[serde(default)]
    hours: String,
}

/// `POST /recipe/{name}/bench`
pub async fn begin(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Form(form): Form<Begins>,
) -> Answer {
    aside(desk, move |desk| {
        let (name, _) = recipe(desk, &name)?;
        let _one = desk.saving();
        // Two taps on the button begin one bake.
        if under_way(desk, &name)?.is_none() {
            let kitchen = Some(form.kitchen.as_str()).filter(|kitchen| !kitchen.is_empty());
            let follows = match form.follows.as_str() {
                "clock" => Follows::Clock,
                _ => Follows::Cue,
            };
            let hours = match form.hours.as_str() {
                "12" => Hours::Of12,
                _ => Hours::Of24,
            };
            // What cannot be baked is said before anything is begun.
            desk.bench.prepared(desk, &name, kitchen, follows)?;
            let at = desk.bench.clock.now();
            let bake = desk.record.begin_bake(name.text(), None, kitchen, at)?;
            desk.record
                .note_reading(bake, &kept::setting(follows, hours, at))?;
        }
        Ok(Redirect::to(&address(&name)).into_response())
    })
    .await
}

/// The bake of a recipe that was begun and not ended.
pub fn under_way(
    desk: &Desk,
    name: &Name,
) -> Result<Option<crate::world::record::bakes::Bake>, Failure> {
    let bakes = desk.record.bakes(Some(name.text()))?;
    Ok(bakes.into_iter().find(|bake| bake.ended.is_none()))
}

/// The page before a bake.
pub fn page(desk: &Desk, name: &Name, asked: Option<&str>) -> Result<Response, Refusal> {
    let kitchens = desk.notebook.names(Kept::Kitchen)?;
    let (_, bytes) = recipe(desk, name.text())?;
    let title = recipe::document::read_recipe_bytes(&bytes)
        .output
        .map_or_else(|| Kept::Recipe.file(name), |recipe| recipe.title.value);
    Ok(frame::page(&title, &form(name, &title, &kitchens, asked)))
}

fn form(name: &Name, title: &str, kitchens: &[Name], asked: Option<&str>) -> Markup {
    let place = relative(name.text());
    html! {
        header.top {
            nav aria-label="Recipe" {
                a href=(format!("/recipe/{place}")) { (title) }
                " "
                a href=(format!("/recipe/{place}/log")) { "Bench log" }
            }
        }
        main #main {
            h1 { "Bake along" }
            p { "One step a screen, with its measures to be read from where you stand." }
            form.beginning method="post" action=(address(name)) {
                p {
                    label for="kitchen" { "Kitchen" }
                    select #kitchen name="kitchen" {
                        option value="" { "an ordinary one at 21\u{a0}°C" }
                        @for kitchen in kitchens {
                            option value=(kitchen.text()) selected[asked == Some(kitchen.text())] {
                                (kitchen.text())
                            }
                        }
                    }
                }
                fieldset {
                    legend { "A step is over" }
                    label.choice { input type="radio" name="follows" value="sign" checked; " by its sign" }
                    label.choice { input type="radio" name="follows" value="clock"; " by the written clock" }
                }
                fieldset {
                    legend { "Hours" }
                    label.choice { input type="radio" name="hours" value="24" checked; " 14:20" }
                    label.choice { input type="radio" name="hours" value="12"; " 2:20\u{a0}pm" }
                }
                div.bar { button.main type="submit" { "Begin the bake" } }
            }
        }
    }
}
