//! Each figure of a talk held against the recipe: what it is about, and whether it agrees.

mod amounts;
mod bare_times;
mod counts;
mod divided;
mod fits;
mod folds;
mod heats;
mod linked;
mod meant_counts;
mod not_counted;
mod other_heats;
mod other_times;
mod parts;
mod scaled;
mod sizes;
mod slashes;
mod sums;
mod times;
mod warmed;

use super::doing::Doing;
use super::facts::Sort;
use super::heard::{Heard, Mood};
use recipe::measure::spoken::Meant;

pub(super) use fits::{Scale, as_temperature};

/// What became of a figure.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Verdict {
    /// It says what the recipe says there: which fact.
    Agrees(usize),
    /// It says something else: which fact was meant.
    Differs(usize),
    /// Nothing in the recipe could be meant by it.
    Aside,
}

/// A figure is not taken for another fact that goes with it less well by more than this.
const MARGIN: f64 = 1.6;

/// What may be said beside the best may go with it less well by this much.
const ALLOWED_MARGIN: f64 = 4.5;

/// "The other thirty" is one of so many figures before.
const OTHER_FIGURES: usize = 4;

/// Each figure with its verdict.
pub(super) fn hold(heard: &Heard) -> Vec<Verdict> {
    let mut verdicts = Vec::with_capacity(heard.speech.figures.len());
    for (at, figure) in heard.speech.figures.iter().enumerate() {
        let words = &heard.speech.words;
        let before = |back: usize| {
            figure
                .first
                .checked_sub(back)
                .map_or("", |n| words[n].lower.as_str())
        };
        // "It says one eighty and means two hundred": a dial that errs.
        let errs = |from: usize, to: usize| {
            let any = |wanted: &[&str]| {
                words[from..to]
                    .iter()
                    .any(|word| wanted.contains(&word.lower.as_str()))
            };
            any(&["says", "reads", "say"]) && any(&["means", "mean"])
        };
        let (s_first, s_end) = heard.speech.sentences[figure.sentence];
        if errs(s_first, s_end) {
            verdicts.push(Verdict::Aside);
            continue;
        }
        // "give or take a quarter of an hour"
        let slack = before(1) == "take" && before(2) == "or";
        // "A head on it like a pint of stout"
        let alike = figure.spoken.article && before(1) == "like";
        if figure.withdrawn || slack || alike {
            verdicts.push(Verdict::Aside);
            continue;
        }
        // "Half the peel, thirty grams, and later the other thirty"
        if before(1) == "other"
            && let Some(same) = (at.saturating_sub(OTHER_FIGURES)..at)
                .rev()
                .find(|earlier| {
                    let own = &heard.speech.figures[*earlier];
                    (own.spoken.low - figure.spoken.low).abs() < 1e-9
                        && figure.sentence - own.sentence <= 1
                })
        {
            let same = verdicts[same].clone();
            verdicts.push(same);
            continue;
        }
        if let Some(same) = echoed(heard, at) {
            let same = verdicts[same].clone();
            verdicts.push(same);
            continue;
        }
        let asks = heard.asks(figure.sentence);
        let verdict = match figure.spoken.meant {
            Meant::Mass(_) | Meant::Volume(_) | Meant::Packets(..) => {
                amounts::hold(heard, at, &verdicts)
            }
            Meant::Temperature(_) | Meant::Degrees(..) | Meant::Gas(..) => {
                heats::hold(heard, at, &verdicts)
            }
            Meant::Time(_) => times::hold(heard, at, &verdicts),
            Meant::Length(_) | Meant::Sides(..) => sizes::hold(heard, at),
            Meant::Number(..) => match counts::hold(heard, at) {
                Verdict::Aside => match sizes::hold_bare(heard, at) {
                    Verdict::Aside => bare(heard, at, &verdicts),
                    verdict => verdict,
                },
                verdict => verdict,
            },
            Meant::Times(..) => counts::hold_times(heard, at),
            Meant::Share(_) => Verdict::Aside,
        };
        let verdict = match verdict {
            Verdict::Differs(_) => stored(heard, figure).map_or(verdict, Verdict::Agrees),
            verdict => verdict,
        };
        verdicts.push(match verdict {
            // A question states nothing: "Can it wait overnight?" But "why do we want those two hundred grams" takes them as said.
            Verdict::Differs(_) if asks && !matches!(before(1), "those" | "these") => {
                Verdict::Aside
            }
            // What others did, and what one could do, is not what the viewer is told to do.
            Verdict::Differs(_) if heard.mood(figure) != Mood::Here => Verdict::Aside,
            verdict => verdict,
        });
    }
    said_again(heard, &mut verdicts);
    verdicts
}

