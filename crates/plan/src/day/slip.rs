//! When the day slips: what is done is done, and the rest moves as little as it can.

use super::tasks::{Batch, Made};
use crate::timetable::Kind;
use numerics::quantity::Temperature;

/// What is true now.
#[derive(Clone, Debug, PartialEq)]
pub struct Now {
    /// The minute that it is.
    pub minute: i32,
    /// What is done just now, with everything before it.
    pub done: Vec<Done>,
    /// What the dough of the products reads after its mix, when somebody measured it.
    pub dough: Option<Temperature>,
}

/// A step that is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Done {
    /// Of which batch; every one when it is not said.
    pub batch: Option<usize>,
    /// What is done: the step's number on the page, or its word in the recipe file, the last of its kind.
    pub step: String,
    /// Of which product; of the stages when it is not said.
    pub product: Option<String>,
}

/// What came of what was said.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Slipped {
    /// Names that are no step.
    pub unknown: Vec<String>,
    /// Work that must be done too because what follows it is, in a cook's words.
    pub with_it: Vec<String>,
}

/// What has moved against the plan before: of every step that is not done, by how much earlier or later it begins.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Moved {
    /// All minutes added.
    pub total: i32,
    /// How many steps begin earlier or later.
    pub steps: u32,
    /// The most that one of them does.
    pub most: i32,
    /// How much later the last bread is ready; below zero when earlier.
    pub last: i32,
    /// Whether the plan before was written down, and not worked out anew.
    pub kept: bool,
}

/// Holds a plan against the one before it: of each its puzzle and its starts.
pub fn moved(before: (&Made, &[i32]), now: (&Made, &[i32])) -> Moved {
    let open = now.0.problem.known.iter().map(|(task, _)| *task);
    let by: Vec<i32> = open
        .map(|task| (now.1[task] - before.1[task]).abs())
        .filter(|by| *by > 0)
        .collect();
    let last = |(made, starts): (&Made, &[i32])| {
        let wishes = made.problem.wishes.iter();
        wishes
            .map(|wish| made.problem.ends(wish.task, starts))
            .max()
    };
    Moved {
        total: by.iter().sum(),
        steps: u32::try_from(by.len()).unwrap_or(u32::MAX),
        most: by.iter().copied().max().unwrap_or(0),
        last: last(now).unwrap_or(0) - last(before).unwrap_or(0),
        kept: false,
    }
}

/// Lets every dough that stands wait for a night longer: past its best, where nothing else can be.
pub fn loosen(made: &mut Made) {
    const NIGHT_MIN: i32 = 12 * 60;
    for gap in &mut made.problem.gaps {
        if made.about[gap.from].kind == Kind::Stands {
            gap.most += NIGHT_MIN;
        }
    }
}

/// Tasks that are done by their place in the puzzle, and those that were named.
struct Behind {
    all: Vec<usize>,
    named: Vec<usize>,
}

