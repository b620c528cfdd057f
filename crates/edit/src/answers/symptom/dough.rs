//! Faults of the dough itself: sticky, stiff, greasy.

use super::Inquiry;
use crate::answers::bench::Bench;
use crate::answers::reply::{Reply, balance, habit, here, memory};
use bake::kitchen::{Kitchen, in_room};
use bake::simulate::{Happening, How};
use numerics::quantity::{Mass, Temperature};
use recipe::document::model::{Action, Recipe};
use recipe::formula::Resolved;
use recipe::formula::bands::{Measured, band};
use recipe::larder::{FLOUR_CUP, FLOUR_CUP_RANGE, Ingredient, Role};
use recipe::substitution::{WATER_PER_POINT, WHOLEGRAIN_WATER};

/// Where a dough with butter turns greasy, °C (common practice).
const GREASY_C: f64 = 28.0;

fn at(celsius: f64) -> Temperature {
    Temperature::from_celsius(celsius)
}

fn butter(one: &Ingredient) -> bool {
    one.role == Role::Fat
        && one
            .composition
            .water
            .is_some_and(|water| water.percent() > 5.0)
}

fn liquid(one: &Ingredient) -> bool {
    one.role == Role::Liquid
}

/// Water on flour after a change, and a sentence of it.
struct Wetness {
    own: f64,
    end: f64,
}

impl Wetness {
    fn cause(
        &self,
        inquiry: &mut Inquiry<'_, '_>,
        reply: &mut Reply,
        (key, what, then): (&str, &str, f64),
        way_out: &str,
    ) {
        let (was, is) = (
            reply.percent("water", self.own, here()),
            reply.percent(key, then, here()),
        );
        let limit = reply.percent("water-usual-end", self.end, habit());
        let reach = (then - self.own) / (self.end - self.own);
        inquiry.cause(
            what,
            reach,
            &format!("it is as if water went from {was} to {is} of the flour, where {limit} is the end of what is usual"),
            way_out,
        );
    }
}

/// Water on flour of a changed dough.
fn water_of(bench: &Bench<'_>, which: fn(&Ingredient) -> bool, factor: f64) -> f64 {
    let dough = bench.with_amounts(which, factor).formula.dough;
    if dough.flour > Mass::ZERO {
        dough.water / dough.flour
    } else {
        0.0
    }
}

/// 27: sticky.
pub fn sticky(bench: &Bench<'_>, reply: &mut Reply) {
    let (Some(mut inquiry), Some(usual)) = (
        Inquiry::of(bench),
        band(bench.inputs.recipe.kind.value, Measured::Water),
    ) else {
        return reply
            .refuse("Nothing is baked in this recipe, so no fault of it can be looked into.");
    };
    let own = bench.of_flour(bench.inputs.formula.dough.water);
    let wet = Wetness {
        own,
        end: usual.high.max(own + 0.03),
    };
    let sifted = FLOUR_CUP_RANGE.low / FLOUR_CUP;
    let cases = [
        (
            (
                "flour-sifted",
                "Flour sifted into the cup (113 g instead of 126 g)",
                water_of(bench, |one| one.role == Role::Flour, sifted),
            ),
            "Weigh the flour.",
        ),
        (
            (
                "flour-weaker",
                "Flour of two points less protein",
                own + 2.0 * WATER_PER_POINT / 100.0,
            ),
            "Hold back some of the liquid (`other-flour`).",
        ),
        (
            (
                "liquid-a-tenth-more",
                "A tenth too much liquid",
                water_of(bench, liquid, 1.1),
            ),
            "Weigh liquids too.",
        ),
        (
            (
                "eggs-larger",
                "Extra large eggs for large ones",
                water_of(bench, |one| one.role == Role::Egg, 1.12),
            ),
            "Weigh the eggs without their shells.",
        ),
    ];
    for (case, way_out) in cases {
        wet.cause(&mut inquiry, reply, case, way_out);
    }
    warm_dough(&mut inquiry, reply);
    inquiry.without_figure(
        "Kneaded too little, or the salt forgotten",
        "Mix on for two minutes and look again before any flour goes in.",
    );
    let most = reply.mass("flour-at-most", bench.flour() * 0.03, habit());
    inquiry.told(
        reply,
        "What sticks while it is mixed is often dry enough after its first rise.",
    );
    reply.say("A thermometer decides first: above 27 °C / 81 °F any dough sticks, and 20 min in the cold mend it (common practice).");
    reply.say(format!(
        "Put in {most} of flour at the most, 3 % of what is there (common practice)."
    ));
}

