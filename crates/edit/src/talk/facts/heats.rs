//! How warm: dials, probes, doughs, places, and what goes in.

use super::{Fact, Fine, LATER, Place, Sort, doing_there, in_words, of_section, rises};
use crate::Inputs;
use crate::ledger::say;
use crate::talk::doing::Doing;
use crate::talk::things::Thing;
use numerics::quantity::{Range, Temperature};
use recipe::document::model::{Action, Standing};
use recipe::formula::Resolved;
use recipe::measure::spoken::Meant;

/// Every temperature that can be said.
pub(super) fn heats(inputs: &Inputs, things: &[Thing], places: &[Place]) -> Vec<Fact> {
    let mut all = of_items(inputs, things, places);
    for place in places {
        all.extend(of_step(place));
        all.extend(in_sentence(place));
    }
    all.extend(stored(inputs));
    all
}

/// A temperature as a fact.
fn heat(at: Temperature, what: String, fine: Fine) -> Fact {
    let shown = match fine {
        Fine::Dial => say::oven(at),
        _ => say::temperature(at),
    };
    let mut fact = Fact::new(Sort::Heat, at.si(), what, shown);
    fact.fine = fine;
    fact
}

/// Of what goes in.
fn of_items(inputs: &Inputs, things: &[Thing], places: &[Place]) -> Vec<Fact> {
    let mut all = Vec::new();
    for (section, (stage, sum)) in inputs
        .recipe
        .stages
        .iter()
        .zip(&inputs.formula.stages)
        .enumerate()
    {
        for (item, resolved) in stage.items.iter().zip(&sum.items) {
            let (Some(at), Resolved::Ingredient(own)) = (&item.at, &resolved.what) else {
                continue;
            };
            let what = format!("the {} in the {}", item.called(), stage.name.value);
            let mut fact = heat(at.value, what, Fine::Place);
            fact.section = Some(section);
            fact.thing = things.iter().position(|thing| {
                thing
                    .ingredient
                    .as_ref()
                    .is_some_and(|known| known.key == own.key)
            });
            fact.step = places
                .iter()
                .filter(|place| place.section == section)
                .find(|place| {
                    place
                        .step
                        .text
                        .value
                        .contains(&format!("[{}", item.called()))
                })
                .map(|place| place.number);
            fact.stems.extend(crate::talk::things::stems(item.called()));
            all.push(fact);
        }
    }
    all
}

