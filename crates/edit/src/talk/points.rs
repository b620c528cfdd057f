//! Where on the recipe's road a deed or an event stands: a step's beginning, its middle, its end.

use super::doing::{Doing, doing};
use super::facts::Sort;
use super::heard::Heard;
use super::speech::Word;
use super::things::Sort as Of;
use numerics::quantity::Duration;
use recipe::document::model::{Action, Standing};
use recipe::source::Located;

/// A place on the road.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Point {
    /// Stages first, then products.
    pub section: usize,
    /// The step's number; its half is the middle of the step, and so on.
    pub at: f64,
    /// The step it is of.
    pub step: usize,
}

/// Right after a step began, half through it, and its end, as shares of the step.
const SOON: f64 = 0.05;
const HALF: f64 = 0.5;
const END: f64 = 0.95;

/// What is before a step's beginning, as a share.
const LEAD: f64 = -0.4;

/// The points of every step that a test lets through.
fn points(heard: &Heard, share: f64, wanted: impl Fn(&super::facts::Place) -> bool) -> Vec<Point> {
    heard
        .places
        .iter()
        .filter(|place| wanted(place))
        .map(|place| Point {
            section: place.section,
            at: number(place.number) + share,
            step: place.number,
        })
        .collect()
}

fn number(step: usize) -> f64 {
    f64::from(u32::try_from(step).unwrap_or(u32::MAX))
}

fn is(written: Option<&Located<bool>>) -> bool {
    written.is_some_and(|written| written.value)
}

fn has(words: &[Word], wanted: &[&str]) -> bool {
    words
        .iter()
        .any(|word| wanted.contains(&word.lower.as_str()))
}

fn stems(words: &[Word], wanted: &[&str]) -> bool {
    words
        .iter()
        .any(|word| wanted.contains(&word.stem.as_str()))
}

fn run(words: &[Word], wanted: &[&str]) -> bool {
    words
        .windows(wanted.len())
        .any(|own| own.iter().zip(wanted).all(|(a, b)| a.lower == *b))
}

const COLD_PLACES: [&str; 4] = ["fridge", "refrigerator", "icebox", "freezer"];

fn is_cold(place: &super::facts::Place) -> bool {
    matches!(&place.step.action, Action::Rest { place, .. } if place.value == Standing::Refrigerator)
}

fn is_rest(place: &super::facts::Place) -> bool {
    matches!(place.step.action, Action::Rest { .. }) && !is_cold(place)
}

/// What happens in some words, as points: "it comes out", "the last rise is over", "the butter's in".
pub(super) fn event(heard: &Heard, first: usize, end: usize) -> Vec<Point> {
    let words = &heard.speech.words[first..end];
    let bakes = |share| {
        points(heard, share, |p| {
            matches!(p.step.action, Action::Bake { .. })
        })
    };
    let cold = has(words, &COLD_PLACES);
    let oven = has(words, &["oven", "bake", "baking", "baked"]);
    if cold {
        let out = has(words, &["out", "comes", "come", "chilled"]);
        return points(heard, if out { END } else { 0.0 }, is_cold);
    }
    if run(words, &["end", "of", "the", "bake"])
        || run(words, &["end", "of", "baking"])
        || run(words, &["end", "of", "the", "baking"])
    {
        return bakes(END);
    }
    let elsewhere = has(
        words,
        &[
            "bowl", "mixer", "machine", "mould", "mold", "pan", "beaker", "water",
        ],
    );
    let tin_alone = has(words, &["tin"]) && !oven;
    let out = run(words, &["comes", "out"])
        || run(words, &["come", "out"])
        || run(words, &["came", "out"])
        || run(words, &["it's", "out"])
        || run(words, &["is", "out"])
        || run(words, &["are", "out"])
        || run(words, &["they're", "out"])
        || run(words, &["out", "of", "the", "oven"])
        || run(words, &["on", "the", "rack"])
        || run(words, &["they're", "baked"])
        || run(words, &["it's", "baked"])
        || run(words, &["is", "baked"])
        || run(words, &["finished", "baking"]);
    if out && !elsewhere && !tin_alone {
        return bakes(END);
    }
    // "While they're still hot"
    if run(words, &["they're", "hot"])
        || run(words, &["it's", "hot"])
        || run(words, &["still", "hot"])
        || run(words, &["still", "warm"])
    {
        return bakes(END);
    }
    if has(words, &["door", "door's"]) && has(words, &["shut", "closed"]) {
        return bakes(SOON);
    }
    if run(words, &["been", "in", "the", "oven"]) || run(words, &["in", "the", "oven", "for"]) {
        return bakes(SOON);
    }
    if has(words, &["mixed", "kneaded"]) {
        let main = main_stage(heard);
        return points(heard, END, |place| {
            place.section == main && matches!(place.step.action, Action::Mix { .. })
        });
    }
    let named = heard
        .mentions_in(first, end)
        .iter()
        .find(|mention| heard.things[mention.things[0]].sort == Of::Ingredient);
    let in_oven = run(words, &["in", "the", "oven"]) || run(words, &["into", "the", "oven"]);
    let goes = has(
        words,
        &["goes", "go", "going", "put", "slide", "pop", "gone", "went"],
    ) && has(words, &["in"])
        && named.is_none();
    if (in_oven || goes) && !elsewhere && !tin_alone {
        return bakes(0.0);
    }
    if has(words, &["mixer", "machine", "mixing"]) {
        return mixing(heard);
    }
    if let Some(mention) = named
        && has(
            words,
            &[
                "in",
                "gone",
                "disappeared",
                "vanished",
                "absorbed",
                "worked",
            ],
        )
    {
        return uses(heard, &mention.things, END);
    }
    if let Some(mention) = named
        && has(words, &ADDS)
    {
        return uses(heard, &mention.things, 0.0);
    }
    if has(
        words,
        &[
            "risen", "doubled", "proved", "proofed", "rise", "rises", "prove", "proof", "rising",
        ],
    ) || is_up(words)
    {
        let stages = heard.inputs.recipe.stages.len();
        return points(heard, END, |place| {
            is_rest(place)
                && if has(words, &["first", "bulk"]) {
                    place.section == main_stage(heard)
                } else {
                    !has(words, &["last", "final", "second"]) || place.section >= stages
                }
        });
    }
    if stems(words, &["chill"]) {
        return points(heard, END, is_cold);
    }
    if stems(words, &["shap", "plait", "braid", "tied"]) {
        return points(heard, END, |p| {
            matches!(p.step.action, Action::Shape { .. })
        });
    }
    if stems(words, &["divid"]) {
        return points(heard, END, |p| {
            matches!(p.step.action, Action::Divide { .. })
        });
    }
    Vec::new()
}

