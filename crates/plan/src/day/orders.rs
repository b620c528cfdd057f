//! Ties of the orders in which tasks lie where there is only so much of something.

use super::problem::{Pool, Shelf, Stay};
use super::ties::Ties;

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

impl Ties<'_> {
    /// Ties of all orders in which tasks lie.
    pub(super) fn orders(&mut self, starts: &[i32]) {
        let problem = self.problem;
        for pool in &problem.pools {
            self.pool(pool, starts);
        }
        for shelf in &problem.shelves {
            self.shelf(shelf, starts);
        }
        self.oven(starts);
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
        for one in turn {
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
