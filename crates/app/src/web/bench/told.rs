//! What was read at the bench changes the times of the rest of the bake: worked out aside and kept for each bake.
//!
//! A page never waits for it. It asks what is known, shows the times as they were with "working it out", and asks again.

use super::kept::SoFar;
use super::prepared::Prepared;
use crate::world::record::bakes::{Of, Reading as Row};
use crate::world::workers;
use bake::condition::{
    Ahead, Begun, By, ByClock, Here, LIVES, Life, Reading, Settled, What, first, here, settle,
};
use bake::simulate::Follows;
use edit::ledger::under_way::{Heard, heard};
use jiff::Timestamp;
use numerics::quantity::{Duration, Temperature};
use plan::under_way::{Done, Length, Manner};
use std::collections::BTreeMap;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};

/// Which draws: every bake of a machine has the same possible kitchens.
const SEED: u64 = 11;
/// So many bakes are kept; one is some ten megabytes.
const MOST: usize = 4;
/// What was ended by the clock within so much of what is reckoned changes nothing: two minutes, and a tenth.
const SAME: (f64, f64) = (120.0, 0.1);
/// A step that went on so much longer after its sign was ended by the clock: five minutes, and a tenth.
const WENT_ON: (f64, f64) = (300.0, 0.1);

/// What is asked: what was done by the clock, and what was read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Asked {
    by_clock: Vec<ByClock>,
    readings: Vec<Reading>,
    begun: Vec<Begun>,
}

impl Asked {
    /// Whether anything was read.
    pub const fn says_something(&self) -> bool {
        !self.readings.is_empty()
    }

    /// What was read.
    pub fn readings(&self) -> &[Reading] {
        &self.readings
    }

    /// What was ended by the clock.
    pub fn by_clock(&self) -> &[ByClock] {
        &self.by_clock
    }
}

/// A bake set up, with its first possible kitchens.
struct Base {
    ready: Arc<Prepared>,
    by_clock: Vec<ByClock>,
    here: Here,
    lives: Vec<Life>,
    /// Before any reading.
    blind: Option<Settled>,
}

/// An answer.
pub struct Answer {
    base: Arc<Base>,
    asked: Asked,
    settled: Option<Settled>,
    heard: Vec<(usize, Heard)>,
    /// What is ahead, as it was worked out last: in which minute, and what.
    at_minute: Mutex<Option<(f64, Vec<Ahead>)>>,
    /// What could not be heard, in words.
    pub left_out: Vec<String>,
}

/// What is known when a page asks.
pub enum Telling {
    /// Nothing was read that could change a time.
    Nothing,
    /// It is being worked out; what was known before.
    WorkingItOut(Option<Arc<Answer>>),
    /// This.
    Told(Arc<Answer>),
}

/// One bake.
#[derive(Default)]
struct OfBake {
    wanted: Option<(Arc<Prepared>, Asked)>,
    at_work: bool,
    base: Option<Arc<Base>>,
    answer: Option<Arc<Answer>>,
}

/// All bakes of which something is kept, by their numbers.
#[derive(Clone, Default)]
pub struct Tellings(Arc<(Mutex<BTreeMap<i64, OfBake>>, Condvar)>);

impl std::fmt::Debug for Tellings {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_struct("Tellings").finish_non_exhaustive()
    }
}

impl Tellings {
    fn all(&self) -> MutexGuard<'_, BTreeMap<i64, OfBake>> {
        self.0.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Waits until nothing is worked on any more.
    #[cfg(test)]
    pub fn rest(&self) {
        let mut all = self.all();
        while all.values().any(|one| one.at_work) {
            all = self.0.1.wait(all).unwrap_or_else(PoisonError::into_inner);
        }
    }

