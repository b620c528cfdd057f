//! From recipes and a kitchen to the puzzle: every step of every batch a task with its neighbours.

use super::alike::alike;
use super::chain::Chain;
use super::lengths::Length;
use super::means::Means;
use super::problem::{Gap, Pool, Problem, Shelf, Stay, Task, Use, Wish};
use super::trays::Load;
use crate::timetable::{Kind, minutes_between};
use bake::kitchen::Kitchen;
use jiff::civil::{DateTime, Time};
use jiff::tz::TimeZone;
use recipe::document::model::{Hours, Recipe};
use recipe::formula::Formula;

/// One making of one recipe.
#[derive(Clone, Debug)]
pub struct Batch<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// Its sums.
    pub formula: &'a Formula,
    /// What it is called: its title, with a number when there are several.
    pub label: String,
    /// The minutes of its steps.
    pub lengths: Vec<Length>,
}

/// When a bread is wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Serve {
    /// Which batch; every one when it is not said.
    pub batch: Option<usize>,
    /// Which product; every one when it is not said.
    pub product: Option<String>,
    /// By this minute.
    pub by: i32,
    /// Out of the oven then, not ready to eat.
    pub out: bool,
}

impl Serve {
    /// Whether it is said of a bread of a batch.
    fn is_of(&self, batch: usize, bread: &str) -> bool {
        let own = self.batch.is_none_or(|wanted| wanted == batch);
        let wanted = self.product.as_ref();
        own && wanted.is_none_or(|wanted| wanted.eq_ignore_ascii_case(bread))
    }

    /// How special it is: of one batch before of one bread, and both before everything.
    const fn special(&self) -> (bool, bool) {
        (self.batch.is_some(), self.product.is_some())
    }
}

/// What a task is.
#[derive(Clone, Debug, PartialEq)]
pub struct About {
    /// Of which batch.
    pub batch: usize,
    /// Of which step, from 0, in the order in which a page numbers them.
    pub step: usize,
    /// Of which product and which of its loads; none for a stage.
    pub product: Option<(usize, usize)>,
    /// What sort of thing.
    pub kind: Kind,
    /// In a cook's words.
    pub words: String,
    /// What goes into the oven together, for a bake.
    pub load: Option<Load>,
    /// Dial at the beginning and the end, °C, for a bake.
    pub dial: Option<(f64, f64)>,
    /// Whether it is done while something stands: a fold in a rise.
    pub within: bool,
}

/// A puzzle and what its tasks are.
#[derive(Clone, Debug)]
pub struct Made {
    /// The puzzle.
    pub problem: Problem,
    /// Of every task.
    pub about: Vec<About>,
    /// What lies between two tasks that are done, of a day that has begun.
    pub behind: Vec<Gap>,
}

impl Made {
    /// What lies between two tasks, done or not.
    pub fn gaps(&self) -> impl Iterator<Item = &Gap> {
        self.behind.iter().chain(&self.problem.gaps)
    }

    /// Whether the second of two tasks is done while the first stands: a fold in a rise.
    pub fn within(&self, gap: &Gap) -> bool {
        self.about[gap.to].within && self.about[gap.from].kind == Kind::Stands
    }
}

/// Where and when a day is planned.
#[derive(Clone, Debug)]
pub struct Place<'a> {
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// What it has.
    pub means: &'a Means,
    /// The clock at minute 0; nothing begins before it.
    pub starts: DateTime,
    /// Where that clock hangs.
    pub zone: Option<&'a TimeZone>,
}

/// Minutes that hands need to put something in its place, into the oven or out of it (common practice).
pub const HANDLING_MIN: i32 = 1;
/// Bread stays in its tin for so long after the bake (common practice).
pub const IN_TIN_MIN: i32 = 5;

/// The puzzle of a day.
pub fn tasks(place: &Place<'_>, batches: &[Batch<'_>], serve: &[Serve]) -> Made {
    let mut made = Making {
        place: place.clone(),
        problem: Problem::default(),
        about: Vec::new(),
        hands: Vec::new(),
        mixer: Vec::new(),
        bakes: Vec::new(),
        warm: Vec::new(),
        cold: Vec::new(),
        tins: Vec::new(),
        bake_of: Vec::new(),
        nights: Vec::new(),
    };
    for (at, batch) in batches.iter().enumerate() {
        Chain::new(&mut made, at, batch).lay();
    }
    made.wishes(batches, serve);
    let horizon = made.horizon(serve);
    made.close(horizon);
    made.ovens();
    made.stretches();
    made.problem.alike = alike(&made.problem, &made.about, batches);
    Made {
        problem: made.problem,
        about: made.about,
        behind: Vec::new(),
    }
}