/// "An oven that held two hundred loaves. Two hundred.": a number that is said once more and nothing besides.
fn echoed(heard: &Heard, at: usize) -> Option<usize> {
    let (figure, before) = (
        &heard.speech.figures[at],
        &heard.speech.figures[at.checked_sub(1)?],
    );
    let (first, end) = heard.speech.sentences[figure.sentence];
    let alone = end - first <= figure.end - figure.first + 1;
    (matches!(figure.spoken.meant, Meant::Number(..))
        && alone
        && before.sentence + 1 == figure.sentence
        && (before.spoken.low - figure.spoken.low).abs() < 1e-9)
        .then_some(at - 1)
}

/// "Salt, twenty-seven, away you go, seventeen and a half grams": what is followed by the recipe's own figure of the same
/// thing, with nothing else named between, is put right.
fn said_again(heard: &Heard, verdicts: &mut [Verdict]) {
    for at in 1..verdicts.len() {
        let (one, other) = (&heard.speech.figures[at - 1], &heard.speech.figures[at]);
        let (Verdict::Differs(fact), Verdict::Agrees(right)) = (&verdicts[at - 1], &verdicts[at])
        else {
            continue;
        };
        let bare = matches!(one.spoken.meant, Meant::Number(..))
            && !matches!(other.spoken.meant, Meant::Number(..));
        let alone = heard.mentions_in(one.end, other.end).iter().all(|mention| {
            heard.facts[*right]
                .thing
                .is_some_and(|own| mention.things.contains(&own))
        });
        if heard.facts[*fact].sort == Sort::Amount
            && heard.facts[*right].sort == Sort::Amount
            && heard.facts[*fact].thing.is_some()
            && heard.facts[*fact].thing == heard.facts[*right].thing
            && bare
            && alone
            && one.sentence == other.sentence
            && other.first - one.end <= AGAIN_WORDS
        {
            verdicts[at - 1] = Verdict::Aside;
        }
    }
}

/// Who puts a figure right by saying it again does so within so many words.
const AGAIN_WORDS: usize = 7;

/// What the recipe says of keeping and of the day before, in a passage that speaks of it: "twelve hours in the fridge, at
/// four degrees, and three more minutes".
fn stored(heard: &Heard, figure: &super::speech::Figure) -> Option<usize> {
    let (from, _) = heard.speech.sentences[figure.sentence.saturating_sub(2)];
    let (_, end) = heard.speech.sentences[figure.sentence];
    let from = from.max(figure.first.saturating_sub(STORED_WORDS));
    let told = heard.speech.words[from..end.min(figure.end + STORED_WORDS)]
        .iter()
        .any(|word| {
            matches!(
                word.lower.as_str(),
                "fridge"
                    | "refrigerator"
                    | "freezer"
                    | "freeze"
                    | "frozen"
                    | "chill"
                    | "chilled"
                    | "ahead"
                    | "wait"
                    | "keep"
                    | "keeps"
            )
        });
    // "Eighteen minutes for the knots": of a bread that is named, in words that speak of no keeping.
    let (c_first, c_end) = heard.speech.clause(figure.first);
    let own = super::doing::doing(&heard.speech.words[c_first..c_end]);
    if !told || heard.names_part(figure) && !own.meets(Doing::STORE.and(Doing::CHILL)) {
        return None;
    }
    heard.facts.iter().position(|fact| {
        fact.doing.meets(Doing::STORE)
            && fact.step.is_none()
            && match (&figure.spoken.meant, fact.sort) {
                (Meant::Time(range), Sort::Time) => fits::time(
                    range.low.si(),
                    range.high.si(),
                    figure.spoken.nearness,
                    fact,
                ),
                (Meant::Temperature(_) | Meant::Degrees(..), Sort::Heat) => {
                    heats::scales(figure.spoken.unit).iter().any(|scale| {
                        let at = as_temperature(figure.spoken.low, *scale);
                        fits::heat(at, at, figure.spoken.nearness, fact)
                    })
                }
                _ => false,
            }
    })
}

