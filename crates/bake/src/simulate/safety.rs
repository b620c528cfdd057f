//! What is counted of a dough for the eater's safety, and who draws which line.
//!
//! Egg and milk: how long the dough is warm before the bake. Flour and egg: whether the coldest place
//! gets hot enough, and what Salmonella loses in the bake. Custards and creams that are cooked and
//! cooled are not followed here. No line is ours: each is told with who draws it and how it was had.

use super::{Safety, Weight};
use crate::physics::salmonella;
use numerics::quantity::{Mass, Temperature};
use recipe::document::model::{Action, Product, Recipe};
use recipe::document::{Piece, parse_sentence};
use recipe::formula::{Formula, Resolved};
use recipe::larder::Role;
use recipe::provenance::Had;

/// Where egg is done, °C: 160 °F.
pub const EGG_IS_DONE: f64 = 71.1;
/// More powers of ten than this are told as "more than 7": no measurement goes further.
pub const MOST_TOLD: f64 = 7.0;

/// Sums over a dough's way, kept up at every look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counts {
    /// Before the bake, above 21 °C, s.
    pub above_21_s: f64,
    /// Before the bake, from 10 to 21 °C, s.
    pub from_10_to_21_s: f64,
    /// Before the bake, between 4 and 60 °C, s.
    pub from_4_to_60_s: f64,
    /// From the mix until the coldest place is done, s.
    pub raw_s: f64,
    /// Whether it has been done.
    pub done: bool,
    /// Salmonella lost at the coldest place, powers of ten.
    pub salmonella: f64,
    /// The hottest that the outside above has been in the bake, °C.
    pub outside_most: f64,
    /// The hottest that the coldest place has been in the bake, °C.
    pub coldest_most: f64,
}

impl Default for Counts {
    fn default() -> Self {
        Self {
            above_21_s: 0.0,
            from_10_to_21_s: 0.0,
            from_4_to_60_s: 0.0,
            raw_s: 0.0,
            done: false,
            salmonella: 0.0,
            outside_most: f64::NEG_INFINITY,
            coldest_most: f64::NEG_INFINITY,
        }
    }
}

/// Of a time in which a temperature goes in a straight line, the part above `low` and not above `high`.
pub fn between(from: f64, to: f64, low: f64, high: f64, seconds: f64) -> f64 {
    let (least, most) = if from < to { (from, to) } else { (to, from) };
    if most - least < 1e-12 {
        return if most > low && most <= high {
            seconds
        } else {
            0.0
        };
    }
    let part = (most.min(high) - least.max(low)) / (most - least);
    seconds * part.max(0.0)
}

impl Counts {
    /// Before the bake: its mean went from one temperature to another, °C, in so many seconds.
    pub fn stood(&mut self, from: f64, to: f64, seconds: f64) {
        self.above_21_s += between(from, to, 21.0, f64::INFINITY, seconds);
        self.from_10_to_21_s += between(from, to, 10.0, 21.0, seconds);
        self.from_4_to_60_s += between(from, to, 4.0, 60.0, seconds);
        self.raw_s += seconds;
    }

    /// In the oven or cooling after it: its coldest place went from one temperature to another, °C; its
    /// outside stands at `outside`.
    pub fn baked(&mut self, from: f64, to: f64, outside: f64, seconds: f64) {
        let rates = salmonella::dying_per_s(from) + salmonella::dying_per_s(to);
        self.salmonella += 0.5 * rates * seconds;
        self.coldest_most = self.coldest_most.max(to);
        self.outside_most = self.outside_most.max(outside);
        if !self.done {
            self.raw_s += between(from, to, f64::NEG_INFINITY, EGG_IS_DONE, seconds);
            self.done = to >= EGG_IS_DONE;
        }
    }
}

/// What everybody is told besides.
const DEFER: &str = "Local food codes and licensed advice decide.";

