//! How a figure is said: the one place that rounds and writes quantities for every face.
//!
//! Steps of rounding are common practice of printed recipes: masses to 1 g from 100 g up, 0.5 g
//! from 10 g, 0.1 g below; oven dials in steps of 5 °C and 25 °F; probes to 1 degree.

use numerics::decimal::{fixed, round_to, trimmed};
use numerics::quantity::{
    Duration, Energy, Fraction, HeatCapacity, Length, Mass, Range, Temperature,
    TemperatureDifference, Volume,
};
use recipe::document::model::{Amount, TinSize};
use recipe::measure::write::write_temperature;
use recipe::measure::{counted, mixed};

/// The space between a number and its unit: the two are never parted at a line's end.
pub const NBSP: char = '\u{a0}';

/// A mass rounded as a scale is read: 1 g from 100 g up, 0.5 g from 10 g, 0.1 g below.
///
/// A written mass that is finer than its step (0.25 g) keeps two decimals rather than change.
pub fn rounded_mass(mass: Mass) -> Mass {
    let grams = mass.grams();
    let step = match grams.abs() {
        g if g >= 100.0 => 1.0,
        g if g >= 10.0 => 0.5,
        g if g >= 0.95 => 0.1,
        _ => 0.05,
    };
    Mass::from_grams(round_to(grams, step))
}

/// A mass rounded to a tenth of a gram, for sums of many parts.
pub fn rounded_tenth(mass: Mass) -> Mass {
    Mass::from_grams(round_to(mass.grams(), 0.1))
}

/// "210 g", "17.5 g", "0.8 g", and from 10 kg "10.5 kg".
pub fn mass(mass: Mass) -> String {
    let grams = mass.grams();
    if grams.abs() >= 9999.5 {
        return format!("{}{NBSP}kg", trimmed(grams / 1000.0, 2));
    }
    format!("{}{NBSP}g", trimmed(rounded_mass(mass).grams(), 2))
}

/// A sum of shown masses, with as many decimals as its parts show: "382.8 g".
pub fn mass_sum(sum: Mass) -> String {
    format!("{}{NBSP}g", trimmed(sum.grams(), 2))
}

/// "28 g / 1 oz" is never printed; ounces alone for whoever asks: "1 oz", "6 oz", "2 lb 3 oz".
pub fn ounces(mass: Mass) -> String {
    let ounces = mass.grams() / 28.349_523_125;
    if ounces >= 16.0 {
        let whole = round_to(ounces, 0.5);
        let pounds = (whole / 16.0).floor();
        let rest = whole - pounds * 16.0;
        if rest > 0.0 {
            return format!("{}{NBSP}lb {}{NBSP}oz", fixed(pounds, 0), trimmed(rest, 1));
        }
        return format!("{}{NBSP}lb", fixed(pounds, 0));
    }
    let step = if ounces >= 4.0 { 0.5 } else { 0.25 };
    format!("{}{NBSP}oz", trimmed(round_to(ounces, step), 2))
}

/// A dial: "180 °C / 350 °F". The Fahrenheit figure is the nearest 25 when that is within 8 °F,
/// else the nearest 5.
pub fn oven(temperature: Temperature) -> String {
    let celsius = round_to(temperature.celsius(), 5.0);
    let exact = temperature.fahrenheit();
    let coarse = round_to(exact, 25.0);
    let fahrenheit = if (coarse - exact).abs() <= 8.0 {
        coarse
    } else {
        round_to(exact, 5.0)
    };
    format!(
        "{}{NBSP}°C / {}{NBSP}°F",
        fixed(celsius, 0),
        fixed(fahrenheit, 0)
    )
}

/// Whole degrees in both scales that say the same: °F is reckoned from the °C that is shown, so
/// that one °C never stands beside two °F; a temperature written in whole °F keeps it.
fn both_scales(temperature: Temperature) -> (String, String) {
    let (celsius, fahrenheit) = (temperature.celsius(), temperature.fahrenheit());
    let whole = |value: f64| (value - round_to(value, 1.0)).abs() < 1e-6;
    let shown = round_to(celsius, 1.0);
    let fahrenheit = if whole(fahrenheit) && !whole(celsius) {
        fahrenheit
    } else {
        Temperature::from_celsius(shown).fahrenheit()
    };
    (fixed(shown, 0), fixed(fahrenheit, 0))
}

/// A probe, a dough or a room: "26 °C / 79 °F".
pub fn temperature(temperature: Temperature) -> String {
    let (celsius, fahrenheit) = both_scales(temperature);
    format!("{celsius}{NBSP}°C / {fahrenheit}{NBSP}°F")
}

/// The same, where a dial stands between two degrees: "21.5 °C / 71 °F".
pub fn temperature_or_half(at: Temperature) -> String {
    let half = (at.celsius() - round_to(at.celsius(), 1.0)).abs();
    if (half - 0.5).abs() > 1e-6 {
        return temperature(at);
    }
    let fahrenheit = fixed(at.fahrenheit(), 0);
    format!("{} / {fahrenheit}{NBSP}°F", celsius_fine(at))
}

