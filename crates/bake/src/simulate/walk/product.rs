//! A product walked through: shaped, proofed in its tin, baked, cooled.

use super::super::{Ended, Follows, StepCourse, Through, around, shape};
use super::stage::{CUT_KEEPS, Noted, StageRun, Stand, stand};
use super::track::{Track, Watch};
use super::{Walk, longest_s};
use numerics::quantity::{Duration, Temperature};
use recipe::document::model::{Action, Material, OvenPhase, Product, Step, TinSize};

/// Minutes of a bake at which a section is noted, as shares of its written time.
const SECTIONS: [f64; 4] = [0.25, 0.5, 0.75, 0.98];

impl Walk<'_> {
    /// Walks through a product cut from a stage's dough; its own clock begins where the stage ended.
    pub fn product(
        &self,
        product: &Product,
        from: &StageRun,
        number: &mut usize,
    ) -> (Vec<StepCourse>, Option<Track>) {
        let mut clock_s = from.lasts_s;
        let mut steps = Vec::new();
        let mass = recipe::formula::piece_mass(&product.piece.value);
        let shaped = from.track.as_ref().and_then(|track| {
            let shape = shape::piece(product, mass, track.matter.density, self.how.grid)?;
            Some((track, shape))
        });
        let rim = shaped.as_ref().and_then(|(_, shape)| shape.rim_m);
        let mut track = shaped.map(|(track, shape)| {
            let matter = track.matter.clone();
            let mut body = track.body.reshaped(shape.mesh, shape.room, &matter);
            body.work = super::Work::default();
            let mut own = Track::new(matter, body, clock_s);
            own.counts = track.counts;
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
        track: &mut Track,
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
            Action::Bake { .. } | Action::Cool { .. } if self.how.through == Through::Rises => {
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
                    let matter = track.matter.clone();
                    track.body.press(CUT_KEEPS, &matter);
                }
                let air = self.kitchen.room;
                stand(
                    track,
                    noted,
                    &Stand {
                        follows: Follows::Clock,
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
                let core = core
                    .as_ref()
                    .or_else(|| step.until.as_ref().and_then(|until| until.core.as_ref()))
                    .map(|core| core.value);
                self.bake(track, product, phases, fan.value, core, noted)
            }
            Action::Cool { timing, at, .. } => {
                let watch = Watch {
                    step: noted.number,
                    limit_s: timing.usual.value.si(),
                    look_s: 20.0,
                    baked: true,
                    sections_s: &[],
                };
                let mut events = Vec::new();
                let air = at.value;
                let (took, _) = track.run(
                    &watch,
                    &mut events,
                    |_| (air, around::cooling(air)),
                    |_, _, _| false,
                );
                let mut done = noted.done(Some(timing), took, Ended::Clock);
                done.dough = Some(Temperature::from_celsius(track.body.middle(&track.matter)));
                done.events = events;
                done
            }
            _ => noted.done(timing(step), 0.0, Ended::Clock),
        }
    }

    fn bake(
        &self,
        track: &mut Track,
        product: &Product,
        phases: &[OvenPhase],
        with_fan: bool,
        core: Option<Temperature>,
        noted: &Noted,
    ) -> StepCourse {
        let in_tin = product
            .tin
            .as_ref()
            .is_some_and(|tin| !matches!(tin.size.value, TinSize::Tray { .. }));
        let usual_s: f64 = phases
            .iter()
            .map(|phase| phase.timing.usual.value.si())
            .sum();
        let longest: f64 = phases.iter().map(|phase| longest_s(&phase.timing)).sum();
        let sections: Vec<f64> = SECTIONS.iter().map(|share| share * usual_s).collect();
        let by_cue = self.how.follows != Follows::Clock && core.is_some();
        let limit_s = if by_cue { 2.0 * longest } else { usual_s };
        let mut cue_s = None;
        let mut events = Vec::new();
        let watch = Watch {
            step: noted.number,
            limit_s,
            look_s: 5.0,
            baked: true,
            sections_s: &sections,
        };
        let around_at = |since: f64| {
            let phase = phase_at(phases, since);
            let dial = around::dial_here(self.kitchen, phase.at.value, with_fan);
            let air = around::oven_air(self.kitchen, dial, Duration::from_si(since));
            let steam = phase.steam.as_ref().is_some_and(|steam| steam.value);
            let foil = phase.foil.as_ref().is_some_and(|foil| foil.value);
            let surround =
                around::baking(self.kitchen, air, product.tin.as_ref(), in_tin, steam, foil);
            (air, surround)
        };
        let (took, stopped) = track.run(&watch, &mut events, around_at, |body, matter, gone_s| {
            // No crumb gets hotter than its water boils: two kelvin under it is done.
            let wanted = core.map(|core| core.celsius().min(matter.boils - 2.0));
            if cue_s.is_none() && wanted.is_some_and(|wanted| body.middle(matter) >= wanted) {
                cue_s = Some(gone_s);
            }
            by_cue && cue_s.is_some()
        });
        let ended = match (stopped, by_cue) {
            (true, _) => Ended::Cue,
            (false, true) => Ended::Limit,
            (false, false) => Ended::Clock,
        };
        let mut done = noted.done(None, took, ended);
        done.written = Some(Duration::from_si(usual_s));
        let shortest: f64 = phases
            .iter()
            .map(|phase| {
                let range = phase.timing.range.as_ref();
                range.map_or(phase.timing.usual.value.si(), |range| range.value.low.si())
            })
            .sum();
        done.written_range = Some(numerics::quantity::Range {
            low: Duration::from_si(shortest),
            high: Duration::from_si(longest),
        });
        done.cue_after = cue_s.map(Duration::from_si);
        done.dough = Some(Temperature::from_celsius(track.body.middle(&track.matter)));
        done.events = events;
        done
    }
}

fn phase_at(phases: &[OvenPhase], since_s: f64) -> &OvenPhase {
    let mut until_s = 0.0;
    for phase in phases {
        until_s += phase.timing.usual.value.si();
        if since_s < until_s {
            return phase;
        }
    }
    &phases[phases.len() - 1]
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
