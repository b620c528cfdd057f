//! A bake day: recipes and batches, what the kitchen has, and when everything is done.

mod alike;
mod anew;
pub mod before;
mod begun;
pub mod between;
mod bounds;
mod chain;
mod chance;
pub mod code;
pub mod conflict;
mod cores;
mod cut;
pub mod done;
mod eased;
mod ended;
pub mod entries;
mod findings;
mod groups;
mod in_the_oven;
mod laid;
mod later;
pub mod lengths;
mod list;
pub mod means;
mod mixing;
mod now_said;
mod orders;
mod otherwise;
mod posted;
pub mod problem;
pub mod replay;
mod rigid;
mod rounds;
mod search;
pub mod slip;
pub mod solve;
pub mod stood;
mod stood_said;
pub mod tasks;
mod ties;
pub mod trays;
mod turns;
mod twice;
mod walk;
mod watched;
mod weighed;
mod words;

use crate::timetable::{Kind, Timetable};
use bake::simulate::{Follows, How};
use before::Before;
use between::Between;
use conflict::Want;
use jiff::civil::DateTime;
use jiff::tz::TimeZone;
use recipe::document::model::Recipe;
use recipe::formula::Formula;
use recipe::source::{Checked, Diagnostic};
use replay::Replayed;
use slip::{Moved, Now};
use solve::{AtOnce, Budget, Solved};
use stood::{Away, Stands, Stood};
use tasks::{Batch, Made, Place, Serve};

/// What is asked for.
#[derive(Clone, Debug)]
pub struct Asked<'a> {
    /// The kitchen.
    pub kitchen: &'a bake::kitchen::Kitchen,
    /// What it has for such a day.
    pub means: &'a means::Means,
    /// Every batch: its recipe with its sums, what it is called, the factors of its tested bakes.
    pub batches: Vec<Wanted<'a>>,
    /// What is wanted when; what nobody gives a time is made as soon as can be.
    pub serve: Vec<Serve>,
    /// The clock at minute 0; nothing begins before it.
    pub starts: DateTime,
    /// Where that clock hangs.
    pub zone: Option<&'a TimeZone>,
    /// What ends a step: its sign, or the written clock.
    pub follows: Follows,
    /// What is true now, when the day has begun.
    pub now: Option<Now>,
    /// The plan of that day so far, when it was written down.
    pub before: Option<Before>,
}

/// One batch that is wanted.
#[derive(Clone, Debug)]
pub struct Wanted<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// Its sums.
    pub formula: &'a Formula,
    /// What it is called.
    pub label: String,
    /// What its tested bakes teach.
    pub anchor: bake::simulate::Anchor,
}

/// A day that is planned.
#[derive(Clone, Debug)]
pub struct Day {
    /// Everything in it.
    pub timetable: Timetable,
    /// The plan and what is known about it.
    pub solved: Solved,
    /// Every bread: when it goes in, comes out and is ready.
    pub breads: Vec<Bread>,
    /// What the machine says of each as it is planned.
    pub replayed: Vec<Replayed>,
    /// And of the rests between a hold in the cold and the last rise.
    pub between: Vec<Between>,
    /// Doughs that have stood past their best, or will.
    pub stood: Vec<Stood>,
    /// Waits past the best that hours without hands make.
    pub away: Vec<Away>,
    /// How long every rest of every bread stands, with its waits.
    pub stands: Vec<Stands>,
    /// The fewest wishes that cannot all be had; empty when all are met.
    pub conflict: Vec<Want>,
    /// How often the plan was made anew because a wait changes what comes after it.
    pub rounds: u32,
    /// By how many minutes breads are too old when they are wanted, all added: part of what is past its best.
    pub old: i32,
    /// What has moved against the plan before, of a day that has begun.
    pub moved: Option<Moved>,
}

/// One load of one product in a plan. Minutes from the table's minute 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Bread {
    /// Whose: the batch's label.
    pub batch: String,
    /// Its name.
    pub name: String,
    /// Its pieces.
    pub pieces: u32,
    /// Into the oven.
    pub into: i32,
    /// Out of it.
    pub out: i32,
    /// Ready to eat.
    pub ready: i32,
    /// When it is wanted.
    pub wanted: Option<i32>,
    /// How long it waits risen.
    pub waits: i32,
    /// How long it could.
    pub may_wait: i32,
}

