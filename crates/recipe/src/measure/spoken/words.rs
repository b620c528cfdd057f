//! The words of numbers, and a number in words as a speaker would say it: "a hundred and eighty", "two and a quarter".

#![allow(clippy::float_cmp)] // numbers as they are said are whole, or the same number twice

const ONES: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const TENS: [&str; 10] = [
    "", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
];

/// Parts that have words.
const PARTS: [(f64, &str); 7] = [
    (0.25, "a quarter"),
    (0.5, "a half"),
    (0.75, "three quarters"),
    (1.0 / 3.0, "a third"),
    (2.0 / 3.0, "two thirds"),
    (0.125, "an eighth"),
    (0.375, "three eighths"),
];

/// The parts of a whole by their words, in the singular: "half", "third", "quarter".
const PIECES: [(&str, f64); 8] = [
    ("half", 2.0),
    ("third", 3.0),
    ("quarter", 4.0),
    ("fourth", 4.0),
    ("fifth", 5.0),
    ("sixth", 6.0),
    ("eighth", 8.0),
    ("tenth", 10.0),
];

/// From zero to nineteen, and the tens.
pub(crate) fn number_word(word: &str) -> Option<f64> {
    let place = |all: &[&str]| {
        all.iter()
            .zip(0_u32..)
            .find(|(own, _)| **own == word)
            .map(|(_, n)| f64::from(n))
    };
    if word.is_empty() {
        return None;
    }
    let tens = || {
        if word == "fourty" {
            Some(4.0)
        } else {
            place(&TENS)
        }
    };
    place(&ONES).or_else(|| tens().map(|tens| tens * 10.0))
}

/// Into how many parts a word cuts: "third" into three.
pub(crate) fn piece(word: &str) -> Option<f64> {
    PIECES
        .iter()
        .find(|(own, _)| *own == word)
        .map(|(_, parts)| *parts)
}

/// The same of several: "thirds", "halves".
pub(crate) fn pieces(word: &str) -> Option<f64> {
    if word == "halves" {
        return Some(2.0);
    }
    word.strip_suffix('s')
        .filter(|word| *word != "half")
        .and_then(piece)
}

/// Whether a word says a number or a part of one: "twelve", "hundred", "quarters", "dozen".
pub fn is_number_word(word: &str) -> bool {
    number_word(word).is_some()
        || piece(word).is_some()
        || pieces(word).is_some()
        || matches!(word, "hundred" | "thousand" | "dozen" | "couple")
}

/// A number in words; none for one that has no short form in words.
pub fn in_words(value: f64) -> Option<String> {
    if !(0.0..10_000.0).contains(&value) {
        return None;
    }
    let whole = value.floor();
    let rest = value - whole;
    if rest < 1e-6 {
        return Some(whole_words(whole));
    }
    if let Some((_, words)) = PARTS.iter().find(|(part, _)| (part - rest).abs() < 0.005) {
        if whole == 0.0 {
            return Some(match *words {
                "a half" => "half".to_owned(),
                words => words.to_owned(),
            });
        }
        return Some(format!("{} and {words}", whole_words(whole)));
    }
    let tenth = (rest * 10.0).round();
    ((rest * 10.0 - tenth).abs() < 1e-6)
        .then(|| format!("{} point {}", whole_words(whole), whole_words(tenth)))
}

/// A whole number below ten thousand.
fn whole_words(value: f64) -> String {
    let ones = |value: f64| {
        ONES.iter()
            .zip(0_u32..)
            .find(|(_, n)| f64::from(*n) == value)
            .map_or("", |(word, _)| word)
    };
    let tens = |value: f64| {
        TENS.iter()
            .zip(0_u32..)
            .find(|(_, n)| f64::from(*n) == value)
            .map_or("", |(word, _)| word)
    };
    if value < 20.0 {
        return ones(value).to_owned();
    }
    if value < 100.0 {
        let ten = (value / 10.0).floor();
        let one = value - ten * 10.0;
        return if one == 0.0 {
            tens(ten).to_owned()
        } else {
            format!("{}-{}", tens(ten), ones(one))
        };
    }
    let (size, name) = if value < 1000.0 {
        (100.0, "hundred")
    } else {
        (1000.0, "thousand")
    };
    let many = (value / size).floor();
    let rest = value - many * size;
    let first = if many == 1.0 {
        "a".to_owned()
    } else {
        whole_words(many)
    };
    if rest == 0.0 {
        format!("{first} {name}")
    } else if rest < 100.0 {
        format!("{first} {name} and {}", whole_words(rest))
    } else {
        format!("{first} {name} {}", whole_words(rest))
    }
}
