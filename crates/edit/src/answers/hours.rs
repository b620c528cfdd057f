//! Answers about kitchens and the pace of the dough: cold, hot, high, in a hurry.

use super::Bench;
use super::bench::Timed;
use super::reply::{Reply, balance, habit, quoted, written};
use crate::ledger::say;
use bake::kitchen::{Kitchen, in_room};
use bake::mix::mix;
use bake::physics::boiling;
use numerics::decimal::fixed;
use numerics::quantity::{Length, Mass, Temperature};
use recipe::document::model::{Action, Product};
use recipe::larder::Role;
use recipe::provenance::{Had, Origin};

fn at(celsius: f64) -> Temperature {
    Temperature::from_celsius(celsius)
}

/// The rises alone.
fn rises(all: Vec<Timed>) -> Vec<Timed> {
    all.into_iter().filter(Timed::rises).collect()
}

/// "milk at 34 °C / 93 °F", so that the last mix ends where it should.
fn liquid_for(bench: &Bench<'_>, reply: &mut Reply, kitchen: &Kitchen) -> Option<String> {
    let answers = mix(bench.inputs.recipe, bench.inputs.formula, kitchen).output;
    let answer = answers.into_iter().next_back()?;
    let (name, at) = (answer.liquid?, answer.liquid_at?);
    let shown = reply.temperature("liquid", at, balance());
    let ends = answer
        .solved
        .map_or(answer.as_written.ends, |solved| solved.ends);
    let ends = reply.temperature("dough", ends, balance());
    let ice = answer.ice.map_or_else(String::new, |ice| {
        let ice = reply.mass("ice", ice, balance());
        format!(" with {ice} of it as ice")
    });
    let warmed = super::machines::warmed(&name, at.celsius());
    Some(format!(
        "{name} at {shown}{ice}{warmed}, and the dough ends at {ends}"
    ))
}

/// 16: a cold kitchen.
pub fn cold_kitchen(bench: &Bench<'_>, reply: &mut Reply) {
    let here = bench.inputs.kitchen;
    let room = if here.room.celsius() <= 19.0 {
        here.room
    } else {
        at(16.0)
    };
    let cold = in_room(here, room);
    let no_warm = Kitchen {
        warm_place: room,
        ..cold.clone()
    };
    let how = bench.how();
    let air = reply.temperature("room", room, written());
    let slow = rises(bench.own_timed(&bench.in_kitchen(&no_warm, &how)));
    match reply.against_written(&slow, "in-the-room") {
        Some(times) => reply.say(format!(
            "With everything standing in a room of {air} count on {times}."
        )),
        None => reply.say(format!(
            "In a room of {air} nothing takes noticeably longer."
        )),
    }
    if let Some(liquid) = liquid_for(bench, reply, &no_warm) {
        reply.say(format!("Warm what goes in: {liquid}."));
    }
    if bench.uses_warm_place() {
        let warm = Kitchen {
            warm_place: at(27.0),
            ..cold
        };
        let place = reply.temperature("warm-place", warm.warm_place, habit());
        let there = rises(bench.own_timed(&bench.in_kitchen(&warm, &how)));
        match reply.against_written(&there, "in-a-warm-place") {
            Some(told) => reply.say(format!("With a warm place of {place}: {told}.")),
            None => reply.say(format!(
                "With a warm place of {place} the written times hold."
            )),
        }
    }
    let lamp = reply.band(
        "oven-lamp",
        24.0,
        38.0,
        quoted("pages on dough beside an oven’s lamp, 75 to 100 °F"),
    );
    reply.say(format!("An oven with only its lamp on is {lamp}: measure it first. The sign ends a rise, not the clock."));
}

/// 17: a hot kitchen.
pub fn hot_kitchen(bench: &Bench<'_>, reply: &mut Reply) {
    let here = bench.inputs.kitchen;
    let room = if here.room.celsius() >= 25.0 {
        here.room
    } else {
        at(30.0)
    };
    let mut hot = in_room(here, room);
    if hot.warm_place < room {
        hot.warm_place = room;
    }
    let air = reply.temperature("room", room, written());
    let fast = rises(bench.own_timed(&bench.in_kitchen(&hot, &bench.how())));
    match reply.against_written(&fast, "in-the-room") {
        Some(told) => reply.say(format!("In a room of {air} count on {told}.")),
        None => reply.say(format!("In a room of {air} nothing is noticeably faster.")),
    }
    match liquid_for(bench, reply, &hot) {
        Some(liquid) => reply.say(format!("Take everything cold: {liquid}.")),
        None => reply.say("Take liquid and eggs from the refrigerator."),
    }
    let butter = bench.of_flour(bench.mass_of(|one| one.role == Role::Fat));
    if butter > 0.1 {
        let (soft, most) = (
            reply.temperature("butter", at(16.0), habit()),
            reply.temperature("rises-at-most", at(28.0), habit()),
        );
        reply.say(format!(
            "Butter goes in at {soft}, and no rise stands above {most}, or it leaks out."
        ));
    }
    reply.say("Look early: what rises fast is past its best fast.");
}

