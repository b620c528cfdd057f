//! What is made beside the doughs: what goes into each of them, and what a scene shows for itself alone.

use super::batch::{Need, Stay, fits, stays, window};
use super::model::{Batch, Extra, FeedPlan};
use super::process::{Doing, Process};

/// Something made so long before its dough is made the evening before (ours), minutes.
pub const OVERNIGHT_MIN: i64 = 360;

/// The minute at which each feed must be done: the beginning of what it goes into.
fn bound<'a>(
    process: &Process,
    needs: &[&'a Need],
    ends_min: i64,
    end: &'a mut Need,
) -> Vec<&'a Need> {
    end.point = process.points.len() - 1;
    end.at_min = ends_min;
    end.works = true;
    let mut all: Vec<&Need> = needs.to_vec();
    all.push(end);
    all
}

/// A need that is none of a scene: that something is taken at a minute.
fn taken() -> Need {
    Need {
        scene: usize::MAX,
        nth: 0,
        process: 0,
        feed: Vec::new(),
        point: 0,
        works: true,
        at_min: 0,
        held_min: 0,
        uses_up: Vec::new(),
    }
}

/// What goes into a batch that begins at a minute, as late as it may; needs of scenes that it can serve
/// besides are taken from `open`.
pub fn feeds(process: &Process, needs: &[Need], batch: &mut Batch, open: &mut Vec<usize>) {
    let mut plans = Vec::new();
    let own = batch.serves.first().map(|at| needs[*at].process);
    let mut ways: Vec<(Vec<usize>, &Process, i64)> = process
        .feeds
        .iter()
        .enumerate()
        .map(|(nth, feed)| (vec![nth], feed, batch.start_min))
        .collect();
    while let Some((path, feed, ends_min)) = ways.pop() {
        let mut serves: Vec<usize> = Vec::new();
        for at in open.clone() {
            let need = &needs[at];
            if Some(need.process) != own || need.feed != path {
                continue;
            }
            let tried: Vec<&Need> = serves.iter().chain([&at]).map(|at| &needs[*at]).collect();
            let mut end = taken();
            if window(feed, &bound(feed, &tried, ends_min, &mut end), None).is_some() {
                serves.push(at);
            }
        }
        open.retain(|at| !serves.contains(at));
        let Some(stays) = at_latest(feed, needs, &serves, ends_min, None) else {
            continue;
        };
        let begins = stays[feed.start].leaves_min;
        for (nth, inner) in feed.feeds.iter().enumerate() {
            let mut way = path.clone();
            way.push(nth);
            ways.push((way, inner, begins));
        }
        plans.push(FeedPlan {
            path,
            process: feed.clone(),
            stays,
            serves,
        });
    }
    batch.feeds = plans;
}

fn at_latest(
    feed: &Process,
    needs: &[Need],
    serves: &[usize],
    ends_min: i64,
    start_min: Option<i64>,
) -> Option<Vec<Stay>> {
    let serves: Vec<&Need> = serves.iter().map(|at| &needs[*at]).collect();
    let mut end = taken();
    let all = bound(feed, &serves, ends_min, &mut end);
    let (_, latest) = window(feed, &all, None)?;
    stays(feed, &all, start_min.unwrap_or(latest), &[])
}

/// Something made besides a dough, ready at a minute.
pub fn side(process: &Process, ends_min: i64) -> Option<FeedPlan> {
    let stays = at_latest(process, &[], &[], ends_min, None)?;
    Some(FeedPlan {
        path: Vec::new(),
        process: process.clone(),
        stays,
        serves: Vec::new(),
    })
}

