//! A bake under way as it is said at the bench: a step's amounts, its measures, its times by the clock on the wall, and what comes next.

mod heard;
mod log;
mod wall;

pub use heard::{Heard, heard};
pub use log::{Took, read_beside, took};
pub use wall::Wall;

use super::happens::{every_step, words};
use super::model::{Ledger, MarginLine, Run};
use super::{kebab, say};
use crate::Inputs;
use crate::stretch::{Yardstick, stretches};
use bake::simulate::{Course, Follows};
use numerics::decimal::round_to;
use numerics::quantity::{Duration, Range, Temperature};
use plan::under_way::{Length, Piece, Stands, reads, written};
use recipe::document::model::{Action, Step};
use recipe::document::placeholder::{Piece as Word, parse_sentence};
use std::collections::BTreeMap;

/// How long each step takes here: rises and bakes by the author's time in proportion, as an answer gives them
/// (`docs/decisions/answered-times.md`); everything else, and every step of a cook who follows the clock, as
/// written.
pub fn lengths(
    inputs: &Inputs,
    course: &Course,
    yardstick: &Yardstick,
    follows: Follows,
) -> BTreeMap<usize, Length> {
    if follows == Follows::Clock {
        return BTreeMap::new();
    }
    let steps = every_step(inputs.recipe);
    let told = |stretch: &crate::stretch::Stretch| {
        let own = written(&steps.get(stretch.number.checked_sub(1)?)?.step.action);
        let usual = yardstick.told(stretch);
        if !stretch.reached || usual <= Duration::ZERO || own.usual <= Duration::ZERO {
            return None;
        }
        let slower = usual / own.usual;
        let range = own.range.map(|range| Range {
            low: range.low * slower,
            high: range.high * slower,
        });
        Some((stretch.number, Length { usual, range }))
    };
    stretches(inputs.recipe, course)
        .iter()
        .filter_map(told)
        .collect()
}

/// An amount of a step: "180 g", "all-purpose flour".
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Portion {
    /// The figure.
    pub shown: String,
    /// Of what.
    pub of: String,
}

/// Words of the two taps that a step has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Taps {
    /// Before it is begun; none where one tap says all.
    pub begin: Option<&'static str>,
    /// When it is over.
    pub over: &'static str,
}

/// A step as the bench shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct BenchStep {
    /// Its number on the page.
    pub number: usize,
    /// "Braid".
    pub heading: String,
    /// "last rise".
    pub what: String,
    /// The sentence.
    pub runs: Vec<Run>,
    /// What goes in.
    pub portions: Vec<Portion>,
    /// What can be measured.
    pub margin: Vec<MarginLine>,
    /// What is tapped.
    pub taps: Taps,
    /// Whether it stands, bakes or cools by itself until a sign.
    pub sign: Option<&'static str>,
    /// What a thermometer is held into: "dough", "middle"; none where there is nothing to read.
    pub thermometer: Option<&'static str>,
}

/// Every step of a recipe as the bench shows it, in the order in which a page numbers them.
pub fn bench_steps(inputs: &Inputs, ledger: &Ledger) -> Vec<BenchStep> {
    let printed = ledger
        .sections
        .iter()
        .flat_map(|section| section.steps.iter().map(move |step| (section, step)));
    every_step(inputs.recipe)
        .iter()
        .zip(printed)
        .map(|(written, (section, line))| BenchStep {
            number: line.number,
            heading: section.heading.clone(),
            what: what(written.step, words::called(written.step, written.product)),
            runs: line.runs.clone(),
            portions: portions(written.step, line.number, &line.runs),
            margin: line.margin.clone(),
            taps: taps(&written.step.action),
            sign: sign(written.step),
            thermometer: thermometer(&written.step.action),
        })
        .collect()
}

/// What a step is called at the bench, where nothing else stands beside it: "take out butter".
fn what(step: &Step, called: &str) -> String {
    let Action::Ready { what, .. } = &step.action else {
        return called.to_owned();
    };
    let names: Vec<String> = what.iter().map(|name| name.value.clone()).collect();
    format!("{called} {}", super::say::list(&names))
}

/// The amounts that a sentence names, each once.
fn portions(step: &Step, number: usize, runs: &[Run]) -> Vec<Portion> {
    let figure = |name: String| {
        let name = kebab(&name);
        runs.iter().find_map(|run| match run {
            Run::Figure(figure) if figure.name == name => Some(figure),
            _ => None,
        })
    };
    let mut all: Vec<Portion> = Vec::new();
    for word in parse_sentence(&step.text.value, 0).0 {
        let (item, pieces) = match word.value {
            Word::Use { item, .. } | Word::Besides { item, .. } => (item, false),
            Word::Pieces(name) => (name, true),
            _ => continue,
        };
        let place = format!("step.{number}.{item}");
        let first = if pieces {
            figure(format!("{place}.pieces"))
        } else {
            ["count", "used", "part.used", "part.measure"]
                .into_iter()
                .find_map(|kind| figure(format!("{place}.{kind}")))
        };
        let Some(first) = first else { continue };
        let weighed = figure(format!("{place}.used")).filter(|figure| figure.name != first.name);
        let of = match weighed {
            Some(weighed) => format!("{item}, {}", weighed.shown),
            None if pieces => format!("for the {item}"),
            None => item,
        };
        let portion = Portion {
            shown: first.shown.clone(),
            of,
        };
        if !all.contains(&portion) {
            all.push(portion);
        }
    }
    all
}

