//! What is said to go in together with something of an earlier step: "the butter goes in with the flour and the eggs",
//! "from the very beginning", "before you've turned the mixer on".

use super::facts::Sort;
use super::finding::Finding;
use super::heard::{Heard, Mood, is_not_told, puts_off};
use super::points::{ADDS, main_stage};
use super::speech::Word;
use super::things::Sort as Of;
use super::track::Track;
use recipe::document::model::Action;

/// Company is told within so many words of what goes in.
const COMPANY_WORDS: usize = 12;

/// So many things named one after another are a row.
const ROW_OF: usize = 2;

/// Everything that goes in with what the recipe has before it.
pub(super) fn companies(heard: &Heard, track: &Track) -> Vec<Finding> {
    let mut found = Vec::new();
    for (sentence, &(first, end)) in heard.speech.sentences.iter().enumerate() {
        if heard.asks(sentence) || heard.story_of(sentence) > 5.0 {
            continue;
        }
        let Some(message) = too_early(heard, first, end) else {
            continue;
        };
        let span = heard.speech.sentence_span(sentence);
        found.push(Finding::of_order(heard, track, span, &message));
    }
    found
}

/// The first thing of a sentence that is told to go in with something of an earlier step of the dough.
fn too_early(heard: &Heard, first: usize, end: usize) -> Option<String> {
    let words = &heard.speech.words;
    let lower = |at: usize| {
        words
            .get(at)
            .filter(|_| at < end)
            .map_or("", |word| word.lower.as_str())
    };
    let mentions: Vec<_> = heard
        .mentions_in(first, end)
        .iter()
        .filter(|mention| heard.things[mention.things[0]].sort == Of::Ingredient)
        .collect();
    for (place, one) in mentions.iter().enumerate() {
        let from = first.max(one.first.saturating_sub(COMPANY_WORDS / 2));
        let limit = (one.end + COMPANY_WORDS).min(end);
        let near = &words[from..limit];
        let adds = near
            .iter()
            .any(|word| ADDS.contains(&word.lower.as_str()) || word.lower == "in")
            || mentions.len() >= ROW_OF && all_at_once(&words[first..end]);
        let denied = words[first.max(from.saturating_sub(4))..limit]
            .iter()
            .any(|word| is_not_told(&word.lower) || puts_off(&word.lower));
        if !adds || denied || heard.frame(one.first) != Mood::Here {
            continue;
        }
        let Some(own) = step_in_dough(heard, &one.things) else {
            continue;
        };
        let with = (one.end..limit).find(|at| {
            matches!(lower(*at), "with" | "alongside")
                || lower(*at) == "and" && lower(*at + 1) == "with"
        });
        // What stands between may be a row of things that go in alike: "raisins and peel go in with the flour".
        let company = with.and_then(|with| {
            mentions[place + 1..]
                .iter()
                .find(|other| other.first > with && other.first <= with + 4)
        });
        let earlier = company.and_then(|other| {
            let step = steps_in_dough(heard, &other.things).min()?;
            let together = heard.facts.iter().any(|fact| {
                fact.sort == Sort::Amount
                    && fact.thing.is_some_and(|thing| one.things.contains(&thing))
                    && heard.facts.iter().any(|other_fact| {
                        other_fact.sort == Sort::Amount
                            && other_fact.step == fact.step
                            && fact.step.is_some()
                            && other_fact
                                .thing
                                .is_some_and(|thing| other.things.contains(&thing))
                    })
            });
            (step < own && !together).then_some(step)
        });
        // "Eggs, honey, butter, everything, all together"
        let earlier = earlier.or_else(|| {
            let step = all_at_once(&words[first..end])
                .then(|| {
                    mentions
                        .iter()
                        .filter_map(|other| step_in_dough(heard, &other.things))
                        .min()
                })
                .flatten()?;
            // "Butter and fruit as well, all together": with what the talk has come to.
            let as_well = words[first..end]
                .iter()
                .any(|word| matches!(word.lower.as_str(), "well" | "too" | "also"));
            let here = heard.walk[words[one.first].clause.saturating_sub(1)].0;
            let mixed = matches!(heard.places[here].step.action, Action::Mix { .. });
            let step = if as_well && mixed {
                step.min(here)
            } else {
                step
            };
            (step < own).then_some(step)
        });
        let earlier = earlier.or_else(|| {
            // "Here at the beginning, together with the flour, I also put the peel"
            let led = first.max(one.first.saturating_sub(COMPANY_WORDS));
            let then = words[led..one.first]
                .iter()
                .any(|word| matches!(word.lower.as_str(), "then" | "next"));
            let begins =
                at_the_start(heard, one.end, limit) || !then && at_the_start(heard, led, one.first);
            let step = begins.then(|| mixes(heard)).flatten()?;
            (step < own).then_some(step)
        });
        // "The sugar goes in with the butter", of what goes in before it.
        let later = company.and_then(|other| {
            let step = steps_in_dough(heard, &other.things).min()?;
            let all_later = steps_in_dough(heard, &other.things).all(|step| step > own);
            let goes = near
                .iter()
                .any(|word| matches!(word.lower.as_str(), "goes" | "go" | "going"));
            (step > own && all_later && goes).then_some(step)
        });
        if let Some(step) = later {
            return Some(format!(
                "the recipe has {} in step {}, and not only in step {}.",
                heard.things[one.things[0]].name,
                own + 1,
                step + 1
            ));
        }
        if let Some(step) = already_in(heard, one.end, limit).filter(|step| *step < own) {
            return Some(format!(
                "the recipe has {} in step {}, and not yet in step {}.",
                heard.things[one.things[0]].name,
                own + 1,
                step + 1
            ));
        }
        if let Some(last) = last_mix(heard).filter(|last| {
            let ahead = first.max(one.first.saturating_sub(COMPANY_WORDS));
            (at_the_end(&words[one.end..limit]) || at_the_end(&words[ahead..one.first]))
                && own < *last
        }) {
            return Some(format!(
                "the recipe has {} in step {}, and not only in step {}.",
                heard.things[one.things[0]].name,
                own + 1,
                last + 1
            ));
        }
        if let Some(step) = earlier {
            return Some(format!(
                "the recipe has {} in step {}, and not yet in step {}.",
                heard.things[one.things[0]].name,
                own + 1,
                step + 1
            ));
        }
    }
    None
}