/// Everything that is to be told of one product.
pub fn told(
    recipe: &Recipe,
    formula: &Formula,
    product: &Product,
    counts: Option<&Counts>,
) -> Vec<Safety> {
    let holds = Holding::of(formula, product);
    let mut all = Vec::new();
    let mut tell = |line: Told, value: f64, past: bool| {
        all.push(Safety {
            of: product.name.value.clone(),
            what: line.what,
            value: if line.what == SALMONELLA.what {
                value.min(MOST_TOLD)
            } else {
                value
            },
            unit: line.unit,
            more_than: line.what == SALMONELLA.what && value > MOST_TOLD,
            line: line.line,
            past,
            weight: line.weight,
            source: line.source,
            had: line.had,
            says: line.says,
            defers: DEFER,
        });
    };
    if let Some(counts) = counts {
        if holds.flour {
            let egg = holds.egg || holds.egg_inside;
            let line = if egg { FLOUR_AND_EGG } else { FLOUR };
            tell(line, counts.raw_s, !counts.done);
        }
        if holds.egg || holds.milk {
            for (line, value) in [
                (ABOVE_21, counts.above_21_s),
                (STAPHYLOCOCCI_WARM, counts.above_21_s),
                (STAPHYLOCOCCI_COOL, counts.from_10_to_21_s),
                (ZONE, counts.from_4_to_60_s),
            ] {
                tell(line, value, line.line.is_some_and(|most| value > most));
            }
        }
        if holds.egg || holds.egg_inside {
            let value = counts.salmonella;
            tell(
                SALMONELLA,
                value,
                SALMONELLA.line.is_some_and(|least| value < least),
            );
        }
    }
    let (before, after) = eggs_added(recipe, formula, product);
    if before && let Some(counts) = counts {
        let kelvin = Temperature::from_celsius(counts.outside_most.max(-273.15)).si();
        tell(
            EGG_ON_TOP,
            kelvin,
            EGG_ON_TOP.line.is_some_and(|least| kelvin < least),
        );
    }
    if after > 0 {
        tell(EGG_AFTER, after as f64, true);
    }
    all
}

/// What a product's dough holds that matters here.
#[allow(clippy::struct_excessive_bools)] // four questions, each with yes or no
struct Holding {
    flour: bool,
    egg: bool,
    milk: bool,
    /// Egg in what is baked inside it.
    egg_inside: bool,
}

impl Holding {
    fn of(formula: &Formula, product: &Product) -> Self {
        let stage = formula
            .stages
            .iter()
            .find(|stage| stage.name.eq_ignore_ascii_case(&product.from.value));
        let some = |of: fn(&recipe::formula::model::PartSum) -> Mass| {
            stage.is_some_and(|stage| of(&stage.holds) > Mass::ZERO)
        };
        let with_egg = |item: &recipe::document::model::Item| {
            let mut stages = formula.stages.iter();
            let of = &item.of.value;
            stages.any(|stage| {
                stage.name.eq_ignore_ascii_case(of) && stage.holds.egg_solids > Mass::ZERO
            })
        };
        Self {
            egg_inside: product.with.iter().any(with_egg),
            flour: some(|holds| holds.flour),
            egg: some(|holds| holds.egg_solids),
            milk: some(|holds| holds.milk_solids),
        }
    }
}

/// Raw egg that a product's sentences put on: whether any before its bake, and how often after it.
fn eggs_added(recipe: &Recipe, formula: &Formula, product: &Product) -> (bool, usize) {
    let is_egg =
        |what: &Resolved| matches!(what, Resolved::Ingredient(one) if one.role == Role::Egg);
    let besides: Vec<&str> = formula
        .besides
        .iter()
        .filter(|item| is_egg(&item.what))
        .map(|item| item.called.as_str())
        .collect();
    let stages: Vec<&str> = recipe
        .stages
        .iter()
        .zip(&formula.stages)
        .filter(|(written, sums)| {
            let cooked = written.steps.iter().any(|step| {
                matches!(&step.action, Action::Heat { to, .. } if to.value.celsius() >= EGG_IS_DONE - 0.2)
            });
            !sums.in_dough && sums.holds.egg_solids > Mass::ZERO && !cooked
        })
        .map(|(written, _)| written.name.value.as_str())
        .collect();
    let bakes = |action: &Action| matches!(action, Action::Bake { .. });
    let last = product.steps.iter().rposition(|step| bakes(&step.action));
    let (mut before, mut after) = (false, 0);
    for (at, step) in product.steps.iter().enumerate() {
        let (pieces, _) = parse_sentence(&step.text.value, 0);
        let raw = pieces.iter().any(|piece| match &piece.value {
            Piece::Besides { item, .. } => besides.contains(&item.as_str()),
            Piece::Use { item, .. } => stages.contains(&item.as_str()),
            _ => false,
        });
        if raw && last.is_some_and(|last| at > last) {
            after += 1;
        } else if raw {
            before = true;
        }
    }
    (before, after)
}

/// A line: what is counted, up to where, who draws it.
#[derive(Clone, Copy)]
struct Told {
    what: &'static str,
    unit: &'static str,
    line: Option<f64>,
    weight: Weight,
    source: &'static str,
    had: Had,
    says: &'static str,
}

