//! Doughs laid out one after another: where a dough has room among those before it, and what it costs there.

use super::groups::before;
use super::problem::{Cost, FRESH_MIN, Gap, Problem, Use};

/// So often a dough is laid out anew because something in it came too late.
const PUSHES: usize = 400;
/// So many moments are tried for the beginning of each dough.
const TRIES: i32 = 48;
/// Minutes between two of them.
const STRIDE: i32 = 5;

/// Doughs laid out so far.
pub struct Laid<'a> {
    problem: &'a Problem,
    before: Vec<Vec<Gap>>,
    starts: Vec<Option<i32>>,
    /// Of every task what it uses, with the place of the pool.
    uses: Vec<Vec<(usize, Use)>>,
    /// Of every pool what is taken of it: from, to, how much; first by groups that stay, then by the one at hand.
    taken: Vec<Vec<(i32, i32, i32)>>,
    /// Of every pool how much of that list stays.
    stays: Vec<usize>,
}

impl<'a> Laid<'a> {
    /// Nothing yet.
    pub fn new(problem: &'a Problem) -> Self {
        let mut uses = vec![Vec::new(); problem.tasks.len()];
        for (pool, own) in problem.pools.iter().enumerate() {
            for one in &own.uses {
                uses[one.task].push((pool, *one));
            }
        }
        Self {
            problem,
            before: before(problem),
            starts: vec![None; problem.tasks.len()],
            uses,
            taken: vec![Vec::new(); problem.pools.len()],
            stays: vec![0; problem.pools.len()],
        }
    }

    /// Every start; none when a task is missing.
    pub fn all(self) -> Option<Vec<i32>> {
        self.starts.into_iter().collect()
    }

    /// Puts a task where it begins.
    fn put(&mut self, task: usize, start: i32) {
        self.starts[task] = Some(start);
        for (pool, one) in &self.uses[task] {
            let from = start + one.after;
            self.taken[*pool].push((from, from + one.lasts, one.count));
        }
    }

