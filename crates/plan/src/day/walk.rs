//! Other orders of a plan gone through by chance: each step turns something round, each round makes a dough change its place.
//!
//! Each try moves something, takes the orders that come of it, and asks for the best plan that has them. What is
//! worse is gone on from too, the seldomer the worse and the later (simulated annealing). Small turns alone do not
//! bring a dough past another in the oven, as everything between would be worse; so in most rounds one dough comes
//! there at once, and a short walk puts the rest right before the plan is judged.
//! Chance is a stream of numbers, so the same puzzle is looked through in the same way each time; how long is a count
//! and no clock.

use super::anew::Anew;
use super::chance::Chance;
use super::eased::Easing;
use super::problem::{Cost, Problem};
use super::ties::Pull;
use super::turns::Turns;
use numerics::math::{exp, ln};

/// A walk of so many tries becomes colder from so much.
#[derive(Clone, Copy, Debug)]
struct Cooling {
    tries: u32,
    /// How much worse a plan may well be at first, in minutes of waits.
    warm: f64,
    /// How cold it becomes: e to this power.
    colder: f64,
    /// What a minute of waits weighs beside what weighs more.
    waits: f64,
    /// So many times orders that cannot be together are turned round.
    mends: u32,
}

/// From the best plan (ours; 1500 minutes were worse).
const LONG: Cooling = Cooling {
    tries: 4000,
    warm: 300.0,
    colder: -5.0,
    waits: 1.0,
    mends: 0,
};
/// After a dough has changed its place (ours; walks of 400 and of 2000 tries were worse).
const SHORT: Cooling = Cooling {
    tries: 1000,
    warm: 100.0,
    colder: -3.0,
    waits: 0.3,
    mends: 4,
};
/// How much worse a plan may well be after a dough has changed its place, in minutes of waits (ours).
const WARM: f64 = 100.0;
/// After so many of them all begins anew from the plan that was given (ours): what a plan hangs on is settled by then.
const ANEW: u32 = 50;
/// What a minute of each thing weighs while orders are tried, in minutes of waits: enough to lead there (ours). The
/// best plan is kept by what decides first.
const WEIGHTS: [f64; Cost::LEVELS - 1] = [1000.0, 300.0, 100.0, 30.0, 10.0, 3.0];
/// So many times orders that cannot be together are turned round after a dough has changed its place (ours).
const MENDS: u32 = 60;

/// A puzzle of so many tasks is large; smaller ones are proven best in a blink (measured here).
pub const LARGE: usize = 80;
/// So many doughs change their places before parts of a first plan are laid out anew (measured here: 8 left it at 670 to 800
/// minutes at a stretch, 20 at 648 to 685).
const FIRST: u32 = 20;
/// And so many of the best plan, before it is tried again (ours).
const AGAIN: u32 = 5;
/// So many parts in a row are laid out anew in vain before that is given up (ours).
const IN_VAIN: u32 = 12;
/// After so many of them in vain there is a walk (ours).
const BETWEEN: u32 = 3;

/// What a walk begins from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum From {
    /// A plan that was searched for: it is made better by small turns.
    Good,
    /// A first plan: its doughs lie anyhow.
    First,
    /// The same, from which another walk goes too.
    FirstToo,
    /// A plan that was searched for, from which another walk goes too.
    Beside,
    /// The same, in the last of the time.
    Last,
    /// A plan of which the waits alone are to become shorter.
    Waits,
}

/// A plan with what it costs.
type Plan = (Cost, Vec<i32>);

/// Walks through the orders of one puzzle.
#[derive(Debug)]
pub struct Walk<'a> {
    problem: &'a Problem,
    easing: Easing<'a>,
    turns: Turns<'a>,
    chance: Chance,
    pulls: Vec<Pull>,
    /// Of a large puzzle, parts are laid out anew by the solver.
    anew: Option<Anew<'a>>,
    from: From,
}

impl<'a> Walk<'a> {
    /// None when the puzzle is too large to be weighed so. Each stream of chance is another walk.
    pub fn new(problem: &'a Problem, from: From, least: [i32; Cost::LEVELS]) -> Option<Self> {
        Some(Self {
            problem,
            easing: Easing::new(problem)?,
            turns: Turns::new(problem),
            chance: Chance(from as u64),
            pulls: Vec::new(),
            anew: (problem.tasks.len() >= LARGE).then(|| Anew::new(problem, least)),
            from,
        })
    }

    /// A plan that is no worse, after other orders were tried until so many in a row were no gain (of a large puzzle without
    /// an end) or nobody lets it go on.
    pub fn best(
        &mut self,
        starts: Vec<i32>,
        fruitless: u32,
        go_on: &mut dyn FnMut() -> bool,
    ) -> Vec<i32> {
        let given = (self.problem.cost(&starts), starts);
        if self.anew.is_some() {
            return self.best_of_large(&given, go_on);
        }
        let mut best = given.clone();
        let mut now = given.clone();
        let (mut since, mut round) = (0, 0);
        let mut going = true;
        while going && since < fruitless {
            let mut go_on = || {
                since += 1;
                going = go_on();
                going
            };
            round += 1;
            // Every other round is a long walk from the best plan.
            if round % 2 == 0 {
                let found = self.walk(best.clone(), LONG, &mut go_on);
                if found.0 < best.0 {
                    since = 0;
                    (now, best) = (found.clone(), found);
                }
                continue;
            }
            let other = if round % ANEW == 1 {
                now.clone_from(&given);
                Some(given.clone())
            } else {
                // Counted, so that it ends where nothing can be moved.
                go_on();
                self.jumped(&now.1)
            };
            let Some(other) = other else { continue };
            let found = self.walk(other, SHORT, &mut go_on);
            let worse = weight(&found.0, SHORT) - weight(&now.0, SHORT);
            if found.0 < best.0 {
                best.clone_from(&found);
                since = 0;
            }
            if worse <= -WARM * ln(self.chance.share()) {
                now = found;
            }
        }
        best.1
    }

