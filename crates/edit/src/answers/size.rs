//! Answers about tins of another size, half a batch and two.

use super::Bench;
use super::reply::{Reply, habit, here, written};
use super::yeast::changes;
use crate::stretch::What;
use crate::variant::Wish;
use numerics::quantity::Mass;
use recipe::formula::bands::{Measured, band};
use recipe::formula::piece_mass;
use recipe::larder::Role;
use recipe::scale::tin_volume;
use recipe::scale::{Eggs, TinWish, To, Wish as Size};

/// The next household tin up where nothing is said: a third more.
const NEXT_UP: f64 = 4.0 / 3.0;

/// 11: another tin.
pub fn other_tin(bench: &Bench<'_>, reply: &mut Reply) {
    let named = bench
        .facts
        .tin
        .as_ref()
        .and_then(|(product, _)| product.as_ref());
    let products = bench.inputs.recipe.products.iter();
    let chosen = match named {
        Some(name) => products
            .clone()
            .find(|own| own.name.value.eq_ignore_ascii_case(name)),
        None => bench.in_tin(),
    };
    let Some(product) = chosen else {
        return reply.say("Nothing of this recipe is baked in a tin of a known volume, so no dough is to be fitted to one. On a tray leave room for each piece to double.");
    };
    let Some(own) = product.tin.as_ref().and_then(tin_volume) else {
        return reply.say(format!(
            "The {} is baked in nothing of a known volume; measure its tin by filling it with water.",
            product.name.value
        ));
    };
    let theirs = bench
        .facts
        .tin
        .as_ref()
        .and_then(|(_, tin)| tin.volume())
        .map_or(own * NEXT_UP, |(volume, _)| volume);
    let piece = piece_mass(&product.piece.value);
    let dough = piece * (theirs / own);
    let name = &product.name.value;
    let ratio = own.millilitres() / piece.grams();
    let (v1, v2) = (
        reply.volume("tin-written", own, written()),
        reply.volume("tin-yours", theirs, written()),
    );
    let (m1, m2) = (
        reply.mass("dough-written", piece, written()),
        reply.mass("dough", dough, here()),
    );
    let room = reply.room_for("room", ratio, here());
    reply.say(format!(
        "For a tin of {v2} take {m2} of dough for the {name} ({m1} for {v1}): {room} either way. The water that a tin holds decides, not its name."
    ));
    let lidded = product
        .tin
        .as_ref()
        .and_then(|tin| tin.lidded.as_ref())
        .is_some_and(|lidded| lidded.value);
    let measured = if lidded {
        Measured::TinLidded
    } else {
        Measured::TinOpen
    };
    if let Some(usual) = band(bench.inputs.recipe.kind.value, measured) {
        let with_all = theirs.millilitres() / piece.grams();
        let shown = reply.room_for("room-with-the-same-dough", with_all, here());
        if with_all > usual.high {
            reply.more(format!(
                "With the written dough there would be {shown}: it stays low in it."
            ));
        } else if with_all < usual.low {
            reply.more(format!(
                "With the written dough there would be {shown}: it runs over."
            ));
        }
    }
    let tin = match &bench.facts.tin {
        Some((_, tin)) => tin.clone(),
        None => TinWish::holding(theirs),
    };
    let wish = Size {
        to: To::Tin {
            product: Some(name.clone()),
            tin,
        },
        eggs: Eggs::Usual,
    };
    if let Ok((variant, changed)) = bench.wished(&[Wish::Size(wish)]) {
        reply.changes = changes(&variant);
        let how = bench.how();
        let kitchen = bench.inputs.kitchen;
        let mine = |all: Vec<super::timed::Timed>| -> Vec<super::timed::Timed> {
            all.into_iter()
                .filter(|one| one.stretch.what == What::Bake && one.stretch.of == *name)
                .collect()
        };
        let before = mine(bench.own_timed(&bench.in_kitchen(kitchen, &how)));
        let after = mine(bench.timed(&changed.recipe, &bench.changed_in(&changed, kitchen, &how)));
        match reply.against(&after, &before, "in-the-tin") {
            Some(moved) => reply.say(format!(
                "At the same oven count on {}; look a fifth earlier.",
                moved.all
            )),
            None => reply.say("The bake takes about as long; look a fifth earlier all the same."),
        }
    }
    if bench.facts.tin.is_none() {
        reply.rests(
            "a tin of a third more taken, the next household size, where nothing is said of it",
        );
    }
}