/// "All together", "all at once", "everything in one go".
fn all_at_once(words: &[Word]) -> bool {
    let run = |wanted: &[&str]| {
        words
            .windows(wanted.len())
            .any(|own| own.iter().zip(wanted).all(|(a, b)| a.lower == *b))
    };
    run(&["all", "together"])
        || run(&["all", "at", "once"])
        || run(&["all", "in", "together"])
        || run(&["in", "one", "go"])
        || run(&["at", "the", "same", "time"])
}

/// "That's in there already", where the talk has come to: the step.
fn already_in(heard: &Heard, from: usize, end: usize) -> Option<usize> {
    let words = &heard.speech.words[from..end];
    let run = |wanted: &[&str]| {
        words
            .windows(wanted.len())
            .any(|own| own.iter().zip(wanted).all(|(a, b)| a.lower == *b))
    };
    let already =
        run(&["in", "there", "already"]) || run(&["already", "in"]) || run(&["in", "already"]);
    already.then(|| heard.walk[heard.speech.words[from].clause].0)
}

/// "At the very end", "last of all".
fn at_the_end(words: &[Word]) -> bool {
    let run = |wanted: &[&str]| {
        words
            .windows(wanted.len())
            .any(|own| own.iter().zip(wanted).all(|(a, b)| a.lower == *b))
    };
    run(&["at", "the", "very", "end"])
        || run(&["right", "at", "the", "end"])
        || run(&["last", "of", "all"])
}

/// The steps at which something goes into the dough.
fn goes_in(heard: &Heard) -> impl Iterator<Item = usize> {
    let main = main_stage(heard);
    let amounts = heard.facts.iter().filter(move |fact| {
        fact.sort == Sort::Amount && !fact.only_allowed && fact.section == Some(main)
    });
    amounts.filter_map(|fact| fact.step)
}

/// The last of them that mixes.
fn last_mix(heard: &Heard) -> Option<usize> {
    goes_in(heard)
        .filter(|step| matches!(heard.places[*step].step.action, Action::Mix { .. }))
        .max()
}

/// "Right at the beginning", "from the off", "before you've turned the mixer on", "and then I switch on".
fn at_the_start(heard: &Heard, from: usize, end: usize) -> bool {
    let words = &heard.speech.words[from..end];
    let lower = |at: usize| words.get(at).map_or("", |word| word.lower.as_str());
    (0..words.len()).any(|at| {
        let start = matches!(lower(at), "beginning" | "start" | "outset" | "off" | "word")
            && (1..=3).any(|back| {
                at.checked_sub(back)
                    .is_some_and(|n| matches!(lower(n), "at" | "from"))
            })
            && at
                .checked_sub(1)
                .is_some_and(|n| matches!(lower(n), "the" | "very"));
        let switched = lower(at) == "before"
            && words[at..]
                .iter()
                .any(|word| matches!(word.lower.as_str(), "mixer" | "machine"))
            && words[at..].iter().any(|word| {
                matches!(
                    word.lower.as_str(),
                    "on" | "start" | "started" | "switch" | "switched"
                )
            });
        start || switched
    })
}

/// The one step of the dough at which things go in; none where they go into several, or into no dough.
fn step_in_dough(heard: &Heard, things: &[usize]) -> Option<usize> {
    let mut steps = steps_in_dough(heard, things);
    let one = steps.next()?;
    steps.all(|step| step == one).then_some(one)
}

/// The steps of the dough at which things go in.
fn steps_in_dough<'a>(heard: &'a Heard, things: &'a [usize]) -> impl Iterator<Item = usize> + 'a {
    let main = main_stage(heard);
    heard
        .facts
        .iter()
        .filter(move |fact| {
            fact.sort == Sort::Amount
                && !fact.only_allowed
                && fact.section == Some(main)
                && fact.thing.is_some_and(|thing| things.contains(&thing))
        })
        .filter_map(|fact| fact.step)
}

/// The first step at which something goes into the dough.
fn mixes(heard: &Heard) -> Option<usize> {
    goes_in(heard).min()
}
