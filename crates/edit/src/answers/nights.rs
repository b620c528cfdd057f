//! Answers about nights: in the refrigerator, for breakfast, left out.

use super::Bench;
use super::bench::Changed;
use super::reply::{Reply, followed, habit, quoted, written};
use crate::ledger::say;
use crate::stretch::What;
use bake::simulate::{Follows, Happening, How, Through};
use numerics::decimal::{fixed, round_to};
use numerics::quantity::{Duration, Length, Mass, Temperature};
use recipe::document::model::{Action, Recipe, Standing, Step};
use recipe::larder::Role;
use recipe::source::Located;

fn at(celsius: f64) -> Temperature {
    Temperature::from_celsius(celsius)
}

/// The place of the first long rise of the products' dough: its stage and step.
fn first_rise(bench: &Bench<'_>) -> Option<(usize, usize)> {
    let place = bench.stage_of(bench.main()?)?;
    let steps = &bench.inputs.recipe.stages[place].steps;
    let step = steps.iter().position(|step| {
        matches!(step.action, Action::Rest { .. })
            && step
                .until
                .as_ref()
                .is_some_and(|until| until.volume.is_some())
    })?;
    Some((place, step))
}

fn new<T>(value: T) -> Located<T> {
    Located {
        value,
        span: recipe::source::Span::default(),
    }
}

/// A rest moved into the refrigerator for so long, as a slab or in its bowl.
fn chilled(step: &mut Step, hours: f64, slab: bool) {
    if let Action::Rest {
        timing,
        place,
        vessel,
        thick,
        ..
    } = &mut step.action
    {
        timing.usual = new(Duration::from_hours(hours));
        timing.range = None;
        place.value = Standing::Refrigerator;
        if slab {
            "tray".clone_into(&mut vessel.value);
            *thick = Some(new(Length::from_centimetres(3.0)));
        } else {
            "bowl".clone_into(&mut vessel.value);
            *thick = None;
        }
    }
}

/// How large a dough is after a night in the refrigerator, against its start.
fn night(bench: &Bench<'_>, base: &Recipe, place: (usize, usize), hours: f64, slab: bool) -> f64 {
    let mut recipe = base.clone();
    let steps = &mut recipe.stages[place.0].steps;
    chilled(&mut steps[place.1], hours, slab);
    if let Some(until) = &mut steps[place.1].until {
        until.volume = None;
    }
    let number = recipe.steps_before(place.0) + place.1 + 1;
    let changed = bench.changed(recipe);
    let how = How {
        through: Through::Rises,
        ..bench.by_clock()
    };
    let course = bench.changed_in(&changed, bench.inputs.kitchen, &how);
    course
        .steps
        .iter()
        .find(|step| step.number == number)
        .map_or(1.0, |step| step.grown)
}