/// 12: half a batch.
pub fn half(bench: &Bench<'_>, reply: &mut Reply) {
    let flour = bench.flour();
    match bench.wished(&[Wish::Size(Size::half())]) {
        Err(why) => reply.refuse(why),
        Ok((variant, changed)) => {
            let dough = bench.inputs.formula.dough.mass;
            let (was, is) = (
                reply.mass("dough", dough, here()),
                reply.mass("half-the-dough", changed.formula.dough.mass, here()),
            );
            reply.say(format!(
                "Take half of everything: {is} of dough instead of {was}."
            ));
            let egg = bench.mass_of(|one| one.role == Role::Egg);
            if egg > Mass::ZERO {
                let half = reply.mass("egg", egg / 2.0, here());
                // A count has no unit of mass: "1 large".
                let mut eggs = variant.changes.iter();
                let whole =
                    eggs.find(|change| change.what.contains("egg") && !change.after.ends_with('g'));
                reply.say(whole.map_or_else(
                    || format!("Beat the egg and weigh {half} of it."),
                    |whole| format!("Half of the egg is {half} without shell: {}.", whole.after),
                ));
            }
            reply.say(
                "Pieces of the same size bake as long as written; a smaller loaf wants a smaller tin.",
            );
            if (flour / 2.0).grams() < 400.0 {
                let shown = reply.mass("flour", flour / 2.0, here());
                let least = reply.mass("least-for-a-hook", Mass::from_grams(400.0), habit());
                reply.more(format!(
                    "With {shown} of flour a large mixer’s hook may not catch the dough (under about {least}): use the paddle first, or your hands. A small dough follows the room faster, about 1 °C an hour."
                ));
            }
            reply.changes = changes(&variant);
        }
    }
}

/// 13: twice as much.
pub fn double(bench: &Bench<'_>, reply: &mut Reply) {
    match bench.wished(&[Wish::Size(Size::times(2.0))]) {
        Err(why) => reply.refuse(why),
        Ok((variant, changed)) => {
            let flour = changed.formula.dough.flour;
            let yeast = bench.mass_of(|one| matches!(one.role, Role::Yeast(_)));
            let shown = reply.mass("flour", flour, here());
            let yeast = reply.mass("yeast", yeast * 2.0, here());
            reply.say(format!(
                "Take twice of everything, the yeast too ({yeast})."
            ));
            let limit = bench
                .facts
                .flour_limit
                .or(bench.inputs.kitchen.bowl.flour_limit);
            match limit {
                Some(limit) if limit < flour => {
                    let most = reply.mass("mixer-takes", limit, written());
                    let mixes = (flour / limit).ceil();
                    let mixes = reply.count("mixes", mixes, "mixes", here());
                    reply.say(format!("{shown} of flour are more than a mixer for {most} takes: make {mixes}."));
                }
                Some(_) => {}
                None => reply.say(format!(
                    "{shown} of flour may be more than the mixer is made for; its maker’s figure decides, and two mixes are as good as one."
                )),
            }
            let how = bench.how();
            let kitchen = bench.inputs.kitchen;
            let before = bench.own_timed(&bench.in_kitchen(kitchen, &how));
            let after = bench.timed(&changed.recipe, &bench.changed_in(&changed, kitchen, &how));
            let rises: Vec<_> = after
                .into_iter()
                .filter(super::timed::Timed::rises)
                .collect();
            match reply.against(&rises, &before, "doubled") {
                Some(moved) => {
                    reply.say(format!(
                        "A large dough keeps its own warmth, or its cold, so the sign ends a rise: {}.",
                        moved.most
                    ));
                    reply.all_moved(&moved, "With twice as much");
                }
                None => reply.say("The rises take as long as written; a large dough keeps its own warmth, so the sign decides."),
            }
            reply.more("Count what the oven holds: what waits for it rises on.");
            reply.changes = changes(&variant);
        }
    }
}
