//! Numbers as they are said: "a hundred and eighty", "one eighty", "two and a quarter", "point eight".

use super::words::{number_word, piece, pieces};
use crate::measure::read::sentence::{Token, What};

/// A number and where it ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Number {
    /// Its value.
    pub value: f64,
    /// The token after it.
    pub end: usize,
    /// Whether nothing but "a" stands there.
    pub article: bool,
    /// Whether it is said in words.
    pub in_words: bool,
    /// The two numbers that were drawn together: the three and the fifty of "three-fifty".
    pub drawn: Option<(f64, f64)>,
    /// Whether it is a vague one: "a couple".
    pub vague: bool,
}

impl Number {
    const fn of_words(value: f64, end: usize) -> Self {
        Self {
            value,
            end,
            article: false,
            in_words: true,
            drawn: None,
            vague: false,
        }
    }
}

/// The word at a place; nothing for figures and marks.
pub(super) fn word(all: &[Token], at: usize) -> &str {
    let word = all.get(at).map_or("", Token::word);
    // "seventy's fine"
    word.strip_suffix("'s")
        .or_else(|| word.strip_suffix("’s"))
        .filter(|bare| {
            digit(bare)
                .or_else(|| teen(bare))
                .or_else(|| tens(bare))
                .is_some()
        })
        .unwrap_or(word)
}

/// Past a hyphen, if there is one.
pub(super) fn past_dash(all: &[Token], at: usize) -> usize {
    at + usize::from(all.get(at).is_some_and(Token::is_dash))
}

/// From one to nine.
fn digit(word: &str) -> Option<f64> {
    number_word(word).filter(|value| (1.0..10.0).contains(value))
}

fn teen(word: &str) -> Option<f64> {
    number_word(word).filter(|value| (10.0..20.0).contains(value))
}

fn tens(word: &str) -> Option<f64> {
    number_word(word).filter(|value| *value >= 20.0)
}

/// Units in the singular that make of two numbers a count and a size: "two ten-minute rests".
const SINGULAR: [&str; 8] = [
    "minute",
    "hour",
    "gram",
    "inch",
    "centimetre",
    "centimeter",
    "second",
    "ounce",
];

/// From one to ninety-nine.
fn below_hundred(all: &[Token], at: usize) -> Option<(f64, usize)> {
    let first = word(all, at);
    if let Some(value) = digit(first).or_else(|| teen(first)) {
        // "eight-and-forty"
        let and = past_dash(all, at + 1);
        let ten = past_dash(all, and + 1);
        let between = at > 0 && word(all, at - 1) == "between";
        if value < 10.0
            && word(all, and) == "and"
            && !between
            && let Some(more) = tens(word(all, ten))
            && digit(word(all, past_dash(all, ten + 1))).is_none()
        {
            return Some((value + more, ten + 1));
        }
        return Some((value, at + 1));
    }
    let value = tens(first)?;
    let next = past_dash(all, at + 1);
    // "on the twenty-third of March"
    if matches!(
        word(all, next),
        "first" | "third" | "fourth" | "fifth" | "sixth" | "seventh" | "eighth" | "ninth"
    ) && next == at + 2
    {
        return None;
    }
    Some(match digit(word(all, next)) {
        Some(one) => (value + one, next + 1),
        None => (value, at + 1),
    })
}

/// A part of one: "half", "a quarter", "three quarters", "two-thirds", "an eighth".
pub(super) fn part(all: &[Token], at: usize) -> Option<(f64, usize)> {
    let (one, many) = (piece, pieces);
    let first = word(all, at);
    let next = past_dash(all, at + 1);
    if let Some(top) = digit(first)
        && let Some(below) = many(word(all, next))
    {
        return Some((top / below, next + 1));
    }
    // "a three-quarter cup"
    if let Some(top) = digit(first)
        && (next == at + 2 || super::unit::unit_at(all, at + 2, 0.75).is_some())
        && top > 1.0
        && let Some(below) = one(word(all, next))
    {
        return Some((top / below, next + 1));
    }
    if matches!(first, "a" | "an" | "one")
        && let Some(below) = one(word(all, next))
    {
        return Some((1.0 / below, next + 1));
    }
    // "a scant eighth teaspoon"
    if matches!(first, "a" | "an")
        && matches!(
            word(all, at + 1),
            "scant" | "good" | "generous" | "heaped" | "rounded" | "level" | "full" | "bare"
        )
        && let Some(below) = one(word(all, at + 2))
    {
        return Some((1.0 / below, at + 3));
    }
    let below = one(first)?;
    // "third" and "fifth" alone are places in a row.
    matches!(first, "half" | "quarter").then_some((1.0 / below, at + 1))
}

