//! In what state something goes in: melted, soft, at room temperature, cold from the refrigerator.

mod around;
mod asked;
mod cold_scales;
mod cue;
mod last;
mod rack;
mod said;
mod scales;
mod signs;
mod soak;
mod words;

use super::code;
use super::finding::{Finding, Kind, Value};
use super::heard::Heard;
use super::track::Track;
use crate::ledger::say;
use recipe::document::model::{Item, Store};
use recipe::formula::Resolved;
use recipe::larder::Role;
use recipe::source::Span;

/// How warm a state is, from cold to boiling; melted fat stands apart.
#[derive(Clone, Copy, Debug, PartialEq)]
enum State {
    /// From 0, cold, to 5, boiling.
    Warmth(f64),
    /// Melted.
    Melted,
}

const COLD: f64 = 0.0;
const COOL: f64 = 1.0;
const ROOM: f64 = 2.0;
const WARM: f64 = 3.0;
const HOT: f64 = 4.0;
const BOILING: f64 = 5.0;

/// States farther apart than this differ.
const APART: f64 = 1.4;

/// The state that a word says.
fn of_word(lower: &str) -> Option<State> {
    Some(match lower {
        "cold" | "chilled" | "icy" | "iced" | "fridge-cold" | "ice-cold" => State::Warmth(COLD),
        "cool" => State::Warmth(COOL),
        "soft" | "softened" | "pliable" | "spreadable" | "squishy" | "squashy" => {
            State::Warmth(ROOM)
        }
        "warm" | "warmed" | "lukewarm" | "tepid" => State::Warmth(WARM),
        "hot" | "steaming" | "steams" => State::Warmth(HOT),
        "boiling" | "scalding" | "scalded" => State::Warmth(BOILING),
        "melted" | "melting" | "melt" | "liquid" | "runny" | "browned" | "molten" => State::Melted,
        _ => return None,
    })
}

/// The state in which the recipe takes an item; none when it says nothing.
fn written(item: &Item) -> Option<State> {
    if let Some(state) = &item.state {
        let lower = state.value.to_lowercase();
        let words: Vec<&str> = lower.split(|c: char| !c.is_alphabetic()).collect();
        if words.iter().any(|word| word.starts_with("melt")) {
            return Some(State::Melted);
        }
        let warmths: Vec<f64> = words
            .iter()
            .filter_map(|word| match of_word(word) {
                Some(State::Warmth(warmth)) => Some(warmth),
                _ => None,
            })
            .collect();
        if !warmths.is_empty() {
            let many = f64::from(u32::try_from(warmths.len()).unwrap_or(1));
            return Some(State::Warmth(warmths.iter().sum::<f64>() / many));
        }
    }
    if let Some(at) = &item.at {
        return Some(State::Warmth(match at.value.celsius() {
            c if c <= 9.0 => COLD,
            c if c <= 15.5 => COOL,
            c if c <= 19.0 => 1.5,
            c if c <= 27.0 => ROOM,
            c if c <= 43.0 => WARM,
            c if c <= 47.0 => 3.5,
            c if c <= 80.0 => HOT,
            _ => BOILING,
        }));
    }
    match item.from.as_ref()?.value {
        Store::Refrigerator => Some(State::Warmth(COLD)),
        Store::Room => Some(State::Warmth(ROOM)),
        Store::Tap => Some(State::Warmth(COOL)),
    }
}

/// Words after which a state is a condition, a wish or the past.
const UNLESS: [&str; 22] = [
    "if",
    "when",
    "unless",
    "until",
    "till",
    "would",
    "too",
    "isn't",
    "not",
    "never",
    "don't",
    "no",
    "once",
    "without",
    "before",
    "instead",
    "than",
    "gets",
    "starts",
    "won't",
    "doesn't",
    "shouldn't",
];

/// A state said of an ingredient.
struct Said {
    thing: usize,
    state: State,
    span: Span,
    sentence: usize,
}

