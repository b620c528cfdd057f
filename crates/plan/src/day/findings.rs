//! What is to be said about a day: before it is planned, and of the plan.

use super::conflict::Want;
use super::done::Unknown;
use super::means::NIGHT;
use super::problem::FRESH_MIN;
use super::solve::Outcome;
use super::tasks::Batch;
use super::{Asked, Day, code, stood_said, trays};
use crate::shoot::code::HOLD_CHANGES_RISE;
use crate::shoot::words::spell;
use crate::timetable::{Entry, Kind, clock};
use jiff::civil::{DateTime, Time};
use recipe::document::model::Hours;
use recipe::source::{Diagnostic, Severity, listed, near};
use std::collections::BTreeMap;

/// Whether a finding must be mended first.
pub fn mends(diagnostic: &Diagnostic) -> bool {
    diagnostic.code.severity == Severity::Mend
}

/// A clock as it is said: "24 December, 16:00".
fn said(at: DateTime) -> String {
    at.strftime("%-d %B, %H:%M").to_string()
}

pub(super) fn at(asked: &Asked<'_>, minute: i32) -> String {
    said(clock(asked.starts, asked.zone, minute.into()))
}

/// Hours from one to another: "22:00 to 06:30".
pub(super) fn hours_between(asked: &Asked<'_>, (from, to): (i32, i32)) -> String {
    let at = |minute: i32| clock(asked.starts, asked.zone, minute.into()).strftime("%H:%M");
    format!("{} to {}", at(from), at(to))
}

/// What stands in the way before anything is planned.
pub fn before(asked: &Asked<'_>) -> Vec<Diagnostic> {
    let mut all = Vec::new();
    let names: Vec<&str> = {
        let mut names: Vec<&str> = asked
            .batches
            .iter()
            .flat_map(|batch| &batch.recipe.products)
            .map(|product| &*product.name.value)
            .collect();
        names.sort_unstable();
        names.dedup();
        names
    };
    for serve in &asked.serve {
        let batches = asked.batches.len();
        if let Some(batch) = serve.batch.filter(|batch| *batch >= batches) {
            let finding = Diagnostic::whole(
                code::WANTED_BREAD_UNKNOWN,
                format!(
                    "Something of dough {} is wanted, and this day has {batches}.",
                    batch + 1
                ),
            );
            all.push(finding.hint(
                "The doughs of all recipes are counted in the order in which they are given.",
            ));
        }
        let what = serve.product.as_deref().unwrap_or("everything");
        if let Some(product) = &serve.product
            && !names.iter().any(|name| name.eq_ignore_ascii_case(product))
        {
            let finding = Diagnostic::whole(
                code::WANTED_BREAD_UNKNOWN,
                format!("“{product}” is wanted, but no recipe of this day makes it."),
            );
            all.push(finding.hint(match near(product, names.iter().copied()) {
                Some(meant) => format!("Is “{meant}” meant?"),
                None => format!("They make {}.", listed(&names, "and")),
            }));
        }
        if serve.by <= 0 {
            all.push(
                Diagnostic::whole(
                    code::WANTED_IN_THE_PAST,
                    format!(
                        "{what} is wanted on {}, and the day begins on {}.",
                        at(asked, serve.by),
                        at(asked, 0)
                    ),
                )
                .hint("Write a later time, or let the day begin earlier with --from."),
            );
        }
    }
    all.extend(tins(asked));
    all
}

/// Tins and places that one load alone already needs.
fn tins(asked: &Asked<'_>) -> Vec<Diagnostic> {
    let mut all: Vec<Diagnostic> = Vec::new();
    for product in asked
        .batches
        .iter()
        .flat_map(|batch| &batch.recipe.products)
    {
        let Some(tin) = &product.tin else { continue };
        let loads = trays::loads(product, asked.means.racks);
        let most = loads.iter().map(|load| load.tins).max().unwrap_or(0);
        if let Some(there) = asked
            .means
            .tin(&tin.name.value)
            .filter(|there| *there < most)
        {
            let have = match there {
                0 => "there is none".to_owned(),
                1 => "there is 1".to_owned(),
                there => format!("there are {there}"),
            };
            all.push(
                Diagnostic::whole(
                    code::TINS_NOT_THERE,
                    format!(
                        "{}: {most} of “{}” are wanted at once, and {have} in this kitchen.",
                        product.name.value, tin.name.value
                    ),
                )
                .hint(format!(
                    "Write how many there are under [day] tins = {{ \"{}\" = {most} }}, or give the recipe a tin that is there (everyoven variant).",
                    tin.name.value
                )),
            );
        }
        if let Some(places) = asked.means.warm_places.filter(|places| *places < most) {
            all.push(
                Diagnostic::whole(
                    code::PLACES_NOT_THERE,
                    format!(
                        "{}: {most} trays or tins stand in the warm place at once, and it takes {places}.",
                        product.name.value
                    ),
                )
                .hint("Write how many it takes under [day] warm-places, or let them rise in the room."),
            );
        }
    }
    all.dedup();
    all
}

