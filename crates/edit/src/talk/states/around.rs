//! The states of what is no ingredient: the tray that is hot, the water that makes steam, the place where a dough stands,
//! the dough that comes out of the cold.

use super::{APART, COLD, COOL, HOT, ROOM, State, UNLESS, WARM, of_word};
use crate::talk::facts::{Place, in_words};
use crate::talk::finding::Finding;
use crate::talk::heard::{Heard, Mood};
use crate::talk::speech::Word;
use crate::talk::track::Track;
use recipe::document::model::{Action, Standing};
use recipe::source::Span;

/// Things that have a state, each by its words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Thing {
    Tray,
    Water,
    Spot,
    Dough,
}

/// A state is of a step at most so many from where the talk has come to.
const STEPS_OFF: usize = 2;

/// So many clauses back a step may have been told.
const CLAUSES_BACK: usize = 3;

/// Words between a state and its thing: "a nice hot baking tray".
const BETWEEN: usize = 2;

/// A state behind its thing stands within so many words: "the tray, which I keep cool".
const BEHIND: usize = 6;

fn thing(word: &Word) -> Option<Thing> {
    let lower = word.lower.strip_suffix("'s").unwrap_or(&word.lower);
    Some(match lower {
        "tray" | "stone" | "sheet" => Thing::Tray,
        "water" => Thing::Water,
        "place" | "spot" | "corner" | "cupboard" | "somewhere" | "someplace" | "pantry"
        | "larder" | "window" | "windowsill" | "boiler" | "radiator" | "stove" | "porch"
        | "garage" | "cellar" | "shed" => Thing::Spot,
        "dough" => Thing::Dough,
        _ => return None,
    })
}

/// How warm a word says that something is, from cold to boiling.
fn warmth(word: &Word) -> Option<f64> {
    match word.lower.as_str() {
        "cosy" | "cozy" | "snug" | "toasty" => Some(WARM),
        "chilly" | "draughty" | "drafty" | "unheated" | "frozen" => Some(COLD),
        "heated" | "scorching" | "blazing" | "sizzling" | "kettle" => Some(HOT),
        "soft" | "softened" | "pliable" | "melted" | "liquid" | "runny" => None,
        lower => match of_word(lower)? {
            State::Warmth(warmth) => Some(warmth),
            State::Melted => None,
        },
    }
}

/// Every state of the kind that differs from the recipe's.
pub(super) fn states(heard: &Heard, track: &Track) -> Vec<Finding> {
    let words = &heard.speech.words;
    let own = written(heard);
    let mut found = Vec::new();
    for (sentence, &(first, end)) in heard.speech.sentences.iter().enumerate() {
        if heard.asks(sentence) || heard.story_of(sentence) > 5.0 {
            continue;
        }
        let said_alone = of_the_thing_before(heard, sentence);
        for at in first..end {
            let named = thing(&words[at])
                .and_then(|thing| Some((thing, said_of(words, thing, first, at, end)?)))
                .or(said_alone.filter(|_| at == first));
            let Some((thing, (place, said))) = named else {
                continue;
            };
            // "A glass of cold water for me": the water for steam goes into something.
            let from = said_alone.map_or(first, |_| heard.speech.sentences[sentence - 1].0);
            let into = words[from..end].iter().any(|word| {
                matches!(
                    word.lower.as_str(),
                    "pan" | "tray" | "tin" | "oven" | "below" | "underneath" | "steam" | "door"
                )
            });
            if thing == Thing::Water && !into {
                continue;
            }
            let from = first.max(place.min(at).saturating_sub(BEHIND));
            let unless = words[from..place.max(at)]
                .iter()
                .any(|word| UNLESS.contains(&word.lower.as_str()) && word.lower != "until");
            // "A warm dough won't plait": of any dough.
            let any = thing == Thing::Dough
                && (place.min(at) > first && words[place.min(at) - 1].lower == "a"
                    || words[at + 1..end.min(at + 3)].iter().any(|word| {
                        matches!(
                            word.lower.as_str(),
                            "won't" | "can't" | "doesn't" | "will" | "would"
                        )
                    }));
            if unless || any || heard.frame(at) != Mood::Here {
                continue;
            }
            let (here, told) = heard.walk[words[at].clause];
            // "Cover the dough and let it rise. I leave it in the cold pantry": of what was told just before.
            let here = if thing == Thing::Spot && !told {
                let before = heard.walk[..words[at].clause]
                    .iter()
                    .rev()
                    .take(CLAUSES_BACK);
                let Some((step, _)) = before.clone().find(|(_, told)| *told) else {
                    continue;
                };
                *step
            } else {
                here
            };
            if let Some((warm, step)) = differs(&own, thing, here, said) {
                found.push(finding(
                    heard,
                    track,
                    (place.min(at), place.max(at)),
                    warm,
                    step,
                ));
            }
        }
    }
    found
}

