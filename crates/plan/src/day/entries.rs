//! A plan as a table of entries: what is done, what stands, what the oven does, what is laid ready.

use super::in_the_oven::turns;
use super::problem::Stay;
use super::tasks::{About, Batch, HANDLING_MIN, Made, Place, change_min, heat_min};
use crate::timetable::{Entry, Kind, Occupied, Resource, Timetable};
use numerics::decimal::fixed;
use recipe::document::model::{Action, Standing};

/// An oven that is not wanted for so long is turned off (ours).
const OFF_MIN: i32 = 60;
/// Tins and trays are greased and lined so long before they are wanted (common practice).
const TIN_MIN: i32 = 5;
/// A wait of less is nobody's to know (ours).
const SHORT_MIN: i32 = 2;

/// The table of a plan.
pub fn timetable(
    place: &Place<'_>,
    batches: &[Batch<'_>],
    made: &Made,
    starts: &[i32],
) -> Timetable {
    let mut entries: Vec<Entry> = Vec::new();
    for (task, about) in made.about.iter().enumerate() {
        entries.push(entry(place, batches, made, starts, task, about));
        entries.extend(wait(batches, made, starts, task, about));
        entries.extend(at_the_oven(place, batches, made, starts, task, about));
    }
    entries.extend(tins(batches, made, starts));
    entries.extend(oven(made, starts));
    entries.sort_by(|one, other| {
        let key = |entry: &Entry| (entry.begins_min, entry.kind, entry.batch.clone());
        key(one).cmp(&key(other))
    });
    let mut titles: Vec<&str> = batches
        .iter()
        .map(|batch| &*batch.recipe.title.value)
        .collect();
    titles.dedup();
    let means = place.means;
    let count = |what: Resource, count: i32| Occupied {
        what,
        count: u32::try_from(count).unwrap_or(0),
    };
    let mut has = vec![
        count(Resource::Hands, means.hands),
        count(Resource::Mixer, 1),
        count(Resource::Oven, means.racks),
    ];
    has.extend(
        means
            .warm_places
            .map(|places| count(Resource::WarmPlace, places)),
    );
    has.extend(
        means
            .shelves
            .map(|shelves| count(Resource::Refrigerator, shelves)),
    );
    for (name, number) in means.tins.iter().flatten() {
        has.push(count(Resource::Tin(name.clone()), *number));
    }
    Timetable {
        title: titles.join(", "),
        starts: place.starts,
        zone: place.zone.cloned(),
        has,
        entries,
    }
}

/// Whose an entry is.
pub(super) fn owner(batches: &[Batch<'_>], about: &About) -> String {
    let batch = &batches[about.batch];
    match about.product {
        Some((product, _)) => {
            let name = &batch.recipe.products[product].name.value;
            format!("{}, {name}", batch.label)
        }
        None => batch.label.clone(),
    }
}

fn entry(
    place: &Place<'_>,
    batches: &[Batch<'_>],
    made: &Made,
    starts: &[i32],
    task: usize,
    about: &About,
) -> Entry {
    let batch = &batches[about.batch];
    let step = super::lengths::steps(batch.recipe).nth(about.step);
    let lasts = made.problem.tasks[task].lasts;
    let mut occupies = Vec::new();
    let hands = made.problem.pools[0].uses.iter();
    if hands
        .clone()
        .any(|one| one.task == task && one.lasts == lasts)
    {
        occupies.push(Occupied::one(Resource::Hands));
    }
    if made.problem.pools[1]
        .uses
        .iter()
        .any(|one| one.task == task)
    {
        occupies.push(Occupied::one(Resource::Mixer));
    }
    let racks = made.problem.pools[2]
        .uses
        .iter()
        .find(|one| one.task == task);
    if let Some(racks) = racks {
        occupies.push(Occupied {
            what: Resource::Oven,
            count: u32::try_from(racks.count).unwrap_or(1),
        });
    }
    let action = step.map(|step| &step.action);
    if let Some(Action::Rest { place: stands, .. }) = action {
        let what = match stands.value {
            Standing::WarmPlace if place.means.oven_warms => Some(Resource::Oven),
            Standing::WarmPlace => Some(Resource::WarmPlace),
            Standing::Refrigerator => Some(Resource::Refrigerator),
            Standing::Room | Standing::CoolPlace => None,
        };
        occupies.extend(what.map(Occupied::one));
    }
    let see = step
        .and_then(|step| step.until.as_ref())
        .and_then(|until| until.see.as_ref())
        .map(|see| see.value.clone());
    let note = match (about.dial, see) {
        (Some((first, last)), see) => {
            let mut note = dial(first);
            if (first - last).abs() > 0.5 {
                note = format!("{note}, then {}", dial(last));
            }
            match see {
                Some(see) => format!("{note}; until {see}"),
                None => note,
            }
        }
        (None, Some(see)) => format!("until {see}"),
        (None, None) => String::new(),
    };
    Entry {
        words: about.words.clone(),
        batch: owner(batches, about),
        begins_min: starts[task].into(),
        lasts_min: lasts.into(),
        occupies,
        kind: about.kind,
        note,
        // Hands are called by the bell; what stands or bakes calls them at its end, with what follows.
        alarm: matches!(
            about.kind,
            Kind::Work | Kind::Ready | Kind::Bakes | Kind::Cools
        ),
    }
}

/// What could go on after a standing step and waits.
fn wait(
    batches: &[Batch<'_>],
    made: &Made,
    starts: &[i32],
    task: usize,
    about: &About,
) -> Vec<Entry> {
    if about.kind != Kind::Stands {
        return Vec::new();
    }
    let gaps = made.gaps();
    gaps.filter(|gap| gap.from == task && !made.within(gap))
        .filter_map(|gap| {
            let waits = starts[gap.to] - starts[task] - gap.least;
            if waits < SHORT_MIN {
                return None;
            }
            let spare = gap.best - gap.least;
            let of = &made.about[gap.to];
            let note = if waits > spare {
                format!("{} min past its best", waits - spare)
            } else {
                format!("may wait {spare} min")
            };
            Some(Entry {
                words: format!("Waits: {}", lower(&about.words)),
                batch: owner(batches, of),
                begins_min: (starts[task] + gap.least).into(),
                lasts_min: waits.into(),
                occupies: Vec::new(),
                kind: Kind::Waits,
                note,
                alarm: false,
            })
        })
        .collect()
}

fn lower(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().collect::<String>() + letters.as_str()
    })
}

/// What is done at a bake that goes on.
fn at_the_oven(
    place: &Place<'_>,
    batches: &[Batch<'_>],
    made: &Made,
    starts: &[i32],
    task: usize,
    about: &About,
) -> Vec<Entry> {
    let batch = &batches[about.batch];
    let step = super::lengths::steps(batch.recipe).nth(about.step);
    let (Some(step), Some((product, _))) = (step, about.product) else {
        return Vec::new();
    };
    let name = &batch.recipe.products[product].name.value;
    let lasts = made.problem.tasks[task].lasts;
    let turns = turns(&step.action, name, lasts, place.kitchen).into_iter();
    let entries = turns.map(|turn| Entry {
        words: turn.words,
        batch: owner(batches, about),
        begins_min: (starts[task] + turn.after_min).into(),
        lasts_min: HANDLING_MIN.into(),
        occupies: vec![Occupied::one(Resource::Hands)],
        kind: Kind::Work,
        note: String::new(),
        alarm: true,
    });
    entries.collect()
}

/// Tins and trays to lay ready.
fn tins(batches: &[Batch<'_>], made: &Made, starts: &[i32]) -> Vec<Entry> {
    let mut all = Vec::new();
    for (task, about) in made.about.iter().enumerate() {
        let Some((product, load)) = about.product else {
            continue;
        };
        let first = made
            .about
            .iter()
            .position(|other| other.batch == about.batch && other.product == Some((product, load)));
        let recipe = batches[about.batch].recipe;
        let (Some(tin), true) = (&recipe.products[product].tin, first == Some(task)) else {
            continue;
        };
        let count = about.load.map_or(1, |load| load.tins);
        let name = &tin.name.value;
        let words = if count == 1 {
            format!("Lay ready, greased or lined: {name}")
        } else {
            format!("Lay ready, greased or lined: {count} of {name}")
        };
        all.push(Entry {
            words,
            batch: owner(batches, about),
            begins_min: (starts[task] - TIN_MIN).into(),
            lasts_min: 0,
            occupies: Vec::new(),
            kind: Kind::Ready,
            note: String::new(),
            alarm: false,
        });
    }
    all
}

/// What the oven does between the bakes.
fn oven(made: &Made, starts: &[i32]) -> Vec<Entry> {
    let mut bakes: Vec<(i32, i32, f64, f64)> = made
        .problem
        .oven
        .bakes
        .iter()
        .filter_map(|task| {
            let (first, last) = made.about[*task].dial?;
            let ends = starts[*task] + made.problem.tasks[*task].lasts;
            Some((starts[*task], ends, first, last))
        })
        .collect();
    bakes.sort_by_key(|bake| (bake.0, bake.1));
    let mut all = Vec::new();
    let mut hot: Option<(i32, f64)> = None;
    for (begins, ends, first, last) in bakes {
        let cold = heat_min(first);
        let idle = hot.map(|(until, _)| begins - until);
        let (words, lasts, note) = match (hot, idle) {
            (Some((_, now)), Some(idle)) if idle <= cold + OFF_MIN => {
                if (now - first).abs() < 0.5 {
                    hot = Some((ends.max(hot.map_or(0, |hot| hot.0)), last));
                    continue;
                }
                let way = if first < now { "down" } else { "up" };
                let words = format!("Turn the oven {way} to {}", dial(first));
                (words, change_min(now, first), String::new())
            }
            (before, _) => {
                let note = if before.is_some() {
                    "It was off since the last bake."
                } else {
                    "Look that it is empty."
                };
                let words = format!("Heat the oven to {}", dial(first));
                (words, cold, note.to_owned())
            }
        };
        all.push(Entry {
            words,
            batch: String::new(),
            begins_min: (begins - lasts).into(),
            lasts_min: lasts.into(),
            occupies: vec![Occupied::one(Resource::Oven)],
            kind: Kind::Heats,
            note,
            alarm: true,
        });
        hot = Some((ends, last));
    }
    all
}

/// A dial in both scales: "175 °C / 350 °F", the Fahrenheit by 25 where that is within 8, as dials have it.
pub(super) fn dial(celsius: f64) -> String {
    let exact = celsius * 9.0 / 5.0 + 32.0;
    let by = |step: f64| (exact / step).round() * step;
    let shown = if (by(25.0) - exact).abs() <= 8.0 {
        by(25.0)
    } else {
        by(5.0)
    };
    format!(
        "{}\u{a0}°C / {}\u{a0}°F",
        fixed(celsius, 0),
        fixed(shown, 0)
    )
}

/// When a stay ends in a plan: for whoever counts places.
pub fn until(stay: &Stay, starts: &[i32]) -> i32 {
    starts[stay.to] + stay.beyond
}
