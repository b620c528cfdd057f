//! How many, as prose says it: digits, fractions, number words, dozens and ranges of them.

use super::super::number::{Cursor, begins, is_dash, number};
use super::{ends_word, prefix, spaces};

/// A number or a range at the beginning of a text.
#[derive(Clone, Debug, PartialEq)]
pub struct Counted {
    /// The low end.
    pub low: f64,
    /// The high end, or the low one again.
    pub high: f64,
    /// Whether nothing but "a" stands there.
    pub article: bool,
    /// Whether it is written with a mark of thousands, which only grams and millilitres have.
    pub thousand: bool,
    /// Where it ends, in bytes.
    pub end: usize,
}

impl Counted {
    /// "a cup": one, by its article.
    pub const fn article(end: usize) -> Self {
        Self {
            low: 1.0,
            high: 1.0,
            article: true,
            thousand: false,
            end,
        }
    }

    /// Whether it is two numbers.
    pub fn is_range(&self) -> bool {
        self.low < self.high
    }

    const fn plain(value: f64, end: usize) -> Self {
        Self {
            low: value,
            high: value,
            article: false,
            thousand: false,
            end,
        }
    }
}

/// Words for whole numbers.
const WHOLE: &[(&str, f64)] = &[
    ("one", 1.0),
    ("two", 2.0),
    ("three", 3.0),
    ("four", 4.0),
    ("five", 5.0),
    ("six", 6.0),
    ("seven", 7.0),
    ("eight", 8.0),
    ("nine", 9.0),
    ("ten", 10.0),
    ("eleven", 11.0),
    ("twelve", 12.0),
    ("thirteen", 13.0),
    ("fourteen", 14.0),
    ("fifteen", 15.0),
    ("sixteen", 16.0),
    ("seventeen", 17.0),
    ("eighteen", 18.0),
    ("nineteen", 19.0),
    ("twenty", 20.0),
    ("thirty", 30.0),
    ("forty", 40.0),
    ("fifty", 50.0),
    ("sixty", 60.0),
    ("seventy", 70.0),
    ("eighty", 80.0),
    ("ninety", 90.0),
    ("hundred", 100.0),
];

/// Words for parts of one.
const PARTS: &[(&str, f64)] = &[
    ("halves", 2.0),
    ("half", 2.0),
    ("thirds", 3.0),
    ("third", 3.0),
    ("quarters", 4.0),
    ("quarter", 4.0),
    ("fourths", 4.0),
    ("fourth", 4.0),
    ("fifths", 5.0),
    ("fifth", 5.0),
    ("sixths", 6.0),
    ("sixth", 6.0),
    ("eighths", 8.0),
    ("eighth", 8.0),
];

/// The word of a table that a text begins with.
fn word(text: &str, table: &[(&str, f64)]) -> Option<(f64, usize)> {
    if text.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    table.iter().find_map(|(spelling, value)| {
        let end = prefix(text, spelling)?;
        ends_word(&text[end..]).then_some((*value, end))
    })
}

/// A plain word that a text begins with, spaces before it included.
fn literal(text: &str, spelling: &str) -> Option<usize> {
    let start = spaces(text);
    let end = start + prefix(&text[start..], spelling)?;
    ends_word(&text[end..]).then_some(end)
}

/// The number or range that a text begins with.
pub fn leading_number(text: &str) -> Option<Counted> {
    if let Some(after) = literal(text, "between") {
        let low = single(&text[after..])?;
        let at = after + low.end;
        let joined = at + literal(&text[at..], "and")?;
        return ranged(text, &low, joined);
    }
    if let Some(after) = literal(text, "from")
        && let Some(mut found) = leading_number(&text[after..])
        && found.low < found.high
    {
        found.end += after;
        return Some(found);
    }
    let low = single(text)?;
    if low.article {
        return Some(low);
    }
    if let Some(after) = range_sign(&text[low.end..]) {
        let second_at = low.end + after;
        match single(&text[second_at..]) {
            Some(second) if !second.article && second.low > low.low => {
                return ranged(text, &low, second_at);
            }
            // "1 - 1/2 cups" could be two things.
            Some(second) if !second.article => return None,
            _ => {}
        }
    }
    Some(low)
}

/// A range whose second number stands at a place.
fn ranged(text: &str, low: &Counted, second_at: usize) -> Option<Counted> {
    let high = single(&text[second_at..])?;
    (high.low > low.low && !high.article).then(|| Counted {
        low: low.low,
        high: high.low,
        article: false,
        thousand: low.thousand || high.thousand,
        end: second_at + high.end,
    })
}

