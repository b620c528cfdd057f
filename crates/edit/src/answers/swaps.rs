//! Answers about milk, butter, egg, sugar and honey: another thing in their place.

use super::Bench;
use super::bench::items_of;
use super::reply::{Reply, here, written};
use super::yeast::{allergens, changes, times_after};
use crate::variant::Wish;
use numerics::quantity::{Fraction, Mass};
use recipe::formula::Resolved;
use recipe::larder::{Ingredient, Role};
use recipe::provenance::{Had, Origin};

fn of_milk(one: &Ingredient) -> bool {
    one.allergens_eu.iter().any(|name| name == "milk")
}

/// Names of every ingredient, bench and top too, that is something; each once.
fn named(bench: &Bench<'_>, which: impl Fn(&Ingredient) -> bool) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for item in bench.inputs.formula.every_item() {
        if let Resolved::Ingredient(one) = &item.what
            && which(one)
            && !names.contains(&one.name)
        {
            names.push(one.name.clone());
        }
    }
    names
}

/// 19: without milk and butter.
pub fn no_dairy(bench: &Bench<'_>, reply: &mut Reply) {
    let names = named(bench, of_milk);
    if names.is_empty() {
        return reply.say("Nothing of milk stands in this recipe. Read the packs all the same: the flour or the yeast may list traces.");
    }
    let is_fat = |name: &str| {
        bench
            .inputs
            .formula
            .every_item()
            .any(|item| matches!(&item.what, Resolved::Ingredient(one) if one.name == name && one.role == Role::Fat))
    };
    let wishes: Vec<Wish> = names
        .iter()
        .map(|name| {
            let new = if is_fat(name) {
                "sunflower oil"
            } else {
                "oat drink"
            };
            Wish::Instead(format!("{new} for {name}"))
        })
        .collect();
    match bench.wished(&wishes) {
        Err(why) => reply.refuse(why),
        Ok((variant, changed)) => {
            let butter = bench.mass_of(|one| one.role == Role::Fat && of_milk(one));
            let milk = bench.mass_of(|one| one.role == Role::Liquid && of_milk(one));
            if milk > Mass::ZERO {
                let drink = |formula: &recipe::formula::Formula| -> Mass {
                    let plain = |one: &Ingredient| one.role == Role::Liquid && !of_milk(one);
                    items_of(formula, plain).iter().map(|(_, mass)| *mass).sum()
                };
                let mass = drink(&changed.formula) - drink(bench.inputs.formula);
                let (was, is) = (
                    reply.mass("milk", milk, written()),
                    reply.mass("oat-drink", mass, here()),
                );
                reply.say(format!("For {was} of milk take {is} of oat drink."));
                if butter > Mass::ZERO {
                    reply.more("The drink also gives the water that the butter brought.");
                }
            }
            if butter > Mass::ZERO {
                let oil: Mass = items_of(&changed.formula, |one| {
                    one.role == Role::Fat && !of_milk(one)
                })
                .iter()
                .map(|(_, mass)| *mass)
                .sum();
                let (was, is) = (
                    reply.mass("butter", butter, written()),
                    reply.mass("oil", oil, here()),
                );
                let fat = bench
                    .items(|one| one.role == Role::Fat && of_milk(one))
                    .first()
                    .and_then(|(one, _)| one.composition.fat)
                    .map_or(0.81, Fraction::si);
                let block = reply.mass("block", butter * (fat / 0.75), here());
                reply.say(format!(
                    "For {was} of butter take {is} of oil, or {block} of a block of 75 % fat made without milk: as much fat either way."
                ));
                reply.more("The block keeps the crumb closer to the original.");
            }
            reply.say("Read every pack: only what they all leave out is left out.");
            reply.more("It browns a little later, for milk’s own sugar is gone. Brush with the drink instead of milk, cream or butter.");
            allergens(&variant, reply);
            reply.changes = changes(&variant);
            times_after(bench, reply, &changed);
            reply.rests("people allergic to milk go by the packs and by medical advice");
        }
    }
}

