//! Whether a bread comes out well: against the one it is meant to be, flaw by flaw, safety apart.

use super::departure::Facts;
use super::setup::Setup;
use crate::physics::boiling;
use crate::simulate::{Course, Happening, Moment, Weight};
use numerics::quantity::Length;
use recipe::document::model::{Action, Product, Recipe, Tin, TinSize};
use recipe::formula::piece_mass;

/// What can be wrong with a bread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Flaw {
    /// Too little gas at the oven's door.
    TooLittleRise,
    /// Too much, or past its best.
    TooMuchRise,
    /// Butter oiled out of a warm dough.
    Greasy,
    /// Too dry a dough.
    Stiff,
    /// Too wet a dough.
    Slack,
    /// Too little salt.
    Bland,
    /// Too much salt.
    Salty,
    /// The middle is not baked.
    RawInside,
    /// A crust without colour.
    Pale,
    /// A crust too dark.
    Dark,
    /// Too small a bread.
    Small,
    /// Low in its tin.
    LowInTin,
    /// Over its tin.
    OverTin,
}

impl Flaw {
    /// All of them.
    pub const ALL: [Self; 13] = [
        Self::TooLittleRise,
        Self::TooMuchRise,
        Self::Greasy,
        Self::Stiff,
        Self::Slack,
        Self::Bland,
        Self::Salty,
        Self::RawInside,
        Self::Pale,
        Self::Dark,
        Self::Small,
        Self::LowInTin,
        Self::OverTin,
    ];

    /// Its bit in a set.
    pub const fn bit(self) -> u16 {
        1 << (self as u16)
    }

    /// In a cook's words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::TooLittleRise => "risen too little",
            Self::TooMuchRise => "risen too far",
            Self::Greasy => "butter runs out of the dough",
            Self::Stiff => "too dry a dough",
            Self::Slack => "too wet a dough",
            Self::Bland => "too little salt",
            Self::Salty => "too much salt",
            Self::RawInside => "not baked in the middle",
            Self::Pale => "a pale crust",
            Self::Dark => "a crust too dark",
            Self::Small => "a small, dense bread",
            Self::LowInTin => "low in its tin",
            Self::OverTin => "over the edge of its tin",
        }
    }
}

/// The lines at which a bread has a flaw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Gas at the oven's door against what is meant.
    pub little_rise: f64,
    /// The same, the other way.
    pub much_rise: f64,
    /// A dough with butter, °C.
    pub butter_celsius: f64,
    /// Water that the flour feels against what is written.
    pub stiff: f64,
    /// The same, the other way.
    pub slack: f64,
    /// Salt against what is written.
    pub bland: f64,
    /// The same, the other way.
    pub salty: f64,
    /// The middle at its hottest, °C.
    pub core_celsius: f64,
    /// Lightness over what is meant, L*.
    pub pale: f64,
    /// Lightness under what is meant, L*.
    pub dark: f64,
    /// Volume of the bread against what is meant.
    pub small: f64,
    /// Tin for a gram of dough against what is written.
    pub low_in_tin: f64,
    /// Dough at the oven's door against what its tin holds.
    pub over_tin: f64,
}

impl Limits {
    /// The usual lines. Rises of 70 and 140 %, salt of 1.3 and 2.4 % where 1.79 % is written, water of 52 %
    /// where 60.9 % is written, tins of 2.8 mL/g where 2.3 is written, dough 1.35 times as high as its rim,
    /// butter in a dough of 28 °C, a middle of 88 °C: common practice. Too wet, colours and volume: ours.
    pub const USUAL: Self = Self {
        little_rise: 0.70,
        much_rise: 1.40,
        butter_celsius: 28.0,
        stiff: 0.854,
        slack: 1.15,
        bland: 0.73,
        salty: 1.34,
        core_celsius: 88.0,
        pale: 6.0,
        dark: 14.0,
        small: 0.75,
        low_in_tin: 1.22,
        over_tin: 1.35,
    };
}

/// Dough without gas, g/mL (`simulate::matter` works it out for each; 1.2 is near all of them).
const DOUGH_G_PER_ML: f64 = 1.2;
/// A crust lighter than this has no colour at all, L*.
const NO_COLOUR: f64 = 75.0;
/// No middle gets nearer to boiling than this in a bake that is done, °C.
const UNDER_BOILING: f64 = 5.0;

/// A middle so much under what is meant is still baked: 88 °C where 91 to 92 are meant (common practice), °C.
const UNDER_MEANT: f64 = 3.5;

/// A bread as it went.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bread {
    /// Volume at the oven's door, against the dough without gas.
    pub door: f64,
    /// Volume when it comes out.
    pub out: f64,
    /// Lightness of its crust then, L*.
    pub lightness: f64,
    /// The middle at its hottest, °C.
    pub middle_celsius: f64,
    /// The dough at its warmest before the bake, °C.
    pub dough_celsius: f64,
    /// Its gas began to leave faster than it was made before the bake.
    pub past_best: bool,
    /// Dough at the oven's door against what its tin holds.
    pub fills: Option<f64>,
}

