//! A stage walked through: mixed, risen, folded, chilled, until it is divided or used.

use super::super::body::Body;
use super::super::matter::Matter;
use super::super::safety::Counts;
use super::super::{Ended, Event, Happening, StepCourse, around, shape};
use super::Walk;
use super::stand::{Stand, stand};
use super::track::Track;
use crate::mix;
use numerics::quantity::{Duration, Mass, Temperature};
use recipe::document::model::{Action, Material, Phase, Stage, Step, Timing, Until};

/// A stage as it went.
pub struct StageRun<'m> {
    /// Its name.
    pub name: String,
    /// Its mass.
    pub mass: Mass,
    /// Its steps, begun from its own beginning.
    pub steps: Vec<StepCourse>,
    /// How long it took, s.
    pub lasts_s: f64,
    /// What it reads at its end.
    pub ends_at: Option<Temperature>,
    /// Its dough; none for a filling.
    pub track: Option<Track<'m>>,
}

/// Gas that stays when a dough is folded, and when it is cut and shaped (from memory).
pub const FOLD_KEEPS: f64 = 0.75;
/// See [`FOLD_KEEPS`].
pub const CUT_KEEPS: f64 = 0.5;

/// How thick a cooked paste is spread on a plate to cool, mm (common practice).
const SPREAD_MM: f64 = 8.0;

/// A step being written down.
pub struct Noted {
    /// Its number on the page.
    pub number: usize,
    /// Of what.
    pub of: String,
    /// Seconds since its stage began.
    pub begins_s: f64,
}

impl Noted {
    /// The step with how long it took.
    pub fn done(&self, timing: Option<&Timing>, lasts_s: f64, ended: Ended) -> StepCourse {
        StepCourse {
            number: self.number,
            of: self.of.clone(),
            begins: Duration::from_si(self.begins_s),
            lasts: Duration::from_si(lasts_s),
            written: timing.map(|timing| timing.usual.value),
            written_range: timing.and_then(|timing| timing.range.as_ref().map(|range| range.value)),
            cue_after: None,
            ended,
            dough: None,
            within: None,
            grown: 1.0,
            events: Vec::new(),
        }
    }
}

impl<'m> Walk<'m> {
    /// Walks through a stage; `left`: what earlier stages read at their end.
    pub fn stage(
        &self,
        place: usize,
        left: &[Option<Temperature>],
        before: &[StageRun<'m>],
        number: &mut usize,
    ) -> StageRun<'m> {
        let written = &self.recipe.stages[place];
        let sums = self.formula.stages.get(place);
        let mass = sums.map_or(Mass::ZERO, |sums| sums.mass);
        let matter = self.matters[place].as_ref();
        let mixed = mix::mixed(self.recipe, self.formula, self.kitchen, place, left);
        let last_mix = written
            .steps
            .iter()
            .rposition(|step| matches!(step.action, Action::Mix { .. }));
        let mut run = Running {
            walk: self,
            mass,
            matter,
            at: None,
            track: None,
            clock_s: 0.0,
            steps: Vec::new(),
        };
        for (at, step) in written.steps.iter().enumerate() {
            *number += 1;
            let noted = Noted {
                number: *number,
                of: written.name.value.clone(),
                begins_s: run.clock_s,
            };
            let folds = folds_after(written, at);
            run.step(&noted, step, &folds);
            if last_mix == Some(at) {
                let worked_out = mixed.as_ref().map(|mixed| mixed.ends);
                run.at = self.measured(&written.name.value).or(worked_out);
                run.begin(self.carried(place, before), self.counted(place, before));
                if let (Some(step), Some(at)) = (run.steps.last_mut(), run.at) {
                    step.dough = Some(at);
                }
            }
        }
        StageRun {
            name: written.name.value.clone(),
            mass,
            ends_at: run
                .track
                .as_ref()
                .map(|track| Temperature::from_celsius(track.body.mean_celsius(track.matter)))
                .or(run.at),
            steps: run.steps,
            lasts_s: run.clock_s,
            track: run.track,
        }
    }
}

/// Folds that a later step does in a rest: seconds into the rest.
fn folds_after(stage: &Stage, at: usize) -> Vec<f64> {
    if !matches!(stage.steps[at].action, Action::Rest { .. }) {
        return Vec::new();
    }
    let next = stage.steps[at + 1..]
        .iter()
        .map_while(|step| match &step.action {
            Action::Fold { into_rest, .. } => Some(into_rest),
            _ => None,
        });
    next.flatten().map(|time| time.value.si()).collect()
}

/// A stage while it is walked through.
struct Running<'a, 'm> {
    walk: &'a Walk<'m>,
    mass: Mass,
    matter: Option<&'m Matter>,
    at: Option<Temperature>,
    track: Option<Track<'m>>,
    clock_s: f64,
    steps: Vec<StepCourse>,
}

