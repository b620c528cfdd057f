//! The parts of a filming day's lines that stand on sheets of their own: the choice of batches, labels, the call.

use super::build::{Filmed, extras, minutes, seconds};
use super::model::{CallSheet, HoldLine, LabelLines, TradeLine};
use crate::ledger::model::{Caution, Ledger};
use crate::ledger::shopping::{self, Order};
use crate::ledger::timetable::clock;
use crate::ledger::{figure, say};
use numerics::quantity::{Duration, Fraction};
use plan::shoot::{Process, process_of};
use recipe::provenance::{Had, Origin};
use std::collections::BTreeMap;

/// Fewer batches, each with the hour at which the day would end.
pub(super) fn trade(filmed: &Filmed<'_>) -> Vec<TradeLine> {
    let origin = || Origin::new("search over batches and scenes", Had::Derived);
    let people = filmed.day.people;
    let row = |one: &plan::shoot::Trade| {
        let place = format!("shoot.with.{}", one.batches);
        let name = if one.batches == 1 {
            "1 batch".to_owned()
        } else {
            format!("{} batches", one.batches)
        };
        let Some(wrap_min) = one.wrap_min else {
            return TradeLine {
                batches: name,
                wrap: "not possible".to_owned(),
                later: String::new(),
                people: None,
                figures: Vec::new(),
            };
        };
        let wrap = filmed.at(format!("{place}.wrap"), wrap_min);
        let later = figure(
            format!("{place}.later"),
            seconds(one.later_min),
            Duration::SI,
            minutes(one.later_min),
            origin(),
        );
        let sure = if one.proven { "" } else { " or less" };
        TradeLine {
            batches: name,
            wrap: wrap.shown.clone(),
            later: if one.later_min == 0 {
                "as planned".to_owned()
            } else {
                format!("{} later{sure}", later.shown)
            },
            people: people.filter(|_| one.later_min > 0).map(|people| {
                format!(
                    "{} of work, {people} people together",
                    minutes(people * one.later_min)
                )
            }),
            figures: vec![wrap, later],
        }
    };
    filmed.day.trade.iter().map(row).collect()
}

/// One for each batch's dough, and one for each product that a scene wants of it.
pub(super) fn labels(filmed: &Filmed<'_>) -> Vec<LabelLines> {
    let mut all = Vec::new();
    for (nth, batch) in filmed.day.batches.iter().enumerate() {
        let process = &filmed.day.processes[batch.process];
        let mut of: Vec<(String, Vec<String>)> = vec![(process.of.clone(), Vec::new())];
        let mut wants: Vec<usize> = batch.serves.clone();
        wants.sort_by_key(|need| filmed.day.needs[*need].at_min);
        for need in wants {
            let point = &process.points[filmed.day.needs[need].point];
            let line = format!(
                "{} {}: {}",
                filmed.scene_name(need),
                filmed.clock(filmed.day.needs[need].at_min),
                filmed.state(need)
            );
            match of.iter_mut().find(|(name, _)| *name == point.of) {
                Some((_, lines)) => lines.push(line),
                None => of.push((point.of.clone(), vec![line])),
            }
        }
        for (name, mut lines) in of {
            let starts = filmed.clock(batch.start_min);
            lines.insert(0, format!("mixed from {starts}"));
            all.push(LabelLines {
                heading: format!("Batch {}: {name}", nth + 1),
                lines,
            });
        }
    }
    all
}

/// The call sheet.
pub(super) fn call(filmed: &Filmed<'_>) -> CallSheet {
    let day = filmed.day;
    let mut hours = vec![("Call".to_owned(), filmed.clock(day.call_min))];
    if let Some(first) = day.scenes.first() {
        hours.push(("First take".to_owned(), filmed.clock(first.at_min)));
    }
    if let Some((from, to)) = day.meal {
        let words = format!("{} to {}", filmed.clock(from), filmed.clock(to));
        hours.push(("Meal".to_owned(), words));
    }
    hours.push(("Wrap".to_owned(), filmed.clock(day.wrap_min)));
    let mut place = Vec::new();
    if let Some(file) = &filmed.file.place {
        place.push(("Address".to_owned(), file.address.value.clone()));
        for (what, told) in [
            ("Parking", &file.parking),
            ("Nearest hospital", &file.hospital),
            ("Ring", &file.ring),
        ] {
            place.extend(
                told.as_ref()
                    .map(|told| (what.to_owned(), told.value.clone())),
            );
        }
    }
    let crew = filmed.file.crew.iter().map(|member| {
        let comes = member.call.as_ref().map_or_else(
            || filmed.clock(day.call_min),
            |call| {
                clock(
                    day.table.starts.date().to_datetime(call.value),
                    filmed.hours,
                )
            },
        );
        (member.does.value.clone(), member.who.value.clone(), comes)
    });
    CallSheet {
        hours,
        place,
        crew: crew.collect(),
    }
}

