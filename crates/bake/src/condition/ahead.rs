//! What is still to come of a bake under way, as bands of the cook's own clock.

use super::here::Here;
use super::ways::{Ways, Weighed};
use numerics::quantity::Duration;
use numerics::weighing::quantiles;

/// A step that the cook has begun, and when by a clock of their own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Begun {
    /// Its number on the page.
    pub step: usize,
    /// When, from whatever moment the cook's clock counts.
    pub at: Duration,
}

/// Something still to come, with the band that eight of ten possible bakes keep.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// One in ten comes sooner.
    pub low: Duration,
    /// As many sooner as later.
    pub middle: Duration,
    /// One in ten comes later.
    pub high: Duration,
}

/// The end of a step still to come.
#[derive(Clone, Debug, PartialEq)]
pub struct Ahead {
    /// Its number on the page.
    pub step: usize,
    /// The stage or product it belongs to.
    pub of: String,
    /// Whether a sign ends it, and not the clock.
    pub by_sign: bool,
    /// When it begins, by the cook's clock; none for a step that has begun.
    pub begins: Option<Band>,
    /// When it ends.
    pub ends: Band,
    /// When to look first: the early edge of the band, rounded down.
    pub check_at: Duration,
}

/// Share that lies below the early edge of a band, and above the late one, among so many cases that count: of n cases
/// the middle part p holds the next one p n/(n + 1) of the time, so that few cases need a wider band for eight of
/// ten (order statistics; Wilks 1941, Ann. Math. Stat. 12:91, from memory).
pub fn outside(that_count: f64) -> f64 {
    let n = that_count.max(1.0);
    (0.5 * (1.0 - 0.8 * (n + 1.0) / n)).max(0.01)
}

/// Every step that has not ended, in order: those that were begun last, and all that follows from them.
pub fn ahead(
    here: &Here,
    ways: &Ways,
    weighed: &Weighed,
    begun: &[Begun],
    now: Duration,
) -> Vec<Ahead> {
    let mut all = Vec::new();
    for (place, step) in here.course.steps.iter().enumerate() {
        let number = place + 1;
        let Some(from) = last_begun(here, begun, number) else {
            continue;
        };
        // Something that comes later in the same row has begun: this one is over.
        let over = begun.iter().any(|other| {
            other.step > number
                && here
                    .chains
                    .get(other.step - 1)
                    .is_some_and(|chain| chain.contains(&number))
        });
        if over {
            continue;
        }
        let begins = when(here, ways, weighed, from, number, false, now);
        let ends = when(here, ways, weighed, from, number, true, now);
        let (Some(begins), Some(ends)) = (begins, ends) else {
            continue;
        };
        let by_sign = step.ended != crate::simulate::Ended::Clock;
        all.push(Ahead {
            step: number,
            of: step.of.clone(),
            by_sign,
            begins: (from.step != number).then_some(begins),
            check_at: check_at(now, ends.low),
            ends,
        });
    }
    all
}

/// The step of its row that was begun last, up to itself.
pub fn last_begun<'a>(here: &Here, begun: &'a [Begun], number: usize) -> Option<&'a Begun> {
    let chain = here.chains.get(number.checked_sub(1)?)?;
    chain
        .iter()
        .rev()
        .find_map(|step| begun.iter().find(|begun| begun.step == *step))
}

/// When a step begins or ends in one way, s of the cook's clock.
pub fn when_s(
    here: &Here,
    possible: super::reading::Possible<'_>,
    from: &Begun,
    number: usize,
    its_end: bool,
) -> f64 {
    let mut at_s = from.at.si();
    let mut counts = false;
    for step in here.chains.get(number - 1).into_iter().flatten() {
        counts |= *step == from.step;
        if counts && (*step != number || its_end) {
            at_s += possible.lasts_s(*step - 1);
        }
    }
    at_s
}

fn when(
    here: &Here,
    ways: &Ways,
    weighed: &Weighed,
    from: &Begun,
    number: usize,
    its_end: bool,
    now: Duration,
) -> Option<Band> {
    let cases: Vec<(f64, f64)> = weighed
        .ways(ways)
        .map(|(possible, weight)| {
            let at_s = when_s(here, possible, from, number, its_end);
            (at_s.max(now.si()), weight)
        })
        .collect();
    let tail = outside(weighed.that_count);
    let [low, middle, high] = quantiles(&cases, [tail, 0.5, 1.0 - tail])?.map(Duration::from_si);
    Some(Band { low, middle, high })
}

/// The early edge rounded down: to five minutes when it is more than an hour away, else to the minute.
fn check_at(now: Duration, low: Duration) -> Duration {
    let left_s = (low.si() - now.si()).max(0.0);
    let round_s = if left_s > 3600.0 { 300.0 } else { 60.0 };
    Duration::from_si(now.si() + (left_s / round_s).floor() * round_s)
}
