//! The written words as one reader follows them: the clock or the sign, the tin at hand, pieces by eye.

use super::super::met::Met;
use super::super::setup::{COOLS_S, Setup};
use super::super::variable::Variable;
use super::Facts;
use crate::mix::goes_in::is_butter;
use numerics::math::cbrt;
use numerics::quantity::{Duration, Range, Temperature, TemperatureDifference};
use recipe::document::model::{
    Action, Item, Material, OvenPhase, Product, Recipe, Standing, Step, Tin, TinSize, Until,
};
use recipe::formula::model::{Formula, Resolved};
use recipe::larder::Role;
use recipe::source::Located;

/// The middle of butter that is right for a mix, °C: what the audience's middle kind is told around.
const BUTTER_RIGHT: f64 = 19.0;
/// Butter of the recipe that goes in colder or warmer than this is not meant to be soft, °C.
const BUTTER_SOFT: (f64, f64) = (10.0, 25.0);
/// What goes in warmer than this was warmed for it, °C.
const WARMED_FROM: f64 = 26.0;
/// The recipe as this reader follows it.
pub fn followed(setup: &Setup<'_>, met: &Met, formula: &Formula, facts: &mut Facts) -> Recipe {
    facts.by_clock = met.yes(Variable::FollowsClock);
    facts.probe = met.yes(Variable::HasProbe);
    facts.probe_off = if facts.probe {
        met.value(Variable::ProbeOff)
    } else {
        0.0
    };
    facts.dial_mixed_up = met.yes(Variable::DialMixedUp);
    let mut recipe = setup.words.clone();
    let mut rises = 0;
    for (stage, sums) in recipe.stages.iter_mut().zip(&formula.stages) {
        for (item, resolved) in stage.items.iter_mut().zip(&sums.items) {
            if let Resolved::Ingredient(ingredient) = &resolved.what {
                let butter = is_butter(ingredient);
                warmth(met, item, butter, ingredient.role, facts);
            }
        }
        for step in &mut stage.steps {
            stand(met, step, &mut rises, Of::Stage, facts);
        }
    }
    let written = setup.formula.dough.mass;
    let dough = if written.si() > 0.0 {
        formula.dough.mass / written
    } else {
        1.0
    };
    let several =
        recipe.products.len() > 1 || recipe.products.iter().any(|one| one.count.value > 1);
    for (place, product) in recipe.products.iter_mut().enumerate() {
        // Whoever divides has as much dough as there is; one piece alone takes all of it.
        let even = match (several, met.yes(Variable::PiecesWeighed)) {
            (false, _) => 1.0,
            (true, true) => met.value(Variable::PieceByScale),
            (true, false) => met.value(Variable::PieceByEye),
        };
        let piece = dough * even;
        for part in &mut product.piece.value {
            part.mass = part.mass * piece;
        }
        facts.piece[place] = piece;
        let other_tin = other_tin(met, product, facts);
        facts.tin[place] = other_tin.map(|holds| holds / piece);
        let other = other_tin.is_some_and(|holds| (holds - 1.0).abs() > OTHER_TIN);
        let of = if other { Of::OtherTin } else { Of::Product };
        for step in &mut product.steps {
            stand(met, step, &mut rises, of, facts);
            bake(met, step, facts);
        }
    }
    recipe
}

/// How warm things are when they go in.
fn warmth(met: &Met, item: &mut Item, butter: bool, role: Role, facts: &mut Facts) {
    let written = item.at.as_ref().map(|at| at.value.celsius());
    if butter {
        let wanted = written.unwrap_or(BUTTER_RIGHT);
        let melted = item
            .state
            .as_ref()
            .is_some_and(|state| state.value.contains("melted"));
        if melted || !(BUTTER_SOFT.0..BUTTER_SOFT.1).contains(&wanted) {
            return;
        }
        let drawn = met.value(Variable::ButterAt);
        // Who takes it right takes it as the recipe wants it.
        let right = (14.0..24.0).contains(&drawn);
        let at = if right {
            drawn + wanted - BUTTER_RIGHT
        } else {
            drawn
        };
        facts.butter_warmer = Some(at - wanted);
        item.at = Some(Located::new(Temperature::from_celsius(at), item.span));
        return;
    }
    if let Some(at) = written.filter(|at| *at >= WARMED_FROM && role == Role::Liquid)
        && !met.yes(Variable::HasProbe)
        && let Some(written) = &mut item.at
    {
        let felt = (at + met.value(Variable::ByFeel)).clamp(15.0, 50.0);
        written.value = Temperature::from_celsius(felt);
    }
}

/// A tin that holds so much more or less is another one, and its rim another rim (a judgement).
const OTHER_TIN: f64 = 0.15;

/// Of what a step is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Of {
    /// A stage.
    Stage,
    /// A product where its recipe wants it.
    Product,
    /// A product in a tin of another size.
    OtherTin,
}

/// A rise, a chill, a cooling: by the clock with what keeps the cook away, or by the sign as it is seen.
fn stand(met: &Met, step: &mut Step, rises: &mut usize, of: Of, facts: &mut Facts) {
    if let Action::Cool { timing, .. } = &mut step.action {
        if of == Of::Stage {
            // A paste cools by its thermometer or its clock, as everything that stands.
            if facts.by_clock || !facts.probe {
                step.until = None;
            }
            return;
        }
        // What happens on the rack is judged nowhere here.
        timing.usual.value = Duration::from_si(COOLS_S);
        timing.range = None;
        step.until = None;
        return;
    }
    let Action::Rest { timing, place, .. } = &mut step.action else {
        return;
    };
    // Nobody waits at the refrigerator with a thermometer: a chill goes by the clock.
    if place.value == Standing::Refrigerator
        && let Some(until) = &mut step.until
    {
        until.dough = None;
    }
    let usual = timing.usual.value;
    let away = Duration::from_minutes(met.interruption(*rises));
    *rises += 1;
    let until = step.until.take();
    step.until = until.and_then(|until| {
        seen(
            met,
            until,
            away / usual.si().max(1.0),
            of == Of::OtherTin,
            facts,
        )
    });
    if step.until.is_none() {
        timing.usual.value += away;
        if facts.by_clock && usual.si() > 0.0 {
            facts.sign = facts.sign.max(1.0 + away / usual);
        }
    }
}

