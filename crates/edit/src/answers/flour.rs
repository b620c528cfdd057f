//! Answers about flour: weaker or stronger, wholemeal, and the flours and starters of another bread.

use super::Bench;
use super::reply::{Reply, habit, here, written};
use super::yeast::{changes, times_after};
use crate::variant::Wish;
use numerics::quantity::{Fraction, Mass};
use recipe::larder::{Ingredient, Role};
use recipe::provenance::{Had, Origin};
use recipe::substitution::{WATER_PER_POINT_RANGE, absorbs, gluten_for, is_wholegrain};

/// Protein of added gluten where nothing else is known.
const GLUTEN: Fraction = Fraction::from_percent(75.0);

fn white(one: &Ingredient) -> bool {
    one.role == Role::Flour && !is_wholegrain(one)
}

/// 5: flour of another strength.
pub fn other(bench: &Bench<'_>, reply: &mut Reply) {
    let flours = bench.items(white);
    let Some((main, _)) = flours
        .iter()
        .max_by(|one, other| one.1.si().total_cmp(&other.1.si()))
    else {
        return reply.refuse(
            "No white flour stands in this recipe, so none can be exchanged by its protein.",
        );
    };
    let Some(own) = main.composition.protein else {
        return reply.refuse(format!("The protein of the {} is not known; read it on the bag and write it in the recipe’s pantry.", main.name));
    };
    let usual = if own.percent() > 11.5 { 10.5 } else { 12.5 };
    let theirs = bench.facts.protein.unwrap_or(Fraction::from_percent(usual));
    let mut new = (*main).clone();
    new.composition.protein = Some(theirs);
    let mass: Mass = flours.iter().map(|(_, mass)| *mass).sum();
    let points = theirs.percent() - own.percent();
    let water = mass * ((absorbs(&new) - absorbs(main)) / 100.0);
    let (was, is) = (
        reply.percent("protein-written", own.si(), written()),
        reply.percent("protein-yours", theirs.si(), written()),
    );
    let rule = Origin::new(
        "1 to 1.5 points of water for a point of protein",
        Had::CommonPractice,
    );
    let (low, high) = (WATER_PER_POINT_RANGE.low, WATER_PER_POINT_RANGE.high);
    let ends = [low, high].map(|each| (mass * (points * each / 100.0)).abs());
    let way = if points < 0.0 { "less" } else { "more" };
    let middle = reply.mass("water", water.abs(), rule.clone());
    let from = reply.mass("water-least", ends[0], rule.clone());
    let to = reply.mass("water-most", ends[1], rule);
    reply.say(format!(
        "Take {middle} {way} of the liquid: your flour has {is} of protein where the recipe’s has {was}, and {} protein drinks {way}.",
        if points < 0.0 { "less" } else { "more" }
    ));
    reply.more(format!(
        "Bakers reckon 1–1.5 points of water for a point of protein: between {from} and {to}."
    ));
    if points < 0.0 {
        let wanted = gluten_for(mass, own, theirs, GLUTEN);
        if let Some(gluten) = wanted.filter(|gluten| *gluten > Mass::ZERO) {
            let shown = reply.mass("gluten", gluten, here());
            let of = reply.mass("flour", mass, here());
            reply.more(format!(
                "Or leave the liquid as it is and put {shown} of wheat gluten (75 % protein) in the place of as much of the {of} of flour."
            ));
        }
        reply.say("Stop the mixing when the dough is smooth; the loaf stands a little lower and is softer.");
    } else {
        reply.say("It takes a minute or two more of kneading before it stretches to a thin film.");
    }
    reply.say("How the dough feels decides the last spoonful.");
    reply.rests(
        "labels round protein: 3 g in a serving of 30 g may be 8.3 to 11.6 % (worked out here)",
    );
    if bench.facts.protein.is_none() {
        reply.rests("a flour of that protein taken, where nothing is said of it (usual all-purpose 10 to 12 %, bread flour 12 to 13.5 %, second-hand)");
    }
}

