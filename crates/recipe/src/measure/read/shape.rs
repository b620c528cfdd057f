//! Reads quantities of a form of their own: multiples, heights at the rim, tins, pieces.

use super::number::{Cursor, begins, is_dash, number};
use super::phrase::term;
use super::units::{Sort, Unit};
use super::{Unread, read_length, read_mass, terms};
use crate::document::model::{Part, TinSize};
use crate::source::{Span, code};
use numerics::quantity::{Length, Mass};

/// Reads a volume as a multiple of the start: "2 times".
pub fn read_multiple(text: &str) -> Result<f64, Unread> {
    let terms = terms(text, &[Sort::Multiple])?;
    let whole = Span::new(0, text.len());
    match &terms[..] {
        [one] if one.unit == Some(Unit::Times) && one.high.is_none() => {
            if one.low <= 0.0 {
                return Err(Unread::new(
                    code::AMOUNT_NOT_POSITIVE,
                    one.span,
                    format!("“{}” would be nothing at all.", text.trim()),
                ));
            }
            Ok(one.low)
        }
        [one] if one.unit == Some(Unit::Times) => Err(Unread::new(
            code::VALUE_WRONG_KIND,
            one.span,
            format!("“{}” is a range; one value is wanted.", text.trim()),
        )),
        [one] => Err(match one.unit {
            None => Unread::new(
                code::NUMBER_WITHOUT_UNIT,
                one.span,
                format!("“{}” stands without “times”.", text.trim()),
            ),
            Some(unit) => Unread::new(
                code::UNIT_DOES_NOT_FIT,
                one.span,
                format!(
                    "“{}” is {}; a multiple of the volume at the start is wanted.",
                    text.trim(),
                    unit.sort().words()
                ),
            ),
        }
        .hint("Write it as in \"2 times\".")),
        _ => Err(Unread::new(
            code::NUMBER_UNREADABLE,
            whole,
            format!("“{}” cannot be read as a multiple.", text.trim()),
        )
        .hint("Write it as in \"2 times\".")),
    }
}

/// Reads a height against the rim: "1 cm below the rim" is below zero.
pub fn read_height(text: &str) -> Result<Length, Unread> {
    const HINT: &str = "Write \"1 cm below the rim\", \"2 cm above the rim\" or \"at the rim\".";
    let plain = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if plain == "at the rim" {
        return Ok(Length::ZERO);
    }
    let words = [("below the rim", -1.0), ("above the rim", 1.0)];
    for (phrase, sign) in words {
        if let Some(at) = text.find(phrase)
            && text[at + phrase.len()..].trim().is_empty()
        {
            return read_length(&text[..at]).map(|length| length * sign);
        }
    }
    // Say first what is wrong with the number, if anything is.
    let mut cursor = Cursor::new(text);
    cursor.skip_space();
    if !cursor.peek().is_some_and(|c| begins(c) || is_dash(c)) {
        return Err(Unread::new(
            code::WORD_UNKNOWN,
            Span::new(0, text.len()),
            format!("“{}” does not say how high against the rim.", text.trim()),
        )
        .hint(HINT));
    }
    let number_at = cursor.at;
    cursor.take_while(is_dash);
    number(&mut cursor)?;
    cursor.skip_space();
    let unit_at = cursor.at;
    cursor.take_while(|c| !c.is_whitespace());
    read_length(&text[..cursor.at])?;
    let rest = text[cursor.at..].trim();
    let message = if rest.is_empty() {
        format!(
            "“{}” does not say whether below or above the rim.",
            text[number_at..].trim()
        )
    } else {
        format!("“{rest}” is not a place against the rim.")
    };
    let start = if rest.is_empty() {
        unit_at
    } else {
        text.len() - text[cursor.at..].trim_start().len()
    };
    Err(Unread::new(code::WORD_UNKNOWN, Span::new(start, text.len()), message).hint(HINT))
}

/// Goes past a times sign with its spaces.
fn eat_times(cursor: &mut Cursor<'_>) -> bool {
    let mut ahead = cursor.clone();
    ahead.skip_space();
    if ahead.eat('x') || ahead.eat('×') || ahead.eat('X') {
        ahead.skip_space();
        if ahead
            .peek()
            .is_some_and(|c| begins(c) || is_dash(c) || c == 'Ø')
        {
            *cursor = ahead;
            return true;
        }
    }
    false
}

/// Whether a times sign stands here with nothing behind it that could be multiplied.
fn times_of_nothing(cursor: &Cursor<'_>) -> bool {
    let mut ahead = cursor.clone();
    ahead.skip_space();
    ahead.peek().is_some_and(|c| matches!(c, 'x' | 'X' | '×')) && !eat_times(&mut ahead)
}

