//! Answers about the oven: done or not, its fan, its tins, and none at all.

use super::Bench;
use super::hours::core_of;
use super::reply::{Reply, habit, here, quoted, written};
use super::timed::Timed;
use crate::ledger::say;
use crate::stretch::What;
use bake::kitchen::Kitchen;
use numerics::quantity::{Temperature, TemperatureDifference};
use recipe::document::model::{Action, Material, Product, Recipe};
use recipe::formula::bands::{Measured, band};
use recipe::formula::piece_mass;

fn bakes(all: Vec<Timed>) -> Vec<Timed> {
    all.into_iter()
        .filter(|one| one.stretch.what == What::Bake)
        .collect()
}

/// What the dial of a product's bake says first.
fn dial_of(product: &Product) -> Option<Temperature> {
    product.steps.iter().find_map(|step| match &step.action {
        Action::Bake { phases, .. } => phases.first().map(|phase| phase.at.value),
        _ => None,
    })
}

/// Whether a bake is written for a fan.
fn written_with_fan(product: &Product) -> bool {
    product
        .steps
        .iter()
        .any(|step| matches!(&step.action, Action::Bake { fan, .. } if fan.value))
}

/// 35: done without a thermometer.
pub fn done(bench: &Bench<'_>, reply: &mut Reply) {
    let (mut told, mut mine) = (Vec::new(), None);
    let kind = bench.inputs.recipe.kind.value;
    let course = bench.in_kitchen(bench.inputs.kitchen, &bench.how());
    let timed = bakes(bench.own_timed(&course));
    for product in &bench.inputs.recipe.products {
        let name = &product.name.value;
        let sums = &bench.inputs.formula.products;
        let filled = sums.iter().find(|one| one.name == *name);
        let raw = filled.map_or_else(
            || piece_mass(&product.piece.value),
            |one| one.piece + one.filling,
        );
        let each = if product.count.value > 1 { " each" } else { "" };
        let (limit, origin) = match (&product.after_bake, band(kind, Measured::BakeLoss)) {
            (Some(after), _) => (after.value, written()),
            (None, Some(usual)) => (raw * (1.0 - usual.low), usual.origin.clone()),
            (None, None) => continue,
        };
        let (before, after) = (
            reply.mass(&format!("raw {name}"), raw, here()),
            reply.mass(&format!("done {name}"), limit, origin),
        );
        let lost = reply.percent(&format!("lost {name}"), 1.0 - limit / raw, here());
        let minutes = timed
            .iter()
            .find(|one| one.stretch.of == *name)
            .map(|one| reply.stretch(one, "here"));
        let minutes = minutes.map_or_else(String::new, |minutes| format!(", about {minutes}"));
        let words = format!(
            "{name} {before} raw, {after} or less{each} when done ({lost} lighter){minutes}"
        );
        if bench
            .main()
            .is_some_and(|main| main.name.value == product.name.value)
            || mine.is_none()
        {
            mine = Some(format!(
                "weigh the {name} without its tin: it is done at {after} or less{each}, {lost} lighter than raw, for that much water must go"
            ));
        }
        told.push(words);
    }
    if told.is_empty() {
        return reply.refuse("Nothing is baked in this recipe.");
    }
    reply.say(format!("{}.", mine.unwrap_or_default()));
    reply.say("The colour decides with it, sides that are firm when pressed and a hollow sound underneath (common practice).");
    reply.more(format!("Each: {}.", told.join("; ")));
    reply.more("Weigh it quickly and put it back when it is heavier.");
    if let Some(core) = bench.main().and_then(core_of) {
        let shown = reply.temperature("middle", core, written());
        reply.more(format!("A thermometer in the middle would read {shown}."));
    }
    reply.rests("a filling, a wash or toppings weigh too: then the colour and the sides decide");
}

