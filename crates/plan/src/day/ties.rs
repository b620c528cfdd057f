//! A plan whose orders stay, as ties between moments: what must lie between two of them, and what it costs when it
//! does not.

use super::bounds::Bounds;
use super::problem::{Cost, Pool, Problem, Shelf, Stay};

/// A tie from one moment to another: each minute by which the second comes less than `least` after the first costs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tie {
    /// The first.
    pub from: usize,
    /// The second.
    pub to: usize,
    /// At least so long after it.
    pub least: i32,
    /// What a minute less costs.
    pub costs: i64,
}

/// What is tied: the starts of all tasks, then the first and the last moment of every stretch of work, when the last
/// bread without a time is ready, and at the end minute 0.
#[derive(Debug)]
pub struct Ties<'a> {
    problem: &'a Problem,
    /// What holds whatever comes first.
    always: Vec<Tie>,
    /// Those, and what holds in one order.
    all: Vec<Tie>,
    weights: Weights,
    stretches: Vec<&'a [usize]>,
    ready: usize,
    zero: usize,
}

/// What a minute of each thing weighs, so that all of what weighs less never weighs as much.
#[derive(Clone, Copy, Debug)]
struct Weights {
    levels: [i64; Cost::LEVELS],
    must: i64,
}

impl Weights {
    /// None when it does not fit into a number.
    fn new(problem: &Problem) -> Option<Self> {
        let stretches = problem.stretches.len();
        let terms = [
            problem.wishes.len(),
            problem.gaps.len(),
            2 * problem.known.len(),
            1,
            2 * stretches,
            stretches,
            problem.gaps.len() + problem.wishes.len(),
        ];
        let mut levels = [1; Cost::LEVELS];
        let mut weight: i64 = 1;
        for level in (0..Cost::LEVELS).rev() {
            levels[level] = weight;
            let terms = i64::try_from(terms[level]).ok()?;
            weight = weight.checked_mul(1 + terms)?;
        }
        // All ties pulled at once still fit.
        weight.checked_mul(1 << 20)?;
        Some(Self {
            levels,
            must: weight,
        })
    }
}

/// Something that takes a place from one moment to another, as it lies now.
struct Held {
    from: usize,
    after: i32,
    to: usize,
    beyond: i32,
    count: i32,
    key: (i32, i32),
    ends: i32,
}

const LATE: usize = 0;
const PAST: usize = 1;
const MOVED: usize = 2;
const LAST: usize = 3;
const SPAN: usize = 4;
const EARLY: usize = 5;
const WAITS: usize = 6;

impl<'a> Ties<'a> {
    /// Of a puzzle; none when it is too large to be weighed so.
    pub fn new(problem: &'a Problem) -> Option<Self> {
        let stretches: Vec<&[usize]> = problem
            .stretches
            .iter()
            .map(Vec::as_slice)
            .filter(|tasks| !tasks.is_empty())
            .collect();
        let ready = problem.tasks.len() + 2 * stretches.len();
        let mut ties = Self {
            problem,
            always: Vec::new(),
            all: Vec::new(),
            weights: Weights::new(problem)?,
            stretches,
            ready,
            zero: ready + 1,
        };
        ties.of_tasks();
        ties.of_wishes();
        ties.of_work();
        ties.always = std::mem::take(&mut ties.all);
        Some(ties)
    }

    /// So many moments.
    pub const fn moments(&self) -> usize {
        self.zero + 1
    }

    /// What a minute of what must be weighs: ties of this weight that are too short are no plan.
    pub const fn must(&self) -> i64 {
        self.weights.must
    }

    /// Ties of the orders in which tasks lie, and every moment where it is.
    ///
    /// Where two that cannot be at once do lie at once, the one whose middle comes first is first.
    pub fn lie(&mut self, starts: &[i32], moments: &mut Vec<i32>) -> &[Tie] {
        self.all.clone_from(&self.always);
        let problem = self.problem;
        for pool in &problem.pools {
            self.pool(pool, starts);
        }
        for shelf in &problem.shelves {
            self.shelf(shelf, starts);
        }
        self.oven(starts);
        self.moments_of(starts, moments);
        for (place, stretch) in self.stretches.clone().into_iter().enumerate() {
            let moment = problem.tasks.len() + 2 * place;
            self.morning(stretch, starts, moments[moment], moment);
        }
        &self.all
    }

    /// Every moment of a plan.
    fn moments_of(&self, starts: &[i32], moments: &mut Vec<i32>) {
        let problem = self.problem;
        moments.clear();
        moments.extend_from_slice(starts);
        for stretch in &self.stretches {
            let first = stretch.iter().map(|task| starts[*task]).min();
            let last = stretch.iter().map(|task| problem.ends(*task, starts)).max();
            moments.extend([first.unwrap_or(0), last.unwrap_or(0)]);
        }
        let soonest = problem.wishes.iter().filter(|wish| wish.by.is_none());
        let ready = soonest.map(|wish| problem.ends(wish.task, starts)).max();
        moments.extend([ready.unwrap_or(0), 0]);
    }