/// Keeping is spoken of within so many words.
const STORED_WORDS: usize = 30;

/// A number without its unit: degrees, minutes or grams, whichever it can be.
fn bare(heard: &Heard, at: usize, verdicts: &[Verdict]) -> Verdict {
    let figure = &heard.speech.figures[at];
    if let Some(verdict) = bare_times::hold_answer(heard, at, verdicts) {
        return verdict;
    }
    match heard.asked_for(figure) {
        Some(Sort::Heat) => return heats::hold(heard, at, verdicts),
        Some(Sort::Time) => return bare_times::hold_in_minutes(heard, at, verdicts),
        Some(Sort::Amount) => return amounts::hold(heard, at, verdicts),
        Some(Sort::Count) => return meant_counts::answered(heard, figure),
        _ => {}
    }
    // "in the loaf ninety-two, and in the little ones ninety"
    let follows = heard.row(at, verdicts).filter(|_| {
        let other = &heard.speech.figures[at - 1];
        let words = &heard.speech.words;
        let ends = figure.end >= words.len() || words[figure.end].clause != figure.clause;
        matches!(
            other.spoken.meant,
            Meant::Number(..) | Meant::Degrees(..) | Meant::Temperature(_)
        ) && other.sentence == figure.sentence
            && ends
    });
    if let Some((Sort::Heat, doing)) = follows
        && doing.meets(Doing::CORE)
        && figure.spoken.low >= 40.0
    {
        return heats::hold(heard, at, verdicts);
    }
    // "Fifty minutes on the knots. Forty-five on the rolls."
    if bare_times::goes_on(heard, at, verdicts) {
        return bare_times::hold_in_minutes(heard, at, verdicts);
    }
    // "And rolls: nine", where the dough is divided.
    if let Some(verdict) = scaled::named(heard, at) {
        return verdict;
    }
    // However the number can be taken, what agrees is what was meant; else the first that differs.
    let mut differs = Verdict::Aside;
    for read in [
        bare_times::hold_bare,
        heats::hold_bare,
        amounts::hold_bare,
        amounts::hold_each,
    ] {
        match read(heard, at, verdicts) {
            Verdict::Agrees(fact) => return Verdict::Agrees(fact),
            Verdict::Differs(fact) if differs == Verdict::Aside => differs = Verdict::Differs(fact),
            _ => {}
        }
    }
    differs
}

/// What goes on in a row is likelier the same thing of the next bread.
const IN_A_ROW: f64 = 2.5;

/// The bonus of a fact for going on in a row.
fn in_a_row(row: Option<(Sort, Doing)>, fact: &super::facts::Fact) -> f64 {
    match row {
        Some((sort, doing)) if sort == fact.sort && doing == fact.doing && !doing.is_none() => {
            IN_A_ROW
        }
        _ => 0.0,
    }
}

/// The verdict by scored facts: agreement with any that goes with the figure about as well as the
/// best, else disagreement with the best when it goes with it well enough.
fn decide(scored: &[(usize, f64, bool, bool)], least: f64) -> Verdict {
    decide_within(scored, least, MARGIN, ALLOWED_MARGIN)
}

/// The same with margins of one's own.
fn decide_within(
    scored: &[(usize, f64, bool, bool)],
    least: f64,
    margin: f64,
    allowed_margin: f64,
) -> Verdict {
    let best = scored
        .iter()
        .filter(|(_, _, allowed, _)| !allowed)
        .max_by(|a, b| a.1.total_cmp(&b.1));
    let agreed = |margin: f64, allowed_only: bool| {
        scored
            .iter()
            .filter(|(_, score, allowed, fits)| {
                *fits
                    && *allowed == allowed_only
                    && best.is_none_or(|(_, top, ..)| *score >= top - margin)
            })
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(fact, ..)| *fact)
    };
    if let Some(fact) = agreed(margin, false).or_else(|| agreed(allowed_margin, true)) {
        return Verdict::Agrees(fact);
    }
    match best {
        Some((fact, score, ..)) if *score >= least => Verdict::Differs(*fact),
        _ => Verdict::Aside,
    }
}

/// The mass of what is said, in kilograms.
pub(super) fn masses_of(
    spoken: &recipe::measure::spoken::Spoken,
    ingredient: Option<&recipe::larder::Ingredient>,
) -> Option<(f64, f64)> {
    amounts::masses(spoken, ingredient)
}
