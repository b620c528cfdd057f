//! Amounts as they stand in prose, at the beginning of a text: "one and a half cups", "1-1/2 Tbsp.".
//!
//! The strict reader beside it refuses what a recipe file should not say; this one takes what people
//! write in a recipe and says where it ended. It shares the strict reader's numbers and never guesses.

mod count;
mod unit;

use crate::import::model::{Bearing, LineUnit, Piece};
pub use count::{Counted, leading_number};
pub(crate) use unit::PACKS;
pub use unit::{is_length, leading_unit};

/// An amount at the beginning of a text.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// The number or range with its unit.
    pub piece: Piece,
    /// How it is meant.
    pub bearing: Option<Bearing>,
    /// Whether nothing but "a" stands for the number.
    pub article: bool,
    /// Where it ends, in bytes.
    pub end: usize,
}

impl Said {
    /// Whether it has a unit of mass or volume.
    pub fn is_measured(&self) -> bool {
        !matches!(self.piece.unit, LineUnit::Number | LineUnit::Thing(_))
    }
}

/// Words that say how an amount is meant, the longer before the shorter.
const BEARINGS: &[(Bearing, &[&str])] = &[
    (
        Bearing::About,
        &[
            "approximately",
            "approx.",
            "approx",
            "roughly",
            "around",
            "about",
            "circa",
            "ca.",
            "~",
            "≈",
            "c.",
        ],
    ),
    (
        Bearing::Scant,
        &["just under", "a scant", "scant", "barely", "short"],
    ),
    (
        Bearing::Heaped,
        &["a heaped", "a heaping", "heaped", "heaping", "mounded"],
    ),
    (Bearing::Rounded, &["a rounded", "rounded"]),
    (Bearing::Generous, &["just over", "a generous", "generous"]),
    (Bearing::Level, &["a level", "level", "levelled", "leveled"]),
    (
        Bearing::Packed,
        &[
            "firmly packed",
            "tightly packed",
            "well packed",
            "well-packed",
            "packed",
        ],
    ),
];

/// The bearing that a text begins with, and where it ends.
pub fn leading_bearing(text: &str) -> Option<(Bearing, usize)> {
    let start = spaces(text);
    let rest = &text[start..];
    // Most that is asked begins with a figure, and no bearing does.
    if rest.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let all = BEARINGS
        .iter()
        .flat_map(|(bearing, words)| words.iter().map(move |word| (*word, bearing)));
    all.into_iter().find_map(|(word, bearing)| {
        let end = prefix(rest, word)?;
        let sign = word.ends_with(['~', '≈', '.']);
        // "c. 1 tsp" is about; "c. flour" is a cup.
        let number_next = || {
            let next = rest[end..].trim_start();
            next.starts_with(|c: char| c.is_ascii_digit())
        };
        let fits = if word == "c." {
            number_next()
        } else {
            sign || ends_word(&rest[end..])
        };
        fits.then_some((*bearing, start + end))
    })
}

/// The amount that a text begins with: how it is meant, number or range, unit.
pub fn leading_amount(text: &str) -> Option<Said> {
    let mut at = 0;
    let mut bearing = None;
    if let Some((found, end)) = leading_bearing(text) {
        bearing = Some(found);
        at = end;
    }
    // "a heaped teaspoon": the article has gone with the bearing.
    let with_article = bearing.is_some() && prefix(text[..at].trim_start(), "a ").is_some();
    let number = leading_number(&text[at..]);
    let number = match number {
        Some(number) => number,
        None if with_article => Counted::article(0),
        None => return None,
    };
    let mut end = at + number.end;
    for _ in 0..2 {
        if let Some((found, after)) = leading_bearing(&text[end..]) {
            // "2 good eggs" is no measure; the word must stand before a unit.
            if leading_unit(&text[end + after..]).is_none() {
                break;
            }
            bearing = bearing.or(Some(found));
            end += after;
        }
    }
    finish(text, at, end, &number, bearing)
}

