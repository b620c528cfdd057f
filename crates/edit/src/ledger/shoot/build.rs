//! Writes the lines of a filming day.

use super::model::{BatchLine, FilmLines, OvenLine, SceneLine, ShotLine, SwapLine};
use super::sheets::{call, cautions, holds, labels, shopping_of, trade};
use super::shown;
use crate::Inputs;
use crate::ledger::model::{Figure, Ledger};
use crate::ledger::timetable::{Hours, day_words, on_its_day, table_lines};
use crate::ledger::{figure, say};
use numerics::quantity::{Duration, Fraction, Temperature};
use plan::shoot::{Batch, FilmDay, process_of};
use recipe::document::model::SceneFile;
use recipe::provenance::{Had, Origin};

/// What the lines are written from.
pub struct Filmed<'a> {
    /// The recipe with its sums.
    pub inputs: Inputs<'a>,
    /// Its ledger.
    pub ledger: &'a Ledger,
    /// The scenes as written.
    pub file: &'a SceneFile,
    /// The plan.
    pub day: &'a FilmDay,
    /// The kitchen whose worked-out minutes are planned with; none for the author's own.
    pub reckoned_in: Option<&'a str>,
    /// How hours are written.
    pub hours: Hours,
}

/// Minutes as words.
pub(super) fn minutes(count: i64) -> String {
    say::duration(Duration::from_minutes(count as f64))
}

/// Seconds of so many minutes.
pub(super) fn seconds(count: i64) -> f64 {
    Duration::from_minutes(count as f64).si()
}

impl Filmed<'_> {
    /// The clock of a minute, with its day where that is not the day of filming.
    pub(super) fn clock(&self, minute: i64) -> String {
        let table = &self.day.table;
        on_its_day(table.clock(minute), table.starts.date(), self.hours)
    }

    pub(super) fn at(&self, name: String, minute: i64) -> Figure {
        let origin = Origin::new("the plan of the day", Had::Derived);
        figure(
            name,
            seconds(minute),
            Duration::SI,
            self.clock(minute),
            origin,
        )
    }

    /// The state that a scene asks for, as written.
    pub(super) fn state(&self, need: usize) -> &str {
        let need = &self.day.needs[need];
        self.file.scenes[need.scene]
            .needs
            .get(need.nth)
            .map_or("", |state| state.value.as_str())
    }

    /// Which batch serves a need.
    fn batch_of(&self, need: usize) -> Option<usize> {
        self.day.batches.iter().position(|batch| {
            batch.serves.contains(&need)
                || batch.feeds.iter().any(|feed| feed.serves.contains(&need))
        })
    }

    pub(super) fn scene_name(&self, need: usize) -> &str {
        &self.day.scenes[self.day.needs[need].scene].name
    }
}

/// Every line.
pub fn film_lines(filmed: &Filmed<'_>) -> FilmLines {
    let day = filmed.day;
    let count = day.batches.len();
    let batches = if count == 1 { "batch" } else { "batches" };
    let sure = if day.proven {
        "the fewest that can do it"
    } else {
        "the fewest that were found"
    };
    let mut table = table_lines(&day.table, filmed.hours);
    dials(filmed, &mut table);
    FilmLines {
        title: filmed.file.shoot.value.clone(),
        recipe: filmed.ledger.title.clone(),
        date: day_words(day.table.starts),
        fewest: format!("{count} {batches} of dough, {sure}"),
        batches_figure: figure(
            "shoot.batches",
            count as f64,
            Fraction::SI,
            format!("{count} {batches}"),
            Origin::new(
                "exact search over all groupings of the scenes",
                Had::Derived,
            ),
        ),
        times: match filmed.reckoned_in {
            None => "Ages of doughs are the author’s written times.".to_owned(),
            Some(kitchen) => format!(
                "Rises, rests, bakes and cooling take what they come to in {kitchen}, worked out; hands’ work is as written."
            ),
        },
        scenes: scenes(filmed),
        batches: day
            .batches
            .iter()
            .enumerate()
            .map(|(nth, batch)| batch_line(filmed, nth, batch))
            .collect(),
        extras: extras(filmed),
        swaps: swaps(filmed),
        oven: oven(filmed),
        refrigerator: day.fridge_peak.map(|(count, minute)| {
            let trays = if count == 1 { "tray" } else { "trays" };
            format!(
                "at most {count} {trays} at once, first at {}",
                filmed.clock(minute)
            )
        }),
        trade: trade(filmed),
        labels: labels(filmed),
        call: call(filmed),
        shopping: shopping_of(filmed),
        table,
        cautions: cautions(filmed.ledger),
        contains: filmed.ledger.allergens.contains.clone(),
        holds: holds(filmed),
    }
}

