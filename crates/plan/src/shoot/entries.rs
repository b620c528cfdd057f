//! A planned filming day as entries of a timetable.

use super::batch::Stay;
use super::holds::Place;
use super::model::{Batch, FilmDay};
use super::oven::change;
use super::plan::Inputs;
use super::process::{Doing, Process, Run};
use super::words::{capital, of_run, spell};
use crate::timetable::{Entry, Kind, Occupied, Resource};
use recipe::document::model::Action;

/// A shorter wait than this is not worth a line, minutes (ours).
const SHORT_MIN: i64 = 2;

/// Writes the entries of a day.
pub fn table(inputs: &Inputs<'_>, day: &mut FilmDay) {
    let mut entries = Vec::new();
    for scene in &day.scenes {
        let needs: Vec<String> = scene
            .needs
            .iter()
            .map(|at| served(inputs, day, *at))
            .collect();
        entries.push(Entry {
            words: format!("{} {}", scene.name, scene.about),
            batch: String::new(),
            begins_min: scene.at_min,
            lasts_min: scene.ends_min - scene.at_min,
            occupies: vec![Occupied::one(Resource::Scene)],
            kind: Kind::Scene,
            note: needs.join("; "),
            alarm: true,
        });
    }
    if let Some((from, to)) = day.meal {
        entries.push(plain("Meal", from, to - from, Kind::Pause));
    }
    entries.push(plain("Call", day.call_min, 0, Kind::Mark));
    entries.push(plain("Wrap", day.wrap_min, 0, Kind::Mark));
    for (nth, batch) in day.batches.iter().enumerate() {
        batch_entries(inputs, day, nth, batch, &mut entries);
    }
    for extra in &day.extras {
        let process = follow(&day.processes[extra.process], &extra.path);
        let shown: Vec<bool> = (0..process.points.len())
            .map(|at| at <= extra.last)
            .collect();
        let filmed = filmed(inputs, &extra.serves);
        let label = format!(
            "{} for {}",
            capital(&process.of),
            scene_names(inputs, &extra.serves)
        );
        runs(process, &extra.stays, &shown, &filmed, &label, &mut entries);
    }
    heats(inputs, day, &mut entries);
    entries.sort_by(|a, b| {
        (a.begins_min, a.kind, &a.batch, &a.words).cmp(&(b.begins_min, b.kind, &b.batch, &b.words))
    });
    day.table.entries = entries;
    let one = |what: Resource, count: usize| Occupied {
        what,
        count: u32::try_from(count).unwrap_or(u32::MAX),
    };
    let stock = inputs.stock;
    day.table.has = vec![
        one(Resource::Scene, 1),
        one(Resource::Hands, stock.hands),
        one(Resource::Mixer, stock.mixers),
        one(Resource::Oven, stock.ovens.count * stock.ovens.racks),
    ];
    if let Some(shelves) = stock.shelves {
        day.table.has.push(one(Resource::Refrigerator, shelves));
    }
}

fn plain(words: &str, begins_min: i64, lasts_min: i64, kind: Kind) -> Entry {
    Entry {
        words: words.to_owned(),
        batch: String::new(),
        begins_min,
        lasts_min,
        occupies: Vec::new(),
        kind,
        note: String::new(),
        alarm: false,
    }
}

/// "loaf proofed from batch 1".
fn served(inputs: &Inputs<'_>, day: &FilmDay, at: usize) -> String {
    let written = written_state(inputs, at);
    let by = day.batches.iter().position(|batch| {
        batch.serves.contains(&at) || batch.feeds.iter().any(|f| f.serves.contains(&at))
    });
    match by {
        Some(nth) => format!("{written}, batch {}", nth + 1),
        None => format!("{written}, made for it"),
    }
}

/// The state as the file of scenes has it.
pub fn written_state(inputs: &Inputs<'_>, at: usize) -> String {
    let need = &inputs.needs[at];
    let scene = &inputs.file.scenes[need.scene];
    scene
        .needs
        .get(need.nth)
        .map_or_else(String::new, |state| state.value.clone())
}

/// "S07, S08".
fn scene_names(inputs: &Inputs<'_>, serves: &[usize]) -> String {
    let mut names: Vec<&str> = serves
        .iter()
        .map(|at| inputs.scenes[inputs.needs[*at].scene].name.as_str())
        .collect();
    names.dedup();
    names.join(", ")
}

fn follow<'a>(process: &'a Process, path: &[usize]) -> &'a Process {
    path.iter()
        .fold(process, |process, nth| &process.feeds[*nth])
}

/// Points at which work begins before the camera, with the names of the scenes.
fn filmed(inputs: &Inputs<'_>, serves: &[usize]) -> Vec<(usize, String)> {
    serves
        .iter()
        .map(|at| &inputs.needs[*at])
        .filter(|need| need.works)
        .map(|need| (need.point, inputs.scenes[need.scene].name.clone()))
        .collect()
}

