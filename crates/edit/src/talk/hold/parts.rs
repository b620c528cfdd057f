//! Parts and wholes of an amount: what is said in lots, in all, in halves, or leaves as steam.

use super::amounts::masses;
use crate::talk::facts::Sort;
use crate::talk::heard::Heard;
use crate::talk::speech::Figure;
use crate::talk::things::Sort as Of;
use recipe::measure::spoken::Meant;

/// "It loses about twenty-five grams of water to the air": what leaves is not what goes in.
pub(super) fn given_off(heard: &Heard, figure: &Figure) -> bool {
    let (first, end) = heard.speech.sentences[figure.sentence];
    heard.speech.words[first..end].iter().any(|word| {
        matches!(
            word.stem.as_str(),
            "los" | "lost" | "evaporat" | "steam" | "absorb" | "thirsty"
        )
    })
}

/// A figure that is a part of the recipe's amount: "five hundred now, and the last hundred and seventy-five
/// once it has come together", "thirty grams at a time", "one packet and about a third of the next".
pub(super) fn in_parts(heard: &Heard, at: usize, place: usize) -> bool {
    let figure = &heard.speech.figures[at];
    let fact = &heard.facts[place];
    let own = fact
        .thing
        .and_then(|thing| heard.things[thing].ingredient.as_ref());
    let Some((low, high)) = masses(&figure.spoken, own) else {
        return false;
    };
    let words = &heard.speech.words;
    let after: Vec<&str> = words[figure.end..(figure.end + 6).min(words.len())]
        .iter()
        .take_while(|word| word.sentence == figure.sentence)
        .map(|word| word.lower.as_str())
        .collect();
    let each = after.windows(2).any(|two| {
        matches!(
            two,
            ["a", "time" | "go"] | ["each", "time" | "go" | "lot"] | ["every", "time"]
        )
    });
    let times = fact.usual / low;
    if each && (1.9..12.5).contains(&times) && (times - times.round()).abs() < 0.05 * times {
        return true;
    }
    let and_more = after.first() == Some(&"and")
        && after[1..].iter().any(|word| {
            matches!(
                *word,
                "bit" | "little" | "third" | "half" | "quarter" | "touch" | "some"
            )
        });
    if and_more && low <= fact.usual && fact.usual <= high * 1.5 {
        return true;
    }
    // "Twelve grams of it goes on the braid, and the rest is for the buns."
    let of_it = after.first() == Some(&"of")
        && matches!(
            after.get(1),
            Some(&"it" | &"that" | &"them" | &"those" | &"this")
        );
    let (_, s_end) = heard.speech.sentences[figure.sentence];
    let more = words[figure.end..s_end.min(figure.end + REST_WORDS)]
        .iter()
        .any(|word| {
            matches!(
                word.lower.as_str(),
                "rest" | "remaining" | "remainder" | "others" | "left" | "over"
            )
        });
    if of_it && more && high < fact.usual {
        return true;
    }
    let part = |n: usize, other: &Figure| {
        let near = other.sentence.abs_diff(figure.sentence) <= 1;
        // "The flour, two hundred and eighty. The other milk, a hundred and fifty": of another thing.
        let of = super::linked::linked(heard, n);
        let near = near && (of.is_empty() || fact.thing.is_none_or(|thing| of.contains(&thing)));
        let mass = masses(&other.spoken, own).filter(|_| near && !other.withdrawn);
        mass.map(|(mass, _)| mass)
    };
    let said_as_part = |other: &Figure| {
        let (first, end) = (
            figure.first.min(other.first),
            (figure.end.max(other.end) + 4).min(words.len()),
        );
        words[first..end].iter().any(|word| {
            matches!(
                word.lower.as_str(),
                "now"
                    | "then"
                    | "rest"
                    | "last"
                    | "other"
                    | "later"
                    | "remaining"
                    | "first"
                    | "plus"
                    | "another"
                    | "more"
                    | "half"
                    | "back"
            )
        })
    };
    // "Sixty to begin with, another sixty, and then the last sixty"
    let alike = heard
        .speech
        .figures
        .iter()
        .filter(|other| {
            other.sentence == figure.sentence && (other.spoken.low - figure.spoken.low).abs() < 1e-9
        })
        .count();
    let many = f64::from(u32::try_from(alike).unwrap_or(1));
    if alike > 1 && (many * low / fact.usual - 1.0).abs() <= 0.045 {
        return true;
    }
    let sum_fits = |other: f64| ((low + other) / fact.usual - 1.0).abs() <= 0.045;
    [
        at.checked_sub(1),
        at.checked_sub(2),
        Some(at + 1),
        Some(at + 2),
    ]
    .into_iter()
    .flatten()
    .filter_map(|n| Some((n, heard.speech.figures.get(n)?)))
    .any(|(n, other)| part(n, other).is_some_and(sum_fits) && said_as_part(other))
}