/// Bakes and heating tell what the dial says.
fn dials(filmed: &Filmed<'_>, table: &mut crate::ledger::timetable::TableLines) {
    use plan::timetable::Kind;
    for row in &mut table.rows {
        let minute = match row.kind {
            Kind::Bakes => row.begins_min,
            Kind::Heats => row.ends_min,
            _ => continue,
        };
        let recipe = filmed.inputs.recipe;
        let bake = filmed.day.bakes.iter().find(|bake| {
            bake.from_min == minute
                && row
                    .words
                    .ends_with(&recipe.products[bake.product].name.value)
        });
        if let Some(bake) = bake {
            let dial = say::oven(bake.first);
            row.note = if row.note.is_empty() {
                dial
            } else {
                format!("{dial}; {}", row.note)
            };
        }
    }
}

fn scenes(filmed: &Filmed<'_>) -> Vec<SceneLine> {
    let mut lines = Vec::new();
    for (at, (plan, entry)) in filmed
        .day
        .scenes
        .iter()
        .zip(&filmed.file.scenes)
        .enumerate()
    {
        let place = format!("shoot.scene.{}", plan.name);
        let lasts = plan.ends_min - plan.at_min;
        let needs = plan.needs.iter().map(|need| match filmed.batch_of(*need) {
            Some(batch) => format!("{}, batch {}", filmed.state(*need), batch + 1),
            None => format!("{}, made for it", filmed.state(*need)),
        });
        let shots = entry.shots.iter().enumerate().map(|(nth, shot)| ShotLine {
            number: format!("{}/{}", plan.name, nth + 1),
            size: shot.size.value.word(),
            of: shot.of.value.clone(),
            moves: shot.moves.as_ref().map(|moves| moves.value.clone()),
            sound: shot.sound.as_ref().map(|sound| sound.value.clone()),
        });
        lines.push(SceneLine {
            name: plan.name.clone(),
            about: plan.about.clone(),
            begins: filmed.at(format!("{place}.begins"), plan.at_min),
            takes: figure(
                format!("{place}.takes"),
                seconds(lasts),
                Duration::SI,
                minutes(lasts),
                Origin::new("the file of scenes", Had::Written),
            ),
            needs: needs.collect(),
            figures: shown::figures(filmed.ledger, filmed.day, at),
            says: entry.says.iter().map(|says| says.value.clone()).collect(),
            note: entry.note.as_ref().map(|note| note.value.clone()),
            shots: shots.collect(),
        });
    }
    lines
}

fn batch_line(filmed: &Filmed<'_>, nth: usize, batch: &Batch) -> BatchLine {
    let process = &filmed.day.processes[batch.process];
    let place = format!("shoot.batch.{}", nth + 1);
    let mut names: Vec<&str> = batch
        .serves
        .iter()
        .map(|need| filmed.scene_name(*need))
        .collect();
    for feed in &batch.feeds {
        names.extend(feed.serves.iter().map(|need| filmed.scene_name(*need)));
    }
    names.sort_unstable_by_key(|name| {
        filmed
            .day
            .scenes
            .iter()
            .position(|scene| scene.name == **name)
    });
    names.dedup();
    let mut holds: Vec<String> = first_work(filmed, batch).into_iter().collect();
    for (at, point) in process.points.iter().enumerate() {
        let stay = batch.stays[at];
        let waits = stay.leaves_min - stay.arrives_min;
        if batch.followed[at] && waits > 0 && !point.state.is_empty() {
            holds.push(format!(
                "{} {} of {}, {}",
                point.name(),
                minutes(waits),
                minutes(point.keeps_min),
                stay.place(point).words()
            ));
        }
    }
    let begun = |product: usize| {
        let mut points = process.points.iter().enumerate();
        points.any(|(at, point)| point.product == Some(product) && batch.followed[at])
    };
    let recipe = filmed.inputs.recipe;
    let spare: Vec<String> = recipe
        .products
        .iter()
        .enumerate()
        .filter(|(at, product)| product.from.value == process.of && !begun(*at))
        .map(|(_, product)| product.name.value.clone())
        .collect();
    BatchLine {
        name: format!("Batch {}", nth + 1),
        starts: filmed.at(format!("{place}.starts"), batch.start_min),
        latest: filmed.at(format!("{place}.latest"), batch.window.1),
        serves: names.join(", "),
        holds,
        on_camera: batch.on_camera,
        spare: (!spare.is_empty()).then(|| say::list(&spare)),
    }
}