fn batch_entries(
    inputs: &Inputs<'_>,
    day: &FilmDay,
    nth: usize,
    batch: &Batch,
    entries: &mut Vec<Entry>,
) {
    let process = &day.processes[batch.process];
    let label = format!("Batch {}", nth + 1);
    let filmed_here = filmed(inputs, &batch.serves);
    let before = entries.len();
    runs(
        process,
        &batch.stays,
        &batch.followed,
        &filmed_here,
        &label,
        entries,
    );
    // Bread that has to wait for its oven goes in when the oven is free.
    for bake in day.bakes.iter().filter(|bake| bake.batch == nth) {
        let run = &process.runs[bake.run];
        let words = of_run(process, run);
        let label = format!("{label}, {}", process.points[run.to].of);
        for entry in &mut entries[before..] {
            if entry.batch == label && entry.kind == Kind::Bakes && entry.words == words {
                entry.begins_min = bake.from_min;
                entry.note = oven_note(inputs, bake.oven, bake.for_scene);
            }
            if entry.batch == label && entry.kind == Kind::Cools && bake.late_min > 0 {
                let ends = entry.ends_min();
                entry.begins_min = bake.to_min;
                entry.lasts_min = (ends - bake.to_min).max(0);
            }
        }
    }
    for feed in batch.feeds.iter().chain(&batch.sides) {
        let filmed = filmed(inputs, &feed.serves);
        let shown = vec![true; feed.process.points.len()];
        let label = format!("{label}, {}", feed.process.of);
        runs(&feed.process, &feed.stays, &shown, &filmed, &label, entries);
    }
    ready(inputs, process, batch, &label, entries);
}

fn oven_note(inputs: &Inputs<'_>, oven: usize, scene: Option<usize>) -> String {
    let which = if inputs.stock.ovens.count > 1 {
        format!("oven {}", oven + 1)
    } else {
        String::new()
    };
    let why = match scene {
        Some(scene) => format!("for {}", inputs.scenes[scene].name),
        None => "for no scene; may move".to_owned(),
    };
    if which.is_empty() {
        why
    } else {
        format!("{which}; {why}")
    }
}

/// Runs and waits of one process.
fn runs(
    process: &Process,
    stays: &[Stay],
    shown: &[bool],
    filmed: &[(usize, String)],
    label: &str,
    entries: &mut Vec<Entry>,
) {
    let mut divided = false;
    for run in &process.runs {
        if !shown[run.to] || run.takes_min == 0 {
            continue;
        }
        // The dough is divided once, for all its products.
        if run.what == Doing::Hands("divide") {
            if divided {
                continue;
            }
            divided = true;
        }
        let entry = of(process, stays, run, filmed, label);
        // A rise goes on over its fold, a mix over its second speed.
        match entries.last_mut().filter(|last| goes_on(last, &entry)) {
            Some(last) => last.lasts_min += entry.lasts_min,
            None => entries.push(entry),
        }
    }
    for (at, point) in process.points.iter().enumerate() {
        let stay = stays[at];
        let waits = stay.leaves_min - stay.arrives_min;
        if !shown[at] || waits < SHORT_MIN || point.state.is_empty() && point.product.is_none() {
            continue;
        }
        let place = stay.place(point);
        let cold = place == Place::Refrigerator;
        let state = if point.state.is_empty() {
            "divided"
        } else {
            point.state.as_str()
        };
        entries.push(Entry {
            words: format!("{}: wait, {state}", capital(&point.of)),
            batch: batch_of(label, process, &point.of),
            begins_min: stay.arrives_min,
            lasts_min: waits,
            occupies: if cold {
                vec![Occupied::one(Resource::Refrigerator)]
            } else {
                Vec::new()
            },
            kind: Kind::Waits,
            note: format!("{}, {} at most", place.words(), spell(point.keeps_min)),
            alarm: false,
        });
    }
}

fn goes_on(last: &Entry, next: &Entry) -> bool {
    // Work of which only a part is filmed takes hands beside the camera for the other part.
    (&last.words, &last.batch, last.ends_min(), &last.occupies)
        == (&next.words, &next.batch, next.begins_min, &next.occupies)
}

fn batch_of(label: &str, process: &Process, of: &str) -> String {
    if of == process.of {
        label.to_owned()
    } else {
        format!("{label}, {of}")
    }
}