/// What to buy.
pub(super) fn shopping_of(filmed: &Filmed<'_>) -> shopping::Shopping {
    let batches = filmed.day.batches.len() as f64;
    let more = 1.0 + filmed.day.spare;
    let again: Vec<(usize, f64)> = once_more(filmed)
        .into_iter()
        .map(|(stage, times)| (stage, f64::from(times) * more))
        .collect();
    let order = Order {
        inputs: filmed.inputs,
        batches: batches * more,
        again: &again,
    };
    let mut list = shopping::list(&[order], &shopping::common(&order));
    let spare = say::percent_whole(Fraction::from_si(filmed.day.spare));
    list.notes.insert(
        0,
        format!(
            "For {} and {spare} to spare.",
            batches_words(filmed.day.batches.len())
        ),
    );
    list.notes.extend(extras(filmed));
    if !again.is_empty() {
        list.notes
            .push("What is made once more is in the sums.".to_owned());
    }
    list
}

/// Stages that are made for scenes alone, with what goes into them, and how many times.
fn once_more(filmed: &Filmed<'_>) -> BTreeMap<usize, u32> {
    fn count(process: &Process, filmed: &Filmed<'_>, times: &mut BTreeMap<usize, u32>) {
        let mut stages = filmed.inputs.recipe.stages.iter();
        if let Some(stage) = stages.position(|stage| stage.name.value == process.of) {
            *times.entry(stage).or_default() += 1;
        }
        for feed in &process.feeds {
            count(feed, filmed, times);
        }
    }
    let mut times = BTreeMap::new();
    for extra in &filmed.day.extras {
        let first = &filmed.day.needs[extra.serves[0]];
        count(process_of(&filmed.day.processes, first), filmed, &mut times);
    }
    times
}

fn batches_words(count: usize) -> String {
    if count == 1 {
        "1 batch".to_owned()
    } else {
        format!("{count} batches")
    }
}

/// The recipe's own cautions, and those of a set.
pub(super) fn cautions(ledger: &Ledger) -> Vec<Caution> {
    let mut all = ledger.cautions.clone();
    all.push(Caution {
        text: "Food that stood under lamps or at room temperature for more than 2 h is for the camera alone: mark it, and let nobody eat it.".to_owned(),
        source: "two-hour rule of USDA FSIS, from memory; the food code of the place decides".to_owned(),
    });
    all.push(Caution {
        text: "The oven, its door and what comes out of it are hot: one person loads and unloads, with gloves, and says so aloud.".to_owned(),
        source: "common practice".to_owned(),
    });
    all
}

/// How long the states keep that batches wait in; products that keep alike stand together.
pub(super) fn holds(filmed: &Filmed<'_>) -> Vec<HoldLine> {
    let mut groups: Vec<(String, i64, &'static str, bool, Vec<String>)> = Vec::new();
    for batch in &filmed.day.batches {
        let process = &filmed.day.processes[batch.process];
        for (at, point) in process.points.iter().enumerate() {
            let waits = batch.stays[at].leaves_min > batch.stays[at].arrives_min;
            if !batch.followed[at] || !waits || point.state.is_empty() {
                continue;
            }
            let name = point.name();
            let own = filmed
                .file
                .holds
                .iter()
                .any(|hold| hold.at.value == name || hold.at.value == point.state);
            let place = point.place.words();
            let same = groups.iter_mut().find(|(state, keeps, there, mine, _)| {
                (state, *keeps, *there, *mine) == (&point.state, point.keeps_min, place, own)
            });
            match same {
                Some((.., of)) if of.contains(&point.of) => {}
                Some((.., of)) => of.push(point.of.clone()),
                None => groups.push((
                    point.state.clone(),
                    point.keeps_min,
                    place,
                    own,
                    vec![point.of.clone()],
                )),
            }
        }
    }
    groups
        .into_iter()
        .map(|(state, keeps_min, place, own, of)| {
            let name = format!("{} {state}", say::list(&of));
            let origin = if own {
                Origin::new("the file of scenes", Had::Written)
            } else {
                Origin::new("kitchens that film", Had::CommonPractice)
            };
            HoldLine {
                keeps: figure(
                    format!("shoot.keeps.{name}"),
                    seconds(keeps_min),
                    Duration::SI,
                    minutes(keeps_min),
                    origin,
                ),
                state: name,
                place,
            }
        })
        .collect()
}
