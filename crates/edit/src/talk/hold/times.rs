//! Times: which rise, bake, wait or mix is meant.

use super::other_times::{STEPS_BESIDE, bench_rest, beside, exactly, fed, just_before, waits};
use super::{Verdict, decide, decide_within, fits};
use crate::talk::doing::{Doing, doing};
use crate::talk::facts::Sort;
use crate::talk::heard::{Around, Heard, steps_off};
use crate::talk::speech::Word;
use crate::talk::things::Sort as Of;
use recipe::measure::spoken::Meant;

/// A time goes with a fact only from this score on.
const LEAST: f64 = 0.9;

/// A stretch of time.
pub(super) fn hold(heard: &Heard, at: usize, verdicts: &[Verdict]) -> Verdict {
    let figure = &heard.speech.figures[at];
    let Meant::Time(range) = &figure.spoken.meant else {
        return Verdict::Aside;
    };
    let words = &heard.speech.words;
    let after = words.get(figure.end).map_or("", |word| word.lower.as_str());
    let before = figure
        .first
        .checked_sub(1)
        .map_or("", |n| words[n].lower.as_str());
    // "give me a second", "ten minutes ago", "wait a minute"
    let idiom = figure.counts_down(&heard.speech)
        || figure.is_moment(&heard.speech)
        || figure.spoken.article
            && range.low.si() <= 60.0
            && !matches!(before, "for" | "about" | "another")
        || after == "ago"
        || range.high.si() < SHORTEST_S
        || range.low.hours() >= 20.0 && of_children(heard, figure.sentence)
        || matches!(before, "every");
    // "a couple of minutes" is as long as it takes.
    let couple = range.high.si() < COUPLE_S
        && words[figure.first..figure.end]
            .iter()
            .any(|word| word.lower == "couple");
    let high = goes_up_to(heard, at).map_or(range.high.si(), |minutes| {
        range.high.si().max(minutes * 60.0)
    });
    if idiom {
        return Verdict::Aside;
    }
    let around = heard.around(figure);
    let row = heard
        .row(at, verdicts)
        .filter(|_| around.clause.is_none() && names_product(heard, figure));
    let (first, end) = heard.speech.clause(figure.first);
    let speed_said = words[first..end].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "low" | "medium" | "high" | "slow" | "fast"
        )
    });
    let fed = fed(heard, figure);
    let another = words[first..end]
        .iter()
        .any(|word| matches!(word.lower.as_str(), "another" | "further"));
    let back = crate::talk::recap::looks_back(heard, figure)
        || matches!(before, "those" | "that" | "its" | "their" | "the" | "these");
    let (said_from, said_to) = heard.speech.sentences[figure.sentence];
    let rise_named = named_rise(
        &words[said_from.max(figure.first.saturating_sub(RISE_WORDS))
            ..said_to.min(figure.end + RISE_WORDS / 2)],
    );
    let pieces = of_pieces(&words[first..figure.first]);
    let divided = heard
        .places
        .iter()
        .find(|place| place.doing.meets(Doing::DIVIDE))
        .map(|place| place.number);
    let scored: Vec<_> = heard
        .facts
        .iter()
        .enumerate()
        .filter(|(_, fact)| fact.sort == Sort::Time)
        .map(|(place, fact)| {
            let fits = fits::time(range.low.si(), high, figure.spoken.nearness, fact);
            let mut score = heard.score(&around, fact);
            // "eight minutes medium" is not the whole mix.
            if fact.only_allowed && fact.doing == Doing::MIX && speed_said {
                score -= 6.0;
            }
            // A time that is a tenth or ten times of a fact is hardly meant for it.
            let ratio = range.high.si().max(1.0) / fact.usual.max(1.0);
            // "Forty-five seconds" for 45 min is the figure with another unit.
            let same_number = UNITS_S
                .iter()
                .any(|size| (fact.usual / size / figure.spoken.low.max(0.01) - 1.0).abs() < 0.01);
            if same_number
                && !(0.2..=5.0).contains(&ratio)
                && figure.spoken.low >= 5.0
                && !figure.spoken.article
                && (around.clause.meets(fact.doing)
                    || around.clause.is_none() && around.sentence.meets(fact.doing))
            {
                return (place, score + 1.0, fact.only_allowed, fits);
            }
            if !(0.2..=5.0).contains(&ratio) {
                score -= 2.0;
            }
            if !(0.1..=10.0).contains(&ratio) {
                score -= 4.0;
            }
            if !(0.03..=30.0).contains(&ratio) {
                score -= 10.0;
            }
            // Days are of keeping, not of a bake.
            let cold = around.sentence.meets(Doing::CHILL) && fact.doing.meets(Doing::CHILL);
            if range.low.hours() >= 20.0 && fact.usual <= QUARTER_DAY_S && !cold {
                score -= 6.0;
            }
            score += super::in_a_row(row, fact);
            // "The last rise, on its paper": that of a bread, and no rest of the dough.
            if let Some(last) = rise_named
                && fact.doing.meets(Doing::REST)
                && fact.section.is_some()
            {
                let of_bread = fact.section >= Some(heard.inputs.recipe.stages.len());
                score += if of_bread == last {
                    NAMED_RISE
                } else {
                    -NAMED_RISE
                };
            }
            // What was said of a step that is over is hardly said of it again.
            let said = fact
                .step
                .is_some_and(|step| step < around.step_number() || another)
                && !fact.doing.meets(Doing::CHECK)
                && verdicts.contains(&Verdict::Agrees(place));
            let named = fact.section.is_some_and(|section| around.names(section));
            if said && !back && !named {
                score -= SAID_BEFORE;
            }
            if pieces
                && fact
                    .step
                    .is_some_and(|step| divided.is_some_and(|own| step < own))
            {
                score -= OF_PIECES;
            }
            if fed.is_some() && fact.step == fed && fact.doing.meets(Doing::MIX) {
                score += super::IN_A_ROW;
            }
            (place, score, fact.only_allowed, fits)
        })
        .collect();
    let least = LEAST + heard.story(figure);
    let (s_first, s_end) = heard.speech.sentences[figure.sentence];
    let case = words[s_first..s_end.min(s_first + CASE_WORDS)]
        .iter()
        .any(|word| word.lower == "if");
    // What is done in one case only stands in the notes.
    let verdict = if case {
        decide_within(&scored, least + 1.0, 3.0, f64::INFINITY)
    } else {
        decide(&scored, least)
    };
    match verdict {
        Verdict::Differs(_) if couple => Verdict::Aside,
        // "During the two hours you fold it twice": what goes on meanwhile.
        Verdict::Differs(_)
            if words[figure.first.saturating_sub(2)..figure.first]
                .iter()
                .any(|word| matches!(word.lower.as_str(), "during" | "throughout"))
                && let Some((whole, ..)) = scored.iter().find(|(place, _, _, fits)| {
                    *fits && steps_off(&around, &heard.facts[*place]) <= STEPS_BESIDE
                }) =>
        {
            Verdict::Agrees(*whole)
        }
        // "First one at thirty minutes": a moment, of a fold or of the first look.
        Verdict::Differs(fact)
            if before == "at"
                && !heard.facts[fact].doing.meets(Doing::FOLD.and(Doing::CHECK))
                && let Some((moment, ..)) = scored.iter().find(|(place, _, _, fits)| {
                    *fits
                        && heard.facts[*place]
                            .doing
                            .meets(Doing::FOLD.and(Doing::CHECK))
                        && (steps_off(&around, &heard.facts[*place]) <= 2 * STEPS_BESIDE
                            || follows_a_fold(heard, at, verdicts))
                }) =>
        {
            Verdict::Agrees(*moment)
        }
        // "Half an hour before you put the knots in" is a lead, and no rise; "leave it for ten minutes before you cut it" is none.
        Verdict::Differs(fact)
            if after == "before"
                && !waits(heard, figure.first)
                && !heard.facts[fact]
                    .doing
                    .meets(Doing::READY.and(Doing::PREHEAT)) =>
        {
            Verdict::Aside
        }
        // "Leave it an hour and ten before you cut it": one of the waits of the kind.
        Verdict::Differs(fact) if after == "before" => {
            let other = scored.iter().find(|(place, _, _, fits)| {
                *fits
                    && heard.facts[fact].doing.meets(Doing::COOL)
                    && heard.facts[*place].doing.meets(Doing::COOL)
            });
            other.map_or(verdict, |(place, ..)| Verdict::Agrees(*place))
        }
        Verdict::Differs(fact)
            if heard.facts[fact].doing.meets(Doing::CHECK)
                && (!around.clause.meets(Doing::CHECK)
                    || looks_later(heard, at)
                    || fact_is_far(heard, fact, &around)) =>
        {
            // "Fifteen minutes, check at twelve."
            let bake = scored.iter().find(|(place, _, _, fits)| {
                let own = &heard.facts[*place];
                *fits && own.section == heard.facts[fact].section && own.doing.meets(Doing::BAKE)
            });
            // "It goes in the airing cupboard, and we'll have a look in fifty-five minutes."
            let looked_for = around.clause.meets(Doing::CHECK) && !around.clause.meets(Doing::BAKE);
            let bake = bake.or_else(|| {
                scored
                    .iter()
                    .filter(|_| looked_for)
                    .find(|(place, _, _, fits)| {
                        *fits && steps_off(&around, &heard.facts[*place]) <= STEPS_BESIDE
                    })
            });
            // "You bake the braid for twenty-six minutes, check it at thirty": the bake is what was meant.
            let own = scored
                .iter()
                .filter(|(place, _, allowed, _)| {
                    let own = &heard.facts[*place];
                    !allowed
                        && own.section == heard.facts[fact].section
                        && own.doing.meets(Doing::BAKE)
                        && !own.doing.meets(Doing::CHECK)
                })
                .max_by(|a, b| a.1.total_cmp(&b.1))
                .filter(|_| looks_later(heard, at));
            match (bake, own) {
                (Some((place, ..)), _) => Verdict::Agrees(*place),
                (None, Some((place, ..))) => Verdict::Differs(*place),
                (None, None) => verdict,
            }
        }
        // "All told you're feeding it in for eight minutes": all of what is done here.
        Verdict::Differs(fact) if heard.facts[fact].doing.meets(Doing::TOTAL) => {
            let other = scored.iter().find(|(place, _, _, fits)| {
                *fits && steps_off(&around, &heard.facts[*place]) <= STEPS_BESIDE
            });
            other.map_or(verdict, |(place, ..)| Verdict::Agrees(*place))
        }
        Verdict::Differs(fact) => {
            let other = beside(heard, &scored, &around, fact)
                .or_else(|| exactly(heard, at, &around, fact))
                .or_else(|| {
                    let named = rise_named.is_some();
                    just_before(heard, at, &scored, fact, verdicts).filter(|_| !named)
                })
                .or_else(|| bench_rest(heard, at, &scored, verdicts));
            other.map_or(verdict, Verdict::Agrees)
        }
        verdict => verdict,
    }
}

