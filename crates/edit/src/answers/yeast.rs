//! Answers about yeast: another form of it, less of it, old yeast.

use super::Bench;
use super::bench::{Changed, items_of};
use super::reply::{Reply, habit, here, memory, quoted, written};
use crate::ledger::say;
use crate::variant::{Variant, Wish};
use numerics::decimal::round_to;
use numerics::quantity::{Fraction, Mass};
use recipe::formula::Resolved;
use recipe::larder::{Ingredient, Role, YeastForm};
use recipe::provenance::{Had, Origin};
use recipe::substitution::WAKES_IN_RANGE;

/// Makers' and extension pages on dry yeast, by way of a list of them.
const STORAGE: &str = "pages of yeast makers and of a state university's extension on dry yeast";

/// A packet of dry yeast where nothing else is said.
const PACKET_G: f64 = 7.0;

/// A reply without a yeast to speak of.
fn no_yeast(reply: &mut Reply) {
    reply.refuse("No yeast stands in this recipe, so there is none to swap or to test.");
}

/// The name by which a recipe calls a yeast, for a wish.
fn name(one: &Ingredient) -> &str {
    &one.name
}

/// Swaps every form of yeast for another one.
fn swap(bench: &Bench<'_>, to: &str) -> Result<(Variant, Changed), String> {
    let wishes: Vec<Wish> = bench
        .yeasts()
        .iter()
        .filter(|(one, _, _)| name(one) != to)
        .map(|(one, _, _)| Wish::Instead(format!("{to} for {}", name(one))))
        .collect();
    bench.wished(&wishes)
}

/// All yeast of some formula.
fn yeast_of(changed: &Changed) -> Mass {
    let all = items_of(&changed.formula, |one| matches!(one.role, Role::Yeast(_)));
    all.iter().map(|(_, mass)| *mass).sum()
}

/// What changes in the recipe besides its sentences.
pub fn changes(variant: &Variant) -> Vec<String> {
    let amounts = variant.changes.iter();
    amounts
        .filter(|change| !change.what.contains(", step "))
        .map(
            |change| match (change.before.as_str(), change.after.as_str()) {
                ("", after) => format!("{}, new: {after}", change.what),
                (before, "") => format!("{}, gone: {before}", change.what),
                (before, after) => format!("{}: {before} → {after}", change.what),
            },
        )
        .collect()
}

/// What a swap brings or takes of allergens, in the variant's own sentences.
pub fn allergens(variant: &Variant, reply: &mut Reply) {
    for said in &variant.said {
        if said.contains("allergens") || said.starts_with("No longer an ingredient") {
            reply.more(said.clone());
        }
    }
}

/// What a swap does to the times, in a sentence, and what decides.
pub fn times_after(bench: &Bench<'_>, reply: &mut Reply, changed: &Changed) {
    let how = bench.how();
    let kitchen = bench.inputs.kitchen;
    let before = bench.own_timed(&bench.in_kitchen(kitchen, &how));
    let after = bench.timed(&changed.recipe, &bench.changed_in(changed, kitchen, &how));
    match reply.against(&after, &before, "after") {
        Some(moved) => {
            reply.say(format!("The signs end each rise: {}.", moved.most));
            reply.all_moved(&moved, "With it");
        }
        None => {
            reply.say("The written times hold, as nearly as a cook can tell; the signs decide.");
        }
    }
}