/// The middle, beginning or end of a ten: "mid-seventies".
fn decade(all: &[Token], at: usize) -> Option<(f64, usize)> {
    let part = match word(all, at) {
        "mid" | "middle" => 5.0,
        "low" | "early" => 2.0,
        "high" | "upper" | "late" => 8.0,
        _ => return None,
    };
    let next = past_dash(all, at + 1);
    let ten = word(all, next).strip_suffix("ies")?;
    Some((tens(&format!("{ten}y"))? + part, next + 1))
}

/// A whole number in words, and whether two were drawn together.
fn whole(all: &[Token], at: usize) -> Option<Number> {
    let first = word(all, at);
    let next_word = word(all, at + 1);
    let (value, mut end) = match first {
        "a" | "an" if matches!(next_word, "hundred" | "thousand" | "dozen") => (1.0, at + 1),
        "hundred" | "thousand" => (1.0, at),
        "zero" | "nought" | "naught" => return Some(Number::of_words(0.0, at + 1)),
        _ => below_hundred(all, at)?,
    };
    if let Some(number) = digit_by_digit(all, at) {
        return Some(number);
    }
    let next = past_dash(all, end);
    match word(all, next) {
        "hundred" => {
            let (mut total, mut end) = (value * 100.0, next + 1);
            if let Some((rest, after)) = rest_after(all, end) {
                total += rest;
                end = after;
            }
            return Some(Number::of_words(total, end));
        }
        "thousand" => {
            let (mut total, mut end) = (value * 1000.0, next + 1);
            let and = usize::from(word(all, end) == "and");
            if let Some(more) = whole(all, end + and).filter(|more| more.value < 1000.0) {
                total += more.value;
                end = more.end;
            }
            return Some(Number::of_words(total, end));
        }
        "dozen" => {
            // "a dozen and two"
            let more = (word(all, next + 1) == "and")
                .then(|| digit(word(all, next + 2)))
                .flatten();
            return Some(match more {
                Some(more) => Number::of_words(value * 12.0 + more, next + 3),
                None => Number::of_words(value * 12.0, next + 1),
            });
        }
        "oh" | "o" if value < 10.0 => {
            let last = past_dash(all, next + 1);
            if let Some(one) = digit(word(all, last)) {
                return Some(Number::of_words(value * 100.0 + one, last + 1));
            }
        }
        _ => {}
    }
    // "one eighty", "three-fifty", "fourteen twenty".
    if let Some((second, after)) = below_hundred(all, next).filter(|(second, _)| *second >= 10.0) {
        let behind = past_dash(all, after);
        let a_size = SINGULAR.contains(&word(all, behind));
        let whole_tens = value < 20.0 || value % 10.0 == 0.0;
        if !a_size && whole_tens {
            end = after;
            let mut number = Number::of_words(value * 100.0 + second, end);
            number.drawn = Some((value, second));
            return Some(number);
        }
    }
    Some(Number::of_words(value, end))
}

/// "Two four five of bread flour": three digits said one by one, and not a counting up.
fn digit_by_digit(all: &[Token], at: usize) -> Option<Number> {
    let one = |more: usize| digit(word(all, at + more));
    let (hundreds, tens, ones) = (one(0)?, one(1)?, one(2)?);
    let alone = one(3).is_none()
        && at
            .checked_sub(1)
            .is_none_or(|n| digit(word(all, n)).is_none());
    let counts_up = (tens - hundreds - 1.0).abs() < 1e-9 && (ones - tens - 1.0).abs() < 1e-9;
    (alone && !counts_up).then(|| Number::of_words(hundreds * 100.0 + tens * 10.0 + ones, at + 3))
}