/// 20: without egg.
pub fn no_egg(bench: &Bench<'_>, reply: &mut Reply) {
    let names = named(bench, |one| one.role == Role::Egg);
    if names.is_empty() {
        return reply.say("No egg stands in this recipe.");
    }
    let egg = bench.mass_of(|one| one.role == Role::Egg);
    let wishes: Vec<Wish> = names
        .iter()
        .map(|name| Wish::Instead(format!("no {name}")))
        .collect();
    match bench.wished(&wishes) {
        Err(why) => reply.refuse(why),
        Ok((variant, changed)) => {
            let parts = items_of(bench.inputs.formula, |one| one.role == Role::Egg);
            let share = |of: fn(&Ingredient) -> Option<Fraction>| {
                let all: Mass = parts
                    .iter()
                    .map(|(one, mass)| *mass * of(one).map_or(0.0, Fraction::si))
                    .sum();
                all
            };
            let was = reply.mass("egg", egg, written());
            let water = reply.mass("water", share(|one| one.composition.water), here());
            let fat = reply.mass("fat", share(|one| one.composition.fat), here());
            let more_of = |role: Role| -> Mass {
                let all = |formula| -> Mass {
                    let own = items_of(formula, |one| one.role == role);
                    own.iter().map(|(_, mass)| *mass).sum()
                };
                all(&changed.formula) - all(bench.inputs.formula)
            };
            let (wet, rich) = (more_of(Role::Liquid), more_of(Role::Fat));
            let milk = reply.mass("liquid-instead", wet, here());
            if rich.grams() >= 0.5 {
                let butter = reply.mass("fat-instead", rich, here());
                reply.say(format!(
                    "In the place of the {was} of egg take {milk} more milk and {butter} more butter: they give back its {water} of water and {fat} of fat."
                ));
            } else {
                reply.say(format!(
                    "In the place of the {was} of egg take {milk} more liquid: that gives back its {water} of water."
                ));
            }
            reply.more("The crumb is shorter and paler and the bread keeps a day less (common practice). Brush with milk or cream instead of egg.");
            allergens(&variant, reply);
            reply.changes = changes(&variant);
            times_after(bench, reply, &changed);
        }
    }
}

/// 21: less sugar.
pub fn less_sugar(bench: &Bench<'_>, reply: &mut Reply) {
    let sugar = bench.inputs.formula.dough.sugar;
    let of_flour = bench.of_flour(sugar);
    if of_flour < 0.03 {
        let shown = reply.percent("sugar", of_flour, here());
        return reply.say(format!(
            "There is hardly any in it: {shown} of the flour. Leave it out if you like; the times stay."
        ));
    }
    let keeps = bench.facts.share.map_or(0.5, |share| 1.0 - share.si());
    let less = bench.with_amounts(|one| one.role == Role::Sugar, keeps);
    let now = less.formula.dough.sugar;
    let (was, is) = (
        reply.percent("sugar", of_flour, here()),
        reply.percent("sugar-then", bench.of_flour(now), here()),
    );
    let out = reply.mass("left-out", sugar - now, here());
    reply.say(format!(
        "Leave {out} of sugar out: that makes {is} of the flour instead of {was}."
    ));
    let how = bench.how();
    let kitchen = bench.inputs.kitchen;
    let before = bench.own_timed(&bench.in_kitchen(kitchen, &how));
    let after = bench.timed(&less.recipe, &bench.changed_in(&less, kitchen, &how));
    let rises = |all: Vec<super::timed::Timed>| -> Vec<super::timed::Timed> {
        all.into_iter().filter(super::timed::Timed::rises).collect()
    };
    match reply.against(&rises(after), &rises(before), "less-sweet") {
        Some(moved) => {
            reply.say(format!(
                "Yeast works faster with less of it, so its sign ends a rise: {}.",
                moved.most
            ));
            reply.all_moved(&moved, "With less sugar");
        }
        None => reply.say("No rise becomes noticeably faster."),
    }
    let longer = reply.times_between(
        "browns-later",
        2.0,
        3.0,
        Origin::new("browning of sweet doughs", Had::CommonPractice),
    );
    reply.say(format!(
        "It browns {longer} later; the colour decides (common practice)."
    ));
    reply.more("It keeps a little less well.");
    reply.rests("above 5 to 7 % of the flour sugar slows yeast (second-hand)");
    if bench.facts.share.is_none() {
        reply.rests("half of the sugar taken, where nothing is said of it (`--set share=30%` leaves 30 % out)");
    }
}

