//! Any quantity: in every unit, with decimals, thirds, sevenths and eighths.

use jiff::civil::Date;
use numerics::quantity::{Duration, Fraction, Length, Mass, Range, Temperature, Volume};
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use recipe::document::model::{Amount, Spooned, Timing};
use recipe::measure::Measure;
use recipe::source::{Located, Span};

/// A value that stands nowhere.
pub fn nowhere<T>(value: T) -> Located<T> {
    Located::new(value, Span::default())
}

/// Located values of a strategy.
pub fn located<S: Strategy>(values: S) -> impl Strategy<Value = Located<S::Value>>
where
    S::Value: Clone,
{
    values.prop_map(nowhere)
}

/// A text that is not blank, line ends and quotes among its letters.
pub fn text() -> impl Strategy<Value = Located<String>> {
    let letters = prop_oneof![
        4 => "[a-zA-Zéß °½–]",
        1 => Just("\"".to_owned()),
        1 => Just("\\".to_owned()),
        1 => Just("\n".to_owned()),
        1 => Just("\t".to_owned()),
        1 => Just("[".to_owned()),
        1 => Just("'".to_owned()),
        1 => Just("\u{7}".to_owned()),
    ];
    vec(letters, 0..8).prop_map(|letters| nowhere(format!("a{}", letters.concat())))
}

/// A number of at most three decimals, or a third, seventh or eighth.
pub fn number(most: u32) -> impl Strategy<Value = f64> {
    (
        1..=most * 8,
        prop::sample::select(vec![1.0, 3.0, 7.0, 8.0, 10.0, 100.0, 1000.0]),
    )
        .prop_map(move |(n, by)| (f64::from(n) / by).min(f64::from(most)).max(0.01))
}

pub fn mass() -> impl Strategy<Value = Mass> {
    number(5000).prop_map(Mass::from_grams)
}

pub fn celsius(low: i32, high: i32) -> impl Strategy<Value = Temperature> {
    (low * 10..high * 10, any::<bool>()).prop_map(|(tenths, fahrenheit)| {
        let degrees = f64::from(tenths) / 10.0;
        if fahrenheit {
            Temperature::from_fahrenheit((degrees * 1.8 + 32.0).round())
        } else {
            Temperature::from_celsius(degrees)
        }
    })
}

pub fn time() -> impl Strategy<Value = Duration> {
    prop_oneof![
        number(900).prop_map(|n| Duration::from_minutes(n.max(0.1))),
        (1..40_u32).prop_map(|n| Duration::from_hours(f64::from(n))),
        (1..5000_u32).prop_map(|n| Duration::from_si(f64::from(n))),
    ]
}

pub fn length(most_cm: u32) -> impl Strategy<Value = Length> {
    number(most_cm).prop_map(|n| Length::from_centimetres(n.max(0.2)))
}

pub fn share() -> impl Strategy<Value = Fraction> {
    number(15).prop_map(Fraction::from_percent)
}

pub fn volume() -> impl Strategy<Value = Volume> {
    (1..4000_u32, prop::sample::select(Measure::ALL.to_vec())).prop_map(|(n, measure)| {
        let most = 0.4 / measure.volume().si();
        measure.volume()
            * (f64::from(n) / 4.0 + 1.0)
                .max(0.02 / 1000.0 / measure.volume().si())
                .min(most)
    })
}

pub fn day() -> impl Strategy<Value = Located<Date>> {
    (1900_i16..2100, 1_i8..=12, 1_i8..=28).prop_map(|(y, m, d)| nowhere(Date::constant(y, m, d)))
}

pub fn amount() -> impl Strategy<Value = Amount> {
    let spooned = (number(40), prop::sample::select(Measure::ALL.to_vec()))
        .prop_map(|(count, measure)| Spooned { count, measure });
    let sizes = ["large", "packet", "stick", "leaf", "EU medium"].map(|s| Some(s.to_owned()));
    let mut sizes = sizes.to_vec();
    sizes.push(None);
    prop_oneof![
        mass().prop_map(Amount::Mass),
        vec(spooned, 1..3).prop_map(Amount::Measures),
        (number(50), prop::sample::select(sizes))
            .prop_map(|(count, size)| Amount::Count { count, size }),
    ]
}

pub fn timing() -> impl Strategy<Value = Timing> {
    (time(), of((time(), time()))).prop_map(|(usual, ends)| Timing {
        usual: nowhere(usual),
        range: ends.map(|(a, b)| {
            let (low, high) = if a <= b { (a, b) } else { (b, a) };
            nowhere(Range { low, high })
        }),
    })
}

/// A time whose table has no range.
pub fn minutes() -> impl Strategy<Value = Timing> {
    time().prop_map(|usual| Timing {
        usual: nowhere(usual),
        range: None,
    })
}
