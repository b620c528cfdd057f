//! Answers about kitchens and the pace of the dough: cold, hot, high, in a hurry.

use super::Bench;
use super::reply::{Reply, balance, habit, quoted, written};
use super::timed::Timed;
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

/// What goes into the last mix of a kitchen, and which way that is from what is written.
struct Liquid {
    /// "milk at 34 °C / 93 °F".
    words: String,
    /// Against what is written, or what stands in an ordinary room.
    warmer: f64,
    /// What the dough ends at.
    ends: String,
    /// What is wanted, where it ends above or below that.
    missed: Option<String>,
}

/// The liquid with which the last mix ends where it should.
fn liquid_for(bench: &Bench<'_>, reply: &mut Reply, kitchen: &Kitchen) -> Option<Liquid> {
    let answers = mix(bench.inputs.recipe, bench.inputs.formula, kitchen).output;
    let answer = answers.into_iter().next_back()?;
    let (name, at) = (answer.liquid?, answer.liquid_at?);
    let shown = reply.temperature("liquid", at, balance());
    let ends = answer
        .solved
        .map_or(answer.as_written.ends, |solved| solved.ends);
    let outside = ends.celsius() > answer.wanted.high.celsius() + 0.5
        || ends.celsius() < answer.wanted.low.celsius() - 0.5;
    let missed = outside.then(|| say::temperature_range(answer.wanted));
    let ends = reply.temperature("dough", ends, balance());
    let ice = answer.ice.map_or_else(String::new, |ice| {
        let ice = reply.mass("ice", ice, balance());
        format!(" with {ice} of it as ice")
    });
    let warmed = super::machines::warmed(&name, at.celsius());
    let usual = mix(
        bench.inputs.recipe,
        bench.inputs.formula,
        &Kitchen::standard(),
    );
    let usual = usual.output.into_iter().next_back();
    let usual = usual.and_then(|answer| answer.liquid_at);
    let usual = usual.map_or(kitchen.room.celsius(), Temperature::celsius);
    Some(Liquid {
        words: format!("{name} at {shown}{ice}{warmed}"),
        warmer: at.celsius() - usual,
        ends,
        missed,
    })
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
    let slower = reply.against_written(&slow, "in-the-room");
    match &slower {
        Some(times) => reply.moved(
            times,
            &format!("With everything in a room of {air} count on"),
        ),
        None => reply.say(format!(
            "In a room of {air} nothing takes noticeably longer."
        )),
    }
    if let Some(liquid) = liquid_for(bench, reply, &no_warm) {
        let Liquid {
            words,
            warmer,
            ends,
            missed,
        } = liquid;
        if let Some(wanted) = missed {
            reply.say(format!(
                "Even with {words} the dough ends at {ends} where {wanted} is wanted: warm the bowl and the flour too."
            ));
        } else if warmer > 1.5 {
            reply.say(format!(
                "Use {words}: what stands there is cold, and so the dough ends at {ends} all the same."
            ));
        } else {
            // A mix that warms itself, or a liquid that comes out of the refrigerator anyway.
            reply.say(format!(
                "Nothing need be warmed for the mix: with {words} the dough ends at {ends}."
            ));
        }
    }
    if bench.uses_warm_place() {
        let warm = Kitchen {
            warm_place: at(27.0),
            ..cold
        };
        let place = reply.temperature("warm-place", warm.warm_place, habit());
        let there = rises(bench.own_timed(&bench.in_kitchen(&warm, &how)));
        match reply.against_written(&there, "in-a-warm-place") {
            Some(told) => {
                let opens = if slower.is_some() {
                    format!("A warm place of {place} gives most of it back")
                } else {
                    format!("In a warm place of {place} it goes faster than written")
                };
                reply.say(format!("{opens}: {}.", told.most));
                reply.all_moved(&told, &format!("With a warm place of {place}:"));
            }
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
    reply.say("The sign ends a rise, not the clock.");
    reply.more(format!(
        "An oven with only its lamp on is {lamp}: measure it first."
    ));
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
        Some(told) => reply.moved(&told, &format!("In a room of {air} count on")),
        None => reply.say(format!("In a room of {air} nothing is noticeably faster.")),
    }
    match liquid_for(bench, reply, &hot) {
        Some(Liquid {
            words,
            ends,
            missed: Some(wanted),
            ..
        }) => reply.say(format!(
            "Even with {words} the dough ends at {ends} where {wanted} is wanted: chill it 20 min before it rises."
        )),
        Some(Liquid {
            words,
            warmer,
            ends,
            ..
        }) if warmer < 1.5 => reply.say(format!(
            "Use {words}: what stands there is warm, and so the dough ends at {ends} all the same."
        )),
        Some(Liquid { words, ends, .. }) => {
            reply.say(format!("With {words} the dough ends at {ends}."));
        }
        None => reply.say("Take liquid and eggs from the refrigerator, for the dough ends warm."),
    }
    let butter = bench.of_flour(bench.mass_of(|one| one.role == Role::Fat));
    if butter > 0.1 {
        let (soft, most) = (
            reply.temperature("butter", at(16.0), habit()),
            reply.temperature("rises-at-most", at(28.0), habit()),
        );
        reply.say(format!(
            "Butter goes in at {soft}, and no rise stands above {most}, or it leaks out (common practice)."
        ));
    }
    reply.say("The sign decides; look early, for what rises fast is past its best fast.");
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
    let how = bench.how();
    let before = bench.own_timed(&bench.in_kitchen(&low, &how));
    let after = bench.own_timed(&bench.in_kitchen(&high, &how));
    let yeast = bench.mass_of(|one| matches!(one.role, Role::Yeast(_)));
    if yeast > Mass::ZERO {
        let less = reply.mass("yeast", yeast * ratio, super::reply::here());
        let was = reply.mass("yeast-written", yeast, written());
        reply.say(format!(
            "At {metres} take {less} of yeast instead of {was}: the same gas takes {larger} the room there."
        ));
        reply.say("The written height ends a rise, not the written minutes.");
    } else {
        reply.say(format!(
            "At {metres} the same gas takes {larger} the room: the written height ends a rise, not the minutes."
        ));
    }
    reply.more("Add 1–2 points of liquid, for flour is drier up there (common practice).");
    if let Some(moved) = reply.against(&rises(after), &before, "up-there") {
        reply.more(format!("Left as it is: {}.", moved.all));
    }
    if let Some(core) = bench.main().and_then(core_of) {
        let most = boiling::boiling_point(boiling::pressure(height)).celsius() - 3.0;
        if core.celsius() > most {
            let shown = reply.temperature("middle", at(most), habit());
            reply.say(format!(
                "Take the bread out at {shown} in the middle: water boils at {boils} there, and more is hardly ever reached."
            ));
        } else {
            let shown = reply.temperature("middle", core, written());
            reply.say(format!(
                "The written {shown} in the middle is still reached, for water boils at {boils}; the oven stays as it is."
            ));
        }
    } else {
        reply.more(format!("Water boils at {boils} there."));
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
        Some(moved) => reply.moved(&moved, &format!("Let everything rise at {place}:")),
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
        reply.moved(&moved, &format!("Or take {is} of yeast instead of {was}:"));
    }
    reply.say("The signs decide: what rises fast is past its best fast.");
    reply.more("More yeast than that tastes of yeast (common practice).");
    if fat > 0.25 {
        reply.more(format!(
            "Not above {place}: with this much butter the dough turns greasy."
        ));
    }
}
