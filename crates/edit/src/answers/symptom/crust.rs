//! Faults of the oven: pale, or dark outside and raw within.

use super::{Inquiry, Trial};
use crate::answers::bench::Bench;
use crate::answers::hours::core_of;
use crate::answers::reply::{Reply, followed, habit, written};
use crate::stretch::What;
use bake::simulate::{Course, Moment, Shade};
use numerics::quantity::{Duration, TemperatureDifference};
use recipe::document::model::Material;

/// How short of its core a middle is when one calls it raw, K (ours).
const RAW_K: f64 = 5.0;

fn kelvin(degrees: f64) -> TemperatureDifference {
    TemperatureDifference::from_si(degrees)
}

fn pick(inquiry: &Inquiry<'_, '_>, course: &Course) -> Vec<(Duration, Moment)> {
    let moments = inquiry.bench.oven(course, inquiry.product);
    moments
        .into_iter()
        .map(|(after, moment)| (after, *moment))
        .collect()
}

/// The last moment no later than so long after it went in.
fn by(moments: &[(Duration, Moment)], after: Duration) -> Option<Moment> {
    let before = moments.iter().rev();
    let mut before = before.filter(|(at, _)| *at <= after + Duration::from_si(1.0));
    before.next().map(|(_, moment)| *moment)
}

/// How dark a crust is, in a word.
const fn shade(lightness: f64) -> &'static str {
    if lightness > Shade::Pale.lightness() {
        "white"
    } else if lightness > Shade::Golden.lightness() {
        "pale gold"
    } else if lightness > Shade::Brown.lightness() {
        "golden"
    } else if lightness > Shade::Dark.lightness() {
        "brown"
    } else {
        "dark"
    }
}

/// How long the bake of the product takes.
fn minutes(inquiry: &Inquiry<'_, '_>, course: &Course) -> Duration {
    let number = inquiry.bench.number(inquiry.product, What::Bake);
    let mut steps = course.steps.iter();
    steps
        .find(|step| Some(step.number) == number)
        .map_or(Duration::ZERO, |step| step.lasts)
}

fn heavier(inquiry: &Inquiry<'_, '_>, times: f64) -> Trial {
    let mut trial = inquiry.as_meant();
    let name = &inquiry.product.name.value;
    for product in &mut trial.changed.recipe.products {
        if product.name.value == *name {
            for part in &mut product.piece.value {
                part.mass = part.mass * times;
            }
        }
    }
    trial.changed = inquiry.bench.changed(trial.changed.recipe);
    trial
}

fn in_material(inquiry: &Inquiry<'_, '_>, material: Material) -> Trial {
    let mut trial = inquiry.as_meant();
    for product in &mut trial.changed.recipe.products {
        if let Some(tin) = &mut product.tin {
            tin.material.value = material;
        }
    }
    trial
}

/// Stayed pale.
pub fn pale(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(mut inquiry) = Inquiry::of(bench) else {
        return reply
            .refuse("Nothing is baked in this recipe, so no fault of it can be looked into.");
    };
    let course = inquiry.follow(&inquiry.as_meant());
    let (own, took) = (pick(&inquiry, &course), minutes(&inquiry, &course));
    let Some(meant) = own.last().map(|(_, moment)| moment.lightness) else {
        return reply.refuse("The bake of this recipe could not be followed.");
    };
    let end = (Shade::Pale.lightness()).max(meant + 5.0);
    let cases = [
        (
            "oven-20-colder",
            "An oven 20 °C colder than its dial",
            inquiry.in_kitchen(|kitchen| kitchen.oven.hotter = kelvin(-20.0)),
            "Hang a thermometer in it.",
        ),
        (
            "not-heated",
            "An oven not heated through, 40 °C short when it is loaded",
            inquiry.in_kitchen(|kitchen| kitchen.oven.short = kelvin(40.0)),
            "Heat it 25 min, and longer than its lamp says.",
        ),
        (
            "two-trays",
            "Two trays in the oven at once",
            inquiry.in_kitchen(|kitchen| kitchen.oven.shelves = 2),
            "One at a time, or change their places at half time.",
        ),
    ];
    let at_end = |moments: &[(Duration, Moment)], after| {
        by(moments, after).map(|moment: Moment| moment.lightness)
    };
    let mut noted = Vec::new();
    for (key, what, trial, way_out) in cases {
        let then = pick(&inquiry, &inquiry.follow(&trial));
        if let Some(lightness) = at_end(&then, took) {
            noted.push((key, what.to_owned(), lightness, way_out));
        }
    }
    if let Some(lightness) = at_end(&own, took * 0.75) {
        let what = "Three quarters of the baking time".to_owned();
        noted.push((
            "three-quarters",
            what,
            lightness,
            "Give it its time; go by the colour.",
        ));
    }
    for (key, what, lightness, way_out) in noted {
        let light = |value: f64| numerics::decimal::fixed(value, 0);
        let was = reply.put("lightness", meant, "1", light(meant), followed());
        let is = reply.put(key, lightness, "1", light(lightness), followed());
        let does = if shade(lightness) == shade(meant) {
            format!(
                "after the same minutes the crust is {} all the same (lightness {is} and not {was} of 100)",
                shade(meant)
            )
        } else {
            format!(
                "after the same minutes the crust is {} where it should be {} (lightness {is} and not {was} of 100)",
                shade(lightness),
                shade(meant)
            )
        };
        inquiry.cause(what, (lightness - meant) / (end - meant), &does, way_out);
    }
    inquiry.without_figure(
        "No wash, or water drink for milk: less sugar and protein on the crust",
        "Brush with egg or milk; nothing here follows what a wash does.",
    );
    inquiry.told(reply, "A pale crust had too little heat: each cause is looked at when the bread should have been done.");
    reply.say("The colour ends a bake, and the middle: the minutes are those of one oven.");
    reply.rests(
        "lightness, L* of the CIE: 80 pale gold, 75 golden, 70 brown, 50 dark (docs/models/crust-colour.md)",
    );
}

