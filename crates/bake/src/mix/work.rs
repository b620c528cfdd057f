//! What the written phases of a mix leave in the dough, in a kitchen with a mixer or without.

use super::balance::{Parts, Work, ends};
use crate::kitchen::{Friction, Kitchen};
use crate::physics::heats;
use numerics::quantity::{Energy, Range, SpecificEnergy, SpecificPower, Temperature};
use recipe::document::model::{Action, Phase, Stage, Tool};
use recipe::source::{Located, Span};

/// The mix of a stage that ends at a wanted temperature.
pub struct Wanted<'a> {
    /// Its place among the stage's steps.
    pub step: usize,
    /// What the dough should end at.
    pub dough: &'a Located<Range<Temperature>>,
    /// The item that is adjusted.
    pub adjust: Option<&'a Located<String>>,
    /// Where the step stands.
    pub span: Span,
}

/// The last mix of a stage that says where the dough should end.
pub fn wanted(stage: &Stage) -> Option<Wanted<'_>> {
    stage
        .steps
        .iter()
        .enumerate()
        .rev()
        .find_map(|(step, written)| match &written.action {
            Action::Mix {
                dough: Some(dough),
                adjust,
                ..
            } => Some(Wanted {
                step,
                dough,
                adjust: adjust.as_ref(),
                span: written.span,
            }),
            _ => None,
        })
}

/// The last mix of a stage, whether or not it says where the dough should end.
pub fn last(stage: &Stage) -> Option<usize> {
    let mixes = |step: &recipe::document::model::Step| matches!(step.action, Action::Mix { .. });
    stage.steps.iter().rposition(mixes)
}

/// Seconds of mixing up to a step and that step included.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Seconds {
    /// By mixer, weighed by speed against medium.
    pub mixer: f64,
    /// By hand.
    pub hand: f64,
    /// With a spoon.
    pub spoon: f64,
}

/// The seconds of a stage's mixes up to a step, as this kitchen does them: without a mixer, what is
/// written for one is done by hand in the same time.
pub fn seconds(stage: &Stage, last_step: usize, by_hand: bool) -> Seconds {
    let mut sum = Seconds::default();
    for step in stage.steps.iter().take(last_step + 1) {
        let Action::Mix { by, phases, .. } = &step.action else {
            continue;
        };
        for phase in phases {
            let time_s = phase.timing.usual.value.si();
            match by.value {
                Tool::Mixer if by_hand => sum.hand += time_s,
                Tool::Mixer => sum.mixer += time_s * speed_ratio(phase),
                Tool::Hand => sum.hand += time_s,
                Tool::Spoon => sum.spoon += time_s,
            }
        }
    }
    sum
}

const fn speed_ratio(phase: &Phase) -> f64 {
    heats::against_medium(phase.speed.value)
}

/// The work of a stage's mixes. A measured rise is that of the final dough; any other stage gets
/// the power that the final dough's rise shows.
pub fn work(parts: &Parts, time: Seconds, kitchen: &Kitchen, seen: Seen) -> Work {
    let besides_j_per_kg = heats::HAND.si() * time.hand + heats::SPOON.si() * time.spoon;
    let mixer_w_per_kg = match (kitchen.friction, seen) {
        _ if time.mixer <= 0.0 => SpecificPower::ZERO,
        (Friction::Rise(rise), Seen::HereItself) => return Work::NetRise(rise),
        (Friction::Power(power), _) | (Friction::Rise(_), Seen::Elsewhere(power)) => power,
    };
    let per_kg = SpecificEnergy::from_si(mixer_w_per_kg.si() * time.mixer + besides_j_per_kg);
    Work::Heat(parts.mass() * per_kg)
}

/// Where a kitchen's measured rise was seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Seen {
    /// In this stage: it is the final dough.
    HereItself,
    /// In another stage, which shows this power at medium speed.
    Elsewhere(SpecificPower),
}

/// The power at medium speed that a measured rise shows, in the dough it was measured in; never
/// below nothing.
pub fn power_seen(parts: &Parts, time: Seconds) -> SpecificPower {
    let work = ends(parts).friction;
    let kg_s = parts.mass().si() * time.mixer;
    if kg_s > 0.0 && work > Energy::ZERO {
        SpecificPower::from_si(work.si() / kg_s)
    } else {
        SpecificPower::ZERO
    }
}