    /// Ties of the orders that were asked for last: first those that are always there.
    pub fn now(&self) -> &[Tie] {
        &self.all
    }

    /// Ties that hold whatever comes first.
    pub fn always(&self) -> &[Tie] {
        &self.always
    }

    fn tie(&mut self, from: usize, to: usize, least: i32, costs: i64) {
        self.all.push(Tie {
            from,
            to,
            least,
            costs,
        });
    }

    fn must_lie(&mut self, from: usize, to: usize, least: i32) {
        self.tie(from, to, least, self.weights.must);
    }

    fn weight(&self, level: usize) -> i64 {
        self.weights.levels[level]
    }

    fn of_tasks(&mut self) {
        let problem = self.problem;
        let latest = |task: usize| {
            let own = problem.tasks[task];
            own.latest.min(problem.horizon - own.lasts)
        };
        for (task, own) in problem.tasks.iter().enumerate() {
            // What the task before it or after it says already is not said again.
            let before = problem.gaps.iter().filter(|gap| gap.to == task);
            let mut before = before.map(|gap| problem.tasks[gap.from].earliest + gap.least);
            if before.all(|earliest| earliest < own.earliest) {
                self.must_lie(self.zero, task, own.earliest);
            }
            let after = problem.gaps.iter().filter(|gap| gap.from == task);
            let mut after = after.map(|gap| latest(gap.to) - gap.least);
            if after.all(|other| other > latest(task)) {
                self.must_lie(task, self.zero, -latest(task));
            }
        }
        for gap in &problem.gaps {
            self.must_lie(gap.from, gap.to, gap.least);
            self.must_lie(gap.to, gap.from, -gap.most);
            if gap.best < gap.most {
                self.tie(gap.to, gap.from, -gap.best, self.weight(PAST));
            }
            self.tie(gap.to, gap.from, -gap.least, self.weight(WAITS));
        }
        for (task, known) in &problem.known {
            self.tie(self.zero, *task, *known, self.weight(MOVED));
            self.tie(*task, self.zero, -known, self.weight(MOVED));
        }
    }

    fn of_wishes(&mut self) {
        let problem = self.problem;
        for wish in &problem.wishes {
            let lasts = problem.tasks[wish.task].lasts;
            match wish.by {
                Some(by) => {
                    self.tie(wish.task, self.zero, lasts - by, self.weight(LATE));
                    self.tie(self.zero, wish.task, by - lasts, self.weight(WAITS));
                }
                None => self.must_lie(wish.task, self.ready, lasts),
            }
        }
        self.tie(self.ready, self.zero, 0, self.weight(LAST));
    }

    fn of_work(&mut self) {
        let bounds = Bounds::new(self.problem);
        for (place, stretch) in self.stretches.clone().into_iter().enumerate() {
            let first = self.problem.tasks.len() + 2 * place;
            let last = first + 1;
            let lasts = |task: usize| self.problem.tasks[task].lasts;
            let way = |one: usize, other: usize| bounds.way(one, other).filter(|_| one != other);
            for task in stretch {
                // What comes after other work of it is not first; what comes before it is not last.
                let after = |other: &usize| way(*other, *task).is_some_and(|way| way >= 0);
                if !stretch.iter().any(after) {
                    self.must_lie(first, *task, 0);
                }
                let before = |other: &usize| {
                    way(*task, *other).is_some_and(|way| way + lasts(*other) >= lasts(*task))
                };
                if !stretch.iter().any(before) {
                    self.must_lie(*task, last, lasts(*task));
                }
            }
            self.tie(last, first, 0, self.weight(SPAN));
        }
    }

    /// Work that begins before the morning is early; it stays on the day on which it begins.
    fn morning(&mut self, stretch: &[usize], starts: &[i32], first: i32, moment: usize) {
        let problem = self.problem;
        let mornings = &problem.mornings;
        // On one day, from midnight to midnight, that is convex.
        let day = mornings.iter().filter(|(midnight, _)| *midnight <= first);
        if let Some((midnight, morning)) = day.max() {
            self.must_lie(self.zero, moment, *midnight);
            self.tie(self.zero, moment, *morning, self.weight(EARLY));
        }
        let next = mornings.iter().map(|(midnight, _)| *midnight);
        let next = next.filter(|midnight| *midnight > first).min();
        let earliest = stretch.iter().min_by_key(|task| starts[**task]);
        if let (Some(midnight), Some(task)) = (next, earliest) {
            self.must_lie(*task, self.zero, 1 - midnight);
        }
    }

