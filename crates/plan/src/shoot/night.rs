//! Work that a filming day asks for at night, beyond what the recipe itself writes there.

use super::code;
use super::model::FilmDay;
use super::process::{Doing, Process};
use super::scenes::{Midnight, process_along};
use super::small::OVERNIGHT_MIN;
use super::words::{of_run, spell};
use crate::timetable::{Entry, Kind, Resource};
use recipe::source::Diagnostic;
use std::collections::BTreeSet;

/// From this minute of a day on it is night: 22:00 (ours).
const EVENING_MIN: i64 = 22 * 60;
/// Until this minute where no `work-from` is written: 06:00 (ours).
const MORNING_MIN: i64 = 6 * 60;
/// Minutes of a day.
const DAY_MIN: i64 = 24 * 60;
/// So many works are told one by one.
const MOST_TOLD: usize = 4;

/// Says in one finding what hands are wanted for at night.
pub fn night(day: &FilmDay, work_from: Option<i64>, midnight: &Midnight) -> Option<Diagnostic> {
    let morning = work_from.unwrap_or(MORNING_MIN);
    let written = written(day);
    let at_night = |entry: &&Entry| {
        let ends = (entry.ends_min() - 1).max(entry.begins_min);
        let hands = entry.occupies.iter().any(|o| o.what == Resource::Hands);
        (hands || entry.kind == Kind::Bakes)
            && (is_night(entry.begins_min, morning, midnight) || is_night(ends, morning, midnight))
            && !written.contains(&(entry.begins_min, entry.words.clone()))
    };
    let found: Vec<&Entry> = day.table.entries.iter().filter(at_night).collect();
    let first = found.first()?;
    let mut cases: Vec<String> = found
        .iter()
        .take(MOST_TOLD)
        .map(|entry| {
            format!(
                "{}, {} to {} ({})",
                entry.words,
                midnight.clock_day(entry.begins_min),
                midnight.clock(entry.ends_min()),
                entry.batch
            )
        })
        .collect();
    if found.len() > MOST_TOLD {
        cases.push(format!("and {} more", found.len() - MOST_TOLD));
    }
    let mut said = Diagnostic::whole(
        code::WORK_AT_NIGHT,
        format!(
            "Hands are wanted between 22:00 and {}: {}.",
            midnight.clock(morning),
            cases.join("; ")
        ),
    );
    if let Some(hint) = sooner(day, &found, midnight) {
        said = said.hint(hint);
    }
    let before = found.iter().map(|entry| entry.begins_min);
    let first_of_day = before.filter(|at| (0..morning).contains(at)).min();
    if let Some(at) = first_of_day {
        let later = spell(morning - at);
        said = said.hint(match work_from {
            None => format!(
                "Write work-from = {}, and the plan says which scenes must wait; or film what needs these doughs up to {later} later.",
                midnight.clock(morning)
            ),
            Some(_) => format!("Film what needs these doughs up to {later} later."),
        });
    }
    if said.hints.is_empty() {
        let of = if first.batch.is_empty() {
            "this"
        } else {
            first.batch.as_str()
        };
        said = said.hint(format!(
            "Film later, or earlier, what {of} is made for; or let somebody come for these hours and say so on the call sheet."
        ));
    }
    Some(said)
}

fn is_night(minute: i64, morning: i64, midnight: &Midnight) -> bool {
    // `work-from` is of the day itself; the day before has the usual morning.
    let morning = if minute < 0 {
        morning.min(MORNING_MIN)
    } else {
        morning
    };
    let of_day = midnight.minute_of_day(minute);
    of_day >= EVENING_MIN || of_day < morning.min(EVENING_MIN)
}

/// Work that stands at night because the recipe is written so: folds in a rest that stands overnight, and
/// what is mixed in the evening to stand until the day. By its minute and its words.
fn written(day: &FilmDay) -> BTreeSet<(i64, String)> {
    let mut all = BTreeSet::new();
    let long = |process: &Process, step: usize| {
        let stands = process.runs.iter().filter(|run| run.step == step);
        let stands = stands.filter(|run| matches!(run.what, Doing::Stands { .. }));
        stands.map(|run| run.takes_min).sum::<i64>() >= OVERNIGHT_MIN
    };
    for batch in &day.batches {
        let process = &day.processes[batch.process];
        for (at, point) in process.points.iter().enumerate() {
            let folds = point.begins.iter().any(|word| word.starts_with("folding"));
            let inside = process.runs.iter().find(|run| run.to == at);
            if folds && inside.is_some_and(|run| long(process, run.step)) {
                all.insert((batch.stays[at].leaves_min, format!("Fold the {}", point.of)));
            }
        }
    }
    let feeds = day.batches.iter().flat_map(|batch| &batch.feeds);
    let feeds = feeds.map(|feed| (&feed.process, &feed.stays));
    let extras = day.extras.iter().map(|extra| {
        let process = process_along(&day.processes[extra.process], &extra.path);
        (process, &extra.stays)
    });
    for (process, stays) in feeds.chain(extras) {
        for run in &process.runs {
            let begins = stays[run.from].leaves_min;
            let by_midnight = begins + run.takes_min <= 0;
            let then = process
                .runs
                .iter()
                .any(|next| next.from >= run.to && long(process, next.step));
            if by_midnight && then {
                all.insert((begins, of_run(process, run)));
            }
        }
    }
    all
}

/// A dough worked late in the evening before that may as well begin earlier, and when.
fn sooner(day: &FilmDay, found: &[&Entry], midnight: &Midnight) -> Option<String> {
    day.batches.iter().enumerate().find_map(|(nth, batch)| {
        let label = format!("Batch {}", nth + 1);
        let own = found
            .iter()
            .filter(|entry| entry.batch == label || entry.batch.starts_with(&format!("{label},")));
        let late = own
            .filter(|entry| entry.begins_min < 0)
            .map(|entry| entry.ends_min() - (EVENING_MIN - DAY_MIN))
            .max()?;
        let begins = batch.start_min - late;
        (batch.window.0 <= begins).then(|| {
            format!(
                "{label} may begin at {}: its dough keeps so long.",
                midnight.clock_day(begins)
            )
        })
    })
}