const fn taps(action: &Action) -> Taps {
    let (begin, over) = match action {
        Action::Ready { .. } => (None, "Taken out"),
        Action::Preheat { .. } => (None, "The oven is on"),
        Action::Fold { .. } => (None, "Folded"),
        Action::Wake { .. } => (Some("The yeast is in"), "It foams"),
        Action::Bake { .. } => (Some("It is in the oven"), "Out of the oven"),
        Action::Rest { .. } => (Some("It stands there"), "Ready: go on"),
        Action::Cool { .. } => (Some("It cools"), "Cool enough"),
        Action::Mix { .. } => (Some("Begin to mix"), "Mixed"),
        _ => (Some("Begin"), "Done"),
    };
    Taps { begin, over }
}

fn sign(step: &Step) -> Option<&'static str> {
    let until = step.until.as_ref()?;
    match &step.action {
        Action::Rest { .. } if until.volume.is_some() || until.height.is_some() => {
            Some("Up to the mark")
        }
        Action::Rest { .. } | Action::Bake { .. } => Some("The sign is there"),
        _ => None,
    }
}

const fn thermometer(action: &Action) -> Option<&'static str> {
    match action {
        Action::Mix { .. } | Action::Rest { .. } => Some("dough"),
        Action::Bake { .. } | Action::Cool { .. } => Some("middle"),
        _ => None,
    }
}

/// The whole degree at which a thermometer's buttons stand: what is expected there now.
pub fn expected_degrees(
    inputs: &Inputs,
    course: &Course,
    number: usize,
    into: Duration,
) -> Option<i32> {
    let at = reads(inputs.recipe, course, number, into)?;
    // A dough is between -30 and 300 °C.
    #[allow(clippy::cast_possible_truncation)]
    let degrees = round_to(at.celsius(), 1.0).clamp(-30.0, 300.0) as i32;
    Some(degrees)
}

/// "24.5 °C / 76 °F" of a reading, as finely as it was read.
pub fn read_off(celsius: f64) -> String {
    let at = Temperature::from_celsius(celsius);
    let both = say::temperature(at);
    let fahrenheit = both.split(" / ").nth(1).unwrap_or_default();
    format!("{} / {fahrenheit}", say::celsius_fine(at))
}

/// The times of a step by the clock on the wall.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Times {
    /// "14:20": when it is over, or was.
    pub ends: String,
    /// "begun 13:25".
    pub begun: String,
    /// "between 14:10 and 14:45; look at 14:10".
    pub within: Option<String>,
}

/// The times of a step that runs or is over; none before it is begun.
pub fn times(stands: &Stands, wall: &Wall, now: Duration) -> Option<Times> {
    let (began, ends, within) = match *stands {
        Stands::Ahead { .. } => return None,
        Stands::Running {
            began,
            ends,
            within,
        } => (began, ends, within),
        Stands::Over { began, ended } => (began, ended, None),
    };
    Some(Times {
        ends: wall.says(ends, now),
        begun: format!("begun {}", wall.says(began, now)),
        within: within.map(|within| {
            let (low, high) = wall.between(within, now);
            format!("between {low} and {high}; look at {low}")
        }),
    })
}

/// What comes after what is in hand: at most three things, each with its time: "Braid, shape: about 14:20".
pub fn next(
    pieces: &[Piece],
    stands: &[Stands],
    steps: &[BenchStep],
    shown: usize,
    wall: &Wall,
    now: Duration,
) -> Vec<String> {
    const MOST: usize = 3;
    let mut all: Vec<(&Piece, Duration)> = pieces
        .iter()
        .zip(stands)
        .filter(|(piece, _)| piece.number != shown)
        .filter_map(|(piece, stands)| match *stands {
            Stands::Ahead { begins, .. } => Some((piece, begins)),
            _ => None,
        })
        .collect();
    all.sort_by(|a, b| a.1.order(b.1));
    all.iter()
        .take(MOST)
        .filter_map(|(piece, begins)| {
            let step = steps.iter().find(|step| step.number == piece.number)?;
            let when = if *begins <= now {
                "now".to_owned()
            } else {
                format!("about {}", wall.about(*begins, now))
            };
            Some(format!("{}, {}: {when}", step.heading, step.what))
        })
        .collect()
}