/// 14: overnight in the refrigerator.
pub fn overnight(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(place) = first_rise(bench) else {
        return reply.refuse("The dough of this recipe has no rise with a sign that can be measured, so nobody can say when a night would replace it.");
    };
    authors_own(bench, reply);
    let step = &bench.inputs.recipe.stages[place.0].steps[place.1];
    let wanted = step
        .until
        .as_ref()
        .and_then(|until| until.volume.as_ref())
        .map_or(2.0, |volume| volume.value);
    let fridge = reply.temperature("refrigerator", bench.inputs.kitchen.refrigerator, written());
    let sign = reply.multiple("sign", wanted, written());
    let recipe = bench.inputs.recipe;
    let mut grown = Vec::new();
    for (what, hours, slab) in [
        ("slab-8-h", 8.0, true),
        ("slab-12-h", 12.0, true),
        ("bowl-8-h", 8.0, false),
        ("bowl-12-h", 12.0, false),
    ] {
        let times = night(bench, recipe, place, hours, slab);
        grown.push((reply.multiple(what, times, followed()), times));
    }
    let straight =
        format!("pressed to a slab of 3 cm straight from the mixer and kept at {fridge}");
    let (slab, bowl) = (grown[1].1 - 1.0, grown[3].1 - 1.0);
    let gain = wanted - 1.0;
    // Past its sign by so much before anybody is up, the night is too long for this dough.
    let too_far = grown[0].1 - 1.0 > TOO_FAR * gain;
    if too_far {
        reply.say(format!(
            "Not with all of its yeast: {straight}, the dough is {} its size after 8 h and {} after 12 h, where {sign} is wanted.",
            grown[0].0, grown[1].0
        ));
    } else if slab >= 0.8 * gain {
        reply.say(format!(
            "Yes, {straight}: the night is the whole first rise, for the dough is {} its size after 8 h and {} after 12 h.",
            grown[0].0, grown[1].0
        ));
    } else {
        let share = reply.percent("slab-does", slab / gain, followed());
        reply.say(format!(
            "Yes, {straight}: 12 h do {share} of the first rise. Give the dough the rest at room temperature, before or after."
        ));
    }
    reply.more(format!(
        "As a slab the dough is {} its size after 8 h and {} after 12 h; left in its bowl, {} and {}. The recipe wants {sign}.",
        grown[0].0, grown[1].0, grown[2].0, grown[3].0
    ));
    if bowl > TOO_FAR * gain {
        let part = less_yeast(bench, place, gain);
        let yeast = bench.mass_of(|one| matches!(one.role, Role::Yeast(_)));
        let (is, was) = (
            reply.mass("yeast-for-a-bowl", yeast * part, followed()),
            reply.mass("yeast", yeast, written()),
        );
        reply.say(if too_far {
            format!("With {is} of yeast instead of {was} it comes to its sign in its bowl in 12 h.")
        } else {
            format!("In its bowl it cools slowly and goes too far: there take {is} of yeast instead of {was}.")
        });
    } else if slab < 0.8 * gain {
        reply.more("A bowl cools more slowly than a slab and gets further.");
    }
    reply.say("The last rise is over when the dough has warmed through and its sign is there.");
    reply.more("Shape it cold.");
    reply.rests("a handbook has yeast raise bread ten times as slowly in a refrigerator as in a warm room (McGee, On Food and Cooking, 2004, second-hand); the simulator, read on down to 2 °C, about nine times between 27 and 4 °C (docs/models/yeast-rate.md)");
}

/// A dough that has gained so many times what it should has gone too far (our choice).
const TOO_FAR: f64 = 1.3;

/// What the author says of making it ahead.
fn authors_own(bench: &Bench<'_>, reply: &mut Reply) {
    if let Some(own) = &bench.inputs.recipe.make_ahead {
        reply.more(format!("The author says: {}", own.value.trim()));
    }
}

/// The share of the yeast with which a bowl comes to its sign in 12 h, by halving.
fn less_yeast(bench: &Bench<'_>, place: (usize, usize), gain: f64) -> f64 {
    let (mut low, mut high) = (0.1, 1.0);
    for _ in 0..6 {
        let middle: f64 = f64::midpoint(low, high);
        let less = bench.with_amounts(|one| matches!(one.role, Role::Yeast(_)), middle);
        let grown = night(bench, &less.recipe, place, 12.0, false);
        if grown - 1.0 > gain {
            high = middle;
        } else {
            low = middle;
        }
    }
    f64::midpoint(low, high)
}

/// The place of a product's last rise.
fn last_rise(steps: &[Step]) -> Option<usize> {
    steps.iter().rposition(|step| {
        matches!(step.action, Action::Rest { .. })
            && step
                .until
                .as_ref()
                .is_some_and(|until| until.volume.is_some() || until.height.is_some())
    })
}

/// The recipe with every product's last rise begun by a night in the refrigerator.
fn shaped_overnight(recipe: &Recipe) -> Recipe {
    let mut changed = recipe.clone();
    for product in &mut changed.products {
        if let Some(last) = last_rise(&product.steps) {
            let mut cold = product.steps[last].clone();
            if let Action::Rest { timing, place, .. } = &mut cold.action {
                timing.usual = new(Duration::from_hours(8.0));
                timing.range = None;
                place.value = Standing::Refrigerator;
            }
            cold.until = None;
            product.steps.insert(last, cold);
        }
    }
    changed
}

/// A dough that has grown so far of what its last rise asks for has it, as nearly as an eye tells.
const NEARLY: f64 = 1.05;

