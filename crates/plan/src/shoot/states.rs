//! The states of a recipe by their names, with what is said of a name that none of them has.

use super::code;
use super::process::{Doing, Process};
use super::scenes::process_along;
use recipe::source::{Diagnostic, Located, listed, near};

/// What kitchens call a dough that has stood, whichever rest it was (common practice).
const STOOD: [&str; 6] = ["risen", "proofed", "proved", "ripe", "rested", "fermented"];

/// A state that can be filmed.
pub struct State {
    /// "loaf proofed".
    pub name: String,
    /// Place of the process.
    pub process: usize,
    /// Which of its feeds, by the way to it.
    pub feed: Vec<usize>,
    /// The point.
    pub point: usize,
    /// Whether work begins there before the camera.
    pub works: bool,
}

/// Every state of every process, feeds after the doughs that they go into.
pub fn states(processes: &[Process]) -> Vec<State> {
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

/// Says of a state that the recipe never comes to, and which one may be meant.
pub fn unknown(written: &Located<String>, processes: &[Process], what: &str) -> Diagnostic {
    let states = states(processes);
    let names: Vec<&str> = states.iter().map(|state| state.name.as_str()).collect();
    let said = Diagnostic::at(
        code::SCENE_STATE_UNKNOWN,
        written.span,
        format!(
            "{what} “{}”, a state that this recipe never comes to.",
            written.value
        ),
    );
    let stood = stood(&written.value, processes, &states);
    let said = match stood.or_else(|| near(&written.value, names.iter().copied())) {
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

/// The state that a thing has after its last warm rest, where the name says that it has stood and uses
/// another word for it: "loaf risen" is the loaf proofed.
fn stood<'a>(written: &str, processes: &[Process], states: &'a [State]) -> Option<&'a str> {
    let (of, word) = written.rsplit_once(' ')?;
    if !STOOD.contains(&word) {
        return None;
    }
    let rests = |state: &&State| {
        let process = process_along(&processes[state.process], &state.feed);
        let warm = |what: Doing| matches!(what, Doing::Stands { cold: false, .. });
        let mut runs = process.runs.iter();
        !state.works
            && process.points[state.point].of == of
            && runs.any(|run| run.to == state.point && warm(run.what))
    };
    states.iter().rfind(rests).map(|state| state.name.as_str())
}
