//! Answers about signs: kneaded, risen, and when the salt goes in.

use super::Bench;
use super::reply::{Reply, followed, habit, here, written};
use crate::ledger::say;
use crate::stretch::What;
use numerics::quantity::{Duration, Mass};
use recipe::document::model::{Action, Speed, Tool};
use recipe::larder::Role;

/// 30: kneaded.
pub fn kneaded(bench: &Bench<'_>, reply: &mut Reply) {
    let Some(product) = bench.main() else {
        return reply.refuse("Nothing is baked in this recipe.");
    };
    let Some(place) = bench.stage_of(product) else {
        return reply.refuse("It is not said from which dough it is cut.");
    };
    let mut parts: Vec<(Tool, Speed, Duration)> = Vec::new();
    let mut cue = None;
    let mut wanted = None;
    for step in &bench.inputs.recipe.stages[place].steps {
        let Action::Mix {
            by, phases, dough, ..
        } = &step.action
        else {
            continue;
        };
        for phase in phases {
            let own = (by.value, phase.speed.value);
            let time = phase.timing.usual.value;
            match parts.iter_mut().find(|one| (one.0, one.1) == own) {
                Some(one) => one.2 += time,
                None => parts.push((own.0, own.1, time)),
            }
        }
        cue = step
            .until
            .as_ref()
            .and_then(|until| until.see.as_ref())
            .map(|see| see.value.clone())
            .or(cue);
        wanted = dough.as_ref().map(|dough| dough.value).or(wanted);
    }
    let all: Duration = parts.iter().map(|(_, _, time)| *time).sum();
    let total = reply.time("mixing", all, written());
    let told: Vec<String> = parts
        .iter()
        .map(|(tool, speed, time)| {
            let shown = reply.time(
                &format!("{} {}", tool.word(), speed.word()),
                *time,
                written(),
            );
            match tool {
                Tool::Mixer => format!("{shown} at {} speed", speed.word()),
                Tool::Hand => format!("{shown} by hand"),
                Tool::Spoon => format!("{shown} with a spoon"),
            }
        })
        .collect();
    reply.say(format!(
        "Mix {total} in all ({}), then go by the dough: flours and mixers differ.",
        say::list(&told)
    ));
    if let Some(cue) = cue {
        reply.say(format!("The author’s sign: {}.", cue.trim_end_matches('.')));
    }
    let course = bench.in_kitchen(bench.inputs.kitchen, &bench.how());
    if let Some(at) = bench.dough_of(&course, product) {
        let shown = reply.temperature("dough", at, followed());
        let want = wanted.map_or_else(String::new, |wanted| {
            format!(", and {} is wanted", say::temperature_range(wanted))
        });
        reply.more(format!("The probe: as written it ends at {shown} in your kitchen{want}; well above that it has been worked too long."));
    }
    reply.say("The film decides: a walnut of dough, rested a minute, lets light through before it tears (common practice).");
}

/// 31: risen.
pub fn risen(bench: &Bench<'_>, reply: &mut Reply) {
    let course = bench.in_kitchen(bench.inputs.kitchen, &bench.how());
    let timed = bench.own_timed(&course);
    let rises: Vec<_> = timed.iter().filter(|one| one.rises()).collect();
    if rises.is_empty() {
        return reply.refuse("No rise of this recipe has a sign that can be measured; go by what its author says to look for.");
    }
    let steps = crate::ledger::happens::every_step(bench.inputs.recipe);
    let mut told = Vec::new();
    let mut mine = None;
    for one in &rises {
        let time = reply.stretch(one, "here");
        let volume = steps
            .get(one.stretch.number - 1)
            .and_then(|written| written.step.until.as_ref())
            .and_then(|until| until.volume.as_ref())
            .map(|volume| volume.value);
        let sign = match volume {
            Some(volume) => {
                let what = format!("sign {}", one.name());
                let shown = reply.multiple(&what, volume, written());
                format!("{shown} its size")
            }
            None => "its mark below the rim".to_owned(),
        };
        let words = format!("{} {sign}, about {time} in your kitchen", one.name());
        let of_main = bench.main().is_some_and(|product| {
            let (of, from) = (&one.stretch.of, &product.from.value);
            one.stretch.what == What::Rise && of.eq_ignore_ascii_case(from)
        });
        if of_main || mine.is_none() {
            mine = Some(words.clone());
        }
        told.push(words);
    }
    let piece = reply.mass("piece", Mass::from_grams(20.0), habit());
    reply.say(format!(
        "Put {piece} of the dough in a small straight glass beside the bowl and mark where it must come to: {}.",
        mine.unwrap_or_default()
    ));
    reply.say("The mark decides, for the clock knows nothing of your room.");
    if told.len() > 1 {
        reply.more(format!("Every rise: {}.", told.join("; ")));
    }
    if rises.iter().any(|one| one.stretch.what == What::LastRise) {
        reply.say("At the last rise press a floured finger in: the dent fills slowly and not wholly when it is ready (common practice).");
        reply.more("It fills at once when the dough needs longer, and not at all when it has gone too far.");
    }
}

/// Why the salt does not go in last.
pub fn salt_last(bench: &Bench<'_>, reply: &mut Reply) {
    let salt = bench.mass_of(|one| one.role == Role::Salt);
    if salt <= Mass::ZERO {
        return reply.say("No salt is weighed into this dough.");
    }
    let share = reply.percent("salt", bench.of_flour(salt), here());
    reply.say(format!(
        "Put it in with the flour: there it is spread evenly and cannot be forgotten. At {share} of the flour it does not kill yeast; only dry salt lying on wet yeast harms it."
    ));
    let without = bench.with_amounts(|one| one.role == Role::Salt, 1e-6);
    let kitchen = bench.inputs.kitchen;
    let how = bench.how();
    let before = bench.own_timed(&bench.in_kitchen(kitchen, &how));
    let after = bench.timed(&without.recipe, &bench.changed_in(&without, kitchen, &how));
    let rises: Vec<_> = after
        .into_iter()
        .filter(super::timed::Timed::rises)
        .collect();
    match reply.against(&rises, &before, "forgotten") {
        Some(moved) => {
            reply.say(format!(
                "Forgotten, the dough is slack, bland and quick: {}.",
                moved.most
            ));
            reply.all_moved(&moved, "Without salt");
        }
        None => reply.say("Forgotten, the dough is slack and bland; its rises are hardly quicker."),
    }
    reply.more("Bakers who add it late want the flour to take up water first; it must then be kneaded in for 3–5 min (common practice).");
}