/// Goes past what stands between the two numbers of a range.
pub(super) fn range_sign(rest: &str) -> Option<usize> {
    let start = spaces(rest);
    let next = &rest[start..];
    let first = next.chars().next()?;
    let end = if is_dash(first) || first == '—' {
        start + first.len_utf8()
    } else {
        ["to", "or", "till", "up to"]
            .iter()
            .find_map(|word| literal(rest, word))?
    };
    Some(end + spaces(&rest[end..]))
}

/// Goes past the "or" between a measure and a second number: "a sprig or two".
pub(super) fn joined_by_or(rest: &str) -> Option<usize> {
    let end = literal(rest, "or")?;
    Some(end + spaces(&rest[end..]))
}

/// One number.
fn single(text: &str) -> Option<Counted> {
    let start = spaces(text);
    let rest = &text[start..];
    let mut found = if rest.starts_with(|c: char| begins(c) && c != ',') {
        digits(rest)
    } else {
        words(rest)
    }?;
    found.end += start;
    if !found.thousand
        && let Some(after) = literal(&text[found.end..], "dozen")
    {
        found = Counted::plain(found.low * 12.0, found.end + after);
    }
    (found.low > 0.0 && found.low < 1e5).then_some(found)
}

/// A number in digits, with what may be added to it: "1 and 1/2", "1-1/2", "1 and a half".
fn digits(text: &str) -> Option<Counted> {
    // 00 flour and 0 flour are kinds.
    if text.starts_with('0') && !text[1..].starts_with(['.', ',']) {
        return None;
    }
    let spaced = spaced_bar(text);
    if let Some((value, end)) = spaced {
        return Some(Counted::plain(value, end));
    }
    let mut cursor = Cursor::new(text);
    let Ok(value) = number(&mut cursor) else {
        return odd(text);
    };
    let end = cursor.at;
    let written = &text[..end];
    if written.bytes().all(|b| b.is_ascii_digit()) {
        let rest = &text[end..];
        if let Some((part, after)) = added_part(rest) {
            return Some(Counted::plain(value + part, end + after));
        }
    }
    Some(Counted::plain(value, end))
}

/// "1 / 2": a fraction with spaces around its bar.
fn spaced_bar(text: &str) -> Option<(f64, usize)> {
    let first = text.len() - text.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    let bar = first + spaces(&text[first..]);
    let mut letters = text[bar..].chars();
    if bar == first || first > 2 || !matches!(letters.next(), Some('/' | '⁄')) {
        return None;
    }
    let below = bar + text[bar..].chars().next().map_or(0, char::len_utf8);
    let below = below + spaces(&text[below..]);
    let rest = &text[below..];
    let length = rest.len() - rest.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    let (top, bottom): (f64, f64) = (text[..first].parse().ok()?, rest[..length].parse().ok()?);
    (top > 0.0 && bottom > top && bottom <= 16.0).then_some((top / bottom, below + length))
}

/// A fraction below one that is added to a whole number: "-1/2", " and 1/2", " & ½", " and a half".
fn added_part(rest: &str) -> Option<(f64, usize)> {
    let first = rest.chars().next()?;
    let dash = is_dash(first).then(|| first.len_utf8());
    let joined = dash.or_else(|| literal(rest, "and")).or_else(|| {
        let start = spaces(rest);
        rest[start..].starts_with(['&', '+']).then_some(start + 1)
    })?;
    let at = joined + spaces(&rest[joined..]);
    if dash.is_some() && at > joined {
        return None;
    }
    let next = &rest[at..];
    if next.starts_with(begins) {
        let mut cursor = Cursor::new(next);
        let value = number(&mut cursor).ok()?;
        let written = &next[..cursor.at];
        let fraction = written.contains(['/', '⁄']) || !written.is_ascii();
        return (value < 1.0 && fraction).then_some((value, at + cursor.at));
    }
    if dash.is_some() {
        return None;
    }
    let (value, end) = part_words(next)?;
    Some((value, at + end))
}

