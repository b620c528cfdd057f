//! Faults of rising: dense, collapsed, holes, low in the tin, over its rim.

use super::{Inquiry, rising};
use crate::answers::bench::Bench;
use crate::answers::reply::{Reply, habit, here, quoted, written};
use crate::ledger::say;
use crate::stretch::What;
use numerics::quantity::{Duration, Fraction, Length, Mass, Temperature, Volume};
use recipe::formula::bands::{Measured, band};
use recipe::formula::piece_mass;
use recipe::larder::Role;
use recipe::scale::tin_volume;

/// Rising that is too little by the trade's reckoning, and too much: shares of what is wanted (ours).
const DENSE_AT: f64 = 0.7;
const FALLEN_AT: f64 = 1.4;

/// How far too little rising goes towards a dense bread.
fn towards_dense(share: f64) -> f64 {
    (1.0 - share) / (1.0 - DENSE_AT)
}

/// How far too much goes towards a fallen one.
fn towards_fallen(share: f64) -> f64 {
    (share - 1.0) / (FALLEN_AT - 1.0)
}

fn yeast(one: &recipe::larder::Ingredient) -> bool {
    matches!(one.role, Role::Yeast(_))
}

fn nothing_baked(reply: &mut Reply) {
    reply.refuse("Nothing is baked in this recipe, so no fault of it can be looked into.");
}

/// Water on flour of a trial's dough.
fn water(inquiry: &Inquiry<'_, '_>, factor_flour: f64) -> (f64, f64) {
    let bench = inquiry.bench;
    let own = bench.of_flour(bench.inputs.formula.dough.water);
    (own, own / factor_flour)
}

/// Causes of too little rising, which several faults share.
fn too_little(inquiry: &mut Inquiry<'_, '_>, reply: &mut Reply, towards: fn(f64) -> f64) {
    let power = inquiry.bench.facts.yeast_power;
    let weak = inquiry.with_yeast_at(power.map_or(0.5, Fraction::si));
    let share = inquiry.share_of_rising(&inquiry.follow(&weak));
    let shown = rising(reply, "yeast-at-half", share);
    let what = power.map_or_else(
        || "Yeast at half its power".to_owned(),
        |power| format!("Yeast at {} of its power", say::percent(power)),
    );
    inquiry.cause(
        what,
        towards(share),
        &format!("in the written minutes the dough gets {shown} of the rising it wants"),
        "Test the yeast in warm water with sugar, or buy new.",
    );
    inquiry.yours(power.is_some());
    let dead = inquiry.share_of_rising(&inquiry.follow(&inquiry.with_yeast_at(0.2)));
    let shown = rising(reply, "liquid-too-hot", dead);
    let hot = reply.temperature(
        "kills-yeast",
        Temperature::from_celsius(55.0),
        quoted("yeast dies between 50 and 60 °C"),
    );
    inquiry.cause(
        format!("Liquid above {hot} poured on the yeast"),
        towards(dead),
        &format!("with a fifth of it alive (from memory) the dough gets {shown} of the rising"),
        "Hold a thermometer in the liquid before the yeast meets it.",
    );
    let cold = inquiry.share_of_rising(&inquiry.follow(&inquiry.warmer(-5.0)));
    let shown = rising(reply, "colder-by-5", cold);
    inquiry.cause(
        "Rises 5 °C colder than the recipe says",
        towards(cold),
        &format!("it gets {shown} of the rising in the written minutes"),
        "Go by the sign, or find a warmer place.",
    );
    let at_20 = inquiry.with_dough_at(Temperature::from_celsius(20.0));
    let cool = inquiry.share_of_rising(&inquiry.follow(&at_20));
    let shown = rising(reply, "dough-at-20", cool);
    inquiry.cause(
        "A dough that left the bowl at 20 °C / 68 °F",
        towards(cool),
        &format!("it gets {shown} of the rising"),
        "Warm the liquid (`everyoven mix` says how far).",
    );
    own_kitchen(inquiry, reply, towards);
}

