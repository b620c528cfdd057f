//! Scenes on the clock and their needs as points of a process, with everything that does not fit.

use super::batch::Need;
use super::code;
use super::model::ScenePlan;
use super::process::{Process, whole_minutes};
use crate::timetable::minutes_between;
use jiff::civil::{DateTime, Time};
use jiff::tz::TimeZone;
use recipe::document::model::{Recipe, SceneFile};
use recipe::source::{Diagnostic, Located, listed, near};

/// Minutes between two scenes where nobody says (common practice).
const SET_UP_MIN: i64 = 5;
/// Minutes of clearing away where nobody says (common practice).
const WRAP_MIN: i64 = 30;

/// The first scene where nobody says when the day begins: nine o'clock (ours).
const NO_CALL_MIN: i64 = 9 * 60;

/// Midnight before the day, and its zone.
pub struct Midnight {
    /// The clock at minute 0.
    pub starts: DateTime,
    /// Where it hangs.
    pub zone: Option<TimeZone>,
}

impl Midnight {
    /// Minute of a time of that day.
    pub fn minute(&self, time: Time) -> i64 {
        let at = self.starts.date().to_datetime(time);
        minutes_between(self.starts, at, self.zone.as_ref())
    }

    /// "13:05", for what is said; "22:27 on Friday" where that is not the day of filming.
    pub fn clock(&self, minute: i64) -> String {
        let at = crate::timetable::clock(self.starts, self.zone.as_ref(), minute);
        let time = format!("{:02}:{:02}", at.hour(), at.minute());
        if at.date() == self.starts.date() {
            return time;
        }
        format!("{time} on {}", at.strftime("%A"))
    }
}

/// Midnight of a file's day.
pub fn midnight(file: &SceneFile, said: &mut Vec<Diagnostic>) -> Midnight {
    let zone =
        file.zone.as_ref().and_then(|name| {
            if let Ok(zone) = TimeZone::get(&name.value) {
                Some(zone)
            } else {
                said.push(
            Diagnostic::at(
                code::ZONE_UNKNOWN,
                name.span,
                format!("“{}” is no zone of the zone database.", name.value),
            )
            .hint("Write a continent and a city, as in zone = \"Europe/Oslo\", or leave it out."),
        );
                None
            }
        });
    Midnight {
        starts: file.day.value.to_datetime(Time::midnight()),
        zone,
    }
}

/// A state that can be filmed.
struct State {
    name: String,
    process: usize,
    feed: Vec<usize>,
    point: usize,
    works: bool,
}

/// Every state of every process, feeds after the doughs that they go into.
fn states(processes: &[Process]) -> Vec<State> {
    fn of(process: &Process, place: usize, feed: &[usize], all: &mut Vec<State>) {
        for (point, one) in process.points.iter().enumerate() {
            let mut add = |word: &str, works: bool| {
                let name = format!("{} {word}", one.of);
                if !word.is_empty() && !all.iter().any(|known: &State| known.name == name) {
                    all.push(State {
                        name,
                        process: place,
                        feed: feed.to_vec(),
                        point,
                        works,
                    });
                }
            };
            add(&one.state, false);
            for begins in &one.begins {
                add(begins, true);
            }
        }
        for (nth, inner) in process.feeds.iter().enumerate() {
            let mut way = feed.to_vec();
            way.push(nth);
            of(inner, place, &way, all);
        }
    }
    let mut all = Vec::new();
    for (place, process) in processes.iter().enumerate() {
        of(process, place, &[], &mut all);
    }
    all
}

/// The names of every state, in the order of work.
pub fn state_names(processes: &[Process]) -> Vec<String> {
    states(processes)
        .into_iter()
        .map(|state| state.name)
        .collect()
}

fn unknown(written: &Located<String>, states: &[State], what: &str) -> Diagnostic {
    let names: Vec<&str> = states.iter().map(|state| state.name.as_str()).collect();
    let said = Diagnostic::at(
        code::SCENE_STATE_UNKNOWN,
        written.span,
        format!(
            "{what} “{}”, a state that this recipe never comes to.",
            written.value
        ),
    );
    let said = match near(&written.value, names.iter().copied()) {
        Some(meant) => said.hint(format!("Was “{meant}” meant?")),
        None => said,
    };
    // Of a thing that there is, what it comes to; otherwise everything.
    let own: Vec<&str> = names
        .iter()
        .copied()
        .filter(|name| {
            let (of, _) = name.rsplit_once(' ').unwrap_or((name, ""));
            written.value.starts_with(&format!("{of} "))
        })
        .collect();
    let own = if own.is_empty() { names } else { own };
    said.hint(format!("Its states are {}.", listed(&own, "and")))
}

