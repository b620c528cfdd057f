//! Counts: pieces, eggs, folds, people.

#![allow(clippy::float_cmp)] // numbers as they are said are whole, or the same number twice

use super::Verdict;
use super::divided::divided;
use super::folds::folded_so_often;
use super::meant_counts::{cut_for, cut_of_the_topic, is_piece};
use super::not_counted::{eaten, lots, parts_of_another, people_only, sliced};
use super::scaled::scaled;
use super::slashes::slashed;
use super::sums::counts_all;
use crate::talk::doing::Doing;
use crate::talk::facts::Sort;
use crate::talk::facts::counts::{GROWTH, IN_ALL, SLASHES};
use crate::talk::heard::Heard;
use crate::talk::speech::Figure;
use crate::talk::things::Sort as Of;
use recipe::document::model::Action;
use recipe::measure::spoken::{Meant, Nearness};

/// So many words may stand between a number and what it counts: "six little soft rolls".
pub(super) const BETWEEN: usize = 3;

/// Words between a number and a noun after which the noun is not what is counted.
const STOPS: [&str; 20] = [
    "under", "over", "around", "by", "of", "to", "in", "for", "and", "or", "at", "on", "the",
    "with", "into", "from", "a", "is", "more", "other",
];

/// A number of things.
pub(super) fn hold(heard: &Heard, at: usize) -> Verdict {
    let figure = &heard.speech.figures[at];
    let Meant::Number(low, high) = figure.spoken.meant else {
        return Verdict::Aside;
    };
    let words = &heard.speech.words;
    let before = figure
        .first
        .checked_sub(1)
        .map_or("", |n| words[n].lower.as_str());
    let whole = low.fract() == 0.0 && high.fract() == 0.0;
    if !whole || low > 60.0 || figure.spoken.nearness == Nearness::About && low == 2.0 {
        return Verdict::Aside;
    }
    if let Some(verdict) = scaled(heard, at) {
        return verdict;
    }
    // "With those five eggs in there": as many as were put in.
    let those = matches!(before, "those" | "these")
        && low >= 3.0
        && heard
            .mentions_in(figure.end, figure.end + BETWEEN)
            .first()
            .filter(|mention| words[mention.first].clause == figure.clause)
            .is_some_and(|mention| {
                heard.facts.iter().any(|fact| {
                    fact.sort == Sort::Count
                        && fact
                            .thing
                            .is_some_and(|thing| mention.things.contains(&thing))
                })
            });
    // "the first two", "these two", "another two" are some of them.
    if !those
        && matches!(
            before,
            "first" | "last" | "these" | "those" | "other" | "another" | "next" | "every" | "any"
        )
    {
        return Verdict::Aside;
    }
    let around = heard.around(figure);
    if eaten(heard, figure) {
        return Verdict::Aside;
    }
    if let Some(verdict) = slashed(heard, figure, low) {
        return verdict;
    }
    if people_only(heard, figure) {
        return Verdict::Aside;
    }
    // "Set them side by side in the tin, all seven."
    let here = heard.walk[figure.clause].0;
    let (_, clause_end) = heard.speech.clause(figure.first);
    if before == "all"
        && figure.end >= clause_end
        && let Some(place) = heard.places.get(here)
        && matches!(place.step.action, Action::Shape { .. })
    {
        return pieces_of(heard, figure, place.section);
    }
    let mut noun = None;
    #[allow(clippy::needless_range_loop)] // the place is kept
    for place in figure.end..(figure.end + BETWEEN + 1).min(words.len()) {
        // "One bowl, four tunes: eight knots"
        let next_number = heard.speech.figures.get(at + 1).is_some_and(|next| {
            next.first == place && matches!(next.spoken.meant, Meant::Number(..))
        });
        if next_number
            || words[place].clause != figure.clause
            || STOPS.contains(&words[place].lower.as_str())
        {
            break;
        }
        let mention = heard.mentions.iter().find(|m| m.first == place);
        let things: Vec<usize> = mention.map_or_else(Vec::new, |m| m.things.clone());
        let counted = heard.facts.iter().any(|fact| {
            fact.sort == Sort::Count
                && fact.path != SLASHES
                && (fact.doing != Doing::FOLD || folds(heard, figure))
                && (fact.thing.is_some_and(|thing| things.contains(&thing))
                    || fact.stems.contains(&words[place].stem)
                    || lots(before, &words[place].lower)
                        && fact.stems.iter().any(|stem| stem == "lot"))
        });
        if counted {
            noun = Some((place, things));
            break;
        }
    }
    let serves = words[..figure.first]
        .iter()
        .rev()
        .take(3)
        .any(|word| word.clause == figure.clause && word.stem == "serv");
    // "Three of them, large."
    let of_them = before != "the"
        && words.get(figure.end).is_some_and(|w| w.lower == "of")
        && words
            .get(figure.end + 1)
            .is_some_and(|w| matches!(w.lower.as_str(), "them" | "those" | "these"));
    // "Six thousand men, and only four of them": of what was counted just before.
    let of_others = heard.speech.figures[..at].last().is_some_and(|other| {
        other.sentence == figure.sentence
            && matches!(other.spoken.meant, Meant::Number(low, _) if low > figure.spoken.low)
    });
    if of_them && of_others && noun.is_none() {
        return Verdict::Aside;
    }
    if of_them && noun.is_none() {
        let from = heard.speech.sentences[figure.sentence.saturating_sub(3)].0;
        let egg = heard
            .mentions_in(from, figure.first)
            .iter()
            .rev()
            .find(|mention| {
                heard.facts.iter().any(|fact| {
                    fact.sort == Sort::Count
                        && fact
                            .thing
                            .is_some_and(|thing| mention.things.contains(&thing))
                })
            });
        noun = egg.map(|mention| (mention.first, mention.things.clone()));
    }
    let (s_first, s_end) = heard.speech.sentences[figure.sentence];
    let ours = words[s_first..s_end].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "house" | "family" | "us" | "we" | "i've"
        )
    });
    let serves = serves && !ours;
    if noun.is_none() && sliced(heard, figure) {
        return Verdict::Aside;
    }
    if noun
        .as_ref()
        .is_none_or(|(place, _)| is_piece(&words[*place].stem))
        && let Some(section) = cut_for(heard, figure)
    {
        return pieces_of(heard, figure, section);
    }
    if noun.is_none()
        && let Some(section) = cut_of_the_topic(heard, figure)
    {
        return pieces_of(heard, figure, section);
    }
    if noun.is_none()
        && let Some(verdict) = divided(heard, at)
    {
        return verdict;
    }
    let Some((place, things)) = noun.or_else(|| serves.then(|| (figure.end, Vec::new()))) else {
        return Verdict::Aside;
    };
    let stem = words.get(place).map_or("", |word| word.stem.as_str());
    let stem = if words
        .get(place)
        .is_some_and(|word| lots(before, &word.lower))
    {
        "lot"
    } else {
        stem
    };
    let twice = words[s_first.min(figure.first.saturating_sub(10))..s_end]
        .iter()
        .any(|word| matches!(word.lower.as_str(), "double" | "doubled" | "twice"));
    // "seven egg timers" are no seven eggs.
    let one_word = words
        .get(place)
        .is_some_and(|word| !word.lower.ends_with('s'));
    let compound = one_word
        && low > 1.0
        && words.get(place + 1).is_some_and(|next| {
            next.clause == figure.clause
                && next.lower.ends_with('s')
                && !matches!(
                    next.lower.as_str(),
                    "yolks" | "whites" | "is" | "was" | "as"
                )
        })
        && things
            .iter()
            .any(|thing| heard.things[*thing].sort == Of::Ingredient);
    if compound {
        return Verdict::Aside;
    }
    // One of a thing is rarely a count of it.
    if low <= 1.0
        && !things
            .iter()
            .any(|thing| matches!(heard.things[*thing].sort, Of::Ingredient))
    {
        return Verdict::Aside;
    }
    let in_all = counts_all(heard, figure);
    let scored: Vec<_> = heard
        .facts
        .iter()
        .enumerate()
        .filter(|(_, fact)| {
            fact.counts_things()
                && (in_all || fact.what != IN_ALL)
                && !parts_of_another(heard, figure, fact)
                && if serves && things.is_empty() {
                    fact.stems.iter().any(|own| own == "serv")
                } else {
                    fact.thing.is_some_and(|thing| things.contains(&thing))
                        || fact.thing.is_none() && fact.stems.iter().any(|own| own == stem)
                }
        })
        .map(|(place, fact)| {
            let fits = low <= fact.high && high >= fact.low
                || twice && (low / fact.usual.max(1.0) - 2.0).abs() < 0.01;
            (place, heard.score(&around, fact), fact.only_allowed, fits)
        })
        .collect();
    if let Some((fact, ..)) = scored
        .iter()
        .filter(|(_, _, _, fits)| *fits)
        .max_by(|a, b| a.1.total_cmp(&b.1))
        && things
            .iter()
            .any(|thing| heard.things[*thing].sort == Of::Ingredient)
        && scored.len() > 1
        && scored.iter().all(|(_, score, ..)| {
            *score
                <= scored
                    .iter()
                    .find(|(place, ..)| place == fact)
                    .map_or(0.0, |s| s.1)
                    + 3.0
        })
    {
        return Verdict::Agrees(*fact);
    }
    // So many times as many are of something else: "forty people here for these".
    let far = |verdict: Verdict| match verdict {
        Verdict::Differs(fact)
            if low / heard.facts[fact].high.max(1.0) > FAR
                || low > 1.9 * heard.facts[fact].high
                    && heard.facts[fact].thing.is_none()
                    && serves =>
        {
            Verdict::Aside
        }
        // "Fold it once, from four sides": another number of the same step.
        Verdict::Differs(fact) => scored
            .iter()
            .find(|(place, _, _, fits)| {
                *fits
                    && heard.facts[*place].step.is_some()
                    && heard.facts[*place].step == heard.facts[fact].step
            })
            .map_or(Verdict::Differs(fact), |(place, ..)| {
                Verdict::Agrees(*place)
            }),
        verdict => verdict,
    };
    let story = heard.story(figure);
    // "from the four sides": what everybody knows; but "the twelve buns" are all of them.
    if before == "the" {
        let counted = |thing: &usize| {
            bread(heard, *thing).is_some() || heard.things[*thing].sort == Of::Ingredient
        };
        let all = place == figure.end && low >= 3.0 && things.iter().any(counted);
        return match super::decide(&scored, -6.0) {
            Verdict::Differs(_) if !all => Verdict::Aside,
            verdict => verdict,
        };
    }
    far(super::decide(
        &scored,
        -6.0 + if story > 5.0 { 2.0 * story } else { story },
    ))
}

