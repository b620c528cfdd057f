//! Leads that are said to be none, and steps the wrong way round.

use super::{deeds, lower};
use crate::ledger::say;
use crate::talk::doing::{Doing, doing};
use crate::talk::heard::Heard;
use crate::talk::lit::goes_in_cold;
use crate::talk::moments::{event, is_over, is_up};
use crate::talk::points::is_rise;
use crate::talk::speech::Word;
use crate::talk::things::{Sort, stems};
use recipe::document::model::Action;

/// A lead that is said to be none: butter taken out as it goes in, an oven lit when the dough is ready,
/// a starter made on the day of a recipe that begins it the evening before, a later step before an earlier.
pub(super) fn at_the_wrong_time(heard: &Heard, sentence: usize) -> Option<String> {
    let words = lower(heard, sentence);
    let deeds = deeds(heard, sentence);
    let (first, end) = heard.speech.sentences[sentence];
    // Where nothing parts sentences, the next may go on.
    let on: Vec<&str> = heard.speech.words[first..(end + 8).min(heard.speech.words.len())]
        .iter()
        .map(|word| word.lower.as_str())
        .collect();
    let has = |run: &[&str]| words.windows(run.len()).any(|own| own == run);
    let straight_in = on.windows(2).any(|two| two == ["straight", "in"]);
    let last_minute = has(&["right", "before"])
        || has(&["just", "before"])
        || has(&["straight", "before"])
        || has(&["last", "minute"])
        || ["minute", "moment", "second"].into_iter().any(|soon| {
            has(&["very", soon]) || has(&["until", "the", soon]) || has(&["till", "the", soon])
        })
        || has(&["no", "earlier"])
        || has(&["no", "sooner"])
        || has(&["not", "before"])
        || has(&["right", "up", "to"])
        || has(&["up", "to", "the", "moment"])
        || has(&["up", "to", "the", "point"])
        || has(&["as", "it", "goes"])
        || has(&["only", "now"])
        || straight_in;
    let just_said = sentence
        .checked_sub(1)
        .map_or((0, 0), |at| heard.speech.sentences[at]);
    // "Now the butter. A hundred and eighty grams. You leave it in the fridge": what was named last.
    let lately = heard.speech.sentences[sentence.saturating_sub(LATELY)].0;
    let last_named = heard
        .mentions_in(lately, first)
        .iter()
        .rev()
        .find(|mention| heard.things[mention.things[0]].sort == Sort::Ingredient)
        .map(|mention| (mention.first, mention.end));
    for place in &heard.places {
        match &place.step.action {
            Action::Ready { before, what, .. }
                if (deeds.meets(Doing::READY) || last_minute && kept_cold(&words))
                    && (last_minute
                        || (words.contains(&"haven't") || words.contains(&"now"))
                            && is_past(heard, sentence, place.number))
                    && before.value.minutes() >= 20.0 =>
            {
                // "Butter, a hundred and fifty-seven. Take it out of the fridge only now".
                let it = words
                    .iter()
                    .any(|word| matches!(*word, "it" | "them" | "mine"));
                let named = |first: usize, end: usize| {
                    what.iter().find(|name| {
                        let stems = stems(&name.value);
                        heard.speech.words[first..end]
                            .iter()
                            .any(|word| stems.contains(&word.stem))
                    })
                };
                let name = named(first, end).or_else(|| {
                    let (from, to) = last_named.filter(|_| it)?;
                    named(from, to)
                })?;
                return Some(format!(
                    "the recipe wants {} out of the refrigerator {} before.",
                    name.value,
                    say::duration(before.value)
                ));
            }
            Action::Preheat { timing, .. } if timing.usual.value.minutes() >= 10.0 => {
                let lit = words
                    .iter()
                    .any(|word| matches!(*word, "heat" | "preheat" | "switch" | "on" | "light"))
                    && words.iter().any(|word| matches!(*word, "oven" | "oven's"))
                    && !words.contains(&"down");
                let risen = words.iter().any(|word| {
                    matches!(*word, "risen" | "proved" | "proofed" | "ready" | "doubled")
                }) && words
                    .iter()
                    .any(|word| matches!(*word, "when" | "once" | "after"));
                let on_time = words.iter().any(|word| {
                    matches!(*word, "meanwhile" | "while" | "until" | "till" | "before")
                });
                // "Now that they're all the way up", "It's a finger off the rim. Only now do I light the oven."
                let up = is_up(&heard.speech.words[first..end])
                    && words
                        .iter()
                        .any(|word| matches!(*word, "when" | "once" | "after" | "now"));
                let only_now = words.first() == Some(&"only")
                    && words
                        .get(1)
                        .is_some_and(|word| matches!(*word, "now" | "then"))
                    && is_up(&heard.speech.words[just_said.0..just_said.1]);
                // "Let it rise for an hour. After that hour you can put the oven on."
                let after_that = words.windows(3).any(|three| {
                    three[0] == "after"
                        && three[1] == "that"
                        && matches!(three[2], "hour" | "time" | "rise" | "you" | "it")
                }) && doing(&heard.speech.words[just_said.0..just_said.1])
                    .meets(Doing::REST);
                // "It's two centimetres under the rim. Now I'd better get the oven going."
                let just = &heard.speech.words[just_said.0..just_said.1];
                let just_risen = just_said.1 > just_said.0
                    && is_over(heard, just_said.0, just_said.1)
                    && (is_up(just)
                        || just.iter().any(|word| word.lower == "risen")
                        || event(heard, just_said.0, just_said.1)
                            .iter()
                            .any(|point| is_rise(&heard.places[point.step])));
                let stage = has(&["at", "this", "stage"]) || has(&["at", "this", "point"]);
                let next = just_risen
                    && (stage && has(&["sooner"])
                        || matches!(words.first(), Some(&"now" | &"right" | &"so"))
                        || words.contains(&"better"));
                let lit = lit || next && deeds.meets(Doing::PREHEAT) && words.contains(&"oven");
                // "I don't even think about the oven until the knots are fully puffed"
                let until = words
                    .iter()
                    .position(|word| matches!(*word, "until" | "till"))
                    .unwrap_or(words.len());
                let not_until = words[..until]
                    .iter()
                    .any(|word| matches!(*word, "don't" | "not" | "never" | "won't"))
                    && words[..until]
                        .iter()
                        .any(|word| matches!(*word, "oven" | "oven's"))
                    && words[until..].iter().any(|word| {
                        matches!(
                            *word,
                            "risen" | "puffed" | "proved" | "doubled" | "ready" | "up"
                        )
                    });
                if not_until || goes_in_cold(&heard.speech.words[first..end]) {
                    return Some(format!(
                        "by then the dough is ready, and the oven needs {} to heat.",
                        say::duration(timing.usual.value)
                    ));
                }
                let at_once = next && has(&["before", "i", "do", "anything"]);
                let risen =
                    risen || (up || only_now || after_that || next) && (!on_time || at_once);
                // "And now that it's all brushed and cut, turn the oven on."
                let dressed = words.contains(&"now")
                    && words
                        .iter()
                        .any(|word| matches!(*word, "brushed" | "slashed" | "scored" | "cut"));
                if lit && (risen || last_minute || dressed && deeds.meets(Doing::PREHEAT)) {
                    return Some(format!(
                        "by then the dough is ready, and the oven needs {} to heat.",
                        say::duration(timing.usual.value)
                    ));
                }
            }
            Action::Rest { timing, .. } if timing.usual.value >= plan::elapsed::OVERNIGHT => {
                let made = words
                    .iter()
                    .any(|word| matches!(*word, "make" | "mix" | "stir" | "start" | "begin"))
                    && !words
                        .iter()
                        .any(|word| matches!(*word, "night" | "evening" | "yesterday" | "until"));
                let named = heard
                    .mentions_in(first, end)
                    .iter()
                    .flat_map(|mention| &mention.things)
                    .any(|thing| heard.things[*thing].sort == Sort::Stage(place.section));
                let meanwhile = words.contains(&"while")
                    && words
                        .iter()
                        .any(|word| matches!(*word, "rising" | "rises" | "dough's" | "resting"));
                // "I start the preferment when I get up".
                let that_day = has(&["when", "i", "get", "up"])
                    || has(&["when", "you", "get", "up"])
                    || has(&["this", "morning"])
                    || has(&["in", "the", "morning"])
                    || has(&["after", "breakfast"])
                    || has(&["an", "hour", "before"])
                    || has(&["same", "day"]);
                if made && named && (meanwhile || last_minute || that_day) {
                    return Some(format!(
                        "the {} needs {} before anything else can begin.",
                        place.of,
                        say::duration(timing.usual.value)
                    ));
                }
            }
            _ => {}
        }
    }
    turned_round(heard, sentence)
}

