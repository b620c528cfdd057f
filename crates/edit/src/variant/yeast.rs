//! One form of yeast for another: its mass, its water, and the step that wakes it or no longer need.

use super::draft::{At, Draft, new, plain_item};
use super::exchange::become_other;
use super::lever::{Placed, is_watery, levers};
use super::sentence;
use super::wish::Coming;
use crate::code;
use crate::ledger::say;
use numerics::quantity::{Duration, Mass, Range, Temperature};
use recipe::document::model::{Action, Amount, Item, Material, Step, Timing, Until};
use recipe::larder::{Role, YeastForm};
use recipe::source::{Diagnostic, Span};
use recipe::substitution::{Component, WAKES_IN_RANGE, parts, waking_liquid};

/// Words by which sentences speak of yeast that was woken in a step before.
const WOKEN: [&str; 5] = [
    "the woken yeast",
    "the foaming yeast",
    "the yeast mixture",
    "the yeast milk",
    "the yeast water",
];

/// Swaps the yeast of one item.
pub fn swap(draft: &mut Draft, at: At, coming: &Coming) -> Result<(), Box<Diagnostic>> {
    let At::Stage(stage, _) = at else {
        return Ok(());
    };
    let (Some(old), Some(mass)) = (draft.ingredient(at), draft.mass(at)) else {
        return Ok(());
    };
    let (Role::Yeast(from), Role::Yeast(to)) = (old.role, coming.ingredient.role) else {
        return Ok(());
    };
    let amount = super::draft::weighed(from.swapped_for(mass, to));
    let woken = draft.recipe.stages[stage].steps.iter().position(|step| {
        matches!(&step.action, Action::Wake { yeast, .. } if yeast.value == draft.item(at).called())
    });
    let wakes_now = to == YeastForm::ActiveDry;
    if wakes_now && woken.is_none() && liquid_of(draft, stage).is_none() {
        return Err(Diagnostic::whole(
            code::SWAP_WITHOUT_LIQUID,
            format!(
                "Active dry yeast wakes in {}–{} times its mass of warm liquid, and the {} has no \
                 liquid of its own to give.",
                WAKES_IN_RANGE.low, WAKES_IN_RANGE.high, draft.recipe.stages[stage].name.value
            ),
        )
        .hint("Instant yeast goes into the flour and needs no liquid.")
        .into());
    }
    let water_before = parts(old, mass).of(Component::Water);
    become_other(draft, at, old, coming, Amount::Mass(amount));
    let water = parts(coming.ingredient, amount).of(Component::Water) - water_before;
    if let (Some(step), false) = (woken, wakes_now) {
        sleep(draft, at, step, to);
    }
    take_water(draft, stage, water);
    match (woken, wakes_now) {
        (None, true) => {
            // The liquid that goes may have moved it.
            let called = yeast_name(draft, stage);
            let items = &draft.recipe.stages[stage].items;
            if let Some(i) = items.iter().position(|item| item.called() == called) {
                wake(draft, At::Stage(stage, i), amount);
            }
        }
        (None, false) if from == YeastForm::Fresh || to == YeastForm::Fresh => crumb(draft, at, to),
        _ => {}
    }
    Ok(())
}

/// The largest liquid of a stage that does not wake yeast.
fn liquid_of<'a>(draft: &Draft<'a>, stage: usize) -> Option<Placed<'a>> {
    levers(draft, stage, &[])
        .into_iter()
        .find(|one| one.moves == Component::Water && super::lever::stands_in(one, stage))
}

/// Takes water that the yeast brings out of the liquid, or gives back what it no longer brings.
fn take_water(draft: &mut Draft, stage: usize, water: Mass) {
    let flour = draft.formula().dough.flour;
    if water.abs() < flour * Component::Water.not_worth_weighing() {
        return;
    }
    let lever = levers(draft, stage, &[])
        .into_iter()
        .find(|one| one.moves == Component::Water);
    let Some(lever) = lever else {
        let said = format!(
            "The yeast brings {} of water, and there is no liquid to take it from.",
            say::mass(water)
        );
        draft.said.push(said);
        return;
    };
    let each = lever
        .ingredient
        .composition
        .water
        .map_or(1.0, numerics::quantity::Fraction::si);
    let left = lever.mass - water / each;
    draft.take_mass(lever.at, Mass::from_grams(left.grams().max(1.0)));
}