/// Adds the unit, and the second end of a range whose unit stands twice.
fn finish(
    text: &str,
    at: usize,
    mut end: usize,
    number: &Counted,
    bearing: Option<Bearing>,
) -> Option<Said> {
    let unit = leading_unit(&text[end..]);
    if number.article && unit.is_none() {
        return None;
    }
    if let Some((unit, after)) = unit {
        end += after;
        // 180C is a temperature.
        let letter = text[..end].ends_with(['c', 'C']);
        if letter && unit == LineUnit::Cup && number.high > 20.0 {
            return None;
        }
        let mut piece = Piece {
            low: number.low,
            high: number.high,
            unit,
        };
        if number.thousand && !matches!(unit, LineUnit::Gram | LineUnit::Millilitre) {
            return None;
        }
        // 250g-300g, 1 cup to 1¼ cups.
        if !piece.is_range()
            && let Some(after) = count::range_sign(&text[end..])
            && let Some(second) = leading_number(&text[end + after..])
            && !second.article
            && !second.is_range()
            && second.low > piece.low
        {
            let unit_at = end + after + second.end;
            if let Some((again, length)) = leading_unit(&text[unit_at..])
                && again == unit
            {
                piece.high = second.low;
                end = unit_at + length;
            }
        }
        // A sprig or two: the unit stands between the ends of the range.
        if !piece.is_range()
            && let Some(after) = count::joined_by_or(&text[end..])
            && let Some(second) = leading_number(&text[end + after..])
            && !second.article
            && !second.is_range()
            && second.low > piece.low
            && leading_unit(&text[end + after + second.end..]).is_none()
        {
            piece.high = second.low;
            end += after + second.end;
        }
        return Some(Said {
            article: number.article && !piece.is_range(),
            piece,
            bearing,
            end,
        });
    }
    if number.thousand || is_length(&text[end..]) || refuses(&text[end..]) || end == at {
        return None;
    }
    Some(Said {
        piece: Piece {
            low: number.low,
            high: number.high,
            unit: LineUnit::Number,
        },
        bearing,
        article: false,
        end,
    })
}

/// Whether what follows makes of a number something else than an amount: "2 % milk", "2nd".
fn refuses(rest: &str) -> bool {
    let next = rest.trim_start();
    let joined = rest.len() == next.len();
    let starts = |word: &str| prefix(next, word).is_some_and(|end| ends_word(&next[end..]));
    next.starts_with(['%', '°', '/', '⁄'])
        || [
            "percent", "per cent", "degrees", "minutes", "min", "mins", "hours", "hour", "h",
        ]
        .iter()
        .any(|word| starts(word))
        || joined
            && next.starts_with(|c: char| {
                c.is_alphanumeric() || matches!(c, '-' | '’' | '\'' | '.' | ':' | '_')
            })
            && !next.starts_with(['x', '×'])
}

/// How many bytes of space a text begins with.
pub(super) fn spaces(text: &str) -> usize {
    text.len() - text.trim_start().len()
}

/// Where a word ends that a text begins with, capitals apart.
#[inline]
pub(super) fn prefix(text: &str, word: &str) -> Option<usize> {
    // Nearly every look-up ends at the first letter.
    let (own, wanted) = (text.as_bytes().first(), word.as_bytes().first());
    match (own, wanted) {
        (Some(own), Some(wanted))
            if own.is_ascii() && wanted.is_ascii() && !own.eq_ignore_ascii_case(wanted) =>
        {
            None
        }
        _ => whole_prefix(text, word),
    }
}

fn whole_prefix(text: &str, word: &str) -> Option<usize> {
    // Most words and texts are of plain letters, which are compared as bytes; the first that
    // differs ends the search.
    let plain = text
        .as_bytes()
        .iter()
        .zip(word.as_bytes())
        .take_while(|(own, wanted)| own.is_ascii() && own.eq_ignore_ascii_case(wanted))
        .count();
    if plain == word.len() {
        return Some(plain);
    }
    if text.as_bytes().get(plain).is_none_or(u8::is_ascii) && word.as_bytes()[plain].is_ascii() {
        return None;
    }
    let mut at = plain;
    for wanted in word[plain..].chars() {
        let next = text[at..].chars().next()?;
        if !next.to_lowercase().eq(wanted.to_lowercase()) {
            return None;
        }
        at += next.len_utf8();
    }
    Some(at)
}

/// Whether no letter or digit follows.
pub(super) fn ends_word(rest: &str) -> bool {
    !rest.starts_with(char::is_alphanumeric)
}