/// Reads a tin's size: "21.6 x 11.4 x 6.4 cm", "40 x 30 cm", "Ø 16.5 x 11 cm".
pub fn read_tin_size(text: &str) -> Result<TinSize, Unread> {
    const HINT: &str = "Write \"21.6 x 11.4 x 6.4 cm\", \"40 x 30 cm\" for a tray, \"Ø 16.5 x 11 cm\" for a round one.";
    let whole = Span::new(0, text.len());
    let mut cursor = Cursor::new(text);
    cursor.skip_space();
    let round = cursor.eat('Ø') || cursor.eat('ø') || cursor.eat('⌀');
    cursor.skip_space();
    let mut numbers = Vec::new();
    loop {
        let start = cursor.at;
        if numbers.len() == 4 {
            break;
        }
        if cursor.peek().is_some_and(is_dash) {
            return Err(Unread::new(
                code::AMOUNT_NOT_POSITIVE,
                whole,
                format!("“{}” has a side that is less than nothing.", text.trim()),
            ));
        }
        if !cursor.peek().is_some_and(begins) {
            break;
        }
        let mut ahead = cursor.clone();
        let value = number(&mut ahead)?;
        if eat_times(&mut ahead) {
            numbers.push(value);
            cursor = ahead;
            continue;
        }
        if times_of_nothing(&ahead) {
            break;
        }
        // The last one carries the unit.
        let last = term(&mut cursor, &[Sort::Length])?;
        let size = match last.unit {
            Some(Unit::Length(size)) => size,
            None => {
                return Err(Unread::new(
                    code::NUMBER_WITHOUT_UNIT,
                    Span::new(start, cursor.at),
                    format!(
                        "“{}” stands without its unit; a length is wanted.",
                        text.trim()
                    ),
                )
                .hint(HINT));
            }
            Some(unit) => {
                return Err(Unread::new(
                    code::UNIT_DOES_NOT_FIT,
                    Span::new(start, cursor.at),
                    format!(
                        "“{}” is {}; the size of a tin is two or three lengths.",
                        &text[start..cursor.at],
                        unit.sort().words()
                    ),
                )
                .hint(HINT));
            }
        };
        numbers.push(last.low);
        cursor.skip_space();
        if last.high.is_some() || !cursor.rest().is_empty() {
            break;
        }
        if numbers.iter().any(|&n| n <= 0.0) {
            return Err(Unread::new(
                code::AMOUNT_NOT_POSITIVE,
                whole,
                format!("“{}” has a side of no length.", text.trim()),
            ));
        }
        let length = |n: f64| Length::from_si(n * size);
        return match (round, &numbers[..]) {
            (true, &[a, b]) => Ok(TinSize::Round {
                diameter: length(a),
                height: length(b),
            }),
            (false, &[a, b]) => Ok(TinSize::Tray {
                length: length(a),
                width: length(b),
            }),
            (false, &[a, b, c]) => Ok(TinSize::Box {
                length: length(a),
                width: length(b),
                depth: length(c),
            }),
            _ => Err(Unread::new(
                code::VALUE_WRONG_KIND,
                whole,
                format!("“{}” does not have two or three dimensions.", text.trim()),
            )
            .hint(HINT)),
        };
    }
    Err(Unread::new(
        code::NUMBER_UNREADABLE,
        whole,
        format!("“{}” cannot be read as the size of a tin.", text.trim()),
    )
    .hint(HINT))
}

/// Reads of what a piece is made: "3 x 220 g", "48 g + 8 g".
pub fn read_piece(text: &str) -> Result<Vec<Part>, Unread> {
    let mut parts = Vec::new();
    let mut start = 0;
    for chunk in text.split('+') {
        let shift = |unread: Unread| Unread {
            span: Span::new(unread.span.start + start, unread.span.end + start),
            ..unread
        };
        parts.push(part(chunk).map_err(shift)?);
        start += chunk.len() + 1;
    }
    Ok(parts)
}

/// Reads one part of a piece.
fn part(text: &str) -> Result<Part, Unread> {
    let mut cursor = Cursor::new(text);
    cursor.skip_space();
    let start = cursor.at;
    let minus = cursor.peek().is_some_and(is_dash);
    cursor.take_while(is_dash);
    if !cursor.peek().is_some_and(begins) {
        return mass_of_part(text, 0).map(|mass| Part { count: 1, mass });
    }
    let many = number(&mut cursor)?;
    let counted = cursor.since(start);
    if times_of_nothing(&cursor) {
        return Err(Unread::new(
            code::NUMBER_UNREADABLE,
            counted,
            format!("“{}” does not say of what there are so many.", text.trim()),
        )
        .hint("Write it as in \"3 x 220 g\"."));
    }
    if !eat_times(&mut cursor) {
        return mass_of_part(text, 0).map(|mass| Part { count: 1, mass });
    }
    if minus || many.fract() != 0.0 || !(1.0..=10_000.0).contains(&many) {
        let (code, message) = if many.fract() != 0.0 {
            (code::NUMBER_UNREADABLE, "not a whole number of parts")
        } else if minus || many < 1.0 {
            (code::AMOUNT_NOT_POSITIVE, "no part at all")
        } else {
            (
                code::VALUE_OUT_OF_REASON,
                "more parts than a piece can have",
            )
        };
        let written = &text[counted.start..counted.end];
        return Err(Unread::new(
            code,
            counted,
            format!("“{written}” is {message}."),
        ));
    }
    let mass = mass_of_part(&text[cursor.at..], cursor.at)?;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "whole, 1 to 10,000"
    )]
    let count = many as u32;
    Ok(Part { count, mass })
}

/// The mass of a part.
fn mass_of_part(text: &str, at: usize) -> Result<Mass, Unread> {
    read_mass(text).map_err(|unread| {
        let does_not_fit = unread.code == code::UNIT_DOES_NOT_FIT;
        let unread = Unread {
            span: Span::new(unread.span.start + at, unread.span.end + at),
            ..unread
        };
        if does_not_fit {
            unread.hint("A piece is weighed: \"3 x 220 g\" or \"48 g + 8 g\".")
        } else {
            unread
        }
    })
}
