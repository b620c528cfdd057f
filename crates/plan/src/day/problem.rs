//! A day as a puzzle in whole minutes: tasks, what lies between them, what there is only so much of.

/// Everything that a day must keep to, and what it is judged by.
///
/// Minutes are counted from the first at which anything may begin. A plan is a start for every task.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Problem {
    /// No task ends later.
    pub horizon: i32,
    /// What is done, in the order of a recipe's steps.
    pub tasks: Vec<Task>,
    /// What lies between two tasks.
    pub gaps: Vec<Gap>,
    /// What there is only so much of, for as long as a task lasts.
    pub pools: Vec<Pool>,
    /// What there is only so much of, from one task to another.
    pub shelves: Vec<Shelf>,
    /// The oven.
    pub oven: Oven,
    /// What is wanted.
    pub wishes: Vec<Wish>,
    /// Tasks for hands, one list for each day on which hands are wanted at a stretch.
    pub stretches: Vec<Vec<usize>>,
    /// Of each day: its midnight and the hour before which it is early.
    pub mornings: Vec<(i32, i32)>,
    /// Tasks of a plan that is already known, with their starts, which should move little.
    pub known: Vec<(usize, i32)>,
    /// Tasks that can change places with others, one for one, without anything else changing.
    pub alike: Vec<(Vec<usize>, Vec<usize>)>,
}

/// Something done in one go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Task {
    /// How long it lasts.
    pub lasts: i32,
    /// No earlier start.
    pub earliest: i32,
    /// No later start.
    pub latest: i32,
}

/// What lies between the starts of two tasks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Gap {
    /// The first.
    pub from: usize,
    /// The second.
    pub to: usize,
    /// At least so long from start to start.
    pub least: i32,
    /// From here on every minute is past its best.
    pub best: i32,
    /// At most so long.
    pub most: i32,
}

/// What there is only so much of.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pool {
    /// So much.
    pub capacity: i32,
    /// Who uses it.
    pub uses: Vec<Use>,
    /// When nobody can: from, to.
    pub closed: Vec<(i32, i32)>,
}

/// A task that uses a pool.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Use {
    /// Which task.
    pub task: usize,
    /// From so long after its start.
    pub after: i32,
    /// For so long.
    pub lasts: i32,
    /// So much.
    pub count: i32,
}

/// Places that are taken from the start of one task to the start of another.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shelf {
    /// So many.
    pub capacity: i32,
    /// Who stands on it.
    pub stays: Vec<Stay>,
}

/// Something that stands from one task to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stay {
    /// From the start of this task.
    pub from: usize,
    /// To the start of this one.
    pub to: usize,
    /// And so long beyond it.
    pub beyond: i32,
    /// On so many places.
    pub count: i32,
}

/// The oven: bakes, and what lies between two of them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Oven {
    /// Tasks that are bakes.
    pub bakes: Vec<usize>,
    /// Minutes from the end of one bake to the start of another, by their places in `bakes`; none
    /// when both may be in it at once.
    pub apart: Vec<Vec<Option<i32>>>,
    /// What rises in it while it is off.
    pub rises: Vec<Stay>,
    /// Minutes from the end of such a rise to a bake, by its place: it must heat.
    pub heats: Vec<i32>,
    /// Minutes from a bake to such a rise: it must cool.
    pub cools: i32,
}

/// Bread that has been ready for longer when it is wanted is no longer fresh (ours: bread for the afternoon is baked on its
/// day).
pub const FRESH_MIN: i32 = 720;

/// What is wanted of a bread.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wish {
    /// The task at whose end it is met.
    pub task: usize,
    /// By when; as soon as can be when there is none.
    pub by: Option<i32>,
}

/// What a plan costs, minutes; the first in which two plans differ decides.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cost {
    /// Of every bread that has a time, how much later it is.
    pub late: i32,
    /// Dough past its best, and bread that was ready for longer than [`FRESH_MIN`], all added.
    pub past: i32,
    /// How far tasks have moved from the plan that was known.
    pub moved: i32,
    /// When the last bread without a time is ready.
    pub last: i32,
    /// From the first work of hands to the last, all days added.
    pub span: i32,
    /// Work before the morning begins.
    pub early: i32,
    /// What could go on and waits, and bread that is ready before it is wanted.
    pub waits: i32,
}

impl Cost {
    /// So many things are weighed.
    pub const LEVELS: usize = 7;

    /// All of them in their order.
    pub const fn levels(&self) -> [i32; Self::LEVELS] {
        [
            self.late, self.past, self.moved, self.last, self.span, self.early, self.waits,
        ]
    }
}

impl Problem {
    /// When a task ends.
    pub fn ends(&self, task: usize, starts: &[i32]) -> i32 {
        starts[task] + self.tasks[task].lasts
    }

