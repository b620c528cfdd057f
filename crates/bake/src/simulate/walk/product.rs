//! A product walked through: shaped, proofed in its tin, baked, cooled.

use super::super::body::Body;
use super::super::matter::Matter;
use super::super::oven::OvenRun;
use super::super::{Ended, Follows, Shade, StepCourse, Through, around, shape};
use super::stage::{CUT_KEEPS, Noted, StageRun};
use super::stand::{Stand, stand};
use super::track::{State, Track, Watch};
use super::{Walk, limit_s, longest_s};
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::{Action, Material, OvenPhase, Product, Step};

/// Minutes of a bake at which a section is noted, as shares of its written time.
const SECTIONS: [f64; 4] = [0.25, 0.5, 0.75, 0.98];

/// Seconds of a step of heat on the rack (`docs/decisions/stepping.md`), and between two looks at what has changed.
const RACK_STEP_S: f64 = 20.0;
/// See [`RACK_STEP_S`].
const RACK_LOOK_S: f64 = 40.0;

impl<'m> Walk<'m> {
    /// Walks through a product cut from a stage's dough; its own clock begins where the stage ended.
    pub fn product(
        &self,
        product: &Product,
        from: &StageRun<'m>,
        number: &mut usize,
    ) -> (Vec<StepCourse>, Option<Track<'m>>) {
        let mut clock_s = from.lasts_s;
        let mut steps = Vec::new();
        let mass = recipe::formula::piece_mass(&product.piece.value);
        let shaped = from.track.as_ref().and_then(|track| {
            let shape = shape::piece(product, mass, track.matter.density, self.how.grid)?;
            Some((track, shape))
        });
        let rim = shaped.as_ref().and_then(|(_, shape)| shape.rim_m);
        let mut track = shaped.map(|(track, shape)| {
            let mut body = track.body.reshaped(shape.mesh, shape.room, track.matter);
            body.work = super::Work::default();
            let mut own = Track::new(track.matter, body, clock_s);
            own.counts = track.counts;
            own.rim_m = rim;
            own.told[0] = track.told[0];
            own
        });
        for step in &product.steps {
            *number += 1;
            let noted = Noted {
                number: *number,
                of: product.name.value.clone(),
                begins_s: clock_s,
            };
            let done = match &mut track {
                None => noted.done(timing(step), written_s(step), Ended::Clock),
                Some(track) => self.of_piece(track, product, step, &noted, rim),
            };
            clock_s += done.lasts.si();
            if let Some(track) = &mut track {
                track.clock_s = clock_s;
            }
            steps.push(done);
        }
        (steps, track)
    }

    fn of_piece(
        &self,
        track: &mut Track<'_>,
        product: &Product,
        step: &Step,
        noted: &Noted,
        rim: Option<f64>,
    ) -> StepCourse {
        let material = product
            .tin
            .as_ref()
            .map_or(Material::LightMetal, |tin| tin.material.value);
        match &step.action {
            Action::Cool { .. } if self.how.through != Through::Everything => {
                noted.done(timing(step), written_s(step), Ended::Clock)
            }
            Action::Bake { .. } if self.how.through == Through::Rises => {
                noted.done(timing(step), written_s(step), Ended::Clock)
            }
            Action::Rest {
                timing,
                at,
                place,
                vessel,
                covered,
                ..
            } => {
                let air = around::air_at(self.kitchen, place.value, at.value);
                stand(
                    track,
                    noted,
                    &Stand {
                        follows: self.how.follows,
                        grid: self.how.grid,
                        pace: self.pace(noted.number),
                        timing,
                        until: step.until.as_ref(),
                        air,
                        around: around::resting(air, &vessel.value, material, covered.is_some()),
                        folds: &[],
                        rim,
                    },
                )
            }
            Action::Shape { timing } | Action::Finish { timing } => {
                if matches!(step.action, Action::Shape { .. }) {
                    track.body.press(CUT_KEEPS, track.matter);
                }
                let air = self.kitchen.room;
                stand(
                    track,
                    noted,
                    &Stand {
                        follows: Follows::Clock,
                        grid: self.how.grid,
                        pace: self.pace(noted.number),
                        timing,
                        until: None,
                        air,
                        around: around::resting(air, "tray", material, false),
                        folds: &[],
                        rim,
                    },
                )
            }
            Action::Bake {
                phases, fan, core, ..
            } => {
                let until = step.until.as_ref();
                let done = Done {
                    core: core
                        .as_ref()
                        .or_else(|| until.and_then(|until| until.core.as_ref()))
                        .map(|core| core.value),
                    shade: until
                        .and_then(|until| until.see.as_ref())
                        .and_then(|see| shade(&see.value)),
                };
                self.bake(track, product, phases, fan.value, done, noted)
            }
            Action::Cool { timing, at, .. } => self.cool(track, step, timing, at.value, noted),
            _ => noted.done(timing(step), 0.0, Ended::Clock),
        }
    }