    /// Lays a group out at the moment at which it costs least.
    pub fn best_of(&mut self, group: &[usize]) -> Option<()> {
        let mut best: Option<(Cost, Vec<i32>)> = None;
        let mut from = 0;
        for turn in 0..TRIES {
            let Some(starts) = self.at(group, from, true) else {
                from += STRIDE * (1 + turn / 8);
                continue;
            };
            let cost = self.cost_of(group, &starts);
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, starts.clone()));
            }
            // What has a time is moved towards it; what has none is best as early as it can be.
            let spare = self.spare(group, &starts);
            match spare {
                Some(spare) if spare > 0 => {
                    let first = group.iter().zip(&starts).map(|(_, start)| *start).min();
                    from = first.unwrap_or(from).max(from) + spare.max(1);
                }
                Some(_) if turn > 0 => from = (from - STRIDE).max(0),
                _ if cost.past == 0 => break,
                _ => from += STRIDE,
            }
        }
        if best.is_none() {
            // After everything else, and with whatever wait can be borne.
            let last = self.starts.iter().flatten().copied().max().unwrap_or(0);
            for from in [0, last, last + 600] {
                if let Some(starts) = self.at(group, from, false) {
                    best = Some((self.cost_of(group, &starts), starts));
                    break;
                }
            }
        }
        let (_, starts) = best?;
        for (task, start) in group.iter().zip(starts) {
            self.put(*task, start);
        }
        for (stays, taken) in self.stays.iter_mut().zip(&self.taken) {
            *stays = taken.len();
        }
        Some(())
    }

    /// By how much a group comes before what is wanted of it, at its tightest; none without a time.
    fn spare(&self, group: &[usize], starts: &[i32]) -> Option<i32> {
        let problem = self.problem;
        let wishes = problem.wishes.iter().filter_map(|wish| {
            let place = group.iter().position(|task| *task == wish.task)?;
            let ready = starts[place] + problem.tasks[wish.task].lasts;
            Some(wish.by? - ready)
        });
        wishes.min()
    }

    fn cost_of(&self, group: &[usize], starts: &[i32]) -> Cost {
        let problem = self.problem;
        let at = |task: usize| {
            let place = group.iter().position(|one| *one == task)?;
            Some(starts[place])
        };
        let mut cost = Cost::default();
        for wish in &problem.wishes {
            let Some(start) = at(wish.task) else { continue };
            let ready = start + problem.tasks[wish.task].lasts;
            match wish.by {
                Some(by) => {
                    cost.late += (ready - by).max(0);
                    cost.past += (by - FRESH_MIN - ready).max(0);
                    cost.waits += (by - ready).max(0);
                }
                None => cost.last = cost.last.max(ready),
            }
        }
        for gap in &problem.gaps {
            if let (Some(from), Some(to)) = (at(gap.from), at(gap.to)) {
                cost.past += (to - from - gap.best).max(0);
                cost.waits += to - from - gap.least;
            }
        }
        for (task, known) in &problem.known {
            if let Some(start) = at(*task) {
                cost.moved += (start - known).abs();
            }
        }
        cost
    }

    /// Lays a group out from a moment on; `best` keeps to what is at its best, otherwise to what can be borne.
    fn at(&mut self, group: &[usize], from: i32, best: bool) -> Option<Vec<i32>> {
        let mut release: Vec<i32> = group
            .iter()
            .map(|task| {
                let task = self.problem.tasks[*task];
                task.earliest.max(from.min(task.latest))
            })
            .collect();
        for _ in 0..PUSHES {
            match self.once(group, &release, best) {
                Ok(starts) => {
                    self.clear(group);
                    return Some(starts);
                }
                Err(Some((task, start))) => {
                    let place = group.iter().position(|one| *one == task)?;
                    if start <= release[place] || start > self.problem.tasks[task].latest {
                        self.clear(group);
                        return None;
                    }
                    release[place] = start;
                }
                Err(None) => break,
            }
        }
        self.clear(group);
        None
    }

    fn clear(&mut self, group: &[usize]) {
        for task in group {
            self.starts[*task] = None;
        }
        for (stays, taken) in self.stays.iter().zip(&mut self.taken) {
            taken.truncate(*stays);
        }
    }

    /// One pass; on failure the task that should come later, and when.
    fn once(
        &mut self,
        group: &[usize],
        release: &[i32],
        best: bool,
    ) -> Result<Vec<i32>, Option<(usize, i32)>> {
        self.clear(group);
        let problem = self.problem;
        for (place, task) in group.iter().enumerate() {
            let mut start = release[place];
            for gap in &self.before[*task] {
                if let Some(before) = self.starts[gap.from] {
                    start = start.max(before + gap.least);
                }
            }
            let start = self.free(*task, start).ok_or(None)?;
            if start > problem.tasks[*task].latest {
                return Err(None);
            }
            for gap in &self.before[*task] {
                let most = if best {
                    gap.best.min(gap.most)
                } else {
                    gap.most
                };
                if let Some(before) = self.starts[gap.from]
                    && start - before > most
                {
                    return Err(Some((gap.from, start - most)));
                }
            }
            self.put(*task, start);
        }
        self.crowded(group)?;
        Ok(group.iter().filter_map(|task| self.starts[*task]).collect())
    }

    /// Whether places that are taken from task to task are enough.
    fn crowded(&self, group: &[usize]) -> Result<(), Option<(usize, i32)>> {
        let problem = self.problem;
        let during = |from: usize, to: usize, beyond: i32| {
            Some((self.starts[from]?, self.starts[to]? + beyond))
        };
        for shelf in &problem.shelves {
            for one in shelf.stays.iter().filter(|one| group.contains(&one.from)) {
                let Some((at, until)) = during(one.from, one.to, one.beyond) else {
                    continue;
                };
                let others: Vec<(i32, i32, i32)> = shelf
                    .stays
                    .iter()
                    .filter(|other| *other != one)
                    .filter_map(|other| {
                        let (from, to) = during(other.from, other.to, other.beyond)?;
                        (from < until && at < to).then_some((from, to, other.count))
                    })
                    .collect();
                let moments = others.iter().map(|other| other.0).chain([at]);
                for moment in moments.filter(|moment| *moment >= at) {
                    let here = |(from, to, _): &&(i32, i32, i32)| *from <= moment && moment < *to;
                    let taken: i32 = others.iter().filter(here).map(|other| other.2).sum();
                    if taken + one.count > shelf.capacity {
                        let free = others.iter().filter(here).map(|other| other.1).min();
                        return Err(free.map(|free| (one.from, free.max(at + 1))));
                    }
                }
            }
        }
        for rise in problem
            .oven
            .rises
            .iter()
            .filter(|one| group.contains(&one.from))
        {
            let Some((from, to)) = during(rise.from, rise.to, rise.beyond) else {
                continue;
            };
            for (place, bake) in problem.oven.bakes.iter().enumerate() {
                let Some(start) = self.starts[*bake] else {
                    continue;
                };
                let ends = start + problem.tasks[*bake].lasts;
                if to + problem.oven.heats[place] > start && ends + problem.oven.cools > from {
                    let own = group.contains(bake) && start >= from;
                    return Err(Some(if own {
                        (*bake, to + problem.oven.heats[place])
                    } else {
                        (rise.from, ends + problem.oven.cools)
                    }));
                }
            }
        }
        Ok(())
    }

    /// The first moment from `start` on at which pools and oven have room for a task.
    fn free(&self, task: usize, mut start: i32) -> Option<i32> {
        let latest = self.problem.tasks[task].latest;
        while start <= latest {
            match self.blocked(task, start) {
                None => return Some(start),
                Some(later) => start = later.max(start + 1),
            }
        }
        None
    }

    /// When it is worth trying again, if something stands in the way.
    fn blocked(&self, task: usize, start: i32) -> Option<i32> {
        let problem = self.problem;
        for (at_pool, one) in &self.uses[task] {
            let pool = &problem.pools[*at_pool];
            let (at, ends) = (start + one.after, start + one.after + one.lasts);
            for (from, to) in &pool.closed {
                if at < *to && *from < ends {
                    return Some(to - one.after);
                }
            }
            let others = || {
                let taken = self.taken[*at_pool].iter();
                taken.filter(|(from, to, _)| *from < ends && at < *to)
            };
            // Mostly there is room for all that is there in this time.
            let all: i32 = others().map(|other| other.2).sum();
            if all + one.count <= pool.capacity {
                continue;
            }
            for moment in others().map(|other| other.0.max(at)).chain([at]) {
                let here = || others().filter(|(from, to, _)| *from <= moment && moment < *to);
                let taken: i32 = here().map(|other| other.2).sum();
                if taken + one.count > pool.capacity {
                    let free = here().map(|other| other.1).min();
                    return Some(free.unwrap_or(ends) - one.after);
                }
            }
        }
        let oven = &problem.oven;
        let place = oven.bakes.iter().position(|bake| *bake == task)?;
        let ends = start + problem.tasks[task].lasts;
        for (other, bake) in oven.bakes.iter().enumerate() {
            let (Some(from), Some(there), Some(back)) = (
                self.starts[*bake].filter(|_| *bake != task),
                oven.apart[other][place],
                oven.apart[place][other],
            ) else {
                continue;
            };
            let to = from + problem.tasks[*bake].lasts;
            if start < to + there && from < ends + back {
                return Some(to + there);
            }
        }
        None
    }
}