    fn pool(&mut self, pool: &Pool, starts: &[i32]) {
        let uses = pool.uses.iter().filter(|one| one.lasts > 0);
        let mut held = Vec::with_capacity(pool.uses.len());
        for one in uses {
            let (at, ends) = (
                starts[one.task] + one.after,
                starts[one.task] + one.after + one.lasts,
            );
            // Before what is closed, or after it.
            let before = |(from, to): &&(i32, i32)| from + to <= at + ends;
            if let Some((_, to)) = pool.closed.iter().rfind(before) {
                self.must_lie(self.zero, one.task, to - one.after);
            }
            if let Some((from, _)) = pool.closed.iter().find(|own| !before(own)) {
                self.must_lie(one.task, self.zero, one.after + one.lasts - from);
            }
            // One after another by their middles; where several fit, by their beginnings.
            let key = if pool.capacity == 1 {
                at + ends
            } else {
                2 * at
            };
            held.push(Held {
                from: one.task,
                after: one.after,
                to: one.task,
                beyond: one.after + one.lasts,
                count: one.count,
                key: (key, ends),
                ends,
            });
        }
        self.lanes(pool.capacity, held);
    }

    fn shelf(&mut self, place: &Shelf, starts: &[i32]) {
        let held = place.stays.iter().map(|stay| {
            let (from, to) = stay.during(starts);
            Held {
                from: stay.from,
                after: 0,
                to: stay.to,
                beyond: stay.beyond,
                count: stay.count,
                key: (from, to),
                ends: to,
            }
        });
        self.lanes(place.capacity, held.collect());
    }

    /// What takes the same places one after another, by lanes.
    fn lanes(&mut self, capacity: i32, mut held: Vec<Held>) {
        let all: i32 = held.iter().map(|one| one.count).sum();
        if all <= capacity {
            return;
        }
        held.sort_by_key(|one| one.key);
        let count = usize::try_from(capacity).unwrap_or(0);
        // Of every lane who was in it last, by its place, and when it becomes free.
        let mut lanes: Vec<(i32, Option<usize>)> = vec![(i32::MIN, None); count];
        for place in 0..held.len() {
            let own = &held[place];
            let wanted = usize::try_from(own.count).unwrap_or(0).min(count);
            lanes.sort_unstable();
            let mut before: Vec<usize> = lanes[..wanted].iter().filter_map(|lane| lane.1).collect();
            before.dedup();
            for lane in &mut lanes[..wanted] {
                *lane = (own.ends, Some(place));
            }
            let (from, after) = (own.from, own.after);
            for other in before {
                let (to, beyond) = (held[other].to, held[other].beyond);
                self.must_lie(to, from, beyond - after);
            }
        }
    }

    fn oven(&mut self, starts: &[i32]) {
        let problem = self.problem;
        let oven = &problem.oven;
        let middle = |place: usize| {
            let task = oven.bakes[place];
            (starts[task] + problem.ends(task, starts), place)
        };
        let mut turn: Vec<usize> = (0..oven.bakes.len()).collect();
        turn.sort_unstable_by_key(|place| middle(*place));
        let apart = |one: usize, other: usize| {
            let lasts = problem.tasks[oven.bakes[one]].lasts;
            oven.apart[one][other].map(|apart| lasts + apart)
        };
        for (at, other) in turn.iter().enumerate() {
            for (before, one) in turn[..at].iter().enumerate() {
                let Some(least) = apart(*one, *other) else {
                    continue;
                };
                // What a bake between them says already is not said again.
                let between = turn[before + 1..at].iter().any(|between| {
                    let way = apart(*one, *between).zip(apart(*between, *other));
                    way.is_some_and(|(one, other)| one + other >= least)
                });
                if !between {
                    self.must_lie(oven.bakes[*one], oven.bakes[*other], least);
                }
            }
        }
        for one in 0..oven.bakes.len() {
            for rise in &oven.rises {
                self.cold(rise, one, starts);
            }
        }
    }

    /// A rise in the oven is out before it heats, or goes in when it has cooled.
    fn cold(&mut self, rise: &Stay, place: usize, starts: &[i32]) {
        let (problem, bake) = (self.problem, self.problem.oven.bakes[place]);
        let (heats, cools) = (problem.oven.heats[place], problem.oven.cools);
        let (from, to) = rise.during(starts);
        let ends = problem.ends(bake, starts);
        let out = to + heats <= starts[bake];
        let later = ends + cools <= from;
        if out || (!later && from + to <= starts[bake] + ends) {
            self.must_lie(rise.to, bake, rise.beyond + heats);
        } else {
            self.must_lie(bake, rise.from, problem.tasks[bake].lasts + cools);
        }
    }
}