/// A puzzle while it is made.
pub struct Making<'a> {
    /// Where and when.
    pub place: Place<'a>,
    /// What there is of the puzzle.
    pub problem: Problem,
    /// Of every task.
    pub about: Vec<About>,
    /// Work of hands.
    pub hands: Vec<Use>,
    /// Work of the mixer.
    pub mixer: Vec<Use>,
    /// Bakes with the racks that they take.
    pub bakes: Vec<Use>,
    /// Stays in the warm place.
    pub warm: Vec<Stay>,
    /// Stays in the refrigerator.
    pub cold: Vec<Stay>,
    /// Stays in tins by name.
    pub tins: Vec<(String, Stay)>,
    /// Last task of each load: batch, product, bake, last task.
    pub bake_of: Vec<(usize, usize, usize, usize)>,
    /// Tasks before a night's rest.
    pub nights: Vec<usize>,
}

/// No day is planned over more than a month.
const MOST_MIN: i32 = 30 * 24 * 60;
/// A rest of this length is slept through.
pub const NIGHT_MIN: i32 = 360;

impl Making<'_> {
    /// Adds a task that may begin at any time.
    pub fn add(&mut self, lasts: i32, about: About) -> usize {
        self.problem.tasks.push(Task {
            lasts,
            earliest: 0,
            latest: i32::MAX / 8,
        });
        self.about.push(about);
        self.about.len() - 1
    }

    fn wishes(&mut self, batches: &[Batch<'_>], serve: &[Serve]) {
        let mut asked = Vec::new();
        for (batch, product, bake, last) in self.bake_of.clone() {
            let name = &batches[batch].recipe.products[product].name.value;
            let of = || serve.iter().filter(|one| one.is_of(batch, name));
            // What is said of this bread of this batch counts, and not what is said of all of them besides.
            let most = of().map(Serve::special).max();
            for one in of().filter(|one| Some(one.special()) == most) {
                asked.push(batch);
                self.problem.wishes.push(Wish {
                    task: if one.out { bake } else { last },
                    by: Some(one.by),
                });
            }
        }
        for (batch, _, _, last) in self.bake_of.clone() {
            if !asked.contains(&batch) {
                self.problem.wishes.push(Wish {
                    task: last,
                    by: None,
                });
            }
        }
    }

    /// Long enough for every batch after the other, whatever hours are closed.
    fn horizon(&mut self, serve: &[Serve]) -> i32 {
        let last = serve.iter().map(|one| one.by).max().unwrap_or(0);
        let mut longest = vec![0; self.about.len()];
        for _ in 0..self.about.len() {
            let before = longest.clone();
            for gap in &self.problem.gaps {
                longest[gap.to] = longest[gap.to].max(longest[gap.from] + gap.least);
            }
            if before == longest {
                break;
            }
        }
        let mut whole = 0;
        let batches = self
            .about
            .iter()
            .map(|about| about.batch)
            .max()
            .unwrap_or(0);
        for batch in 0..=batches {
            let own = self.about.iter().zip(&longest).zip(&self.problem.tasks);
            let own = own.filter(|((about, _), _)| about.batch == batch);
            whole += own
                .map(|((_, at), task)| at + task.lasts)
                .max()
                .unwrap_or(0);
        }
        let horizon = (last.max(0) + whole + 2 * 24 * 60).min(MOST_MIN);
        self.problem.horizon = horizon;
        for task in &mut self.problem.tasks {
            task.latest = horizon - task.lasts;
        }
        horizon
    }

    /// Every day's hours of a kind as minutes.
    fn closed(&self, hours: &[Hours], horizon: i32) -> Vec<(i32, i32)> {
        let mut all = Vec::new();
        for day in -1..=i64::from(horizon / 1440) + 1 {
            for one in hours {
                let from = self.minute(day, one.from);
                let over_midnight = i64::from(one.to <= one.from);
                let to = self.minute(day + over_midnight, one.to);
                let (from, to) = (from.max(0), to.min(horizon));
                if from < to {
                    all.push((from, to));
                }
            }
        }
        // What overlaps is one: a pool is closed only once.
        all.sort_unstable();
        let mut merged: Vec<(i32, i32)> = Vec::new();
        for (from, to) in all {
            match merged.last_mut() {
                Some(last) if from <= last.1 => last.1 = last.1.max(to),
                _ => merged.push((from, to)),
            }
        }
        merged
    }

    /// The minute at which the clock shows a time, so many days after minute 0's.
    fn minute(&self, day: i64, time: Time) -> i32 {
        let date = self
            .place
            .starts
            .date()
            .saturating_add(jiff::Span::new().days(day));
        let at = date.to_datetime(time);
        let minute = minutes_between(self.place.starts, at, self.place.zone);
        i32::try_from(minute).unwrap_or(i32::MAX / 8)
    }

    fn close(&mut self, horizon: i32) {
        let means = self.place.means;
        let mut hours = means.quiet.clone();
        hours.extend(&means.breaks);
        let closed = self.closed(&hours, horizon);
        let quiet = self.closed(&means.quiet, horizon);
        let pools = [
            (means.hands, std::mem::take(&mut self.hands), closed),
            (1, std::mem::take(&mut self.mixer), quiet),
            (means.racks, std::mem::take(&mut self.bakes), Vec::new()),
        ];
        for (capacity, uses, closed) in pools {
            self.problem.pools.push(Pool {
                capacity,
                uses,
                closed,
            });
        }
        let mut shelves: Vec<(Option<i32>, Vec<Stay>)> = vec![
            (means.warm_places, self.warm.clone()),
            (means.shelves, self.cold.clone()),
        ];
        let mut names: Vec<String> = self.tins.iter().map(|(name, _)| name.clone()).collect();
        names.sort_unstable();
        names.dedup();
        for name in names {
            let stays = self.tins.iter().filter(|(own, _)| *own == name);
            shelves.push((means.tin(&name), stays.map(|(_, stay)| *stay).collect()));
        }
        for (capacity, stays) in shelves {
            if let Some(capacity) = capacity {
                self.problem.shelves.push(Shelf { capacity, stays });
            }
        }
        for day in 0..=i64::from(horizon / 1440) {
            let midnight = self.minute(day, Time::midnight());
            let morning = self.minute(day, means.morning);
            if morning > 0 {
                self.problem.mornings.push((midnight, morning));
            }
        }
    }

    fn ovens(&mut self) {
        let bakes: Vec<usize> = (0..self.about.len())
            .filter(|task| self.about[*task].dial.is_some())
            .collect();
        let dial = |task: usize| self.about[task].dial.unwrap_or((0.0, 0.0));
        let steady = |dial: (f64, f64)| (dial.0 - dial.1).abs() < 0.5;
        let oven = &mut self.problem.oven;
        for one in &bakes {
            let row = bakes.iter().map(|other| {
                let (a, b) = (dial(*one), dial(*other));
                let same = steady(a) && steady(b) && (a.0 - b.0).abs() < 0.5;
                (!same && one != other).then(|| change_min(a.1, b.0))
            });
            oven.apart.push(row.collect());
            let heats = heat_min(dial(*one).0);
            oven.heats.push(heats);
            let task = &mut self.problem.tasks[*one];
            task.earliest = task.earliest.max(heats).min(task.latest);
        }
        oven.cools = COOLS_MIN;
        if self.place.means.oven_warms {
            // It leaves the oven in time for the oven to heat, and ends its rise in the room.
            let least = oven.heats.iter().copied().max().unwrap_or(0);
            oven.rises = self
                .warm
                .iter()
                .map(|stay| Stay {
                    beyond: -least,
                    ..*stay
                })
                .collect();
        }
        oven.bakes = bakes;
    }

    /// Work of hands at a stretch: what is done before the night, and what on the day.
    fn stretches(&mut self) {
        let pool = &self.problem.pools[0];
        let mut lists: Vec<((bool, i32), Vec<usize>)> = Vec::new();
        for one in &pool.uses {
            let batch = self.about[one.task].batch;
            let by = self.problem.wishes.iter().filter_map(|wish| {
                let own = self.about[wish.task].batch == batch;
                wish.by.filter(|_| own)
            });
            let day = by.min().map_or(0, |by| by / 1440);
            let key = (self.nights.contains(&one.task), day);
            match lists.iter_mut().find(|(own, _)| *own == key) {
                Some((_, list)) if list.contains(&one.task) => {}
                Some((_, list)) => list.push(one.task),
                None => lists.push((key, vec![one.task])),
            }
        }
        self.problem.stretches = lists.into_iter().map(|(_, list)| list).collect();
    }
}

/// An oven that was hot takes so long until dough can rise in it (common practice: an hour).
const COOLS_MIN: i32 = 60;

/// Minutes that an oven takes from one dial to another: 8 for 25 °C (common practice).
pub fn change_min(from: f64, to: f64) -> i32 {
    whole((from - to).abs() * 8.0 / 25.0)
}

/// Minutes that a cold oven takes: 25 to 200 °C (common practice).
pub fn heat_min(to: f64) -> i32 {
    whole((to - 20.0).max(0.0) * 25.0 / 180.0)
}

fn whole(minutes: f64) -> i32 {
    #[allow(clippy::cast_possible_truncation)] // an oven's minutes
    let whole = (minutes - 1e-6).ceil().clamp(0.0, 1000.0) as i32;
    whole
}