/// Every product of a recipe as it went in a course; none where it cannot be followed out of the oven.
pub fn breads(recipe: &Recipe, course: &Course) -> Vec<Option<Bread>> {
    let mut number = recipe.steps_before(recipe.stages.len());
    let mut all = Vec::with_capacity(recipe.products.len());
    for product in &recipe.products {
        let first = number;
        number += product.steps.len();
        let bakes =
            |step: &recipe::document::model::Step| matches!(step.action, Action::Bake { .. });
        let bread = product
            .steps
            .iter()
            .rposition(bakes)
            .and_then(|at| bread(product, course, first + at + 1));
        all.push(bread);
    }
    all
}

fn bread(product: &Product, course: &Course, bake: usize) -> Option<Bread> {
    let of = |name: &str, piece: bool| {
        course
            .doughs
            .iter()
            .find(move |dough| dough.piece == piece && dough.of.eq_ignore_ascii_case(name))
    };
    let piece = of(&product.name.value, true)?;
    let before = || piece.moments.iter().filter(|moment| moment.step < bake);
    let baking = || piece.moments.iter().filter(|moment| moment.step == bake);
    let out = baking().next_back()?;
    let door: Option<&Moment> = before().next_back().or_else(|| baking().next());
    let stage = of(&product.from.value, false);
    let stage = stage.map_or(&[][..], |dough| &dough.moments);
    let most = |of: fn(&Moment) -> f64, all: &mut dyn Iterator<Item = &Moment>| {
        all.map(of).fold(f64::NEG_INFINITY, f64::max)
    };
    let door = door?.volume;
    let steps = course
        .steps
        .iter()
        .filter(|step| step.of.eq_ignore_ascii_case(&product.name.value) && step.number < bake);
    let past_best = steps
        .flat_map(|step| &step.events)
        .any(|event| event.what == Happening::PastItsBest);
    let grams = piece_mass(&product.piece.value).grams();
    let fills = product
        .tin
        .as_ref()
        .and_then(tin_ml)
        .map(|holds| grams / DOUGH_G_PER_ML * door / holds);
    Some(Bread {
        door,
        out: out.volume,
        lightness: out.lightness,
        middle_celsius: most(|moment| moment.middle.celsius(), &mut baking()),
        dough_celsius: most(
            |moment| moment.mean.celsius(),
            &mut stage.iter().chain(before()),
        ),
        past_best,
        fills,
    })
}

/// What a tin holds, mL; of a box whose walls slope 87 % of the straight one, as `simulate::shape` has it.
fn tin_ml(tin: &Tin) -> Option<f64> {
    if matches!(tin.size.value, TinSize::Tray { .. }) {
        return None;
    }
    if let Some(holds) = recipe::formula::tin_volume(tin) {
        return Some(holds.millilitres());
    }
    match tin.size.value {
        TinSize::Box {
            length,
            width,
            depth,
        } => Some(0.87 * length.si() * width.si() * depth.si() * 1e6),
        _ => None,
    }
}

/// What is wrong with the bread of a place, as a set of bits.
pub fn flaws(
    setup: &Setup<'_>,
    facts: &Facts,
    place: usize,
    bread: &Bread,
    limits: &Limits,
) -> u16 {
    let Some(meant) = setup.meant.get(place).and_then(Option::as_ref) else {
        return 0;
    };
    let gas = (bread.door - 1.0) / (meant.door - 1.0).max(0.05);
    let boils = boiling::boiling_point(boiling::pressure(Length::from_si(facts.altitude_m)));
    let done = limits
        .core_celsius
        .min(boils.celsius() - UNDER_BOILING)
        .min(meant.middle_celsius - UNDER_MEANT);
    let tin = facts.tin.get(place).copied().flatten();
    let fills = bread.fills.unwrap_or(0.0);
    let brim = limits.over_tin.max(1.25 * meant.fills.unwrap_or(0.0));
    let over = fills > brim;
    let yes = [
        (Flaw::TooLittleRise, gas < limits.little_rise),
        (
            Flaw::TooMuchRise,
            gas > limits.much_rise || bread.past_best && !meant.past_best,
        ),
        (
            Flaw::Greasy,
            facts.butter_of_flour > crate::mix::MUCH_BUTTER
                && bread.dough_celsius > limits.butter_celsius.max(meant.dough_celsius + 1.0),
        ),
        (Flaw::Stiff, facts.hydration < limits.stiff),
        (Flaw::Slack, facts.hydration > limits.slack),
        (Flaw::Bland, facts.salt < limits.bland),
        (Flaw::Salty, facts.salt > limits.salty),
        (Flaw::RawInside, bread.middle_celsius < done),
        (
            Flaw::Pale,
            bread.lightness > meant.lightness + limits.pale && bread.lightness > NO_COLOUR,
        ),
        (Flaw::Dark, bread.lightness < meant.lightness - limits.dark),
        (Flaw::Small, bread.out < limits.small * meant.out),
        (
            Flaw::LowInTin,
            !over && tin.is_some_and(|tin| tin > limits.low_in_tin),
        ),
        (Flaw::OverTin, over),
    ];
    yes.iter()
        .filter(|(_, is)| *is)
        .fold(0, |set, (flaw, _)| set | flaw.bit())
}

/// Which counts for safety are past a line that warns, by their places in the setup's list.
pub fn past_lines(setup: &Setup<'_>, course: &Course) -> u32 {
    let mut set = 0;
    for (place, (of, what)) in setup.safety.iter().enumerate().take(32) {
        let past = course.safety.iter().any(|count| {
            count.past && count.weight == Weight::Warns && count.of == *of && count.what == *what
        });
        if past {
            set |= 1 << place;
        }
    }
    set
}
