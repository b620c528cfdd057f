//! Kitchens that are made up, three bakes in each, and whether what is learnt of them holds what it says.

use super::trial::{Chance, whole_bake};
use super::{World, lives};
use bake::condition::{EachLife, Here, Known, Life, Possible, Reading, Unknown};
use bake::learn::{COULD_NOT_TELL, LIVES, Noted, learn};
use std::fmt::Write;
use std::ops::Range;

/// Bakes in each kitchen.
const BAKES: u64 = 3;
/// Kitchens of this kind begin at this number, so that none of them is of a bank.
const FROM: u64 = 3 << 20;

/// How many bands held, by the place of what they are of: told and held, all and held.
#[derive(Clone, Debug, Default)]
pub struct Taught {
    /// Trials.
    pub trials: u64,
    /// Of them left out.
    pub left_out: u64,
    /// Sum of the possible kitchens that counted.
    pub counted: f64,
    told: [(u64, u64); Unknown::ALL.len()],
    all: [(u64, u64); Unknown::ALL.len()],
}

impl Taught {
    fn compare(&mut self, here: &Here, truth: &Life, learnt: &[Known]) {
        for known in learnt {
            let place = known.unknown.place();
            let really = here.told(known.unknown, truth.scores[place]);
            let inside = u64::from(known.low <= really && really <= known.high);
            let count = |cell: &mut (u64, u64)| {
                cell.0 += 1;
                cell.1 += inside;
            };
            count(&mut self.all[place]);
            if known.narrower < COULD_NOT_TELL {
                count(&mut self.told[place]);
            }
        }
    }

    /// Counts others too.
    pub fn add(&mut self, other: &Self) {
        self.trials += other.trials;
        self.left_out += other.left_out;
        self.counted += other.counted;
        let add = |own: &mut [(u64, u64)], other: &[(u64, u64)]| {
            for (own, other) in own.iter_mut().zip(other) {
                own.0 += other.0;
                own.1 += other.1;
            }
        };
        add(&mut self.told, &other.told);
        add(&mut self.all, &other.all);
    }

    /// A row for each thing, and one for all.
    pub fn rows(&self) -> String {
        let mut out = String::new();
        let trials = (self.trials - self.left_out).max(1);
        for unknown in Unknown::ALL {
            let (told, all) = (self.told[unknown.place()], self.all[unknown.place()]);
            let _ = writeln!(
                out,
                "| {} | {:.0} % | {} | {} |",
                unknown.words(),
                100.0 * told.0 as f64 / trials as f64,
                share(told),
                share(all)
            );
        }
        let sum = |cells: &[(u64, u64)]| cells.iter().fold((0, 0), |a, b| (a.0 + b.0, a.1 + b.1));
        let _ = writeln!(
            out,
            "| all of it | | {} | {} |",
            share(sum(&self.told)),
            share(sum(&self.all))
        );
        out
    }

    /// In one sentence.
    pub fn in_one(&self) -> String {
        let sum = |cells: &[(u64, u64)]| cells.iter().fold((0, 0), |a, b| (a.0 + b.0, a.1 + b.1));
        let (told, all) = (sum(&self.told), sum(&self.all));
        format!(
            "{} of {} that readings narrowed, {} of all {}; {:.0} kitchens counted.",
            share(told),
            told.0,
            share(all),
            all.0,
            self.counted / (self.trials - self.left_out).max(1) as f64
        )
    }
}

fn share((all, held): (u64, u64)) -> String {
    if all == 0 {
        return "–".to_owned();
    }
    format!("{:.1} %", 100.0 * held as f64 / all as f64)
}

/// Readings of the bakes in a kitchen, the reckoning straying anew in each.
fn noted(here: &Here, truth: &Life, number: u64) -> Vec<Vec<Reading>> {
    let mut chance = Chance::of((1 << 30) + number);
    (0..BAKES)
        .map(|bake| {
            let strains = here.strains(1000 + bake, number);
            let possible = Possible {
                life: truth,
                strains: &strains,
            };
            whole_bake(&possible, here, &mut chance)
        })
        .collect()
}

/// By the road of the command, new kitchens drawn.
pub fn taught(here: &Here, range: Range<u64>, each: EachLife<'_>) -> Taught {
    let mut taught = Taught::default();
    for number in range {
        let truth = &lives(here, FROM + number, 1, World::AsReckoned)[0];
        let bakes: Vec<Noted> = noted(here, truth, number)
            .into_iter()
            .map(|readings| Noted {
                here: here.clone(),
                readings,
            })
            .collect();
        taught.trials += 1;
        match learn(&bakes, LIVES, each).output {
            Some(learnt) => {
                taught.counted += learnt.counts.0;
                taught.compare(here, truth, &learnt.known);
            }
            None => taught.left_out += 1,
        }
    }
    taught
}
