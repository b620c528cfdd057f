//! The amount at the beginning of a text: pieces added together, packs with their size, and twins.

use crate::import::model::{Bearing, LineAmount, LineUnit, Piece};
use crate::measure::read::prose::{
    PACKS, Said, leading_amount, leading_bearing, leading_number, leading_unit,
};

/// An amount, what it is in another measure, and where both end.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Head {
    /// As written first.
    pub amount: LineAmount,
    /// The second one.
    pub also: Option<LineAmount>,
    /// Whether the pieces are packs that may have a size after their name.
    pub each: bool,
    /// Where it ends, in bytes.
    pub end: usize,
}

/// Units that are more a gesture than a measure; one of them needs no number.
pub(super) const VAGUE: &[&str] = &[
    "pinch", "knob", "dash", "handful", "drop", "splash", "drizzle", "dollop", "glug", "squeeze",
    "grind", "grating", "spoon",
];

/// Sizes of things.
pub(super) const SIZES: &[&str] = &["small", "medium", "large", "extra-large", "jumbo"];

/// Reads the amount that a text begins with.
pub(super) fn head(text: &str) -> Option<Head> {
    // "(2 tsp) vanilla extract"
    if let Some(inner) = text.strip_prefix('(') {
        let close = inner.find(')')?;
        let amount = whole(&inner[..close])?;
        let end = close + 2;
        return (text.len() > end).then_some(Head {
            amount,
            also: None,
            each: false,
            end,
        });
    }
    let first = pack(text)
        .or_else(|| measured(text))
        .or_else(|| gesture(text))?;
    Some(twins(text, first))
}

/// A plain amount with what is added to it.
fn measured(text: &str) -> Option<Head> {
    let said = leading_amount(text)?;
    let mut end = said.end;
    let mut pieces = vec![said.piece.clone()];
    // "2 x eggs", "1 x packet"
    if said.piece.unit == LineUnit::Number {
        let next = text[end..].trim_start();
        if let Some(after) = next.strip_prefix(['x', 'X'])
            && after.starts_with(' ')
            && after.trim_start().starts_with(char::is_alphabetic)
        {
            end = text.len() - after.len();
            if let Some((unit, length)) = leading_unit(after) {
                pieces[0].unit = unit;
                end += length;
            }
        }
    }
    // "a large handful": the gesture counts, not its size.
    if let LineUnit::Thing(size) = said.piece.unit
        && SIZES.contains(&size)
        && let Some((LineUnit::Thing(unit), length)) = leading_unit(&text[end..])
        && !SIZES.contains(&unit)
    {
        pieces[0].unit = LineUnit::Thing(unit);
        end += length;
    }
    // "a cup and a half"
    if !pieces[0].is_range()
        && said.piece.unit != LineUnit::Number
        && let Some(length) = and_a_half(&text[end..])
    {
        pieces[0].low += 0.5;
        pieces[0].high += 0.5;
        end += length;
    }
    while let Some((piece, length)) = added(&text[end..], &pieces[0]) {
        pieces.push(piece);
        end += length;
    }
    Some(Head {
        amount: LineAmount {
            pieces,
            bearing: said.bearing,
        },
        also: None,
        each: false,
        end,
    })
}

/// " and a half", after the unit.
fn and_a_half(rest: &str) -> Option<usize> {
    let next = rest.trim_start();
    let gap = rest.len() - next.len();
    let end = "and a half".len();
    let found = next
        .get(..end)
        .is_some_and(|start| start.eq_ignore_ascii_case("and a half"));
    let stops = found && !next[end..].starts_with(char::is_alphanumeric);
    let unit_next = || leading_unit(&next[end..]).is_some();
    (stops && !unit_next()).then_some(gap + end)
}

/// What is added to an amount of the same sort before the name comes: " plus 2 tbsp", "1 lb 2 oz".
fn added(rest: &str, first: &Piece) -> Option<(Piece, usize)> {
    let Some(start) = joining(rest, &["plus", "and", "+", "&"]) else {
        return beside(rest, first);
    };
    let said = leading_amount(&rest[start..])?;
    let fits = match (sort(first.unit), sort(said.piece.unit)) {
        (Some(one), Some(other)) => one == other,
        (None, Some(_)) => first.unit == LineUnit::Thing("stick"),
        _ => false,
    };
    (fits && said.piece.unit != first.unit && said.bearing.is_none())
        .then_some((said.piece, start + said.end))
}