/// Doughs that come warm from the mixer.
fn warm_dough(inquiry: &mut Inquiry<'_, '_>, reply: &mut Reply) {
    let bench = inquiry.bench;
    let standard = Kitchen::standard();
    let own = mixed_at(bench, inquiry, bench.inputs.recipe, &standard);
    let hot = mixed_at(
        bench,
        inquiry,
        bench.inputs.recipe,
        &in_room(&standard, at(28.0)),
    );
    if let (Some(own), Some(hot)) = (own, hot) {
        let (was, is) = (
            reply.temperature("dough", own, balance()),
            reply.temperature("dough-in-28", hot, balance()),
        );
        inquiry.cause(
            "A kitchen of 28 °C / 82 °F",
            (hot - own).si() / (GREASY_C - own.celsius()).max(0.5),
            &format!("the dough leaves the bowl at {is} instead of {was}"),
            "Cold liquid and eggs; chill the dough 20 min.",
        );
    }
}

/// What the product's dough reads after its mix.
fn mixed_at(
    bench: &Bench<'_>,
    inquiry: &Inquiry<'_, '_>,
    recipe: &Recipe,
    kitchen: &Kitchen,
) -> Option<Temperature> {
    let changed = bench.changed(recipe.clone());
    let how = How {
        through: bake::simulate::Through::Rises,
        ..bench.how()
    };
    let course = bench.changed_in(&changed, kitchen, &how);
    bench.dough_of(&course, inquiry.product)
}

/// 28: stiff.
pub fn stiff(bench: &Bench<'_>, reply: &mut Reply) {
    let (Some(mut inquiry), Some(usual)) = (
        Inquiry::of(bench),
        band(bench.inputs.recipe.kind.value, Measured::Water),
    ) else {
        return reply
            .refuse("Nothing is baked in this recipe, so no fault of it can be looked into.");
    };
    let own = bench.of_flour(bench.inputs.formula.dough.water);
    let dry = Wetness {
        own,
        end: usual.low.min(own - 0.03),
    };
    let (scooped, how) = bench.scooped();
    let mut cases = vec![
        (
            (
                "flour-scooped",
                how.as_str(),
                water_of(bench, |one| one.role == Role::Flour, scooped),
            ),
            "Weigh the flour.",
        ),
        (
            (
                "flour-stronger",
                "Flour of two points more protein",
                own - 2.0 * WATER_PER_POINT / 100.0,
            ),
            "Give it more liquid (`other-flour`).",
        ),
        (
            (
                "quarter-wholemeal",
                "A quarter of it wholemeal, without more liquid",
                own - 0.25 * WHOLEGRAIN_WATER / 100.0,
            ),
            "Wholemeal drinks: give it more water (`wholemeal`).",
        ),
        (
            (
                "liquid-a-tenth-less",
                "A tenth too little liquid",
                water_of(bench, liquid, 0.9),
            ),
            "Weigh liquids too.",
        ),
        (
            (
                "eggs-smaller",
                "Medium eggs for large ones",
                water_of(bench, |one| one.role == Role::Egg, 0.88),
            ),
            "Weigh the eggs without their shells.",
        ),
    ];
    if bench
        .inputs
        .recipe
        .stages
        .iter()
        .any(|stage| stage.evaporates.is_some())
    {
        let lost = Mass::from_grams(15.0);
        reply.mass(
            "paste-loses",
            lost,
            memory("a flour paste cooked to 75 instead of 65 °C loses about 15 g more"),
        );
        let then = (bench.inputs.formula.dough.water - lost) / bench.flour();
        cases.push((
            ("paste-overcooked", "The paste cooked 10 °C too far", then),
            "Weigh the paste and make up the water.",
        ));
    }
    for (case, way_out) in cases {
        dry.cause(&mut inquiry, reply, case, way_out);
        inquiry.yours(case.0 == "flour-scooped" && bench.facts.cup.is_some());
    }
    inquiry.without_figure(
        "Cold butter in lumps, or a dough that has not rested",
        "Wait two minutes with the mixer off, scrape the hook, mix on.",
    );
    let each = reply.mass("milk-at-a-time", bench.flour() * 0.01, habit());
    inquiry.told(
        reply,
        "A dough that climbs the hook has too little water for its flour.",
    );
    reply.say(format!("Now add {each} of the liquid at a time, wait two minutes, four times at the most (common practice); how it feels decides."));
}

