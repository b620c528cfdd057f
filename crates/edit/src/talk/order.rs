//! What is said in another order, or put in at another place, than the recipe has it.

use super::doing::{Doing, doing};
use super::facts::{COMMON, in_words};
use super::finding::Finding;
use super::heard::{Heard, denies};
use super::points::{COLD_PLACES, is_cold};
use super::things::{Sort, mentions};
use super::track::Track;
use crate::ledger::say;
use recipe::document::model::Action;
use recipe::measure::spoken::Meant;

/// Everything that is told in another order.
pub(super) fn orders(heard: &Heard, track: &Track) -> Vec<Finding> {
    let mut found = Vec::new();
    let written = written_order(heard);
    for sentence in 0..heard.speech.sentences.len() {
        if heard.asks(sentence) || heard.story_of(sentence) > 0.0 || heard.is_framed(sentence) {
            continue;
        }
        let message = elsewhere(heard, sentence)
            .or_else(|| not_until(heard, sentence))
            .or_else(|| folded_after(heard, sentence))
            .or_else(|| chilled_in_pieces(heard, sentence))
            .or_else(|| turned(heard, sentence, &written));
        if let Some(message) = message {
            let span = heard.speech.sentence_span(sentence);
            found.push(Finding::of_order(heard, track, span, &message));
        }
    }
    found
}

/// Words by which something goes in.
const GOES_IN: [&str; 14] = [
    "put", "add", "stir", "mix", "whisk", "goes", "go", "tip", "pour", "sprinkle", "throw",
    "knead", "work", "beat",
];

fn has(heard: &Heard, sentence: usize, wanted: &[&str]) -> bool {
    let (first, end) = heard.speech.sentences[sentence];
    heard.speech.words[first..end]
        .iter()
        .any(|word| wanted.contains(&word.lower.as_str()))
}

/// "Put the salt in the sponge", where the salt belongs to the dough.
fn elsewhere(heard: &Heard, sentence: usize) -> Option<String> {
    let (first, end) = heard.speech.sentences[sentence];
    let words = &heard.speech.words;
    let denied = words[first..end].iter().any(|word| denies(&word.lower));
    if !has(heard, sentence, &GOES_IN) || denied {
        return None;
    }
    let all = heard.mentions_in(first, end);
    for pair in all.windows(2) {
        let (one, other) = (&pair[0], &pair[1]);
        let between = &words[one.end..other.first];
        // "The honey goes in the sponge", "the honey goes into your sponge too".
        let verb = between
            .first()
            .is_some_and(|word| GOES_IN.contains(&word.lower.as_str()));
        let into = between.len() <= 3 + usize::from(verb)
            && between
                .get(usize::from(verb))
                .is_some_and(|word| matches!(word.lower.as_str(), "in" | "into" | "to"));
        let Sort::Stage(stage) = heard.things[other.things[0]].sort else {
            continue;
        };
        let goes = verb
            || words[first..one.first]
                .iter()
                .rev()
                .take(4)
                .any(|word| GOES_IN.contains(&word.lower.as_str()));
        if !into || !goes || heard.things[one.things[0]].sort != Sort::Ingredient {
            continue;
        }
        let name = &heard.inputs.recipe.stages[stage].name.value;
        let takes = heard.facts.iter().any(|fact| {
            fact.section == Some(stage) && fact.thing.is_some_and(|own| one.things.contains(&own))
        });
        let last = stage + 1 == heard.inputs.recipe.stages.len();
        let home = heard.facts.iter().find(|fact| {
            !fact.only_allowed
                && fact.thing.is_some_and(|own| one.things.contains(&own))
                && fact.section.is_some_and(|at| at != stage)
        });
        if let (false, false, Some(home)) = (takes || name == "dough", last, home) {
            return Some(format!(
                "the recipe puts no {} into the {name}; it has {} of {}.",
                heard.things[one.things[0]].name, home.shown, home.what
            ));
        }
    }
    None
}