/// 38: dark outside, raw within.
pub fn burnt_outside(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(mut inquiry) = Inquiry::of(bench) else {
        return reply
            .refuse("Nothing is baked in this recipe, so no fault of it can be looked into.");
    };
    let course = inquiry.follow(&inquiry.as_meant());
    let own = pick(&inquiry, &course);
    let Some(meant) = own.last().map(|(_, moment)| *moment) else {
        return reply.refuse("The bake of this recipe could not be followed.");
    };
    let core = core_of(inquiry.product).unwrap_or(meant.middle);
    let done = reply.temperature("middle-wanted", core, written());
    let mut cases = vec![
        (
            "oven-25-hotter",
            "An oven 25 °C hotter than its dial",
            inquiry.in_kitchen(|kitchen| kitchen.oven.hotter = kelvin(25.0)),
            "Hang a thermometer in it and set the dial lower by as much.",
        ),
        (
            "fan-at-the-same-dial",
            "The fan on and the dial not turned down",
            inquiry.in_kitchen(|kitchen| {
                kitchen.oven.fan = true;
                kitchen.oven.hotter = kelvin(20.0);
            }),
            "Turn it down by 15–20 °C (`fan`).",
        ),
        (
            "half-as-heavy-again",
            "A piece half as heavy again",
            heavier(&inquiry, 1.5),
            "Weigh the pieces; a larger one wants a cooler oven and longer.",
        ),
    ];
    if bench.in_tin().is_some() {
        cases.push((
            "dark-tin",
            "A dark tin",
            in_material(&inquiry, Material::DarkMetal),
            "10–15 °C less (`other-material`).",
        ));
    }
    for (key, what, trial, way_out) in cases {
        let then = pick(&inquiry, &inquiry.follow(&trial));
        let mut coloured = then
            .iter()
            .filter(|(_, one)| one.lightness <= meant.lightness);
        let Some((after, moment)) = coloured.next() else {
            continue;
        };
        let short = (core - moment.middle).si();
        let middle = reply.temperature(key, moment.middle, followed());
        let when = Duration::from_minutes(numerics::decimal::round_to(after.minutes(), 1.0));
        let when = reply.time(&format!("{key}-after"), when, followed());
        inquiry.cause(
            what,
            short / RAW_K,
            &format!("when the crust is as dark as it should be, after {when}, the middle reads {middle} and not {done}"),
            way_out,
        );
    }
    inquiry.without_figure(
        "A high rack, or a wash of egg and sugar",
        "The lower third; brush with milk alone.",
    );
    inquiry.told(
        reply,
        "Raw under a finished crust is a middle five degrees or more short.",
    );
    let lower = reply.put(
        "lower-by",
        15.0,
        "K",
        "15\u{a0}°C / 25\u{a0}°F".to_owned(),
        habit(),
    );
    let share = reply.percent("foil-at", 0.6, habit());
    reply.say(format!("Now: lay foil over it and bake on until the middle reads {done}. Next time {lower} less, and foil from {share} of the time on."));
}