/// 1: the other dry yeast.
pub fn other_dry(bench: &Bench<'_>, reply: &mut Reply) {
    let yeasts = bench.yeasts();
    let Some((_, form, _)) = yeasts.first() else {
        return no_yeast(reply);
    };
    let to_active = matches!(form, YeastForm::Instant | YeastForm::InstantOsmotolerant);
    let to = if to_active {
        "active dry yeast"
    } else {
        "instant yeast"
    };
    let before: Mass = yeasts.iter().map(|(_, _, mass)| *mass).sum();
    let was = reply.mass("written", before, written());
    let names: Vec<String> = yeasts
        .iter()
        .map(|(one, _, _)| name(one).to_owned())
        .collect();
    match swap(bench, to) {
        Err(why) => reply.refuse(why),
        Ok((variant, changed)) => {
            let now = reply.mass(
                "instead",
                yeast_of(&changed),
                YeastForm::conversion_origin(),
            );
            reply.say(format!(
                "Take {now} of {to} for the {was} of {}.",
                say::list(&names)
            ));
            if to_active {
                let more = reply.mass(
                    "by-the-kitchen-rule",
                    before / 0.75,
                    Origin::new(
                        "three quarters of instant for active dry",
                        Had::CommonPractice,
                    ),
                );
                let liquid = reply.band("wakes-at", 38.0, 43.0, quoted(STORAGE));
                reply.say(format!(
                    "Wake it in the recipe’s own liquid at {liquid} for 5–10 min until it foams: its grains take up water slowly."
                ));
                reply.more(format!(
                    "For the waking {}–{} times its mass of the liquid is enough. Many kitchens take a third more of it than of instant, {more}; both work.",
                    WAKES_IN_RANGE.low, WAKES_IN_RANGE.high
                ));
            } else {
                reply.say("It goes into the flour dry, for it needs no waking; the liquid for the waking goes into the dough.");
            }
            reply.changes = changes(&variant);
            times_after(bench, reply, &changed);
        }
    }
}

/// 2: fresh yeast.
pub fn fresh(bench: &Bench<'_>, reply: &mut Reply) {
    let yeasts = bench.yeasts();
    if yeasts.is_empty() {
        return no_yeast(reply);
    }
    if yeasts.iter().all(|(_, form, _)| *form == YeastForm::Fresh) {
        return reply.say("This recipe is written for fresh yeast already.");
    }
    let before: Mass = yeasts.iter().map(|(_, _, mass)| *mass).sum();
    let was = reply.mass("written", before, written());
    match swap(bench, "fresh yeast") {
        Err(why) => reply.refuse(why),
        Ok((variant, changed)) => {
            let mass = yeast_of(&changed);
            let now = reply.mass("instead", mass, YeastForm::conversion_origin());
            let water = items_of(&changed.formula, |one| {
                matches!(one.role, Role::Yeast(YeastForm::Fresh))
            })
            .first()
            .and_then(|(one, _)| one.composition.water)
            .map_or(0.7, Fraction::si);
            let brings = reply.mass("water", mass * water, here());
            reply.say(format!(
                "Take {now} of fresh yeast for {was} of dry, crumbled into the liquid, and {brings} less of the liquid: fresh yeast is mostly water."
            ));
            reply.more("It needs no waking. It keeps two weeks in the refrigerator; what is brown and soft has little power left (common practice).");
            reply.changes = changes(&variant);
            times_after(bench, reply, &changed);
        }
    }
}

/// 3: less yeast than written.
pub fn one_packet(bench: &Bench<'_>, reply: &mut Reply) {
    let need: Mass = bench.yeasts().iter().map(|(_, _, mass)| *mass).sum();
    if need <= Mass::ZERO {
        return no_yeast(reply);
    }
    let packet = bench.facts.yeast.unwrap_or(Mass::from_grams(PACKET_G));
    let origin = if bench.facts.yeast.is_some() {
        written()
    } else {
        memory("a packet of dry yeast, 7 g (2¼ tsp), on the packs of Europe and the United States")
    };
    let have = reply.mass("at-hand", packet, origin);
    let wants = reply.mass("wanted", need, written());
    if packet >= need {
        return reply.say(format!(
            "The recipe wants {wants}, so {have} is enough: weigh out what it asks for and close the rest tightly in the refrigerator."
        ));
    }
    // A preferment gets its own; what is short is short in the stage with most of the yeast.
    let most = largest_share(bench);
    let rest = need - most.1;
    let factor = if packet > rest {
        (packet - rest) / most.1
    } else {
        0.0
    };
    if factor < 0.05 {
        return reply.say(format!(
            "{have} is too little for this recipe, which wants {wants}: open a second packet."
        ));
    }
    let fewer = bench.with_amounts_in(
        |place, one| place == most.0 && matches!(one.role, Role::Yeast(_)),
        factor,
    );
    let stage = &bench.inputs.recipe.stages[most.0].name.value;
    reply.say(format!(
        "Use the {have}: with less than {wants} the bread is the same, only later."
    ));
    reply.more(format!("What is missing is missing in the {stage}."));
    let how = bench.how();
    let kitchen = bench.inputs.kitchen;
    let before = bench.own_timed(&bench.in_kitchen(kitchen, &how));
    let after = bench.timed(&fewer.recipe, &bench.changed_in(&fewer, kitchen, &how));
    match reply.against(&after, &before, "with-less") {
        Some(moved) => reply.moved(&moved, "Count on"),
        None => reply.say("No rise takes noticeably longer."),
    }
    reply
        .say("The signs end each rise; with a second packet, weighed out, the written times hold.");
}