/// 22: honey.
pub fn honey(bench: &Bench<'_>, reply: &mut Reply) {
    let dry = |one: &Ingredient| {
        one.role == Role::Sugar
            && one
                .composition
                .water
                .is_none_or(|water| water.percent() < 6.0)
    };
    let sugars = bench.items(dry);
    if sugars.is_empty() {
        return reply.say("No dry sugar stands in this dough that honey could take the place of.");
    }
    let wishes: Vec<Wish> = sugars
        .iter()
        .map(|(one, _)| Wish::Instead(format!("honey for {}", one.name)))
        .collect();
    match bench.wished(&wishes) {
        Err(why) => reply.refuse(why),
        Ok((variant, changed)) => {
            let sugar: Mass = sugars.iter().map(|(_, mass)| *mass).sum();
            let mass: Mass = items_of(&changed.formula, |one| one.name.contains("honey"))
                .iter()
                .map(|(_, mass)| *mass)
                .sum();
            let brings = items_of(&changed.formula, |one| one.name.contains("honey"))
                .first()
                .and_then(|(one, _)| one.composition.water)
                .map_or(0.17, Fraction::si);
            let (was, is) = (
                reply.mass("sugar", sugar, written()),
                reply.mass("honey", mass, here()),
            );
            let water = reply.mass("water", mass * brings, here());
            reply.say(format!(
                "Take {is} of honey for {was} of sugar, and {water} less of the liquid: honey brings its own water."
            ));
            if bench.of_flour(sugar) > 0.08 {
                reply.more("Honey browns sooner: turn the oven down by 10 °C / 20 °F and look 3 min earlier (common practice).");
            }
            reply.say("Bread with honey is not for children under one year, baked or not.");
            reply.changes = changes(&variant);
            times_after(bench, reply, &changed);
            reply.rests("no honey before the first birthday: public health advice (from memory)");
        }
    }
}

/// 23: salted butter.
pub fn salted_butter(bench: &Bench<'_>, reply: &mut Reply) {
    let butters = bench.items(|one| one.name.contains("unsalted butter"));
    if butters.is_empty() {
        return reply.say("No unsalted butter stands in this dough.");
    }
    let butter: Mass = butters.iter().map(|(_, mass)| *mass).sum();
    let wish = Wish::Instead("salted butter for unsalted butter".to_owned());
    match bench.wished(&[wish]) {
        Err(why) => reply.refuse(why),
        Ok((variant, changed)) => {
            let of = |changed: &recipe::formula::Formula| -> Mass {
                let all = items_of(changed, |one| one.role == Role::Salt);
                all.iter().map(|(_, mass)| *mass).sum()
            };
            let (before, after) = (of(bench.inputs.formula), of(&changed.formula));
            let (was, is) = (
                reply.mass("salt", before, written()),
                reply.mass("salt-then", after, here()),
            );
            let in_butter = reply.mass("butter", butter, written());
            let brings = reply.mass("in-the-butter", before - after, here());
            reply.say(format!(
                "Use it, and take {is} of salt instead of {was}: {in_butter} of salted butter bring {brings} of it."
            ));
            reply.say("What the pack says decides: from 1.2 to 2 % of salt is sold.");
            reply.changes = changes(&variant);
            reply.rests("salted butter of 1.25 to 1.75 % salt (second-hand); the larder’s row is the figure used");
        }
    }
}