/// Why there is no plan.
pub fn no_plan(outcome: &Outcome) -> Diagnostic {
    match outcome {
        Outcome::Unknown => Diagnostic::whole(
            code::DAY_NOT_FOUND,
            "No plan was found within the time that was given.",
        )
        .hint("Give it longer with --seconds, or plan fewer batches for one day."),
        Outcome::None | Outcome::Plan(_) => Diagnostic::whole(
            code::DAY_IMPOSSIBLE,
            "This day cannot be planned: a step is longer than the hours that hands are there for it.",
        )
        .hint("Shorten the quiet hours or the breaks of the kitchen."),
    }
}

/// What is said to be done and is nothing of this day.
pub fn done_unknown(batches: &[Batch<'_>], unknown: &Unknown) -> Diagnostic {
    let finding = |message: String| Diagnostic::whole(code::DONE_STEP_UNKNOWN, message);
    let labels: Vec<&str> = batches.iter().map(|batch| &*batch.label).collect();
    match unknown {
        Unknown::Step(step) => finding(format!(
            "“{step}” is said to be done, but no recipe of this day has such a step."
        ))
        .hint("Say the step's number, what it does as in the recipe file (mix, rest, divide; of a product: shape knots), or the words of the plan: chill the dough."),
        Unknown::Batch(batch) => {
            let numbered: Vec<String> = labels.iter().zip(1..).map(|(label, number)| format!("{number} is {label}")).collect();
            let numbered: Vec<&str> = numbered.iter().map(String::as_str).collect();
            let said = finding(format!(
                "Something of dough {} is said to be done, and this day has {}: {}.",
                batch + 1,
                labels.len(),
                listed(&numbered, "and")
            ));
            said.hint(if labels.len() == 1 {
                "Leave the number out: mix."
            } else {
                "The doughs of all recipes are counted in the order in which they are given; a name does as well: loaf: mix."
            })
        }
        Unknown::Whose(whose) => {
            let breads = batches.iter().flat_map(|batch| &batch.recipe.products);
            let names = breads.map(|product| &*product.name.value).chain(labels.iter().copied());
            let said = finding(format!(
                "Something of “{whose}” is said to be done, and nothing of this day is called so."
            ));
            said.hint(match near(whose, names) {
                Some(meant) => format!("Is “{meant}” meant?"),
                None => format!("This day makes {}.", listed(&labels, "and")),
            })
        }
    }
}

/// What is to be said of a plan.
pub fn after(asked: &Asked<'_>, batches: &[Batch<'_>], day: &Day) -> Vec<Diagnostic> {
    let mut all = Vec::new();
    if !day.conflict.is_empty() {
        let words: Vec<String> = day.conflict.iter().map(|want| wish(asked, want)).collect();
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let list = listed(&words, "and");
        let message = if words.len() == 1 {
            format!("This alone cannot be had here: {list}. The nearest plan is given.")
        } else {
            format!("These cannot all be had: {list}. The nearest plan is given.")
        };
        let said = Diagnostic::whole(code::WISHES_CONFLICT, message)
            .hint("Give one of them up, begin earlier with --from, or ask for the bread later.");
        let asleep = day.conflict.contains(&Want::Quiet) && asked.means.sleeps();
        all.push(if asleep {
            said.hint("Who works at night writes quiet = [] under [day] in the kitchen's file.")
        } else {
            said
        });
    }
    for one in day.between.iter().filter(|one| !one.holds()) {
        let said = format!(
            "Baked as it is planned ({}), the sign of step {} comes after {} min, and {} min are planned.",
            batches[one.batch].label,
            one.step + 1,
            one.sign,
            one.stands
        );
        all.push(Diagnostic::whole(code::PLAN_DOES_NOT_HOLD, said).hint(
            "Go by the sign of the dough; hold it in the cold for less, or let it rest warmer.",
        ));
    }
    for one in day.replayed.iter().filter(|one| !one.holds()) {
        let batch = &batches[one.batch];
        let name = &batch.recipe.products[one.product.0].name.value;
        let what = match one.past {
            Some(past) => format!(
                "{name}: its gas begins to leave after {past} min of the last rise, and {} min are planned",
                one.rises
            ),
            None => format!(
                "{name}: the sign comes after {} min of the last rise, and {} min are planned",
                one.sign, one.rises
            ),
        };
        all.push(
            Diagnostic::whole(
                code::PLAN_DOES_NOT_HOLD,
                format!("Baked as it is planned ({}), {what}.", batch.label),
            )
            .hint(
                "Go by the sign of the dough; let it rise cooler, or ask for fewer breads at once.",
            ),
        );
    }
    all.extend(held(batches, day));
    all.extend(stood_said::stood(asked, batches, day));
    all.extend(promises(asked, batches, day));
    all
}

