//! The page of a bake under way, and the clock that its timers are set by.

use super::told::{self, Telling};
use super::{begin, kept, recipe, view};
use crate::web::desk::{Desk, aside};
use crate::web::refusal::{Answer, Refusal};
use crate::world::clock;
use crate::world::notebook::Name;
use crate::world::record::bakes::{Bake, Reading};
use axum::extract::{Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use edit::ledger::timetable::Hours;
use edit::ledger::under_way::Wall;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use numerics::quantity::Duration;
use plan::under_way::{Done, Stands, ahead, in_hand};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::kept::SoFar;
use super::prepared::Prepared;

/// What the address asks for.
#[derive(Debug, Deserialize)]
pub struct Asked {
    /// Another step than the one in hand.
    step: Option<usize>,
    /// A kitchen to begin with.
    kitchen: Option<String>,
}

/// Everything that a screen is made of.
pub struct Screen {
    /// The recipe's name.
    pub name: Name,
    /// The bake.
    pub bake: Bake,
    /// The recipe, ready.
    pub ready: Arc<Prepared>,
    /// What was done.
    pub so_far: SoFar,
    /// How it stands with each step.
    pub stands: Vec<Stands>,
    /// Time since the beginning.
    pub now: Duration,
    /// The same in milliseconds of the bench's clock.
    pub now_ms: i64,
    /// By how much the machine's clock was set since the program began, ms.
    pub set_by_ms: i64,
    /// What the readings say.
    pub told: Telling,
    /// The clock on the wall.
    pub wall: Wall,
    /// The step that is shown; none when everything is over.
    pub shown: Option<usize>,
    /// The step in hand.
    pub in_hand: Option<usize>,
    /// The mark of this page's taps.
    pub mark: String,
}

/// `GET /recipe/{name}/bench`
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Answer {
    aside(desk, move |desk| {
        let (name, _) = recipe(desk, &name)?;
        match begin::under_way(desk, &name)? {
            None => begin::page(desk, &name, asked.kitchen.as_deref()),
            Some(bake) => Ok(view::page(&screen(desk, name, bake, asked.step)?)),
        }
    })
    .await
}

/// `GET /recipe/{name}/bench/now`: milliseconds of the bench's clock, for a page whose device slept or was set.
pub async fn now(State(desk): State<Arc<Desk>>) -> Response {
    let headers = [
        (header::CONTENT_TYPE, "text/plain; charset=utf-8"),
        (header::CACHE_CONTROL, "no-store"),
    ];
    (headers, desk.bench.clock.now_ms().to_string()).into_response()
}

fn screen(desk: &Desk, name: Name, bake: Bake, wished: Option<usize>) -> Result<Screen, Refusal> {
    let clock = &desk.bench.clock;
    let rows = desk.record.readings(bake.number)?;
    let so_far = kept::so_far(bake.begun, &rows);
    let ready = desk
        .bench
        .prepared(desk, &name, bake.kitchen.as_deref(), so_far.follows)?;
    let now_ms = clock.now_ms();
    let set_by_ms = clock.set_by_ms();
    let at = Timestamp::from_millisecond(now_ms).unwrap_or(bake.begun);
    let now = kept::since(bake.begun, at);
    let asked = told::asked(&ready, bake.begun, &so_far, &rows);
    let told = desk.bench.tellings.of(bake.number, &ready, asked);
    let stands = ahead(
        &ready.pieces,
        &as_told(&told, &so_far, &rows, bake.begun, now),
        now,
    );
    let in_hand = in_hand(&ready.pieces, &stands);
    let there = |number: &usize| ready.pieces.iter().any(|piece| piece.number == *number);
    let shown = wished.filter(there).or(in_hand);
    Ok(Screen {
        wall: wall(bake.begun, set_by_ms, so_far.hours),
        mark: desk.bench.mark(),
        told,
        name,
        bake,
        ready,
        so_far,
        stands,
        now,
        now_ms,
        set_by_ms,
        shown,
        in_hand,
    })
}

/// What was done, with the lengths that the readings gave. A bell that was put off rings no sooner for it.
fn as_told(
    told: &Telling,
    so_far: &SoFar,
    rows: &[Reading],
    begun: Timestamp,
    now: Duration,
) -> BTreeMap<usize, Done> {
    let mut done = so_far.done.clone();
    let (Telling::Told(answer) | Telling::WorkingItOut(Some(answer))) = told else {
        return done;
    };
    for (step, mut length) in answer.lengths(&so_far.done, now) {
        let own = done.entry(step).or_default();
        let put_off = rows.iter().rev().find(|row| {
            row.unit.as_deref() == Some(kept::SECONDS)
                && row.step.as_deref() == Some(&step.to_string())
        });
        if let (Some(row), Some(began)) = (put_off, own.began) {
            let more = Duration::from_si(row.value.unwrap_or(0.0));
            let until = kept::since(begun, row.at) + more - began;
            if until > length.usual {
                length.usual = until;
            }
        }
        own.told = Some(length);
    }
    done
}

/// The clock on the wall as it shows now, for moments since the beginning of a bake.
pub fn wall(begun: Timestamp, set_by_ms: i64, hours: Hours) -> Wall {
    let shown = begun.as_millisecond().saturating_add(set_by_ms);
    let shown = Timestamp::from_millisecond(shown).unwrap_or(begun);
    let zone = clock::zone();
    let here = zone.clone().unwrap_or(TimeZone::UTC);
    Wall {
        begun: here.to_datetime(shown),
        zone,
        hours,
    }
}