/// The recipe with some ingredients put in at another temperature.
fn put_in_at(bench: &Bench<'_>, which: fn(&Ingredient) -> bool, celsius: f64) -> Recipe {
    let mut recipe = bench.inputs.recipe.clone();
    for (stage, sums) in recipe.stages.iter_mut().zip(&bench.inputs.formula.stages) {
        for (item, resolved) in stage.items.iter_mut().zip(&sums.items) {
            if let Resolved::Ingredient(one) = &resolved.what
                && which(one)
                && sums.in_dough
            {
                item.at = Some(recipe::source::Located {
                    value: at(celsius),
                    span: item.span,
                });
            }
        }
    }
    recipe
}

/// The recipe with every mix so many times as long.
fn mixed_longer(recipe: &Recipe, times: f64) -> Recipe {
    let mut changed = recipe.clone();
    for step in changed.stages.iter_mut().flat_map(|stage| &mut stage.steps) {
        if let Action::Mix { phases, .. } = &mut step.action {
            for phase in phases {
                phase.timing.usual.value = phase.timing.usual.value * times;
            }
        }
    }
    changed
}

/// 29: greasy.
pub fn greasy(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(mut inquiry) = Inquiry::of(bench) else {
        return reply
            .refuse("Nothing is baked in this recipe, so no fault of it can be looked into.");
    };
    let mass = bench.mass_of(butter);
    let share = bench.of_flour(mass);
    if share < 0.1 {
        let shown = reply.percent("butter", share, here());
        return reply.say(format!(
            "There is too little butter in this dough to leak out: {shown} of the flour."
        ));
    }
    let standard = Kitchen::standard();
    let Some(own) = mixed_at(bench, &inquiry, bench.inputs.recipe, &standard) else {
        return reply.refuse("The heat of this mix cannot be worked out; an amount is missing.");
    };
    let cases = [
        (
            (
                "butter-melted",
                "Butter half melted, at 30 °C / 86 °F",
                put_in_at(bench, butter, 30.0),
                standard.clone(),
            ),
            "Soft but cool: a finger leaves a dent and comes away clean.",
        ),
        (
            (
                "all-warm",
                "Milk and eggs at 26 °C / 79 °F instead of cold",
                put_in_at(bench, |one| liquid(one) || one.role == Role::Egg, 26.0),
                standard.clone(),
            ),
            "Take them from the refrigerator.",
        ),
        (
            (
                "mixed-twice-as-long",
                "Mixing for twice as long",
                mixed_longer(bench.inputs.recipe, 2.0),
                standard.clone(),
            ),
            "Stop at the thin film; rest the bowl in the cold half-way.",
        ),
        (
            (
                "in-a-room-of-30",
                "A kitchen of 30 °C / 86 °F",
                bench.inputs.recipe.clone(),
                in_room(&standard, at(30.0)),
            ),
            "Cold bowl, cold liquid, cold eggs.",
        ),
    ];
    let was = reply.temperature("dough", own, balance());
    let limit = reply.temperature("greasy-from", at(GREASY_C), habit());
    for ((key, what, recipe, kitchen), way_out) in cases {
        let Some(then) = mixed_at(bench, &inquiry, &recipe, &kitchen) else {
            continue;
        };
        let is = reply.temperature(key, then, balance());
        let reach = (then - own).si() / (GREASY_C - own.celsius()).max(0.5);
        inquiry.cause(
            what,
            reach,
            &format!("the dough leaves the bowl at {is} instead of {was}"),
            way_out,
        );
    }
    let hot = inquiry.in_kitchen(|kitchen| kitchen.warm_place = at(34.0));
    let mut trial = inquiry.as_asked();
    trial.kitchen = hot.kitchen;
    let course = inquiry.follow(&trial);
    let oily = course.steps.iter().find_map(|step| {
        let event = step
            .events
            .iter()
            .find(|event| event.what == Happening::ButterOily)?;
        Some((step.of.clone(), event.after))
    });
    if let Some((of, after)) = oily {
        let shown = reply.time("oily-after", after, crate::answers::reply::followed());
        inquiry.cause(
            "A warm place of 34 °C / 93 °F",
            1.0,
            &format!("in a rise of the {of} the butter turns oily after {shown}"),
            "No rise above 28 °C / 82 °F; an oven’s lamp can be hotter.",
        );
    }
    let shown = reply.percent("butter", share, here());
    inquiry.told(
        reply,
        &format!(
            "With {shown} of butter a dough turns greasy from about {limit} on (common practice)."
        ),
    );
    let cool = reply.temperature("chill-to", at(22.0), habit());
    reply.say(format!(
        "Now: stop, chill it 15–20 min to {cool} or below, and mix again."
    ));
}