/// Whether folding is spoken of, with the number or just before.
fn folds(heard: &Heard, figure: &Figure) -> bool {
    let around = heard.around(figure);
    around
        .clause
        .and(around.sentence)
        .and(around.before)
        .meets(Doing::FOLD)
}

/// The section of a bread, where a thing is one.
pub(super) fn bread(heard: &Heard, thing: usize) -> Option<usize> {
    match heard.things[thing].sort {
        Of::Product(section) => Some(section),
        _ => None,
    }
}

/// Whether the dough is divided where a figure is said, or in a step beside.
pub(super) fn dividing(heard: &Heard, figure: &Figure) -> bool {
    let here = heard.walk[figure.clause].0;
    let mut places = heard.places.iter();
    places.any(|place| place.doing.meets(Doing::DIVIDE) && place.number.abs_diff(here) <= 1)
}

/// So many pieces for a bread: one of the numbers that the recipe has of it.
pub(super) fn pieces_of(heard: &Heard, figure: &Figure, section: usize) -> Verdict {
    let of = || {
        heard.facts.iter().enumerate().filter(|(_, fact)| {
            fact.sort == Sort::Count
                && fact.section == Some(section)
                && fact.path != GROWTH
                && fact.doing != Doing::FOLD
        })
    };
    let said = figure.spoken.low;
    if let Some((fact, _)) = of().find(|(_, fact)| (fact.usual - said).abs() < 0.01) {
        return Verdict::Agrees(fact);
    }
    of().filter(|(_, fact)| !fact.only_allowed && fact.usual >= 2.0)
        .max_by(|a, b| a.1.usual.total_cmp(&b.1.usual))
        .map_or(Verdict::Aside, |(fact, _)| Verdict::Differs(fact))
}

