//! The figures that the model holds, for words to be held against.

use super::passages::Of;
use crate::{Heard, Inputs};
use numerics::quantity::{Duration, Fraction, Length, Mass, Range, Temperature};
use recipe::document::model::{Action, Amount, Item, Step, Timing, TinSize};

/// The kind of a figure; figures of one kind can be compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Kilograms.
    Mass,
    /// Kelvin.
    Temperature,
    /// Seconds.
    Time,
    /// Metres.
    Length,
    /// A share of the whole.
    Share,
    /// So many times as much.
    Multiple,
    /// A number of things.
    Count,
}

/// A figure of the model.
#[derive(Clone, Debug)]
pub struct Known {
    /// Its place in dotted words.
    pub name: String,
    /// What it is.
    pub kind: Kind,
    /// In SI.
    pub value: f64,
    /// The step it belongs to, by number; none for what is the recipe's.
    pub step: Option<usize>,
}

/// Collects figures under a prefix.
struct Sheet<'a> {
    all: &'a mut Vec<Known>,
    place: String,
    step: Option<usize>,
}

impl Sheet<'_> {
    fn add(&mut self, what: &str, kind: Kind, value: f64) {
        let name = if what.is_empty() {
            self.place.clone()
        } else {
            format!("{}.{what}", self.place)
        };
        self.all.push(Known {
            name,
            kind,
            value,
            step: self.step,
        });
    }

    fn time(&mut self, what: &str, time: Duration) {
        self.add(what, Kind::Time, time.si());
    }

    fn heat(&mut self, what: &str, at: Temperature) {
        self.add(what, Kind::Temperature, at.si());
    }

    fn range(&mut self, what: &str, range: Range<Temperature>) {
        self.heat(what, range.low);
        self.heat(what, range.high);
    }

    fn timing(&mut self, timing: &Timing) {
        self.time("time", timing.usual.value);
        if let Some(range) = &timing.range {
            self.time("time-range", range.value.low);
            self.time("time-range", range.value.high);
        }
    }

    fn timings<'t>(&mut self, all: impl Iterator<Item = &'t Timing> + Clone) {
        all.clone().for_each(|timing| self.timing(timing));
        let sum = crate::rules::added(all);
        self.time("time", sum.usual);
        self.time("time-range", sum.low);
        self.time("time-range", sum.high);
    }

    fn item(&mut self, item: &Item, mass: Option<Mass>) {
        if let Some(mass) = mass {
            self.add("mass", Kind::Mass, mass.si());
        }
        if let Some(at) = &item.at {
            self.heat("temperature", at.value);
        }
        for amount in [&item.take, &item.each, &item.also].into_iter().flatten() {
            match &amount.value {
                Amount::Mass(mass) => self.add("mass", Kind::Mass, mass.si()),
                Amount::Count { count, .. } => self.add("count", Kind::Count, *count),
                Amount::Measures(_) => {}
            }
        }
    }
}

