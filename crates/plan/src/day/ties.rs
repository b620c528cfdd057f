//! A plan whose orders stay, as ties between moments: what must lie between two of them, and what it costs when it
//! does not.

use super::bounds::Bounds;
use super::problem::{Cost, FRESH_MIN, Problem};
use super::rigid::Rigid;

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

/// Two tasks in an order, which holds a plan back or stands in its way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pull {
    /// Who comes first.
    pub first: usize,
    /// Who comes after it.
    pub second: usize,
}

/// What is tied: the starts of all tasks, those as one that always lie alike, then the first and the last moment of every
/// stretch of work, when the last bread without a time is ready, and at the end minute 0.
///
/// Here tasks are told by their own numbers and the others by the numbers after them; a [`Tie`] has those of moments.
#[derive(Debug)]
pub struct Ties<'a> {
    pub(super) problem: &'a Problem,
    rigid: Rigid,
    /// What holds whatever comes first.
    always: usize,
    /// Those, and what holds in one order.
    all: Vec<Tie>,
    /// Of each of `all` the tasks that it ties; none where one of them is no task.
    pulls: Vec<Option<Pull>>,
    /// Two that always lie alike and cannot lie in the order that was asked for last.
    torn: Option<Pull>,
    weights: Weights,
    stretches: Vec<&'a [usize]>,
    ready: usize,
    pub(super) zero: usize,
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
            problem.gaps.len() + problem.wishes.len(),
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
            rigid: Rigid::new(problem),
            always: 0,
            all: Vec::new(),
            pulls: Vec::new(),
            torn: None,
            weights: Weights::new(problem)?,
            stretches,
            ready,
            zero: ready + 1,
        };
        ties.of_tasks();
        ties.of_wishes();
        ties.of_work();
        ties.always = ties.all.len();
        Some(ties)
    }

    /// So many moments.
    pub const fn moments(&self) -> usize {
        self.rigid.count() + self.zero + 1 - self.problem.tasks.len()
    }

    /// What a minute of what must be weighs: ties of this weight that are too short are no plan.
    pub const fn must(&self) -> i64 {
        self.weights.must
    }

    /// Ties of the orders in which tasks lie, and every moment where it is.
    ///
    /// Where two that cannot be at once do lie at once, the one whose middle comes first is first. Whether no two that
    /// always lie alike lie otherwise in it: of those that do [`Self::torn`] tells.
    pub fn lie(&mut self, starts: &[i32], moments: &mut Vec<i32>) -> bool {
        self.all.truncate(self.always);
        self.pulls.truncate(self.always);
        self.torn = None;
        let problem = self.problem;
        self.orders(starts);
        self.moments_of(starts, moments);
        for (place, stretch) in self.stretches.clone().into_iter().enumerate() {
            let first = moments[self.rigid.count() + 2 * place];
            self.morning(stretch, starts, first, problem.tasks.len() + 2 * place);
        }
        self.torn.is_none()
    }

    /// Where every task begins.
    pub fn starts(&self, moments: &[i32]) -> Vec<i32> {
        // Minute 0 was moved like everything else.
        let zero = moments.last().copied().unwrap_or(0);
        let start = |task: usize| {
            let (moment, after) = self.rigid.of(task);
            moments[moment] + after - zero
        };
        (0..self.problem.tasks.len()).map(start).collect()
    }

    /// Every moment of a plan.
    fn moments_of(&self, starts: &[i32], moments: &mut Vec<i32>) {
        let problem = self.problem;
        self.rigid.moments(starts, moments);
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

    /// Of each of them the tasks that it ties; none where one of them is no task.
    pub fn pulls(&self) -> &[Option<Pull>] {
        &self.pulls
    }

    /// Two that always lie alike and cannot lie in the order that was asked for last.
    pub const fn torn(&self) -> Option<Pull> {
        self.torn
    }

    /// So many of them hold whatever comes first.
    pub const fn always(&self) -> usize {
        self.always
    }

    /// With which moment something moves, and by how much later it comes, minutes.
    fn moment(&self, what: usize) -> (usize, i32) {
        let tasks = self.problem.tasks.len();
        if what < tasks {
            self.rigid.of(what)
        } else {
            (what - tasks + self.rigid.count(), 0)
        }
    }

    fn tie(&mut self, first: usize, second: usize, least: i32, costs: i64) {
        let ((from, before), (to, after)) = (self.moment(first), self.moment(second));
        let least = least + before - after;
        let tasks = self.problem.tasks.len();
        let pull = (first < tasks && second < tasks).then_some(Pull { first, second });
        if from == to {
            // What lies between them never changes.
            if costs == self.must() && least > 0 {
                self.torn = self.torn.or(pull);
            }
            return;
        }
        self.pulls.push(pull);
        self.all.push(Tie {
            from,
            to,
            least,
            costs,
        });
    }

    pub(super) fn must_lie(&mut self, from: usize, to: usize, least: i32) {
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
                    let fresh = by - FRESH_MIN - lasts;
                    self.tie(self.zero, wish.task, fresh, self.weight(PAST));
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
}