/// 36: a fan.
pub fn fan(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(product) = bench.main() else {
        return reply.refuse("Nothing is baked in this recipe.");
    };
    let Some(dial) = dial_of(product) else {
        return reply.refuse("No oven’s dial is written.");
    };
    if written_with_fan(product) {
        let up = reply.dial(
            "without-fan",
            dial + TemperatureDifference::from_si(20.0),
            quoted("custom of the United Kingdom and Europe, 20 °C"),
        );
        return reply.say(format!(
            "This recipe is written for a fan; without one turn it up to {up}. The crust and the middle decide."
        ));
    }
    let us = dial - TemperatureDifference::from_si(25.0 / 1.8);
    let uk = dial - TemperatureDifference::from_si(20.0);
    let shown = reply.dial("written", dial, written());
    let low = reply.dial(
        "less-20",
        uk,
        quoted("custom of the United Kingdom and Europe, 20 °C less with a fan"),
    );
    let (u, f) = (us.celsius(), us.fahrenheit());
    let us_shown = format!(
        "{}{}°C / {}{}°F",
        numerics::decimal::fixed(numerics::decimal::round_to(u, 5.0), 0),
        say::NBSP,
        numerics::decimal::fixed(numerics::decimal::round_to(f, 5.0), 0),
        say::NBSP
    );
    let high = reply.put(
        "less-25-f",
        us.si(),
        Temperature::SI,
        us_shown,
        quoted("Michigan State University Extension: 25 °F less with a fan"),
    );
    reply.say(format!(
        "Set it to {high} (custom of the United States) or {low} (Europe) instead of {shown}: moving air heats more."
    ));
    let with = |hotter: f64| -> Kitchen {
        let mut kitchen = bench.inputs.kitchen.clone();
        kitchen.oven.fan = true;
        kitchen.oven.hotter += TemperatureDifference::from_si(hotter);
        kitchen
    };
    let how = bench.how();
    let still = Kitchen {
        oven: bake::kitchen::Oven {
            fan: false,
            ..bench.inputs.kitchen.oven
        },
        ..bench.inputs.kitchen.clone()
    };
    let usual = bakes(bench.own_timed(&bench.in_kitchen(&still, &how)));
    let lower = bakes(bench.own_timed(&bench.in_kitchen(&with(0.0), &how)));
    let same = bakes(bench.own_timed(&bench.in_kitchen(&with(20.0), &how)));
    match reply.against(&lower, &usual, "with-20-less") {
        Some(moved) => reply.more(format!("Reckoned with 20 °C less: {}.", moved.all)),
        None => reply.more("Reckoned with 20 °C less the minutes stay as they are."),
    }
    if let Some(moved) = reply.against(&same, &usual, "same-dial") {
        reply.more(format!(
            "Left at the written dial: {}, and a darker crust.",
            moved.all
        ));
    }
    let share = reply.percent("look-at", 0.75, habit());
    reply.say(format!(
        "By that custom the written time is about right; look for the first time at {share} of it. The crust and the middle decide."
    ));
    reply.more("Turn the tray once.");
}

/// The recipe with every tin of one material.
fn in_material(recipe: &Recipe, material: Material) -> Recipe {
    let mut changed = recipe.clone();
    for product in &mut changed.products {
        if let Some(tin) = &mut product.tin {
            tin.material.value = material;
        }
    }
    changed
}

/// 37: glass, dark metal, silicone.
pub fn other_material(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(product) = bench.in_tin().or(bench.main()) else {
        return reply.refuse("Nothing is baked in this recipe.");
    };
    let (Some(tin), Some(dial)) = (&product.tin, dial_of(product)) else {
        return reply
            .say("Nothing of this recipe is baked in a tin; for a dark tray look 2 min earlier.");
    };
    let asked: Vec<Material> = match bench.facts.material {
        Some(one) => vec![one],
        None => vec![Material::Glass, Material::DarkMetal, Material::Silicone],
    };
    let how = bench.how();
    let kitchen = bench.inputs.kitchen;
    let name = &product.name.value;
    let own = |all: Vec<Timed>| -> Option<Timed> {
        bakes(all).into_iter().find(|one| one.stretch.of == *name)
    };
    let usual = own(bench.own_timed(&bench.in_kitchen(kitchen, &how)));
    let Some(usual) = usual else {
        return reply.refuse("The bake could not be followed.");
    };
    let before = reply.stretch(&usual, "written-tin");
    let mut told = Vec::new();
    for material in asked {
        let changed = bench.changed(in_material(bench.inputs.recipe, material));
        let course = bench.changed_in(&changed, kitchen, &how);
        if let Some(there) = own(bench.timed(&changed.recipe, &course)) {
            let shown = reply.stretch(&there, material.word());
            told.push(format!("{} {shown}", material.word()));
        }
    }
    reply.say(format!(
        "At the same dial the {name} bakes {before} in its {} tin, and in {}: the tin passes the heat on more slowly or faster.",
        tin.material.value.word(),
        told.join(", in ")
    ));
    let glass = reply.dial(
        "glass-dial",
        dial - TemperatureDifference::from_si(25.0 / 1.8),
        quoted("cookery pages on glass, 25 °F less"),
    );
    reply.say("The colour of the sides and the middle decide.");
    let wants = |material: Material| bench.facts.material.is_none_or(|asked| asked == material);
    if wants(Material::Glass) {
        reply.more(format!("Glass starts slowly and then browns hard: set the dial to {glass} (25 °F less). Never put cold glass into a hot oven, for it may crack."));
    }
    if wants(Material::DarkMetal) {
        reply.more("Dark metal browns the sides sooner: 10–15 °C less, or look 5–10 % earlier (common practice).");
    }
    if wants(Material::Silicone) {
        reply.more("Silicone bends and browns little: stand it on a tray and count on a tenth more time (common practice).");
    }
}

/// No oven: refused.
pub fn no_oven(bench: &Bench<'_>, reply: &mut Reply) {
    let what = bench
        .main()
        .map_or("bread", |product| product.name.value.as_str());
    reply.refuse(format!(
        "There is no honest figure for that here: this program follows a bake in an oven’s dry heat, and a lidded pan or a steamer gives this {what} no brown crust."
    ));
    if let Some(core) = bench.main().and_then(core_of) {
        let shown = reply.temperature("middle", core, written());
        reply.say(format!("Take a recipe that was made for the pan; whatever the way, a thermometer decides: {shown} in the middle."));
    }
}