/// A probe in Celsius alone: "26 °C".
pub fn celsius(temperature: Temperature) -> String {
    format!("{}{NBSP}°C", fixed(temperature.celsius(), 0))
}

/// A reading to a tenth, as a probe gives it: "25.4 °C".
pub fn celsius_fine(temperature: Temperature) -> String {
    format!("{}{NBSP}°C", trimmed(temperature.celsius(), 1))
}

/// "25–26 °C / 77–79 °F"; one figure when both ends round to it.
pub fn temperature_range(range: Range<Temperature>) -> String {
    let ((low_c, low_f), (high_c, high_f)) = (both_scales(range.low), both_scales(range.high));
    if low_c == high_c {
        return temperature(range.low);
    }
    format!("{low_c}–{high_c}{NBSP}°C / {low_f}–{high_f}{NBSP}°F")
}

/// "1.5 °C" of difference.
pub fn difference(difference: TemperatureDifference) -> String {
    format!("{}{NBSP}°C", trimmed(difference.si(), 1))
}

/// An amount as a cook reads it: "180 g", "1¾ cups + 3 Tbsp", "3 large".
pub fn amount(amount: &Amount) -> String {
    match amount {
        Amount::Mass(grams) => mass(*grams),
        Amount::Measures(parts) => {
            let texts: Vec<_> = parts
                .iter()
                .map(|part| {
                    let word = part.measure.word();
                    let plural = if word == "cup" && part.count > 1.0 {
                        "s"
                    } else {
                        ""
                    };
                    format!("{}{NBSP}{word}{plural}", mixed(part.count))
                })
                .collect();
            texts.join(" + ")
        }
        Amount::Count { count, size } => match size {
            Some(size) => counted(*count, size),
            None => mixed(*count),
        },
    }
}

/// "1.2 kJ", "−0.8 kJ".
pub fn energy(energy: Energy) -> String {
    let digits = fixed(energy.si().abs() / 1000.0, 1);
    let sign = if energy.si() < 0.0 && digits != "0.0" {
        "−"
    } else {
        ""
    };
    format!("{sign}{digits}{NBSP}kJ")
}

/// "0.81 kJ/°C".
pub fn heat_capacity(capacity: HeatCapacity) -> String {
    format!("{}{NBSP}kJ/°C", fixed(capacity.si() / 1000.0, 2))
}

/// "55 min", "1 h 20 min", "12 h"; seconds below one minute.
pub fn duration(duration: Duration) -> String {
    if duration.si() < 59.5 {
        return format!("{}{NBSP}s", fixed(duration.si(), 0));
    }
    let minutes = round_to(duration.minutes(), 1.0);
    if minutes < 60.0 {
        return format!("{}{NBSP}min", fixed(minutes, 0));
    }
    let hours = (minutes / 60.0).floor();
    let rest = minutes - hours * 60.0;
    if rest < 0.5 {
        format!("{}{NBSP}h", fixed(hours, 0))
    } else {
        format!("{}{NBSP}h {}{NBSP}min", fixed(hours, 0), fixed(rest, 0))
    }
}

/// "45–75 min", "10–14 h": one unit; hours when both ends are whole or half hours from two up.
pub fn duration_range(range: Range<Duration>) -> String {
    let (low, high) = (range.low.minutes(), range.high.minutes());
    let halves = |minutes: f64| (minutes / 30.0 - (minutes / 30.0).round()).abs() < 1e-9;
    if low >= 120.0 && halves(low) && halves(high) {
        return format!(
            "{}–{}{NBSP}h",
            trimmed(low / 60.0, 1),
            trimmed(high / 60.0, 1)
        );
    }
    if low >= 180.0 {
        // From three hours up a quarter of an hour is as fine as it is true.
        return format!("{} to {}", duration(range.low), duration(range.high));
    }
    format!("{}–{}{NBSP}min", fixed(low, 0), fixed(high, 0))
}

/// "35 %", "1.83 %", "0.08 %": two figures that matter, at most two decimals.
pub fn percent(fraction: Fraction) -> String {
    let value = fraction.percent();
    let decimals = match value.abs() {
        v if v >= 9.95 => 1,
        _ => 2,
    };
    format!("{}{NBSP}%", trimmed(value, decimals))
}

/// A percentage to whole numbers: "30 %".
pub fn percent_whole(fraction: Fraction) -> String {
    format!("{}{NBSP}%", fixed(fraction.percent(), 0))
}

/// A signed percentage: "−2.8 %", "+0.4 %".
pub fn percent_signed(fraction: Fraction) -> String {
    let value = fraction.percent();
    let digits = fixed(value.abs(), 1);
    let sign = if digits == "0.0" {
        ""
    } else if value < 0.0 {
        "−"
    } else {
        "+"
    };
    format!("{sign}{digits}{NBSP}%")
}