/// "Pour a cup of water into the pan. Cold from the tap is fine": a state that opens a sentence, of the tray or the water
/// that was named just before.
fn of_the_thing_before(heard: &Heard, sentence: usize) -> Option<(Thing, (usize, f64))> {
    let words = &heard.speech.words;
    let (first, end) = heard.speech.sentences[sentence];
    let (before, _) = heard.speech.sentences[sentence.checked_sub(1)?];
    // "Ice cold, so it hisses"
    let very = matches!(
        words[first].lower.as_str(),
        "ice" | "piping" | "stone" | "really" | "nice" | "fridge"
    );
    // "From the cold tap"
    let led = words[first..end.min(first + 3)]
        .iter()
        .take_while(|word| {
            matches!(
                word.lower.as_str(),
                "from" | "straight" | "out" | "of" | "the"
            )
        })
        .count();
    let own = first + led + usize::from(very && first + 1 < end);
    if own >= end {
        return None;
    }
    let said = warmth(&words[own])?;
    let next = words.get(own + 1).filter(|_| own + 1 < end);
    let alone = next.is_none_or(|word| {
        matches!(
            word.lower.as_str(),
            "from" | "is" | "will" | "straight" | "off" | "does" | "tap"
        ) || word.clause != words[own].clause
    });
    let named = words[before..first].iter().rev().find_map(thing)?;
    let none_here = words[first..end].iter().all(|word| thing(word).is_none());
    (alone && none_here && matches!(named, Thing::Water | Thing::Tray))
        .then_some((named, (own, said)))
}

/// The state that is said of a thing, and the word that says it.
fn said_of(
    words: &[Word],
    thing: Thing,
    first: usize,
    at: usize,
    end: usize,
) -> Option<(usize, f64)> {
    let clause = words[at].clause;
    let before = (first.max(at.saturating_sub(BETWEEN + 1))..at)
        .rev()
        .filter(|n| words[*n].clause == clause)
        .find_map(|n| Some((n, warmth(&words[n])?)));
    // "Hot milk and water": the state is the milk's.
    let parted = before.is_some_and(|(n, _)| {
        words[n + 1..at].iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "and" | "or" | "the" | "a" | "in" | "on" | "of" | "your"
            )
        })
    });
    if let Some(before) = before.filter(|_| !parted) {
        return Some(before);
    }
    // "The cellar's ideal, nice and chilly"; "by the window, where they stay cool".
    let where_it_is = words[at].lower.ends_with("'s")
        || words[at + 1..end.min(at + 3)]
            .iter()
            .any(|word| matches!(word.lower.as_str(), "where" | "which" | "is"));
    if thing == Thing::Spot && where_it_is {
        return (at + 1..end.min(at + 1 + 2 * BEHIND)).find_map(|n| Some((n, warmth(&words[n])?)));
    }
    if thing == Thing::Spot {
        // "Somewhere warm".
        let own = words.get(at + 1).filter(|_| at + 1 < end)?;
        let somewhere = words[at].lower.starts_with("some");
        return somewhere.then(|| Some((at + 1, warmth(own)?))).flatten();
    }
    if thing == Thing::Dough {
        return None;
    }
    // "The tray, which I keep cool"; "water from the cold tap", "straight from the fridge".
    let stop = (at + 1 + BEHIND).min(end);
    // "The tray I keep out on the worktop"
    let out = thing == Thing::Tray
        && (at + 1..end.min(at + BEHIND + 2)).any(|n| words[n].lower == "out")
        && (at + 1..end.min(at + BEHIND + 4)).any(|n| {
            matches!(
                words[n].lower.as_str(),
                "worktop" | "bench" | "side" | "counter" | "table"
            )
        })
        && words[at + 1..end.min(at + BEHIND)]
            .iter()
            .any(|word| matches!(word.lower.as_str(), "keep" | "leave" | "stays" | "sits"));
    if out {
        return Some((end.min(at + 3) - 1, ROOM));
    }
    let led = words[at].lower.ends_with("'s")
        || words.get(at + 1).is_some_and(|word| {
            matches!(
                word.lower.as_str(),
                "which" | "that" | "that's" | "is" | "from" | "straight" | "out" | "off"
            )
        });
    if !led || at + 1 >= stop {
        return None;
    }
    (at + 1..stop).find_map(|n| {
        let own = match words[n].lower.as_str() {
            "fridge" | "freezer" | "refrigerator" => Some(COLD),
            "tap" => Some(COOL),
            _ => warmth(&words[n]),
        };
        Some((n, own?))
    })
}

