//! Starts of batches that share mixers: each as late as its window and the mixers allow.

/// A batch that wants a mixer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wants {
    /// Its earliest and latest start.
    pub window: (i64, i64),
    /// How long it keeps a mixer busy; 0 when it wants none.
    pub mixes_min: i64,
}

/// So many placings are tried at most.
const MOST_TRIED: u64 = 1_000;
/// So many without finding one (ours).
const MOST_IN_VAIN: u64 = 400;

/// The latest starts, in the order of the batches; none when the mixers do not come by.
///
/// Batches are placed from the last to the first, every order of them being tried until the limit: moved to
/// the right in its own order, any plan of one mixer comes to one of those, so none is missed. The best is
/// the one that waits least in all.
pub fn starts(batches: &[Wants], mixers: usize) -> Option<Vec<i64>> {
    placed(batches, mixers, i64::MIN)
}

/// The first that wait no longer than is good enough, otherwise the best.
fn placed(batches: &[Wants], mixers: usize, enough: i64) -> Option<Vec<i64>> {
    if !has_room(batches, mixers) {
        return None;
    }
    let mut order: Vec<usize> = (0..batches.len()).collect();
    order.sort_by_key(|at| std::cmp::Reverse(batches[*at].window.1));
    let mut placing = Placing {
        batches,
        mixers: mixers.max(1),
        tried: 0,
        enough: enough.max(0),
        best: None,
        starts: vec![None; batches.len()],
    };
    placing.place(&mut order, 0);
    placing.best.map(|(_, starts)| starts)
}

/// Whether the mixers come by at all.
pub fn can_start(batches: &[Wants], mixers: usize) -> bool {
    placed(batches, mixers, i64::MAX).is_some()
}

/// Between any two minutes what must be mixed there is no more than the mixers can: what fails this has no
/// plan.
pub fn has_room(batches: &[Wants], mixers: usize) -> bool {
    let room = |from: i64, to: i64| -> bool {
        let inside = batches
            .iter()
            .filter(|one| from <= one.window.0 && one.window.1 + one.mixes_min <= to);
        let mixed: i64 = inside.map(|one| one.mixes_min).sum();
        let mixers = i64::try_from(mixers.max(1)).unwrap_or(i64::MAX);
        mixed == 0 || mixed <= mixers.saturating_mul(to - from)
    };
    batches.iter().all(|first| {
        batches
            .iter()
            .all(|last| room(first.window.0, last.window.1 + last.mixes_min))
    })
}

struct Placing<'a> {
    batches: &'a [Wants],
    mixers: usize,
    tried: u64,
    /// A plan that waits no longer is good enough.
    enough: i64,
    best: Option<(i64, Vec<i64>)>,
    starts: Vec<Option<i64>>,
}

impl Placing<'_> {
    fn place(&mut self, left: &mut Vec<usize>, waits: i64) {
        self.tried += 1;
        if self.tried > MOST_TRIED || (self.best.is_none() && self.tried > MOST_IN_VAIN) {
            return;
        }
        if left.is_empty() {
            let starts: Vec<i64> = self.starts.iter().flatten().copied().collect();
            self.best = Some((waits, starts));
            return;
        }
        // What is placed leaves no more room later: whoever has none now has none at all. And nobody waits
        // less than now.
        let mut least = waits;
        let mut free = Vec::with_capacity(left.len());
        for batch in left.iter() {
            let Some(start) = self.latest(*batch) else {
                return;
            };
            least += self.batches[*batch].window.1 - start;
            free.push(start);
        }
        for (nth, start) in free.into_iter().enumerate() {
            let better = |(best, _): &(i64, Vec<i64>)| least < *best && *best > self.enough;
            if !self.best.as_ref().is_none_or(better) {
                return;
            }
            let batch = left.remove(nth);
            self.starts[batch] = Some(start);
            self.place(left, waits + self.batches[batch].window.1 - start);
            self.starts[batch] = None;
            left.insert(nth, batch);
        }
    }

    /// The latest start of a batch beside those that are placed.
    fn latest(&self, batch: usize) -> Option<i64> {
        let Wants { window, mixes_min } = self.batches[batch];
        if mixes_min == 0 {
            return Some(window.1);
        }
        let placed: Vec<(i64, i64)> = self
            .starts
            .iter()
            .zip(self.batches)
            .filter_map(|(start, other)| start.map(|start| (start, start + other.mixes_min)))
            .filter(|(from, to)| to > from)
            .collect();
        let mut tries: Vec<i64> = placed.iter().map(|(from, _)| from - mixes_min).collect();
        tries.push(window.1);
        tries.retain(|start| window.0 <= *start && *start <= window.1);
        tries.sort_unstable();
        let free = |start: &i64| {
            let overlaps = |at: i64| placed.iter().filter(|(f, t)| *f <= at && at < *t).count();
            let inside = placed
                .iter()
                .map(|(from, _)| *from)
                .filter(|from| *start <= *from && *from < start + mixes_min);
            std::iter::once(*start)
                .chain(inside)
                .all(|at| overlaps(at) < self.mixers)
        };
        tries.into_iter().rev().find(free)
    }
}

#[cfg(test)]
mod tests {
    use super::{Wants, starts};

    fn wants(from: i64, to: i64) -> Wants {
        Wants {
            window: (from, to),
            mixes_min: 25,
        }
    }

    #[test]
    fn two_that_want_the_same_minute_stand_beside_each_other() {
        let batches = [wants(0, 100), wants(0, 100)];
        let mut found = starts(&batches, 1).expect("there is room");
        found.sort_unstable();
        assert_eq!(found, [75, 100]);
        assert_eq!(starts(&batches, 2), Some(vec![100, 100]));
    }

    #[test]
    fn the_order_of_windows_is_not_the_order_of_starts() {
        // The one that may begin last has to go first here.
        let batches = [wants(0, 110), wants(90, 100)];
        assert_eq!(starts(&batches, 1), Some(vec![75, 100]));
    }

    #[test]
    fn what_does_not_fit_is_not_placed() {
        assert_eq!(starts(&[wants(90, 100), wants(95, 110)], 1), None);
    }
}
