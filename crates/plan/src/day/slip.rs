//! When the day slips: what is done is done, and the rest moves as little as it can.

use super::done::{self, Unknown};
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
    /// What is done: the step's number on the page, its word in the recipe file, or the plan's own words.
    pub step: String,
    /// Whose, where that is said before it: a recipe, or a bread.
    pub whose: Option<String>,
}

/// What came of what was said.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Slipped {
    /// What is named and is not of this day.
    pub unknown: Vec<Unknown>,
    /// What was said could have meant several things: the words, and what it is taken as, by its task.
    pub taken: Vec<(String, Vec<usize>)>,
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
        // A fold comes sooner rather than in the morning.
        if made.about[gap.to].within {
            gap.least /= 2;
        }
    }
}

/// The plan of a day until it slipped.
#[derive(Clone, Copy, Debug)]
pub struct Planned<'a> {
    /// The starts of its tasks.
    pub starts: &'a [i32],
    /// Whether it was written down: then what is done was done by its clock.
    pub kept: bool,
}

/// Puts what is done where it was, and everything else after now.
///
/// Gives the names that are no step, and the work that is done with what was named though its time had not
/// come.
pub fn slip(made: &mut Made, batches: &[Batch<'_>], before: Planned<'_>, now: &Now) -> Slipped {
    let planned = before.starts;
    let named = done::named(made, batches, planned, now);
    let mut with_it: Vec<String> = Vec::new();
    let mut pinned: Vec<Option<i32>> = vec![None; planned.len()];
    let mut ended_now: Vec<usize> = Vec::new();
    for own in &named.tasks {
        let all = behind(made, own);
        // What was named last ended now.
        let ends = own.iter().map(|task| made.problem.ends(*task, planned));
        let by = ends.max().map_or(0, |ends| now.minute - ends);
        for task in &all {
            let about = &made.about[*task];
            let early = made.problem.ends(*task, planned) > now.minute;
            let work = about.kind == Kind::Work && !own.contains(task);
            if early && work && !with_it.contains(&about.words) {
                with_it.push(about.words.clone());
            }
            pinned[*task] = Some(planned[*task] + by);
        }
        if before.kept {
            // A rest that is over now was longer or shorter than planned: it began when it did.
            let rests = own.iter().filter(|task| {
                made.about[**task].kind == Kind::Stands && planned[**task] < now.minute
            });
            for rest in rests {
                pinned[*rest] = Some(planned[*rest]);
                ended_now.push(*rest);
            }
            by_its_clock(made, planned, own, &all, &mut pinned);
        }
    }
    for rest in ended_now {
        let stood = now.minute - pinned[rest].unwrap_or(now.minute);
        let lasts = &mut made.problem.tasks[rest].lasts;
        *lasts = (*lasts).min(stood);
        let follows = made.problem.gaps.iter_mut();
        for gap in follows.filter(|gap| gap.from == rest && !made.about[gap.to].within) {
            gap.least = gap.least.min(stood);
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
    let (behind, ahead) = std::mem::take(&mut problem.gaps)
        .into_iter()
        .partition(|gap| done(gap.from) && done(gap.to));
    problem.gaps = ahead;
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
        let (from, to) = (&made.about[gap.from], &made.about[gap.to]);
        // From the hands a dough goes at once to where it stands: nothing has to be waited for.
        let at_once = from.kind != Kind::Stands && matches!(to.kind, Kind::Stands | Kind::Cools);
        if let Some(start) = pinned[gap.from] {
            let gone = now.minute - start;
            if at_once && gone <= gap.most {
                continue;
            }
            gap.most = gap.most.max(gone + super::tasks::HANDLING_MIN * 60);
        }
    }
    made.behind = behind;
    ended(made, &pinned);
    Slipped {
        unknown: named.unknown,
        taken: named.taken,
        with_it,
    }
}

/// Of what is done only what was named last ended now: what came before it was done by the clock of the plan, or
/// before what followed it.
fn by_its_clock(
    made: &Made,
    planned: &[i32],
    named: &[usize],
    all: &[usize],
    pinned: &mut [Option<i32>],
) {
    let gaps = || {
        let gaps = made.problem.gaps.iter();
        gaps.filter(|gap| all.contains(&gap.from) && all.contains(&gap.to))
    };
    let mut before: Vec<usize> = Vec::new();
    let mut next: Vec<usize> = named.to_vec();
    while let Some(task) = next.pop() {
        for gap in gaps().filter(|gap| gap.to == task) {
            if !before.contains(&gap.from) {
                before.push(gap.from);
                next.push(gap.from);
            }
        }
    }
    let mut open: Vec<usize> = all
        .iter()
        .copied()
        .filter(|task| !named.contains(task) || before.contains(task))
        .collect();
    // What follows something has the higher place, so from behind everything is asked once.
    open.sort_unstable();
    for task in open.iter().rev() {
        let kind = |task: usize| made.about[task].kind;
        let follows = gaps().filter(|gap| gap.from == *task && !made.within(gap));
        let follows = follows.filter_map(|gap| Some((gap, pinned[gap.to]?)));
        let (mut earliest, mut latest) = (i32::MIN, i32::MAX);
        for (gap, to) in follows {
            // A rest may have been shorter than planned; everything else takes its time.
            let shorter = kind(*task) == Kind::Stands && planned[*task] < to;
            latest = latest.min(if shorter { to } else { to - gap.least });
            // Work upon work was done in one go, as late as the last of it.
            if kind(*task) == Kind::Work && kind(gap.to) == Kind::Work {
                earliest = earliest.max(to - gap.best);
            }
        }
        pinned[*task] = Some(planned[*task].max(earliest).min(latest));
    }
    // A fold was in its rise, as far into it as planned, if that was not over.
    for gap in gaps().filter(|gap| made.within(gap) && open.contains(&gap.to)) {
        let Some(rest) = pinned[gap.from] else {
            continue;
        };
        let at = planned[gap.to] + (rest - planned[gap.from]).min(0);
        let lasts = made.problem.tasks[gap.to].lasts;
        let ends = rest_ends(made, gap.from, pinned);
        let last = ends.map_or(at, |ends| (ends - lasts).max(rest));
        pinned[gap.to] = Some(at.min(last));
    }
}

/// When a rest that is done was over: when what follows it began.
fn rest_ends(made: &Made, rest: usize, pinned: &[Option<i32>]) -> Option<i32> {
    let follows = made
        .gaps()
        .filter(|gap| gap.from == rest && !made.within(gap));
    follows.filter_map(|gap| pinned[gap.to]).min()
}

/// A rest that is done and was shorter than it is planned took as long as it was given.
fn ended(made: &mut Made, pinned: &[Option<i32>]) {
    for task in 0..pinned.len() {
        let (Some(begins), Kind::Stands) = (pinned[task], made.about[task].kind) else {
            continue;
        };
        if let Some(ends) = rest_ends(made, task, pinned) {
            let lasts = &mut made.problem.tasks[task].lasts;
            *lasts = (*lasts).min((ends - begins).max(0));
        }
    }
}

/// What is done with what was named: everything before it, and what was to happen within a rest that is over.
fn behind(made: &Made, named: &[usize]) -> Vec<usize> {
    let gaps = &made.problem.gaps;
    let mut all = named.to_vec();
    let mut next = 0;
    while let Some(task) = all.get(next).copied() {
        next += 1;
        for gap in gaps.iter().filter(|gap| gap.to == task) {
            if !all.contains(&gap.from) {
                all.push(gap.from);
            }
        }
    }
    let over = |rest: usize| {
        let mut follows = gaps
            .iter()
            .filter(|gap| gap.from == rest && !made.within(gap));
        named.contains(&rest) || follows.any(|gap| all.contains(&gap.to))
    };
    // Of a rest that goes on only what comes before something that is done.
    let last = |rest: usize| {
        let within = gaps
            .iter()
            .filter(|gap| gap.from == rest && made.within(gap));
        within.map(|gap| gap.to).filter(|to| all.contains(to)).max()
    };
    let within: Vec<usize> = gaps
        .iter()
        .filter(|gap| all.contains(&gap.from) && made.within(gap) && !all.contains(&gap.to))
        .filter(|gap| over(gap.from) || last(gap.from).is_some_and(|last| gap.to < last))
        .map(|gap| gap.to)
        .collect();
    all.extend(within);
    all
}