    /// The same for a large puzzle: doughs change places until it is settled which comes when, then parts are laid out anew
    /// until nothing more comes of it, and so again, from the plan that was given or from the best.
    fn best_of_large(&mut self, given: &Plan, go_on: &mut dyn FnMut() -> bool) -> Vec<i32> {
        let mut best = given.clone();
        let mut cycle = 0;
        loop {
            let first = matches!(self.from, From::First | From::FirstToo);
            let found = match cycle {
                _ if self.from == From::Waits => self.walk(best.clone(), LONG, go_on),
                0 if !first => self.settled(given.clone(), go_on),
                _ => {
                    let changed = if first && cycle % 2 == 0 {
                        self.changed(given.clone(), FIRST, go_on)
                    } else {
                        self.changed(best.clone(), AGAIN, go_on)
                    };
                    self.settled(changed, go_on)
                }
            };
            if found.0 < best.0 {
                best = found;
            }
            cycle += 1;
            if !go_on() {
                return best.1;
            }
        }
    }

    /// So many doughs change their places, one after another.
    fn changed(&mut self, from: Plan, rounds: u32, go_on: &mut dyn FnMut() -> bool) -> Plan {
        let mut now = self.walk(from, SHORT, go_on);
        let mut best: Option<Plan> = None;
        let mut round = 0;
        while round < rounds && go_on() {
            let Some(other) = self.jumped(&now.1) else {
                continue;
            };
            round += 1;
            let found = self.walk(other, SHORT, go_on);
            let worse = weight(&found.0, SHORT) - weight(&now.0, SHORT);
            if best.as_ref().is_none_or(|best| found.0 < best.0) {
                best = Some(found.clone());
            }
            if worse <= -WARM * ln(self.chance.share()) {
                now = found;
            }
        }
        best.unwrap_or(now)
    }

    /// What comes of a plan when its parts are laid out anew until so many in a row were no gain, with walks in between.
    fn settled(&mut self, from: Plan, go_on: &mut dyn FnMut() -> bool) -> Plan {
        let mut now = from;
        let mut since = 0;
        while since < IN_VAIN && go_on() {
            since += 1;
            let anew = self.anew.as_mut();
            let found = anew.and_then(|anew| anew.better(&now.1, &now.0, &mut self.chance, go_on));
            if let Some(starts) = found {
                let cost = self.problem.cost(&starts);
                now = self.easing.best(&starts).unwrap_or((cost, starts));
                since = 0;
            } else if since % BETWEEN == 0 {
                let cooling = Cooling {
                    tries: LONG.tries / 2,
                    ..LONG
                };
                let found = self.walk(now.clone(), cooling, go_on);
                if found.0 < now.0 {
                    now = found;
                    since = 0;
                }
            }
        }
        now
    }

    /// A dough comes before or after another one in the oven, or two change places; none when that is no plan.
    fn jumped(&mut self, starts: &[i32]) -> Option<Plan> {
        let mut other = starts.to_vec();
        self.turns.jump(&mut other, &mut self.chance);
        self.mended(&mut other, MENDS)
    }

    /// The best plan seen from one on while it becomes colder.
    fn walk(&mut self, from: Plan, cooling: Cooling, go_on: &mut dyn FnMut() -> bool) -> Plan {
        let mut now = from;
        self.pulls.clear();
        if let Some(eased) = self.easing.best(&now.1).filter(|eased| eased.0 <= now.0) {
            self.easing.keep(&mut self.pulls);
            now = eased;
        }
        let mut best = now.clone();
        let mut other = Vec::new();
        for tried in 0..cooling.tries {
            if !go_on() {
                break;
            }
            let gone = f64::from(tried) / f64::from(cooling.tries);
            let warmth = cooling.warm * exp(cooling.colder * gone);
            other.clone_from(&now.1);
            let moved = self.turns.turn(&mut other, &self.pulls, &mut self.chance);
            if moved && self.chance.below(4) == 0 {
                self.turns.turn(&mut other, &self.pulls, &mut self.chance);
            }
            if !moved || other == now.1 {
                continue;
            }
            let Some(found) = self.mended(&mut other, cooling.mends) else {
                continue;
            };
            if weight(&found.0, cooling) - weight(&now.0, cooling)
                <= -warmth * ln(self.chance.share())
            {
                self.easing.keep(&mut self.pulls);
                if found.0 < best.0 {
                    best.clone_from(&found);
                }
                now = found;
            }
        }
        best
    }

    /// The best plan in the orders of something that was moved; where they cannot be together, those are turned round
    /// that stand in its way, at most so many.
    fn mended(&mut self, starts: &mut [i32], most: u32) -> Option<Plan> {
        for _ in 0..most {
            if let Some(found) = self.easing.best(starts) {
                return Some(found);
            }
            let ring = self.easing.ring();
            if !self.turns.mend(starts, ring, &mut self.chance) {
                return None;
            }
        }
        self.easing.best(starts)
    }
}

/// What a plan weighs while orders are tried.
fn weight(cost: &Cost, cooling: Cooling) -> f64 {
    let levels = cost.levels().into_iter().zip(WEIGHTS);
    let more: f64 = levels
        .map(|(level, weighs)| f64::from(level) * weighs)
        .sum();
    more + cooling.waits * f64::from(cost.waits)
}
