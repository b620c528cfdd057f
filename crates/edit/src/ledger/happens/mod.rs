//! What happens to a recipe in one kitchen, as the strings that every face prints.

pub mod drawn;
mod model;
pub mod other_rooms;
mod oven;
pub(crate) mod reckoned;
mod safety;
mod standing;
mod step;
mod tested;
pub(crate) mod words;

pub use model::{Beside, Happens, Part, StepHappens, Told};

use super::model::{Figure, Ledger, Section, StepLine};
use super::{figure, say};
use crate::Inputs;
use bake::kitchen::Kitchen;
use bake::simulate::{Course, Follows, How};
use numerics::decimal::fixed;
use numerics::quantity::{Length, Temperature, TemperatureDifference};
use recipe::document::model::{Action, Product, Recipe, Standing, Step};
use recipe::provenance::{Had, Origin};
use reckoned::Place;
use step::One;

/// Everything that is said about a course; `ledger`: the same recipe as printed.
pub fn happens(inputs: &Inputs, ledger: &Ledger, course: &Course, how: &How) -> Happens {
    let base = format!("happens.{}", course.kitchen);
    let mut sections: Vec<Part> = Vec::new();
    let mut differences = Vec::new();
    for (at, written) in every_step(inputs.recipe).into_iter().enumerate() {
        let number = at + 1;
        let goes = course.steps.iter().find(|step| step.number == number);
        let printed = printed(&ledger.sections, number);
        let (Some(goes), Some((heading, printed))) = (goes, printed) else {
            continue;
        };
        let one = One {
            inputs,
            course,
            product: written.product,
            step: written.step,
            printed,
            goes,
            place: Place(format!("{base}.step.{number}")),
            lines: Vec::new(),
            told: Vec::new(),
        };
        let (step, told) = one.written_down();
        differences.extend(told);
        match sections.last_mut().filter(|part| part.heading == *heading) {
            Some(part) => part.steps.push(step),
            None => sections.push(Part {
                heading: heading.clone(),
                steps: vec![step],
            }),
        }
    }
    Happens {
        title: ledger.title.clone(),
        kitchen: course.kitchen.clone(),
        conditions: conditions(inputs, &base),
        follows: match how.follows {
            Follows::Clock => "Each step ends by the clock, as written.",
            Follows::Cue => "Each step ends by its sign, however long it takes.",
            Follows::First => "Each step ends by its time or its sign, whichever comes first.",
        },
        tested: tested::tested(inputs.recipe, course),
        sections,
        differences,
        safety: safety::safety(course, &base),
    }
}

/// A written step and the product that it belongs to.
pub(crate) struct Written<'a> {
    pub(crate) product: Option<&'a Product>,
    pub(crate) step: &'a Step,
}

/// Every step in the order in which a page numbers them.
pub(crate) fn every_step(recipe: &Recipe) -> Vec<Written<'_>> {
    let of_stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    let of_stages = of_stages.map(|step| Written {
        product: None,
        step,
    });
    let of_products = recipe.products.iter().flat_map(|product| {
        product.steps.iter().map(move |step| Written {
            product: Some(product),
            step,
        })
    });
    of_stages.chain(of_products).collect()
}

/// Every step's number, what it is called ("Braid, last rise"), and whether it is a bake.
pub fn every_step_called(inputs: &Inputs, ledger: &Ledger) -> Vec<(usize, String, bool)> {
    let called = |(at, written): (usize, Written<'_>)| {
        let (heading, _) = printed(&ledger.sections, at + 1)?;
        let what = words::called(written.step, written.product);
        let baked = matches!(written.step.action, Action::Bake { .. });
        Some((at + 1, format!("{heading}, {what}"), baked))
    };
    every_step(inputs.recipe)
        .into_iter()
        .enumerate()
        .filter_map(called)
        .collect()
}

/// A step as printed, and the heading over it.
fn printed(sections: &[Section], number: usize) -> Option<(&String, &StepLine)> {
    sections.iter().find_map(|section| {
        let step = section.steps.iter().find(|step| step.number == number)?;
        Some((&section.heading, step))
    })
}

/// What of a kitchen this recipe meets.
fn conditions(inputs: &Inputs, base: &str) -> Vec<(String, Figure)> {
    let kitchen = inputs.kitchen;
    let origin = || Origin::new("the kitchen", Had::Written);
    let at = |what: &str, at: Temperature| {
        let name = format!("{base}.{what}");
        let shown = say::temperature_or_half(at);
        (
            what.to_owned(),
            figure(name, at.si(), Temperature::SI, shown, origin()),
        )
    };
    let mut all = vec![at("room", kitchen.room)];
    for (place, what, there) in [
        (Standing::WarmPlace, "warm place", kitchen.warm_place),
        (Standing::Refrigerator, "refrigerator", kitchen.refrigerator),
    ] {
        if stands_in(inputs.recipe, place) {
            all.push(at(what, there));
        }
    }
    all.push((
        "height".to_owned(),
        figure(
            format!("{base}.height"),
            kitchen.altitude.si(),
            Length::SI,
            format!("{}{}m", fixed(kitchen.altitude.si(), 0), say::NBSP),
            origin(),
        ),
    ));
    all.push(("oven".to_owned(), oven(kitchen, base, origin())));
    all
}

fn stands_in(recipe: &Recipe, wanted: Standing) -> bool {
    every_step(recipe).iter().any(|written| {
        matches!(&written.step.action, Action::Rest { place, .. } if place.value == wanted)
    })
}

fn oven(kitchen: &Kitchen, base: &str, origin: Origin) -> Figure {
    let off = kitchen.oven.hotter;
    let mut shown = match off.si() {
        off if off.abs() < 0.5 => "as its dial".to_owned(),
        degrees => {
            let way = if degrees < 0.0 { "colder" } else { "hotter" };
            format!("{} {way} than its dial", say::difference(off.abs()))
        }
    };
    if kitchen.oven.fan {
        shown.push_str(", fan on");
    }
    figure(
        format!("{base}.oven"),
        off.si(),
        TemperatureDifference::SI,
        shown,
        origin,
    )
}
