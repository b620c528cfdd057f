//! The reckoned times that a page and its papers carry beside the author's: each in its margin, and each rise in rooms of 18 to 27 °C.

use super::reckoned::{Place, Told, origin};
use super::{every_step, printed, tested, words};
use crate::Inputs;
use crate::ledger::model::{Figure, Ledger, MarginKind, MarginLine};
use crate::ledger::{figure, say};
use bake::kitchen::{Kitchen, in_room};
use bake::simulate::{Course, Ended, Grid, How, StepCourse, Through};
use numerics::quantity::{Duration, Range, Temperature};
use recipe::document::model::{Action, Standing, Step};

/// How long each rise takes in other rooms, and which of a sheet's times are whose.
#[derive(Clone, Debug, PartialEq)]
pub struct Reckoned {
    /// Which times are the author's and which are reckoned.
    pub note: String,
    /// The rooms: "18 °C / 64 °F".
    pub rooms: Vec<Figure>,
    /// A row for each rise and place.
    pub rows: Vec<ReckonedRow>,
}

/// A rise in one place.
#[derive(Clone, Debug, PartialEq)]
pub struct ReckonedRow {
    /// Number of its step.
    pub step: usize,
    /// "Sponge, rise".
    pub what: String,
    /// "in a warm place of 27 °C / 81 °F".
    pub place: String,
    /// Its time in each room.
    pub times: Vec<Figure>,
    /// The same in one line: "1 h 5 min in a room of 18 °C / 64 °F, ...".
    pub line: String,
}

/// The rooms of the table, °C.
const ROOMS_C: [f64; 4] = [18.0, 21.0, 24.0, 27.0];

/// How a day is followed for a page: on the coarse grid, which tells rises and middles to a hundredth
/// or two and is told to 5 min and 1 min.
pub fn how() -> How {
    How {
        grid: Grid::Coarse,
        ..How::default()
    }
}

/// The kitchens that are asked besides the page's own, each to the oven's door alone: its rooms, then
/// the same without its warm place, where the recipe uses one that is not the room itself.
pub fn kitchens(inputs: &Inputs) -> Vec<Kitchen> {
    let here = inputs.kitchen;
    let rooms = || ROOMS_C.into_iter().map(Temperature::from_celsius);
    let mut all: Vec<Kitchen> = rooms().map(|room| in_room(here, room)).collect();
    if has_warm_place(inputs) {
        all.extend(rooms().map(|room| Kitchen {
            warm_place: room,
            ..in_room(here, room)
        }));
    }
    all
}

/// How those are followed.
pub fn to_the_oven(how: &How) -> How {
    How {
        through: Through::Rises,
        ..*how
    }
}

fn has_warm_place(inputs: &Inputs) -> bool {
    let here = inputs.kitchen;
    let uses = |step: &Step| matches!(&step.action, Action::Rest { place, .. } if place.value == Standing::WarmPlace);
    here.warm_place != here.room
        && every_step(inputs.recipe)
            .iter()
            .any(|written| uses(written.step))
}

/// Writes reckoned times into a ledger: `course`, the day in the page's kitchen; `others`, those in the
/// [`kitchens`] of the same inputs, in their order.
pub fn reckon(ledger: &mut Ledger, inputs: &Inputs, course: &Course, others: &[Course]) {
    let mut rows = Vec::new();
    for (at, written) in every_step(inputs.recipe).iter().enumerate() {
        let number = at + 1;
        let goes = |course: &Course| {
            course
                .steps
                .iter()
                .find(|one| one.number == number)
                .cloned()
        };
        let Some(here) = goes(course) else { continue };
        let there: Vec<StepCourse> = others.iter().filter_map(goes).collect();
        let (kept, without) = there.split_at(ROOMS_C.len().min(there.len()));
        if rises(written.step) && kept.len() == ROOMS_C.len() {
            let heading = printed(&ledger.sections, number).map(|(heading, _)| heading.clone());
            let heading = heading.unwrap_or_default();
            let called = words::called(written.step, written.product);
            let what = format!("{heading}, {called}");
            rows.extend(rows_of(inputs, written.step, &what, &here, [kept, without]));
        }
        if let Some(line) = margin(written.step, &here, kept) {
            put(ledger, number, line);
        }
    }
    let whose = say::kitchen_and_room(inputs.kitchen);
    let rooms: Vec<Figure> = ROOMS_C
        .iter()
        .map(|celsius| {
            let room = Temperature::from_celsius(*celsius);
            let name = format!("reckoned.room.{celsius}");
            let shown = say::temperature(room);
            figure(name, room.si(), Temperature::SI, shown, origin())
        })
        .collect();
    ledger.reckoned = Some(Reckoned {
        note: format!(
            "The times in the method are the author’s; “reckoned” beside them is what this program expects \
             in {whose}, in brackets from rooms of {} to {}. {}",
            rooms.last().map_or("", |room| &room.shown),
            rooms.first().map_or("", |room| &room.shown),
            tested::in_short(inputs.recipe, course)
        ),
        rooms,
        rows,
    });
}