/// The stage with most of the yeast, and how much that is.
fn largest_share(bench: &Bench<'_>) -> (usize, Mass) {
    let stages = bench.inputs.formula.stages.iter().enumerate();
    let own = stages.map(|(place, stage)| {
        let yeast = stage.items.iter().filter_map(|item| match &item.what {
            Resolved::Ingredient(one) if matches!(one.role, Role::Yeast(_)) => item.mass,
            _ => None,
        });
        (place, yeast.sum::<Mass>())
    });
    own.max_by(|one, other| one.1.si().total_cmp(&other.1.si()))
        .unwrap_or((0, Mass::ZERO))
}

/// 4: old yeast.
pub fn old(bench: &Bench<'_>, reply: &mut Reply) {
    if bench.yeasts().is_empty() {
        return no_yeast(reply);
    }
    let water = reply.band("test-water", 40.0, 43.0, quoted(STORAGE));
    reply.say(format!(
        "Test it: a packet (7 g, 2¼ tsp) in 120 mL of water at {water} with 1 tsp of sugar foams up to the 1-cup mark within 10 min when it is good."
    ));
    let power = match (bench.facts.yeast_power, bench.facts.yeast_months) {
        (Some(power), _) => power,
        (None, Some(months)) => {
            // One month in a hundred is lost in a closed pack without air.
            let left = Fraction::from_si((1.0 - 0.01 * months).max(0.0));
            let shown = reply.percent("left-if-sealed", left.si(), quoted(STORAGE));
            reply.more(format!(
                "In an unopened pack without air it loses about 1 % a month, so {shown} of its power would be left; an opened one keeps about four months in the refrigerator, and beyond that only the test tells."
            ));
            left
        }
        (None, None) => Fraction::from_si(0.7),
    };
    if power.si() < 0.3 {
        return reply
            .say("Yeast that does less than a third of its work is not worth the flour: buy new.");
    }
    let shown = reply.percent("power", power.si(), here());
    let kitchen = bench.inputs.kitchen;
    let usual = bench.own_timed(&bench.in_kitchen(kitchen, &bench.how()));
    let weak =
        bench.own_timed(&bench.in_kitchen(kitchen, &bench.yeast_at(bench.how(), power.si())));
    match reply.against(&weak, &usual, "weak") {
        Some(moved) => {
            let with = format!("With {shown} of its power left count on");
            reply.moved(&moved, &with);
        }
        None => reply.say(format!(
            "With {shown} of its power left no rise takes noticeably longer."
        )),
    }
    let more = (1.0 / power.si()).min(1.5);
    let all: Mass = bench.yeasts().iter().map(|(_, _, mass)| *mass).sum();
    let mass = reply.mass(
        "more-of-it",
        Mass::from_grams(round_to(all.grams() * more, 0.1)),
        habit(),
    );
    reply.say(format!(
        "Or take {mass} of it, never more than half as much again: dead yeast makes a dough slack."
    ));
    if bench.facts.yeast_power.is_none() && bench.facts.yeast_months.is_none() {
        reply.rests("yeast of seven tenths of its power taken, where nothing is said of it");
    }
}
