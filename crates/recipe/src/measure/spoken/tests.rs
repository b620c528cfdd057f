//! What is said, and what is heard.

#![allow(clippy::float_cmp)] // numbers as they are said are whole, or the same number twice

use super::{Meant, Nearness, in_words, spoken};

/// Each quantity as a short text.
fn heard(text: &str) -> Vec<String> {
    let short = |value: f64| numerics::decimal::trimmed(value, 3);
    let range = |low: f64, high: f64, unit: &str| {
        if low == high {
            format!("{} {unit}", short(low))
        } else {
            format!("{}-{} {unit}", short(low), short(high))
        }
    };
    spoken(text)
        .iter()
        .map(|said| match &said.meant {
            Meant::Mass(r) => range(r.low.grams(), r.high.grams(), "g"),
            Meant::Volume(r) => range(r.low.millilitres(), r.high.millilitres(), "mL"),
            Meant::Temperature(r) => range(r.low.celsius(), r.high.celsius(), "C"),
            Meant::Degrees(low, high) => range(*low, *high, "degrees"),
            Meant::Gas(low, high) => range(*low, *high, "gas"),
            Meant::Time(r) => range(r.low.minutes(), r.high.minutes(), "min"),
            Meant::Length(r) => range(r.low.centimetres(), r.high.centimetres(), "cm"),
            Meant::Sides(sides, unit) => {
                let all: Vec<String> = sides.iter().map(|side| short(*side)).collect();
                format!(
                    "{} at {}",
                    all.join(" by "),
                    unit.map_or_else(String::new, short)
                )
            }
            Meant::Share(r) => range(r.low.percent(), r.high.percent(), "%"),
            Meant::Times(low, high) => range(*low, *high, "times"),
            Meant::Packets(low, high) => range(*low, *high, "packets"),
            Meant::Number(low, high) => range(*low, *high, "").trim_end().to_owned(),
        })
        .collect()
}

#[test]
fn speech_is_heard_as_it_is_meant() {
    for (text, wanted) in [
        (
            "two hundred and forty-five grams of bread flour",
            vec!["245 g"],
        ),
        ("a hundred and thirty-seven grams of water", vec!["137 g"]),
        ("a quarter teaspoon of instant yeast", vec!["1.232 mL"]),
        ("three quarters of a teaspoon", vec!["3.697 mL"]),
        ("two and a quarter cups", vec!["532.324 mL"]),
        ("a cup and a half of milk", vec!["354.882 mL"]),
        ("two cups and three tablespoons", vec!["517.537 mL"]),
        ("half a cup less a tablespoon", vec!["103.507 mL"]),
        ("a stick and a half of butter", vec!["177.441 mL"]),
        ("twelve hours in the pantry", vec!["720 min"]),
        ("an hour and twenty", vec!["80 min"]),
        ("for an hour and twenty, then", vec!["80 min"]),
        ("one hour twenty", vec!["80 min"]),
        ("an hour and a quarter", vec!["75 min"]),
        ("half an hour", vec!["30 min"]),
        ("a half hour", vec!["30 min"]),
        ("an hour or two", vec!["60-120 min"]),
        ("an hour or so", vec!["60 min"]),
        ("a couple of minutes", vec!["2 min"]),
        ("a minute and a half", vec!["1.5 min"]),
        ("forty-five minutes to an hour", vec!["45-60 min"]),
        ("twelve or thirteen minutes", vec!["12-13 min"]),
        ("ten, twelve minutes", vec!["10-12 min"]),
        ("twenty twenty-five minutes", vec!["20-25 min"]),
        ("between ten and twelve minutes", vec!["10-12 min"]),
        ("two ten-minute rests", vec!["2", "10 min"]),
        ("until it says seventy-five Celsius", vec!["75 C"]),
        ("four hundred Fahrenheit", vec!["204.444 C"]),
        ("bakes at three-fifty", vec!["350"]),
        ("one eighty fan", vec!["180"]),
        ("one ninety-eight", vec!["198"]),
        ("a hundred and eighty degrees", vec!["180 degrees"]),
        ("180C", vec!["180 C"]),
        ("gas mark four", vec!["4 gas"]),
        ("gas four", vec!["4 gas"]),
        ("two level teaspoons", vec!["9.858 mL"]),
        ("point eight of a gram", vec!["0.8 g"]),
        ("seventeen and a half grams", vec!["17.5 g"]),
        ("fourteen twenty millilitres", vec!["1420 mL"]),
        ("1,420 ml", vec!["1420 mL"]),
        ("six hundred and seventy-five grams", vec!["675 g"]),
        ("ten knots, six little rolls", vec!["10", "6"]),
        ("half a dozen eggs", vec!["6"]),
        ("a nine by five tin", vec!["9 by 5 at "]),
        (
            "eight and a half by four and a half inches",
            vec!["8.5 by 4.5 at 0.025"],
        ),
        ("two large eggs", vec!["2"]),
        ("an inch and a half", vec!["3.81 cm"]),
        ("half past nine", vec![]),
        ("at 9:30", vec![]),
        ("quarter to ten", vec![]),
        ("nine o'clock", vec![]),
        ("since nineteen seventy-six", vec![]),
        ("leave it overnight", vec!["480-720 min"]),
        ("twice", vec!["2 times"]),
        ("a packet of yeast", vec!["1 packets"]),
        ("five or six minutes more", vec!["5-6 min"]),
        ("a pound and a half of flour", vec!["680.389 g"]),
        ("one pound five ounces", vec!["595.34 g"]),
        ("a little salt", vec![]),
    ] {
        assert_eq!(heard(text), wanted, "{text}");
    }
}

#[test]
fn how_near_it_is_meant_is_heard_too() {
    let nearness = |text: &str| spoken(text).first().map(|said| said.nearness);
    assert_eq!(nearness("a bit over half an hour"), Some(Nearness::Over));
    assert_eq!(nearness("just under an hour"), Some(Nearness::Under));
    assert_eq!(nearness("about a tablespoon"), Some(Nearness::About));
    assert_eq!(nearness("ten minutes or so"), Some(Nearness::About));
    assert_eq!(nearness("up to ten hours"), Some(Nearness::AtMost));
    assert_eq!(nearness("ten minutes"), Some(Nearness::Exact));
}

#[test]
fn a_number_is_said_in_words() {
    for (value, wanted) in [
        (245.0, "two hundred and forty-five"),
        (180.0, "a hundred and eighty"),
        (2.25, "two and a quarter"),
        (0.5, "half"),
        (17.5, "seventeen and a half"),
        (0.8, "zero point eight"),
        (1420.0, "a thousand four hundred and twenty"),
        (80.0, "eighty"),
    ] {
        assert_eq!(in_words(value).as_deref(), Some(wanted), "{value}");
    }
}