/// Of a step.
fn of_step(place: &Place) -> Vec<Fact> {
    let of = of_section(place.of);
    let wait = if rises(place) { "rise" } else { "rest" };
    let mut all = Vec::new();
    match &place.step.action {
        Action::Heat { to, .. } => all.push(
            heat(
                to.value,
                format!("the end of the cooking {of}"),
                Fine::Probe,
            )
            .at(place, Doing::HEAT.and(Doing::CORE)),
        ),
        Action::Rest {
            at, place: where_, ..
        } => {
            let doing = match where_.value {
                Standing::Refrigerator => Doing::CHILL.and(Doing::REST),
                Standing::WarmPlace => Doing::WARM.and(Doing::REST),
                _ => Doing::REST,
            };
            let what = match where_.value {
                Standing::Refrigerator => format!("the refrigerator for the chill {of}"),
                Standing::WarmPlace => format!("the warm place for the rise {of}"),
                Standing::CoolPlace => format!("the cool place for the {wait} {of}"),
                Standing::Room => format!("the room for the {wait} {of}"),
            };
            let words = match where_.value {
                Standing::Room => "room counter kitchen",
                Standing::Refrigerator => "fridge",
                Standing::WarmPlace => "warm toasty",
                Standing::CoolPlace => "cool cellar pantry larder",
            };
            all.push(
                heat(at.value, what, Fine::Place)
                    .at(place, doing)
                    .with(words),
            );
        }
        Action::Mix {
            dough: Some(dough), ..
        } => {
            let Range { low, high } = dough.value;
            let middle = Temperature::from_si(f64::midpoint(low.si(), high.si()));
            let mut fact = heat(middle, format!("the dough after mixing {of}"), Fine::Probe)
                .at(place, Doing::DOUGH.and(Doing::MIX))
                .between(low.si(), high.si())
                .with("dough temperature");
            fact.shown = say::temperature_range(dough.value);
            all.push(fact);
        }
        Action::Preheat { to, .. } => all.push(
            heat(to.value, format!("the oven {of}"), Fine::Dial)
                .at(place, Doing::PREHEAT.and(Doing::OVEN).and(Doing::BAKE)),
        ),
        Action::Bake { phases, core, .. } => {
            for (at, phase) in phases.iter().enumerate() {
                if at > 0 && phases[at - 1].at.value == phase.at.value {
                    continue;
                }
                let what = if at == 0 {
                    format!("the oven {of}")
                } else {
                    format!("the oven {of}, {LATER}")
                };
                let mut fact = heat(phase.at.value, what, Fine::Dial)
                    .at(place, Doing::BAKE.and(Doing::OVEN).and(Doing::PREHEAT));
                if at > 0 {
                    fact = fact.with("down lower then turn");
                } else if phases.len() > 1 {
                    fact = fact.with("first start hot");
                }
                all.push(fact);
            }
            if let Some(core) = core {
                all.push(
                    heat(core.value, format!("the middle {of}"), Fine::Probe)
                        .at(place, Doing::CORE.and(Doing::BAKE))
                        .with("middle inside done"),
                );
            }
        }
        Action::Cool { at, .. } => all.push(
            heat(
                at.value,
                format!("the room for the cooling {of}"),
                Fine::Place,
            )
            .at(place, Doing::COOL)
            .allowed(),
        ),
        _ => {}
    }
    let until = place.step.until.as_ref();
    if let Some(dough) = until.and_then(|until| until.dough.as_ref()) {
        let known = matches!(place.step.action, Action::Heat { .. });
        let what = match place.step.action {
            Action::Cool { .. } => format!("the end of the cooling {of}"),
            Action::Rest { .. } => format!("the end of the {wait} {of}"),
            _ => format!("the end of the step {of}"),
        };
        let fact = heat(dough.value, what, Fine::Place)
            .at(place, place.doing.and(Doing::DOUGH).and(Doing::CORE));
        all.push(if known { fact.allowed() } else { fact });
    }
    if let Some(core) = until.and_then(|until| until.core.as_ref())
        && !matches!(place.step.action, Action::Bake { .. })
    {
        all.push(
            heat(
                core.value,
                format!("the middle {of} when cool"),
                Fine::Place,
            )
            .at(place, place.doing.and(Doing::CORE))
            .allowed(),
        );
    }
    all
}

/// In the author's sentence.
fn in_sentence(place: &Place) -> Vec<Fact> {
    let speech = in_words(&place.step.text.value);
    speech
        .figures
        .iter()
        .filter_map(|figure| {
            let Meant::Temperature(range) = figure.spoken.meant else {
                return None;
            };
            let doing = doing_there(&speech, figure.first).and(place.doing);
            let what = format!("a figure of step {}", place.number + 1);
            Some(
                heat(range.low, what, Fine::Place)
                    .at(place, doing)
                    .allowed(),
            )
        })
        .collect()
}

/// In what is said of keeping and of the day before.
fn stored(inputs: &Inputs) -> Vec<Fact> {
    let texts = [&inputs.recipe.storage, &inputs.recipe.make_ahead];
    let mut all = Vec::new();
    for text in texts.into_iter().flatten() {
        let speech = in_words(&text.value);
        for figure in &speech.figures {
            if let Meant::Temperature(range) = figure.spoken.meant {
                let doing = doing_there(&speech, figure.first).and(Doing::STORE);
                let mut fact = heat(range.low, "keeping".to_owned(), Fine::Place).allowed();
                fact.doing = doing;
                all.push(fact);
            }
        }
    }
    all
}
