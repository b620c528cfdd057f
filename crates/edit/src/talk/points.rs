//! Where on the recipe's road a deed stands: a step's beginning, its middle, its end.

use super::doing::{Doing, doing};
use super::facts::Sort;
use super::heard::Heard;
use super::speech::Word;
use super::things::Sort as Of;
use numerics::quantity::Duration;
use recipe::document::model::{Action, Standing};
use recipe::measure::spoken::Meant;
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
pub(super) const SOON: f64 = 0.05;
pub(super) const HALF: f64 = 0.5;
pub(super) const END: f64 = 0.95;
/// Shortly before a step's end.
pub(super) const NEARLY: f64 = 0.85;

/// What is before a step's beginning, as a share.
const LEAD: f64 = -0.4;

/// The points of every step that a test lets through.
pub(super) fn points(
    heard: &Heard,
    share: f64,
    wanted: impl Fn(&super::facts::Place) -> bool,
) -> Vec<Point> {
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

pub(super) fn number(step: usize) -> f64 {
    f64::from(u32::try_from(step).unwrap_or(u32::MAX))
}

fn is(written: Option<&Located<bool>>) -> bool {
    written.is_some_and(|written| written.value)
}

pub(super) fn has(words: &[Word], wanted: &[&str]) -> bool {
    words
        .iter()
        .any(|word| wanted.contains(&word.lower.as_str()))
}

pub(super) fn stems(words: &[Word], wanted: &[&str]) -> bool {
    words
        .iter()
        .any(|word| wanted.contains(&word.stem.as_str()))
}

pub(super) fn run(words: &[Word], wanted: &[&str]) -> bool {
    words
        .windows(wanted.len())
        .any(|own| own.iter().zip(wanted).all(|(a, b)| a.lower == *b))
}

pub(super) const COLD_PLACES: [&str; 4] = ["fridge", "refrigerator", "icebox", "freezer"];

pub(super) fn is_cold(place: &super::facts::Place) -> bool {
    matches!(&place.step.action, Action::Rest { place, .. } if place.value == Standing::Refrigerator)
}

pub(super) fn is_rest(place: &super::facts::Place) -> bool {
    matches!(place.step.action, Action::Rest { .. }) && !is_cold(place)
}

/// A rest in which a dough grows, and is looked at for it.
pub(super) fn is_rise(place: &super::facts::Place) -> bool {
    let grows = place
        .step
        .until
        .as_ref()
        .is_some_and(|until| until.volume.is_some() || until.height.is_some());
    is_rest(place) && grows
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
pub(super) fn mixing(heard: &Heard) -> Vec<Point> {
    let main = main_stage(heard);
    let mut all = points(heard, 0.0, |place| {
        place.section == main && matches!(place.step.action, Action::Mix { .. })
    });
    all.truncate(1);
    all
}

/// The steps at which things go in, at a share of the step.
pub(super) fn uses(heard: &Heard, things: &[usize], share: f64) -> Vec<Point> {
    heard
        .facts
        .iter()
        .filter(|fact| {
            // A stage that goes into another is a thing of that.
            let stage = || {
                !fact.path.is_empty()
                    && fact
                        .thing
                        .is_some_and(|thing| matches!(heard.things[thing].sort, Of::Stage(_)))
            };
            fact.sort == Sort::Amount
                && (!fact.only_allowed || stage())
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
pub(super) const ADDS: [&str; 29] = [
    "chuck", "bung", "sling", "pop", "drop", "toss", "dump", "spread", "lob", "added", "push",
    "pushed", "poke", "poked", "add", "adding", "work", "put", "stir", "tip", "throw", "beat",
    "goes", "go", "knead", "fold", "mix", "scatter", "sprinkle",
];

/// Words by which it goes in later.
const DELAYS: [&str; 14] = [
    "give", "gives", "get", "gets", "save", "keep", "hold", "wait", "waits", "leave", "come",
    "comes", "follow", "follows",
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
    if stems(words, &["slash", "scor"]) || cuts_the_top(words) {
        return with_stems(&["slash", "scor"], 0.0);
    }
    if has(words, &["cross"]) && has(words, &["cut"]) {
        return with_stems(&["cross"], 0.0);
    }
    if has(words, &["water", "steam"])
        && has(
            words,
            &[
                "pour", "tip", "throw", "in", "goes", "leave", "save", "slosh", "chuck", "add",
            ],
        )
        && !has(words, &["mixer", "bowl"])
    {
        return points(
            heard,
            SOON,
            |place| matches!(&place.step.action, Action::Bake { phases, .. } if phases.iter().any(|phase| is(phase.steam.as_ref()))),
        );
    }
    // Foil that comes off is not laid on.
    if has(words, &["foil"]) && has(words, &["off"]) && !has(words, &["stays", "keep"]) {
        return Vec::new();
    }
    if has(words, &["foil"]) {
        return points(heard, HALF, |place| {
            matches!(&place.step.action, Action::Bake { phases, .. }
                if phases.iter().skip(1).any(|phase| is(phase.foil.as_ref()))
                    && !phases.first().is_some_and(|phase| is(phase.foil.as_ref())))
        });
    }
    let lights = own.meets(Doing::PREHEAT)
        || has(
            words,
            &[
                "knob",
                "dial",
                "switch",
                "switching",
                "think",
                "thinking",
                "lit",
                "light",
                "lights",
            ],
        );
    let kept_off = super::lit::is_kept_off(words);
    if kept_off || lights && has(words, &["oven", "oven's"]) && !has(words, &["down", "off"]) {
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
    // "I get them out when I switch the mixer on"
    if (run(words, &["get", "them", "out"]) || run(words, &["take", "them", "out"]))
        && !has(words, &["oven", "tin", "rack"])
    {
        return points(heard, LEAD, |place| {
            matches!(place.step.action, Action::Ready { .. })
        });
    }
    if cold && has(words, &["in", "into", "first"]) || stems(words, &["chill"]) {
        return points(heard, 0.0, is_cold);
    }
    let things: Vec<usize> = heard
        .mentions_in(first, end)
        .iter()
        .filter(|mention| match heard.things[mention.things[0]].sort {
            Of::Ingredient => true,
            Of::Stage(_) => heard.things[mention.things[0]].name != "dough",
            Of::Product(_) => false,
        })
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
        if !named.is_empty() {
            return named;
        }
        // "Sprinkle the salt over": what goes on no bread goes into a dough.
        let used = uses(heard, &things, 0.0);
        return if used.is_empty() {
            points(heard, 0.0, finish)
        } else {
            used
        };
    }
    let rises = has(words, &["rise", "rises", "prove", "proof", "rising"])
        || run(words, &["warm", "place"])
        || run(words, &["somewhere", "warm"])
        || run(words, &["in", "the", "warm"]);
    if !things.is_empty() && (has(words, &ADDS) || !rises && has(words, &DELAYS)) {
        return uses(heard, &things, 0.0);
    }
    if own.meets(Doing::DIVIDE) && stems(words, &["divid", "portion"]) {
        return of(0.0, |action| matches!(action, Action::Divide { .. }));
    }
    if own.meets(Doing::FOLD) {
        // A fold is done within the rest before it.
        return points(heard, -HALF, |p| {
            matches!(p.step.action, Action::Fold { .. })
        });
    }
    let shapes = own.meets(Doing::SHAPE) && has(words, &["shape", "plait", "braid", "shaping"]);
    if shapes && things.is_empty() {
        return of(0.0, |action| matches!(action, Action::Shape { .. }));
    }
    if let Some(step) = stands(heard, first, end) {
        return points(heard, 0.0, |place| place.number == step);
    }
    if rises {
        return points(heard, 0.0, is_rise);
    }
    let into_oven = run(words, &["in", "the", "oven"]) || run(words, &["into", "the", "oven"]);
    if into_oven || has(words, &["bake"]) {
        return of(0.0, |action| matches!(action, Action::Bake { .. }));
    }
    if run(words, &["in", "the", "tin"]) || run(words, &["into", "the", "tin"]) {
        return points(heard, 0.0, |place| {
            matches!(place.step.action, Action::Shape { .. })
                && place.stems.iter().any(|stem| stem == "tin")
        });
    }
    Vec::new()
}

/// "It sits out on the counter for its twenty minutes", "it gets its eighty minutes in the warm": the rest near by that takes so
/// long, where a dough waits.
fn stands(heard: &Heard, first: usize, end: usize) -> Option<usize> {
    let words = &heard.speech.words[first..end];
    let waits = has(
        words,
        &[
            "stand", "stands", "sit", "sits", "rest", "rests", "room", "counter", "warm", "cloth",
            "cover", "side", "rise", "rises",
        ],
    );
    let from = heard.speech.figures.partition_point(|f| f.first < first);
    let range = heard.speech.figures[from..]
        .iter()
        .take_while(|figure| figure.end <= end)
        .find_map(|figure| match figure.spoken.meant {
            Meant::Time(range) => Some(range),
            _ => None,
        })?;
    let here = heard.walk[heard.speech.words[first].clause].0;
    let resting = |fact: &&super::facts::Fact| {
        fact.sort == Sort::Time
            && !fact.only_allowed
            && fact.step.is_some_and(|step| is_rest(&heard.places[step]))
    };
    let near = |wanted: fn(f64, &super::facts::Fact) -> bool| {
        heard
            .facts
            .iter()
            .filter(resting)
            .filter(|fact| wanted(range.low.si(), fact))
            .filter_map(|fact| fact.step)
            .min_by_key(|step| step.abs_diff(here))
    };
    // Who says the recipe's own time means that rest, and else one near by.
    let told = near(|said, fact| (said / fact.usual.max(1.0) - 1.0).abs() < 0.02).or_else(|| {
        near(|said, fact| (fact.low..=fact.high).contains(&said))
            .filter(|step| step.abs_diff(here) <= STANDS_STEPS)
    });
    told.filter(|_| waits)
}

/// A rest of another length is meant that stands at most so many steps from where the talk has come to.
const STANDS_STEPS: usize = 4;

/// "Cut it down the middle", "run the blade across the top".
fn cuts_the_top(words: &[Word]) -> bool {
    (has(words, &["cut", "slit", "nick"]) || has(words, &["blade", "razor", "lame"]))
        && (run(words, &["down", "the", "middle"])
            || run(words, &["the", "top"])
            || has(words, &["across"]))
        && !has(
            words,
            &["cross", "slice", "slices", "half", "dough", "strips"],
        )
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
    let whole: f64 = steps.map(|place| lasts(&place.step.action).si()).sum();
    // What is done half through a rise has the other half before it.
    let begun = heard.places.iter().find(|place| {
        let begins = number(place.number);
        place.section == deed.section
            && is_rest(place)
            && begins < deed.at
            && deed.at < begins + END
    });
    let left = begun
        .filter(|place| event.at >= number(place.number) + END)
        .map_or(0.0, |place| {
            (number(place.number) + 1.0 - deed.at) * lasts(&place.step.action).si()
        });
    Duration::from_si(whole + left)
}