/// 18: high up.
pub fn altitude(bench: &Bench<'_>, reply: &mut Reply) {
    let here = bench.inputs.kitchen;
    let height = if here.altitude.si() >= 500.0 {
        here.altitude
    } else {
        Length::from_si(1600.0)
    };
    let high = Kitchen {
        altitude: height,
        ..here.clone()
    };
    let low = Kitchen {
        altitude: Length::ZERO,
        ..here.clone()
    };
    let ratio = boiling::pressure(height) / boiling::pressure(Length::ZERO);
    let air = Origin::new(
        "standard atmosphere, docs/models/boiling-point.md",
        Had::Derived,
    );
    let metres = format!("{}{}m", fixed(height.si(), 0), say::NBSP);
    let metres = reply.put("height", height.si(), Length::SI, metres, written());
    let larger = reply.multiple("gas", 1.0 / ratio, air.clone());
    let boils = reply.temperature(
        "water-boils",
        boiling::boiling_point(boiling::pressure(height)),
        air,
    );
    reply.say(format!(
        "At {metres} the same gas takes {larger} the room, so a dough is up sooner; water boils at {boils}."
    ));
    let how = bench.how();
    let before = bench.own_timed(&bench.in_kitchen(&low, &how));
    let after = bench.own_timed(&bench.in_kitchen(&high, &how));
    if let Some(moved) = reply.against(&rises(after), &before, "up-there") {
        reply.say(format!("Left as it is: {moved}."));
    }
    let yeast = bench.mass_of(|one| matches!(one.role, Role::Yeast(_)));
    if yeast > Mass::ZERO {
        let less = reply.mass("yeast", yeast * ratio, super::reply::here());
        let was = reply.mass("yeast-written", yeast, written());
        reply.say(format!(
            "Take {less} of yeast instead of {was} and stop at the written height, not at the written minutes; add 1–2 points of liquid, for flour is drier up there (common practice)."
        ));
    }
    if let Some(core) = bench.main().and_then(core_of) {
        let most = boiling::boiling_point(boiling::pressure(height)).celsius() - 3.0;
        if core.celsius() > most {
            let shown = reply.temperature("middle", at(most), habit());
            reply.say(format!(
                "Take the bread out at {shown} in the middle: more is hardly ever reached there."
            ));
        } else {
            let shown = reply.temperature("middle", core, written());
            reply.say(format!(
                "The written {shown} in the middle is still reached; the oven stays as it is."
            ));
        }
    }
    reply.rests("an extension service’s answer for 1 800 m: a quarter less yeast (second-hand)");
}

/// What the middle of a product should read.
pub fn core_of(product: &Product) -> Option<Temperature> {
    product
        .steps
        .iter()
        .rev()
        .find_map(|step| match &step.action {
            Action::Bake { core, .. } => core
                .as_ref()
                .or(step.until.as_ref().and_then(|until| until.core.as_ref()))
                .map(|core| core.value),
            _ => None,
        })
}

/// 15: faster.
pub fn faster(bench: &Bench<'_>, reply: &mut Reply) {
    let fat = bench.of_flour(bench.mass_of(|one| one.role == Role::Fat));
    let warm_c = if fat > 0.25 { 28.0 } else { 30.0 };
    let warm = Kitchen {
        warm_place: at(warm_c),
        ..in_room(bench.inputs.kitchen, at(warm_c))
    };
    let how = bench.how();
    let usual = bench.own_timed(&bench.in_kitchen(bench.inputs.kitchen, &how));
    let place = reply.temperature("warm", warm.warm_place, habit());
    let warmer: Vec<Timed> = bench.own_timed(&bench.in_kitchen(&warm, &how));
    match reply.against(&rises(warmer), &usual, "warm") {
        Some(moved) => reply.say(format!("Let everything rise at {place}: {moved}.")),
        None => reply.say(format!(
            "Rising at {place} gains nothing that is noticed here."
        )),
    }
    let more = bench.with_amounts(|one| matches!(one.role, Role::Yeast(_)), 1.5);
    let after = bench.timed(
        &more.recipe,
        &bench.changed_in(&more, bench.inputs.kitchen, &how),
    );
    let yeast = bench.mass_of(|one| matches!(one.role, Role::Yeast(_)));
    let (was, is) = (
        reply.mass("yeast", yeast, written()),
        reply.mass("yeast-half-as-much-again", yeast * 1.5, habit()),
    );
    if let Some(moved) = reply.against(&rises(after), &usual, "more-yeast") {
        reply.say(format!("Or take {is} of yeast instead of {was}: {moved}."));
    }
    reply.say("More than that tastes of yeast and goes past its best while you look away.");
    if fat > 0.25 {
        reply.say(format!(
            "Not above {place}: with this much butter the dough turns greasy."
        ));
    }
}
