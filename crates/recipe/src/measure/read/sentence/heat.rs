//! Temperatures inside sentences: degrees of either scale, gas marks, "a moderate oven".

use super::Said;
use super::token::{Token, What, tokens};
use crate::source::Span;
use numerics::quantity::{Range, Temperature};

/// How a heat was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// In degrees.
    Degrees,
    /// As a gas mark.
    Gas,
    /// In words.
    Words,
}

/// Gas marks and what an oven's dial says for them, in °C (common practice of British cookers'
/// charts; they differ by up to 10 °C among themselves).
pub const GAS_MARKS: [(f64, f64); 12] = [
    (0.25, 110.0),
    (0.5, 120.0),
    (1.0, 140.0),
    (2.0, 150.0),
    (3.0, 170.0),
    (4.0, 180.0),
    (5.0, 190.0),
    (6.0, 200.0),
    (7.0, 220.0),
    (8.0, 230.0),
    (9.0, 240.0),
    (10.0, 260.0),
];

/// What old books call an oven, longest words first, in °C from and to (common practice of
/// household charts).
pub const OVEN_WORDS: [(&str, f64, f64); 14] = [
    ("very moderate", 160.0, 170.0),
    ("moderately slow", 160.0, 170.0),
    ("moderately hot", 190.0, 200.0),
    ("moderate to hot", 180.0, 220.0),
    ("fairly hot", 190.0, 200.0),
    ("very slow", 110.0, 130.0),
    ("very cool", 110.0, 130.0),
    ("very hot", 230.0, 240.0),
    ("very low", 110.0, 130.0),
    ("moderate", 180.0, 180.0),
    ("quick", 200.0, 220.0),
    ("slow", 140.0, 150.0),
    ("cool", 140.0, 150.0),
    ("hot", 220.0, 220.0),
];

/// Every temperature that a text names, in order; a single one is a range whose ends are one. The
/// same heat said twice side by side ("180 °C / 350 °F, gas 4") is one.
pub fn heats(text: &str) -> Vec<(Said<Range<Temperature>>, Shown)> {
    let all = tokens(text);
    let mut found: Vec<(Said<Range<Temperature>>, Shown)> = Vec::new();
    let mut at = 0;
    while at < all.len() {
        let read = degrees(&all, at)
            .map(|(low, high, used)| (low, high, used, Shown::Degrees))
            .or_else(|| gas(&all[at..]).map(|(low, high, used)| (low, high, used, Shown::Gas)))
            .or_else(|| words(&all[at..]).map(|(low, high, used)| (low, high, used, Shown::Words)));
        let Some((low, high, used, shown)) = read else {
            at += 1;
            continue;
        };
        let first = at - usize::from(shown == Shown::Degrees && minus(&all, at));
        let span = Span::new(all[first].span.start, all[at + used - 1].span.end);
        let value = Range {
            low: Temperature::from_celsius(low),
            high: Temperature::from_celsius(high),
        };
        at += used;
        if let Some((before, before_shown)) = found.last_mut()
            && again(text, before, span, value)
        {
            let celsius = |span: Span| {
                text[span.start..span.end]
                    .to_lowercase()
                    .contains(['c', '℃'])
            };
            // Degrees stand for marks and words, and degrees Celsius, as the file holds them, for
            // the pair.
            let surer = shown == Shown::Degrees
                && (*before_shown != Shown::Degrees || celsius(span) && !celsius(before.span));
            before.span.end = span.end;
            if surer {
                before.value = value;
                *before_shown = shown;
            }
            continue;
        }
        found.push((Said { span, value }, shown));
    }
    found
}

/// Whether a heat repeats the one before it in another scale: nothing but a few marks, "or" and
/// "fan" stands between, and they lie within what cookers' charts differ by.
fn again(
    text: &str,
    before: &Said<Range<Temperature>>,
    span: Span,
    value: Range<Temperature>,
) -> bool {
    let between = text[before.span.end..span.start].to_lowercase();
    let plain = between.replace(['/', '(', ')', ',', '|', '=', ';', '[', ']', '~', '≈'], " ");
    let joined = plain.split_whitespace().all(|word| {
        matches!(
            word,
            "or" | "about"
                | "approx"
                | "approx."
                | "fan"
                | "conventional"
                | "convection"
                | "oven"
                | "assisted"
                | "electric"
                | "-"
                | "–"
        )
    });
    let marked = between.trim().is_empty()
        || between.contains(['/', '(', ',', '|', '=', ';', '[', '-', '–'])
        || plain.contains("or");
    // "fan" ovens are set about 20 °C lower.
    let apart = (before.value.low.celsius() - value.low.celsius()).abs();
    joined
        && marked
        && (apart <= 16.0
            || (apart <= 26.0
                && text[span.end..]
                    .trim_start()
                    .to_lowercase()
                    .starts_with("fan"))
            || (apart <= 26.0 && between.contains("fan")))
}

