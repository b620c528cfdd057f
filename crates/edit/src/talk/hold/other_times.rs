//! Another time of the recipe that was meant, where the likeliest differs: in the background, to the minute, of a moment ago.

use super::Verdict;
use crate::talk::doing::{Doing, doing};
use crate::talk::facts::{Fact, Sort};
use crate::talk::heard::{Around, Heard, steps_off};
use crate::talk::speech::Figure;
use crate::talk::things::Sort as Of;
use recipe::measure::spoken::Meant;

/// A time that goes on in the background, a fold's or a heating oven's, just as long as said, where the clause does
/// not tell what is done: "half an hour and then half an hour again" between folds, "it's had its twenty-five minutes".
pub(super) fn beside(
    heard: &Heard,
    scored: &[(usize, f64, bool, bool)],
    around: &Around,
    differs: usize,
) -> Option<usize> {
    if around.clause.meets(heard.facts[differs].doing) {
        return None;
    }
    scored
        .iter()
        .filter(|(place, _, _, fits)| {
            let fact = &heard.facts[*place];
            // "On the lower third of the oven, for twenty-six minutes, until it is brown": an oven that is hot heats no more.
            let hot = fact.doing.meets(Doing::PREHEAT)
                && around.sentence.meets(Doing::BAKE)
                && !around.sentence.meets(Doing::PREHEAT);
            *fits
                && !hot
                && fact
                    .doing
                    .meets(Doing::FOLD.and(Doing::PREHEAT).and(Doing::WAKE))
                && fact.section == heard.facts[differs].section
                && steps_off(around, fact) <= STEPS_BESIDE
        })
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(place, ..)| *place)
}

/// A time far off the one that would be meant, and just that of a step which the talk has come through a moment ago: the
/// ten minutes of rest after all pieces were told, bread by bread.
pub(super) fn just_before(
    heard: &Heard,
    at: usize,
    scored: &[(usize, f64, bool, bool)],
    differs: usize,
    verdicts: &[Verdict],
) -> Option<usize> {
    let figure = &heard.speech.figures[at];
    let Meant::Time(range) = &figure.spoken.meant else {
        return None;
    };
    let (low, usual) = (range.low.si().max(1.0), heard.facts[differs].usual.max(1.0));
    if (1.0 / FAR_OFF..=FAR_OFF).contains(&(low / usual)) {
        return None;
    }
    let (first, end) = heard.speech.sentences[figure.sentence];
    // Where nothing parts sentences, what was named longer ago is not waited for.
    let (from, to) = if heard.speech.bare {
        (
            first.max(figure.first.saturating_sub(WAITS_WORDS)),
            figure.end,
        )
    } else {
        (first, end)
    };
    let names = heard
        .mentions_in(from, to)
        .iter()
        .flat_map(|mention| &mention.things)
        .any(|thing| matches!(heard.things[*thing].sort, Of::Product(_)));
    let deed = doing(&heard.speech.words[first..end]);
    let came_through: Vec<usize> = heard.walk
        [figure.clause.saturating_sub(JUST_CLAUSES)..=figure.clause]
        .iter()
        .filter(|(_, told)| *told)
        .map(|(step, _)| *step)
        .collect();
    scored
        .iter()
        .filter(|(place, _, _, fits)| {
            let fact = &heard.facts[*place];
            *fits
                && !verdicts.contains(&Verdict::Agrees(*place))
                && fact.doing.meets(deed)
                && (!names || fact.section == heard.facts[differs].section)
                && !fact.doing.meets(Doing::STORE.and(Doing::TOTAL))
                && fact.step.is_some_and(|step| {
                    came_through
                        .iter()
                        .any(|own| step == *own || step == own + 1)
                })
        })
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(place, ..)| *place)
}

/// "Four of them are the loaf. Ball them up loose, cover them, ten minutes.": the rest that comes right after the dough is
/// divided, where all pieces are told of as "them", no bread is named, and that rest was not told yet.
pub(super) fn bench_rest(
    heard: &Heard,
    at: usize,
    scored: &[(usize, f64, bool, bool)],
    verdicts: &[Verdict],
) -> Option<usize> {
    let figure = &heard.speech.figures[at];
    let (first, end) = heard.speech.sentences[figure.sentence];
    // "Round them up loosely. Under a cloth, ten minutes."
    let (from, _) = heard.speech.sentences[figure.sentence.saturating_sub(1)];
    let words = &heard.speech.words[from..figure.first];
    let them = words
        .iter()
        .any(|word| matches!(word.lower.as_str(), "them" | "everything" | "all"));
    let round = words.iter().any(|word| {
        matches!(word.stem.as_str(), "round" | "ball") || word.lower.starts_with("loose")
    });
    let named = heard
        .mentions_in(first, end)
        .iter()
        .flat_map(|mention| &mention.things)
        .any(|thing| matches!(heard.things[*thing].sort, Of::Product(_)));
    if heard.speech.bare || !them || !round || named {
        return None;
    }
    let divided = heard
        .places
        .iter()
        .find(|place| place.doing.meets(Doing::DIVIDE))?
        .number;
    scored
        .iter()
        .find(|(place, _, _, fits)| {
            let fact = &heard.facts[*place];
            *fits
                && fact.step == Some(divided + 1)
                && fact.doing.meets(Doing::REST)
                && !verdicts.contains(&Verdict::Agrees(*place))
        })
        .map(|(place, ..)| *place)
}