/// 6: wholemeal for part.
pub fn wholemeal(bench: &Bench<'_>, reply: &mut Reply) {
    let share = bench.facts.share.unwrap_or(Fraction::from_percent(25.0));
    let flours = bench.items(white);
    let Some((main, mass)) = flours
        .iter()
        .max_by(|one, other| one.1.si().total_cmp(&other.1.si()))
    else {
        return reply.refuse(
            "No white flour stands in this recipe that wholemeal could take the place of.",
        );
    };
    let wish = Wish::Instead(format!(
        "wholemeal flour for {} % of the {}",
        numerics::decimal::trimmed(share.percent(), 1),
        main.name
    ));
    match bench.wished(&[wish]) {
        Err(why) => reply.refuse(why),
        Ok((variant, changed)) => {
            let part = reply.percent("share", share.si(), written());
            let swapped = reply.mass("wholemeal", *mass * share.si(), here());
            let water = changed.formula.dough.water - bench.inputs.formula.dough.water;
            let more = reply.mass("water", water, here());
            reply.say(format!(
                "Put {swapped} of wholemeal in the place of {part} of the {}, and {more} more water or milk: bran drinks.",
                main.name
            ));
            // The whole flour's share, not the one flour's.
            let of_all = *mass * share.si() / bench.flour();
            let lower = reply.percent("lower", 0.5 * of_all, habit());
            reply.more(format!(
                "The loaf stands about {lower} lower (5 % for each tenth of the flour, common practice)."
            ));
            reply.more("Bran takes its water up slowly: judge the dough after a rest of a quarter of an hour.");
            if share.percent() > 30.0 {
                reply.say("Above a quarter or so it is another bread: start with less.");
            }
            reply.changes = changes(&variant);
            times_after(bench, reply, &changed);
        }
    }
}

/// Self-raising flour: refused.
pub fn self_raising(_bench: &Bench<'_>, reply: &mut Reply) {
    reply.refuse("Not in a yeast dough: self-raising flour brings baking powder and salt of its own, and its protein is low. No amount of it makes this bread.");
    reply.say("Plain (all-purpose) flour is the same flour without them.");
    reply.more("What its protein asks for: `other-flour`.");
    reply.rests("the substitution’s own refusal (`everyoven variant`)");
}

/// 7: gluten-free: refused.
pub fn gluten_free(_bench: &Bench<'_>, reply: &mut Reply) {
    reply.refuse("No figure here would be honest: the gluten of wheat holds the gas in this dough, and a bread without it is a different recipe.");
    reply.say("Take one that was made for it. Whoever must avoid gluten goes by the packs’ “gluten-free” and by medical advice, never by a swap.");
    reply.rests("common practice; “gluten-free” is at most 20 mg/kg by Regulation (EU) 828/2014 and 21 CFR 101.91 (from memory)");
}

/// Sourdough: amounts, but no minutes.
pub fn sourdough(bench: &Bench<'_>, reply: &mut Reply) {
    let flour = bench.flour();
    if flour <= Mass::ZERO {
        return reply.refuse("No flour stands in this recipe.");
    }
    let starter = flour * 0.2;
    let half = starter / 2.0;
    let (all, part) = (
        reply.mass("starter", starter, habit()),
        reply.mass("half-of-it", half, habit()),
    );
    reply.say(format!(
        "Leave the yeast out and take {all} of ripe starter of equal parts flour and water, a fifth of the flour; take {part} off the flour and {part} off the liquid."
    ));
    reply.say("Bakers count on three to four times the rising time (common practice); the starter decides, so the signs end each rise.");
    reply.more("There are no minutes for it here: this program follows baker’s yeast alone.");
    if bench.of_flour(bench.inputs.formula.dough.sugar) > 0.08 {
        let sugar = bench.of_flour(bench.inputs.formula.dough.sugar);
        let shown = reply.percent("sugar", sugar, here());
        reply.more(format!(
            "With {shown} of sugar it is slower still; build the starter up stiff and sweet first."
        ));
    }
}
