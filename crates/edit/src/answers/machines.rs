//! Answers about mixing without a mixer, with another machine, or with one that is too small.

use super::Bench;
use super::reply::{Reply, balance, habit, here, written};
use crate::ledger::say;
use bake::kitchen::{Friction, Kitchen};
use bake::mix::{MUCH_BUTTER, MixAnswer, by_hand, mix};
use bake::physics::heats;
use numerics::quantity::{Mass, TemperatureDifference};
use recipe::document::model::{Action, Tool};
use recipe::provenance::{Had, Origin};

/// The last mix whose liquid can be adjusted.
fn answer_in(bench: &Bench<'_>, kitchen: &Kitchen) -> Option<MixAnswer> {
    let all = mix(bench.inputs.recipe, bench.inputs.formula, kitchen).output;
    all.into_iter().next_back()
}

/// "milk at 42 °C / 108 °F", or what else makes the dough end where it should.
fn liquid(reply: &mut Reply, answer: &MixAnswer, what: &str) -> Option<String> {
    let name = answer.liquid.clone()?;
    let at = answer.liquid_at?;
    let shown = reply.temperature(what, at, balance());
    let mut said = format!("{name} at {shown}{}", warmed(&name, at.celsius()));
    if let Some(ice) = answer.ice {
        let ice = reply.mass(&format!("{what}-ice"), ice, balance());
        said.push_str(&format!(", {ice} of it as ice"));
    }
    Some(said)
}

/// How eggs are warmed, for whoever is asked for warm ones.
pub fn warmed(name: &str, celsius: f64) -> &'static str {
    if name.contains("egg") && celsius > 25.0 {
        " (in their shells in warm water, used at once)"
    } else {
        ""
    }
}

fn by_mixer(bench: &Bench<'_>) -> bool {
    let steps = bench
        .inputs
        .recipe
        .stages
        .iter()
        .flat_map(|stage| &stage.steps);
    let mut steps = steps;
    steps.any(|step| matches!(&step.action, Action::Mix { by, .. } if by.value == Tool::Mixer))
}

/// 8: no mixer.
pub fn no_mixer(bench: &Bench<'_>, reply: &mut Reply) {
    if !by_mixer(bench) {
        return reply.say("None is needed: this recipe is mixed by hand as it stands.");
    }
    let here_kitchen = bench.inputs.kitchen;
    let hand = Kitchen {
        friction: Friction::Power(heats::HAND),
        by_hand: true,
        ..here_kitchen.clone()
    };
    let machine = Kitchen {
        friction: if here_kitchen.by_hand {
            Friction::Power(heats::MIXER)
        } else {
            here_kitchen.friction
        },
        by_hand: false,
        ..here_kitchen.clone()
    };
    let (by_hand, by_machine) = (answer_in(bench, &hand), answer_in(bench, &machine));
    if let (Some(by_hand), Some(by_machine)) = (by_hand, by_machine) {
        let wanted = say::temperature_range(by_hand.wanted);
        let warm = liquid(reply, &by_hand, "by-hand");
        let cool = liquid(reply, &by_machine, "by-mixer");
        if let (Some(warm), Some(cool)) = (warm, cool) {
            reply.say(format!(
                "By hand use {warm} where a mixer wants {cool}: hands warm a dough less than a hook does."
            ));
            reply.say(format!("The probe decides: the dough ends at {wanted}."));
            at_the_upper_end(bench, reply, &hand, &by_hand);
        } else {
            let ends = reply.temperature("dough-by-hand", by_hand.as_written.ends, balance());
            reply.say(format!("By hand it works as written: the dough ends at {ends}, where {wanted} is wanted, for hands warm it less than a hook does."));
        }
        if by_hand.liquid_at.is_some_and(|at| at.celsius() > 40.0) {
            reply.more(
                "So warm a liquid must not touch the yeast alone: mix it into the flour first.",
            );
        }
    }
    let butter = bench.of_flour(bench.mass_of(bake_butter));
    let (from, to) = by_hand::FOLD_MIN;
    let (stir, rest) = (by_hand::STIR_MIN, by_hand::REST_MIN);
    let work = if butter > MUCH_BUTTER {
        let smear = by_hand::BUTTER_MIN;
        format!(
            "Stir {stir} min, rest {rest} min, slap and fold {from}–{to} min, then smear the soft butter in over another {smear} min (common practice)."
        )
    } else {
        format!(
            "Stir {stir} min, rest {rest} min, then slap and fold {from}–{to} min (common practice)."
        )
    };
    reply.say(work);
    reply.more("It is kneaded when a small piece stretches to a thin film.");
}

/// What the liquid reads for the warmest dough that is wanted; a little of the liquid moves a dough little, so
/// the two differ by much.
fn at_the_upper_end(bench: &Bench<'_>, reply: &mut Reply, hand: &Kitchen, answer: &MixAnswer) {
    let (Some(name), Some(at), Some(solved)) = (&answer.liquid, answer.liquid_at, &answer.solved)
    else {
        return;
    };
    let high = answer.wanted.high;
    if high.celsius() - solved.ends.celsius() < 0.25 {
        return;
    }
    let mut recipe = bench.inputs.recipe.clone();
    let mixes = recipe.stages.iter_mut().flat_map(|stage| &mut stage.steps);
    for step in mixes {
        if let Action::Mix {
            dough: Some(wanted),
            ..
        } = &mut step.action
            && wanted.value == answer.wanted
        {
            wanted.value.low = high;
        }
    }
    let warmest = mix(&recipe, bench.inputs.formula, hand).output;
    let warmest = warmest.into_iter().next_back();
    if let Some(above) = warmest.and_then(|answer| answer.liquid_at)
        && above.celsius() - at.celsius() > 1.0
    {
        let (shown, end, middle) = (
            reply.temperature("by-hand-upper-end", above, balance()),
            say::temperature(high),
            reply.temperature("dough-by-hand", solved.ends, balance()),
        );
        reply.more(format!(
            "That is for a dough of {middle}; for {end}, the upper end of what is wanted, {name} at {shown}: there is little of it against the rest, so half a degree of the dough is several of it."
        ));
    }
}

