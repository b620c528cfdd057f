//! Scenes on the clock and their needs as points of a process, with everything that does not fit.

use super::batch::Need;
use super::code;
use super::model::ScenePlan;
use super::process::{Process, whole_minutes};
use super::states::{states, unknown};
use crate::timetable::minutes_between;
use jiff::civil::{DateTime, Time};
use jiff::tz::TimeZone;
use recipe::document::model::{Recipe, SceneEntry, SceneFile};
use recipe::source::{Diagnostic, Located, listed};

/// Minutes between two scenes where nobody says (common practice).
const SET_UP_MIN: i64 = 5;
/// Minutes of clearing away where nobody says (common practice).
const WRAP_MIN: i64 = 30;

/// From this hour on it is the evening (ours).
const EVENING: i8 = 17;

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

    /// "22:57 the evening before", "01:45": a clock with its day where it is another one.
    pub fn clock_day(&self, minute: i64) -> String {
        let at = crate::timetable::clock(self.starts, self.zone.as_ref(), minute);
        let clock = self.clock(minute);
        let date = self.starts.date();
        let before = date.yesterday().is_ok_and(|day| day == at.date());
        let after = date.tomorrow().is_ok_and(|day| day == at.date());
        match (at.date() == date, before, after) {
            (true, ..) => clock,
            (_, true, _) if at.hour() >= EVENING => format!("{clock} the evening before"),
            (_, true, _) => format!("{clock} the day before"),
            (.., true) => format!("{clock} the day after"),
            _ => format!("{clock} on {}", at.date()),
        }
    }

    /// Minutes from midnight of its own day, by the clock on the wall.
    pub fn minute_of_day(&self, minute: i64) -> i64 {
        let at = crate::timetable::clock(self.starts, self.zone.as_ref(), minute);
        i64::from(at.hour()) * 60 + i64::from(at.minute())
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
            said.push(unknown(&hold.at, processes, "This hold is of"));
        }
    }
}

/// The process that a need names.
pub fn process_of<'a>(processes: &'a [Process], need: &Need) -> &'a Process {
    process_along(&processes[need.process], &need.feed)
}

/// What is found along a way through feeds.
pub fn process_along<'a>(whole: &'a Process, feed: &[usize]) -> &'a Process {
    feed.iter().fold(whole, |process, nth| &process.feeds[*nth])
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
        said.extend(stands_past(entry, lasts));
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

/// A dough that is said to stand before the camera when nobody films any more.
fn stands_past(entry: &SceneEntry, lasts: i64) -> Option<Diagnostic> {
    let written = entry.stands.as_ref()?;
    let stands = whole_minutes(written.value);
    (stands > lasts).then(|| {
        Diagnostic::at(
            code::STANDS_PAST_SCENE,
            written.span,
            format!(
                "{} is filmed for {lasts} min, and its dough is said to stand before the camera for {stands} min of that.",
                entry.name.value
            ),
        )
        .hint(format!(
            "Write stands = \"{lasts} min\" or less, or for = \"{stands} min\" if the scene is that long."
        ))
    })
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
                    processes,
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
    for at in 0..all.len() {
        if goes_in(processes, &all, &all[at]) {
            all[at].held_min = 0;
        }
    }
    all
}

/// Whether the same scene begins to mix what this goes into: it is looked at on its way into the bowl, and
/// no other stands there afterwards.
fn goes_in(processes: &[Process], all: &[Need], need: &Need) -> bool {
    let Some((_, into)) = need.feed.split_last() else {
        return false;
    };
    let start = process_along(&processes[need.process], into).start;
    all.iter().any(|other| {
        (other.scene, other.process, other.point) == (need.scene, need.process, start)
            && other.works
            && other.feed == into
    })
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
