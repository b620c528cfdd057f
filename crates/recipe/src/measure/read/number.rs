//! Numbers as people write them: 2.5, 2,5, ½, 1½, 1 1/2, and ranges of them.

use super::Unread;
use crate::source::{Span, code};

/// A place in a text that moves forward.
#[derive(Clone, Debug)]
pub struct Cursor<'t> {
    /// The whole text.
    pub text: &'t str,
    /// How far it has been read, in bytes.
    pub at: usize,
}

impl<'t> Cursor<'t> {
    /// At the beginning of a text.
    pub const fn new(text: &'t str) -> Self {
        Self { text, at: 0 }
    }

    /// What is still to be read.
    pub fn rest(&self) -> &'t str {
        &self.text[self.at..]
    }

    /// The next letter.
    pub fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    /// Goes past spaces of every width.
    pub fn skip_space(&mut self) {
        let rest = self.rest();
        self.at += rest.len() - rest.trim_start().len();
    }

    /// Goes past a letter if it is next.
    pub fn eat(&mut self, wanted: char) -> bool {
        let found = self.peek() == Some(wanted);
        if found {
            self.at += wanted.len_utf8();
        }
        found
    }

    /// Goes past every letter that fits and gives them.
    pub fn take_while(&mut self, fits: impl Fn(char) -> bool) -> &'t str {
        let rest = self.rest();
        let end = rest.find(|c| !fits(c)).unwrap_or(rest.len());
        self.at += end;
        &rest[..end]
    }

    /// From a place to here.
    pub const fn since(&self, start: usize) -> Span {
        Span::new(start, self.at)
    }
}

/// The vulgar fractions that have a letter of their own.
const VULGAR: &[(char, f64)] = &[
    ('½', 1.0 / 2.0),
    ('⅓', 1.0 / 3.0),
    ('⅔', 2.0 / 3.0),
    ('¼', 1.0 / 4.0),
    ('¾', 3.0 / 4.0),
    ('⅕', 1.0 / 5.0),
    ('⅖', 2.0 / 5.0),
    ('⅗', 3.0 / 5.0),
    ('⅘', 4.0 / 5.0),
    ('⅙', 1.0 / 6.0),
    ('⅚', 5.0 / 6.0),
    ('⅐', 1.0 / 7.0),
    ('⅛', 1.0 / 8.0),
    ('⅜', 3.0 / 8.0),
    ('⅝', 5.0 / 8.0),
    ('⅞', 7.0 / 8.0),
    ('⅑', 1.0 / 9.0),
    ('⅒', 1.0 / 10.0),
];

/// The value of a fraction letter.
fn vulgar(letter: char) -> Option<f64> {
    VULGAR
        .iter()
        .find(|(c, _)| *c == letter)
        .map(|(_, value)| *value)
}

/// Whether a number can begin with this letter, sign apart.
pub fn begins(letter: char) -> bool {
    letter.is_ascii_digit() || vulgar(letter).is_some() || matches!(letter, '.' | ',')
}

/// Whether the letter is a minus or a dash that can stand for one.
pub const fn is_dash(letter: char) -> bool {
    matches!(letter, '-' | '–' | '−' | '‐' | '‑')
}

