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
        "The recipe mixes {total} in all: {}. Minutes are a start; the signs decide.",
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
        reply.say(format!("The probe: as written it ends at {shown} in your kitchen{want}; well above that it has been worked too long."));
    }
    reply.say("The film: a walnut of dough, rested a minute, stretches until light comes through before it tears (common practice).");
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
        told.push(format!(
            "{} {sign}, about {time} in your kitchen",
            one.name()
        ));
    }
    let piece = reply.mass("piece", Mass::from_grams(20.0), habit());
    reply.say(format!(
        "Put {piece} of the dough in a small straight glass beside the bowl and mark where it must come to: {}.",
        told.join("; ")
    ));
    if rises.iter().any(|one| one.stretch.what == What::LastRise) {
        reply.say("At the last rise press a floured finger in: the dent fills slowly and not wholly when it is ready, at once when it needs longer, not at all when it has gone too far (common practice).");
    }
    reply.say("The clock only says when to look.");
}

/// Why the salt does not go in last.
pub fn salt_last(bench: &Bench<'_>, reply: &mut Reply) {
    let salt = bench.mass_of(|one| one.role == Role::Salt);
    if salt <= Mass::ZERO {
        return reply.say("No salt is weighed into this dough.");
    }
    let share = reply.percent("salt", bench.of_flour(salt), here());
    reply.say(format!(
        "Salt at {share} of the flour does not kill yeast; only dry salt lying on wet yeast harms it. Put in with the flour it is spread evenly and cannot be forgotten."
    ));
    let without = bench.with_amounts(|one| one.role == Role::Salt, 1e-6);
    let kitchen = bench.inputs.kitchen;
    let how = bench.how();
    let before = bench.own_timed(&bench.in_kitchen(kitchen, &how));
    let after = bench.timed(&without.recipe, &bench.changed_in(&without, kitchen, &how));
    let rises: Vec<_> = after
        .into_iter()
        .filter(super::bench::Timed::rises)
        .collect();
    match reply.against(&rises, &before, "forgotten") {
        Some(moved) => reply.say(format!(
            "Forgotten, the dough is slack, bland and quick: {moved}."
        )),
        None => reply.say("Forgotten, the dough is slack and bland; its rises are hardly quicker."),
    }
    reply.say("Bakers who add it late want the flour to take up water first; it must then be kneaded in for 3–5 min (common practice).");
}
