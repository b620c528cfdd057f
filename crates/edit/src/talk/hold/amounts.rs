//! Amounts: which ingredient is meant, in which stage, and whether it is all of it.

use super::linked::{linked, says_where};
use super::parts::{given_off, in_all, in_parts, share_of_it, shares, sums_up, together};
use super::sums::{SUMS, all_kinds, before_its_company, same_again, says_what_is_needed};
use super::{Verdict, decide, decide_within, fits};
use crate::talk::doing::Doing;
use crate::talk::facts::Sort;
use crate::talk::heard::{Around, Heard};
use crate::talk::speech::Figure;
use crate::talk::things::Sort as Of;
use recipe::document::model::{Amount, Spooned};
use recipe::larder::Ingredient;
use recipe::measure::spoken::{Meant, Spoken};
use recipe::measure::{Measure, weigh};

/// An amount of something that is named goes with its item from this score on.
const LEAST: f64 = -6.0;

/// A mass, a volume or so many packets.
pub(super) fn hold(heard: &Heard, at: usize, verdicts: &[Verdict]) -> Verdict {
    let figure = &heard.speech.figures[at];
    if thinned(heard, figure) {
        return Verdict::Aside;
    }
    if let Some(fact) = together(heard, at) {
        return Verdict::Agrees(fact);
    }
    if let Some(fact) = same_again(heard, at, verdicts) {
        return Verdict::Agrees(fact);
    }
    let linked = linked(heard, at);
    let ingredient = linked
        .iter()
        .any(|thing| heard.things[*thing].sort == Of::Ingredient);
    if !ingredient {
        return match share_of_it(heard, at) {
            Some((fact, true)) => Verdict::Agrees(fact),
            Some((fact, false)) => Verdict::Differs(fact),
            None => pieces(heard, figure, &linked),
        };
    }
    if let Some(fact) = all_kinds(heard, figure, &linked) {
        return Verdict::Agrees(fact);
    }
    let around = heard.around(figure);
    let shares = shares(heard, figure);
    let in_all = in_all(heard, figure);
    let summed = sums_up(heard, figure);
    let direct = heard
        .mentions_in(figure.end, figure.end + 5)
        .first()
        .is_some_and(|mention| heard.speech.words[mention.first].clause == figure.clause);
    let (s_first, s_end) = heard.speech.sentences[figure.sentence];
    let in_all_loosely = heard.speech.words[s_first..s_end]
        .iter()
        .any(|word| matches!(word.lower.as_str(), "all" | "buy" | "shop" | "shopping"));
    let added = heard.speech.words[s_first..s_end].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "with" | "plus" | "including" | "far" | "flours" | "full"
        )
    }) || says_what_is_needed(heard, figure);
    let mut scored = Vec::new();
    for (place, fact) in heard.facts.iter().enumerate() {
        let Some(thing) = fact
            .thing
            .filter(|thing| fact.sort == Sort::Amount && linked.contains(thing))
        else {
            continue;
        };
        let own = heard.things[thing].ingredient.as_ref();
        let Some((low, high)) = masses(&figure.spoken, own) else {
            continue;
        };
        let shares: &[f64] = if fact.only_allowed { &[1.0] } else { &shares };
        let fits = shares
            .iter()
            .any(|share| fits::mass(low, high, &figure.spoken, fact.usual * share));
        let mut score = heard.score(&around, fact);
        // An amount already said for one item is likelier meant for the next.
        let said = verdicts.contains(&Verdict::Agrees(place));
        if said {
            score -= 1.0;
        }
        if fact.doing == Doing::FINISH && !around.sentence.meets(Doing::FINISH) {
            score -= 2.5;
        }
        // Flour of several stages is meant where the speaker adds up.
        if SUMS.contains(&fact.what.as_str()) && !(in_all || in_all_loosely || summed || added) {
            continue;
        }
        // "sugar, three hundred and seventeen in all"
        let total = fact.stems.iter().any(|stem| stem == "altogether");
        if total && summed && fits {
            return Verdict::Agrees(place);
        }
        if total && !in_all && !in_all_loosely {
            continue;
        }
        let in_all = in_all && total;
        if in_all {
            score += 8.0;
        }
        scored.push((place, score, fact.only_allowed && !in_all, fits));
    }
    let story = heard.story(figure);
    let least = LEAST + if story > 5.0 { 2.0 * story } else { 0.0 };
    // "Flour" alone may be any of several.
    let other_stage = if linked.len() > 1 {
        2.0 * OTHER_STAGE
    } else {
        OTHER_STAGE
    };
    // Where no stage is named with the figure, the recipe's amount for any of them may be meant.
    let margin = if heard.names_part(figure) {
        other_stage
    } else {
        f64::INFINITY
    };
    let verdict = decide_within(&scored, least, margin, f64::INFINITY);
    if let Verdict::Differs(place) = verdict {
        let unlike = |fact: &crate::talk::facts::Fact| {
            // "Twelve ounces" for 12 g is the figure with another unit.
            let same = (figure.spoken.low / (fact.usual * 1000.0) - 1.0).abs() < 0.02;
            !same
                && masses(&figure.spoken, None).is_some_and(|(low, _)| {
                    !(1.0 / UNLIKE..=UNLIKE).contains(&(low / fact.usual.max(1e-6)))
                })
        };
        // "A dusting of flour, and turn it out. It's nine hundred and thirty grams": what it is of weighs a tenth of that.
        let far_off = |fact: &crate::talk::facts::Fact| {
            masses(&figure.spoken, None)
                .is_some_and(|(low, _)| low / fact.usual.max(1e-6) > FAR_OFF)
        };
        let piece = heard.facts.iter().position(|fact| {
            let (low, high) = masses(&figure.spoken, None).unwrap_or((0.0, 0.0));
            fact.sort == Sort::Amount
                && fact
                    .thing
                    .is_none_or(|thing| heard.things[thing].sort != Of::Ingredient)
                && fits::mass(low, high, &figure.spoken, fact.usual)
        });
        match piece {
            // "Flour on the bench. Two pounds and a bit on my scale."
            Some(piece) if !direct && (weighed(heard, figure) || far_off(&heard.facts[place])) => {
                return Verdict::Agrees(piece);
            }
            _ if unlike(&heard.facts[place]) => {
                // "With the two hundred and eighty grams of butter in there": not what goes on top.
                let other = scored
                    .iter()
                    .filter(|(own, _, allowed, _)| !allowed && !unlike(&heard.facts[*own]))
                    .max_by(|a, b| a.1.total_cmp(&b.1))
                    .filter(|(_, score, ..)| *score >= least);
                return other.map_or(Verdict::Aside, |(own, ..)| Verdict::Differs(*own));
            }
            _ => {}
        }
    }
    if let Verdict::Differs(place) = verdict {
        if given_off(heard, figure) {
            return Verdict::Agrees(place);
        }
        // A part may be of what goes in at another stage.
        let thing = heard.facts[place].thing;
        let of = scored
            .iter()
            .map(|(own, ..)| *own)
            .filter(|own| heard.facts[*own].thing == thing && !heard.facts[*own].only_allowed);
        if let Some(whole) = std::iter::once(place)
            .chain(of)
            .find(|own| in_parts(heard, at, *own))
        {
            return Verdict::Agrees(whole);
        }
    }
    // "Chuck all the butter in with the flour and the eggs, a hundred and eighty grams": of what goes in, not of its company.
    if let Verdict::Differs(_) = verdict
        && let Some(other) = before_its_company(heard, figure)
    {
        return Verdict::Agrees(other);
    }
    if let Verdict::Differs(_) = verdict
        && let Some(other) = of_part(heard, figure, &around)
    {
        return Verdict::Agrees(other);
    }
    verdict
}

