//! Stretches of time inside sentences: "1 to 1½ hours", "an hour and a half", "overnight".

use super::Said;
use super::token::{Token, What, count_word, tokens};
use crate::source::Span;
use numerics::quantity::{Duration, Range};

/// What "overnight" is taken for, in hours (common practice).
const OVERNIGHT_H: (f64, f64) = (8.0, 12.0);

/// Every stretch of time that a text names, in order; a single one is a range whose ends are one.
pub fn times(text: &str) -> Vec<Said<Range<Duration>>> {
    let all = tokens(text);
    let mut found = Vec::new();
    let mut at = 0;
    while at < all.len() {
        match stretch(&all[at..]) {
            Some((low, high, used)) => {
                let span = Span::new(all[at].span.start, all[at + used - 1].span.end);
                let value = Range {
                    low: Duration::from_si(low),
                    high: Duration::from_si(high),
                };
                found.push(Said { span, value });
                at += used;
            }
            None => at += 1,
        }
    }
    found
}

/// Seconds of a unit of time.
fn unit(word: &str) -> Option<f64> {
    Some(match word {
        "s" | "sec" | "secs" | "second" | "seconds" => 1.0,
        "m" | "min" | "mins" | "minute" | "minutes" | "minute's" | "minutes'" => 60.0,
        "h" | "hr" | "hrs" | "hour" | "hours" | "hour's" | "hours'" | "hours’" => 3600.0,
        "day" | "days" => 86_400.0,
        "week" | "weeks" => 604_800.0,
        _ => return None,
    })
}

/// A stretch at the beginning: its ends in seconds, and how many tokens it takes.
fn stretch(all: &[Token]) -> Option<(f64, f64, usize)> {
    if all.first()?.word() == "overnight" {
        return Some((OVERNIGHT_H.0 * 3600.0, OVERNIGHT_H.1 * 3600.0, 1));
    }
    let (first, used) = amount(all)?;
    let mut at = used;
    if let Some(skip) = joins(&all[at..])
        && let Some((second, more)) = amount(&all[at + skip..])
    {
        // "1-1/2 hours" is one and a half.
        let whole_and_part = all[at].is_dash() && first >= 1.0 && second < 1.0;
        let after = at + skip + more;
        if let Some((size, width)) = unit_at(&all[after..]) {
            if whole_and_part {
                return Some(with_rest((first + second) * size, size, all, after + width));
            }
            if second >= first {
                let (extra, end) = half_after(&all[after + width..], size);
                return Some((first * size, second * size + extra, after + width + end));
            }
        }
    }
    let (size, width) = unit_at(&all[at..])?;
    at += width;
    Some(with_rest(first * size, size, all, at))
}

/// What follows the first unit: "and a half", "20 minutes", "to 2 hours".
fn with_rest(first: f64, size: f64, all: &[Token], at: usize) -> (f64, f64, usize) {
    let (mut low, mut at) = (first, at);
    let (extra, used) = half_after(&all[at..], size);
    low += extra;
    at += used;
    if used == 0 {
        let skip = usize::from(all.get(at).is_some_and(|t| t.word() == "and"));
        if let Some((more, used)) = amount(&all[at + skip..])
            && let Some((small, width)) = unit_at(&all[at + skip + used..])
            && small < size
        {
            low += more * small;
            at += skip + used + width;
        } else if size > 3000.0
            && size < 4000.0
            && let Some(minutes) = minutes_alone(&all[at..])
        {
            low += minutes * 60.0;
            at += 1;
        }
    }
    if let Some(skip) = joins(&all[at..])
        && let Some((other, used)) = amount(&all[at + skip..])
        && let Some((size, width)) = unit_at(&all[at + skip + used..])
    {
        let after = at + skip + used + width;
        let (extra, end) = half_after(&all[after..], size);
        let high = other * size + extra;
        if high > low {
            return (low, high, after + end);
        }
    }
    (low, low, at)
}

/// The minutes of "1 hr 30": a number without its unit, and nothing behind it that could be one.
fn minutes_alone(all: &[Token]) -> Option<f64> {
    let What::Number(value) = all.first()?.what else {
        return None;
    };
    let ends = all.get(1).is_none_or(|next| {
        matches!(next.what, What::Mark('.' | ',' | ';' | ')'))
            || matches!(
                next.word(),
                "at" | "until" | "in" | "or" | "and" | "then" | "with"
            )
    });
    (ends && (5.0..60.0).contains(&value) && value % 5.0 == 0.0).then_some(value)
}

/// "and a half" behind a unit, in its seconds, and its tokens.
fn half_after(all: &[Token], size: f64) -> (f64, usize) {
    let words: Vec<&str> = all.iter().take(3).map(Token::word).collect();
    match words[..] {
        ["and", "a", "half"] => (size / 2.0, 3),
        ["and", "a", "quarter"] => (size / 4.0, 3),
        _ => (0.0, 0),
    }
}

/// A unit at the beginning, past a hyphen: "30-minute".
fn unit_at(all: &[Token]) -> Option<(f64, usize)> {
    let hyphen = usize::from(all.first().is_some_and(Token::is_dash));
    let more = usize::from(matches!(
        all.get(hyphen).map(Token::word),
        Some("more" | "further" | "additional" | "full" | "good" | "extra" | "whole")
    ));
    let token = all.get(hyphen + more)?;
    // "75'" is minutes.
    if hyphen + more == 0 && matches!(token.what, What::Mark('\'' | '′' | '’')) {
        let letter = all
            .get(1)
            .is_some_and(|next| next.span.start == token.span.end && !next.word().is_empty());
        return (!letter).then_some((60.0, 1));
    }
    let size = unit(token.word())?;
    // "min." and "hr." end in a full stop that belongs to them when a small letter follows.
    Some((size, hyphen + more + 1))
}