/// Every figure of the recipe that is no step's.
pub fn of_the_recipe(inputs: &Inputs, heard: &Heard) -> Vec<Known> {
    let (recipe, formula) = (inputs.recipe, inputs.formula);
    let mut all = Vec::new();
    let at = |place: String, all: &mut Vec<Known>, fill: &mut dyn FnMut(&mut Sheet)| {
        fill(&mut Sheet {
            all,
            place,
            step: None,
        });
    };
    for (stage, sum) in recipe.stages.iter().zip(&formula.stages) {
        for (item, resolved) in stage.items.iter().zip(&sum.items) {
            let place = format!("stage.{}.{}", stage.name.value, item.called());
            at(place, &mut all, &mut |sheet| {
                sheet.item(item, resolved.mass);
            });
        }
        at(
            format!("stage.{}", stage.name.value),
            &mut all,
            &mut |sheet| {
                sheet.add("sum", Kind::Mass, sum.mass.si());
                sheet.add("flour-share", Kind::Share, sum.flour_share.si());
                if let Some(lost) = &stage.evaporates {
                    sheet.add("evaporates", Kind::Mass, lost.value.si());
                }
            },
        );
    }
    for (item, resolved) in recipe.besides.iter().zip(&formula.besides) {
        let place = format!("besides.{}", item.called());
        at(place, &mut all, &mut |sheet| {
            sheet.item(item, resolved.mass);
        });
    }
    for (product, sum) in recipe.products.iter().zip(&formula.products) {
        at(
            format!("product.{}", product.name.value),
            &mut all,
            &mut |sheet| {
                let count = f64::from(product.count.value);
                sheet.add("count", Kind::Count, count);
                let piece = sum.piece;
                sheet.add("piece", Kind::Mass, piece.si());
                sheet.add("all", Kind::Mass, piece.si() * count);
                sheet.add("raw", Kind::Mass, (piece + sum.filling).si());
                for part in &product.piece.value {
                    sheet.add("part", Kind::Mass, part.mass.si());
                    sheet.add("parts", Kind::Count, f64::from(part.count));
                }
                for item in &product.with {
                    sheet.item(item, None);
                }
                if let Some(after) = &product.after_bake {
                    sheet.add("after-bake", Kind::Mass, after.value.si());
                }
                if let Some(tin) = &product.tin {
                    for side in sides(&tin.size.value) {
                        sheet.add("tin", Kind::Length, side.si());
                    }
                }
            },
        );
    }
    at("dough".to_owned(), &mut all, &mut |sheet| {
        let dough = &formula.dough;
        for (what, mass) in [
            ("flour", dough.flour),
            ("water", dough.water),
            ("fat", dough.fat),
            ("sugar", dough.sugar),
            ("salt", dough.salt),
        ] {
            sheet.add(what, Kind::Mass, mass.si());
            if let Some(share) = dough.of_flour(mass) {
                sheet.add(what, Kind::Share, share.si());
            }
        }
    });
    at("times".to_owned(), &mut all, &mut |sheet| {
        let elapsed = &heard.elapsed;
        sheet.time("total", elapsed.total);
        sheet.time("on-the-day", elapsed.on_the_day);
        sheet.time("day-before", elapsed.day_before);
        sheet.time("hands-on", elapsed.hands_on);
        sheet.time("baking", elapsed.baking);
        let promised = recipe.promise.as_ref().and_then(|p| p.within.as_ref());
        if let Some(within) = promised {
            sheet.time("promise", within.value);
        }
    });
    for entry in &recipe.pantry {
        let shares = [&entry.protein, &entry.water, &entry.fat, &entry.sugars];
        at(
            format!("pantry.{}", entry.name.value),
            &mut all,
            &mut |sheet| {
                for share in shares.into_iter().flatten() {
                    sheet.add("share", Kind::Share, share.value.si());
                }
            },
        );
    }
    all
}

/// The sides of a tin.
fn sides(size: &TinSize) -> Vec<Length> {
    match *size {
        TinSize::Box {
            length,
            width,
            depth,
        } => vec![length, width, depth],
        TinSize::Tray { length, width } => vec![length, width],
        TinSize::Round { diameter, height } => vec![diameter, height],
    }
}

/// Every figure of a step.
pub fn of_a_step(of: &Of) -> Vec<Known> {
    let mut all = Vec::new();
    let mut sheet = Sheet {
        all: &mut all,
        place: format!("step.{}", of.number),
        step: Some(of.number),
    };
    action(&mut sheet, of.step);
    if let Some(until) = &of.step.until {
        if let Some(core) = &until.core {
            sheet.heat("core", core.value);
        }
        if let Some(dough) = &until.dough {
            sheet.heat("dough", dough.value);
        }
        if let Some(volume) = &until.volume {
            sheet.add("volume", Kind::Multiple, volume.value);
        }
        if let Some(height) = &until.height {
            sheet.add("height", Kind::Length, height.value.si().abs());
        }
    }
    if let Action::Divide { into: names, .. } = &of.step.action {
        sheet.add("products", Kind::Count, names.len() as f64);
    }
    all
}

