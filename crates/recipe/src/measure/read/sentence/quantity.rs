//! Every figure that a sentence names, of whatever kind: digits, fractions, number words.
//!
//! It asks the readers of heats, times and amounts beside it and adds lengths, shares, multiples
//! and counts, so that no figure of a sentence is overlooked. What is no figure stays out: "a",
//! "one" and "half" without a unit, the number of a kind of flour.

use super::{Said, Shown, heats, times};
use crate::document::model::Spooned;
use crate::import::model::LineUnit;
use crate::measure::Measure;
use crate::measure::read::Quantity;
use crate::measure::read::number::begins;
use crate::measure::read::prose::{leading_number, leading_unit};
use crate::source::Span;
use numerics::quantity::{Duration, Fraction, Length, Mass, Range, Temperature, Volume};

/// A month of the calendar on the average, in seconds (365.2425 days by twelve).
const MONTH_S: f64 = 2_629_746.0;

/// Every quantity of a text, in order. "45 × 20 cm" are two lengths.
pub fn quantities(text: &str) -> Vec<Said<Quantity>> {
    let mut found: Vec<Said<Quantity>> = Vec::new();
    for (said, shown) in heats(text) {
        if shown != Shown::Words {
            found.push(of_heat(&said));
        }
    }
    for said in times(text) {
        let word = &text[said.span.start..said.span.end];
        if !taken(&found, said.span) && !word.eq_ignore_ascii_case("overnight") {
            found.push(of_time(&said));
        }
    }
    let mut at = 0;
    while let Some(length) = text[at..].chars().next().map(char::len_utf8) {
        let end = begun(text, at)
            .then(|| figure(text, at, &mut found))
            .flatten();
        at = end.unwrap_or(at + length);
    }
    found.sort_by_key(|said| said.span.start);
    found
}

fn of_heat(said: &Said<Range<Temperature>>) -> Said<Quantity> {
    Said {
        span: said.span,
        value: Quantity::Temperature(said.value),
    }
}

fn of_time(said: &Said<Range<Duration>>) -> Said<Quantity> {
    Said {
        span: said.span,
        value: Quantity::Time(said.value),
    }
}

/// Whether a place lies in something that has been read.
fn taken(found: &[Said<Quantity>], span: Span) -> bool {
    found
        .iter()
        .any(|said| said.span.start < span.end && span.start < said.span.end)
}

/// Whether a number or a number word can begin here: at the start of a word.
fn begun(text: &str, at: usize) -> bool {
    let before = text[..at].chars().next_back();
    let inside = before
        .is_some_and(|c| c.is_alphanumeric() || matches!(c, '.' | ',' | '/' | '⁄' | ':' | '_'));
    let spaced = before == Some(',') || before == Some('.');
    let first = text[at..].chars().next();
    let point = first == Some('.') && text[at + 1..].starts_with(|c: char| c.is_ascii_digit());
    let number = first.is_some_and(|c| c.is_alphanumeric() || (begins(c) && c != ',' && c != '.'));
    (number || point) && (!inside || spaced && first.is_some_and(char::is_alphabetic))
}

/// Reads the figure that begins at a place; where it ends, when there is one.
fn figure(text: &str, at: usize, found: &mut Vec<Said<Quantity>>) -> Option<usize> {
    let rest = &text[at..];
    let number = leading_number(rest)?;
    let end = at + number.end;
    let span = Span::new(at, end);
    if let Some(said) = found
        .iter()
        .find(|said| said.span.start < end && at < said.span.end)
    {
        return Some(said.span.end.max(end));
    }
    let range = Range {
        low: number.low,
        high: number.high,
    };
    let after = &text[end..];
    let digits = rest.starts_with(|c: char| begins(c));
    if let Some(stop) = dimensions(text, at, found) {
        return Some(stop);
    }
    if let Some((size, used)) = length_unit(after) {
        push(
            found,
            at,
            end + used,
            Quantity::Length(scaled(range, size, Length::from_si)),
        );
        return Some(end + used);
    }
    if let Some(used) = word(after, &["%", "per cent", "percent"]) {
        let share = scaled(range, 0.01, Fraction::from_si);
        push(found, at, end + used, Quantity::Share(share));
        return Some(end + used);
    }
    if let Some(used) = word(after, &["months", "month"]) {
        let time = scaled(range, MONTH_S, Duration::from_si);
        push(found, at, end + used, Quantity::Time(time));
        return Some(end + used);
    }
    if let Some(used) = word(after, &["times", "×"]) {
        push(found, at, end + used, Quantity::Multiple(range.low));
        return Some(end + used);
    }
    if let Some((unit, used)) = leading_unit(after)
        && let Some(quantity) = of_unit(unit, range)
    {
        push(found, at, end + used, quantity);
        return Some(end + used);
    }
    // Part of a number that is none of a kitchen: 00 flour, 2nd, a date.
    let joined = after.starts_with(|c: char| c.is_alphanumeric() || matches!(c, '/' | ':'));
    let said_as_one = number.article || (!digits && range.low <= 1.0);
    if joined || said_as_one || rest.starts_with("00") {
        return Some(end);
    }
    let size = leading_unit(after).and_then(|(unit, _)| match unit {
        LineUnit::Thing(thing) => Some(thing.to_owned()),
        _ => None,
    });
    found.push(Said {
        span,
        value: Quantity::Count {
            count: range.low,
            size,
        },
    });
    Some(end)
}