    /// What a plan costs.
    pub fn cost(&self, starts: &[i32]) -> Cost {
        let mut cost = Cost::default();
        for wish in &self.wishes {
            let ready = self.ends(wish.task, starts);
            match wish.by {
                Some(by) => {
                    cost.late += (ready - by).max(0);
                    cost.waits += (by - ready).max(0);
                }
                None => cost.last = cost.last.max(ready),
            }
        }
        cost.past += self.old(starts);
        for gap in &self.gaps {
            let between = starts[gap.to] - starts[gap.from];
            cost.past += (between - gap.best).max(0);
            cost.waits += between - gap.least;
        }
        for (task, known) in &self.known {
            cost.moved += (starts[*task] - known).abs();
        }
        for stretch in &self.stretches {
            let first = stretch.iter().map(|task| starts[*task]).min();
            let last = stretch.iter().map(|task| self.ends(*task, starts)).max();
            let (Some(first), Some(last)) = (first, last) else {
                continue;
            };
            cost.span += last - first;
            for (midnight, morning) in &self.mornings {
                if *midnight <= first && first < *morning {
                    cost.early += morning - first;
                }
            }
        }
        cost
    }

    /// By how many minutes breads are older than [`FRESH_MIN`] when they are wanted, all added.
    pub fn old(&self, starts: &[i32]) -> i32 {
        let old = |wish: &Wish| {
            let by = wish.by?;
            Some((by - FRESH_MIN - self.ends(wish.task, starts)).max(0))
        };
        self.wishes.iter().filter_map(old).sum()
    }

    /// Whether a plan keeps to everything.
    pub fn holds(&self, starts: &[i32]) -> bool {
        let tasks = self.tasks.iter().zip(starts).all(|(task, start)| {
            task.earliest <= *start && *start <= task.latest && start + task.lasts <= self.horizon
        });
        let gaps = self.gaps.iter().all(|gap| {
            let between = starts[gap.to] - starts[gap.from];
            gap.least <= between && between <= gap.most
        });
        tasks
            && gaps
            && self.pools.iter().all(|pool| pool.holds(starts))
            && self.shelves.iter().all(|shelf| shelf.holds(starts))
            && self.oven.holds(self, starts)
    }
}

impl Pool {
    fn holds(&self, starts: &[i32]) -> bool {
        self.uses.iter().all(|one| {
            let at = starts[one.task] + one.after;
            let ends = at + one.lasts;
            if one.lasts == 0 {
                return true;
            }
            let closed = self
                .closed
                .iter()
                .any(|(from, to)| at < *to && *from < ends);
            let taken: i32 = self
                .uses
                .iter()
                .filter(|other| {
                    let from = starts[other.task] + other.after;
                    from <= at && at < from + other.lasts
                })
                .map(|other| other.count)
                .sum();
            !closed && taken <= self.capacity
        })
    }
}

impl Stay {
    /// From when to when.
    pub fn during(&self, starts: &[i32]) -> (i32, i32) {
        (starts[self.from], starts[self.to] + self.beyond)
    }
}

impl Shelf {
    fn holds(&self, starts: &[i32]) -> bool {
        self.crowd(starts).is_none()
    }

    /// The first stay at whose beginning more stands there than can.
    pub fn crowd(&self, starts: &[i32]) -> Option<&Stay> {
        self.stays.iter().find(|one| {
            let (at, _) = one.during(starts);
            let taken: i32 = self
                .stays
                .iter()
                .filter(|other| {
                    let (from, to) = other.during(starts);
                    from <= at && at < to
                })
                .map(|other| other.count)
                .sum();
            taken > self.capacity
        })
    }
}

/// Two bakes that cannot be in the oven at once, by their places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Apart {
    /// The one.
    pub one: usize,
    /// The other.
    pub other: usize,
    /// Minutes from the end of the one to the start of the other.
    pub there: i32,
    /// Minutes from the end of the other to the start of the one.
    pub back: i32,
}

impl Oven {
    /// All bakes that cannot be in it at once, each two of them once.
    pub fn pairs(&self) -> impl Iterator<Item = Apart> {
        let all = (0..self.bakes.len()).flat_map(|one| (0..one).map(move |other| (one, other)));
        all.filter_map(|(one, other)| {
            Some(Apart {
                one,
                other,
                there: self.apart[one][other]?,
                back: self.apart[other][one]?,
            })
        })
    }

    /// Whether a rise in the oven is out before it heats for a bake, or goes in when it has cooled.
    pub fn cold(&self, problem: &Problem, starts: &[i32], rise: &Stay, bake: usize) -> bool {
        let (from, to) = rise.during(starts);
        let task = self.bakes[bake];
        to + self.heats[bake] <= starts[task] || problem.ends(task, starts) + self.cools <= from
    }

    fn holds(&self, problem: &Problem, starts: &[i32]) -> bool {
        let parted = self.pairs().all(|pair| {
            let (a, b) = (self.bakes[pair.one], self.bakes[pair.other]);
            problem.ends(a, starts) + pair.there <= starts[b]
                || problem.ends(b, starts) + pair.back <= starts[a]
        });
        let mut rises = self.rises.iter();
        parted
            && rises.all(|rise| {
                (0..self.bakes.len()).all(|bake| self.cold(problem, starts, rise, bake))
            })
    }
}