/// Begins what goes into several batches in one go, one after another, where the author's own range and the
/// holds allow it: what stands overnight at the hour from which the longest and the shortest night are
/// equally far from the usual, all else in time for the first batch.
pub fn together(batches: &mut [Batch], needs: &[Need]) {
    let mut paths: Vec<(usize, Vec<usize>)> = Vec::new();
    for batch in batches.iter() {
        for feed in &batch.feeds {
            let way = (batch.process, feed.path.clone());
            if !paths.contains(&way) {
                paths.push(way);
            }
        }
    }
    for (process, path) in paths {
        let of = |batch: &Batch| {
            let plan = batch.feeds.iter().position(|feed| feed.path == path)?;
            (batch.process == process).then_some(plan)
        };
        let members: Vec<(usize, usize)> = batches
            .iter()
            .enumerate()
            .filter_map(|(at, batch)| of(batch).map(|plan| (at, plan)))
            .collect();
        if members.len() < 2 {
            continue;
        }
        let first = &batches[members[0].0].feeds[members[0].1];
        let hands: i64 = first
            .process
            .runs
            .iter()
            .filter(|run| !matches!(run.what, Doing::Stands { .. } | Doing::Cools))
            .map(|run| run.takes_min)
            .sum();
        let alone: Vec<i64> = members
            .iter()
            .enumerate()
            .map(|(nth, (at, plan))| {
                let feed = &batches[*at].feeds[*plan];
                feed.stays[feed.process.start].leaves_min - hands * count(nth)
            })
            .collect();
        let least = alone.iter().min().copied().unwrap_or(0);
        let most = alone.iter().max().copied().unwrap_or(0);
        let long = first
            .process
            .points
            .iter()
            .any(|p| p.age_min >= OVERNIGHT_MIN);
        // Overnight the quarter of an hour before the middle.
        let begins = if long {
            i64::midpoint(least, most).div_euclid(15) * 15
        } else {
            least
        };
        let moved: Option<Vec<FeedPlan>> = members
            .iter()
            .enumerate()
            .map(|(nth, (at, plan))| {
                let feed = &batches[*at].feeds[*plan];
                moved(feed, needs, begins + hands * count(nth))
            })
            .collect();
        if let Some(moved) = moved {
            for ((at, plan), feed) in members.into_iter().zip(moved) {
                batches[at].feeds[plan] = feed;
            }
        }
    }
}

fn count(nth: usize) -> i64 {
    i64::try_from(nth).unwrap_or(i64::MAX)
}

/// The same feed begun at another minute: a rest is shorter than usual, down to the author's lowest time,
/// or what is ripe waits.
fn moved(feed: &FeedPlan, needs: &[Need], start_min: i64) -> Option<FeedPlan> {
    let ends_min = feed.stays.last()?.leaves_min;
    let usual = feed.process.points.last()?.age_min;
    let mut process = feed.process.clone();
    let mut early = (start_min + usual - ends_min).max(0);
    for run in &mut process.runs {
        let less = early.min(run.takes_min - run.least_min);
        run.takes_min -= less;
        early -= less;
    }
    if early > 0 {
        return None;
    }
    let stays = at_latest(&process, needs, &feed.serves, ends_min, Some(start_min))?;
    Some(FeedPlan {
        path: feed.path.clone(),
        process,
        stays,
        serves: feed.serves.clone(),
    })
}

/// What is left: needs that no batch serves, each by something made for it, as few as one after another
/// comes to.
pub fn extras(processes: &[Process], needs: &[Need], open: &[usize]) -> Vec<Extra> {
    let mut all: Vec<Extra> = Vec::new();
    for at in open {
        let need = &needs[*at];
        let process = super::scenes::process_of(processes, need);
        let joins = |extra: &&mut Extra| {
            extra.process == need.process
                && extra.path == need.feed
                && extra
                    .serves
                    .iter()
                    .all(|other| fits(process, &needs[*other], need))
        };
        match all.iter_mut().find(joins) {
            Some(extra) => extra.serves.push(*at),
            None => all.push(Extra {
                process: need.process,
                path: need.feed.clone(),
                serves: vec![*at],
                stays: Vec::new(),
                last: 0,
            }),
        }
    }
    for extra in &mut all {
        let serves: Vec<&Need> = extra.serves.iter().map(|at| &needs[*at]).collect();
        let process = super::scenes::process_of(processes, serves[0]);
        extra.last = serves.iter().map(|need| need.point).max().unwrap_or(0);
        if let Some((_, latest)) = window(process, &serves, None) {
            extra.stays = stays(process, &serves, latest, &[]).unwrap_or_default();
        }
    }
    all.retain(|extra| !extra.stays.is_empty());
    all
}