/// A state that the recipe has of a thing at a step.
struct Own {
    thing: Thing,
    warmth: f64,
    step: usize,
}

/// Every state that the recipe has of such things: in its sentences, in where it lets a dough stand, in what it heats.
fn written(heard: &Heard) -> Vec<Own> {
    let mut all = Vec::new();
    for place in &heard.places {
        let speech = in_words(&place.step.text.value);
        for (at, word) in speech.words.iter().enumerate() {
            let Some(thing) = thing(word).filter(|thing| *thing != Thing::Spot) else {
                continue;
            };
            let (first, end) = speech.sentences[word.sentence];
            if let Some((_, warmth)) = said_of(&speech.words, thing, first, at, end) {
                all.push(Own {
                    thing,
                    warmth,
                    step: place.number,
                });
            }
            // "Heat the oven with the tray in it".
            let within = speech
                .words
                .get(at + 1)
                .is_some_and(|next| next.lower == "in");
            if thing == Thing::Tray && within && matches!(place.step.action, Action::Preheat { .. })
            {
                all.push(Own {
                    thing,
                    warmth: HOT,
                    step: place.number,
                });
            }
        }
        if let Action::Rest { place: at, .. } = &place.step.action {
            let warmth = match at.value {
                Standing::WarmPlace => WARM,
                Standing::Room => ROOM,
                Standing::CoolPlace => COOL,
                Standing::Refrigerator => COLD,
            };
            all.push(Own {
                thing: Thing::Spot,
                warmth,
                step: place.number,
            });
        }
        if handled_cold(heard, place) {
            all.push(Own {
                thing: Thing::Dough,
                warmth: COLD,
                step: place.number,
            });
        }
    }
    all
}

/// Whether a dough is divided or shaped right after it lay in the refrigerator.
fn handled_cold(heard: &Heard, place: &Place) -> bool {
    let handled = matches!(
        place.step.action,
        Action::Divide { .. } | Action::Shape { .. }
    );
    let before =
        heard.places[..place.number]
            .iter()
            .rev()
            .find_map(|other| match &other.step.action {
                Action::Rest { place, .. } => Some(place.value),
                Action::Bake { .. } | Action::Cool { .. } => Some(Standing::Room),
                _ => None,
            });
    handled && before == Some(Standing::Refrigerator)
}

/// The recipe's own state and its step, where nothing that the recipe has near is like what is said.
fn differs(own: &[Own], thing: Thing, here: usize, said: f64) -> Option<(f64, usize)> {
    let off = if thing == Thing::Spot { 0 } else { STEPS_OFF };
    let near = || {
        own.iter()
            .filter(|own| own.thing == thing && own.step.abs_diff(here) <= off)
    };
    // The next step may be meant already.
    let like = own.iter().any(|own| {
        own.thing == thing
            && own.step.abs_diff(here) <= off.max(1)
            && (own.warmth - said).abs() < APART
    });
    let nearest = near().min_by_key(|own| own.step.abs_diff(here))?;
    (!like).then_some((nearest.warmth, nearest.step))
}

fn finding(
    heard: &Heard,
    track: &Track,
    (from, to): (usize, usize),
    warm: f64,
    step: usize,
) -> Finding {
    let words = &heard.speech.words;
    let span = Span::new(words[from].span.start, words[to].span.end);
    let shown = if warm <= COOL {
        "cold"
    } else if warm <= ROOM {
        "as warm as the room"
    } else if warm <= WARM {
        "warm"
    } else {
        "hot"
    };
    let message = format!(
        "you say “{}”; in step {} of the recipe it is {shown}.",
        heard.speech.slice(span),
        step + 1
    );
    let text = heard.places[step].step.text.value.replace(['[', ']'], "");
    Finding::of_state(heard, track, span, &message, Some(text))
}