/// States that differ from the recipe's.
pub(super) fn states(heard: &Heard, track: &Track) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    for said in said::said(heard) {
        let Some((section, item)) = likeliest(heard, &said) else {
            continue;
        };
        let Some(own) = written(item) else { continue };
        if agree(said.state, own) {
            continue;
        }
        let shown = shown(item);
        let stage = &heard.inputs.recipe.stages[section].name.value;
        let words = heard.speech.slice(said.span).to_owned();
        let message = format!(
            "you say “{words}”; the recipe takes the {} for the {stage} {shown}.",
            item.called()
        );
        let instead = format!("The {} goes in {shown}.", item.called());
        let finding = Finding::at(
            heard,
            track,
            Kind::State,
            code::TALK_STATE_DIFFERS,
            said.span,
            &message,
        )
        .values(
            Value {
                value: None,
                unit: "",
                shown: words,
            },
            Value {
                value: item.at.as_ref().map(|at| at.value.si()),
                unit: "K",
                shown,
            },
        )
        .instead(Some(instead));
        found.push(finding);
    }
    found.extend(soak::dry(heard, track));
    found.extend(around::states(heard, track));
    found.extend(rack::racks(heard, track));
    found.extend(rack::hot_stages(heard, track));
    found.extend(signs::signs(heard, track));
    found.dedup_by(|a, b| a.cue == b.cue && a.words == b.words);
    found
}

/// How the recipe says it: its own words, or the temperature.
fn shown(item: &Item) -> String {
    match (&item.state, &item.at, &item.from) {
        (Some(state), _, _) => state.value.clone(),
        (None, Some(at), _) => format!("at {}", say::temperature(at.value)),
        (None, None, Some(from)) => match from.value {
            Store::Room => "at room temperature".to_owned(),
            Store::Refrigerator => "cold from the refrigerator".to_owned(),
            Store::Tap => "cold from the tap".to_owned(),
        },
        (None, None, None) => "as it is".to_owned(),
    }
}

fn agree(said: State, written: State) -> bool {
    match (said, written) {
        (State::Melted, State::Melted) => true,
        // Warm or hot butter is melted butter.
        (State::Melted, State::Warmth(warmth)) | (State::Warmth(warmth), State::Melted) => {
            warmth >= WARM
        }
        (State::Warmth(a), State::Warmth(b)) => (a - b).abs() < APART,
    }
}

/// The item of a stage that is likeliest meant, only where its state matters: fats, liquids and eggs.
fn likeliest<'a>(heard: &'a Heard, said: &Said) -> Option<(usize, &'a Item)> {
    let own = heard.things[said.thing].ingredient.as_ref()?;
    if !matches!(own.role, Role::Fat | Role::Liquid | Role::Egg) {
        return None;
    }
    let recipe = heard.inputs.recipe;
    let here = heard.aligned[said.sentence].0;
    let section = heard.places.get(here).map(|place| place.section);
    let items = recipe
        .stages
        .iter()
        .zip(&heard.inputs.formula.stages)
        .enumerate()
        .flat_map(|(at, (stage, sum))| {
            stage
                .items
                .iter()
                .zip(&sum.items)
                .filter(|(_, resolved)| matches!(&resolved.what, Resolved::Ingredient(known) if known.key == own.key))
                .map(move |(item, _)| (at, item))
        })
        .collect::<Vec<_>>();
    // Where several stages take it, any that agrees near the place is good.
    let near = |at: usize| section.is_some_and(|section| section == at);
    let candidates: Vec<_> = items.iter().filter(|(at, _)| near(*at)).collect();
    let pool: Vec<_> = if candidates.is_empty() {
        items.iter().collect()
    } else {
        candidates
    };
    let agreeing = pool
        .iter()
        .find(|(_, item)| written(item).is_none_or(|own| agree(said.state, own)));
    agreeing
        .or_else(|| pool.first())
        .map(|(at, item)| (*at, *item))
}
