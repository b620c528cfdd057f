//! What a drawing of a day lies on: its rows, its clock, the hours in which nobody works.

use super::{Axis, Closed, Hours, Lane, Stretch, TableRow, clock, day_words, say};
use jiff::civil::{Date, Time};
use numerics::quantity::Duration;
use plan::day::means::Means;
use plan::timetable::{Kind, Timetable, minutes_between};

/// A stretch in which nothing begins or ends is drawn short from this length on, minutes (ours).
const LONG_MIN: i64 = 150;

/// A day is drawn with a tick each hour up to this length, minutes (ours).
const HOURLY_MIN: i64 = 14 * 60;

/// Rows that are nobody's dough, in the order in which they stand on top.
const SHARED: [&str; 4] = ["the day", "hands", "oven", "everybody"];

/// In which rows an entry stands: what bakes is the oven's as well as its dough's, and what hands do is theirs.
fn owners(row: &TableRow) -> Vec<&str> {
    let mut owners = vec![match (row.kind, row.batch.as_str()) {
        (Kind::Scene | Kind::Pause | Kind::Mark, "") => SHARED[0],
        (Kind::Heats, "") => SHARED[2],
        (_, "") => SHARED[3],
        (_, batch) => batch,
    }];
    if row.kind == Kind::Bakes {
        owners.push(SHARED[2]);
    }
    if matches!(row.kind, Kind::Work | Kind::Ready)
        && row.occupies.iter().any(|what| what.ends_with("hands"))
    {
        owners.push(SHARED[1]);
    }
    owners
}

/// Rows of the drawing: what is filmed and eaten, hands, the oven, what is everybody's, then each batch in the
/// order in which it first turns up; entries that overlap go into rows under one another.
pub(super) fn lanes(rows: &[TableRow]) -> Vec<Lane> {
    let mut order: Vec<&str> = Vec::new();
    for owner in rows.iter().flat_map(owners) {
        if !order.contains(&owner) {
            order.push(owner);
        }
    }
    order.sort_by_key(|name| {
        let shared = SHARED.iter().position(|own| own == name);
        shared.unwrap_or(SHARED.len())
    });
    let mut lanes = Vec::new();
    for owner in order {
        let mut stack: Vec<Vec<usize>> = Vec::new();
        for (at, row) in rows
            .iter()
            .enumerate()
            .filter(|(_, row)| owners(row).contains(&owner))
        {
            let free = stack.iter_mut().find(|lane| {
                lane.last()
                    .is_none_or(|last| rows[*last].ends_min <= row.begins_min)
            });
            match free {
                Some(lane) => lane.push(at),
                None => stack.push(vec![at]),
            }
        }
        for (depth, rows) in stack.into_iter().enumerate() {
            let name = if depth == 0 {
                owner.to_owned()
            } else {
                String::new()
            };
            lanes.push(Lane { name, rows });
        }
    }
    lanes
}

/// Stretches and ticks.
pub(super) fn axis(table: &Timetable, hours: Hours, rows: &[TableRow]) -> Axis {
    let mut marks: Vec<i64> = rows
        .iter()
        .flat_map(|row| [row.begins_min, row.ends_min])
        .collect();
    marks.sort_unstable();
    marks.dedup();
    let mut stretches: Vec<Stretch> = Vec::new();
    for pair in marks.windows(2) {
        let (from_min, to_min) = (pair[0], pair[1]);
        let cut = (to_min - from_min > LONG_MIN)
            .then(|| say::duration(Duration::from_minutes((to_min - from_min) as f64)));
        match stretches.last_mut() {
            Some(last) if cut.is_none() && last.cut.is_none() => last.to_min = to_min,
            _ => stretches.push(Stretch {
                from_min,
                to_min,
                cut,
            }),
        }
    }
    let drawn: i64 = stretches
        .iter()
        .filter(|one| one.cut.is_none())
        .map(|one| one.to_min - one.from_min)
        .sum();
    let every = if drawn > HOURLY_MIN { 2 } else { 1 };
    let mut ticks = Vec::new();
    let mut day = None;
    for stretch in stretches.iter().filter(|one| one.cut.is_none()) {
        for minute in stretch.from_min..=stretch.to_min {
            let at = table.clock(minute);
            if at.minute() == 0 && at.hour() % every == 0 {
                let date = at.date();
                let new = (day != Some(date)).then(|| day_words(at));
                day = Some(date);
                ticks.push((minute, clock(at, hours), new));
            }
        }
    }
    Axis { stretches, ticks }
}

/// The hours of a kitchen in which nobody works, on every date from a minute to another.
pub fn closed(table: &Timetable, means: &Means, from_min: i64, to_min: i64) -> Vec<Closed> {
    let minute = |date: Date, time: Time| {
        minutes_between(table.starts, date.to_datetime(time), table.zone.as_ref())
    };
    let quiet = means.quiet.iter().map(|hours| ("quiet hours", hours));
    let breaks = means.breaks.iter().map(|hours| ("break", hours));
    let mut all = Vec::new();
    for (word, hours) in quiet.chain(breaks) {
        // What begins on the evening before goes on into the first date.
        let mut date = table.clock(from_min).date().yesterday().ok();
        let last = table.clock(to_min).date();
        while let Some(begins) = date.filter(|date| *date <= last) {
            date = begins.tomorrow().ok();
            let ends = if hours.to <= hours.from {
                date
            } else {
                Some(begins)
            };
            let Some(ends) = ends else { break };
            let (from, to) = (minute(begins, hours.from), minute(ends, hours.to));
            if from < to_min && to > from_min {
                all.push(Closed {
                    word,
                    from_min: from.max(from_min),
                    to_min: to.min(to_min),
                });
            }
        }
    }
    all
}