/// Whether a step is a rise that a measurable sign ends.
fn rises(step: &Step) -> bool {
    let until = step.until.as_ref();
    matches!(step.action, Action::Rest { .. })
        && until.is_some_and(|until| until.volume.is_some() || until.height.is_some())
}

/// A rise where it is written to stand; and in the room, where that is another place.
fn rows_of(
    inputs: &Inputs,
    step: &Step,
    what: &str,
    here: &StepCourse,
    [kept, without]: [&[StepCourse]; 2],
) -> Vec<ReckonedRow> {
    let Action::Rest { place, at, .. } = &step.action else {
        return Vec::new();
    };
    let kitchen = inputs.kitchen;
    let fixed = match place.value {
        Standing::WarmPlace if kitchen.warm_place != kitchen.room => Some(kitchen.warm_place),
        Standing::WarmPlace | Standing::Room => None,
        Standing::Refrigerator => Some(kitchen.refrigerator),
        Standing::CoolPlace => Some(at.value),
    };
    let own = fixed.map_or_else(
        || "in the room".to_owned(),
        |at| format!("{} {}", words::standing(place.value), say::temperature(at)),
    );
    let mut all = vec![row(here.number, what, &own, "", kept)];
    if place.value == Standing::WarmPlace && !without.is_empty() {
        all.push(row(
            here.number,
            what,
            "in the room",
            ".in-the-room",
            without,
        ));
    }
    all
}

fn row(step: usize, what: &str, place: &str, after: &str, goes: &[StepCourse]) -> ReckonedRow {
    let times: Vec<Figure> = goes
        .iter()
        .zip(ROOMS_C)
        .map(|(goes, room)| {
            let own = Place(format!("reckoned.step.{step}{after}"));
            own.figure(
                &format!("at-{room}"),
                goes.lasts.si(),
                Duration::SI,
                said(goes),
            )
        })
        .collect();
    let line: Vec<String> = times
        .iter()
        .zip(ROOMS_C)
        .map(|(time, room)| {
            let room = say::temperature(Temperature::from_celsius(room));
            format!("{} at {room}", time.shown)
        })
        .collect();
    ReckonedRow {
        step,
        what: what.to_owned(),
        place: place.to_owned(),
        line: format!("{place}: {}.", line.join(", ")),
        times,
    }
}

/// A time as it is told; one that its sign does not end is longer than anybody waited.
fn said(goes: &StepCourse) -> String {
    let time = Told::Rise.said(goes.lasts);
    match goes.ended {
        Ended::Limit => format!("over {time}"),
        Ended::Cue | Ended::Clock => time,
    }
}

/// What stands in a step's margin: its time here, and from the warmest room to the coldest.
fn margin(step: &Step, here: &StepCourse, rooms: &[StepCourse]) -> Option<MarginLine> {
    let place = Place(format!("reckoned.step.{}", here.number));
    let baked = matches!(step.action, Action::Bake { .. });
    // What the clock ends is as written.
    if !baked && !matches!(step.action, Action::Rest { .. }) || here.ended == Ended::Clock {
        return None;
    }
    let told = if baked { Told::Bake } else { Told::Rise };
    let mut shown = told.said(here.lasts);
    if here.ended == Ended::Limit {
        shown = format!("over {shown}");
    }
    let takes = place.figure("takes", here.lasts.si(), Duration::SI, shown);
    let mut line = format!("reckoned {}", takes.shown);
    let mut figures = vec![takes];
    let ended = rooms.iter().all(|room| room.ended == Ended::Cue);
    if !baked && ended && !rooms.is_empty() {
        let times = || rooms.iter().map(|room| told.rounded(room.lasts));
        let range = Range {
            low: times().fold(Duration::from_si(f64::INFINITY), least),
            high: times().fold(Duration::ZERO, most),
        };
        if range.low < range.high {
            let middle = range.low + (range.high - range.low) / 2.0;
            let shown = say::duration_range(range);
            line.push_str(&format!(" ({shown})"));
            figures.push(place.figure("rooms", middle.si(), Duration::SI, shown));
        }
    }
    Some(MarginLine {
        kind: MarginKind::Here,
        shown: line,
        figures,
    })
}

fn least(one: Duration, other: Duration) -> Duration {
    if other < one { other } else { one }
}

fn most(one: Duration, other: Duration) -> Duration {
    if other > one { other } else { one }
}

/// Puts a line under the written time of its step.
fn put(ledger: &mut Ledger, number: usize, line: MarginLine) {
    let steps = ledger
        .sections
        .iter_mut()
        .flat_map(|section| &mut section.steps);
    let Some(step) = steps.into_iter().find(|step| step.number == number) else {
        return;
    };
    let looks = format!("step.{number}.check");
    let time = step.margin.iter().rposition(|line| {
        let first_look = line.figures.iter().any(|figure| figure.name == looks);
        line.kind == MarginKind::Time && !first_look
    });
    let place = time.map_or(step.margin.len(), |time| time + 1);
    step.margin.insert(place, line);
}
