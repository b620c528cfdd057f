//! Times and temperatures as the file and its comments say them.

use crate::import::sheet::quoted;
use crate::measure::write::{write_time, write_time_range};
use numerics::decimal::trimmed;
use numerics::quantity::{Duration, Range, Temperature};

/// Minutes as a time.
pub fn minutes(value: f64) -> Duration {
    Duration::from_si(value * 60.0)
}

/// `for` and `range` of a stretch: the usual value lies in the middle, on five minutes where the
/// range is wide.
pub fn timing(range: Range<Duration>) -> String {
    let (low, high) = (range.low.si() / 60.0, range.high.si() / 60.0);
    if high <= low {
        return format!("for = {}", quoted(&write_time(range.low)));
    }
    let middle = f64::midpoint(low, high);
    let step = if high - low >= 10.0 { 5.0 } else { 1.0 };
    let rounded = (middle / step).round() * step;
    let usual = if rounded >= low && rounded <= high {
        rounded
    } else {
        middle
    };
    format!(
        "for = {}, range = {}",
        quoted(&write_time(minutes(usual))),
        quoted(&write_time_range(range))
    )
}

/// Usual minutes as a range.
pub fn span(three: [f64; 3]) -> Range<Duration> {
    Range {
        low: minutes(three[1]),
        high: minutes(three[2]),
    }
}

/// A time for a reader: "32–42 min".
pub fn said(range: Range<Duration>) -> String {
    if range.high > range.low {
        write_time_range(range).replace('-', "–")
    } else {
        write_time(range.low)
    }
}

/// Degrees as the file writes them.
pub fn degrees(celsius: f64) -> String {
    format!("{} °C", trimmed((celsius * 2.0).round() / 2.0, 1))
}

/// A range of degrees on both scales, for a sentence: "23–25 °C / 73–77 °F".
pub fn both_of(low: f64, high: f64) -> String {
    let (low, high) = (both(low), both(high));
    let scales = low.split(" / ").zip(high.split(" / "));
    let ranges = scales.map(|(low, high)| {
        let number = low.split(' ').next().unwrap_or(low);
        format!("{number}–{high}")
    });
    ranges.collect::<Vec<_>>().join(" / ")
}

/// Degrees on both scales, for a sentence.
pub fn both(celsius: f64) -> String {
    let exact = celsius * 1.8 + 32.0;
    let fahrenheit = if celsius >= 100.0 {
        let coarse = (exact / 25.0).round() * 25.0;
        if (coarse - exact).abs() <= 8.0 {
            coarse
        } else {
            (exact / 5.0).round() * 5.0
        }
    } else {
        exact.round()
    };
    format!("{} / {} °F", degrees(celsius), trimmed(fahrenheit, 0))
}

/// A dial as the file writes it; of a range the middle. A text that goes by a dial in °F keeps its figure: dials in
/// °C go by 5, in °F by 25.
pub fn dial(range: Range<Temperature>) -> String {
    let middle = f64::midpoint(range.low.celsius(), range.high.celsius());
    let fahrenheit = middle * 1.8 + 32.0;
    let on = |value: f64, by: f64| (value - by * (value / by).round()).abs() < 0.6;
    if !on(middle, 5.0) && on(fahrenheit, 25.0) {
        return quoted(&format!("{fahrenheit:.0} °F"));
    }
    quoted(&degrees(middle.round()))
}