/// The smaller unit that follows its larger one without a word: "2 lb 3 oz", "1 cup 2 tbsp".
fn beside(rest: &str, first: &Piece) -> Option<(Piece, usize)> {
    use LineUnit::{Cup, Gram, Kilogram, Ounce, Pound, Tablespoon, Teaspoon};
    let comma = usize::from(rest.starts_with(", "));
    let said = leading_amount(&rest[comma..])?;
    let smaller = matches!(
        (first.unit, said.piece.unit),
        (Pound, Ounce) | (Kilogram, Gram) | (Cup, Tablespoon | Teaspoon) | (Tablespoon, Teaspoon)
    );
    let plain = said.bearing.is_none() && !said.article && !said.piece.is_range();
    (smaller && plain && !first.is_range()).then_some((said.piece, comma + said.end))
}

/// Goes past one of some words or signs, with a space on both sides where it is a word.
fn joining(rest: &str, words: &[&str]) -> Option<usize> {
    let next = rest.trim_start_matches([' ', ',']);
    let gap = rest.len() - next.len();
    words.iter().find_map(|word| {
        let begins = next
            .get(..word.len())
            .is_some_and(|start| start.eq_ignore_ascii_case(word));
        let after = next.get(word.len()..)?;
        let sign = !word.starts_with(char::is_alphabetic);
        (begins && (sign || after.starts_with(' '))).then_some(gap + word.len())
    })
}

/// Whether a unit is of mass or volume: `Some(true)` for mass, none for things.
pub(super) fn sort(unit: LineUnit) -> Option<bool> {
    use LineUnit::{Gram, Kilogram, Milligram, Number, Ounce, Pound, Thing};
    match unit {
        Gram | Kilogram | Milligram | Ounce | Pound => Some(true),
        Number | Thing(_) => None,
        _ => Some(false),
    }
}

/// Packs with their size: "1 (14 oz) can", "2 x 7g sachets", "a 7 g sachet", "397g tin".
fn pack(text: &str) -> Option<Head> {
    let number = leading_number(text);
    // "397g tin", "14-ounce can": one of that size.
    if let Some(size) = leading_amount(text)
        && size.is_measured()
        && let Some((unit, length)) = container(&text[size.end..])
    {
        // "1-14 oz can": one, of 14 oz.
        let (low, high) = (size.piece.low, size.piece.high);
        let (count, each) = match size.piece.is_range() {
            true if high > 3.0 * low && low <= 12.0 => (low, high),
            true => return None,
            false => (1.0, low),
        };
        return Some(packs(
            count,
            unit,
            count * each,
            size.piece.unit,
            size.bearing,
            size.end + length,
        ));
    }
    let number = number?;
    if number.is_range() || number.thousand {
        return None;
    }
    let mut at = number.end;
    let times = times_sign(&text[at..]);
    at += times.unwrap_or(0);
    let rest = text[at..].trim_start();
    let gap = text[at..].len() - rest.len();
    let (size, after) = if let Some(inner) = rest.strip_prefix('(') {
        let close = inner.find(')')?;
        let inside = &inner[..close];
        let size = leading_amount(inside).filter(Said::is_measured)?;
        (size, at + gap + close + 2)
    } else {
        let size = leading_amount(rest).filter(Said::is_measured)?;
        // A second way to say the size: "400g/14oz".
        let mut end = size.end;
        if let Some(other) = rest[end..].strip_prefix('/')
            && let Some(second) = leading_amount(other).filter(Said::is_measured)
        {
            end += 1 + second.end;
        }
        (size, at + gap + end)
    };
    if size.piece.is_range() {
        return None;
    }
    let total = number.low * size.piece.low;
    match container(&text[after..]) {
        Some((unit, length)) => Some(packs(
            number.low,
            unit,
            total,
            size.piece.unit,
            None,
            after + length,
        )),
        None if times.is_some() && !number.article => Some(packs(
            number.low,
            LineUnit::Number,
            total,
            size.piece.unit,
            None,
            after,
        )),
        None => None,
    }
}

fn packs(
    count: f64,
    unit: LineUnit,
    total: f64,
    of: LineUnit,
    bearing: Option<Bearing>,
    end: usize,
) -> Head {
    let one = |value, unit, bearing| LineAmount {
        pieces: vec![Piece {
            low: value,
            high: value,
            unit,
        }],
        bearing,
    };
    Head {
        amount: one(count, unit, None),
        also: Some(one(total, of, bearing)),
        each: false,
        end,
    }
}

/// "x" between a number of packs and their size.
fn times_sign(rest: &str) -> Option<usize> {
    let next = rest.trim_start();
    let gap = rest.len() - next.len();
    let after = next.strip_prefix(['x', 'X', '*'])?;
    after
        .trim_start()
        .starts_with(|c: char| c.is_ascii_digit() || c == '(')
        .then_some(gap + 1)
}