fn push(found: &mut Vec<Said<Quantity>>, start: usize, end: usize, value: Quantity) {
    found.push(Said {
        span: Span::new(start, end),
        value,
    });
}

fn scaled<T>(range: Range<f64>, size: f64, of: fn(f64) -> T) -> Range<T> {
    Range {
        low: of(range.low * size),
        high: of(range.high * size),
    }
}

/// "45 × 20 cm", "21.6 x 11.4 x 6.4 cm": several numbers with one unit behind the last.
fn dimensions(text: &str, start: usize, found: &mut Vec<Said<Quantity>>) -> Option<usize> {
    let mut sides = Vec::new();
    let mut at = start;
    loop {
        let number = leading_number(&text[at..]).filter(|number| !number.article)?;
        sides.push((at, at + number.end, number.low));
        let rest = &text[at + number.end..];
        let gap = rest.len() - rest.trim_start().len();
        let Some(sign) = ["×", "x ", "by "]
            .iter()
            .find(|sign| rest[gap..].starts_with(**sign))
        else {
            break;
        };
        let next = at + number.end + gap + sign.len();
        at = next + (text[next..].len() - text[next..].trim_start().len());
        if !text[at..].starts_with(begins) {
            return None;
        }
    }
    let last = sides.last()?.1;
    let (size, used) = length_unit(&text[last..])?;
    if sides.len() < 2 {
        return None;
    }
    let count = sides.len();
    for (place, (from, to, value)) in sides.into_iter().enumerate() {
        let stop = if place + 1 == count { last + used } else { to };
        let long = Length::from_si(value * size);
        push(
            found,
            from,
            stop,
            Quantity::Length(Range {
                low: long,
                high: long,
            }),
        );
    }
    Some(last + used)
}

/// A unit of length at the beginning: its size in metres and its bytes.
fn length_unit(rest: &str) -> Option<(f64, usize)> {
    const UNITS: [(&[&str], f64); 4] = [
        (
            &[
                "cm",
                "centimetres",
                "centimetre",
                "centimeters",
                "centimeter",
            ],
            0.01,
        ),
        (
            &[
                "mm",
                "millimetres",
                "millimetre",
                "millimeters",
                "millimeter",
            ],
            0.001,
        ),
        (&["inches", "inch", "″", "\""], 0.0254),
        (&["metres", "meters", "m"], 1.0),
    ];
    UNITS
        .iter()
        .find_map(|(words, size)| word(rest, words).map(|used| (*size, used)))
}

/// One of some words or signs at the beginning, past a space or a hyphen: its bytes.
fn word(rest: &str, words: &[&str]) -> Option<usize> {
    let start = rest.len() - rest.trim_start_matches([' ', '\u{a0}', '-']).len();
    words.iter().find_map(|word| {
        let after = rest[start..].strip_prefix(word)?;
        let sign = !word.ends_with(char::is_alphabetic);
        (sign || !after.starts_with(char::is_alphanumeric)).then_some(start + word.len())
    })
}