/// Reads one number without sign.
pub fn number(cursor: &mut Cursor<'_>) -> Result<f64, Unread> {
    let start = cursor.at;
    if let Some(value) = cursor.peek().and_then(vulgar) {
        cursor.at += cursor.peek().map_or(0, char::len_utf8);
        return Ok(value);
    }
    let digits = cursor
        .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | ','))
        .to_owned();
    let span = cursor.since(start);
    let Some(whole) = decimal(&digits, span)? else {
        return Err(Unread::new(
            code::NUMBER_UNREADABLE,
            span,
            no_number(cursor.text),
        ));
    };
    if cursor.peek() == Some('/') || cursor.peek() == Some('⁄') {
        cursor.at += cursor.peek().map_or(0, char::len_utf8);
        return over(whole, &digits, start, cursor);
    }
    // 1½, 1 ½ or 1 1/2.
    let mut ahead = cursor.clone();
    ahead.skip_space();
    if is_whole(&digits) {
        if let Some(part) = ahead.peek().and_then(vulgar) {
            ahead.at += ahead.peek().map_or(0, char::len_utf8);
            *cursor = ahead;
            return Ok(whole + part);
        }
        let second_start = ahead.at;
        let second = ahead.take_while(|c| c.is_ascii_digit()).to_owned();
        if second_start > cursor.at && !second.is_empty() && matches!(ahead.peek(), Some('/' | '⁄'))
        {
            ahead.at += ahead.peek().map_or(0, char::len_utf8);
            let top = decimal(&second, ahead.since(second_start))?.unwrap_or(0.0);
            let part = over(top, &second, second_start, &mut ahead)?;
            if part >= 1.0 {
                return Err(Unread::new(
                    code::NUMBER_UNREADABLE,
                    ahead.since(start),
                    format!(
                        "“{}” is not a number: the fraction is not below one.",
                        &ahead.text[start..ahead.at]
                    ),
                ));
            }
            *cursor = ahead;
            return Ok(whole + part);
        }
        if second_start > cursor.at && second.len() == 3 && cursor.at - start <= 3 {
            return Err(Unread::new(
                code::NUMBER_UNREADABLE,
                ahead.since(start),
                format!(
                    "“{}” could be two numbers or one.",
                    &ahead.text[start..ahead.at]
                ),
            )
            .hint(format!(
                "Write a thousand without a space: {digits}{second}."
            )));
        }
    }
    if cursor.peek().is_some_and(|c| matches!(c, 'e' | 'E'))
        && cursor.rest()[1..].starts_with(|c: char| c.is_ascii_digit() || matches!(c, '-' | '+'))
    {
        cursor.take_while(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '+' | '.'));
        return Err(Unread::new(
            code::NUMBER_UNREADABLE,
            cursor.since(start),
            format!(
                "“{}” is not how a recipe writes a number.",
                &cursor.text[start..cursor.at]
            ),
        )
        .hint("Write the number out, without a power of ten."));
    }
    Ok(whole)
}

/// Whether the digits are a whole number.
fn is_whole(digits: &str) -> bool {
    digits.bytes().all(|b| b.is_ascii_digit())
}

/// Digits with at most one decimal mark; none when there is no digit.
fn decimal(digits: &str, span: Span) -> Result<Option<f64>, Unread> {
    if !digits.bytes().any(|b| b.is_ascii_digit()) {
        return Ok(None);
    }
    let unreadable = |message: String| Unread::new(code::NUMBER_UNREADABLE, span, message);
    let marks = digits.matches(['.', ',']).count();
    if marks > 1 {
        return Err(
            unreadable(format!("“{digits}” has more than one decimal mark."))
                .hint("Write a thousand as 1000, and one decimal mark at most: 2.5 or 2,5."),
        );
    }
    if digits.ends_with(['.', ',']) {
        return Err(unreadable(format!(
            "“{digits}” ends in a decimal mark without decimals."
        )));
    }
    if let Some((before, after)) = digits.split_once(',')
        && after.len() == 3
        && !before.is_empty()
        && before.len() <= 3
        && !before.starts_with('0')
    {
        return Err(unreadable(format!(
            "“{digits}” could be {before}{after} or {before}.{after}."
        ))
        .hint(format!(
            "Write {before}{after} for the thousand, {before}.{after} for the other."
        )));
    }
    match digits.replace(',', ".").parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(Some(value)),
        _ => Err(unreadable(
            "The number is too long to be one of a kitchen.".to_owned(),
        )),
    }
}

/// The lower part of a fraction whose bar has been passed.
fn over(top: f64, digits: &str, start: usize, cursor: &mut Cursor<'_>) -> Result<f64, Unread> {
    let below = cursor.take_while(|c| c.is_ascii_digit()).to_owned();
    let bottom = decimal(&below, cursor.since(start))?.unwrap_or(0.0);
    if !is_whole(digits) || bottom <= 0.0 {
        return Err(Unread::new(
            code::NUMBER_UNREADABLE,
            cursor.since(start),
            format!("“{}” is not a fraction.", &cursor.text[start..cursor.at]),
        )
        .hint("Write a fraction as 1/2 or ½."));
    }
    Ok(top / bottom)
}

/// What to say when a number is wanted and there is none.
pub fn no_number(text: &str) -> String {
    if text.trim().is_empty() {
        "Nothing is written here; a number and its unit are wanted.".to_owned()
    } else {
        format!("“{}” does not begin with a number.", text.trim())
    }
}