fn bake_butter(one: &recipe::larder::Ingredient) -> bool {
    one.role == recipe::larder::Role::Fat
        && one
            .composition
            .water
            .is_some_and(|water| water.percent() > 5.0)
}

/// 9: food processor.
pub fn food_processor(bench: &Bench<'_>, reply: &mut Reply) {
    let limit = bench.facts.flour_limit;
    let flour = bench.flour();
    let shown = reply.mass("flour", flour, here());
    match limit {
        Some(limit) => {
            let batch = limit * 0.5;
            let runs = (flour / batch).ceil();
            let (most, at_once) = (
                reply.mass("limit", limit, written()),
                reply.mass("at-once", batch, habit()),
            );
            let runs = reply.count("batches", runs, "batches", here());
            reply.say(format!(
                "Knead in {runs}: of the {shown} of flour no more than {at_once} at once, half of the {most} it is made for."
            ));
        }
        None => reply.say(format!(
            "Knead the {shown} of flour in batches of at most half the flour that its maker allows."
        )),
    }
    let a_minute = Origin::new(
        "8 to 10 °C a minute in a food processor",
        Had::CommonPractice,
    );
    let rise = reply.put("warms", 9.0, "K", "8–10\u{a0}°C".to_owned(), a_minute);
    let kitchen = Kitchen {
        friction: Friction::Rise(TemperatureDifference::from_si(9.0)),
        by_hand: false,
        ..bench.inputs.kitchen.clone()
    };
    reply.say(format!(
        "One minute is all each gets, for the blade warms a dough by {rise} a minute (common practice)."
    ));
    if let Some(answer) = answer_in(bench, &kitchen)
        && let Some(cold) = liquid(reply, &answer, "liquid")
    {
        reply.say(format!("Use {cold}; the probe in the dough decides."));
    }
    reply.more("Work the butter in by hand, if there is any.");
    reply.more(
        "A hand-held mixer with dough hooks takes small soft doughs only: stop when it grows hot.",
    );
}

/// 10: the mixer is too small.
pub fn small_mixer(bench: &Bench<'_>, reply: &mut Reply) {
    let flour = bench.flour();
    if flour <= Mass::ZERO {
        return reply.refuse("No flour stands in this recipe.");
    }
    let said = bench
        .facts
        .flour_limit
        .or(bench.inputs.kitchen.bowl.flour_limit);
    let limit = said.unwrap_or(Mass::from_grams(500.0));
    let mixes = (flour / limit - 1e-9).ceil().max(1.0);
    let (all, most) = (
        reply.mass("flour", flour, here()),
        reply.mass(
            "limit",
            limit,
            if said.is_some() { written() } else { habit() },
        ),
    );
    if mixes < 1.5 {
        return reply.say(format!(
            "One mix: a mixer for {most} of flour takes the {all} of this recipe. Stay at its low and middle speeds; its maker’s figure decides."
        ));
    }
    let each = reply.mass("flour-each", flour / mixes, here());
    let dough = reply.mass(
        "dough-each",
        bench.inputs.formula.dough.mass / mixes,
        here(),
    );
    let count = reply.count("mixes", mixes, "mixes", here());
    reply.say(format!(
        "Make {count} with {each} of flour each: the {all} of the recipe are more than the {most} that it takes. Its maker’s figure for flour decides."
    ));
    reply.more(format!("Each gives {dough} of dough."));
    reply.more("Weigh everything out before the first, start the second when the first is covered, and put both together in one box; the first has then risen by the minutes that the second took.");
    if said.is_none() {
        reply.rests("a mixer for 500 g of flour taken, where nothing is said of it");
    }
}

/// A bread machine.
pub fn bread_machine(bench: &Bench<'_>, reply: &mut Reply) {
    let flour = bench.flour();
    if flour <= Mass::ZERO {
        return reply.refuse("No flour stands in this recipe.");
    }
    let said = bench.facts.flour_limit;
    let limit = said.unwrap_or(Mass::from_grams(500.0));
    let (all, most) = (
        reply.mass("flour", flour, here()),
        reply.mass(
            "limit",
            limit,
            if said.is_some() { written() } else { habit() },
        ),
    );
    let factor = (limit / flour).min(1.0);
    if factor < 1.0 {
        let part = reply.percent("part", factor, here());
        reply.say(format!(
            "Let it knead {part} of this recipe, which has {all} of flour: a machine for {most} takes no more."
        ));
    } else {
        reply.say(format!(
            "Let it knead all of it: a machine for {most} of flour takes the {all} of this recipe."
        ));
    }
    reply.say("Use the dough programme alone and take the dough out when it has kneaded: the machine is warm (about 30 °C, common practice), and the recipe’s signs end the rises.");
    reply.more("Put butter in, if there is any, when the dough is smooth.");
}