fn of(
    process: &Process,
    stays: &[Stay],
    run: &Run,
    filmed: &[(usize, String)],
    label: &str,
) -> Entry {
    let on_camera = filmed.iter().find(|(point, _)| *point == run.from);
    let hands = matches!(run.what, Doing::Mixes | Doing::Hands(_));
    let mut occupies = Vec::new();
    if hands && on_camera.is_none() {
        occupies.push(Occupied::one(Resource::Hands));
    }
    let kind = match run.what {
        Doing::Mixes => {
            occupies.push(Occupied::one(Resource::Mixer));
            Kind::Work
        }
        Doing::Hands(_) => Kind::Work,
        Doing::Stands { cold, warm } => {
            if cold {
                occupies.push(Occupied::one(Resource::Refrigerator));
            } else if warm {
                occupies.push(Occupied::one(Resource::WarmPlace));
            }
            Kind::Stands
        }
        Doing::Bakes { .. } => {
            occupies.push(Occupied::one(Resource::Oven));
            Kind::Bakes
        }
        Doing::Cools => Kind::Cools,
    };
    let words = of_run(process, run);
    let to = &process.points[run.to];
    let of = if run.what == Doing::Hands("divide") {
        &process.of
    } else {
        &to.of
    };
    Entry {
        words,
        batch: batch_of(label, process, of),
        begins_min: stays[run.from].leaves_min,
        lasts_min: run.takes_min,
        occupies,
        kind,
        note: on_camera.map_or_else(String::new, |(_, scene)| format!("on camera in {scene}")),
        alarm: matches!(kind, Kind::Work | Kind::Bakes) && on_camera.is_none(),
    }
}

/// Folds, and what is taken out beforehand.
fn ready(
    inputs: &Inputs<'_>,
    process: &Process,
    batch: &Batch,
    label: &str,
    entries: &mut Vec<Entry>,
) {
    let Some(stage) = inputs
        .recipe
        .stages
        .iter()
        .find(|stage| stage.name.value == process.of)
    else {
        return;
    };
    for step in &stage.steps {
        match &step.action {
            Action::Ready {
                what,
                before,
                timing,
            } => {
                let names: Vec<&str> = what.iter().map(|name| name.value.as_str()).collect();
                let begins = batch.start_min - super::process::whole_minutes(before.value);
                let mut entry = plain(
                    &format!("Take out {}", names.join(", ")),
                    begins,
                    super::process::whole_minutes(timing.usual.value),
                    Kind::Ready,
                );
                label.clone_into(&mut entry.batch);
                entry.alarm = true;
                entries.push(entry);
            }
            Action::Fold { timing, .. } => {
                for (at, point) in process.points.iter().enumerate() {
                    if batch.followed[at]
                        && point.begins.iter().any(|word| word.starts_with("folding"))
                    {
                        let filmed = filmed(inputs, &batch.serves);
                        let on_camera = filmed.iter().find(|(point, _)| *point == at);
                        let mut entry = plain(
                            &format!("Fold the {}", point.of),
                            batch.stays[at].leaves_min,
                            super::process::whole_minutes(timing.usual.value),
                            Kind::Work,
                        );
                        label.clone_into(&mut entry.batch);
                        if let Some((_, scene)) = on_camera {
                            entry.note = format!("on camera in {scene}");
                        } else {
                            entry.occupies.push(Occupied::one(Resource::Hands));
                            entry.alarm = true;
                        }
                        entries.push(entry);
                    }
                }
            }
            _ => {}
        }
    }
}

/// Ovens that heat up or change: as long as the first preheating of the recipe says, 25 min where it says
/// nothing (common practice), and by degrees between two breads.
fn heats(inputs: &Inputs<'_>, day: &FilmDay, entries: &mut Vec<Entry>) {
    let mut steps = inputs
        .recipe
        .products
        .iter()
        .flat_map(|product| &product.steps);
    let written = steps
        .find_map(|step| match &step.action {
            Action::Preheat { timing, .. } => {
                Some(super::process::whole_minutes(timing.usual.value))
            }
            _ => None,
        })
        .unwrap_or(25);
    for oven in 0..inputs.stock.ovens.count {
        let mut last: Option<(i64, numerics::quantity::Temperature)> = None;
        for bake in day.bakes.iter().filter(|bake| bake.oven == oven) {
            let takes = match last {
                None => written,
                Some((_, dial)) => change(&inputs.stock.ovens, dial, bake.first),
            };
            let ends = last.map_or(i64::MIN, |(ends, _)| ends);
            if takes > 0 {
                let which = if inputs.stock.ovens.count > 1 {
                    format!("oven {}", oven + 1)
                } else {
                    "the oven".to_owned()
                };
                let does = if last.is_none() { "Heat" } else { "Change" };
                let bread = &inputs.recipe.products[bake.product].name.value;
                let words = format!("{does} {which} for the {bread}");
                let mut entry = plain(&words, bake.from_min - takes, takes, Kind::Heats);
                entry.alarm = true;
                entries.push(entry);
            }
            last = Some((ends.max(bake.to_min), bake.last));
        }
    }
}