/// Which scale follows, and its tokens: "°C", "° F", "degrees Fahrenheit", "C".
fn scale(all: &[Token]) -> Option<(Option<char>, usize)> {
    let mut at = 0;
    let mut sign = false;
    if let Some(token) = all.first()
        && (matches!(token.what, What::Mark('°' | '˚' | 'º' | '℃' | '℉'))
            || matches!(
                token.word(),
                "º" | "o" | "degrees" | "degree" | "deg" | "ºc" | "ºf"
            ))
    {
        match &token.what {
            What::Mark('℃') => return Some((Some('c'), 1)),
            What::Mark('℉') => return Some((Some('f'), 1)),
            What::Word(word) if word == "ºc" => return Some((Some('c'), 1)),
            What::Word(word) if word == "ºf" => return Some((Some('f'), 1)),
            What::Word(word) if word == "o" => {}
            _ => sign = true,
        }
        at = 1;
        if all.get(at).is_some_and(|t| t.is('.')) {
            at += 1;
        }
    }
    match all.get(at).map(Token::word) {
        Some("c" | "celsius" | "centigrade") => Some((Some('c'), at + 1)),
        Some("f" | "fahrenheit") => Some((Some('f'), at + 1)),
        _ if sign => Some((None, at)),
        _ => None,
    }
}

/// Whether a dash that is no range stands before the number at a place: "-18 °C".
fn minus(all: &[Token], at: usize) -> bool {
    let Some(dash) = at.checked_sub(1).map(|before| &all[before]) else {
        return false;
    };
    let off = at < 2 || all[at - 2].span.end < dash.span.start || all[at - 2].is('(');
    dash.is_dash() && dash.span.end == all[at].span.start && off
}

/// Degrees at a place: their ends in °C and their tokens.
fn degrees(all: &[Token], at: usize) -> Option<(f64, f64, usize)> {
    let rest = &all[at..];
    let What::Number(first) = rest.first()?.what else {
        return None;
    };
    // "350°-375°F", "25-26 °C", "180 to 190C".
    let mut end = 1;
    let first_scale = scale(&rest[end..]);
    if let Some((_, used)) = first_scale {
        end += used;
    }
    let joined = rest.get(end).filter(|t| t.is_dash() || t.word() == "to");
    if joined.is_some()
        && let Some(Token {
            what: What::Number(second),
            ..
        }) = rest.get(end + 1)
        && *second > first
        && let Some((Some(letter), used)) = scale(&rest[end + 2..])
        && first_scale.is_none_or(|(own, _)| own.is_none_or(|own| own == letter))
    {
        return Some((
            celsius(first, letter),
            celsius(*second, letter),
            end + 2 + used,
        ));
    }
    match first_scale {
        Some((Some(letter), _)) => {
            let sign = if minus(all, at) { -1.0 } else { 1.0 };
            let value = celsius(first * sign, letter);
            Some((value, value, end))
        }
        Some((None, _)) => bare(first).map(|value| (value, value, end)),
        None => {
            // "bake at 200 for 20 minutes", "oven to 450": a number alone, said of an oven.
            let before: Vec<&str> = all[..at].iter().rev().take(3).map(Token::word).collect();
            let says_heat = matches!(before[..], ["at" | "to", ..]);
            let unit_follows = rest.get(1).is_some_and(|next| {
                !matches!(
                    next.word(),
                    "" | "for"
                        | "and"
                        | "then"
                        | "until"
                        | "fan"
                        | "or"
                        | "oven"
                        | "in"
                        | "on"
                        | "with"
                        | "while"
                        | "before"
                        | "after"
                )
            }) || rest
                .get(1)
                .is_some_and(|next| next.is_dash() || next.is('%'));
            let oven = all
                .iter()
                .any(|t| matches!(t.word(), "oven" | "bake" | "preheat" | "baking"));
            (says_heat && oven && !unit_follows && (110.0..=550.0).contains(&first))
                .then(|| bare(first))
                .flatten()
                .map(|value| (value, value, 1))
        }
    }
}