/// A wake step goes: its liquid joins the rest, its yeast goes into the flour or the liquid.
fn sleep(draft: &mut Draft, at: At, step: usize, to: YeastForm) {
    let At::Stage(s, _) = at else { return };
    let Action::Wake { liquid, .. } = &draft.recipe.stages[s].steps[step].action else {
        return;
    };
    let liquid = liquid.value.clone();
    let gone = draft.recipe.stages[s].steps.remove(step);
    draft.changed(
        format!("{}: waking the yeast", draft.recipe.stages[s].name.value),
        say_sentence(&gone),
        "",
    );
    let place = |draft: &Draft, name: &str| {
        let items = &draft.recipe.stages[s].items;
        items.iter().position(|item| item.called() == name)
    };
    if let Some(waking) = place(draft, &liquid) {
        let waking = At::Stage(s, waking);
        let before = draft.recipe.stages[s].items.len();
        let (what, shown) = (draft.whose(waking), draft.shown(waking));
        super::exchange::merge_alike(draft, waking);
        if draft.recipe.stages[s].items.len() < before {
            draft.changed(what, shown, "");
        }
        if draft.recipe.stages[s].items.len() == before {
            // No other liquid like it: it goes into the next mix under its own name.
            stand_alone(draft, waking, &liquid, to);
        }
    }
    let called = yeast_name(draft, s);
    put_yeast(draft, s, &called, to);
    begin_anew(draft, s, step);
}

/// How the yeast of a stage is called.
fn yeast_name(draft: &Draft, s: usize) -> String {
    let items = &draft.recipe.stages[s].items;
    let yeast = |item: &&Item| {
        super::draft::ingredient(draft.larder, item)
            .is_some_and(|one| matches!(one.role, Role::Yeast(_)))
    };
    items
        .iter()
        .find(yeast)
        .map_or_else(|| "yeast".to_owned(), |item| item.called().to_owned())
}

/// A liquid that only woke the yeast goes into the next mix.
fn stand_alone(draft: &mut Draft, at: At, liquid: &str, to: YeastForm) {
    let At::Stage(s, _) = at else { return };
    let plain = liquid.rsplit(' ').next().unwrap_or(liquid).to_owned();
    let name = draft.free_name(at, &plain);
    draft.call(at, &name);
    // Hot enough to wake yeast in a cold cup is too hot to pour on it.
    let pours_at = if to == YeastForm::Fresh { 30.0 } else { 38.0 };
    let item = draft.item_mut(at);
    if item
        .at
        .as_ref()
        .is_some_and(|at| at.value.celsius() > pours_at)
    {
        item.at = Some(new(Temperature::from_celsius(pours_at)));
    }
    let warm = if item.at.is_some() {
        format!("[{name}] at [{name} temperature]")
    } else {
        format!("[{name}]")
    };
    let steps = &mut draft.recipe.stages[s].steps;
    if steps
        .iter()
        .any(|step| sentence::uses(&step.text.value, &name))
    {
        return;
    }
    for step in steps {
        if let Action::Mix { .. } = step.action {
            let flour = first_flour(&step.text.value);
            let put = flour.and_then(|flour| sentence::put_beside(&step.text.value, &flour, &warm));
            step.text.value = put.unwrap_or_else(|| format!("Add {warm}. {}", step.text.value));
            return;
        }
    }
}

/// The first thing called flour that a sentence uses.
fn first_flour(text: &str) -> Option<String> {
    let pieces = recipe::document::parse_sentence(text, 0).0;
    pieces.into_iter().find_map(|piece| match piece.value {
        recipe::document::Piece::Use { item, .. } if item.ends_with("flour") => Some(item),
        _ => None,
    })
}