/// What is made before the mix from which a batch counts: a paste that is cooked, a preferment.
fn first_work(filmed: &Filmed<'_>, batch: &Batch) -> Option<String> {
    let begun = batch.feeds.iter().map(|feed| {
        let starts_min = feed.stays[feed.process.start].leaves_min;
        (starts_min, feed.process.of.as_str())
    });
    let before = begun.filter(|(starts_min, _)| *starts_min < batch.start_min);
    let (starts_min, of) = before.min()?;
    Some(format!(
        "its first work is the {of}, at {}",
        filmed.clock(starts_min)
    ))
}

/// What is made for scenes alone.
pub(super) fn extras(filmed: &Filmed<'_>) -> Vec<String> {
    let of = |extra: &plan::shoot::Extra| {
        let first = &filmed.day.needs[extra.serves[0]];
        let process = process_of(&filmed.day.processes, first);
        let mut names: Vec<String> = extra
            .serves
            .iter()
            .map(|need| filmed.scene_name(*need).to_owned())
            .collect();
        names.dedup();
        let starts = filmed.clock(extra.stays[process.start].leaves_min);
        let items: Vec<String> = filmed
            .ledger
            .stages
            .iter()
            .filter(|stage| stage.heading.eq_ignore_ascii_case(&process.of))
            .flat_map(|stage| &stage.items)
            .filter_map(|item| Some(format!("{} {}", item.grams.as_ref()?.shown, item.name)))
            .collect();
        let items = if items.is_empty() {
            String::new()
        } else {
            format!(": {}", say::list(&items))
        };
        format!(
            "{} once more for {}, begun at {starts}{items}.",
            say::capital(&process.of),
            say::list(&names)
        )
    };
    filmed.day.extras.iter().map(of).collect()
}

fn swaps(filmed: &Filmed<'_>) -> Vec<SwapLine> {
    let mut lines = Vec::new();
    for (at, need) in filmed.day.needs.iter().enumerate() {
        let Some(nth) = filmed.batch_of(at) else {
            continue;
        };
        let batch = &filmed.day.batches[nth];
        let feed = batch.feeds.iter().find(|feed| feed.serves.contains(&at));
        let (process, stays) = match feed {
            Some(feed) => (&feed.process, &feed.stays),
            None => (&filmed.day.processes[batch.process], &batch.stays),
        };
        let point = &process.points[need.point];
        let waits = need.at_min - stays[need.point].arrives_min;
        let spare = filmed
            .day
            .batches
            .iter()
            .enumerate()
            .find(|(other, batch)| {
                let stay = batch.stays.get(need.point);
                feed.is_none()
                    && *other != nth
                    && filmed.day.processes[batch.process].of
                        == filmed.day.processes[need.process].of
                    && batch.followed[need.point]
                    && stay.is_some_and(|stay| {
                        stay.arrives_min <= need.at_min
                            && need.at_min <= stay.leaves_min.max(stay.arrives_min)
                    })
            });
        let scene = &filmed.day.scenes[need.scene];
        lines.push(SwapLine {
            scene: scene.name.clone(),
            state: filmed.state(at).to_owned(),
            at: filmed.at(
                format!("shoot.swap.{}.{}", scene.name, need.nth + 1),
                need.at_min,
            ),
            batch: format!("batch {}", nth + 1),
            started: filmed.clock(batch.start_min),
            waits: (waits > 0).then(|| {
                format!(
                    "waits {} {}, keeps {}",
                    minutes(waits),
                    stays[need.point].place(point).words(),
                    minutes(point.keeps_min)
                )
            }),
            spare: spare.map(|(other, _)| format!("batch {}", other + 1)),
        });
    }
    lines
}

fn oven(filmed: &Filmed<'_>) -> Vec<OvenLine> {
    let several = filmed
        .file
        .ovens
        .as_ref()
        .is_some_and(|ovens| ovens.value > 1);
    let mut lines = Vec::new();
    for (nth, bake) in filmed.day.bakes.iter().enumerate() {
        let name = &filmed.inputs.recipe.products[bake.product].name.value;
        let place = format!("shoot.bake.{}", nth + 1);
        let which = if several {
            format!(", oven {}", bake.oven + 1)
        } else {
            String::new()
        };
        lines.push(OvenLine {
            begins: filmed.at(format!("{place}.begins"), bake.from_min),
            ends: filmed.at(format!("{place}.ends"), bake.to_min),
            what: format!("{name}, batch {}{which}", bake.batch + 1),
            dial: figure(
                format!("{place}.dial"),
                bake.first.si(),
                Temperature::SI,
                say::oven(bake.first),
                Origin::new("the recipe", Had::Written),
            ),
            why: match bake.for_scene {
                Some(scene) => format!("for {}", filmed.day.scenes[scene].name),
                None => "for no scene, may move".to_owned(),
            },
        });
    }
    lines
}
