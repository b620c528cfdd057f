//! How findings about heat say a figure: whole degrees in both scales, whole grams.

use numerics::decimal::fixed;
use numerics::quantity::{Mass, Range, Temperature};

/// No-break space between number and unit.
const NBSP: char = '\u{a0}';

/// "26 °C / 79 °F".
pub fn degrees(temperature: Temperature) -> String {
    format!(
        "{}{NBSP}°C / {}{NBSP}°F",
        minus(&fixed(temperature.celsius(), 0)),
        minus(&fixed(temperature.fahrenheit(), 0))
    )
}

/// "25–26 °C / 77–79 °F", or one temperature when both ends are the same.
pub fn band(range: Range<Temperature>) -> String {
    if range.low == range.high {
        return degrees(range.low);
    }
    format!(
        "{}–{}{NBSP}°C / {}–{}{NBSP}°F",
        minus(&fixed(range.low.celsius(), 0)),
        minus(&fixed(range.high.celsius(), 0)),
        minus(&fixed(range.low.fahrenheit(), 0)),
        minus(&fixed(range.high.fahrenheit(), 0))
    )
}

/// "140 g".
pub fn grams(mass: Mass) -> String {
    format!("{}{NBSP}g", minus(&fixed(mass.grams(), 0)))
}

/// A minus sign in the place of a hyphen.
fn minus(number: &str) -> String {
    number.replace('-', "−")
}

/// A name at the head of a sentence.
pub fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}