/// The quantity of a unit of mass or volume; none for things that are counted.
fn of_unit(unit: LineUnit, range: Range<f64>) -> Option<Quantity> {
    let grams = match unit {
        LineUnit::Gram => Some(1.0),
        LineUnit::Kilogram => Some(1000.0),
        LineUnit::Milligram => Some(0.001),
        // Avoirdupois, by definition.
        LineUnit::Ounce => Some(28.349_523_125),
        LineUnit::Pound => Some(453.592_37),
        _ => None,
    };
    if let Some(grams) = grams {
        return Some(Quantity::Mass(scaled(range, grams, Mass::from_grams)));
    }
    let measure = match unit {
        LineUnit::Millilitre => Measure::Millilitre,
        LineUnit::Centilitre => Measure::Centilitre,
        LineUnit::Decilitre => Measure::Decilitre,
        LineUnit::Litre => Measure::Litre,
        LineUnit::Cup => Measure::Cup,
        LineUnit::Tablespoon => Measure::Tablespoon,
        LineUnit::Teaspoon => Measure::Teaspoon,
        LineUnit::FluidOunce => Measure::FluidOunce,
        _ => return None,
    };
    Some(Quantity::Measures(vec![Spooned {
        count: range.low,
        measure,
    }]))
}

/// What written measures hold together.
pub fn holds(measures: &[Spooned]) -> Volume {
    measures
        .iter()
        .map(|one| one.measure.volume() * one.count)
        .fold(Volume::ZERO, |sum, one| sum + one)
}

#[cfg(test)]
mod tests {
    use super::quantities;
    use crate::measure::read::Quantity;

    /// Every figure as its bytes and its value in the unit of its kind.
    fn said(text: &str) -> Vec<(String, String)> {
        quantities(text)
            .into_iter()
            .map(|said| {
                let shown = match said.value {
                    Quantity::Mass(mass) => format!("{:.1} g", mass.low.grams()),
                    Quantity::Temperature(at) => format!("{:.0} C", at.low.celsius()),
                    Quantity::Time(time) => {
                        format!("{:.0}-{:.0} min", time.low.minutes(), time.high.minutes())
                    }
                    Quantity::Length(length) => format!("{:.1} cm", length.low.si() * 100.0),
                    Quantity::Share(share) => format!("{:.1} %", share.low.si() * 100.0),
                    Quantity::Multiple(times) => format!("{times} times"),
                    Quantity::Measures(all) => format!("{} measures", all[0].count),
                    Quantity::Count { count, size } => {
                        format!("{count} {}", size.unwrap_or_default())
                    }
                };
                (
                    text[said.span.start..said.span.end].to_owned(),
                    shown.trim().to_owned(),
                )
            })
            .collect()
    }

    #[test]
    fn no_figure_of_a_sentence_is_overlooked() {
        for (text, wanted) in [
            (
                "Roll each 48 g piece to a strip of 25 cm.",
                vec![("48 g", "48.0 g"), ("25 cm", "25.0 cm")],
            ),
            (
                "a sheet of 45 × 20 cm, 5 mm thick",
                vec![("45", "45.0 cm"), ("20 cm", "20.0 cm"), ("5 mm", "0.5 cm")],
            ),
            (
                "Bake at 180 °C / 350 °F for an hour and twenty minutes.",
                vec![
                    ("180 °C / 350 °F", "180 C"),
                    ("an hour and twenty minutes", "80-80 min"),
                ],
            ),
            (
                "ten buns, 8 knots and a wreath",
                vec![("ten", "10"), ("8", "8")],
            ),
            (
                "two and a quarter cups of flour, a cup of water",
                vec![
                    ("two and a quarter cups", "2.25 measures"),
                    ("a cup", "1 measures"),
                ],
            ),
            ("70 % hydration", vec![("70 %", "70.0 %")]),
            ("until 2 times its size", vec![("2 times", "2 times")]),
            ("One dough, one oven, half of it, overnight", vec![]),
            (
                "Freeze up to 2 months at -18 °C; see step 4.",
                vec![
                    ("2 months", "87658-87658 min"),
                    ("-18 °C", "-18 C"),
                    ("4", "4"),
                ],
            ),
        ] {
            let wanted: Vec<(String, String)> = wanted
                .into_iter()
                .map(|(a, b)| (a.to_owned(), b.to_owned()))
                .collect();
            assert_eq!(said(text), wanted, "{text}");
        }
    }
}
