//! Figures of the recipe that a scene shows or says: those of the steps that go on in it.

use crate::ledger::model::{Ledger, Run, StepLine};
use plan::shoot::{FilmDay, process_of};

/// A step of the ledger by its number.
fn step(ledger: &Ledger, number: usize) -> Option<&StepLine> {
    ledger
        .sections
        .iter()
        .flat_map(|section| &section.steps)
        .find(|step| step.number == number)
}

/// Numbers of the steps that go on while a scene is filmed: the work that begins before the camera and what
/// follows it until the scene is over; of a dough that is looked at, the step that has ended.
fn steps(day: &FilmDay, scene: usize) -> Vec<usize> {
    let plan = &day.scenes[scene];
    let mut numbers = Vec::new();
    for at in &plan.needs {
        let need = &day.needs[*at];
        let process = process_of(&day.processes, need);
        if !need.works {
            numbers.extend(process.points[need.point].step);
            continue;
        }
        let product = process.points[need.point].product;
        let mut point = need.point;
        let mut minute = plan.at_min;
        while minute < plan.ends_min {
            let next = process.runs.iter().find(|run| {
                let to = process.points[run.to].product;
                run.from == point && (to == product || product.is_none())
            });
            let Some(run) = next else {
                break;
            };
            numbers.push(run.step);
            numbers.extend(process.points[point].next_step);
            minute += run.takes_min;
            point = run.to;
        }
    }
    numbers.sort_unstable();
    numbers.dedup();
    numbers
}

/// A figure with the name that the sentence has after it: "675 g bread flour".
fn named(shown: &str, next: Option<&Run>) -> String {
    const ENDS: [&str; 13] = [
        ",", ".", ";", ":", "(", " and ", " at ", " in ", " over ", " to ", " into ", " or ",
        " a few ",
    ];
    let Some(Run::Words(words)) = next else {
        return shown.to_owned();
    };
    if !words.starts_with([' ', '\u{a0}']) {
        return shown.to_owned();
    }
    let end = ENDS
        .iter()
        .filter_map(|sign| format!("{words} ").find(sign))
        .min()
        .unwrap_or(words.len())
        .min(words.len());
    let name: Vec<&str> = words[..end].split_whitespace().take(4).collect();
    if name.is_empty() {
        shown.to_owned()
    } else {
        format!("{shown} {}", name.join(" "))
    }
}

/// The figures, each as every output prints it.
pub fn figures(ledger: &Ledger, day: &FilmDay, scene: usize) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let mut add = |words: &str| {
        let words = words.to_owned();
        if !all.contains(&words) {
            all.push(words);
        }
    };
    for number in steps(day, scene) {
        let Some(step) = step(ledger, number) else {
            continue;
        };
        for (at, run) in step.runs.iter().enumerate() {
            if let Run::Figure(figure) = run {
                add(&named(&figure.shown, step.runs.get(at + 1)));
            }
        }
        for line in &step.margin {
            if !line.figures.is_empty() {
                add(&line.shown);
            }
        }
    }
    all
}