/// A pack that comes next.
fn container(rest: &str) -> Option<(LineUnit, usize)> {
    // "14-ounce-can"
    let (unit, end) = leading_unit(rest)?;
    matches!(unit, LineUnit::Thing(name) if PACKS.contains(&name)).then_some((unit, end))
}

/// "pinch of salt", "knob of butter", "large pinch of salt": one, without a number.
fn gesture(text: &str) -> Option<Head> {
    let mut at = 0;
    let mut bearing = None;
    if let Some((found, end)) = leading_bearing(text) {
        bearing = Some(found);
        at = end;
    }
    let lower = text.to_lowercase();
    for article in ["a ", "the "] {
        if at == 0 && lower.starts_with(article) {
            at = article.len();
        }
    }
    for size in [
        "good ",
        "big ",
        "large ",
        "small ",
        "tiny ",
        "little ",
        "generous ",
    ] {
        let rest = text[at..].trim_start();
        let gap = text[at..].len() - rest.len();
        if rest
            .get(..size.len())
            .is_some_and(|start| start.eq_ignore_ascii_case(size))
        {
            if size == "generous " {
                bearing = Some(Bearing::Generous);
            }
            at += gap + size.len();
        }
    }
    let (unit, length) = leading_unit(&text[at..])?;
    let LineUnit::Thing(name) = unit else {
        return None;
    };
    let word = &text[at..at + length];
    let rest = text[at + length..].trim_start();
    // "drop scones", "dash": the word must be followed by what it is of.
    let singular = !word.trim_end().ends_with('s');
    (VAGUE.contains(&name) && singular && !rest.is_empty()).then(|| Head {
        amount: LineAmount {
            pieces: vec![Piece {
                low: 1.0,
                high: 1.0,
                unit,
            }],
            bearing,
        },
        also: None,
        each: false,
        end: at + length,
    })
}

/// The same amount said again: "/ 9 oz", "(240 ml)", "or 7 g".
fn twins(text: &str, mut first: Head) -> Head {
    loop {
        let rest = &text[first.end..];
        let next = rest.trim_start();
        let gap = rest.len() - next.len();
        let found = if let Some(inner) = next.strip_prefix('(') {
            inner.find(')').and_then(|close| {
                let also = in_brackets(&inner[..close], &first.amount)?;
                Some((also, gap + close + 2))
            })
        } else {
            bare_twin(next).map(|(also, end)| (also, gap + end))
        };
        let Some((also, length)) = found else {
            return first;
        };
        first.end += length;
        first.also = first.also.or(Some(also));
    }
}

/// "/ 9 oz", "| 9 oz", "= 9 oz", "or 9 oz".
fn bare_twin(next: &str) -> Option<(LineAmount, usize)> {
    let start = next
        .strip_prefix(['/', '|', '='])
        .map(|after| next.len() - after.len())
        .or_else(|| joining(next, &["or"]))?;
    let said = measured(&next[start..])?;
    let unit = said.amount.pieces[0].unit;
    let fits = sort(unit).is_some() || matches!(unit, LineUnit::Thing("stick" | "packet"));
    fits.then_some((said.amount, start + said.end))
}

/// An amount in brackets that says the same again; "each" counts it once for every pack.
pub(super) fn in_brackets(inside: &str, first: &LineAmount) -> Option<LineAmount> {
    let (inside, each) = match inside.trim().strip_suffix("each") {
        Some(rest) => (rest.trim_end(), true),
        None => (inside.trim(), false),
    };
    let mut also = whole(inside)?;
    if each
        && let [piece] = &first.pieces[..]
        && !piece.is_range()
    {
        for part in &mut also.pieces {
            part.low *= piece.low;
            part.high *= piece.low;
        }
    }
    Some(also)
}

/// A text that is an amount and nothing more; twins in it are passed over.
pub(super) fn whole(text: &str) -> Option<LineAmount> {
    let head = measured(text)?;
    let mut rest = text[head.end..].trim();
    while !rest.is_empty() {
        let next = rest
            .trim_start_matches(['/', ';', ',', '|', '='])
            .trim_start();
        let next = next.strip_prefix("or ").unwrap_or(next);
        if matches!(
            next,
            "total"
                | "in total"
                | "each"
                | "by weight"
                | "weight"
                | "approx"
                | "approx."
                | "in all"
                | "packed"
                | "sifted"
                | "drained"
                | "undrained"
                | "net"
        ) {
            break;
        }
        let more = measured(next).filter(|_| next.len() < rest.len())?;
        rest = next[more.end..].trim();
    }
    Some(head.amount)
}