/// Puts yeast that no step wakes into the first mix: into the flour, or crumbled into the liquid.
fn put_yeast(draft: &mut Draft, s: usize, called: &str, to: YeastForm) {
    let bracket = format!("[{called}]");
    let liquids: Vec<String> = draft.recipe.stages[s]
        .items
        .iter()
        .filter(|item| super::draft::ingredient(draft.larder, item).is_some_and(is_watery))
        .map(|item| item.called().to_owned())
        .collect();
    let steps = &mut draft.recipe.stages[s].steps;
    for step in steps.iter_mut() {
        for words in WOKEN {
            if sentence::find_word(&sentence::plain(&step.text.value), words).is_some() {
                step.text.value = sentence::replace_words(&step.text.value, words, &bracket);
                return;
            }
        }
    }
    for step in steps.iter_mut() {
        let Action::Mix { .. } = step.action else {
            continue;
        };
        let text = &step.text.value;
        let fresh = to == YeastForm::Fresh;
        let liquid = liquids.iter().find(|name| sentence::uses(text, name));
        let put = match (liquid, first_flour(text)) {
            (Some(liquid), _) if fresh => {
                let words = format!("{bracket} crumbled into [{liquid}]");
                sentence::put_instead(text, liquid, &words)
            }
            (_, Some(flour)) => {
                let words = if fresh { " with " } else { " mixed with " };
                let rubbed = if fresh { " rubbed in" } else { "" };
                sentence::put_behind(text, &flour, &format!("{words}{bracket}{rubbed}"))
            }
            _ => None,
        };
        step.text.value = put.unwrap_or_else(|| format!("Add {bracket}. {text}"));
        return;
    }
}

/// A step that now is the first of its stage does not add to what was there.
fn begin_anew(draft: &mut Draft, s: usize, step: usize) {
    if step != 0 {
        return;
    }
    let Some(first) = draft.recipe.stages[s].steps.first_mut() else {
        return;
    };
    for (adds, begins) in [
        ("Beat in ", "Beat "),
        ("Stir in ", "Stir together "),
        ("Mix in ", "Mix together "),
        ("Add ", "Put together "),
    ] {
        if let Some(rest) = first.text.value.strip_prefix(adds) {
            first.text.value = format!("{begins}{rest}");
            return;
        }
    }
}

/// A wake step comes: part of the liquid is set aside for it, warm.
fn wake(draft: &mut Draft, at: At, yeast: Mass) {
    let At::Stage(s, _) = at else { return };
    let Some(lever) = liquid_of(draft, s) else {
        return;
    };
    let waking = waking_liquid(yeast);
    let called = draft.item(at).called().to_owned();
    let liquid = draft.item(lever.at).called().to_owned();
    // With little more than that, all of it is warmed.
    let all = lever.mass < waking * 2.2;
    let name = if all {
        liquid.clone()
    } else {
        draft.take_mass(lever.at, lever.mass - waking);
        let At::Stage(_, i) = lever.at else { return };
        let name = draft.free_name(lever.at, &format!("waking {liquid}"));
        let mut item = plain_item(&draft.item(lever.at).of.value, waking, &name);
        item.at = Some(new(Temperature::from_celsius(43.0)));
        let shown = format!("{} {}", say::mass(waking), item.of.value);
        draft.recipe.stages[s].items.insert(i, item);
        let what = format!("{}: {name}", draft.recipe.stages[s].name.value);
        draft.changed(what, "", shown);
        name
    };
    let first = draft.recipe.stages[s]
        .steps
        .iter()
        .position(|step| sentence::uses(&step.text.value, &called))
        .unwrap_or(0);
    for step in &mut draft.recipe.stages[s].steps {
        replace_use(&mut step.text.value, &called);
        if all && sentence::uses(&step.text.value, &liquid) {
            step.text.value = sentence::take_out(&step.text.value, &liquid);
        }
        if all
            && let Action::Mix { adjust, .. } = &mut step.action
            && adjust.as_ref().is_some_and(|name| name.value == liquid)
        {
            *adjust = None;
        }
    }
    if all {
        let place = draft.recipe.stages[s]
            .items
            .iter()
            .position(|item| item.called() == liquid);
        if let Some(i) = place {
            draft.recipe.stages[s].items[i].at = Some(new(Temperature::from_celsius(43.0)));
            draft.recipe.stages[s].items[i].from = None;
        }
    }
    let step = waking_step(&called, &name);
    let what = format!("{}: waking the yeast", draft.recipe.stages[s].name.value);
    draft.changed(what, "", say_sentence(&step));
    draft.recipe.stages[s].steps.insert(first, step);
}

