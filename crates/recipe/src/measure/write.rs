//! Writes quantities as a document holds them: the shortest text that reads back as the same value.
//!
//! Nothing is rounded here; how a figure is said on a page is another matter.

use super::read::{
    Unread, read_altitude, read_length, read_mass, read_power, read_share, read_temperature,
    read_time, read_volume, units,
};
use crate::document::model::{Amount, Part, TinSize};
use numerics::quantity::{
    Duration, Fraction, Length, Mass, Range, SpecificPower, Temperature, Volume,
};

/// More significant digits than this are only written when no other unit does with fewer.
const READABLE_DIGITS: usize = 9;

/// Digits after which a binary number is told from every other.
const ALL_DIGITS: usize = 17;

/// The vulgar fractions that a measure is written with.
const VULGAR: [(&str, f64); 9] = [
    ("⅛", 1.0 / 8.0),
    ("¼", 1.0 / 4.0),
    ("⅓", 1.0 / 3.0),
    ("⅜", 3.0 / 8.0),
    ("½", 1.0 / 2.0),
    ("⅝", 5.0 / 8.0),
    ("⅔", 2.0 / 3.0),
    ("¾", 3.0 / 4.0),
    ("⅞", 7.0 / 8.0),
];

/// A number with so many significant digits, without power of ten.
fn with_digits(value: f64, digits: usize) -> String {
    let scientific = format!("{value:.*e}", digits.saturating_sub(1));
    scientific
        .parse::<f64>()
        .map_or(scientific, |rounded| rounded.to_string())
}

/// The shortest number in one of the units that reads back as the value; each unit comes with the
/// value in it, the preferred one first.
fn shortest<T: PartialEq>(
    value: &T,
    read: fn(&str) -> Result<T, Unread>,
    units: &[(f64, &str)],
) -> String {
    let tries = |digits: std::ops::RangeInclusive<usize>| {
        units.iter().find_map(|(number, unit)| {
            digits.clone().find_map(|digits| {
                let text = format!("{} {unit}", with_digits(*number, digits));
                (read(&text).as_ref() == Ok(value)).then_some(text)
            })
        })
    };
    tries(1..=READABLE_DIGITS)
        .or_else(|| tries(READABLE_DIGITS..=ALL_DIGITS))
        .unwrap_or_else(|| {
            units
                .first()
                .map_or(String::new(), |(number, unit)| format!("{number} {unit}"))
        })
}

/// The two ends of a range with their unit once; `one` writes a single value in a given unit.
fn both_ends(low: &str, high: &str) -> Option<String> {
    let (low, low_unit) = low.rsplit_once(' ')?;
    let (high, high_unit) = high.rsplit_once(' ')?;
    (low_unit == high_unit).then(|| format!("{low}-{high} {low_unit}"))
}

/// "180 g".
pub fn write_mass(mass: Mass) -> String {
    shortest(&mass, read_mass, &[(mass.grams(), "g"), (mass.si(), "kg")])
}

/// "26 °C".
pub fn write_temperature(temperature: Temperature) -> String {
    shortest(
        &temperature,
        read_temperature,
        &[
            (temperature.celsius(), "°C"),
            (temperature.fahrenheit(), "°F"),
        ],
    )
}

/// "25-26 °C", or one temperature when both ends are one.
pub fn write_temperature_range(range: Range<Temperature>) -> String {
    let (low, high) = (write_temperature(range.low), write_temperature(range.high));
    if range.low == range.high {
        return low;
    }
    both_ends(&low, &high)
        .unwrap_or_else(|| format!("{}-{} °C", range.low.celsius(), range.high.celsius()))
}