/// Puts what is done where it was, and everything else after now; `planned`: the starts of the plan so far.
///
/// Gives the names that are no step, and the work that is done with what was named though its time had not
/// come.
pub fn slip(made: &mut Made, batches: &[Batch<'_>], planned: &[i32], now: &Now) -> Slipped {
    let mut unknown = Vec::new();
    let mut with_it: Vec<String> = Vec::new();
    let mut pinned: Vec<Option<i32>> = vec![None; planned.len()];
    for (batch, own) in batches.iter().enumerate() {
        let named: Vec<&Done> = now
            .done
            .iter()
            .filter(|done| done.batch.is_none_or(|wanted| wanted == batch))
            .collect();
        let behind = behind(made, batch, own, &named, &mut unknown);
        // What was named last ended now; what came before it lies before it as it was planned.
        let ends = behind
            .named
            .iter()
            .map(|task| made.problem.ends(*task, planned))
            .max();
        let by = ends.map_or(0, |ends| now.minute - ends);
        for task in behind.all {
            let about = &made.about[task];
            let early = made.problem.ends(task, planned) > now.minute;
            let work = about.kind == Kind::Work && !behind.named.contains(&task);
            if early && work && !with_it.contains(&about.words) {
                with_it.push(about.words.clone());
            }
            pinned[task] = Some(planned[task] + by);
        }
    }
    let problem = &mut made.problem;
    for (task, pin) in pinned.iter().enumerate() {
        let own = &mut problem.tasks[task];
        match pin {
            Some(start) => {
                own.earliest = *start;
                own.latest = *start;
            }
            None => own.earliest = own.earliest.max(now.minute),
        }
    }
    // An oven that was not to heat yet is cold.
    for (place, bake) in problem.oven.bakes.iter().enumerate() {
        let heats = problem.oven.heats[place];
        if pinned[*bake].is_none() {
            let cold = planned[*bake] - heats >= now.minute;
            let earliest = if cold {
                now.minute + heats
            } else {
                planned[*bake]
            };
            let task = &mut problem.tasks[*bake];
            task.earliest = task.earliest.max(earliest.min(task.latest));
        }
    }
    let done = |task: usize| pinned[task].is_some();
    // What lies behind was as it was, whatever hours were closed or gaps were kept.
    for pool in &mut problem.pools {
        pool.uses.retain(|one| !done(one.task));
    }
    problem.alike.clear();
    for shelf in &mut problem.shelves {
        shelf
            .stays
            .retain(|stay| !(done(stay.from) && done(stay.to)));
    }
    let oven = &mut problem.oven;
    oven.rises
        .retain(|rise| !(done(rise.from) && done(rise.to)));
    for (one, row) in oven.apart.iter_mut().enumerate() {
        for (other, apart) in row.iter_mut().enumerate() {
            if done(oven.bakes[one]) && done(oven.bakes[other]) {
                *apart = None;
            }
        }
    }
    problem.gaps.retain(|gap| !(done(gap.from) && done(gap.to)));
    problem
        .stretches
        .iter_mut()
        .for_each(|stretch| stretch.retain(|task| !done(*task)));
    problem.known = (0..planned.len())
        .filter(|task| !done(*task))
        .map(|task| (task, planned[task].max(now.minute)))
        .collect();
    // A rest that is under way may be past its time already: then what follows comes now.
    for gap in &mut problem.gaps {
        if let Some(start) = pinned[gap.from] {
            let gone = now.minute - start;
            gap.most = gap.most.max(gone + super::tasks::HANDLING_MIN * 60);
        }
    }
    Slipped { unknown, with_it }
}

fn behind(
    made: &Made,
    batch: usize,
    own: &Batch<'_>,
    done: &[&Done],
    unknown: &mut Vec<String>,
) -> Behind {
    let mut named = Vec::new();
    for one in done {
        let found = (0..made.about.len()).rev().find(|task| {
            let about = &made.about[*task];
            let Some(step) = super::lengths::steps(own.recipe).nth(about.step) else {
                return false;
            };
            let word = step.action.word().eq_ignore_ascii_case(&one.step)
                || one.step.parse() == Ok(about.step + 1);
            let of = match (&one.product, about.product) {
                (Some(name), Some((product, _))) => own.recipe.products[product]
                    .name
                    .value
                    .eq_ignore_ascii_case(name),
                (None, product) => product.is_none() || one.step.parse::<usize>().is_ok(),
                (Some(_), None) => false,
            };
            about.batch == batch && word && of && in_dough(own, about.step, one)
        });
        match found {
            Some(task) => named.push(task),
            None => unknown.push(one.step.clone()),
        }
    }
    let mut all = named.clone();
    let mut next = 0;
    while let Some(task) = all.get(next).copied() {
        next += 1;
        for gap in &made.problem.gaps {
            if gap.to == task && !all.contains(&gap.from) {
                all.push(gap.from);
            }
        }
        // What was to happen within a rest that is over is over too.
        if made.about[task].kind == Kind::Stands {
            let ends = made.problem.tasks[task].lasts;
            for gap in &made.problem.gaps {
                let within = gap.from == task && gap.least < ends;
                if within && !all.contains(&gap.to) {
                    all.push(gap.to);
                }
            }
        }
    }
    Behind { all, named }
}

/// A word without a product means the dough that products are cut from, not a filling beside it.
fn in_dough(own: &Batch<'_>, step: usize, done: &Done) -> bool {
    if done.product.is_some() || done.step.parse::<usize>().is_ok() {
        return true;
    }
    let mut first = 0;
    for stage in &own.recipe.stages {
        let last = first + stage.steps.len();
        if (first..last).contains(&step) {
            let mut products = own.recipe.products.iter();
            return products
                .any(|product| product.from.value.eq_ignore_ascii_case(&stage.name.value));
        }
        first = last;
    }
    false
}