/// Who says more than so many times as many speaks of something else.
pub(super) const FAR: f64 = 6.0;

/// A dough may have grown by a fifth more or less than is written.
const GROWTH_SLACK: f64 = 0.21;

/// "Fold it twice", "until it's doubled".
pub(super) fn hold_times(heard: &Heard, at: usize) -> Verdict {
    let figure = &heard.speech.figures[at];
    let Meant::Times(low, high) = figure.spoken.meant else {
        return Verdict::Aside;
    };
    if let Some(verdict) = slashed(heard, figure, low) {
        return verdict;
    }
    let around = heard.around(figure);
    let words = &heard.speech.words;
    // "You pull each side up and over, and do that six times."
    let (clause_first, _) = heard.speech.clause(figure.first);
    let that = heard.speech.words[clause_first..figure.first]
        .windows(2)
        .any(|two| {
            matches!(two[0].lower.as_str(), "do" | "repeat")
                && matches!(two[1].lower.as_str(), "that" | "this" | "it")
        });
    let deed = if that {
        around.clause.and(around.sentence).and(around.before)
    } else {
        around.clause
    };
    if let Some(verdict) = folded_so_often(heard, figure).filter(|_| !deed.meets(Doing::FOLD)) {
        return verdict;
    }
    let fold = deed.meets(Doing::FOLD) && low.fract() == 0.0;
    let next = |more: usize| {
        words
            .get(figure.end + more)
            .map_or("", |word| word.lower.as_str())
    };
    let before = figure
        .first
        .checked_sub(1)
        .map_or("", |n| words[n].lower.as_str());
    let size = matches!(
        (next(0), next(1)),
        ("as", "big" | "large")
            | ("in", "size" | "volume")
            | ("its" | "the" | "bigger" | "larger", _)
            | ("what", "you" | "it")
    );
    let word = words[figure.first].lower.as_str();
    let grown = size
        || word.ends_with("ed") && !matches!(before, "have" | "be")
        || matches!(before, "until" | "to" | "about" | "nearly" | "almost")
            && word.starts_with("doubl");
    let by_growth = !fold && grown && around.clause.and(around.sentence).meets(Doing::REST);
    if !fold && !by_growth {
        return Verdict::Aside;
    }
    let scored: Vec<_> = heard
        .facts
        .iter()
        .enumerate()
        .filter(|(_, fact)| {
            fact.sort == Sort::Count
                && if fold {
                    fact.doing == Doing::FOLD
                } else {
                    fact.path == GROWTH
                }
        })
        .map(|(place, fact)| {
            let slack = if fold { 0.0 } else { fact.usual * GROWTH_SLACK };
            let fits = low <= fact.high + slack && high >= fact.low - slack;
            (place, heard.score(&around, fact), fact.only_allowed, fits)
        })
        .collect();
    super::decide(&scored, if that && fold { -6.0 } else { 3.0 })
}
