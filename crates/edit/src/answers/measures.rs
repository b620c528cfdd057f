//! Answers about spoons of salt, sizes of eggs and cups of flour.

use super::Bench;
use super::reply::{Reply, here, quoted, written};
use super::yeast::{changes, times_after};
use crate::ledger::say;
use crate::variant::Wish;
use numerics::decimal::round_to;
use numerics::quantity::Mass;
use recipe::larder::{FLOUR_CUP, FLOUR_CUP_RANGE, Role, egg_class};
use recipe::measure::mixed;
use recipe::provenance::{Had, Origin};

/// Salts by the teaspoon, g: pages on salt by volume.
const SALTS: [(&str, f64); 3] = [("fine", 6.0), ("dense coarse", 4.8), ("flaky", 2.8)];

/// 24: table or coarse salt.
pub fn coarse_salt(bench: &Bench<'_>, reply: &mut Reply) {
    let salt = bench.mass_of(|one| one.role == Role::Salt);
    if salt <= Mass::ZERO {
        return reply.say("No salt is weighed into this dough.");
    }
    let mass = reply.mass("salt", salt, written());
    reply.say(format!(
        "Weigh it: {mass} of either is the same salt, while a spoon of flakes holds half as much."
    ));
    let source =
        || quoted("pages on salt by the teaspoon: fine 6.0 g, dense coarse 4.8 g, flaky 2.8 g");
    let spoons: Vec<String> = SALTS
        .iter()
        .map(|(name, each)| {
            let count = round_to(salt.grams() / each, 0.25);
            let shown = format!("{}{}tsp", mixed(count), say::NBSP);
            let shown = reply.put(
                &format!("{name} teaspoons"),
                salt.grams() / each,
                "1",
                shown,
                source(),
            );
            format!("{shown} of {name} salt")
        })
        .collect();
    reply.say(format!("By the spoon that is {}.", say::list(&spoons)));
    reply.say("Which salt it is decides, not how salty the flakes taste.");
    let flaky = SALTS[2].1 / SALTS[0].1;
    let less = bench.with_amounts(|one| one.role == Role::Salt, flaky);
    let share = bench.of_flour(salt);
    let (was, is) = (
        reply.percent("of-the-flour", share, here()),
        reply.percent("of-the-flour-flaky", share * flaky, source()),
    );
    reply.more(format!(
        "Flakes spooned as if they were fine salt leave {is} of the flour in the place of {was}: bland, slack and sooner risen."
    ));
    let kitchen = bench.inputs.kitchen;
    let how = bench.how();
    let before = bench.own_timed(&bench.in_kitchen(kitchen, &how));
    let after = bench.timed(&less.recipe, &bench.changed_in(&less, kitchen, &how));
    if let Some(moved) = reply.against(&after, &before, "flaky") {
        reply.more(format!("With that little salt: {}.", moved.all));
    }
}

/// 25: eggs of another size.
pub fn egg_size(bench: &Bench<'_>, reply: &mut Reply) {
    let eggs = bench.items(|one| one.role == Role::Egg);
    let mass: Mass = eggs.iter().map(|(_, mass)| *mass).sum();
    if mass <= Mass::ZERO {
        return reply.say("No egg goes into this dough.");
    }
    let size = bench
        .facts
        .egg
        .clone()
        .unwrap_or_else(|| "medium".to_owned());
    let Some(class) = egg_class(&size) else {
        return reply.refuse(format!("“{size}” is no size of egg that is known."));
    };
    let each = reply.mass("each", class.edible, class.origin.clone());
    let all = reply.mass("egg", mass, written());
    let count = (mass / class.edible).round();
    let count_shown = reply.put(
        "count",
        count,
        "1",
        numerics::decimal::fixed(count, 0),
        here(),
    );
    let off = class.edible * count - mass;
    reply.say(format!(
        "Take {count_shown} {size} egg{}: one holds {each} without its shell, and the recipe wants {all}.",
        if count > 1.5 { "s" } else { "" }
    ));
    let water = eggs
        .first()
        .and_then(|(one, _)| one.composition.water)
        .map_or(0.76, numerics::quantity::Fraction::si);
    let true_up = off.abs() * water;
    if true_up.grams() < 3.0 {
        reply.more("What is over or missing is not worth weighing.");
    } else {
        let (amount, way) = (
            reply.mass("water", true_up, here()),
            if off > Mass::ZERO { "less" } else { "more" },
        );
        reply.say(format!(
            "Then take {amount} {way} of milk or water, which keeps the dough as wet."
        ));
    }
    if let Ok((variant, changed)) = bench.wished(&[Wish::Instead(format!("{size} eggs for eggs"))])
    {
        reply.changes = changes(&variant);
        times_after(bench, reply, &changed);
    }
    if bench.facts.egg.is_none() {
        reply.rests("medium eggs of the United States taken, where nothing is said of them");
    }
}

/// 26: cups only.
pub fn cups(bench: &Bench<'_>, reply: &mut Reply) {
    let flour = bench.mass_of(|one| one.role == Role::Flour);
    if flour <= Mass::ZERO {
        return reply.refuse("No flour stands in this recipe.");
    }
    let dipped = bench.facts.cup.unwrap_or(FLOUR_CUP_RANGE.high);
    let spoon = Origin::new(
        "USDA Home Economics Research Report 41: a cup of flour spooned in and levelled, 126 g",
        Had::SecondHand,
    );
    let dip = Origin::new(
        "a cup of flour scooped from the bag: kitchen tests, 159 g",
        Had::SecondHand,
    );
    let cup_words = |cups: f64| {
        let count = round_to(cups, 0.25);
        format!("{}{}cups", mixed(count), say::NBSP)
    };
    let mass = reply.mass("flour", flour, written());
    let spooned = reply.put(
        "cups-spooned",
        flour / FLOUR_CUP,
        "1",
        cup_words(flour / FLOUR_CUP),
        spoon.clone(),
    );
    let each = reply.mass("a-cup-spooned", FLOUR_CUP, spoon);
    reply.say(format!(
        "Take {spooned} for the {mass} of flour when you spoon it in and level it ({each} a cup)."
    ));
    let scooped = reply.put(
        "cups-scooped",
        flour / dipped,
        "1",
        cup_words(flour / dipped),
        dip.clone(),
    );
    let heavy = reply.mass("a-cup-scooped", dipped, dip);
    reply.say(format!(
        "If you scoop with the cup it holds up to {heavy}: then take {scooped}. How you fill it decides; a scale is surer."
    ));
    let factor = dipped / FLOUR_CUP;
    let water = bench.of_flour(bench.inputs.formula.dough.water);
    let (was, is) = (
        reply.percent("water", water, here()),
        reply.percent("water-scooped", water / factor, here()),
    );
    reply.more(format!(
        "Scooped and not corrected, water falls from {was} to {is} of the flour: a dry, dense bread."
    ));
}
