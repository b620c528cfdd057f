//! What is to be said of a day that has begun: an hour before it, a reading that no dough has, work that nobody named.

use super::findings::at;
use super::slip::Now;
use super::tasks::{Batch, Made};
use super::{Asked, code};
use numerics::quantity::Temperature;
use recipe::source::{Diagnostic, listed};

/// Above this yeast suffers in minutes (baker's yeast dies from about 50 °C on; from memory).
const HOTTEST: Temperature = Temperature::from_celsius(40.0);
/// No mix comes out colder (common practice: 15 °C is cold already).
const COLDEST: Temperature = Temperature::from_celsius(10.0);

/// Of the moment and what was read.
pub fn now(asked: &Asked<'_>, now: &Now) -> Vec<Diagnostic> {
    let mut all = Vec::new();
    if now.minute < 0 {
        let said = Diagnostic::whole(
            code::NOW_BEFORE_THE_DAY,
            format!(
                "It is {}, and the day begins on {}: what is done is done earlier than planned, and the rest moves up.",
                at(asked, now.minute),
                at(asked, 0)
            ),
        );
        all.push(said.hint("If another day is meant, write its date with --now, or give the --from of that morning."));
    }
    if let Some(dough) = now.dough
        && !(COLDEST..=HOTTEST).contains(&dough)
    {
        let celsius = numerics::decimal::fixed(dough.celsius(), 0);
        let why = if dough > HOTTEST {
            "above 40\u{a0}°C yeast suffers, and a mix hardly comes out so hot"
        } else {
            "a mix hardly comes out so cold"
        };
        let said = Diagnostic::whole(
            code::DOUGH_READING_UNLIKELY,
            format!("The dough is said to read {celsius}\u{a0}°C after its mix: {why}."),
        );
        all.push(said.hint(
            "Read it once more, in the middle of the dough; ice water with plenty of ice in it should read 0\u{a0}°C.",
        ));
    }
    all
}

/// Of words that could have meant several things.
pub fn taken(
    batches: &[Batch<'_>],
    made: &Made,
    taken: &[(String, Vec<usize>)],
) -> Vec<Diagnostic> {
    let one = |(said, tasks): &(String, Vec<usize>)| {
        let names: Vec<String> = tasks
            .iter()
            .map(|task| {
                let about = &made.about[*task];
                format!("{} ({})", about.words, batches[about.batch].label)
            })
            .collect();
        let mut names: Vec<&str> = names.iter().map(String::as_str).collect();
        names.dedup();
        let finding = Diagnostic::whole(
            code::DONE_TAKEN_AS,
            format!(
                "“{said}” could be several things here. By the plan so far it is taken as done: {}.",
                listed(&names, "and")
            ),
        );
        finding.hint("If something else is meant, say whose and what: 2: mix sponge, or the number of the step.")
    };
    taken.iter().map(one).collect()
}

/// Of work that is done because what follows it is.
pub fn with_it(words: &[String]) -> Option<Diagnostic> {
    if words.is_empty() {
        return None;
    }
    let names: Vec<&str> = words.iter().map(String::as_str).collect();
    let said = Diagnostic::whole(
        code::DONE_WITH_IT,
        format!(
            "What is done comes after work whose time had not come; that is taken as done too: {}.",
            listed(&names, "and")
        ),
    );
    Some(said.hint("If it is not, say with --done the last step that is."))
}