/// What follows "hundred": "and eighty", "eighty", "and thirty-seven".
fn rest_after(all: &[Token], at: usize) -> Option<(f64, usize)> {
    let and = usize::from(word(all, at) == "and");
    let (rest, end) = below_hundred(all, at + and)?;
    // "two hundred and one third"; "between two hundred and two hundred and twenty"
    if part(all, at + and).is_some() || and == 1 && matches!(word(all, end), "hundred" | "thousand")
    {
        return None;
    }
    Some((rest, end))
}

/// The decimals after "point": "point two five".
fn decimals(all: &[Token], at: usize) -> Option<(f64, usize)> {
    if word(all, at) != "point" {
        return None;
    }
    let (mut value, mut size, mut end) = (0.0, 0.1, at + 1);
    loop {
        let said = word(all, end);
        let one = match said {
            "zero" | "nought" | "oh" => Some(0.0),
            _ => digit(said),
        };
        let Some(one) = one else { break };
        value += one * size;
        size /= 10.0;
        end += 1;
    }
    (end > at + 1).then_some((value, end))
}

/// The number at a place.
pub(super) fn number(text: &str, all: &[Token], at: usize) -> Option<Number> {
    let token = all.get(at)?;
    if let Some((value, end)) = figures(text, all, at) {
        let mut number = Number::of_words(value, end);
        number.in_words = false;
        return Some(with_part(all, number));
    }
    if matches!(token.what, What::Mark(_)) {
        return None;
    }
    if let Some((value, end)) = decimals(all, at) {
        return Some(Number::of_words(value, end));
    }
    if let Some((value, end)) = decade(all, at) {
        let mut number = Number::of_words(value, end);
        number.vague = true;
        return Some(number);
    }
    if let Some((value, end)) = part(all, at) {
        let a = usize::from(matches!(word(all, end), "a" | "of"));
        if word(all, end + a) == "dozen" {
            return Some(Number::of_words(value * 12.0, end + a + 1));
        }
        return Some(Number::of_words(value, end));
    }
    let first = word(all, at);
    let couple = match (first, word(all, at + 1)) {
        ("a", "couple" | "pair") => Some(at + 2),
        ("couple", _) => Some(at + 1),
        _ => None,
    };
    if let Some(end) = couple {
        let of = usize::from(word(all, end) == "of");
        let mut number = Number::of_words(2.0, end + of);
        number.vague = true;
        return Some(number);
    }
    // "a baker's dozen"
    let article = usize::from(matches!(first, "a" | "the"));
    if matches!(word(all, at + article), "baker's" | "baker’s" | "bakers")
        && word(all, at + article + 1) == "dozen"
    {
        return Some(Number::of_words(13.0, at + article + 2));
    }
    if let Some(number) = whole(all, at) {
        if let Some((value, end)) = decimals(all, number.end) {
            return Some(Number::of_words(number.value + value, end));
        }
        return Some(with_part(all, number));
    }
    if matches!(first, "a" | "an") {
        let mut number = Number::of_words(1.0, at + 1);
        number.article = true;
        return Some(number);
    }
    None
}

/// "and a half" behind a number: "two and a quarter", "2 and three quarters".
fn with_part(all: &[Token], number: Number) -> Number {
    if word(all, number.end) == "and"
        && number.value.fract() == 0.0
        && let Some((value, end)) = part(all, number.end + 1)
    {
        let mut more = number;
        // "A dozen and a half" are eighteen.
        let dozens = number.end > 0 && word(all, number.end - 1) == "dozen";
        more.value += if dozens { 12.0 * value } else { value };
        more.end = end;
        return more;
    }
    number
}

/// A number in figures; "1,420" is a thousand and more.
fn figures(text: &str, all: &[Token], at: usize) -> Option<(f64, usize)> {
    let token = all.get(at)?;
    let value = match token.what {
        What::Number(value) => value,
        What::Mark('#') => {
            let written = &text[token.span.start..token.span.end];
            let (before, after) = written.split_once(',')?;
            let whole = |part: &str| part.bytes().all(|b| b.is_ascii_digit());
            if after.len() != 3 || before.is_empty() || !whole(before) || !whole(after) {
                return None;
            }
            format!("{before}{after}").parse::<f64>().ok()?
        }
        _ => return None,
    };
    match word(all, at + 1) {
        "hundred" => Some((value * 100.0, at + 2)),
        "thousand" => Some((value * 1000.0, at + 2)),
        "dozen" => Some((value * 12.0, at + 2)),
        _ => Some((value, at + 1)),
    }
}