/// "1420 mL / 6 cups": cups of the given size to the nearest quarter; millilitres alone where
/// nobody has cups.
pub fn tin_volume(volume: Volume, cup: Option<Volume>) -> String {
    let millilitres = round_to(volume.millilitres(), 10.0);
    let Some(cup) = cup else {
        return format!("{}{NBSP}mL", fixed(millilitres, 0));
    };
    let cups = round_to(volume / cup, 0.25);
    let unit = if (cups - 1.0).abs() < 1e-9 {
        "cup"
    } else {
        "cups"
    };
    format!(
        "{}{NBSP}mL / {}{NBSP}{unit}",
        fixed(millilitres, 0),
        quarters(cups)
    )
}

/// A number of quarters with its fraction as a glyph: "6", "9¾", "½".
fn quarters(value: f64) -> String {
    let whole = value.floor();
    let glyph = match fixed((value - whole) * 4.0, 0).as_str() {
        "1" => "¼",
        "2" => "½",
        "3" => "¾",
        _ => "",
    };
    match (whole > 0.0, glyph) {
        (true, glyph) => format!("{}{glyph}", fixed(whole, 0)),
        (false, "") => "0".to_owned(),
        (false, glyph) => glyph.to_owned(),
    }
}

/// A sign between dimensions that stays with both.
const TIMES: &str = "\u{a0}×\u{a0}";

/// "21.6 × 11.4 × 6.4 cm / 8½ × 4½ × 2½ in", "Ø 16.5 × 11 cm / 6½ × 4¼ in".
pub fn tin_size(size: &TinSize) -> String {
    let (before, lengths) = match *size {
        TinSize::Box {
            length,
            width,
            depth,
        } => ("", vec![length, width, depth]),
        TinSize::Tray { length, width } => ("", vec![length, width]),
        TinSize::Round { diameter, height } => ("Ø ", vec![diameter, height]),
    };
    let metric: Vec<_> = lengths
        .iter()
        .map(|l| trimmed(l.centimetres(), 1))
        .collect();
    let inches: Vec<_> = lengths
        .iter()
        .map(|l| quarters(round_to(l.millimetres() / 25.4, 0.25)))
        .collect();
    format!(
        "{before}{}{NBSP}cm / {}{NBSP}in",
        metric.join(TIMES),
        inches.join(TIMES)
    )
}

/// "3 cm / 1¼ in".
pub fn length(length: Length) -> String {
    format!(
        "{}{NBSP}cm / {}{NBSP}in",
        trimmed(length.centimetres(), 1),
        quarters(round_to(length.millimetres() / 25.4, 0.25))
    )
}

/// A share of the starting volume: "2 times", "1.9 times".
pub fn times(multiple: f64) -> String {
    format!("{}{NBSP}times", trimmed(multiple, 2))
}

/// A duration as ISO 8601, whole minutes: "PT1H20M", "PT45M", "P1DT2H".
pub fn iso_duration(duration: Duration) -> String {
    let minutes = round_to(duration.minutes(), 1.0);
    let days = (minutes / 1440.0).floor();
    let hours = ((minutes - days * 1440.0) / 60.0).floor();
    let rest = minutes - days * 1440.0 - hours * 60.0;
    let part = |value: f64, letter: &str| {
        if value > 0.0 {
            format!("{}{letter}", fixed(value, 0))
        } else {
            String::new()
        }
    };
    let clock = part(hours, "H") + &part(rest, "M");
    match (part(days, "D"), clock.as_str()) {
        (days, "") if days.is_empty() => "PT0M".to_owned(),
        (days, "") => format!("P{days}"),
        (days, clock) => format!("P{days}T{clock}"),
    }
}

/// "14 February 2026": no order of figures to mistake.
pub fn date(date: jiff::civil::Date) -> String {
    format!("{}{NBSP}{}", date.day(), date.strftime("%B %Y"))
}

/// Joins names as a sentence does: "milk", "milk and egg", "wheat, milk and egg".
pub fn list(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}

/// The author's words with each figure kept together with the unit after it: "5 cm" never breaks.
pub fn units_kept(words: &str) -> String {
    const UNITS: [&str; 12] = [
        "cm", "mm", "min", "minutes", "h", "hours", "g", "kg", "mL", "°C", "°F", "%",
    ];
    let mut out = String::with_capacity(words.len());
    let mut rest = words;
    while let Some(at) = rest.find(' ') {
        let (before, after) = (&rest[..at], &rest[at + 1..]);
        let word: String = after
            .chars()
            .take_while(|c| c.is_alphabetic() || matches!(c, '°' | '%'))
            .collect();
        out.push_str(before);
        let figure = out.ends_with(|c: char| c.is_ascii_digit());
        out.push(if figure && UNITS.contains(&word.as_str()) {
            NBSP
        } else {
            ' '
        });
        rest = after;
    }
    out.push_str(rest);
    out
}

/// A kitchen by its name and its room, each said once: "Studio with a room of 21 °C / 70 °F". A kitchen whose
/// room was changed has the room in its name already.
pub fn kitchen_and_room(kitchen: &bake::kitchen::Kitchen) -> String {
    let own = format!("room {}", write_temperature(kitchen.room));
    let parts = kitchen.name.split(", ").filter(|part| *part != own);
    let name = parts.collect::<Vec<_>>().join(", ");
    format!("{name} with a room of {}", temperature(kitchen.room))
}

/// First letter upper case.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}

#[cfg(test)]
mod tests;
