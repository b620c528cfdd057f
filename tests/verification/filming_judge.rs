//! A judge of planned filming days that shares no code with the planner: it walks the plan minute by minute,
//! and counts the fewest batches by looking at every grouping.

// Each test binary that takes this in asks some of it.
#![allow(dead_code)]

use plan::shoot::{FilmDay, Process};
use plan::timetable::{Entry, Kind, Resource};

#[path = "filming_minutes.rs"]
mod minutes;
use minutes::{FROM, Minutes, TO};

/// The starts from which a batch can serve all of some needs: by going back from the last points to the
/// start, and asking of each minute whether it leads on.
pub fn good_starts(day: &FilmDay, process: &Process, needs: &[usize]) -> Minutes {
    let minutes = |count: i64| usize::try_from(count).expect("not negative");
    let count = process.points.len();
    let mut arrive: Vec<Minutes> = vec![Minutes::all(); count];
    let mut starts = Minutes::all();
    for at in (0..count).rev() {
        let mut leave = Minutes::all();
        for run in process.runs.iter().filter(|run| run.from == at) {
            leave = leave.and(&arrive[run.to].before(minutes(run.takes_min)));
        }
        let mut latest = TO;
        for need in needs
            .iter()
            .map(|need| &day.needs[*need])
            .filter(|need| need.point == at)
        {
            latest = latest.min(need.at_min);
            leave = if need.works {
                leave.between(need.at_min, need.at_min + 1)
            } else {
                leave.between(need.at_min + need.held_min, TO)
            };
        }
        if at == process.start {
            starts = leave.clone();
        }
        let keeps = minutes(process.points[at].keeps_min);
        arrive[at] = leave.within(keeps).between(FROM, latest + 1);
    }
    starts.and(&arrive[process.start])
}

/// Whether two needs clash whatever the clock says: another dough, one bread twice in a scene, or a bread
/// that is gone.
pub fn clash(day: &FilmDay, one: usize, other: usize) -> bool {
    let (a, b) = (&day.needs[one], &day.needs[other]);
    if a.process != b.process {
        return true;
    }
    if a.scene == b.scene {
        return a.point == b.point && a.works == b.works;
    }
    let (first, then) = if a.at_min <= b.at_min { (a, b) } else { (b, a) };
    let product = |point: usize| day.processes[a.process].points[point].product;
    product(then.point).is_some_and(|p| first.uses_up.contains(&p))
        || (first.at_min == then.at_min
            && product(first.point).is_some_and(|p| then.uses_up.contains(&p)))
}

/// The needs that doughs serve.
pub fn of_doughs(day: &FilmDay) -> Vec<usize> {
    (0..day.needs.len())
        .filter(|at| day.needs[*at].feed.is_empty() && day.processes[day.needs[*at].process].dough)
        .collect()
}

/// The fewest batches by every grouping of the needs, with so many mixers that they never matter.
pub fn fewest_of_all(day: &FilmDay) -> usize {
    let needs = of_doughs(day);
    let all = (1_usize << needs.len()) - 1;
    let members = |mask: usize| -> Vec<usize> {
        (0..needs.len())
            .filter(|at| mask >> at & 1 == 1)
            .map(|at| needs[at])
            .collect()
    };
    let mut one_batch = vec![true; all + 1];
    for mask in 1..=all {
        // What cannot serve some scenes cannot serve those and one more.
        let lowest = mask & mask.wrapping_neg();
        let highest = 1 << mask.ilog2();
        if !one_batch[mask ^ lowest] || !one_batch[mask ^ highest] {
            one_batch[mask] = false;
            continue;
        }
        let members = members(mask);
        let process = &day.processes[day.needs[members[0]].process];
        let apart = members
            .iter()
            .enumerate()
            .any(|(nth, a)| members[nth + 1..].iter().any(|b| clash(day, *a, *b)));
        one_batch[mask] = !apart && !good_starts(day, process, &members).is_empty();
    }
    let mut fewest = vec![usize::MAX - 1; all + 1];
    fewest[0] = 0;
    for mask in 1..=all {
        let lowest = mask & mask.wrapping_neg();
        let mut part = mask;
        while part > 0 {
            if part & lowest != 0 && one_batch[part] {
                fewest[mask] = fewest[mask].min(fewest[mask ^ part] + 1);
            }
            part = (part - 1) & mask;
        }
    }
    fewest[all]
}