/// The kitchen of the one who asks, as they describe it.
fn own_kitchen(inquiry: &mut Inquiry<'_, '_>, reply: &mut Reply, towards: fn(f64) -> f64) {
    let own = inquiry.share_of_rising(&inquiry.follow(&inquiry.as_asked()));
    let shown = rising(reply, "your-kitchen", own);
    let room = reply.temperature("room", inquiry.bench.inputs.kitchen.room, written());
    inquiry.cause(
        format!("The written minutes in your kitchen of {room}"),
        towards(own),
        &format!("they give {shown} of the rising that is wanted"),
        "Let the sign end the rise, not the clock.",
    );
    inquiry.yours(true);
}

/// The written minutes of the rises of the product's dough and of its last rise.
fn written_minutes(inquiry: &Inquiry<'_, '_>) -> (Duration, Duration) {
    let course = inquiry.follow(&inquiry.as_meant());
    let timed = inquiry.bench.own_timed(&course);
    let sum = |what: What, of: &str| -> Duration {
        timed
            .iter()
            .filter(|one| one.stretch.what == what && one.stretch.of.eq_ignore_ascii_case(of))
            .map(|one| one.stretch.written)
            .sum()
    };
    (
        sum(What::Rise, &inquiry.product.from.value),
        sum(What::LastRise, &inquiry.product.name.value),
    )
}

/// 32: dense.
pub fn dense(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(mut inquiry) = Inquiry::of(bench) else {
        return nothing_baked(reply);
    };
    too_little(&mut inquiry, reply, towards_dense);
    let (scooped, how) = bench.scooped();
    let (was, is) = water(&inquiry, scooped);
    let kind = bench.inputs.recipe.kind.value;
    if let Some(usual) = band(kind, Measured::Water) {
        let (before, after) = (
            reply.percent("water", was, here()),
            reply.percent("water-scooped", is, here()),
        );
        let low = reply.percent("water-least", usual.low, usual.origin.clone());
        inquiry.cause(
            how,
            (was - is) / (was - usual.low).max(0.01),
            &format!("water falls from {before} to {after} of the flour, where {low} is the least that is usual"),
            "Weigh the flour, or spoon it into the cup.",
        );
        inquiry.yours(bench.facts.cup.is_some());
    }
    let salt = bench.mass_of(|one| one.role == Role::Salt);
    if salt > Mass::ZERO {
        let much = inquiry.with_amounts(|one| one.role == Role::Salt, 3.0);
        let share = inquiry.share_of_rising(&inquiry.follow(&much));
        let shown = rising(reply, "salt-by-the-tablespoon", share);
        let of_flour = reply.percent("salt-then", bench.of_flour(salt) * 3.0, here());
        inquiry.cause(
            "Salt by the tablespoon for the teaspoon",
            towards_dense(share),
            &format!("{of_flour} of salt leaves {shown} of the rising"),
            "Weigh the salt; taste a crumb of the bread.",
        );
    }
    let (rise, last) = written_minutes(&inquiry);
    if last > Duration::ZERO {
        let share = (rise + last * 0.5) / (rise + last);
        let shown = rising(reply, "last-rise-halved", share);
        inquiry.cause(
            "The last rise cut to half",
            towards_dense(share),
            &format!("of all rising {shown} is left"),
            "Bake when a dent fills slowly.",
        );
    }
    inquiry.without_figure(
        "Too little kneading, or gas pressed out in shaping",
        "Knead to a thin film; shape without flattening.",
    );
    inquiry.told(reply, "Dense means that the dough had less than about seven tenths of the rising it wants, or too little water.");
}

/// 33: collapsed.
pub fn collapsed(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(mut inquiry) = Inquiry::of(bench) else {
        return nothing_baked(reply);
    };
    too_much(&mut inquiry, reply);
    let (rise, last) = written_minutes(&inquiry);
    if last > Duration::ZERO {
        let wait = Duration::from_minutes(45.0);
        let share = (rise + last + wait) / (rise + last);
        let shown = rising(reply, "waited-45-min", share);
        inquiry.cause(
            "45 min more of waiting for the oven",
            towards_fallen(share),
            &format!("that makes {shown} of the rising"),
            "Heat the oven when the last rise is half over; a piece that must wait waits in the refrigerator.",
        );
    }
    inquiry.told(
        reply,
        "It falls when the dough had more than about one and four tenths of the rising it wants.",
    );
    let whole = reply.percent("second-last-rise", 0.6, habit());
    reply.say(format!("Caught before the oven: press it out, shape it again and give it {whole} of the last rise (common practice)."));
}