/// Plans a day. Without a plan the findings say why.
///
/// The plan is baked in the machine; where its own waits change how long a dough rises, lengths are corrected
/// and it is made anew, until what is planned is what happens. A large day is searched twice at once where `at_once`
/// says how.
pub fn day(
    asked: &Asked<'_>,
    budget: &mut Budget<'_>,
    at_once: Option<&AtOnce<'_>>,
) -> Checked<Option<Day>> {
    let mut said = findings::before(asked);
    if said.iter().any(findings::mends) {
        return Checked {
            output: None,
            diagnostics: said,
        };
    }
    let place = Place {
        kitchen: asked.kitchen,
        means: asked.means,
        starts: asked.starts,
        zone: asked.zone,
    };
    let mut batches = batches(asked, None);
    said.extend(otherwise::otherwise(asked, &batches));
    let mut before = asked.now.as_ref().and_then(|now| {
        let before = begun::so_far(asked, &place, &mut batches, budget, at_once)?;
        Some((now, before))
    });
    if let Some(now) = &asked.now {
        said.extend(now_said::now(asked, now));
        batches = self::batches(asked, now.dough);
    }
    // A day that begins before its hour is laid out from that moment on.
    let sooner = begun::sooner(asked);
    let ahead = sooner.as_ref().map_or(0, |(_, ahead)| *ahead);
    let on = sooner.as_ref().map_or(asked, |(on, _)| on);
    if let Some((now, before)) = &mut before {
        *now = on.now.as_ref().unwrap_or(*now);
        before.starts.iter_mut().for_each(|start| *start += ahead);
    }
    let there = Place {
        starts: on.starts,
        ..place.clone()
    };
    let begun = before.as_ref().map(|(now, before)| {
        let planned = slip::Planned {
            starts: &before.starts,
            kept: before.kept,
        };
        (*now, planned)
    });
    let planned = match rounds::planned(on, &there, &mut batches, begun, budget, at_once) {
        Ok(planned) => planned,
        Err(finding) => {
            said.push(*finding);
            return Checked {
                output: None,
                diagnostics: said,
            };
        }
    };
    let rounds::Planned {
        made,
        mut solved,
        replayed,
        between,
        rounds,
        with_it,
        taken,
    } = planned;
    said.extend(now_said::taken(&batches, &made, &taken));
    said.extend(now_said::with_it(&with_it));
    let missed = solved.cost.late > 0 || solved.cost.past > 0;
    let conflict = if missed && asked.now.is_none() {
        conflict::smallest(&place, &batches, &asked.serve, budget)
    } else {
        Vec::new()
    };
    let mut breads = breads(&batches, &made, &solved.starts);
    let moved = before.map(|(_, before)| Moved {
        kept: before.kept,
        ..slip::moved((&before.made, &before.starts), (&made, &solved.starts))
    });
    let old = made.problem.old(&solved.starts);
    let stood = stood::stood(&batches, &made, &solved.starts);
    let stands = stood::stands(&batches, &made, &solved.starts);
    let mut away = stood::away(&there, &batches, &made, &solved.starts);
    for one in &mut away {
        one.sign -= ahead;
        one.shut = (one.shut.0 - ahead, one.shut.1 - ahead);
    }
    begun::by_its_hour(ahead, &mut solved, &mut breads);
    let timetable = entries::timetable(&place, &batches, &made, &solved.starts);
    let day = Day {
        timetable,
        solved,
        breads,
        replayed,
        between,
        stood,
        away,
        stands,
        conflict,
        rounds,
        old,
        moved,
    };
    said.extend(findings::after(asked, &batches, &day));
    Checked {
        output: Some(day),
        diagnostics: said,
    }
}

fn how(
    asked: &Asked<'_>,
    wanted: &Wanted<'_>,
    dough: Option<numerics::quantity::Temperature>,
) -> How {
    How {
        follows: asked.follows,
        anchor: wanted.anchor,
        dough,
        ..How::default()
    }
}

fn batches<'a>(
    asked: &Asked<'a>,
    dough: Option<numerics::quantity::Temperature>,
) -> Vec<Batch<'a>> {
    let mut all: Vec<Batch<'a>> = Vec::new();
    for (at, wanted) in asked.batches.iter().enumerate() {
        // Two batches of one recipe are worked out once.
        let same = asked.batches[..at]
            .iter()
            .position(|other| std::ptr::eq(other.recipe, wanted.recipe));
        let lengths = match same {
            Some(same) => all[same].lengths.clone(),
            None => lengths::lengths(
                wanted.recipe,
                wanted.formula,
                asked.kitchen,
                &how(asked, wanted, dough),
            ),
        };
        all.push(Batch {
            recipe: wanted.recipe,
            formula: wanted.formula,
            label: wanted.label.clone(),
            lengths,
        });
    }
    all
}

fn breads(batches: &[Batch<'_>], made: &Made, starts: &[i32]) -> Vec<Bread> {
    let mut all = Vec::new();
    for (task, about) in made.about.iter().enumerate() {
        let (Some((product, load)), Kind::Bakes) = (about.product, about.kind) else {
            continue;
        };
        let own: Vec<usize> = (0..made.about.len())
            .filter(|other| {
                let other = &made.about[*other];
                other.batch == about.batch && other.product == Some((product, load))
            })
            .collect();
        let last = own.last().copied().unwrap_or(task);
        let wish = made
            .problem
            .wishes
            .iter()
            .find(|wish| own.contains(&wish.task) && wish.by.is_some());
        let rise = own
            .iter()
            .rev()
            .find(|task| made.about[**task].kind == Kind::Stands);
        let wait = rise.and_then(|rise| made.problem.gaps.iter().find(|gap| gap.from == *rise));
        all.push(Bread {
            batch: batches[about.batch].label.clone(),
            name: batches[about.batch].recipe.products[product]
                .name
                .value
                .clone(),
            pieces: about.load.map_or(1, |load| load.pieces),
            into: starts[task],
            out: made.problem.ends(task, starts),
            ready: made.problem.ends(last, starts),
            wanted: wish.and_then(|wish| wish.by),
            waits: wait.map_or(0, |gap| starts[gap.to] - starts[gap.from] - gap.least),
            may_wait: wait.map_or(0, |gap| gap.best - gap.least),
        });
    }
    all.sort_by_key(|bread| (bread.into, bread.out));
    all
}

/// Whether nothing is left to be said but what a finding of a day is about.
pub fn stops(diagnostics: &[Diagnostic]) -> bool {
    diagnostics.iter().any(findings::mends)
}