/// What stands between the ends of a range, and its tokens.
fn joins(all: &[Token]) -> Option<usize> {
    let first = all.first()?;
    if first.is_dash() || matches!(first.word(), "to" | "or" | "and") {
        let skip = match all.get(1).map(Token::word) {
            Some("up" | "about" | "even") => 2,
            _ => 1,
        };
        // "and" joins the ends only after "between", which the caller cannot see: it does so for
        // numbers alone, as in "between 1 and 2 hours".
        return Some(skip);
    }
    None
}

/// A number at the beginning, in figures or words, and its tokens.
fn amount(all: &[Token]) -> Option<(f64, usize)> {
    let first = all.first()?;
    let words: Vec<&str> = all.iter().take(5).map(Token::word).collect();
    let (mut value, mut used) = match (&first.what, &words[..]) {
        (What::Number(value), _) => (*value, 1),
        (_, ["half", "an" | "a", ..] | ["a", "half", ..]) => (0.5, 2),
        (_, ["half", "hour", ..]) => (0.5, 1),
        (_, ["quarter", "of", "an" | "a", ..]) => (0.25, 3),
        (_, ["a", "quarter", "of", "an" | "a", ..]) => (0.25, 4),
        (_, ["three", "quarters", "of", "an" | "a", ..]) => (0.75, 4),
        (_, ["a", "couple", "of", ..]) => (2.0, 3),
        (
            _,
            [
                "a" | "an",
                "extra" | "additional" | "further" | "full" | "good",
                ..,
            ],
        ) => (1.0, 2),
        (_, ["another", _, ..]) if count(all.get(1)).is_some() => (count(all.get(1))?, 2),
        (_, [tens @ ("twenty" | "thirty" | "forty" | "fifty"), ..]) => {
            let tens = count_word(tens)?;
            let dash = usize::from(all.get(1).is_some_and(Token::is_dash));
            match all.get(1 + dash).map(Token::word).and_then(count_word) {
                Some(one) if one < 10.0 && all[1 + dash].word().len() > 2 => (tens + one, 2 + dash),
                _ => (tens, 1),
            }
        }
        (_, [word, ..]) => (count_word(word)?, 1),
        _ => return None,
    };
    let after: Vec<&str> = all[used..].iter().take(4).map(Token::word).collect();
    match after[..] {
        ["and", "a", "half", next] if unit(next).is_some() => {
            value += 0.5;
            used += 3;
        }
        ["and", "a", "quarter", next] if unit(next).is_some() => {
            value += 0.25;
            used += 3;
        }
        _ => {}
    }
    Some((value, used))
}

/// The number of a token.
fn count(token: Option<&Token>) -> Option<f64> {
    match &token?.what {
        What::Number(value) => Some(*value),
        What::Word(word) => count_word(word).filter(|_| word.len() > 2),
        What::Mark(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::times;

    /// Minutes of every stretch.
    fn minutes(text: &str) -> Vec<(f64, f64)> {
        times(text)
            .iter()
            .map(|said| (said.value.low.si() / 60.0, said.value.high.si() / 60.0))
            .collect()
    }

    #[test]
    fn prose_is_read_as_a_cook_means_it() {
        for (text, wanted) in [
            ("Bake for 25 minutes.", vec![(25.0, 25.0)]),
            ("Let rise 1 to 1½ hours", vec![(60.0, 90.0)]),
            ("about 45-60 min until doubled", vec![(45.0, 60.0)]),
            ("for 1 hour and 20 minutes", vec![(80.0, 80.0)]),
            ("1h20min", vec![(80.0, 80.0)]),
            (
                "1st rise 75', 2nd rise 50'",
                vec![(75.0, 75.0), (50.0, 50.0)],
            ),
            ("Proof 1 hr 30 at 27 °C", vec![(90.0, 90.0)]),
            ("an hour and a half", vec![(90.0, 90.0)]),
            ("one and a half hours", vec![(90.0, 90.0)]),
            ("half an hour", vec![(30.0, 30.0)]),
            ("three quarters of an hour", vec![(45.0, 45.0)]),
            ("leave overnight in the fridge", vec![(480.0, 720.0)]),
            ("45 minutes to 1 hour", vec![(45.0, 60.0)]),
            ("between 1 and 2 hours", vec![(60.0, 120.0)]),
            ("twenty-five minutes", vec![(25.0, 25.0)]),
            ("five or six minutes", vec![(5.0, 6.0)]),
            ("1-1/2 hours", vec![(90.0, 90.0)]),
            ("a 20-minute rest", vec![(20.0, 20.0)]),
            (
                "knead 10 minutes, then rest for another 5 minutes",
                vec![(10.0, 10.0), (5.0, 5.0)],
            ),
            (
                "Bake at 220 for 15 min, then 20 more minutes.",
                vec![(15.0, 15.0), (20.0, 20.0)],
            ),
            ("add a little flour", vec![]),
            ("cut into 12, 5 cm apart", vec![]),
        ] {
            assert_eq!(minutes(text), wanted, "{text}");
        }
    }
}
