//! How findings about heat say a figure: whole degrees in both scales, whole grams.

use numerics::decimal::{fixed, round_to};
use numerics::quantity::{Mass, Range, Temperature};

/// No-break space between number and unit.
const NBSP: char = '\u{a0}';

/// "26 °C / 79 °F" for a figure that is worked out: whole degrees Celsius, and the same in
/// Fahrenheit, so that one reading always has one pair.
pub fn degrees(temperature: Temperature) -> String {
    written(whole(temperature))
}

/// A temperature in whole degrees Celsius, halves away from zero.
pub fn whole(temperature: Temperature) -> Temperature {
    Temperature::from_celsius(round_to(temperature.celsius(), 1.0))
}

/// "43 °C / 110 °F" for a figure that the cook wrote, in either scale: each as near as it goes.
pub fn written(temperature: Temperature) -> String {
    format!(
        "{}{NBSP}°C / {}{NBSP}°F",
        minus(&fixed(temperature.celsius(), 0)),
        minus(&fixed(temperature.fahrenheit(), 0))
    )
}

/// "25–26 °C / 77–79 °F" as it was written, or one temperature when both ends are the same.
pub fn band(range: Range<Temperature>) -> String {
    if range.low == range.high {
        return written(range.low);
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

/// "35 min", "2 h 35 min": whole minutes.
pub fn time(seconds: f64) -> String {
    let all = round_to(seconds / 60.0, 1.0);
    let hours = (all / 60.0).floor();
    let left = all - 60.0 * hours;
    match (hours > 0.0, left > 0.0) {
        (false, _) => format!("{}{NBSP}min", fixed(all, 0)),
        (true, false) => format!("{}{NBSP}h", fixed(hours, 0)),
        (true, true) => format!("{}{NBSP}h {}{NBSP}min", fixed(hours, 0), fixed(left, 0)),
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_reading_in_celsius_has_one_in_fahrenheit() {
        for tenths in -400..1500 {
            let shown = degrees(Temperature::from_celsius(f64::from(tenths) / 10.0));
            let again = degrees(whole(Temperature::from_celsius(f64::from(tenths) / 10.0)));
            assert_eq!(shown, again);
        }
        let low = Temperature::from_celsius(25.6);
        assert_eq!(degrees(low), "26\u{a0}°C / 79\u{a0}°F");
        let packet = Temperature::from_celsius((110.0 - 32.0) / 1.8);
        assert_eq!(written(packet), "43\u{a0}°C / 110\u{a0}°F");
    }
}