    /// Cools on a rack or in its tin until its clock, or until it reads what is written.
    fn cool(
        &self,
        track: &mut Track<'_>,
        step: &Step,
        timing: &recipe::document::model::Timing,
        air: Temperature,
        noted: &Noted,
    ) -> StepCourse {
        let usual_s = timing.usual.value.si();
        let until = step.until.as_ref();
        let wanted = until.and_then(|until| until.core.as_ref().or(until.dough.as_ref()));
        let wanted = wanted.map(|wanted| wanted.value.celsius());
        let by_cue = self.how.follows != Follows::Clock && wanted.is_some();
        let first = self.how.follows == Follows::First;
        let watch = Watch {
            step: noted.number,
            limit_s: if by_cue { limit_s(timing) } else { usual_s },
            step_s: RACK_STEP_S * self.how.grid.strides(),
            pace: self.pace(noted.number),
            look_s: RACK_LOOK_S * self.how.grid.strides(),
            lives_every: 1,
            state: State::Baked,
            sections_s: &[],
        };
        let mut events = Vec::new();
        let mut cue_s = None;
        let (took, stopped) = track.run(
            &watch,
            &mut events,
            |_, _| (air, around::cooling(air)),
            |body, matter, gone_s| {
                if cue_s.is_none() && wanted.is_some_and(|wanted| body.middle(matter) <= wanted) {
                    cue_s = Some(gone_s);
                }
                by_cue && (cue_s.is_some() || first && gone_s >= usual_s - 1e-9)
            },
        );
        let ended = match (stopped, cue_s.is_some(), by_cue) {
            (true, true, _) => Ended::Cue,
            (false, _, true) => Ended::Limit,
            _ => Ended::Clock,
        };
        let mut done = noted.done(Some(timing), took, ended);
        done.cue_after = cue_s.map(Duration::from_si);
        done.dough = Some(Temperature::from_celsius(track.body.middle(track.matter)));
        done.events = events;
        done
    }

    fn bake(
        &self,
        track: &mut Track<'_>,
        product: &Product,
        phases: &[OvenPhase],
        with_fan: bool,
        done_when: Done,
        noted: &Noted,
    ) -> StepCourse {
        let usual_s: f64 = phases
            .iter()
            .map(|phase| phase.timing.usual.value.si())
            .sum();
        let longest: f64 = phases.iter().map(|phase| longest_s(&phase.timing)).sum();
        let sections: Vec<f64> = SECTIONS.iter().map(|share| share * usual_s).collect();
        let by_cue = self.how.follows != Follows::Clock && done_when.is_measurable();
        let limit_s = if by_cue { 2.0 * longest } else { usual_s };
        let mut cue_s = None;
        let mut events = Vec::new();
        let (step_s, steps_a_look, lives_every) = self.how.grid.in_the_oven();
        let low = |phase: &OvenPhase| {
            let range = phase.timing.range.as_ref();
            range.map_or(phase.timing.usual.value.si(), |range| range.value.low.si())
        };
        let shortest: f64 = phases.iter().map(low).sum();
        let no_sooner_s = if self.how.no_sooner { shortest } else { 0.0 };
        let watch = Watch {
            step: noted.number,
            limit_s,
            step_s,
            pace: self.pace(noted.number),
            look_s: step_s * steps_a_look,
            lives_every,
            state: State::Baking,
            sections_s: &sections,
        };
        let mut oven = OvenRun::loaded(self.kitchen, product, phases, with_fan, &track.body);
        let (took, stopped) = track.run(
            &watch,
            &mut events,
            |since_s, body| oven.around(since_s, body),
            |body, matter, gone_s| {
                if cue_s.is_none() && done_when.is_met(body, matter) {
                    cue_s = Some(gone_s);
                }
                by_cue && cue_s.is_some() && gone_s >= no_sooner_s
            },
        );
        let ended = match (stopped, by_cue) {
            (true, _) => Ended::Cue,
            (false, true) => Ended::Limit,
            (false, false) => Ended::Clock,
        };
        let mut done = noted.done(None, took, ended);
        done.written = Some(Duration::from_si(usual_s));
        done.written_range = Some(numerics::quantity::Range {
            low: Duration::from_si(shortest),
            high: Duration::from_si(longest),
        });
        done.cue_after = cue_s.map(Duration::from_si);
        done.dough = Some(Temperature::from_celsius(track.body.middle(track.matter)));
        done.events = events;
        done
    }
}

/// What a bake is done by, as far as it can be worked out; everything that is written must be there.
#[derive(Clone, Copy, Debug, Default)]
struct Done {
    core: Option<Temperature>,
    shade: Option<Shade>,
}

impl Done {
    fn is_measurable(self) -> bool {
        self.core.is_some() || self.shade.is_some()
    }

    fn is_met(self, body: &Body<f64>, matter: &Matter) -> bool {
        // No crumb gets hotter than its water boils: two kelvin under it is done.
        let hot = self
            .core
            .is_none_or(|core| body.middle(matter) >= core.celsius().min(matter.heat.boils - 2.0));
        let dark = self
            .shade
            .is_none_or(|shade| body.lightness() <= shade.lightness());
        self.is_measurable() && hot && dark
    }
}

/// The colour that a sentence of what to see asks for.
fn shade(see: &str) -> Option<Shade> {
    let see = see.to_lowercase();
    let says = |word: &str| see.contains(word);
    match () {
        () if says("dark") => Some(Shade::Dark),
        () if says("brown") && !says("golden") => Some(Shade::Brown),
        () if says("golden") => Some(Shade::Golden),
        () if says("pale") => Some(Shade::Pale),
        () => None,
    }
}

fn timing(step: &Step) -> Option<&recipe::document::model::Timing> {
    match &step.action {
        Action::Rest { timing, .. }
        | Action::Shape { timing }
        | Action::Finish { timing }
        | Action::Cool { timing, .. }
        | Action::Preheat { timing, .. } => Some(timing),
        _ => None,
    }
}

fn written_s(step: &Step) -> f64 {
    match &step.action {
        Action::Preheat { .. } => 0.0,
        Action::Bake { phases, .. } => phases
            .iter()
            .map(|phase| phase.timing.usual.value.si())
            .sum(),
        _ => timing(step).map_or(0.0, |timing| timing.usual.value.si()),
    }
}