impl Running<'_, '_> {
    /// The dough is mixed: from here it lives.
    fn begin(&mut self, carried: (f64, f64), mut counts: Counts) {
        let (Some(matter), Some(at)) = (self.matter, self.at) else {
            return;
        };
        let Some(shape) = shape::in_bowl(self.mass, matter.density, self.walk.how.grid) else {
            return;
        };
        let mut body = Body::new(shape.mesh, shape.room, matter, at);
        body.aged(carried.0, carried.1);
        let mut track = Track::new(matter, body, self.clock_s);
        // It was warm while it was mixed.
        let mixed_s = self.steps.last().map_or(0.0, |step| step.lasts.si());
        counts.stood(at.celsius(), at.celsius(), mixed_s);
        track.counts = counts;
        self.track = Some(track);
    }

    fn step(&mut self, noted: &Noted, step: &Step, folds: &[f64]) {
        match &step.action {
            Action::Ready { .. } | Action::Preheat { .. } | Action::Bake { .. } => {
                let done = noted.done(None, 0.0, Ended::Clock);
                self.steps.push(done);
            }
            Action::Fold { timing, .. } => {
                // Done within the rest before it.
                let done = noted.done(Some(timing), 0.0, Ended::Clock);
                self.steps.push(done);
            }
            Action::Wake { timing, .. } => {
                let took = timing.usual.value.si();
                let mut done = noted.done(Some(timing), took, Ended::Clock);
                done.events.push(Event {
                    after: Duration::from_si(took),
                    what: Happening::Foamed,
                });
                self.clock_s += took;
                self.steps.push(done);
            }
            Action::Mix { phases, .. } => {
                let took: f64 = phases.iter().map(phase_s).sum();
                self.clock_s += took;
                if let Some(track) = &mut self.track {
                    track.clock_s = self.clock_s;
                }
                let mut done = noted.done(None, took, Ended::Clock);
                done.written = Some(Duration::from_si(took));
                self.steps.push(done);
            }
            Action::Heat { to, timing } => {
                let took = timing.usual.value.si();
                self.at = Some(to.value);
                self.clock_s += took;
                let mut done = noted.done(Some(timing), took, Ended::Clock);
                done.dough = Some(to.value);
                self.steps.push(done);
            }
            Action::Rest {
                timing,
                at,
                place,
                vessel,
                thick,
                covered,
            } => {
                let air = around::air_at(self.walk.kitchen, place.value, at.value);
                if let (Some(thick), Some(track)) = (thick, &mut self.track) {
                    let (grid, density) = (self.walk.how.grid, track.matter.density);
                    let swollen = track.body.volume();
                    let slab = shape::slab(self.mass, density, thick.value, swollen, grid);
                    if let Some(slab) = slab {
                        track.body = track.body.reshaped(slab.mesh, slab.room, track.matter);
                    }
                }
                self.rest(
                    noted,
                    timing,
                    step.until.as_ref(),
                    air,
                    &vessel.value,
                    covered.is_some(),
                    folds,
                );
            }
            Action::Cool { timing, vessel, at } => {
                if self.track.is_none() {
                    self.spread();
                }
                self.rest(
                    noted,
                    timing,
                    step.until.as_ref(),
                    at.value,
                    &vessel.value,
                    true,
                    &[],
                );
            }
            Action::Divide { timing, .. }
            | Action::Shape { timing }
            | Action::Finish { timing } => {
                let cut = matches!(step.action, Action::Divide { .. } | Action::Shape { .. });
                if let (true, Some(track)) = (cut, &mut self.track) {
                    track.body.press(CUT_KEEPS, track.matter);
                }
                let air = self.walk.kitchen.room;
                self.rest(noted, timing, None, air, "bench", false, &[]);
            }
        }
    }

    /// A cooked paste or the like, spread thin to cool.
    fn spread(&mut self) {
        let (Some(matter), Some(at)) = (self.matter, self.at) else {
            return;
        };
        let thin = numerics::quantity::Length::from_millimetres(SPREAD_MM);
        if let Some(slab) = shape::slab(self.mass, matter.density, thin, 1.0, self.walk.how.grid) {
            let body = Body::new(slab.mesh, slab.room, matter, at);
            self.track = Some(Track::new(matter, body, self.clock_s));
        }
    }

    #[allow(clippy::too_many_arguments)] // the words of a step, each its own
    fn rest(
        &mut self,
        noted: &Noted,
        timing: &Timing,
        until: Option<&Until>,
        air: Temperature,
        vessel: &str,
        covered: bool,
        folds: &[f64],
    ) {
        let material = match vessel {
            "bowl" => self.walk.kitchen.bowl.material,
            "tray" | "tin" => Material::LightMetal,
            _ => Material::Plastic,
        };
        let done = match &mut self.track {
            None => noted.done(Some(timing), timing.usual.value.si(), Ended::Clock),
            Some(track) => stand(
                track,
                noted,
                &Stand {
                    follows: self.walk.how.follows,
                    grid: self.walk.how.grid,
                    pace: self.walk.pace(noted.number),
                    timing,
                    until,
                    air,
                    around: around::resting(air, vessel, material, covered),
                    folds,
                    rim: None,
                },
            ),
        };
        self.clock_s += done.lasts.si();
        if let Some(track) = &mut self.track {
            track.clock_s = self.clock_s;
        }
        self.steps.push(done);
    }
}

fn phase_s(phase: &Phase) -> f64 {
    phase.timing.usual.value.si()
}