fn action(sheet: &mut Sheet, step: &Step) {
    match &step.action {
        Action::Ready { before, timing, .. } => {
            sheet.time("before", before.value);
            sheet.timing(timing);
        }
        Action::Mix { phases, dough, .. } => {
            sheet.timings(phases.iter().map(|phase| &phase.timing));
            if let Some(dough) = dough {
                sheet.range("dough", dough.value);
            }
        }
        Action::Heat { to, timing } | Action::Preheat { to, timing } => {
            sheet.heat("to", to.value);
            sheet.timing(timing);
        }
        Action::Rest {
            timing, at, thick, ..
        } => {
            sheet.timing(timing);
            sheet.heat("at", at.value);
            if let Some(thick) = thick {
                sheet.add("thick", Kind::Length, thick.value.si());
            }
        }
        Action::Fold { timing, into_rest } => {
            sheet.timing(timing);
            sheet.add("folds", Kind::Count, into_rest.len() as f64);
            for time in into_rest {
                sheet.time("into-rest", time.value);
            }
        }
        Action::Bake {
            phases,
            core,
            check,
            ..
        } => {
            sheet.timings(phases.iter().map(|phase| &phase.timing));
            for phase in phases {
                sheet.heat("oven", phase.at.value);
            }
            if let Some(core) = core {
                sheet.heat("core", core.value);
            }
            if let Some(check) = check {
                sheet.time("check", check.value);
            }
        }
        Action::Cool { timing, at, .. } => {
            sheet.timing(timing);
            sheet.heat("at", at.value);
        }
        Action::Wake { timing, .. }
        | Action::Divide { timing, .. }
        | Action::Shape { timing }
        | Action::Finish { timing } => sheet.timing(timing),
    }
}

/// The usual time of a step, with its ends.
pub fn time_of(step: &Step) -> Option<(Duration, Duration, Duration)> {
    let sum = match &step.action {
        Action::Mix { phases, .. } => crate::rules::added(phases.iter().map(|phase| &phase.timing)),
        Action::Bake { phases, .. } => {
            crate::rules::added(phases.iter().map(|phase| &phase.timing))
        }
        Action::Ready { .. } | Action::Fold { .. } => return None,
        Action::Wake { timing, .. }
        | Action::Heat { timing, .. }
        | Action::Rest { timing, .. }
        | Action::Divide { timing, .. }
        | Action::Shape { timing }
        | Action::Finish { timing }
        | Action::Preheat { timing, .. }
        | Action::Cool { timing, .. } => crate::rules::added(std::iter::once(timing)),
    };
    Some((sum.usual, sum.low, sum.high))
}

/// Whether less than half of a step's time may be a part of it. A mix is told whole or by its phases; a part of it is said to
/// be one: "after 2 minutes", "the last minute"; or it is the time of one work of several: "stir, add the water and knead 2
/// minutes". What else takes its time has moments of its own: "turn out after 5 minutes".
pub fn may_be_part(step: &Step, before: &str) -> bool {
    let lower = before.to_lowercase();
    let words = || lower.split(|sign: char| !sign.is_alphabetic());
    let led = words()
        .filter(|word| !word.is_empty())
        .rev()
        .take(2)
        .any(|word| PART_WORDS.contains(&word));
    let several = words().filter(|word| WORKS.contains(word)).count() > 1;
    led || several || !matches!(step.action, Action::Mix { .. })
}

/// What hands and mixers do to a dough, each a time of its own in one sentence.
const WORKS: [&str; 6] = ["stir", "knead", "beat", "whisk", "rub", "work"];

/// Words before a time by which it is a part of a longer one.
const PART_WORDS: [&str; 10] = [
    "after", "every", "first", "last", "another", "further", "within", "more", "then", "final",
];

/// The share of the flour that is salt, water or the like, by the word for it.
pub fn share_called(inputs: &Inputs, word: &str) -> Option<(&'static str, Fraction)> {
    let dough = &inputs.formula.dough;
    let (name, mass) = match word {
        "hydration" | "water" => ("water", dough.water),
        "salt" => ("salt", dough.salt),
        "fat" => ("fat", dough.fat),
        "sugar" => ("sugar", dough.sugar),
        _ => return None,
    };
    Some((name, dough.of_flour(mass)?))
}