fn too_much(inquiry: &mut Inquiry<'_, '_>, reply: &mut Reply) {
    let bench = inquiry.bench;
    let triple = inquiry.with_amounts(yeast, 3.0);
    let share = inquiry.share_of_rising(&inquiry.follow(&triple));
    let shown = rising(reply, "yeast-by-the-tablespoon", share);
    inquiry.cause(
        "Yeast by the tablespoon for the teaspoon",
        towards_fallen(share),
        &format!("three times the yeast makes {shown} of the rising in the written minutes"),
        "Weigh it.",
    );
    let warm = inquiry.share_of_rising(&inquiry.follow(&inquiry.warmer(6.0)));
    let shown = rising(reply, "warmer-by-6", warm);
    inquiry.cause(
        "Rises 6 °C warmer than the recipe says",
        towards_fallen(warm),
        &format!("it makes {shown} of the rising"),
        "Measure the warm place; go by the sign.",
    );
    let at_30 = inquiry.with_dough_at(Temperature::from_celsius(30.0));
    let share = inquiry.share_of_rising(&inquiry.follow(&at_30));
    let shown = rising(reply, "dough-at-30", share);
    inquiry.cause(
        "A dough that left the bowl at 30 °C / 86 °F",
        towards_fallen(share),
        &format!("it makes {shown} of the rising"),
        "Cold liquid, cold eggs, a shorter mix.",
    );
    if bench.mass_of(|one| one.role == Role::Salt) > Mass::ZERO {
        let bare = inquiry.with_amounts(|one| one.role == Role::Salt, 1e-6);
        let share = inquiry.share_of_rising(&inquiry.follow(&bare));
        let shown = rising(reply, "no-salt", share);
        inquiry.cause(
            "Salt forgotten",
            towards_fallen(share),
            &format!("it makes {shown} of the rising, in a slack dough"),
            "Put salt and flour in together.",
        );
    }
    let high = inquiry.in_kitchen(|kitchen| kitchen.altitude = Length::from_si(1600.0));
    let share = inquiry.share_of_rising(&inquiry.follow(&high));
    let shown = rising(reply, "at-1600-m", share);
    inquiry.cause(
        "A kitchen at 1 600 m",
        towards_fallen(share),
        &format!("gas takes more room there: {shown} of the rising"),
        "Less yeast, and stop at the height.",
    );
    own_kitchen(inquiry, reply, towards_fallen);
}

/// 34: holes, a flying crust.
pub fn holes(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(mut inquiry) = Inquiry::of(bench) else {
        return nothing_baked(reply);
    };
    // A little short is enough: the crust sets over gas that still wants room.
    let towards: fn(f64) -> f64 = |share| ((1.0 - share) / 0.15).min(1.0 + (1.0 - share));
    too_little(&mut inquiry, reply, towards);
    let (rise, last) = written_minutes(&inquiry);
    if last > Duration::ZERO {
        let share = (rise + last * 0.67) / (rise + last);
        let shown = rising(reply, "last-rise-two-thirds", share);
        inquiry.cause(
            "The last rise cut to two thirds",
            towards(share),
            &format!("of all rising {shown} is left"),
            "Give the last rise a sixth more, until a dent fills slowly.",
        );
    }
    inquiry.without_figure(
        "Rolled or rounded loosely, air folded in, or too much flour on the bench",
        "Roll firmly, press the seams shut, brush flour off.",
    );
    inquiry.told(reply, "Holes under the crust and burst sides come from a dough a sixth or more short of its rising, or from loose shaping.");
}