/// So many times as much is rather what all of it weighs.
const FAR_OFF: f64 = 8.0;

/// Nobody says grams for pounds of a thing: so many times off, another thing is meant.
const UNLIKE: f64 = 25.0;

/// A number alone that can be nothing but grams: "flour, two hundred and fifty-five".
pub(super) fn hold_bare(heard: &Heard, at: usize, verdicts: &[Verdict]) -> Verdict {
    let figure = &heard.speech.figures[at];
    let Meant::Number(low, _) = figure.spoken.meant else {
        return Verdict::Aside;
    };
    let words = &heard.speech.words;
    let word = |at: usize| words.get(at).map_or("", |word| word.lower.as_str());
    let next = word(figure.end);
    let ends = figure.end >= words.len()
        || words[figure.end].clause != figure.clause
        || matches!(next, "of" | "and" | "plus" | "in" | "exactly" | "this");
    // Of is said before what it is of; else the thing stands close before.
    let close = heard
        .mentions_in(figure.first.saturating_sub(8), figure.first)
        .iter()
        .rev()
        .find(|mention| !says_where(heard, mention.first))
        .is_some_and(|mention| {
            words[mention.first].sentence == figure.sentence
                && mention.end + 9 > figure.first
                && heard.things[mention.things[0]].sort == Of::Ingredient
        });
    let after = next == "of"
        && heard
            .mentions_in(figure.end, figure.end + 4)
            .first()
            .is_some_and(|mention| heard.things[mention.things[0]].sort == Of::Ingredient);
    // "Water, two hundred and twenty grams, that's at twenty-four" is no amount.
    let at_a_heat = word(figure.first.saturating_sub(1)) == "at" && figure.first > 0;
    if !ends || !(close || after) || at_a_heat {
        return Verdict::Aside;
    }
    // "and the eggs, three, large"
    let linked = linked(heard, at);
    let counted: Vec<usize> = heard
        .facts
        .iter()
        .enumerate()
        .filter(|(_, fact)| {
            fact.sort == Sort::Count && fact.thing.is_some_and(|thing| linked.contains(&thing))
        })
        .map(|(place, _)| place)
        .collect();
    if low < 30.0 && !counted.is_empty() {
        return counted
            .into_iter()
            .find(|place| (heard.facts[*place].usual - low).abs() < 0.01)
            .map_or(Verdict::Aside, Verdict::Agrees);
    }
    if low < 3.0 {
        return Verdict::Aside;
    }
    hold(heard, at, verdicts)
}