/// What is so many times as long or as short was hardly meant.
const FAR_OFF: f64 = 3.0;

/// So many clauses back the talk has come through a step a moment ago.
const JUST_CLAUSES: usize = 14;

/// A time of the same part, to the minute, that is no round one: who says "two hours and twenty" where the recipe
/// cools for 140 min did not mean the night in the cold.
pub(super) fn exactly(heard: &Heard, at: usize, around: &Around, differs: usize) -> Option<usize> {
    let figure = &heard.speech.figures[at];
    let Meant::Time(range) = &figure.spoken.meant else {
        return None;
    };
    let minutes = range.low.minutes();
    let round = minutes < TELLING_MIN || (minutes / ROUND_MIN).fract().abs() < 0.01;
    if round || figure.spoken.is_range() {
        return None;
    }
    let parts = [heard.facts[differs].section, heard.section_of(around)];
    // "Cloth on again, and that's twenty-five minutes": what rises bakes nothing.
    let (first, end) = heard.speech.sentences[figure.sentence];
    let own = doing(&heard.speech.words[first..end]);
    let rises = heard.facts[differs].doing.meets(Doing::REST)
        && own.meets(Doing::REST)
        && !own.meets(Doing::BAKE.and(Doing::OVEN))
        && !heard.speech.bare;
    let told = |fact: &Fact| rises && fact.doing.meets(Doing::BAKE);
    heard.facts.iter().position(|fact| {
        fact.sort == Sort::Time
            && parts.contains(&fact.section)
            && fact.section.is_some()
            && steps_off(around, fact) <= STEPS_EXACT
            && !told(fact)
            && (around.clause.meets(fact.doing) || !around.clause.meets(heard.facts[differs].doing))
            && (fact.usual / range.low.si() - 1.0).abs() < 0.005
    })
}

/// Times under so many minutes, and multiples of so many, are said of many things.
const TELLING_MIN: f64 = 11.0;
const ROUND_MIN: f64 = 15.0;

/// So many steps off may a time stand that agrees to the minute.
const STEPS_EXACT: usize = 3;

/// So many steps off may a time be meant that its clause does not name.
pub(super) const STEPS_BESIDE: usize = 2;

/// "Then butter. Add it little by little on medium, that is seven minutes": the step of the dough at which "it" goes in.
pub(super) fn fed(heard: &Heard, figure: &Figure) -> Option<usize> {
    let (first, _) = heard.speech.sentences[figure.sentence];
    let (before, _) = heard.speech.sentences[figure.sentence.checked_sub(1)?];
    let words = &heard.speech.words[first..figure.first];
    let any = |wanted: &[&str]| {
        words
            .iter()
            .any(|word| wanted.contains(&word.lower.as_str()))
    };
    let own = heard.mentions_in(first, figure.first).is_empty();
    if !own || !any(&["it", "them"]) || !any(&["add", "feed", "put", "drop", "work", "goes"]) {
        return None;
    }
    let mention = heard
        .mentions_in(before, first)
        .iter()
        .rev()
        .find(|mention| heard.things[mention.things[0]].sort == Of::Ingredient)?;
    let main = crate::talk::points::main_stage(heard);
    heard
        .facts
        .iter()
        .find(|fact| {
            fact.sort == Sort::Amount
                && !fact.only_allowed
                && fact.section == Some(main)
                && fact
                    .thing
                    .is_some_and(|thing| mention.things.contains(&thing))
        })
        .and_then(|fact| fact.step)
}

/// Whether a time is how long something waits: "leave it for ten minutes", "let them rest, forty minutes".
pub(super) fn waits(heard: &Heard, figure: usize) -> bool {
    let words = &heard.speech.words;
    let (first, _) = heard.speech.sentences[words[figure].sentence];
    let from = first.max(figure.saturating_sub(WAITS_WORDS));
    words[from..figure].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "leave"
                | "let"
                | "rest"
                | "rests"
                | "wait"
                | "give"
                | "cool"
                | "cools"
                | "stand"
                | "stands"
        )
    })
}

/// What waits is told within so many words before its time.
const WAITS_WORDS: usize = 9;