/// "Once at half an hour and once at an hour": whether the figure just before was the moment of a fold.
fn follows_a_fold(heard: &Heard, at: usize, verdicts: &[Verdict]) -> bool {
    let Some(n) = at.checked_sub(1) else {
        return false;
    };
    let between = &heard.speech.words[heard.speech.figures[n].end..heard.speech.figures[at].first];
    matches!(&verdicts[n], Verdict::Agrees(fact) if heard.facts[*fact].doing.meets(Doing::FOLD))
        && between.iter().all(|word| {
            matches!(
                word.lower.as_str(),
                "and" | "then" | "once" | "again" | "at"
            )
        })
}

/// "The last rise", "the second prove": whether it is the last of a bread's; "the first rise": not the last.
fn named_rise(words: &[Word]) -> Option<bool> {
    words.windows(2).find_map(|two| {
        let rise = matches!(two[1].stem.as_str(), "ris" | "prov" | "proof");
        match two[0].lower.as_str() {
            "last" | "final" | "second" if rise => Some(true),
            "first" | "bulk" if rise => Some(false),
            _ => None,
        }
    })
}

/// A rise is named within so many words of its time, and goes with it so much better.
const RISE_WORDS: usize = 12;
const NAMED_RISE: f64 = 5.0;

/// "Cover them all up and let them chill for ten minutes": what is many has been divided.
fn of_pieces(words: &[Word]) -> bool {
    words.windows(2).any(|two| {
        matches!(
            two[0].lower.as_str(),
            "cover" | "let" | "leave" | "rest" | "give" | "lets" | "prove" | "proof"
        ) && matches!(two[1].lower.as_str(), "them" | "those" | "these")
    })
}