/// What each of some pieces weighs: "nine rolls at forty", "six for a knot". What differs is left alone.
pub(super) fn hold_each(heard: &Heard, at: usize, _: &[Verdict]) -> Verdict {
    let figure = &heard.speech.figures[at];
    let words = &heard.speech.words;
    let before = figure
        .first
        .checked_sub(1)
        .map_or("", |n| words[n].lower.as_str());
    let (first, end) = heard.speech.clause(figure.first);
    // "Rolls, six of forty."
    let counted = heard.speech.figures.iter().any(|other| {
        other.end + 1 == figure.first
            && other.sentence == figure.sentence
            && matches!(other.spoken.meant, Meant::Number(..))
    });
    let first = if counted {
        heard.speech.sentences[figure.sentence].0
    } else {
        first
    };
    let product = heard
        .mentions_in(first, end)
        .iter()
        .flat_map(|mention| &mention.things)
        .any(|thing| matches!(heard.things[*thing].sort, Of::Product(_)));
    if !product || !matches!(before, "at" | "of" | "to") {
        return Verdict::Aside;
    }
    match pieces(heard, figure, &[]) {
        Verdict::Agrees(fact) => Verdict::Agrees(fact),
        _ => Verdict::Aside,
    }
}

/// The amount of another stage is taken for meant when it goes with the figure less well by no more.
const OTHER_STAGE: f64 = 3.0;

/// A share of a filling, a piece of dough: something else of the part that is spoken of, to a hundredth.
fn of_part(heard: &Heard, figure: &Figure, around: &Around) -> Option<usize> {
    let (low, high) = masses(&figure.spoken, None)?;
    heard.facts.iter().position(|fact| {
        fact.sort == Sort::Amount
            && fact.section.is_some_and(|section| {
                around.is_about(section) || heard.section_of(around) == Some(section)
            })
            && fact
                .thing
                .is_none_or(|thing| heard.things[thing].sort != Of::Ingredient)
            && fact.what != "the stage"
            && fact.path.is_empty()
            && low <= fact.usual * 1.01
            && high >= fact.usual * 0.99
    })
}