/// "Put half of it in first, that's ninety grams": a share of what was named just before, held against that share.
pub(super) fn share_of_it(heard: &Heard, at: usize) -> Option<(usize, bool)> {
    let figure = &heard.speech.figures[at];
    let words = &heard.speech.words;
    let (s_first, _) = heard.speech.sentences[figure.sentence];
    let from = s_first.max(figure.first.saturating_sub(SHARE_WORDS));
    // "A cup and a quarter" is no share.
    let measured = |at: usize| {
        heard.speech.figures.iter().any(|other| {
            (other.first..other.end).contains(&at)
                && !matches!(other.spoken.meant, Meant::Share(_))
                && !matches!(other.spoken.meant, Meant::Number(low, _) if low < 1.0)
        })
    };
    let of_it = |at: usize| {
        let next = words.get(at + 1).map_or("", |word| word.lower.as_str());
        matches!(next, "of" | "to" | "first" | "now" | "goes" | "in" | "it")
    };
    let share = (from..figure.first)
        .filter(|at| of_it(*at) && !measured(*at))
        .find_map(|at| {
            Some(match words[at].lower.as_str() {
                "half" => 0.5,
                "third" => 1.0 / 3.0,
                "quarter" => 0.25,
                _ => return None,
            })
        })?;
    let (before, _) = heard.speech.sentences[figure.sentence.saturating_sub(1)];
    let mention = heard
        .mentions_in(before, figure.first)
        .iter()
        .rev()
        .find(|mention| heard.things[mention.things[0]].sort == Of::Ingredient)?;
    let of = |fact: &crate::talk::facts::Fact| {
        fact.sort == Sort::Amount
            && !fact.only_allowed
            && fact
                .thing
                .is_some_and(|thing| mention.things.contains(&thing))
    };
    let fits = |fact: &crate::talk::facts::Fact| {
        let own = fact
            .thing
            .and_then(|thing| heard.things[thing].ingredient.as_ref());
        masses(&figure.spoken, own).is_some_and(|(low, high)| {
            super::fits::mass(low, high, &figure.spoken, fact.usual * share)
        })
    };
    let all = || heard.facts.iter().enumerate().filter(|(_, fact)| of(fact));
    let here = heard.walk[figure.clause].0;
    all()
        .find(|(_, fact)| fits(fact))
        .map(|(place, _)| (place, true))
        .or_else(|| {
            all()
                .min_by_key(|(_, fact)| fact.step.map_or(usize::MAX, |step| step.abs_diff(here)))
                .map(|(place, _)| (place, false))
        })
}

/// A share is said within so many words before its amount.
const SHARE_WORDS: usize = 7;

/// What is left is told within so many words.
const REST_WORDS: usize = 16;

/// "Sixty of peel, and the raisins: a hundred and ten between them": the fact of the last of the things that
/// a figure is the sum of.
pub(super) fn together(heard: &Heard, at: usize) -> Option<usize> {
    let figure = &heard.speech.figures[at];
    let words = &heard.speech.words;
    let (s_first, s_end) = heard.speech.sentences[figure.sentence];
    let both = words
        [figure.first.saturating_sub(ALL_WORDS).max(s_first)..(figure.end + ALL_WORDS).min(s_end)]
        .iter()
        .any(|word| {
            matches!(
                word.lower.as_str(),
                "between" | "together" | "altogether" | "total" | "makes" | "both" | "combined"
            )
        });
    if !both {
        return None;
    }
    let (low, high) = masses(&figure.spoken, None)?;
    let section = heard.places.get(heard.walk[figure.clause].0)?.section;
    let from = heard.speech.sentences[figure.sentence.saturating_sub(1)].0;
    let mut parts: Vec<(usize, usize, f64)> = Vec::new();
    for mention in heard.mentions_in(from, figure.first).iter().rev() {
        let fact = heard.facts.iter().enumerate().find(|(_, fact)| {
            fact.sort == Sort::Amount
                && !fact.only_allowed
                && fact.section == Some(section)
                && fact
                    .thing
                    .is_some_and(|thing| mention.things.contains(&thing))
        });
        if let Some((place, fact)) = fact
            && parts.iter().all(|(_, own, _)| *own != place)
        {
            parts.push((mention.first, place, fact.usual));
        }
    }
    (2..=parts.len()).find_map(|many| {
        let sum: f64 = parts[..many].iter().map(|(.., mass)| mass).sum();
        super::fits::mass(low, high, &figure.spoken, sum).then_some(parts[0].1)
    })
}

