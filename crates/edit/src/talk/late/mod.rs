//! What is said when it is too late to do it: butter to be taken out when it goes in, an oven to be heated
//! when the bread goes in, something left out that the dough has already risen without.

mod lead;

use super::code;
use super::doing::{Doing, doing};
use super::finding::{Finding, Kind};
use super::heard::Heard;
use super::track::Track;
use recipe::document::model::Action;

/// Everything that comes too late.
pub(super) fn late(heard: &Heard, track: &Track) -> Vec<Finding> {
    let mut found = Vec::new();
    let mut taken: Vec<usize> = Vec::new();
    let mut say = |sentence: usize, message: &str, way_out: &str| {
        if taken.contains(&sentence) {
            return;
        }
        taken.push(sentence);
        let span = heard.speech.sentence_span(sentence);
        found.push(
            Finding::at(
                heard,
                track,
                Kind::TooLate,
                code::TALK_SAYS_TOO_LATE,
                span,
                message,
            )
            .hint(way_out),
        );
    };
    for sentence in 0..heard.speech.sentences.len() {
        if looks_back(heard, sentence) {
            say(
                sentence,
                "this is said after the moment at which a viewer could have done it.",
                "Say it before the step that needs it.",
            );
        }
    }
    for sentence in 0..heard.speech.sentences.len() {
        if let Some(why) = lead::at_the_wrong_time(heard, sentence) {
            say(
                sentence,
                &why,
                "Say when it is to be done, before the step that needs it.",
            );
        }
    }
    if let Some((sentence, names)) = ready(heard) {
        say(
            sentence,
            &format!(
                "{names} must be out of the refrigerator well before this; by now it has gone in."
            ),
            "Say it at the beginning, with how long it needs.",
        );
    }
    if let Some(sentence) = oven(heard) {
        say(
            sentence,
            "the oven is to be heated, and the bread has already gone in.",
            "Say it while the shaped dough rises.",
        );
    }
    if let Some(sentence) = tin(heard) {
        say(
            sentence,
            "the tin is to be greased or lined, and the dough already lies in it.",
            "Say it before the dough goes into the tin.",
        );
    }
    if let Some(sentence) = slashed(heard) {
        say(
            sentence,
            "the loaf is to be slashed, and it is baked already.",
            "Say it before the loaf goes into the oven.",
        );
    }
    for (sentence, name) in left_out(heard) {
        say(
            sentence,
            &format!("{name} is named for the first time after the step it goes in at is over."),
            "Say it where it goes in.",
        );
    }
    found
}

fn lower<'a>(heard: &'a Heard, sentence: usize) -> Vec<&'a str> {
    let (first, end) = heard.speech.sentences[sentence];
    heard.speech.words[first..end]
        .iter()
        .map(|word| word.lower.as_str())
        .collect()
}

fn deeds(heard: &Heard, sentence: usize) -> Doing {
    let (first, end) = heard.speech.sentences[sentence];
    doing(&heard.speech.words[first..end])
}

/// Verbs of telling and doing after "should have".
const DONE: [&str; 24] = [
    "taken",
    "put",
    "said",
    "mentioned",
    "told",
    "left",
    "done",
    "had",
    "got",
    "gotten",
    "turned",
    "set",
    "made",
    "kept",
    "heated",
    "preheated",
    "greased",
    "lined",
    "soaked",
    "softened",
    "started",
    "added",
    "saved",
    "buttered",
];

/// "You should have taken the butter out an hour ago", "I forgot to say".
fn looks_back(heard: &Heard, sentence: usize) -> bool {
    let words = lower(heard, sentence);
    let (first, end) = heard.speech.sentences[sentence];
    let about = !heard.mentions_in(first, end).is_empty()
        || !deeds(heard, sentence).is_none()
        || words
            .iter()
            .any(|word| matches!(*word, "foil" | "tin" | "tray" | "pan" | "film"));
    if !about || heard.is_framed(sentence) {
        return false;
    }
    (0..words.len()).any(|at| {
        let word = |n: usize| words.get(at + n).copied().unwrap_or("");
        let who = words[at.saturating_sub(3)..at]
            .iter()
            .any(|w| matches!(*w, "you" | "i" | "we" | "you'd" | "i'd"));
        let past = |n: usize| DONE.contains(&word(n)) || word(n).ends_with("ed");
        match word(0) {
            "could" if who => word(1) == "have" && DONE.contains(&word(2)),
            "should" | "ought" | "must" if who => {
                word(1) == "have" && (past(2) || past(3))
                    || word(1) == "to" && word(2) == "have" && past(3)
            }
            "should've" | "ought've" if who => past(1) || past(2),
            "forgot" | "forgotten" => {
                matches!(word(1), "to")
                    && matches!(word(2), "say" | "mention" | "tell" | "add" | "put")
            }
            "meant" => word(1) == "to" && matches!(word(2), "say" | "mention" | "tell"),
            _ => false,
        }
    })
}