/// The fewest batches by every grouping and every order at one mixer; none when the mixer never comes by.
pub fn fewest_at_one_mixer(day: &FilmDay) -> Option<usize> {
    let needs = of_doughs(day);
    let mut best: Option<usize> = None;
    let mut groups: Vec<Vec<usize>> = Vec::new();
    part(day, &needs, 0, &mut groups, &mut best);
    best
}

fn part(
    day: &FilmDay,
    needs: &[usize],
    nth: usize,
    groups: &mut Vec<Vec<usize>>,
    best: &mut Option<usize>,
) {
    if best.is_some_and(|best| groups.len() >= best) {
        return;
    }
    let Some(need) = needs.get(nth) else {
        let starts: Vec<(i64, Minutes)> = groups
            .iter()
            .map(|group| {
                let process = &day.processes[day.needs[group[0]].process];
                (
                    process.mixer_min.unwrap_or(0),
                    good_starts(day, process, group),
                )
            })
            .collect();
        let mut left: Vec<usize> = (0..groups.len()).collect();
        if mixed(&starts, &mut left, FROM) {
            *best = Some(groups.len());
        }
        return;
    };
    for at in 0..=groups.len() {
        if at == groups.len() {
            groups.push(vec![*need]);
        } else if groups[at].iter().any(|other| clash(day, *other, *need)) {
            continue;
        } else {
            groups[at].push(*need);
        }
        part(day, needs, nth + 1, groups, best);
        groups[at].pop();
        if groups[at].is_empty() {
            groups.pop();
        }
    }
}

/// Whether some order of the groups can be mixed one after another, each as early as it can.
fn mixed(starts: &[(i64, Minutes)], left: &mut Vec<usize>, free: i64) -> bool {
    if left.is_empty() {
        return true;
    }
    for nth in 0..left.len() {
        let group = left.remove(nth);
        let (mixes, good) = &starts[group];
        let first = good.first_from(free);
        let works = first.is_some_and(|first| mixed(starts, left, first + mixes));
        left.insert(nth, group);
        if works {
            return true;
        }
    }
    false
}

/// Everything that is wrong with a plan.
pub fn faults(day: &FilmDay, mixers: usize, racks: usize, change_min: i64) -> Vec<String> {
    let mut faults = Vec::new();
    for need in of_doughs(day) {
        let count = day
            .batches
            .iter()
            .filter(|b| b.serves.contains(&need))
            .count();
        if count != 1 {
            faults.push(format!("need {need} is served by {count} batches"));
        }
    }
    for (nth, batch) in day.batches.iter().enumerate() {
        let process = &day.processes[batch.process];
        let label = format!("batch {}", nth + 1);
        stays(
            day,
            process,
            &batch.stays,
            &batch.serves,
            Some(&batch.followed),
            &label,
            &mut faults,
        );
        if batch.stays[process.start].leaves_min != batch.start_min {
            faults.push(format!("{label} does not begin at its start"));
        }
        for feed in &batch.feeds {
            let label = format!("{label}, {}", feed.process.of);
            stays(
                day,
                &feed.process,
                &feed.stays,
                &feed.serves,
                None,
                &label,
                &mut faults,
            );
            let ends = feed.stays.last().expect("points").leaves_min;
            // What goes into a feed ends where that begins; only the first are tied to the mix.
            if feed.path.len() == 1 && ends != batch.start_min {
                faults.push(format!("{label} is taken at {ends}, not at the mix"));
            }
        }
        for (a, one) in batch.serves.iter().enumerate() {
            for other in &batch.serves[a + 1..] {
                if clash(day, *one, *other) {
                    faults.push(format!("{label} serves {one} and {other}, which clash"));
                }
            }
        }
    }
    mixing(&day.table.entries, mixers, &mut faults);
    ovens(day, racks, change_min, &mut faults);
    faults
}