/// Puts the holds of the file in the place of the usual ones.
pub fn hold(processes: &mut [Process], file: &SceneFile, said: &mut Vec<Diagnostic>) {
    fn set(process: &mut Process, name: &str, minutes: i64) -> bool {
        let mut found = false;
        for point in &mut process.points {
            let own = point.name();
            if !point.state.is_empty() && (own == name || point.state == name) {
                point.keeps_min = minutes;
                found = true;
            }
        }
        for feed in &mut process.feeds {
            found |= set(feed, name, minutes);
        }
        found
    }
    for hold in &file.holds {
        let minutes = whole_minutes(hold.up_to.value);
        let mut found = false;
        for process in processes.iter_mut() {
            found |= set(process, &hold.at.value, minutes);
        }
        if !found {
            said.push(unknown(&hold.at, &states(processes), "This hold is of"));
        }
    }
}

/// The process that a need names.
pub fn process_of<'a>(processes: &'a [Process], need: &Need) -> &'a Process {
    let whole = &processes[need.process];
    need.feed
        .iter()
        .fold(whole, |process, nth| &process.feeds[*nth])
}

/// Scenes on the clock: each at its own time, or after the one before it and around the meal.
pub fn clocked(
    file: &SceneFile,
    midnight: &Midnight,
    meal: Option<(i64, i64)>,
    said: &mut Vec<Diagnostic>,
) -> Vec<ScenePlan> {
    let between = file
        .set_up
        .as_ref()
        .map_or(SET_UP_MIN, |set_up| whole_minutes(set_up.value));
    let mut scenes: Vec<ScenePlan> = Vec::new();
    for entry in &file.scenes {
        let first = scenes.is_empty();
        let own = entry
            .set_up
            .as_ref()
            .map(|set_up| whole_minutes(set_up.value));
        let set_up = own.unwrap_or(if first { 0 } else { between });
        let lasts = whole_minutes(entry.lasts.value);
        let free = scenes.last().map(|scene| scene.ends_min);
        let at_min = match (&entry.at, free) {
            (Some(at), _) => midnight.minute(at.value),
            (None, Some(free)) => around(free, set_up, lasts, meal),
            (None, None) => {
                let call = file.call.as_ref().map(|call| midnight.minute(call.value));
                if call.is_none() {
                    said.push(no_call(entry.name.span));
                }
                call.unwrap_or(NO_CALL_MIN) + set_up
            }
        };
        if let (Some(at), Some(before)) = (&entry.at, scenes.last()) {
            let (name, other) = (&entry.name.value, &before.name);
            if at_min < before.at_min {
                said.push(
                    Diagnostic::at(
                        code::SCENES_OUT_OF_ORDER,
                        at.span,
                        format!(
                            "{name} begins at {}, before {other} above it, which begins at {}.",
                            midnight.clock(at_min),
                            midnight.clock(before.at_min)
                        ),
                    )
                    .hint("Put the scenes in the order in which they are filmed."),
                );
            } else if at_min < before.ends_min + set_up {
                said.push(
                    Diagnostic::at(
                        code::SCENES_OVERLAP,
                        at.span,
                        format!(
                            "{name} begins at {}, but {other} is over at {} and {set_up} min of set-up come after it.",
                            midnight.clock(at_min),
                            midnight.clock(before.ends_min)
                        ),
                    )
                    .hint(format!(
                        "Write at = {}, or take the line out: the scene then follows the one above it.",
                        midnight.clock(before.ends_min + set_up)
                    )),
                );
            }
        }
        let ends_min = at_min + lasts;
        if let Some((from, to)) = meal
            && at_min < to
            && from < ends_min
        {
            said.push(
                Diagnostic::at(
                    code::SCENE_IN_MEAL,
                    entry.span,
                    format!(
                        "{} is filmed from {} to {}, and the meal is from {} to {}.",
                        entry.name.value,
                        midnight.clock(at_min),
                        midnight.clock(ends_min),
                        midnight.clock(from),
                        midnight.clock(to)
                    ),
                )
                .hint(format!(
                    "Begin the scene at {}, or move the meal.",
                    midnight.clock(to)
                )),
            );
        }
        scenes.push(ScenePlan {
            name: entry.name.value.clone(),
            about: entry.about.value.clone(),
            set_up_min: at_min - set_up,
            at_min,
            ends_min,
            needs: Vec::new(),
        });
    }
    scenes
}

fn no_call(span: recipe::source::Span) -> Diagnostic {
    Diagnostic::at(
        code::FIRST_CALL_UNKNOWN,
        span,
        "Nothing says when the day begins: the first scene is taken to be at 09:00.",
    )
    .hint("Write call = 08:30 above the scenes, or at = 09:00 in the first one.")
}