/// The same with what is left of each last rise after the night, and how far each has grown by then.
fn after_the_night(bench: &Bench<'_>) -> (Changed, Vec<(String, f64, Option<f64>)>) {
    let cold = bench.changed(shaped_overnight(bench.inputs.recipe));
    let course = bench.changed_in(&cold, bench.inputs.kitchen, &bench.how());
    let mut recipe = cold.recipe;
    let mut number = recipe.steps_before(recipe.stages.len());
    let mut grown = Vec::new();
    for product in &mut recipe.products {
        if let Some(last) = last_rise(&product.steps) {
            // The night stands before it.
            let night = number + last;
            let steps = course.steps.iter();
            let mut steps = steps.filter(|step| step.number == night);
            let times = steps.next().map_or(1.0, |step| step.grown);
            let until = product.steps[last].until.as_mut();
            let volume = until.and_then(|until| until.volume.as_mut());
            let wanted = volume.as_ref().map(|volume| volume.value);
            if let Some(volume) = volume {
                volume.value = (volume.value / times).max(1.01);
            }
            grown.push((product.name.value.clone(), times, wanted));
        }
        number += product.steps.len();
    }
    (bench.changed(recipe), grown)
}

/// "06:05".
fn clock(time: Duration) -> String {
    let minutes = round_to(time.minutes(), 5.0).rem_euclid(1440.0);
    let hours = (minutes / 60.0).floor();
    format!(
        "{:0>2}:{:0>2}",
        fixed(hours, 0),
        fixed(minutes - hours * 60.0, 0)
    )
}

/// 40: fresh for breakfast.
pub fn for_breakfast(bench: &Bench<'_>, reply: &mut Reply) {
    let serve = bench.facts.serve_at.unwrap_or(Duration::from_hours(8.0));
    let (cold, grown) = after_the_night(bench);
    if grown.is_empty() {
        return reply.refuse("No product of this recipe has a last rise with a sign that can be measured, so nobody can count back from the table.");
    }
    let course = bench.changed_in(&cold, bench.inputs.kitchen, &bench.how());
    let timed = bench.timed(&cold.recipe, &course);
    authors_own(bench, reply);
    let when = reply.put(
        "serve-at",
        serve.si(),
        Duration::SI,
        clock(serve),
        written(),
    );
    reply.say(format!("To serve at {when}, shape the evening before and let the pieces stand 8 h in the refrigerator, covered."));
    let (mut told, mut earliest) = (Vec::new(), Duration::from_hours(24.0));
    for (name, times, wanted) in &grown {
        let find = |what: What| {
            let mut own = timed.iter();
            own.find(|one| one.stretch.what == what && one.stretch.of == *name)
        };
        let (Some(rise), Some(bake)) = (find(What::LastRise), find(What::Bake)) else {
            continue;
        };
        let product = bench.inputs.recipe.products.iter();
        let mut product = product.filter(|product| product.name.value == *name);
        let cools: Duration = product
            .next()
            .into_iter()
            .flat_map(|product| &product.steps)
            .filter_map(|step| match &step.action {
                Action::Cool { timing, .. } => Some(timing.usual.value),
                _ => None,
            })
            .sum();
        let ready = wanted.map_or(rise.there.minutes() < 1.0, |wanted| {
            *times * NEARLY >= wanted
        });
        let rises = if ready { Duration::ZERO } else { rise.there };
        let out = serve - cools - bake.there - rises;
        if out < earliest {
            earliest = out;
        }
        let moment = clock(out);
        let shown = reply.put(
            &format!("out {name}"),
            out.si(),
            Duration::SI,
            moment,
            super::reply::reckoned(),
        );
        let cooling = reply.time(&format!("cools {name}"), cools, written());
        let baking = reply.stretch(bake, "breakfast");
        if ready {
            told.push(format!("{name} into the oven straight from the cold at {shown}, risen there (bake {baking}, cooling {cooling})"));
        } else {
            let minutes = reply.stretch(rise, "from-cold");
            told.push(format!("{name} out of the refrigerator at {shown} (last rise {minutes}, bake {baking}, cooling {cooling})"));
        }
    }
    let main = bench.main().map(|product| product.name.value.as_str());
    let own = grown.iter().position(|one| Some(one.0.as_str()) == main);
    if let Some(words) = own.and_then(|place| told.get(place)).or(told.first()) {
        reply.say(format!("{}.", say::capital(words)));
    }
    if told.len() > 1 {
        reply.more(format!("All of them: {}.", told.join("; ")));
    }
    let past: Vec<String> = grown
        .iter()
        .filter_map(|(name, times, wanted)| {
            let wanted = (*wanted)?;
            (*times > wanted * 1.15).then(|| {
                let is = reply.multiple(&format!("night {name}"), *times, followed());
                let sign = reply.multiple(&format!("sign {name}"), wanted, written());
                format!("{name} {is} its size where {sign} is wanted")
            })
        })
        .collect();
    if !past.is_empty() {
        reply.more(format!(
            "A night is too long for some in your kitchen ({}): shape them late, or take less yeast.",
            past.join(", ")
        ));
    }
    reply.say("A dent that fills slowly decides, not the clock.");
    reply.more("Bakers usually give a shaped dough 1 to 2 h out of the cold (common practice).");
    if earliest < Duration::from_hours(5.5) {
        let warm = reply.dial("refresh-at", at(150.0), habit());
        let minutes = reply.times_between("refresh", 8.0, 10.0, habit());
        reply.more(format!("What would have to come out before half past five is better baked the day before: refresh it {minutes} at {warm}."));
    }
}