/// "I weigh eight grams into water and take a tenth of it": what is weighed is not what goes in.
fn thinned(heard: &Heard, figure: &Figure) -> bool {
    let (_, end) = heard.speech.sentences[figure.sentence];
    let words = &heard.speech.words[figure.end..end.min(figure.end + THINNED_WORDS)];
    words.windows(4).any(|four| {
        matches!(
            four[0].lower.as_str(),
            "take" | "use" | "using" | "taking" | "add"
        ) && matches!(four[1].lower.as_str(), "a" | "one" | "half")
            && matches!(
                four[2].lower.as_str(),
                "tenth" | "fifth" | "quarter" | "third" | "half" | "hundredth" | "of"
            )
            && matches!(four[3].lower.as_str(), "of" | "it" | "that")
    })
}

/// The part that is taken is said within so many words.
const THINNED_WORDS: usize = 14;

/// The mass of what is said, in kilograms.
pub(in crate::talk) fn masses(
    spoken: &Spoken,
    ingredient: Option<&Ingredient>,
) -> Option<(f64, f64)> {
    match &spoken.meant {
        Meant::Mass(range) => Some((range.low.si(), range.high.si())),
        Meant::Number(low, high) => Some((low / 1000.0, high / 1000.0)),
        Meant::Volume(range) => {
            let of = |millilitres: f64| {
                let amount = Amount::Measures(vec![Spooned {
                    count: millilitres,
                    measure: Measure::Millilitre,
                }]);
                ingredient
                    .and_then(|own| weigh(own, &amount).ok())
                    .map(|(mass, _)| mass.si())
            };
            Some((of(range.low.millilitres())?, of(range.high.millilitres())?))
        }
        Meant::Packets(low, high) => {
            let of = |count: f64| {
                let amount = Amount::Count {
                    count,
                    size: Some("packet".to_owned()),
                };
                ingredient
                    .and_then(|own| weigh(own, &amount).ok())
                    .map(|(mass, _)| mass.si())
            };
            Some((of(*low)?, of(*high)?))
        }
        _ => None,
    }
}

/// Masses of pieces and doughs: "sixty-five grams each", "it's usually about eight hundred grams".
fn pieces(heard: &Heard, figure: &Figure, linked: &[usize]) -> Verdict {
    let Some((low, high)) = masses(&figure.spoken, None) else {
        return Verdict::Aside;
    };
    let around = heard.around(figure);
    let scored: Vec<_> = heard
        .facts
        .iter()
        .enumerate()
        .filter(|(_, fact)| {
            // What a stage weighs is meant only where the stage is named with it.
            let own =
                fact.what != "the stage" || fact.thing.is_some_and(|thing| linked.contains(&thing));
            fact.sort == Sort::Amount
                && own
                && fact
                    .thing
                    .is_none_or(|thing| heard.things[thing].sort != Of::Ingredient)
        })
        .map(|(place, fact)| {
            let fits = fits::mass(low, high, &figure.spoken, fact.usual);
            let mut score = heard.score(&around, fact);
            // Nobody takes a knot for a wreath, nor a pinch for a loaf.
            let ratio = high / fact.usual;
            if !(0.4..=2.5).contains(&ratio) {
                score -= 3.0;
            }
            if !(0.1..=10.0).contains(&ratio) {
                score -= 12.0;
            }
            (place, score, fact.only_allowed, fits)
        })
        .collect();
    let any = scored
        .iter()
        .filter(|(_, score, _, fits)| *fits && *score > -3.0)
        .max_by(|a, b| a.1.total_cmp(&b.1));
    let least = if weighed(heard, figure) { -1.5 } else { 3.0 };
    match (decide(&scored, least + heard.story(figure)), any) {
        (Verdict::Differs(_), Some((fact, ..))) => Verdict::Agrees(*fact),
        (verdict, _) => verdict,
    }
}

/// Whether pieces or a dough are put on the scale.
fn weighed(heard: &Heard, figure: &Figure) -> bool {
    let (first, end) = heard.speech.sentences[figure.sentence];
    heard.speech.words[first..end].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "each"
                | "apiece"
                | "weigh"
                | "weighs"
                | "piece"
                | "pieces"
                | "ball"
                | "balls"
                | "scale"
                | "scales"
                | "dough"
                | "total"
                | "done"
                | "bit"
                | "bits"
                | "strip"
                | "strips"
                | "rope"
                | "ropes"
                | "strand"
                | "portion"
        )
    })
}