    /// What is known of a bake; what is not yet is begun.
    pub fn of(&self, bake: i64, ready: &Arc<Prepared>, asked: Asked) -> Telling {
        if asked.readings.is_empty() {
            return Telling::Nothing;
        }
        let mut all = self.all();
        let own = all.entry(bake).or_default();
        if let Some(answer) = &own.answer
            && answer.asked == asked
            && Arc::ptr_eq(&answer.base.ready, ready)
        {
            return Telling::Told(answer.clone());
        }
        let before = own.answer.clone();
        own.wanted = Some((ready.clone(), asked));
        if !own.at_work {
            own.at_work = true;
            let work = self.clone();
            std::thread::spawn(move || work.at_work(bake));
        }
        // The oldest bakes go; their answers come again when somebody asks.
        while all.len() > MOST {
            let Some(oldest) = all.iter().find(|(_, one)| !one.at_work).map(|(at, _)| *at) else {
                break;
            };
            all.remove(&oldest);
        }
        Telling::WorkingItOut(before)
    }

    /// Works out what is wanted of a bake until nothing new is; a tap that came meanwhile is what is worked out next.
    fn at_work(&self, number: i64) {
        loop {
            let (wanted, base) = {
                let mut all = self.all();
                let Some(own) = all.get_mut(&number) else {
                    return;
                };
                let Some(wanted) = own.wanted.take() else {
                    own.at_work = false;
                    self.0.1.notify_all();
                    return;
                };
                (wanted, own.base.clone())
            };
            let made = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
                answered(wanted.0, wanted.1, base)
            }));
            let mut all = self.all();
            let Some(own) = all.get_mut(&number) else {
                return;
            };
            let Ok(answer) = made else {
                // A bug of ours: the page goes on with the times that it has.
                own.at_work = false;
                self.0.1.notify_all();
                return;
            };
            own.base = Some(answer.base.clone());
            own.answer = Some(Arc::new(answer));
        }
    }
}

/// The answer; from the first possible kitchens that are there, where nothing else was done by the clock.
fn answered(ready: Arc<Prepared>, asked: Asked, base: Option<Arc<Base>>) -> Answer {
    let same =
        base.filter(|base| Arc::ptr_eq(&base.ready, &ready) && base.by_clock == asked.by_clock);
    let base = same.unwrap_or_else(|| Arc::new(Base::new(ready, asked.by_clock.clone())));
    let told = settle(
        &base.here,
        base.lives.clone(),
        &asked.readings,
        &workers::lives,
    );
    let heard = told
        .output
        .as_ref()
        .map(|settled| what_they_did(&base, settled, &asked));
    Answer {
        heard: heard.unwrap_or_default(),
        at_minute: Mutex::default(),
        settled: told.output,
        left_out: once(told.diagnostics),
        base,
        asked,
    }
}

impl Base {
    fn new(ready: Arc<Prepared>, by_clock: Vec<ByClock>) -> Self {
        let made = ready.made();
        let anchored = &ready.course.anchored;
        let (recipe, formula, kitchen) = (&made.recipe, &made.formula, &made.kitchen);
        let here = here(recipe, formula, kitchen, anchored, &by_clock, SEED)
            .at_pace(|number| ready.yardstick.pace(number));
        let lives = first(&here, LIVES, &workers::lives);
        let blind = settle(&here, lives.clone(), &[], &workers::lives).output;
        Self {
            ready,
            by_clock,
            here,
            lives,
            blind,
        }
    }
}

impl Answer {
    /// Lengths of the steps that have not ended, by the cook's clock.
    pub fn lengths(&self, done: &BTreeMap<usize, Done>, now: Duration) -> Vec<(usize, Length)> {
        let Some(settled) = &self.settled else {
            return Vec::new();
        };
        // Within a minute nothing moves that a cook could see.
        let minute = now.minutes().floor();
        let mut kept = self
            .at_minute
            .lock()
            .unwrap_or_else(PoisonError::into_inner);
        if kept
            .as_ref()
            .is_none_or(|(of, _)| (of - minute).abs() > 0.5)
        {
            *kept = Some((
                minute,
                settled.ahead(&self.base.here, &self.asked.begun, now),
            ));
        }
        let all = kept.as_ref().map_or(&[] as &[Ahead], |(_, all)| all);
        all.iter()
            .filter(|ahead| ahead.by_sign)
            .filter(|ahead| {
                done.get(&ahead.step)
                    .is_none_or(|done| done.ended.is_none())
            })
            .map(|ahead| {
                let began = done.get(&ahead.step).and_then(|done| done.began);
                let from = began.or(ahead.begins.map(|begins| begins.middle));
                let from = from.unwrap_or(now);
                let range = began.map(|began| numerics::quantity::Range {
                    low: ahead.ends.low - began,
                    high: ahead.ends.high - began,
                });
                let usual = ahead.ends.middle - from;
                (ahead.step, Length { usual, range })
            })
            .collect()
    }