/// The first sentence in which what must be out beforehand is asked for after it has gone in.
fn ready(heard: &Heard) -> Option<(usize, String)> {
    for place in &heard.places {
        let Action::Ready { what, .. } = &place.step.action else {
            continue;
        };
        for name in what {
            let thing = heard.things.iter().position(|thing| {
                let stage = &heard.inputs.recipe.stages[place.section];
                stage.items.iter().any(|item| {
                    item.called() == name.value
                        && (thing.name == item.of.value
                            || thing.ingredient.as_ref().is_some_and(|own| {
                                own.names.contains(&item.of.value.to_lowercase())
                            }))
                })
            })?;
            let named = |sentence: usize| {
                let (first, end) = heard.speech.sentences[sentence];
                heard
                    .mentions_in(first, end)
                    .iter()
                    .any(|m| m.things.contains(&thing))
            };
            let mut used = None;
            for sentence in 0..heard.speech.sentences.len() {
                if !named(sentence) {
                    continue;
                }
                let out = deeds(heard, sentence).meets(Doing::READY);
                if out {
                    if used.is_some() {
                        return Some((sentence, name.value.clone()));
                    }
                    break;
                }
                let words = lower(heard, sentence);
                let goes_in = words.iter().any(|word| {
                    matches!(
                        *word,
                        "add" | "adding" | "goes" | "drop" | "work" | "beat" | "then"
                    )
                });
                let (step, told) = heard.aligned[sentence];
                if goes_in && told && step > place.number {
                    used = Some(sentence);
                }
            }
        }
    }
    None
}

/// Whether the bread goes into the oven in a sentence.
fn goes_in(heard: &Heard, sentence: usize) -> bool {
    let words = lower(heard, sentence);
    let deeds = deeds(heard, sentence);
    let figure = heard
        .speech
        .figures
        .iter()
        .any(|figure| figure.sentence == sentence);
    let into = words
        .windows(3)
        .any(|three| matches!(three, ["into" | "in", "the", "oven"] | [_, "into", "oven"]));
    let (step, told) = heard.aligned[sentence];
    let baking = heard
        .places
        .get(step)
        .is_some_and(|place| matches!(place.step.action, Action::Bake { .. }));
    told && baking && deeds.meets(Doing::BAKE.and(Doing::OVEN)) && (figure || into)
}

/// The first sentence that heats the oven, when something has gone in before.
fn oven(heard: &Heard) -> Option<usize> {
    let mut baked = false;
    for sentence in 0..heard.speech.sentences.len() {
        let words = lower(heard, sentence);
        let heats = deeds(heard, sentence).meets(Doing::PREHEAT)
            && !words
                .iter()
                .any(|word| matches!(*word, "down" | "lower" | "back" | "off" | "before"));
        let lit = words
            .windows(2)
            .any(|two| matches!(two, ["preheat" | "preheated", _] | ["heat", "the"]))
            || words.windows(3).any(|three| {
                matches!(
                    three,
                    ["turn" | "switch" | "get" | "put", "the", "oven"]
                        | ["turn" | "switch", "on", "the"]
                )
            });
        if heats && lit {
            return baked.then_some(sentence);
        }
        baked |= goes_in(heard, sentence);
    }
    None
}