/// The yeast that went in dry goes in woken.
fn replace_use(text: &mut String, called: &str) {
    if !sentence::uses(text, called) {
        return;
    }
    for words in [
        format!(" mixed with [{called}]"),
        format!(" with [{called}] rubbed in"),
        format!("[{called}] crumbled into "),
    ] {
        if text.contains(&words) {
            let woken = WOKEN[0];
            *text = if words.starts_with('[') {
                text.replace(&words, &format!("{woken}, "))
            } else {
                text.replace(&words, &format!(", {woken}"))
            };
            return;
        }
    }
    if let Some(put) = sentence::put_instead(text, called, WOKEN[0]) {
        *text = put;
    }
    // Several uses in one sentence: the others are names alone.
    *text = sentence::take_out(text, called);
    *text = say::capital(text);
}

/// The step that wakes yeast.
fn waking_step(yeast: &str, liquid: &str) -> Step {
    let minutes = |value| Duration::from_minutes(value);
    Step {
        text: new(format!(
            "Stir [{yeast}] into [{liquid}], warmed to [{liquid} temperature], in a plastic \
             beaker. Wait until it foams."
        )),
        action: Action::Wake {
            yeast: new(yeast.to_owned()),
            liquid: new(liquid.to_owned()),
            vessel: new(Material::Plastic),
            timing: Timing {
                usual: new(minutes(8.0)),
                range: Some(new(Range {
                    low: minutes(5.0),
                    high: minutes(10.0),
                })),
            },
        },
        until: Some(Until {
            see: Some(new("a layer of foam".to_owned())),
            volume: None,
            height: None,
            core: None,
            dough: None,
            span: Span::default(),
        }),
        span: Span::default(),
    }
}

/// Yeast that is crumbled into the liquid, or no longer.
fn crumb(draft: &mut Draft, at: At, to: YeastForm) {
    let At::Stage(s, _) = at else { return };
    let called = draft.item(at).called().to_owned();
    let crumbled = format!("[{called}] crumbled into ");
    for step in &mut draft.recipe.stages[s].steps {
        let text = &mut step.text.value;
        if to != YeastForm::Fresh && text.contains(&crumbled) {
            *text = text.replace(&crumbled, &format!("[{called}] and "));
        }
        let rubbed = format!("[{called}] rubbed in");
        if to != YeastForm::Fresh {
            *text = text.replace(&rubbed, &format!("[{called}]"));
        }
        if to == YeastForm::Fresh && sentence::uses(text, &called) && !text.contains("crumbled") {
            if let Some(put) = sentence::put_behind(text, &called, ", crumbled,") {
                *text = put.replace(", crumbled,,", ", crumbled,");
                *text = text.replace(", crumbled,.", ", crumbled.");
            }
        } else if to != YeastForm::Fresh {
            *text = text.replace(&format!("[{called}], crumbled, "), &format!("[{called}] "));
            *text = text.replace(&format!("[{called}], crumbled."), &format!("[{called}]."));
        }
    }
}

/// A step's sentence without its brackets.
fn say_sentence(step: &Step) -> String {
    step.text.value.replace(['[', ']'], "")
}
