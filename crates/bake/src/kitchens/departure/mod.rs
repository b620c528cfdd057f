//! A recipe as one reader makes it: amounts that were really taken, words that were really followed, a kitchen.

mod amounts;
mod facts;
mod things;
mod words;

pub use facts::Facts;

use super::audience::Audience;
use super::met::{Met, met};
use super::setup::Setup;
use super::variable::{Group, Variable};
use crate::kitchen::{Friction, Kitchen, in_room};
use crate::physics::heats;
use numerics::quantity::{Length, Temperature, TemperatureDifference};
use recipe::document::model::{Action, Recipe, Tool};
use recipe::formula::Formula;

/// What hands and a mixer are told to warm a dough by, °C: the middles of `hands-warm` and `mixer-warms`.
const HANDS_WARM_KELVIN: f64 = 1.5;
/// See [`HANDS_WARM_KELVIN`].
const MIXER_WARMS_KELVIN: f64 = 5.0;

/// How far a thermostat lets its oven swing: 20 °F either way (appliance pages, second-hand).
const SWING: TemperatureDifference = TemperatureDifference::from_si(11.0);
/// What an oven lacks that was not heated long enough: with the simulator's element it is back after six
/// minutes, and over the first ten it is 20 °C short in the mean (common practice; worked out here).
const NOT_PREHEATED: TemperatureDifference = TemperatureDifference::from_si(60.0);

/// A recipe as one reader makes it.
#[derive(Clone, Debug)]
pub struct Departure {
    /// The words as this reader follows them.
    pub recipe: Recipe,
    /// The masses really taken.
    pub formula: Formula,
    /// Where.
    pub kitchen: Kitchen,
    /// How all of it differs from what is written.
    pub facts: Facts,
    /// The share at which each variable lies.
    pub at: Vec<f64>,
}

/// What the reader of a number makes of a recipe.
pub fn departure(
    setup: &Setup<'_>,
    audience: &Audience,
    seed: u64,
    number: u64,
    anew: &[Group],
) -> Departure {
    of(setup, &met(audience, seed, number, anew))
}

/// What the reader of a kitchen makes of a recipe.
pub fn of(setup: &Setup<'_>, met: &Met) -> Departure {
    let mut facts = Facts::written(setup);
    let formula = amounts::taken(setup, met, &mut facts);
    let recipe = words::followed(setup, met, &formula, &mut facts);
    let kitchen = kitchen(setup, met, &mut facts);
    Departure {
        recipe,
        formula,
        kitchen,
        facts,
        at: met.at.clone(),
    }
}

/// The kitchen itself.
fn kitchen(setup: &Setup<'_>, met: &Met, facts: &mut Facts) -> Kitchen {
    let room = met.value(Variable::Room);
    let mut kitchen = in_room(&setup.kitchen, Temperature::from_celsius(room));
    "another kitchen".clone_into(&mut kitchen.name);
    // Nobody else keeps things where the author's kitchen keeps them.
    kitchen.stores.clear();
    kitchen.refrigerator = Temperature::from_celsius(met.value(Variable::Refrigerator).min(room));
    let warm = match met.word(Variable::WarmPlace) {
        Some(_) => room,
        None => met.value(Variable::WarmPlace).max(room),
    };
    kitchen.warm_place = Temperature::from_celsius(warm);
    kitchen.altitude = Length::from_si(met.value(Variable::Altitude));
    let by_hand = !met.yes(Variable::HasMixer) || wants_no_mixer(setup.recipe);
    let warms = met.value(if by_hand {
        Variable::HandsWarm
    } else {
        Variable::MixerWarms
    });
    kitchen.by_hand = by_hand;
    // Degrees are told of a rich dough mixed for twenty minutes; the work that makes the usual ones is the
    // usual work, and more degrees are more work.
    let (usual, work) = if by_hand {
        (HANDS_WARM_KELVIN, heats::HAND)
    } else {
        (MIXER_WARMS_KELVIN, heats::MIXER)
    };
    kitchen.friction = Friction::Power(work * (warms.max(0.0) / usual));
    // A fuller oven is slower by as much as a colder one: minutes go with 1/(T - 95 °C) (worked out here
    // from the trade's habit of turning an oven down and baking longer).
    let dial = setup.dial_celsius.unwrap_or(180.0);
    let slower = met.value(Variable::OvenLoad) - 1.0;
    let loaded = -slower * (dial - 95.0).max(0.0);
    kitchen.oven.hotter = TemperatureDifference::from_si(met.value(Variable::OvenOff) + loaded);
    if met.yes(Variable::FanUnasked) {
        kitchen.oven.fan = true;
    }
    kitchen.oven.swing = SWING;
    if met.yes(Variable::NotPreheated) {
        kitchen.oven.short = NOT_PREHEATED;
    }
    if met.yes(Variable::TwoTrays) && setup.all_on_trays {
        kitchen.oven.shelves = 2;
    }
    facts.room_celsius = room;
    facts.warm_celsius = warm;
    facts.refrigerator_celsius = kitchen.refrigerator.celsius();
    facts.altitude_m = kitchen.altitude.si();
    facts.oven_kelvin = met.value(Variable::OvenOff);
    facts.slower = slower;
    facts.not_preheated = met.yes(Variable::NotPreheated);
    facts.two_trays = kitchen.oven.shelves > 1;
    facts.fan = met.yes(Variable::FanUnasked) && !setup.with_fan;
    facts.mixing_kelvin = warms;
    facts.by_hand = by_hand;
    kitchen
}

/// Whether a recipe is mixed by hands and spoons throughout.
fn wants_no_mixer(recipe: &Recipe) -> bool {
    let steps = recipe.stages.iter().flat_map(|stage| &stage.steps);
    !steps
        .into_iter()
        .any(|step| matches!(&step.action, Action::Mix { by, .. } if by.value == Tool::Mixer))
}