    /// What the readings did to the end of a step that was under way.
    pub fn heard(&self, step: usize) -> Option<&Heard> {
        let found = self.heard.iter().find(|(of, _)| *of == step);
        found.map(|(_, heard)| heard)
    }
}

/// What is said of the readings, the same words once.
pub fn once(said: Vec<recipe::source::Diagnostic>) -> Vec<String> {
    let mut words: Vec<String> = said.into_iter().map(|one| one.message).collect();
    words.dedup();
    words
}

/// What the readings did to each step that is under way.
fn what_they_did(base: &Base, settled: &Settled, asked: &Asked) -> Vec<(usize, Heard)> {
    let Some(blind) = &base.blind else {
        return Vec::new();
    };
    let (here, begun) = (&base.here, &asked.begun);
    // As it was when the last of them was read.
    let read_at = |reading: &Reading| {
        let own = begun.iter().find(|begun| begun.step == reading.step)?;
        Some(own.at + reading.after)
    };
    let later = |one: Duration, other: Duration| if other > one { other } else { one };
    let now = asked
        .readings
        .iter()
        .filter_map(read_at)
        .fold(Duration::ZERO, later);
    let before = blind.ahead(here, begun, now);
    let after = settled.ahead(here, begun, now);
    after
        .iter()
        .filter(|told| told.by_sign && told.begins.is_none())
        .filter_map(|told| {
            let blind = before.iter().find(|one| one.step == told.step)?;
            let changed = settled.changed(here, begun, now, told.step);
            Some((told.step, heard(told, blind, &changed, begun)))
        })
        .collect()
}

/// What a bake so far asks.
pub fn asked(ready: &Prepared, since: Timestamp, so_far: &SoFar, rows: &[Row]) -> Asked {
    let mut asked = Asked::default();
    let longer = |wide: (f64, f64), usual: Duration| wide.0.max(wide.1 * usual.si());
    for piece in &ready.pieces {
        let number = piece.number;
        let Some(done) = so_far.done.get(&number) else {
            continue;
        };
        let Some(began) = done.began else { continue };
        if piece.manner == Manner::Beside {
            continue;
        }
        asked.begun.push(Begun {
            step: number,
            at: began,
        });
        let waits = so_far.follows == Follows::Cue && ready.by_sign(number);
        let mut seen = None;
        for row in rows
            .iter()
            .filter(|row| row.step.as_deref() == Some(&number.to_string()))
        {
            let after = super::kept::since(since, row.at) - began;
            let what = match (row.of, row.unit.as_deref()) {
                (Of::Temperature, _) => row
                    .value
                    .map(|read| What::Inside(Temperature::from_celsius(read), By::Probe)),
                (Of::Seen, _) if waits && seen.is_none() => {
                    seen = Some(after);
                    Some(What::Reached)
                }
                // Whoever gives it more time has looked.
                (Of::Note, Some(super::kept::SECONDS)) if waits && seen.is_none() => {
                    Some(What::NotYet)
                }
                _ => None,
            };
            if let Some(what) = what.filter(|_| after >= Duration::ZERO) {
                asked.readings.push(Reading {
                    step: number,
                    after,
                    what,
                });
            }
        }
        let Some(ended) = done.ended else { continue };
        let lasts = ended - began;
        let went_on = seen.is_some_and(|seen| (lasts - seen).si() > longer(WENT_ON, seen));
        if waits && !went_on {
            if seen.is_none() {
                asked.readings.push(Reading {
                    step: number,
                    after: lasts,
                    what: What::Reached,
                });
            }
            continue;
        }
        let usual = piece.length.usual;
        if (lasts - usual).abs().si() > longer(SAME, usual) {
            asked.by_clock.push(ByClock {
                step: number,
                lasts,
            });
        }
    }
    asked
}