/// A time in one unit.
fn time_in(time: Duration, units: &[&'static str]) -> String {
    let all: Vec<(f64, &str)> = units
        .iter()
        .map(|unit| match *unit {
            "h" => (time.hours(), *unit),
            "min" => (time.minutes(), *unit),
            _ => (time.si(), *unit),
        })
        .collect();
    shortest(&time, read_time, &all)
}

/// "55 min", "12 h": hours from four on, when they are whole.
pub fn write_time(time: Duration) -> String {
    if time.hours() >= 4.0 && time.hours().fract() == 0.0 {
        time_in(time, &["h", "s"])
    } else {
        time_in(time, &["min", "s"])
    }
}

/// "45-75 min".
pub fn write_time_range(range: Range<Duration>) -> String {
    let whole = |time: Duration| time.hours().fract() == 0.0;
    let hours = range.low.hours() >= 4.0 && whole(range.low) && whole(range.high);
    let preferred = if hours { "h" } else { "min" };
    [preferred, "s"]
        .iter()
        .find_map(|unit| {
            both_ends(&time_in(range.low, &[unit]), &time_in(range.high, &[unit]))
                .filter(|text| super::read::read_time_range(text).is_ok_and(|read| read == range))
        })
        .unwrap_or_else(|| format!("{}-{} s", range.low.si(), range.high.si()))
}

/// "3 cm".
pub fn write_length(length: Length) -> String {
    shortest(
        &length,
        read_length,
        &[(length.centimetres(), "cm"), (length.si(), "m")],
    )
}

/// "1609 m".
pub fn write_altitude(length: Length) -> String {
    shortest(&length, read_altitude, &[(length.si(), "m")])
}

/// "11 %".
pub fn write_share(share: Fraction) -> String {
    shortest(&share, read_share, &[(share.percent(), "%")])
}

/// "1420 mL".
pub fn write_volume(volume: Volume) -> String {
    let of = |word: &str| {
        let one = super::Measure::ALL
            .into_iter()
            .find(|measure| measure.word() == word);
        one.map_or(0.0, |measure| volume / measure.volume())
    };
    let words = ["mL", "L", "cups", "Tbsp", "tsp", "fl oz", "dL", "cL"];
    let units: Vec<(f64, &str)> = words
        .iter()
        .map(|word| (of(word.trim_end_matches('s')), *word))
        .collect();
    shortest(&volume, read_volume, &units)
}

/// "25 W/kg".
pub fn write_power(power: SpecificPower) -> String {
    shortest(&power, read_power, &[(power.si(), "W/kg")])
}

/// "2 times".
pub fn write_multiple(multiple: f64) -> String {
    format!("{multiple} times")
}

/// "1 cm below the rim".
pub fn write_height(height: Length) -> String {
    if height == Length::ZERO {
        return "at the rim".to_owned();
    }
    let place = if height < Length::ZERO {
        "below"
    } else {
        "above"
    };
    format!("{} {place} the rim", write_length(height.abs()))
}

/// A count, with a vulgar fraction where there is one.
fn count_text(count: f64) -> String {
    let whole = count.trunc();
    let part = VULGAR
        .iter()
        .find(|(_, value)| (whole + value).to_bits() == count.to_bits());
    match part {
        Some((letter, _)) if whole == 0.0 => (*letter).to_owned(),
        Some((letter, _)) => format!("{whole}{letter}"),
        None => count.to_string(),
    }
}

/// "180 g", "1¾ cups + 3 Tbsp", "3 large".
pub fn write_amount(amount: &Amount) -> String {
    match amount {
        Amount::Mass(mass) => write_mass(*mass),
        Amount::Measures(spooned) => {
            let parts: Vec<String> = spooned
                .iter()
                .map(|one| {
                    let cups = one.measure == super::Measure::Cup && one.count > 1.0;
                    let plural = if cups { "s" } else { "" };
                    format!("{} {}{plural}", count_text(one.count), one.measure.word())
                })
                .collect();
            parts.join(" + ")
        }
        Amount::Count { count, size: None } => count_text(*count),
        Amount::Count {
            count,
            size: Some(size),
        } => {
            let plural = units::COUNTED
                .iter()
                .find(|(one, _)| *count > 1.0 && one == size);
            format!(
                "{} {}",
                count_text(*count),
                plural.map_or(size.as_str(), |(_, many)| many)
            )
        }
    }
}

/// "3 x 220 g + 40 g".
pub fn write_piece(parts: &[Part]) -> String {
    let parts: Vec<String> = parts
        .iter()
        .map(|part| match part.count {
            1 => write_mass(part.mass),
            count => format!("{count} x {}", write_mass(part.mass)),
        })
        .collect();
    parts.join(" + ")
}

/// "21.6 x 11.4 x 6.4 cm".
pub fn write_tin_size(size: &TinSize) -> String {
    let (mark, sides) = match *size {
        TinSize::Box {
            length,
            width,
            depth,
        } => ("", vec![length, width, depth]),
        TinSize::Tray { length, width } => ("", vec![length, width]),
        TinSize::Round { diameter, height } => ("Ø ", vec![diameter, height]),
    };
    let in_unit = |unit: &str, value: fn(Length) -> f64| {
        let texts: Vec<String> = sides
            .iter()
            .map(|side| shortest(side, read_length, &[(value(*side), unit)]))
            .map(|text| text.trim_end_matches(unit).trim_end().to_owned())
            .collect();
        format!("{mark}{} {unit}", texts.join(" x "))
    };
    // What was written in inches has no short number of centimetres.
    let texts = [
        in_unit("cm", Length::centimetres),
        in_unit("in", |side| side.centimetres() / 2.54),
        in_unit("m", Length::si),
    ];
    let reads = |text: &&String| super::read::read_tin_size(text).as_ref() == Ok(size);
    let shortest = texts
        .iter()
        .filter(reads)
        .min_by_key(|text| text.chars().count());
    shortest.unwrap_or(&texts[2]).clone()
}