/// Words by which all of an ingredient is meant, whatever stage it goes into: with the figure, or in a list
/// of totals.
pub(super) fn in_all(heard: &Heard, figure: &Figure) -> bool {
    let words = &heard.speech.words;
    let (s_first, s_end) = heard.speech.sentences[figure.sentence];
    let (first, end) = (
        figure.first.saturating_sub(ALL_WORDS).max(s_first),
        (figure.end + ALL_WORDS).min(s_end),
    );
    // "That is eighty-five of the three hundred and forty grams of flour"
    let whole_of = figure.first >= s_first + 3
        && words[figure.first - 1].lower == "the"
        && words[figure.first - 2].lower == "of"
        && heard
            .speech
            .figures
            .iter()
            .any(|other| other.end + 2 == figure.first && other.spoken.low < figure.spoken.low);
    if whole_of {
        return true;
    }
    let near = words[first..end]
        .iter()
        .any(|word| matches!(word.lower.as_str(), "altogether" | "total" | "overall"));
    let another_nearer = heard.speech.figures.iter().any(|other| {
        other.first >= figure.end
            && other.end <= end
            && words[figure.end..other.first]
                .iter()
                .all(|word| !matches!(word.lower.as_str(), "altogether" | "total" | "overall"))
            && words[other.end..end]
                .iter()
                .any(|word| matches!(word.lower.as_str(), "altogether" | "total" | "overall"))
    });
    let totals = (figure.sentence.saturating_sub(3)..=figure.sentence).any(|sentence| {
        let (first, end) = heard.speech.sentences[sentence];
        words[first..end].iter().any(|word| word.lower == "totals")
    });
    near && !another_nearer || totals
}

/// "So that's eleven grams in the whole thing", "with the eight from before we're at eleven": the speaker adds up.
pub(super) fn sums_up(heard: &Heard, figure: &Figure) -> bool {
    let (first, end) = heard.speech.sentences[figure.sentence];
    let (first, end) = (
        first.max(figure.first.saturating_sub(SUM_WORDS)),
        end.min(figure.end + SUM_WORDS),
    );
    heard.speech.words[first..end].iter().any(|word| {
        matches!(
            word.lower.as_str(),
            "that's"
                | "makes"
                | "comes"
                | "whole"
                | "told"
                | "through"
                | "before"
                | "earlier"
                | "both"
                | "together"
                | "sum"
        )
    })
}

/// A sum is told within so many words.
const SUM_WORDS: usize = 9;

/// "Altogether" stands so near to the figure it is of.
const ALL_WORDS: usize = 6;

/// The shares of an ingredient that may be meant: all of it, and a half or third where it is divided.
pub(super) fn shares(heard: &Heard, figure: &Figure) -> Vec<f64> {
    let (s_first, s_end) = heard.speech.sentences[figure.sentence];
    let (first, end) = (
        figure.first.saturating_sub(7).max(s_first),
        (figure.end + 8).min(s_end),
    );
    let words = heard.speech.words[first..end]
        .iter()
        .enumerate()
        .filter(|(at, _)| {
            !heard.speech.figures.iter().any(|other| {
                other.sentence == figure.sentence
                    && !matches!(other.spoken.meant, Meant::Number(low, _) if low < 1.0)
                    && !matches!(other.spoken.meant, Meant::Share(_))
                    && (other.first..other.end).contains(&(first + at))
            })
        })
        .map(|(_, word)| word.lower.as_str());
    let mut shares = vec![1.0];
    for word in words {
        match word {
            "half" | "halves" | "split" | "divide" | "divided" | "lots" | "batches"
            | "additions" | "thirds" | "third" | "quarter" | "quarters" | "remaining" => {
                shares.extend([0.5, 1.0 / 3.0, 2.0 / 3.0, 0.25, 0.75, 0.2]);
            }
            "double" | "doubling" | "doubled" | "doubles" => shares.push(2.0),
            "triple" => shares.push(3.0),
            "halve" | "halving" => shares.push(0.5),
            _ => {}
        }
    }
    shares
}