/// "They're all the way up", "it's right up", "a finger off the rim".
pub(super) fn is_up(words: &[Word]) -> bool {
    let up = words
        .iter()
        .position(|word| word.lower == "up")
        .is_some_and(|at| {
            let near = &words[at.saturating_sub(6)..at];
            has(near, &["it's", "they're", "they", "it", "is", "are"])
                && (at == words.len() - 1 || has(near, &["all", "right", "way", "fully"]))
        });
    up || has(words, &["rim"]) && has(words, &["below", "off", "under", "from", "short"])
}

/// The beginning of a step.
pub(super) fn begin_of(heard: &Heard, step: usize) -> Option<Point> {
    let place = heard.places.get(step)?;
    Some(Point {
        section: place.section,
        at: number(step),
        step,
    })
}

/// The stage that is divided into the breads.
pub(super) fn main_stage(heard: &Heard) -> usize {
    heard
        .places
        .iter()
        .find(|place| matches!(place.step.action, Action::Divide { .. }))
        .map_or(
            heard.inputs.recipe.stages.len().saturating_sub(1),
            |place| place.section,
        )
}

/// Where the mixer starts: the first mix of the dough.
fn mixing(heard: &Heard) -> Vec<Point> {
    let main = main_stage(heard);
    let mut all = points(heard, 0.0, |place| {
        place.section == main && matches!(place.step.action, Action::Mix { .. })
    });
    all.truncate(1);
    all
}

/// The steps at which things go in, at a share of the step.
fn uses(heard: &Heard, things: &[usize], share: f64) -> Vec<Point> {
    heard
        .facts
        .iter()
        .filter(|fact| {
            fact.sort == Sort::Amount
                && !fact.only_allowed
                && fact.thing.is_some_and(|thing| things.contains(&thing))
        })
        .filter_map(|fact| {
            let step = fact.step?;
            Some(Point {
                section: fact.section?,
                at: number(step) + share,
                step,
            })
        })
        .collect()
}

/// Words by which something goes in.
pub(super) const ADDS: [&str; 20] = [
    "added", "push", "pushed", "poke", "poked", "add", "adding", "work", "put", "stir", "tip",
    "throw", "beat", "goes", "go", "knead", "fold", "mix", "scatter", "sprinkle",
];