/// Digits that the strict reader refuses: a mark of thousands, or a mark that ends a phrase.
fn odd(text: &str) -> Option<Counted> {
    let end = text.len() - text.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    if end == 0 {
        return None;
    }
    let rest = &text[end..];
    let group = |rest: &str| {
        let mark = rest.chars().next()?;
        let digits = &rest[mark.len_utf8()..];
        let length = digits.len()
            - digits
                .trim_start_matches(|c: char| c.is_ascii_digit())
                .len();
        (matches!(mark, ',' | ' ' | '.') && length == 3).then(|| mark.len_utf8() + length)
    };
    if end <= 3
        && let Some(length) = group(rest)
    {
        let written: String = text[..end + length]
            .chars()
            .filter(char::is_ascii_digit)
            .collect();
        let after = rest[length..].trim_start();
        let value: f64 = written.parse().ok()?;
        // "2 400 g tins" are two of 400 g.
        let pack = rest.starts_with(' ') && super::unit::size_of_pack(after);
        if !pack {
            return Some(Counted {
                thousand: true,
                ..Counted::plain(value, end + length)
            });
        }
    }
    let mark = rest.chars().next()?;
    let ends_phrase = matches!(mark, ',' | '.')
        && !rest[mark.len_utf8()..].starts_with(|c: char| c.is_ascii_digit());
    (ends_phrase || mark == ' ')
        .then(|| text[..end].parse().ok())
        .flatten()
        .map(|value| Counted::plain(value, end))
}

/// A number in words.
fn words(text: &str) -> Option<Counted> {
    if let Some((value, end)) = part_words(text) {
        // Half and half is a cream, and half the flour is no amount.
        let rest = text[end..].trim_start_matches(|c: char| c.is_whitespace() || is_dash(c));
        let other = ["and half", "the", "fat", "& half"]
            .iter()
            .any(|word| literal(rest, word).is_some());
        return (!other).then(|| Counted::plain(value, end));
    }
    if let Some(end) = literal(text, "dozen") {
        return Some(Counted::plain(12.0, end));
    }
    if let Some(end) = literal(text, "a dozen") {
        return Some(Counted::plain(12.0, end));
    }
    for pair in ["a couple", "couple"] {
        if let Some(end) = literal(text, pair) {
            return Some(Counted::plain(2.0, end));
        }
    }
    if let Some((value, end)) = word(text, WHOLE) {
        let (value, end) = tens(text, value, end);
        let rest = &text[end..];
        // "five-spice", "seven-grain" are kinds; "one 7-g packet" is not.
        if rest.starts_with(is_dash) {
            let next = rest.trim_start_matches(is_dash);
            if !next.starts_with(begins) && super::leading_unit(rest).is_none() {
                return None;
            }
        }
        if literal(rest, "spice").is_some() {
            return None;
        }
        let joined = literal(rest, "and");
        if let Some(after) = joined
            && let Some((part, length)) = part_words(rest[after..].trim_start())
        {
            let gap = spaces(&rest[after..]);
            return Some(Counted::plain(value + part, end + after + gap + length));
        }
        return Some(Counted::plain(value, end));
    }
    ["a", "an"]
        .iter()
        .find_map(|article| literal(text, article))
        .map(Counted::article)
}

/// "twenty-five".
fn tens(text: &str, value: f64, end: usize) -> (f64, usize) {
    let rest = &text[end..];
    if !(20.0..100.0).contains(&value) {
        return (value, end);
    }
    let gap = rest.len()
        - rest
            .trim_start_matches(|c: char| c == ' ' || is_dash(c))
            .len();
    match word(&rest[gap..], WHOLE) {
        Some((ones, length)) if ones < 10.0 && gap > 0 => (value + ones, end + gap + length),
        _ => (value, end),
    }
}

/// A part of one in words: "half", "half a", "a quarter of a", "three-quarters", "two thirds".
fn part_words(text: &str) -> Option<(f64, usize)> {
    let top = ["a", "an"]
        .iter()
        .find_map(|article| literal(text, article))
        .map(|end| (1.0, end))
        .or_else(|| word(text, WHOLE).filter(|(value, _)| *value < 10.0));
    let (top, at) = top.unwrap_or((1.0, 0));
    let gap = text[at..].len()
        - text[at..]
            .trim_start_matches(|c: char| c == ' ' || is_dash(c))
            .len();
    if at > 0 && gap == 0 {
        return None;
    }
    let (bottom, length) = word(&text[at + gap..], PARTS)?;
    let mut end = at + gap + length;
    if top >= bottom {
        return None;
    }
    // half a cup, a quarter of a teaspoon
    for joining in ["of a", "of an", "an", "a"] {
        if let Some(after) = literal(&text[end..], joining) {
            end += after;
            break;
        }
    }
    Some((top / bottom, end))
}