/// A time that was said goes less well with a step that is over.
pub(super) const SAID_BEFORE: f64 = 3.0;

/// A time of what is many goes less well with a step before the dough is divided.
const OF_PIECES: f64 = 4.0;

/// "Another twenty-five minutes, and start looking at thirty-five": the look is told behind, with a figure of its own.
fn looks_later(heard: &Heard, at: usize) -> bool {
    let figure = &heard.speech.figures[at];
    let (first, end) = heard.speech.clause(figure.first);
    let words = &heard.speech.words;
    !doing(&words[first..figure.first]).meets(Doing::CHECK)
        && heard
            .speech
            .figures
            .get(at + 1)
            .is_some_and(|next| next.first <= end + 1)
}

/// Whether a fact is of a step farther off than one that would be looked at now.
fn fact_is_far(heard: &Heard, fact: usize, around: &Around) -> bool {
    steps_off(around, &heard.facts[fact]) > STEPS_BESIDE
}

/// Seconds of what a time is said in: seconds, minutes, hours, days.
const UNITS_S: [f64; 4] = [1.0, 60.0, 3_600.0, 86_400.0];

/// A sentence that begins with "if", or nearly, is of one case.
const CASE_WORDS: usize = 4;

/// A couple of minutes is as long as it takes, a couple of hours is not, in seconds.
const COUPLE_S: f64 = 1_800.0;