/// What is to be done in some words, as points: "slash it", "brush the wreath", "light the oven".
pub(super) fn deed(heard: &Heard, first: usize, end: usize) -> Vec<Point> {
    let words = &heard.speech.words[first..end];
    let own = doing(words);
    let of =
        |share: f64, wanted: fn(&Action) -> bool| points(heard, share, |p| wanted(&p.step.action));
    let with_stems = |wanted: &[&str], share: f64| {
        points(heard, share, |place| {
            place
                .stems
                .iter()
                .any(|stem| wanted.contains(&stem.as_str()))
        })
    };
    if stems(words, &["slash", "scor"]) {
        return with_stems(&["slash", "scor"], 0.0);
    }
    if has(words, &["cross"]) && has(words, &["cut"]) {
        return with_stems(&["cross"], 0.0);
    }
    if has(words, &["water", "steam"])
        && has(words, &["pour", "tip", "throw"])
        && !has(words, &["mixer", "bowl"])
    {
        return points(
            heard,
            SOON,
            |place| matches!(&place.step.action, Action::Bake { phases, .. } if phases.iter().any(|phase| is(phase.steam.as_ref()))),
        );
    }
    if has(words, &["foil"]) {
        return points(heard, HALF, |place| {
            matches!(&place.step.action, Action::Bake { phases, .. }
                if phases.iter().skip(1).any(|phase| is(phase.foil.as_ref()))
                    && !phases.first().is_some_and(|phase| is(phase.foil.as_ref())))
        });
    }
    if own.meets(Doing::PREHEAT) && has(words, &["oven", "oven's"]) && !has(words, &["down", "off"])
    {
        return of(0.0, |action| matches!(action, Action::Preheat { .. }));
    }
    let cold = has(words, &COLD_PLACES);
    // "Take the butter out": of the refrigerator, where the recipe has it taken out.
    let readied = heard
        .mentions_in(first, end)
        .iter()
        .any(|mention| heard.things[mention.things[0]].sort == Of::Ingredient && mention.end < end);
    if (cold || readied)
        && has(words, &["out"])
        && has(words, &["take", "get", "bring", "pull", "fetch", "grab"])
    {
        return points(heard, LEAD, |place| {
            matches!(&place.step.action, Action::Ready { what, .. } if what.iter().any(|name| {
                let names = super::things::stems(&name.value);
                words.iter().any(|word| names.contains(&word.stem))
            }))
        });
    }
    if cold && has(words, &["in", "into"]) || stems(words, &["chill"]) {
        return points(heard, 0.0, is_cold);
    }
    let things: Vec<usize> = heard
        .mentions_in(first, end)
        .iter()
        .filter(|mention| heard.things[mention.things[0]].sort == Of::Ingredient)
        .flat_map(|mention| mention.things.iter().copied())
        .collect();
    if own.meets(Doing::FINISH) {
        let finish = |p: &super::facts::Place| p.doing.meets(Doing::FINISH);
        let named = points(heard, 0.0, |p| {
            finish(p)
                && things.iter().any(|thing| {
                    let names = super::things::stems(&heard.things[*thing].name);
                    p.stems.iter().any(|stem| names.contains(stem))
                })
        });
        return if named.is_empty() {
            points(heard, 0.0, finish)
        } else {
            named
        };
    }
    if !things.is_empty() && has(words, &ADDS) {
        return uses(heard, &things, 0.0);
    }
    if own.meets(Doing::DIVIDE) && stems(words, &["divid"]) {
        return of(0.0, |action| matches!(action, Action::Divide { .. }));
    }
    if own.meets(Doing::FOLD) {
        // A fold is done within the rest before it.
        return points(heard, -HALF, |p| {
            matches!(p.step.action, Action::Fold { .. })
        });
    }
    if has(words, &["shape", "plait", "braid", "shaping"]) && things.is_empty() {
        return of(0.0, |action| matches!(action, Action::Shape { .. }));
    }
    if has(words, &["rise", "prove", "proof"]) {
        return points(heard, 0.0, is_rest);
    }
    Vec::new()
}

/// How long a step lasts that somebody waits for.
fn lasts(action: &Action) -> Duration {
    match action {
        Action::Rest { timing, .. }
        | Action::Preheat { timing, .. }
        | Action::Cool { timing, .. } => timing.usual.value,
        Action::Ready { before, .. } => before.value,
        Action::Bake { phases, .. } => Duration::from_si(
            phases
                .iter()
                .map(|phase| phase.timing.usual.value.si())
                .sum(),
        ),
        _ => Duration::from_si(0.0),
    }
}

/// How much waiting lies between a deed and an event after it.
pub(super) fn waiting(heard: &Heard, deed: Point, event: Point) -> Duration {
    let steps = heard.places.iter().filter(|place| {
        let begins = number(place.number);
        let leads = matches!(
            place.step.action,
            Action::Ready { .. } | Action::Preheat { .. }
        ) && place.number == deed.step;
        let within =
            place.section == deed.section && begins + HALF > deed.at && begins + HALF < event.at;
        leads || within && !matches!(place.step.action, Action::Preheat { .. })
    });
    Duration::from_si(steps.map(|place| lasts(&place.step.action).si()).sum())
}