/// Low in its tin.
pub fn flat(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(mut inquiry) = Inquiry::of(bench) else {
        return nothing_baked(reply);
    };
    too_little(&mut inquiry, reply, towards_dense);
    let tinned = bench.in_tin();
    if let Some(product) = tinned
        && let Some(holds) = product.tin.as_ref().and_then(tin_volume)
        && let Some(usual) = band(bench.inputs.recipe.kind.value, tin_band(product))
    {
        let ratio = holds.millilitres() / piece_mass(&product.piece.value).grams();
        let own = reply.room_for("room", ratio, here());
        let high = reply.room_for("room-most", usual.high, usual.origin.clone());
        let (tin_words, larger) = their_tin(
            bench,
            holds,
            "A tin of the next size (a third larger)",
            4.0 / 3.0,
        );
        let mut tin = |what: &str, name: &str, ratio_then: f64, way_out: &str| {
            let shown = reply.room_for(what, ratio_then, here());
            let reach = (ratio_then - ratio) / (usual.high - ratio).max(0.05);
            inquiry.cause(
                name,
                reach,
                &format!("{shown} instead of {own}, where {high} is the most that is usual"),
                way_out,
            );
            inquiry.yours(bench.facts.tin.is_some() && what == "next-tin-up");
        };
        tin(
            "next-tin-up",
            &tin_words,
            ratio * larger,
            "Measure the tin with water and take dough in proportion (`other-tin`).",
        );
        tin(
            "piece-by-eye",
            "A piece cut by eye, a quarter too light",
            ratio / 0.76,
            "Weigh the pieces.",
        );
    } else {
        inquiry.without_figure(
            "It stood free on a tray and ran wide: a wet or long-risen dough without a tin",
            "Shape it tighter, let it rise less; nothing here follows how a loaf spreads.",
        );
    }
    inquiry.told(
        reply,
        "A low loaf has too much tin for its dough, or too little rising.",
    );
}

/// The tin of the one who asks, against the written one; another size where nothing is said of it.
fn their_tin(bench: &Bench<'_>, written: Volume, usual: &str, times: f64) -> (String, f64) {
    let theirs = bench.facts.tin.as_ref().and_then(|(_, tin)| tin.volume());
    theirs.map_or_else(
        || (usual.to_owned(), times),
        |(volume, _)| {
            let words = format!("Your tin of {}", say::tin_volume(volume, None));
            (words, volume / written)
        },
    )
}

fn tin_band(product: &recipe::document::model::Product) -> Measured {
    let lidded = product
        .tin
        .as_ref()
        .and_then(|tin| tin.lidded.as_ref())
        .is_some_and(|lidded| lidded.value);
    if lidded {
        Measured::TinLidded
    } else {
        Measured::TinOpen
    }
}

/// Over the rim.
pub fn over_the_rim(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(mut inquiry) = Inquiry::of(bench) else {
        return nothing_baked(reply);
    };
    let Some(product) = bench.in_tin() else {
        return reply.say("Nothing of this recipe is baked in a tin of a known volume, so nothing of it has a rim to run over.");
    };
    too_much(&mut inquiry, reply);
    if let Some(holds) = product.tin.as_ref().and_then(tin_volume)
        && let Some(usual) = band(bench.inputs.recipe.kind.value, tin_band(product))
    {
        let piece = piece_mass(&product.piece.value);
        let ratio = holds.millilitres() / piece.grams();
        let own = reply.room_for("room", ratio, here());
        let low = reply.room_for("room-least", usual.low, usual.origin.clone());
        let towards = |then: f64| (ratio - then) / (ratio - usual.low).max(0.05);
        let (tin_words, smaller) = their_tin(
            bench,
            holds,
            "A tin of the next size down (a quarter smaller)",
            0.75,
        );
        let small = ratio * smaller;
        let shown = reply.room_for("next-tin-down", small, here());
        inquiry.cause(
            tin_words,
            towards(small),
            &format!("{shown} instead of {own}, where {low} is the least that is usual"),
            "Take dough in proportion (`other-tin`); bake the rest as rolls.",
        );
        inquiry.yours(bench.facts.tin.is_some());
        let all = bench.inputs.formula.dough.mass;
        if all.grams() > piece.grams() * 1.2 {
            let then = holds.millilitres() / all.grams();
            let shown = reply.room_for("all-in-one-tin", then, here());
            let whole = reply.mass("all-the-dough", all, here());
            inquiry.cause(
                "All the dough in one tin",
                towards(then),
                &format!("{whole} leave {shown} instead of {own}"),
                "The recipe makes more than this tin takes.",
            );
        }
    }
    inquiry.told(
        reply,
        "It runs over when there is too much dough for the tin, or too much rising.",
    );
}
