//! A recipe walked through in one kitchen: stage after stage, then each product on its own.

mod product;
mod stage;
mod stand;
mod track;

use super::matter::Matter;
use super::safety::Counts;
use super::{
    Course, DoughCourse, Grid, How, Safety, StepCourse, Through, Work, holds, reason, safety,
};
use crate::kitchen::Kitchen;
use crate::physics::boiling;
use numerics::quantity::{Duration, Mass, Temperature};
use recipe::document::model::{Recipe, Timing};
use recipe::formula::Formula;
use recipe::source::Checked;
use stage::StageRun;

/// Everything that a walk looks things up in.
#[derive(Clone, Copy)]
struct Walk<'a> {
    recipe: &'a Recipe,
    formula: &'a Formula,
    kitchen: &'a Kitchen,
    how: How,
    /// Seconds of heat and life for a second of the clock, by the places of steps; 1 beyond its end.
    pace: &'a [f64],
    /// The dough of each stage; none for a filling.
    matters: &'a [Option<Matter>],
}

/// What happens in one kitchen to a recipe followed as written.
///
/// Stages that go into a later one end when that one begins. A product's own steps follow one upon
/// the other; who waits for an oven or a pair of hands is for the plan of the day.
pub fn simulate(
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    how: &How,
) -> Checked<Course> {
    simulate_paced(recipe, formula, kitchen, how, &[])
}

/// The same with a pace for each step, in the order of their numbers: so many seconds of heat and life for a second of
/// its clock (`kitchens::pace`); none is 1.
pub fn simulate_paced(
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    how: &How,
    pace: &[f64],
) -> Checked<Course> {
    let mut said = reason::before(recipe, formula, kitchen);
    if !reason::bears(kitchen) {
        return Checked {
            output: nothing(kitchen, how),
            diagnostics: said,
        };
    }
    let pressure = boiling::pressure(kitchen.altitude);
    let matters: Vec<Option<Matter>> = (0..recipe.stages.len())
        .map(|place| {
            let holds = holds::of_stage(recipe, formula, place)?;
            Some(Matter::of(holds, pressure, how.anchor))
        })
        .collect();
    let walk = Walk {
        recipe,
        formula,
        kitchen,
        how: *how,
        pace,
        matters: &matters,
    };
    let mut left: Vec<Option<Temperature>> = Vec::new();
    let mut runs: Vec<StageRun<'_>> = Vec::new();
    let mut number = 0;
    for place in 0..recipe.stages.len() {
        let run = walk.stage(place, &left, &runs, &mut number);
        left.push(run.ends_at);
        runs.push(run);
    }
    let begins = walk.beginnings(&runs);
    let mut steps: Vec<StepCourse> = Vec::new();
    let mut doughs = Vec::new();
    let mut work = Work::default();
    let mut safety: Vec<Safety> = Vec::new();
    for (run, began) in runs.iter().zip(&begins) {
        steps.extend(run.steps.iter().map(|step| later(step, *began)));
        if let Some(track) = &run.track {
            work = work.and(track.body.work);
            doughs.push(dough(&run.name, false, track, *began, run.mass));
        }
    }
    for written in &recipe.products {
        let from = runs
            .iter()
            .zip(&begins)
            .find(|(run, _)| run.name.eq_ignore_ascii_case(&written.from.value));
        let Some((run, began)) = from else {
            number += written.steps.len();
            continue;
        };
        let (own, track) = walk.product(written, run, &mut number);
        steps.extend(own.iter().map(|step| later(step, *began)));
        let counts = track.as_ref().map(|track| &track.counts);
        // Of a day that is followed to the oven's door nobody can tell what the bake does.
        if how.through == Through::Everything {
            safety.extend(safety::told(recipe, formula, written, counts));
        }
        if let Some(track) = track {
            work = work.and(track.body.work);
            let mass = recipe::formula::piece_mass(&written.piece.value);
            doughs.push(dough(&written.name.value, true, &track, *began, mass));
        }
    }
    let course = Course {
        steps,
        doughs,
        safety,
        work,
        ..nothing(kitchen, how)
    };
    said.extend(reason::after(recipe, formula, &course));
    Checked {
        output: course,
        diagnostics: said,
    }
}

/// What a stage that is cooked and left to cool reads when it is used; none when a mass of it is missing
/// or it is no such stage.
pub fn cooled_to(
    recipe: &Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    place: usize,
) -> Option<Temperature> {
    if !reason::bears(kitchen) {
        return None;
    }
    let how = How {
        grid: Grid::Coarse,
        ..How::default()
    };
    let holds = holds::of_stage(recipe, formula, place)?;
    let mut matters: Vec<Option<Matter>> = (0..place).map(|_| None).collect();
    let pressure = boiling::pressure(kitchen.altitude);
    matters.push(Some(Matter::of(holds, pressure, how.anchor)));
    let walk = Walk {
        recipe,
        formula,
        kitchen,
        how,
        pace: &[],
        matters: &matters,
    };
    walk.stage(place, &[], &[], &mut 0).ends_at
}