/// "When the eighty minutes are up you fold it": after the rise that the recipe folds in.
fn folded_after(heard: &Heard, sentence: usize) -> Option<String> {
    let (first, end) = heard.speech.sentences[sentence];
    let words = &heard.speech.words;
    // "Leave it till the eighty minutes are up, and only then do you fold it"
    let then = has(heard, sentence, &["then"]);
    let when = (first..end).find(|at| match words[*at].lower.as_str() {
        "when" | "once" | "after" => true,
        "until" | "till" => then,
        _ => false,
    })?;
    let over = (when..end.min(when + 9)).find(|at| {
        matches!(
            words[*at].lower.as_str(),
            "up" | "over" | "done" | "through" | "finished" | "gone" | "passed"
        )
    })?;
    let fold = (over..end).any(|at| words[at].stem == "fold");
    let (folds, rest) =
        heard.places.iter().find_map(|place| {
            let Action::Fold { into_rest, .. } = &place.step.action else {
                return None;
            };
            let rest = heard.places[..place.number].iter().rev().find_map(|rest| {
                match &rest.step.action {
                    Action::Rest { timing, .. } if rest.section == place.section => {
                        Some(timing.usual.value)
                    }
                    _ => None,
                }
            })?;
            let last = into_rest.last()?.value;
            (last.si() < LATE_SHARE * rest.si()).then_some((last, rest))
        })?;
    let told = heard
        .speech
        .figures
        .iter()
        .find(|figure| figure.first > when && figure.end <= over)?;
    let whole = match &told.spoken.meant {
        Meant::Time(range) => range.low.si() >= LATE_SHARE * rest.si(),
        _ => false,
    };
    (fold && whole).then(|| {
        format!(
            "the recipe folds during the rise, {} after it began.",
            say::duration(folds)
        )
    })
}

/// "I cut my pieces, and it's the pieces that go in the fridge", where the recipe chills the dough before it is divided.
fn chilled_in_pieces(heard: &Heard, sentence: usize) -> Option<String> {
    let (first, end) = heard.speech.sentences[sentence];
    let words = &heard.speech.words;
    let stages = heard.inputs.recipe.stages.len();
    let cold = heard.places.iter().find(|place| is_cold(place))?;
    let divided = heard
        .places
        .iter()
        .find(|place| matches!(place.step.action, Action::Divide { .. }))?;
    if cold.number > divided.number
        || heard
            .places
            .iter()
            .any(|place| place.section >= stages && is_cold(place))
    {
        return None;
    }
    // "You can plait it straight off and chill the plait"
    let chilled = words[first..end].windows(3).any(|three| {
        three[0].lower == "chill"
            && matches!(three[1].lower.as_str(), "the" | "your" | "those")
            && (matches!(
                three[2].lower.as_str(),
                "plait" | "braid" | "pieces" | "balls" | "knots" | "rolls" | "buns" | "ropes"
            ))
    });
    if chilled
        && !has(
            heard,
            sentence,
            &["if", "overnight", "ahead", "don't", "not", "never"],
        )
    {
        return Some(format!(
            "the recipe chills the dough in step {}, before it is divided.",
            cold.number + 1
        ));
    }
    let fridge = (first..end).find(|at| COLD_PLACES.contains(&words[*at].lower.as_str()))?;
    let led = words[first..fridge]
        .iter()
        .rev()
        .take(3)
        .any(|word| matches!(word.lower.as_str(), "in" | "into"));
    let near = first.max(fridge.saturating_sub(PIECES_WORDS));
    let pieces = words[near..fridge].windows(2).any(|two| {
        matches!(
            two[0].lower.as_str(),
            "pieces" | "balls" | "strips" | "ropes" | "strands" | "shaped"
        ) && matches!(
            two[1].lower.as_str(),
            "that" | "go" | "goes" | "then" | "and" | "in" | "into" | "back"
        )
    });
    let kept = has(
        heard,
        sentence,
        &[
            "if",
            "could",
            "can",
            "overnight",
            "night",
            "ahead",
            "tomorrow",
            "wait",
            "freezer",
            "keep",
            "don't",
            "not",
            "never",
        ],
    );
    // "Into its four sorts with it, knots, rolls, wreath and loaf, and then they all go in the fridge"
    let breads = heard
        .mentions_in(first, fridge)
        .iter()
        .filter(|mention| product(heard, mention.things[0]).is_some())
        .count();
    let they = words[near..fridge]
        .iter()
        .any(|word| matches!(word.lower.as_str(), "they" | "them" | "all" | "those"));
    let pieces = pieces || breads >= 2 && they;
    (led && pieces && !kept).then(|| {
        format!(
            "the recipe chills the dough in step {}, before it is divided.",
            cold.number + 1
        )
    })
}