/// The first sentence that greases the tin, when the dough already lies in it.
fn tin(heard: &Heard) -> Option<usize> {
    let mut lies = false;
    for sentence in 0..heard.speech.sentences.len() {
        let words = lower(heard, sentence);
        let tin = |word: &str| matches!(word, "tin" | "pan" | "mould" | "mold" | "tray");
        let greases = words.iter().enumerate().any(|(at, word)| {
            let next = words.iter().skip(at + 1).take(3).any(|w| tin(w));
            matches!(*word, "grease" | "butter" | "line" | "greased" | "oil") && next
        });
        if greases {
            return lies.then_some(sentence);
        }
        let set = words.iter().enumerate().any(|(at, word)| {
            let into =
                matches!(*word, "in" | "into") && words.iter().skip(at + 1).take(3).any(|w| tin(w));
            into && words[..at].iter().any(|w| {
                matches!(
                    *w,
                    "set"
                        | "lay"
                        | "put"
                        | "drop"
                        | "tuck"
                        | "goes"
                        | "go"
                        | "line"
                        | "nestle"
                        | "place"
                        | "sit"
                )
            })
        });
        lies |= set;
    }
    None
}

/// The first sentence that slashes a loaf which has come out of the oven, where the recipe slashes one.
fn slashed(heard: &Heard) -> Option<usize> {
    let blade = |stem: &str| matches!(stem, "slash" | "scor");
    let written = heard
        .places
        .iter()
        .any(|place| place.stems.iter().any(|stem| blade(stem)));
    (0..heard.speech.sentences.len()).find(|sentence| {
        let (first, end) = heard.speech.sentences[*sentence];
        let words = &heard.speech.words[first..end];
        // "With the loaf on the rack I take a razor to the top"
        let razor = || {
            words.iter().any(|word| word.lower == "top").then(|| {
                words
                    .iter()
                    .position(|word| matches!(word.lower.as_str(), "razor" | "blade"))
            })
        };
        let found = words.iter().position(|word| blade(&word.stem));
        let Some(at) = found.or_else(|| razor().flatten()) else {
            return false;
        };
        let before: Vec<&str> = words[..at].iter().map(|word| word.lower.as_str()).collect();
        let out = before
            .windows(4)
            .any(|four| matches!(four, ["out", "of", "the", "oven"]))
            || before
                .windows(3)
                .any(|three| matches!(three, ["on", "the", "rack"]));
        written && out
    })
}

/// What is named for the first time after the stage it goes in at has rested or been baked.
fn left_out(heard: &Heard) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let recipe = heard.inputs.recipe;
    for (place, thing) in heard.things.iter().enumerate() {
        if thing.ingredient.is_none() {
            continue;
        }
        let uses: Vec<&crate::talk::facts::Fact> = heard
            .facts
            .iter()
            .filter(|fact| {
                fact.thing == Some(place)
                    && fact.sort == crate::talk::facts::Sort::Amount
                    && !fact.only_allowed
            })
            .collect();
        let [one] = uses.as_slice() else { continue };
        let (Some(step), Some(section)) = (one.step, one.section) else {
            continue;
        };
        if section >= recipe.stages.len() {
            continue;
        }
        let first = heard
            .mentions
            .iter()
            .find(|mention| mention.things.contains(&place));
        let Some(first) = first else { continue };
        let sentence = heard.speech.words[first.first].sentence;
        let rested = heard
            .places
            .iter()
            .filter(|other| {
                other.section == section
                    && other.number > step
                    && matches!(
                        other.step.action,
                        Action::Rest { .. } | Action::Divide { .. }
                    )
            })
            .map(|other| other.number)
            .min();
        let Some(rested) = rested else { continue };
        let passed = heard.aligned[..sentence]
            .iter()
            .filter(|(step, told)| *told && *step >= rested)
            .count();
        let words = lower(heard, sentence);
        let adds = words
            .iter()
            .any(|word| matches!(*word, "add" | "forget" | "forgot" | "left"))
            || words
                .windows(2)
                .any(|two| matches!(two, ["goes" | "go", "in"] | ["in", "goes"]));
        // What is named with the others of its step is told with that step.
        let (s_first, s_end) = heard.speech.sentences[sentence];
        let with_it = heard
            .mentions_in(s_first, s_end)
            .iter()
            .filter(|mention| {
                heard.facts.iter().any(|fact| {
                    fact.step == Some(step)
                        && fact.sort == crate::talk::facts::Sort::Amount
                        && fact.thing.is_some_and(|own| mention.things.contains(&own))
                })
            })
            .count();
        if passed >= 2 && adds && with_it < TOLD_WITH {
            found.push((sentence, crate::ledger::say::capital(&thing.name)));
        }
    }
    found
}

/// A sentence that names so many things of one step tells that step.
const TOLD_WITH: usize = 4;