/// The first minute from `free` on at which a scene with its set-up keeps clear of the meal.
pub fn around(free: i64, set_up: i64, lasts: i64, meal: Option<(i64, i64)>) -> i64 {
    let at = free + set_up;
    match meal {
        Some((from, to)) if at < to && from < at + lasts => (to + set_up).max(at),
        _ => at,
    }
}

/// When all is cleared away.
pub fn wrapped(file: &SceneFile, last_min: i64) -> i64 {
    let wrap = file.wrap.as_ref();
    last_min + wrap.map_or(WRAP_MIN, |wrap| whole_minutes(wrap.value))
}

/// Whether the work that begins at a point ends in another; mixes that follow one another are one work.
fn ends_in(process: &Process, from: usize, to: usize) -> bool {
    let mut at = from;
    while let Some(run) = process.runs.iter().find(|run| run.from == at) {
        if run.to == to {
            return true;
        }
        if !process.points[run.to].state.is_empty() {
            return false;
        }
        at = run.to;
    }
    false
}

/// Says of a scene that it shows work and, from its first minute, the state that this work ends in: that is
/// another dough.
pub fn made_meanwhile(
    file: &SceneFile,
    processes: &[Process],
    needs: &[Need],
    said: &mut Vec<Diagnostic>,
) {
    for (one, other) in needs
        .iter()
        .flat_map(|one| needs.iter().map(move |other| (one, other)))
    {
        let same = one.scene == other.scene && one.process == other.process;
        if !same || !one.works || other.works || one.feed != other.feed {
            continue;
        }
        let process = process_of(processes, one);
        if !ends_in(process, one.point, other.point) {
            continue;
        }
        let scene = &file.scenes[one.scene];
        let (begun, ended) = (&scene.needs[one.nth].value, &scene.needs[other.nth].value);
        said.push(
            Diagnostic::at(
                code::MADE_IN_SCENE,
                scene.needs[other.nth].span,
                format!(
                    "{} shows “{begun}”, which ends with “{ended}”; that it is there from the first minute asks for another dough.",
                    scene.name.value
                ),
            )
            .hint(format!(
                "Take “{ended}” out if the scene ends with it; leave it if a second one stands ready."
            )),
        );
    }
}

/// The needs of every scene.
pub fn needs(
    recipe: &Recipe,
    file: &SceneFile,
    processes: &[Process],
    scenes: &mut [ScenePlan],
    said: &mut Vec<Diagnostic>,
) -> Vec<Need> {
    let states = states(processes);
    let mut all: Vec<Need> = Vec::new();
    for (scene, entry) in file.scenes.iter().enumerate() {
        let mut uses_up = Vec::new();
        for name in &entry.uses_up {
            match recipe
                .products
                .iter()
                .position(|p| p.name.value == name.value)
            {
                Some(product) => uses_up.push(product),
                None => said.push(no_product(recipe, name)),
            }
        }
        for (nth, written) in entry.needs.iter().enumerate() {
            let Some(state) = states.iter().find(|state| state.name == written.value) else {
                said.push(unknown(
                    written,
                    &states,
                    &format!("{} needs", entry.name.value),
                ));
                continue;
            };
            let mut need = Need {
                scene,
                nth,
                process: state.process,
                feed: state.feed.clone(),
                point: state.point,
                works: state.works,
                at_min: scenes[scene].at_min,
                held_min: 0,
                uses_up: uses_up.clone(),
            };
            let point = &process_of(processes, &need).points[need.point];
            if !need.works && point.stands_still {
                let lasts = entry.stands.as_ref().unwrap_or(&entry.lasts);
                let stands = whole_minutes(lasts.value);
                need.held_min = stands.min(point.keeps_min);
                if stands > point.keeps_min {
                    said.push(
                        Diagnostic::at(
                            code::SCENE_LONGER_THAN_HOLD,
                            written.span,
                            format!(
                                "{} shows “{}” for {stands} min, and it keeps for {} min in that state.",
                                entry.name.value, state.name, point.keeps_min
                            ),
                        )
                        .hint(format!(
                            "Write stands = \"{} min\" when it stands before the camera for a part of the scene, or keep a second one ready to be put in its place.",
                            point.keeps_min
                        )),
                    );
                }
            }
            scenes[scene].needs.push(all.len());
            all.push(need);
        }
    }
    all
}

fn no_product(recipe: &Recipe, name: &Located<String>) -> Diagnostic {
    let names: Vec<&str> = recipe
        .products
        .iter()
        .map(|p| p.name.value.as_str())
        .collect();
    Diagnostic::at(
        code::SCENE_STATE_UNKNOWN,
        name.span,
        format!(
            "`uses-up` names “{}”, which this recipe does not make.",
            name.value
        ),
    )
    .hint(format!("It makes {}.", listed(&names, "and")))
}