/// Pieces are named within so many words before the cold that they go into.
const PIECES_WORDS: usize = 10;

/// A fold after so much of the rise is at its end.
const LATE_SHARE: f64 = 0.85;

/// "I don't put the salt in until the second fold": later than the recipe's own step.
fn not_until(heard: &Heard, sentence: usize) -> Option<String> {
    let (first, end) = heard.speech.sentences[sentence];
    let words = &heard.speech.words;
    let until = (first..end).find(|at| matches!(words[*at].lower.as_str(), "until" | "till"))?;
    let held = words[first..until]
        .iter()
        .any(|word| matches!(word.lower.as_str(), "don't" | "not" | "doesn't" | "never"));
    let goes = words[first..until]
        .iter()
        .any(|word| GOES_IN.contains(&word.lower.as_str()));
    if !held || !goes {
        return None;
    }
    let later = doing(&words[until..(until + 5).min(end)]);
    let known = [
        Doing::FOLD,
        Doing::REST,
        Doing::SHAPE,
        Doing::DIVIDE,
        Doing::CHILL,
    ];
    let deed = known.into_iter().find(|own| later.meets(*own))?;
    let mention = heard
        .mentions_in(first, until)
        .iter()
        .find(|mention| heard.things[mention.things[0]].sort == Sort::Ingredient)?;
    let own = heard.facts.iter().find(|fact| {
        !fact.only_allowed
            && fact.step.is_some()
            && fact.thing.is_some_and(|own| mention.things.contains(&own))
    })?;
    let step = own.step?;
    let then = heard.places.iter().find(|place| {
        place.number > step && Some(place.section) >= own.section && place.doing.meets(deed)
    })?;
    let there = then
        .stems
        .iter()
        .any(|stem| own.stems.contains(stem) && !COMMON.contains(&stem.as_str()));
    (!there || then.number > step + 1).then(|| {
        format!(
            "the recipe has {} of {} in step {}; by then it is step {}.",
            own.shown,
            own.what,
            step + 1,
            then.number + 1
        )
    })
}

/// The order of the bakes, where the author's notes say one: "Bake in the order knots, rolls, wreath, loaf."
fn written_order(heard: &Heard) -> Vec<usize> {
    let recipe = heard.inputs.recipe;
    let texts = recipe.notes.iter().chain(recipe.headnote.iter());
    for text in texts {
        let speech = in_words(&text.value);
        let all = mentions(&speech, &heard.things);
        for &(first, end) in &speech.sentences {
            let ordered = speech.words[first..end]
                .iter()
                .any(|word| matches!(word.lower.as_str(), "order" | "first"));
            let products: Vec<usize> = all
                .iter()
                .filter(|mention| (first..end).contains(&mention.first))
                .filter_map(|mention| product(heard, mention.things[0]))
                .collect();
            if ordered && products.len() >= 2 {
                return products;
            }
        }
    }
    Vec::new()
}

fn product(heard: &Heard, thing: usize) -> Option<usize> {
    match heard.things[thing].sort {
        Sort::Product(section) => Some(section),
        _ => None,
    }
}

/// "The loaf goes in next, and the wreath last of all", where the recipe bakes the wreath before the loaf.
fn turned(heard: &Heard, sentence: usize, written: &[usize]) -> Option<String> {
    let (first, end) = heard.speech.sentences[sentence];
    let goes_in = has(
        heard,
        sentence,
        &["goes", "go", "going", "bake", "bakes", "baked"],
    );
    let row = has(
        heard,
        sentence,
        &["next", "last", "first", "finally", "followed"],
    );
    let other_way = has(heard, sentence, &["before", "after"]);
    if written.len() < 2 || !goes_in || !row || other_way {
        return None;
    }
    let said: Vec<usize> = heard
        .mentions_in(first, end)
        .iter()
        .filter_map(|mention| product(heard, mention.things[0]))
        .collect();
    let rank = |section: &usize| written.iter().position(|own| own == section);
    let back = said
        .windows(2)
        .any(|two| matches!((rank(&two[0]), rank(&two[1])), (Some(a), Some(b)) if a > b));
    let names: Vec<String> = written
        .iter()
        .map(|section| {
            let at = section - heard.inputs.recipe.stages.len();
            heard.inputs.recipe.products[at].name.value.clone()
        })
        .collect();
    back.then(|| format!("the recipe bakes in the order {}.", say::list(&names)))
}