/// The time that is left, or by how much it is past: "1 h 5 min", "3 min past".
pub fn left(ends: Duration, now: Duration) -> String {
    let left = ends - now;
    if left > Duration::ZERO {
        say::duration(left)
    } else if left.abs() < Duration::from_minutes(0.5) {
        "now".to_owned()
    } else {
        format!("{} past", say::duration(left.abs()))
    }
}

#[cfg(test)]
mod tests {
    use super::{BenchStep, Wall, bench_steps, left, next, times};
    use crate::{Inputs, work_out};
    use jiff::civil::date;
    use jiff::tz::TimeZone;
    use numerics::quantity::Duration;
    use plan::under_way::{Done, ahead, pieces};
    use recipe::document::model::Recipe;
    use recipe::document::read_recipe;
    use recipe::larder::Larder;
    use std::collections::BTreeMap;

    const LOAF: &str = include_str!("../../../../../examples/same-day-loaf.toml");

    fn loaf() -> (Recipe, Vec<BenchStep>) {
        let recipe = read_recipe(LOAF).output.expect("it reads");
        let mut larder = Larder::open();
        larder.stock(&recipe.pantry);
        let formula = recipe::formula::formula(&recipe, &larder).output;
        let kitchen = bake::kitchen::Kitchen::standard();
        let inputs = Inputs::new(&recipe, &formula, &larder, &kitchen);
        let (_, ledger) = work_out(&inputs).output;
        let steps = bench_steps(&inputs, &ledger);
        (recipe, steps)
    }

    fn wall() -> Wall {
        Wall {
            begun: date(2026, 2, 14).at(13, 0, 0, 0),
            zone: TimeZone::get("Europe/Oslo").ok(),
            hours: crate::ledger::timetable::Hours::Of24,
        }
    }

    fn plain(text: &str) -> String {
        text.replace('\u{a0}', " ")
    }

    #[test]
    fn a_step_has_its_amounts_in_it() {
        let (_, steps) = loaf();
        let of = |number: usize| -> Vec<String> {
            let portions = steps[number - 1].portions.iter();
            portions
                .map(|portion| plain(&format!("{} {}", portion.shown, portion.of)))
                .collect()
        };
        assert_eq!(
            of(2),
            ["180 g all-purpose flour", "150 g milk", "8 g sugar"]
        );
        assert_eq!(of(5)[1], "3 large eggs, 150 g");
        assert_eq!(of(9)[1], "3 × 220 g for the braid");
        assert_eq!(of(3), Vec::<String>::new());
        assert_eq!(steps[11].what, "last rise");
        assert_eq!(steps[11].sign, Some("Up to the mark"));
        assert_eq!(steps[14].thermometer, Some("middle"));
    }

    #[test]
    fn times_are_said_by_the_clock_on_the_wall() {
        let (recipe, steps) = loaf();
        let minutes = Duration::from_minutes;
        let pieces = pieces(&recipe, |_| None);
        let began = |minute: f64| Done {
            began: Some(minutes(minute)),
            ..Done::default()
        };
        let over = |from: f64, to: f64| Done {
            ended: Some(minutes(to)),
            ..began(from)
        };
        let done = BTreeMap::from([(1, over(0.0, 8.0)), (2, over(8.0, 10.0)), (3, began(10.0))]);
        let now = minutes(20.0);
        let stands = ahead(&pieces, &done, now);
        let told = times(&stands[2], &wall(), now).expect("it runs");
        assert_eq!(told.ends, "14:05");
        assert_eq!(told.begun, "begun 13:10");
        assert_eq!(
            told.within.as_deref(),
            Some("between 13:55 and 14:25; look at 13:55")
        );
        let next = next(&pieces, &stands, &steps, 3, &wall(), now);
        // The butter is 60 min before the mixer at 14:05, so since 13:05.
        assert_eq!(next[0], "Dough, take out butter: now");
        assert_eq!(next[1], "Dough, mix: about 14:05");
        let odd = Wall {
            begun: date(2026, 2, 14).at(13, 3, 20, 0),
            ..wall()
        };
        assert_eq!(odd.about(minutes(65.0), now), "14:10");
        assert_eq!(plain(&left(minutes(65.0), now)), "45 min");
        assert_eq!(plain(&left(minutes(15.0), now)), "5 min past");
    }

    #[test]
    fn a_time_of_tomorrow_has_its_day_and_the_hour_that_is_left_out() {
        let at = |hours: f64| wall().says(Duration::from_hours(hours), Duration::ZERO);
        assert_eq!(plain(&at(11.0)), "00:00 tomorrow");
        assert_eq!(plain(&at(35.0)), "Monday 16 February 2026, 00:00");
        assert_eq!(plain(&at(-14.0)), "23:00 yesterday");
        // The night of 29 March 2026 has no hour from two to three in Oslo.
        let night = Wall {
            begun: date(2026, 3, 28).at(22, 0, 0, 0),
            ..wall()
        };
        let later = night.says(Duration::from_hours(8.0), Duration::from_hours(3.0));
        assert_eq!(later, "07:00");
    }
}