/// "You leave it in the fridge until the very minute you need it".
fn kept_cold(words: &[&str]) -> bool {
    let any = |wanted: &[&str]| words.iter().any(|word| wanted.contains(word));
    any(&["fridge", "refrigerator"])
        && any(&[
            "leave", "keep", "stays", "leaves", "keeps", "lives", "sits", "stay",
        ])
}

/// "It" was named at most so many sentences before.
const LATELY: usize = 3;

/// Whether the sentences before have come past a step.
fn is_past(heard: &Heard, sentence: usize, step: usize) -> bool {
    heard.aligned[..sentence]
        .iter()
        .rev()
        .find(|(_, told)| *told)
        .is_some_and(|(own, _)| *own > step)
}

/// "Shape it first and then chill it", where the recipe chills before it shapes.
fn turned_round(heard: &Heard, sentence: usize) -> Option<String> {
    let (first, end) = heard.speech.sentences[sentence];
    // Where nothing parts sentences, "then" may begin the next.
    let words = &heard.speech.words[first..(end + 6).min(heard.speech.words.len())];
    let at = words[..end - first]
        .iter()
        .position(|word| word.lower == "first")?;
    let then = at
        + words[at..]
            .iter()
            .position(|word| matches!(word.lower.as_str(), "then" | "after"))?;
    if then > at + 4 {
        return None;
    }
    let known = [Doing::CHILL, Doing::SHAPE, Doing::DIVIDE, Doing::FOLD];
    let one = |words: &[Word]| known.into_iter().find(|own| doing(words).meets(*own));
    let before = one(&words[at.saturating_sub(4)..at])?;
    let after = one(&words[then..(then + 5).min(words.len())])?;
    let place = |own: Doing| {
        heard
            .places
            .iter()
            .find(|place| place.doing.meets(own))
            .map(|place| place.number)
    };
    (before != after && place(before)? > place(after)?)
        .then(|| "the recipe has these two the other way round.".to_owned())
}