/// A course in which nothing has happened yet.
fn nothing(kitchen: &Kitchen, how: &How) -> Course {
    Course {
        kitchen: kitchen.name.clone(),
        anchored: super::Anchored {
            factors: how.anchor,
            ..super::Anchored::default()
        },
        steps: Vec::new(),
        doughs: Vec::new(),
        safety: Vec::new(),
        work: Work::default(),
    }
}

/// The same step with its beginning counted from the first of all.
fn later(step: &StepCourse, by: Duration) -> StepCourse {
    let mut step = step.clone();
    step.begins += by;
    step
}

fn dough(
    of: &str,
    piece: bool,
    track: &track::Track<'_>,
    began: Duration,
    mass: Mass,
) -> DoughCourse {
    let mut moments = track.moments.clone();
    for moment in &mut moments {
        moment.at += began;
    }
    DoughCourse {
        of: of.to_owned(),
        mass,
        piece,
        moments,
        sections: track.sections.clone(),
    }
}

impl Walk<'_> {
    /// The pace of a step, by its number.
    fn pace(&self, number: usize) -> f64 {
        self.pace.get(number - 1).copied().unwrap_or(1.0)
    }

    /// When each stage begins: as late as the stage that it goes into allows.
    fn beginnings(&self, runs: &[StageRun<'_>]) -> Vec<Duration> {
        let mut ends: Vec<Option<f64>> = vec![None; runs.len()];
        let mut begins = vec![0.0; runs.len()];
        for place in (0..runs.len()).rev() {
            let end = ends[place].unwrap_or(0.0);
            begins[place] = end - runs[place].lasts_s;
            for (inner, _) in self.inside(place) {
                // It is wanted where the stage that uses it begins to mix.
                let wanted = begins[place];
                ends[inner] = Some(ends[inner].map_or(wanted, |other: f64| other.min(wanted)));
            }
        }
        let first = begins.iter().copied().fold(f64::INFINITY, f64::min);
        begins
            .into_iter()
            .map(|begin| Duration::from_si(begin - first))
            .collect()
    }

    /// Stages that go into a stage, and the share of each that does.
    fn inside(&self, place: usize) -> Vec<(usize, f64)> {
        let stages = &self.formula.stages;
        let items = stages.get(place).map(|stage| &stage.items);
        items
            .into_iter()
            .flatten()
            .filter_map(|item| match item.what {
                recipe::formula::Resolved::Stage(inner) if inner < place => {
                    let whole = stages.get(inner)?.mass.si();
                    let part = item.mass.map_or(1.0, |mass| mass.si() / whole.max(1e-9));
                    Some((inner, part.min(1.0)))
                }
                _ => None,
            })
            .collect()
    }

    /// What somebody read in a stage's dough after its mix.
    fn measured(&self, stage: &str) -> Option<Temperature> {
        let mut products = self.recipe.products.iter();
        let cut = products.any(|product| product.from.value.eq_ignore_ascii_case(stage));
        self.how.dough.filter(|_| cut)
    }

    /// What the yeast of a preferment brings along: its age, s, for its lag is over, and how many
    /// times as many cells all the yeast of this dough is, the preferment's having grown.
    fn carried(&self, place: usize, before: &[StageRun<'_>]) -> (f64, f64) {
        let yeast = |stage: usize| {
            let sums = self.formula.stages.get(stage);
            sums.map_or(0.0, |sums| sums.holds.yeast_fresh.si())
        };
        let all = yeast(place);
        let mut age_s: f64 = 0.0;
        let mut grown = 1.0;
        for (inner, part) in self.inside(place) {
            let Some(track) = before.get(inner).and_then(|run| run.track.as_ref()) else {
                continue;
            };
            age_s = age_s.max(track.body.age());
            if all > 0.0 {
                let more = track.body.grown() * track.body.alive() - 1.0;
                grown += more * part * yeast(inner) / all;
            }
        }
        (age_s, grown)
    }

    /// What was counted of the earlier stage with egg or milk that stood warm longest.
    fn counted(&self, place: usize, before: &[StageRun<'_>]) -> Counts {
        let perishable = |inner: &usize| {
            let sums = self.formula.stages.get(*inner).map(|stage| &stage.holds);
            sums.is_some_and(|holds| {
                holds.egg_solids > Mass::ZERO || holds.milk_solids > Mass::ZERO
            })
        };
        self.inside(place)
            .into_iter()
            .map(|(inner, _)| inner)
            .filter(perishable)
            .filter_map(|inner| before.get(inner)?.track.as_ref())
            .map(|track| track.counts)
            .fold(Counts::default(), |most, one| {
                if one.above_21_s > most.above_21_s {
                    one
                } else {
                    most
                }
            })
    }
}

/// The longest that a step may go on, s: four times its longest written time, and two days beyond it.
fn limit_s(timing: &Timing) -> f64 {
    let longest = longest_s(timing);
    (4.0 * longest).min(longest + 2.0 * 86_400.0)
}

/// The longest written time of a step, s.
fn longest_s(timing: &Timing) -> f64 {
    let usual = timing.usual.value.si();
    timing
        .range
        .as_ref()
        .map_or(usual, |range| range.value.high.si().max(usual))
}