/// What takes less is a manner of speaking, in seconds.
const SHORTEST_S: f64 = 5.0;

/// Whether small children are spoken of: "not for a baby under twelve months".
fn of_children(heard: &Heard, sentence: usize) -> bool {
    let (first, end) = heard.speech.sentences[sentence];
    heard.speech.words[first..end].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "baby" | "babies" | "infant" | "infants" | "toddler" | "toddlers"
        )
    })
}

/// "Forty minutes ahead, forty-five, somewhere in there": the higher end, in minutes.
fn goes_up_to(heard: &Heard, at: usize) -> Option<f64> {
    let figure = &heard.speech.figures[at];
    let next = heard.speech.figures.get(at + 1)?;
    let Meant::Number(low, _) = next.spoken.meant else {
        return None;
    };
    let (first, end) = heard.speech.clause(next.first);
    let alone = next.sentence == figure.sentence
        && next.clause <= figure.clause + 1
        && end - first <= next.end - next.first + 1;
    let minutes = figure.spoken.unit == recipe::measure::spoken::SpokenUnit::Time(60.0);
    (alone && minutes && low > figure.spoken.low && low <= 1.5 * figure.spoken.low).then_some(low)
}

/// A quarter of a day, in seconds.
const QUARTER_DAY_S: f64 = 21_600.0;

/// Whether a bread is named in the sentence up to a figure, or in its clause.
pub(super) fn names_product(heard: &Heard, figure: &crate::talk::speech::Figure) -> bool {
    let (first, _) = heard.speech.sentences[figure.sentence];
    let (_, end) = heard.speech.clause(figure.first);
    heard
        .mentions_in(first, end)
        .iter()
        .flat_map(|mention| &mention.things)
        .any(|thing| matches!(heard.things[*thing].sort, Of::Product(_)))
}