/// What holds in the cold make of the rises after them.
fn held(batches: &[Batch<'_>], day: &Day) -> Vec<Diagnostic> {
    let mut all: Vec<Diagnostic> = Vec::new();
    for one in day.replayed.iter().filter(|one| one.changed()) {
        let batch = &batches[one.batch];
        let name = &batch.recipe.products[one.product.0].name.value;
        let said = Diagnostic::whole(
            HOLD_CHANGES_RISE,
            format!(
                "{}, {name}: after {} more in the refrigerator than its steps take there the last rise takes some {} min here, not {}.",
                batch.label,
                spell(i64::from(one.held)),
                one.sign,
                one.usual
            ),
        );
        let said = said.hint("The plan goes by that; look at the dough, and let the dent decide.");
        if !all.contains(&said) {
            all.push(said);
        }
    }
    for one in day.between.iter().filter(|one| one.changed()) {
        let said = Diagnostic::whole(
            HOLD_CHANGES_RISE,
            format!(
                "{}: after {} more in the refrigerator than its steps take there the rest of step {} takes some {} min here, not {}.",
                batches[one.batch].label,
                spell(i64::from(one.held)),
                one.step + 1,
                one.sign,
                one.usual
            ),
        );
        all.push(said.hint("The plan goes by that; look at the dough, and let its sign decide."));
    }
    all
}

fn wish(asked: &Asked<'_>, want: &Want) -> String {
    match want {
        Want::Served(at_place) => {
            let serve = &asked.serve[*at_place];
            let what = serve.product.as_deref().unwrap_or("everything");
            let how = if serve.out {
                "out of the oven"
            } else {
                "ready"
            };
            format!("{what} {how} by {}", at(asked, serve.by))
        }
        Want::Quiet if asked.means.sleeps() => {
            let Hours { from, to } = NIGHT;
            let clock = |at: Time| at.strftime("%H:%M").to_string();
            format!("sleep from {} to {}", clock(from), clock(to))
        }
        Want::Quiet => "the quiet hours".to_owned(),
        Want::Breaks => "the breaks".to_owned(),
        Want::Best => format!(
            "no dough past its best and no bread older than {}",
            hours(FRESH_MIN.into())
        ),
    }
}

/// What title or film promise, held against the day.
fn promises(asked: &Asked<'_>, batches: &[Batch<'_>], day: &Day) -> Vec<Diagnostic> {
    let mut all = Vec::new();
    let mut seen: Vec<&str> = Vec::new();
    for batch in batches {
        let title = &*batch.recipe.title.value;
        let promise = batch.recipe.promise.as_ref();
        let Some(within) = promise.and_then(|promise| promise.within.as_ref()) else {
            continue;
        };
        if seen.contains(&title) {
            continue;
        }
        seen.push(title);
        let own = day
            .timetable
            .entries
            .iter()
            .filter(|entry| entry.batch.starts_with(&batch.label));
        // The promise counts the day of the bake: what is slept through is before it.
        let night = own
            .clone()
            .filter(|entry| {
                entry.kind == Kind::Stands && entry.lasts_min >= i64::from(super::tasks::NIGHT_MIN)
            })
            .map(crate::timetable::Entry::ends_min)
            .max();
        let works = own.clone().filter(|entry| {
            matches!(entry.kind, Kind::Work | Kind::Ready)
                && night.is_none_or(|night| entry.begins_min >= night - 120)
        });
        let first = works.map(|entry| entry.begins_min).min();
        let last = own.clone().map(crate::timetable::Entry::ends_min).max();
        let (Some(first), Some(last)) = (first, last) else {
            continue;
        };
        let promised = super::lengths::minutes(within.value);
        let takes = last - first;
        // What this plan lets stand to please the rest of the day is no fault of the recipe.
        let waits = waits(own.clone(), &batch.label, first);
        if takes - waits > i64::from(promised) && asked.now.is_none() {
            all.push(
                Diagnostic::at(
                    code::PROMISE_NOT_KEPT_HERE,
                    within.span,
                    format!(
                        "{title} promises {} and takes {} in {} on this day, from the first work to the last bread cool{}.",
                        hours(promised.into()),
                        hours(takes - waits),
                        asked.kitchen.name,
                        if waits > 0 { ", what it is made to wait not counted" } else { "" }
                    ),
                )
                .hint("Promise longer, or say for which kitchen it holds."),
            );
        }
    }
    all
}

/// How long a batch is made to wait from a minute on: its dough, and the piece of it that waits longest.
fn waits<'a>(own: impl Iterator<Item = &'a Entry>, dough: &str, from: i64) -> i64 {
    let mut of: BTreeMap<&str, i64> = BTreeMap::new();
    for entry in own.filter(|entry| entry.kind == Kind::Waits && entry.begins_min >= from) {
        *of.entry(&entry.batch).or_default() += entry.lasts_min;
    }
    let dough = of.remove(dough).unwrap_or(0);
    dough + of.into_values().max().unwrap_or(0)
}

/// "8 h 20 min".
fn hours(minutes: i64) -> String {
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}