const HOUR_S: f64 = 3600.0;

const FLOUR: Told = Told {
    what: "time from the mix until the coldest place is at 71\u{a0}°C; until then its flour is raw",
    unit: "s",
    line: None,
    weight: Weight::Tells,
    source: "outbreaks from raw flour 2009 to 2019, told by the US Centers for Disease Control",
    had: Had::SecondHand,
    says: "Do not taste the dough. Wash hands, board and bowl after it. Flour warmed in an oven for a few minutes is not safe by that.",
};

const FLOUR_AND_EGG: Told = Told {
    what: "time from the mix until the coldest place is at 71\u{a0}°C; until then its flour and egg are raw",
    source: "foodsafety.gov, dishes with egg to 160\u{a0}°F (a copy of 2018); raw flour: US Centers for Disease Control",
    ..FLOUR
};

const ABOVE_21: Told = Told {
    what: "time that a dough with egg or milk is above 21\u{a0}°C before it is baked",
    unit: "s",
    line: Some(4.0 * HOUR_S),
    weight: Weight::Warns,
    source: "FDA Food Code 3-501.19, time as a control, as adopted by Wisconsin, Minnesota and Wyoming: 4\u{a0}h, or 6\u{a0}h from 5\u{a0}°C and never above 21\u{a0}°C",
    had: Had::Read,
    says: "Let one of the rises go on in the refrigerator, or let flour and water ripen without egg and milk.",
};

const ZONE: Told = Told {
    what: "time that a dough with egg or milk is between 4 and 60\u{a0}°C before it is baked",
    unit: "s",
    line: Some(2.0 * HOUR_S),
    weight: Weight::Tells,
    source: "US Department of Agriculture, 40 to 140\u{a0}°F for perishable food at home: 2\u{a0}h",
    had: Had::FromMemory,
    says: "Yeasted dough is usually left longer than that, and a full bake follows; whoever sells bread asks the authority.",
};

const STAPHYLOCOCCI_WARM: Told = Told {
    what: "the same time above 21\u{a0}°C, held against Staphylococcus aureus, whose poison no bake destroys",
    unit: "s",
    line: Some(3.0 * HOUR_S),
    weight: Weight::Tells,
    source: "FDA, Fish and Fishery Products Hazards and Controls: above 21\u{a0}°C 3\u{a0}h; it grows from 7\u{a0}°C and makes poison from 10\u{a0}°C",
    had: Had::FromMemory,
    says: "In a lean dough at 27\u{a0}°C it grew twelvefold in 18\u{a0}h (J. Food Prot. 74:285, 2011; abstract read). A bake does not mend a dough that stood too long: throw it away.",
};

const STAPHYLOCOCCI_COOL: Told = Told {
    what: "time between 10 and 21\u{a0}°C, held against Staphylococcus aureus",
    line: Some(12.0 * HOUR_S),
    source: "FDA, Fish and Fishery Products Hazards and Controls: between 10 and 21\u{a0}°C 12\u{a0}h",
    says: "Chill it faster: a flat slab, well apart, in a cold refrigerator.",
    ..STAPHYLOCOCCI_WARM
};

const SALMONELLA: Told = Told {
    what: "powers of ten of Salmonella that the bake kills in the coldest place, at the least",
    unit: "1",
    line: Some(5.0),
    weight: Weight::Warns,
    source: "D and z in dough: J. Food Prot. 87:100280 (2024); a bake that kills five powers of ten is what such studies ask of it",
    had: Had::Read,
    says: "Bake on until the middle is hotter. A figure above 7 is told as more than 7: nobody has measured further.",
};

const EGG_ON_TOP: Told = Told {
    what: "the hottest that the outside gets, with egg on it",
    unit: "K",
    line: Some(EGG_IS_DONE + 273.15),
    weight: Weight::Warns,
    source: "foodsafety.gov, dishes with egg to 160\u{a0}°F (a copy of 2018)",
    had: Had::SecondHand,
    says: "Wash hands and brush after raw egg.",
};

const EGG_AFTER: Told = Told {
    what: "times that egg goes on after the bake and stays raw",
    unit: "1",
    line: Some(0.0),
    weight: Weight::Warns,
    source: "FDA, Key Temperatures for Egg Safety: dishes with raw shell egg 68\u{a0}°C for 17\u{a0}s, or 63\u{a0}°C for 15\u{a0}s when eaten at once",
    had: Had::Read,
    says: "Use pasteurised egg, or put it on before the bake.",
};
