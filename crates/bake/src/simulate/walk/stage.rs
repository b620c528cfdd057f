//! A stage walked through: mixed, risen, folded, chilled, until it is divided or used.

use super::super::body::Body;
use super::super::matter::Matter;
use super::super::safety::Counts;
use super::super::{Ended, Event, Follows, Happening, StepCourse, around, holds, shape};
use super::track::{Track, Watch};
use super::{Walk, limit_s};
use crate::mix;
use numerics::quantity::{Duration, Mass, Temperature};
use recipe::document::model::{Action, Material, Phase, Stage, Step, Timing, Until};

/// A stage as it went.
pub struct StageRun {
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
    pub track: Option<Track>,
}

/// Gas that stays when a dough is folded, and when it is cut and shaped (from memory).
const FOLD_KEEPS: f64 = 0.75;
/// See [`FOLD_KEEPS`].
pub const CUT_KEEPS: f64 = 0.5;

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
            grown: 1.0,
            events: Vec::new(),
        }
    }
}

impl Walk<'_> {
    /// Walks through a stage; `left`: what earlier stages read at their end.
    pub fn stage(
        &self,
        place: usize,
        left: &[Option<Temperature>],
        before: &[StageRun],
        number: &mut usize,
    ) -> StageRun {
        let written = &self.recipe.stages[place];
        let sums = self.formula.stages.get(place);
        let mass = sums.map_or(Mass::ZERO, |sums| sums.mass);
        let matter = holds::of_stage(self.recipe, self.formula, place)
            .map(|holds| Matter::of(holds, self.pressure, self.how.anchor));
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
                .map(|track| Temperature::from_celsius(track.body.mean_celsius(&track.matter)))
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
struct Running<'a> {
    walk: &'a Walk<'a>,
    mass: Mass,
    matter: Option<Matter>,
    at: Option<Temperature>,
    track: Option<Track>,
    clock_s: f64,
    steps: Vec<StepCourse>,
}

impl Running<'_> {
    /// The dough is mixed: from here it lives.
    fn begin(&mut self, age_s: f64, mut counts: Counts) {
        let (Some(matter), Some(at)) = (&self.matter, self.at) else {
            return;
        };
        let Some(shape) = shape::in_bowl(self.mass, matter.density, self.walk.how.grid) else {
            return;
        };
        let mut body = Body::new(shape.mesh, shape.room, matter, at);
        body.aged(age_s);
        let mut track = Track::new(matter.clone(), body, self.clock_s);
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
                        track.body = track.body.reshaped(slab.mesh, slab.room, &track.matter);
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
                    let matter = track.matter.clone();
                    track.body.press(CUT_KEEPS, &matter);
                }
                let air = self.walk.kitchen.room;
                self.rest(noted, timing, None, air, "bench", false, &[]);
            }
        }
    }

    /// A cooked paste or the like, spread thin to cool.
    fn spread(&mut self) {
        let (Some(matter), Some(at)) = (&self.matter, self.at) else {
            return;
        };
        let thin = numerics::quantity::Length::from_millimetres(15.0);
        if let Some(slab) = shape::slab(self.mass, matter.density, thin, 1.0, self.walk.how.grid) {
            let body = Body::new(slab.mesh, slab.room, matter, at);
            self.track = Some(Track::new(matter.clone(), body, self.clock_s));
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

/// A dough that is left standing.
pub struct Stand<'a> {
    /// What ends it.
    pub follows: Follows,
    /// As written.
    pub timing: &'a Timing,
    /// Its cue.
    pub until: Option<&'a Until>,
    /// Air.
    pub air: Temperature,
    /// All around.
    pub around: super::super::surround::Surround<f64>,
    /// Folds, seconds into it.
    pub folds: &'a [f64],
    /// The rim over the bottom, m, for a height against it.
    pub rim: Option<f64>,
}

/// Lets it stand until its clock or cue.
pub fn stand(track: &mut Track, noted: &Noted, how: &Stand<'_>) -> StepCourse {
    let usual_s = how.timing.usual.value.si();
    let start = track.body.volume();
    let began = track.body.mean_celsius(&track.matter);
    let mut cue_s: Option<f64> = None;
    let mut folds = how.folds.iter().copied().peekable();
    let measurable = how.until.is_some_and(|until| {
        until.volume.is_some()
            || until.dough.is_some()
            || (until.height.is_some() && how.rim.is_some())
    });
    let met = |body: &Body<f64>, matter: &Matter| {
        let Some(until) = how.until else { return false };
        let volume = until
            .volume
            .as_ref()
            .map(|times| body.volume() >= times.value * start);
        let height = until
            .height
            .as_ref()
            .zip(how.rim)
            .map(|(height, rim)| body.height_m() >= rim + height.value.si());
        let dough = until.dough.as_ref().map(|wanted| {
            let (now, wanted) = (body.mean_celsius(matter), wanted.value.celsius());
            if began > wanted {
                now <= wanted
            } else {
                now >= wanted
            }
        });
        // Where several are written, all of them.
        [volume, height, dough].into_iter().flatten().all(|one| one)
    };
    let by_clock = how.follows == Follows::Clock || !measurable;
    // To know the cue as well, the clock's cook is followed no longer than the clock.
    let limit = if by_clock {
        usual_s
    } else {
        limit_s(how.timing)
    };
    let look_s = (usual_s / 120.0).clamp(5.0, 60.0);
    let watch = Watch {
        step: noted.number,
        limit_s: limit,
        look_s,
        baked: false,
        sections_s: &[],
    };
    let mut events = Vec::new();
    let first = how.follows == Follows::First;
    let (air, around) = (how.air, how.around);
    // Folds are given between runs, so the standing is cut at each of them.
    let mut took = 0.0;
    let mut ended = Ended::Limit;
    loop {
        let next_fold = folds.next_if(|at| *at < limit);
        let until_s = next_fold.unwrap_or(limit);
        let part = Watch {
            limit_s: (until_s - took).max(0.0),
            ..watch
        };
        let offset = took;
        let mut part_events = Vec::new();
        let (part_s, stopped) = track.run(
            &part,
            &mut part_events,
            |_| (air, around),
            |body, matter, gone_s| {
                let now = offset + gone_s;
                if measurable && cue_s.is_none() && met(body, matter) {
                    cue_s = Some(now);
                }
                let clock = first && now >= usual_s - 1e-9;
                (!by_clock && cue_s.is_some()) || clock
            },
        );
        took += part_s;
        for mut event in part_events {
            event.after += Duration::from_si(offset);
            events.push(event);
        }
        if stopped {
            ended = if cue_s.is_some() {
                Ended::Cue
            } else {
                Ended::Clock
            };
            break;
        }
        if next_fold.is_none() {
            if by_clock {
                ended = Ended::Clock;
            }
            break;
        }
        let matter = track.matter.clone();
        track.body.press(FOLD_KEEPS, &matter);
    }
    let mut done = noted.done(Some(how.timing), took, ended);
    done.cue_after = cue_s.map(Duration::from_si);
    done.dough = Some(Temperature::from_celsius(
        track.body.mean_celsius(&track.matter),
    ));
    done.grown = track.body.volume() / start;
    done.events = events;
    done
}
