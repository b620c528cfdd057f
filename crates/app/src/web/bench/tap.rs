//! A tap at the bench: kept in the record with its time before anything is answered.

use super::{address, begin, kept, recipe};
use crate::web::desk::{Desk, aside};
use crate::web::refusal::{Answer, Refusal};
use axum::Form;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};
use numerics::quantity::Duration;
use plan::under_way::{Tap, tapped};
use serde::Deserialize;
use std::sync::Arc;

/// The longest note, in bytes.
const LONGEST_NOTE: usize = 2000;
/// What one tap adds to a step's time.
const MORE_MINUTES: f64 = 5.0;

/// What a form of the bench says.
#[derive(Debug, Deserialize)]
pub struct Tapped {
    /// begin, over, longer, quiet, temperature, seen, note, undo, end.
    #[serde(rename = "do")]
    does: String,
    bake: i64,
    #[serde(default)]
    step: usize,
    #[serde(default)]
    mark: String,
    #[serde(default)]
    celsius: String,
    #[serde(default)]
    words: String,
    /// The step to be shown afterwards.
    #[serde(default)]
    stay: Option<usize>,
}

/// `POST /recipe/{name}/bench/tap`
pub async fn tap(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Form(form): Form<Tapped>,
) -> Answer {
    aside(desk, move |desk| {
        let (name, _) = recipe(desk, &name)?;
        let _one = desk.saving();
        let there = address(&name);
        // A page that was left open belongs to a bake that is over: it says so by showing what is.
        let Some(bake) = begin::under_way(desk, &name)?.filter(|bake| bake.number == form.bake)
        else {
            return Ok(Redirect::to(&there).into_response());
        };
        let at = desk.bench.clock.now();
        let so_far = kept::so_far(bake.begun, &desk.record.readings(bake.number)?);
        let kitchen = bake.kitchen.as_deref();
        let ready = desk.bench.prepared(desk, &name, kitchen, so_far.follows)?;
        let mark = form.mark.as_str();
        let changed = |tap: Tap| {
            let now = kept::since(bake.begun, at);
            kept::changes(&tapped(&ready.pieces, &so_far.done, now, tap), mark, at)
        };
        let known = ready.pieces.iter().any(|piece| piece.number == form.step);
        let readings = match form.does.as_str() {
            "begin" => changed(Tap::Begin(form.step)),
            "over" => changed(Tap::Over(form.step)),
            "longer" => changed(Tap::Longer(form.step, Duration::from_minutes(MORE_MINUTES))),
            "quiet" => changed(Tap::Quiet(form.step)),
            "temperature" if known => {
                vec![kept::temperature(
                    form.step,
                    celsius(&form.celsius)?,
                    mark,
                    at,
                )]
            }
            "seen" if known => vec![kept::seen(form.step, mark, at)],
            "note" if known => note(form.step, &form.words, mark, at),
            "undo" => {
                for number in so_far.last.map(|(numbers, _)| numbers).unwrap_or_default() {
                    desk.record.withdraw_reading(bake.number, number, at)?;
                }
                return Ok(Redirect::to(&there).into_response());
            }
            "end" => {
                let words = Some(form.words.trim()).filter(|words| !words.is_empty());
                desk.record.end_bake(bake.number, words, at)?;
                return Ok(Redirect::to(&format!("{}/log", below(&there))).into_response());
            }
            _ => return Err(Refusal::of_status(StatusCode::UNPROCESSABLE_ENTITY)),
        };
        for reading in &readings {
            desk.record.note_reading(bake.number, reading)?;
        }
        let stays = form
            .stay
            .map_or_else(String::new, |step| format!("?step={step}"));
        Ok(Redirect::to(&format!("{there}{stays}")).into_response())
    })
    .await
}

fn below(bench: &str) -> &str {
    bench.strip_suffix("/bench").unwrap_or(bench)
}

fn note(
    step: usize,
    words: &str,
    mark: &str,
    at: jiff::Timestamp,
) -> Vec<crate::world::record::bakes::Reading> {
    let mut words = words.trim();
    if let Some((cut, _)) = words.char_indices().find(|(at, _)| *at >= LONGEST_NOTE) {
        words = &words[..cut];
    }
    if words.is_empty() {
        return Vec::new();
    }
    vec![kept::note(step, words, mark, at)]
}

/// Degrees as a cook types them: a comma is a point; nothing colder than a freezer or hotter than an oven.
fn celsius(typed: &str) -> Result<f64, Refusal> {
    let read: Option<f64> = typed.trim().replace(',', ".").parse().ok();
    read.filter(|read| (-30.0..=300.0).contains(read))
        .ok_or_else(|| {
            Refusal::new(
                StatusCode::UNPROCESSABLE_ENTITY,
                "A thermometer at the bench reads between −30 °C and 300 °C.",
            )
            .hint("Go back and write the degrees as a number: 24 or 24.5.")
        })
}