fn stays(
    day: &FilmDay,
    process: &Process,
    stays: &[plan::shoot::batch::Stay],
    serves: &[usize],
    followed: Option<&[bool]>,
    label: &str,
    faults: &mut Vec<String>,
) {
    let shown = |at: usize| followed.is_none_or(|followed| followed[at]);
    for (at, point) in process
        .points
        .iter()
        .enumerate()
        .filter(|(at, _)| shown(*at))
    {
        let waits = stays[at].leaves_min - stays[at].arrives_min;
        if waits < 0 || waits > point.keeps_min {
            faults.push(format!(
                "{label}: {} waits {waits} of {}",
                point.name(),
                point.keeps_min
            ));
        }
    }
    for run in process.runs.iter().filter(|run| shown(run.to)) {
        if !shown(run.from) {
            faults.push(format!("{label}: a run comes from nowhere"));
        }
        if stays[run.to].arrives_min - stays[run.from].leaves_min != run.takes_min {
            faults.push(format!(
                "{label}: step {} does not take its minutes",
                run.step
            ));
        }
    }
    for need in serves.iter().map(|need| &day.needs[*need]) {
        let stay = stays[need.point];
        let good = stay.arrives_min <= need.at_min
            && if need.works {
                stay.leaves_min == need.at_min
            } else {
                stay.leaves_min >= need.at_min + need.held_min
            };
        if !good || !shown(need.point) {
            faults.push(format!(
                "{label}: {} is there {stay:?} for a scene at {}",
                process.points[need.point].name(),
                need.at_min
            ));
        }
    }
}

/// Counts mixers minute by minute, from the timetable.
fn mixing(entries: &[Entry], mixers: usize, faults: &mut Vec<String>) {
    let doughs: Vec<&Entry> = entries
        .iter()
        .filter(|entry| entry.occupies.iter().any(|one| one.what == Resource::Mixer))
        .collect();
    let begins = doughs.iter().map(|e| e.begins_min).min().unwrap_or(0);
    let ends = doughs.iter().map(|e| e.ends_min()).max().unwrap_or(0);
    for now in begins..ends {
        let busy = doughs
            .iter()
            .filter(|entry| entry.begins_min <= now && now < entry.ends_min())
            .count();
        if busy > mixers {
            faults.push(format!("{busy} doughs are mixed at minute {now}"));
            return;
        }
    }
}

/// Looks at an oven's bread minute by minute, from the timetable and the bakes.
fn ovens(day: &FilmDay, racks: usize, change_min: i64, faults: &mut Vec<String>) {
    let bakes: Vec<&Entry> = day
        .table
        .entries
        .iter()
        .filter(|e| e.kind == Kind::Bakes)
        .collect();
    if bakes.len() != day.bakes.len() {
        faults.push(format!(
            "{} bakes, {} in the table",
            day.bakes.len(),
            bakes.len()
        ));
    }
    for one in &day.bakes {
        let inside: Vec<_> = day
            .bakes
            .iter()
            .filter(|b| b.oven == one.oven && b.from_min <= one.from_min && one.from_min < b.to_min)
            .collect();
        if inside.len() > racks {
            faults.push(format!(
                "{} breads on {racks} racks at {}",
                inside.len(),
                one.from_min
            ));
        }
        if inside
            .iter()
            .any(|b| (b.first - one.first).abs().si() > 0.5)
        {
            faults.push(format!("two dials at {}", one.from_min));
        }
        let batch = &day.batches[one.batch];
        let run = &day.processes[batch.process].runs[one.run];
        let leaves = batch.stays[run.from].leaves_min;
        if one.from_min != leaves + one.late_min || one.to_min - one.from_min != run.takes_min {
            faults.push(format!(
                "a bread goes in at {} and its dough at {leaves}",
                one.from_min
            ));
        }
        for other in day
            .bakes
            .iter()
            .filter(|b| b.oven == one.oven && b.to_min <= one.from_min)
        {
            let kelvin = (other.last - one.first).abs().si();
            let gap = one.from_min - other.to_min;
            if kelvin > 0.5 && (gap as f64) < kelvin / 25.0 * change_min as f64 - 1e-6 {
                faults.push(format!("{gap} min for a change of {kelvin} K"));
            }
        }
    }
}