/// Left out for hours.
pub fn left_out(bench: &Bench<'_>, reply: &mut Reply) {
    let time = bench.facts.left_out.unwrap_or(Duration::from_hours(6.0));
    let shown = reply.time("stands", time, written());
    let egg_or_milk = {
        let dough = &bench.inputs.formula.dough;
        dough.egg_solids > Mass::ZERO || dough.milk_solids > Mass::ZERO
    };
    if let Some(place) = first_rise(bench) {
        let mut recipe = bench.inputs.recipe.clone();
        let step = &mut recipe.stages[place.0].steps[place.1];
        if let Action::Rest {
            timing,
            place: stands,
            ..
        } = &mut step.action
        {
            timing.usual = new(time);
            timing.range = None;
            stands.value = Standing::Room;
        }
        let number = recipe.steps_before(place.0) + place.1 + 1;
        let changed = bench.changed(recipe);
        let how = How {
            follows: Follows::Clock,
            through: Through::Rises,
            ..bench.how()
        };
        let course = bench.changed_in(&changed, bench.inputs.kitchen, &how);
        let room = reply.temperature("room", bench.inputs.kitchen.room, written());
        if let Some(step) = course.steps.iter().find(|step| step.number == number) {
            let grown = reply.multiple("grown", step.grown, followed());
            let falls = step
                .events
                .iter()
                .find(|event| event.what == Happening::PastItsBest);
            reply.say(format!(
                "After {shown} in a room of {room} the dough is {grown} its size."
            ));
            if let Some(event) = falls {
                let after = Duration::from_minutes(round_to(event.after.minutes(), 5.0));
                let after = reply.time("falls-after", after, followed());
                reply.more(format!("It is past its best after {after}."));
            }
        }
    }
    if egg_or_milk {
        let band = reply.band(
            "not-between",
            4.0,
            60.0,
            quoted("the two-hour rule of food-safety pages, 40 to 140 °F"),
        );
        reply.say(format!(
            "Raw egg and milk should stand no longer than 2 h in all between {band}; your local food code decides."
        ));
        reply.say("After longer it is nothing for small children, pregnant, old or ill people.");
        reply.more("Bakers often let such doughs rise longer, and the bake then heats them through (common practice); that is no proof that it is safe.");
    } else {
        reply.say("Flour, water, salt and yeast may stand: the dough grows sour, and its smell and its size decide. Do not taste it raw, for flour is raw.");
        reply.rests(
            "raw flour is not made to be eaten unbaked: food-safety authorities (from memory)",
        );
    }
    if bench.facts.left_out.is_none() {
        reply.rests("6 h taken, where nothing is said of the time");
    }
}