/// The sign as this reader sees it; none for whoever goes by the clock, or has nothing to see it with.
fn seen(
    met: &Met,
    mut until: Until,
    late: Duration,
    other_tin: bool,
    facts: &mut Facts,
) -> Option<Until> {
    if facts.by_clock {
        return None;
    }
    // A dough's temperature is for whoever has a thermometer.
    if !facts.probe {
        until.dough = None;
    }
    if let Some(dough) = &mut until.dough {
        dough.value = dough.value + TemperatureDifference::from_si(facts.probe_off);
    }
    let sign = met.value(Variable::SignSeen) + late.si();
    if let Some(volume) = &mut until.volume {
        volume.value = 1.0 + (volume.value - 1.0) * sign;
        facts.sign = sign;
        // In a tin of another size the rim tells nothing.
        if other_tin {
            until.height = None;
        }
    }
    (until.volume.is_some() || until.height.is_some() || until.dough.is_some()).then_some(until)
}

/// The bake: an oven that is not hot yet, a dial misread, and what ends it.
fn bake(met: &Met, step: &mut Step, facts: &mut Facts) {
    let Action::Bake {
        phases,
        fan,
        core,
        check,
        ..
    } = &mut step.action
    else {
        return;
    };
    // Who goes by the clock and is told when to look for the first time may look, and then goes by the colour.
    let looks = check.is_some() && met.yes(Variable::LooksWhenTold);
    if met.yes(Variable::FanUnasked) {
        // Its dial stays as written: nobody has turned it down.
        fan.value = true;
    }
    if facts.dial_mixed_up {
        for phase in phases.iter_mut() {
            let number = phase.at.value.celsius();
            phase.at.value = Temperature::from_fahrenheit(number);
        }
    }
    let off = TemperatureDifference::from_si(facts.probe_off);
    if facts.probe {
        // A thermometer that reads too much stops the bake too early.
        if let Some(core) = core {
            core.value = core.value - off;
        }
        if let Some(core) = step.until.as_mut().and_then(|until| until.core.as_mut()) {
            core.value = core.value - off;
        }
        return;
    }
    *core = None;
    if let Some(check) = check
        && (looks || !facts.by_clock)
        && phases.iter().all(|phase| phase.timing.range.is_none())
    {
        looked_for_from(phases, check.value);
    }
    if facts.by_clock && !looks {
        step.until = None;
    } else if let Some(until) = &mut step.until {
        until.core = None;
    }
}

/// A bake without a shortest time, whose sign is looked for from the first look on. Where a shortest time is written
/// nobody takes a bread out before it for its colour alone.
fn looked_for_from(phases: &mut [OvenPhase], check: Duration) {
    let mut early = phases.iter().map(shortest).sum::<Duration>() - check;
    for phase in phases.iter_mut().rev() {
        if early <= Duration::ZERO {
            break;
        }
        let (low, usual) = (shortest(phase), &phase.timing.usual);
        let by = if early < low { early } else { low };
        early = early - by;
        let high = phase.timing.range.as_ref();
        let high = high.map_or(usual.value, |range| range.value.high);
        let range = Range {
            low: low - by,
            high,
        };
        phase.timing.range = Some(Located::new(range, usual.span));
    }
}

fn shortest(phase: &OvenPhase) -> Duration {
    let range = phase.timing.range.as_ref();
    range.map_or(phase.timing.usual.value, |range| range.value.low)
}

/// Puts another tin in the place of the written one; gives what it holds against that one.
fn other_tin(met: &Met, product: &mut Product, facts: &mut Facts) -> Option<f64> {
    let tin = product.tin.as_mut()?;
    let metal = matches!(
        tin.material.value,
        Material::LightMetal | Material::DarkMetal | Material::Aluminium | Material::Steel
    );
    if matches!(tin.size.value, TinSize::Tray { .. }) {
        return None;
    }
    if metal {
        facts.pan = met.word(Variable::Pan);
        tin.material.value = match facts.pan {
            Some(1) => Material::DarkMetal,
            Some(2) => Material::Glass,
            _ => Material::LightMetal,
        };
    }
    // A mould of paper is bought for the recipe.
    if tin.material.value == Material::Paper {
        return Some(1.0);
    }
    let holds = (met.value(Variable::TinHolds) * met.value(Variable::TinSlope)).max(0.2);
    resize(tin, holds);
    Some(holds)
}

fn resize(tin: &mut Tin, holds: f64) {
    let by = cbrt(holds);
    tin.size.value = match tin.size.value {
        TinSize::Box {
            length,
            width,
            depth,
        } => TinSize::Box {
            length: length * by,
            width: width * by,
            depth: depth * by,
        },
        TinSize::Round { diameter, height } => TinSize::Round {
            diameter: diameter * by,
            height: height * by,
        },
        tray @ TinSize::Tray { .. } => tray,
    };
    if let Some(volume) = &mut tin.holds {
        volume.value = volume.value * holds;
    }
}
