//! A plan made anew until what is planned is what happens.

use super::between::{self, Between};
use super::lengths::Length;
use super::replay::{self, Replayed};
use super::slip::{self, Now};
use super::solve::{self, AtOnce, Budget, Outcome, Solved};
use super::tasks::{self, Batch, Made, Place};
use super::{Asked, ended, findings};
use bake::simulate::Follows;
use recipe::source::Diagnostic;

/// So often a plan is made anew at most.
const ROUNDS: u32 = 6;
/// Of the budget, so much is for plans; the rest for what stands in the way.
const PLANS: f64 = 0.8;

/// A plan that was baked in the machine.
pub struct Planned {
    /// The puzzle.
    pub made: Made,
    /// The plan.
    pub solved: Solved,
    /// What the machine says of each bread.
    pub replayed: Vec<Replayed>,
    /// And of rests after a hold.
    pub between: Vec<Between>,
    /// How often it was made anew.
    pub rounds: u32,
    /// Work that is done too because what follows it is.
    pub with_it: Vec<String>,
    /// Words that could have meant several things, and what they were taken as.
    pub taken: Vec<(String, Vec<usize>)>,
}

/// Plans, and plans anew until what is planned is what happens. Where it does not come to that, the last plan of
/// which all holds is taken, and without one the last.
pub fn planned<'a>(
    asked: &Asked<'a>,
    place: &Place<'a>,
    batches: &mut [Batch<'a>],
    begun: Option<(&Now, slip::Planned<'_>)>,
    budget: &mut Budget<'_>,
    at_once: Option<&AtOnce<'_>>,
) -> Result<Planned, Box<Diagnostic>> {
    let usual: Vec<_> = batches.iter().map(|batch| batch.lengths.clone()).collect();
    let by_sign = asked.follows == Follows::Cue;
    let dough = begun.and_then(|(now, _)| now.dough);
    let mut holds: Option<Planned> = None;
    let mut rounds = 0;
    loop {
        rounds += 1;
        let gone = budget();
        // Half of what is left for each round: mostly the first plan holds already.
        let left = (PLANS - gone).max(0.05);
        let share = if rounds < ROUNDS { left / 2.0 } else { left };
        let mut part = || ((budget() - gone) / share).max(0.0);
        let one = match once(asked, place, batches, begun, &mut part, at_once) {
            Ok(one) => in_time((asked, place), batches, begun, one, &mut part, at_once),
            Err(finding) => return holds.ok_or(finding),
        };
        let Once {
            made,
            solved,
            with_it,
            taken,
        } = one;
        let replayed = replay::replay(asked, batches, &usual, &made, &solved.starts, dough);
        let between = between::between(asked, batches, &usual, &made, &solved.starts, dough);
        let all_hold = replayed.iter().all(Replayed::holds) && between.iter().all(Between::holds);
        let more = rounds < ROUNDS && {
            let earlier = between::correct(batches, &usual, &between, rounds);
            replay::correct(batches, &usual, &replayed, rounds, by_sign) || earlier
        };
        let this = Planned {
            made,
            solved,
            replayed,
            between,
            rounds,
            with_it,
            taken,
        };
        if !more {
            return Ok(match holds {
                Some(before) if !all_hold => Planned { rounds, ..before },
                _ => this,
            });
        }
        if all_hold {
            holds = Some(this);
        }
    }
}

/// One plan.
struct Once {
    made: Made,
    solved: Solved,
    with_it: Vec<String>,
    taken: Vec<(String, Vec<usize>)>,
}

/// Plans once, with the lengths that there are.
fn once<'a>(
    asked: &Asked<'a>,
    place: &Place<'a>,
    batches: &[Batch<'a>],
    begun: Option<(&Now, slip::Planned<'_>)>,
    part: &mut Budget<'_>,
    at_once: Option<&AtOnce<'_>>,
) -> Result<Once, Box<Diagnostic>> {
    let mut made = tasks::tasks(place, batches, &asked.serve);
    let (mut with_it, mut taken) = (Vec::new(), Vec::new());
    if let Some((now, before)) = begun {
        let slipped = slip::slip(&mut made, batches, before, now);
        if let Some(unknown) = slipped.unknown.first() {
            return Err(Box::new(findings::done_unknown(batches, unknown)));
        }
        (with_it, taken) = (slipped.with_it, slipped.taken);
    }
    let mut outcome = solve::solve_with(&made.problem, part, at_once);
    if begun.is_some() && outcome == Outcome::None {
        // What is under way cannot be given up: rather past its best than not at all.
        slip::loosen(&mut made);
        outcome = solve::solve_with(&made.problem, part, at_once);
    }
    match outcome {
        Outcome::Plan(solved) => Ok(Once {
            made,
            solved,
            with_it,
            taken,
        }),
        other => Err(Box::new(findings::no_plan(&other))),
    }
}

/// The same plan, or the one in which rests end a little before their sign while hands are still there, where less
/// comes late or stands past its best for it.
fn in_time<'a>(
    (asked, place): (&Asked<'a>, &Place<'a>),
    batches: &mut [Batch<'a>],
    begun: Option<(&Now, slip::Planned<'_>)>,
    one: Once,
    part: &mut Budget<'_>,
    at_once: Option<&AtOnce<'_>>,
) -> Once {
    let mut best = one;
    for sooner in ended::sooner(batches, &best.made, &best.solved.starts) {
        let length: &mut Length = &mut batches[sooner.batch].lengths[sooner.step];
        let usual = std::mem::replace(length, sooner.length);
        let harm = |one: &Once| (one.solved.cost.late, one.solved.cost.past);
        match once(asked, place, batches, begun, part, at_once) {
            Ok(other) if harm(&other) < harm(&best) => best = other,
            _ => batches[sooner.batch].lengths[sooner.step] = usual,
        }
    }
    best
}