/// A number of degrees without its scale: above 260 no household dial is in °C.
fn bare(value: f64) -> Option<f64> {
    if !(0.0..=600.0).contains(&value) {
        return None;
    }
    Some(celsius(value, if value > 260.0 { 'f' } else { 'c' }))
}

/// Degrees of a scale in °C.
fn celsius(value: f64, letter: char) -> f64 {
    if letter == 'f' {
        (value - 32.0) / 1.8
    } else {
        value
    }
}

/// A gas mark at the beginning.
fn gas(all: &[Token]) -> Option<(f64, f64, usize)> {
    let words: Vec<&str> = all.iter().take(2).map(Token::word).collect();
    let start = match words[..] {
        ["gas", "mark" | "no"] => 2,
        ["gas" | "mark" | "regulo", _] => 1,
        _ => return None,
    };
    let start = start + usize::from(all.get(start).is_some_and(|t| t.is('.')));
    let What::Number(first) = all.get(start)?.what else {
        return None;
    };
    let low = mark(first)?;
    if all
        .get(start + 1)
        .is_some_and(|t| t.is_dash() || t.word() == "to")
        && let Some(Token {
            what: What::Number(second),
            ..
        }) = all.get(start + 2)
        && *second > first
        && let Some(high) = mark(*second)
    {
        return Some((low, high, start + 3));
    }
    Some((low, low, start + 1))
}

/// The heat of a gas mark in °C.
fn mark(number: f64) -> Option<f64> {
    GAS_MARKS
        .iter()
        .find(|(mark, _)| (mark - number).abs() < 1e-9)
        .map(|(_, heat)| *heat)
}

/// An oven in words at the beginning: "a moderately hot oven".
fn words(all: &[Token]) -> Option<(f64, f64, usize)> {
    let first = all.first().map_or("", Token::word);
    if first.is_empty() {
        return None;
    }
    OVEN_WORDS.iter().find_map(|(name, low, high)| {
        if !name.starts_with(first) {
            return None;
        }
        let parts: Vec<&str> = name.split(' ').collect();
        let fits = parts
            .iter()
            .enumerate()
            .all(|(index, part)| all.get(index).is_some_and(|t| t.word() == *part));
        let oven = all.get(parts.len()).is_some_and(|t| t.word() == "oven")
            || (all
                .get(parts.len())
                .is_some_and(|t| matches!(t.word(), "baking" | "bread"))
                && all.get(parts.len() + 1).is_some_and(|t| t.word() == "oven"));
        (fits && oven).then_some((*low, *high, parts.len() + 1))
    })
}

#[cfg(test)]
mod tests {
    use super::heats;

    /// °C of every heat, rounded.
    fn degrees(text: &str) -> Vec<(f64, f64)> {
        heats(text)
            .iter()
            .map(|(said, _)| {
                (
                    said.value.low.celsius().round(),
                    said.value.high.celsius().round(),
                )
            })
            .collect()
    }

    #[test]
    fn prose_is_read_on_either_scale() {
        for (text, wanted) in [
            ("Preheat the oven to 350°F.", vec![(177.0, 177.0)]),
            ("oven at 180 °C / 350 °F (gas mark 4)", vec![(180.0, 180.0)]),
            ("200C/180C fan/gas 6", vec![(200.0, 200.0)]),
            ("Heat oven to 375 degrees F", vec![(191.0, 191.0)]),
            (
                "bake at 220 for 15 minutes, then lower to 190°C",
                vec![(220.0, 220.0), (190.0, 190.0)],
            ),
            ("in a moderate oven", vec![(180.0, 180.0)]),
            ("in a very hot oven", vec![(230.0, 240.0)]),
            ("gas mark 7", vec![(220.0, 220.0)]),
            ("water at 105-110°F", vec![(41.0, 43.0)]),
            ("at 250° for an hour", vec![(250.0, 250.0)]),
            ("bake at 400° for an hour", vec![(204.0, 204.0)]),
            ("at 25 to 26 degrees Celsius", vec![(25.0, 26.0)]),
            ("freeze at -18 °C / 0 °F", vec![(-18.0, -18.0)]),
            ("25-26 °C", vec![(25.0, 26.0)]),
            ("a hot, sweet oven", vec![]),
            ("bake for 200 minutes in 2 tins", vec![]),
        ] {
            assert_eq!(degrees(text), wanted, "{text}");
        }
    }
}
