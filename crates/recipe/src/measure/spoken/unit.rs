//! The units that people say, and what one of each measures.

use crate::measure::Measure;
use crate::measure::read::sentence::{Token, What};
use crate::measure::read::units::{SPELLINGS, Unit};

/// The unit that a quantity is said in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SpokenUnit {
    /// So many kilograms.
    Mass(f64),
    /// So many cubic metres.
    Volume(f64),
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Degrees of a scale that is not said.
    Degrees,
    /// Gas marks.
    Gas,
    /// So many seconds.
    Time(f64),
    /// So many metres.
    Length(f64),
    /// Per cent.
    Percent,
    /// Times.
    Times,
    /// Packets.
    Packets,
    /// None is said.
    None,
}

impl SpokenUnit {
    /// The size of one in SI, for units that are multiples of it.
    pub const fn size(self) -> Option<f64> {
        match self {
            Self::Mass(size) | Self::Volume(size) | Self::Time(size) | Self::Length(size) => {
                Some(size)
            }
            _ => None,
        }
    }

    /// Whether both are of one sort.
    pub const fn same_sort(self, other: Self) -> bool {
        matches!(
            (self, other),
            (Self::Mass(_), Self::Mass(_))
                | (Self::Volume(_), Self::Volume(_))
                | (Self::Time(_), Self::Time(_))
                | (Self::Length(_), Self::Length(_))
        )
    }
}

/// Words for a unit, and the spelling of the format.
const SPOKEN: &[(&str, &str)] = &[
    ("gram", "g"),
    ("grams", "g"),
    ("gramme", "g"),
    ("grammes", "g"),
    ("kilo", "kg"),
    ("kilos", "kg"),
    ("kilogram", "kg"),
    ("kilograms", "kg"),
    ("milligram", "mg"),
    ("milligrams", "mg"),
    ("ounce", "oz"),
    ("ounces", "oz"),
    ("pound", "lb"),
    ("pounds", "lb"),
    ("lbs", "lb"),
    ("tablespoon", "Tbsp"),
    ("tablespoons", "Tbsp"),
    ("tablespoonful", "Tbsp"),
    ("tablespoonfuls", "Tbsp"),
    ("tbsps", "Tbsp"),
    ("teaspoon", "tsp"),
    ("teaspoons", "tsp"),
    ("teaspoonful", "tsp"),
    ("teaspoonfuls", "tsp"),
    ("tsps", "tsp"),
    ("cupful", "cup"),
    ("cupfuls", "cup"),
    ("litre", "L"),
    ("litres", "L"),
    ("liter", "L"),
    ("liters", "L"),
    ("millilitre", "mL"),
    ("millilitres", "mL"),
    ("milliliter", "mL"),
    ("milliliters", "mL"),
    ("mil", "mL"),
    ("mils", "mL"),
    ("mls", "mL"),
    ("deci", "dL"),
    ("decilitre", "dL"),
    ("decilitres", "dL"),
    ("deciliter", "dL"),
    ("deciliters", "dL"),
    ("centilitre", "cL"),
    ("centilitres", "cL"),
    ("second", "s"),
    ("seconds", "s"),
    ("sec", "s"),
    ("secs", "s"),
    ("minute", "min"),
    ("minutes", "min"),
    ("mins", "min"),
    ("hour", "h"),
    ("hours", "h"),
    ("hr", "h"),
    ("hrs", "h"),
    ("day", "d"),
    ("days", "d"),
    ("millimetre", "mm"),
    ("millimetres", "mm"),
    ("millimeter", "mm"),
    ("millimeters", "mm"),
    ("centimetre", "cm"),
    ("centimetres", "cm"),
    ("centimeter", "cm"),
    ("centimeters", "cm"),
    ("centi", "cm"),
    ("inch", "in"),
    ("inches", "in"),
    ("metre", "m"),
    ("metres", "m"),
    ("meter", "m"),
    ("meters", "m"),
    ("percent", "%"),
];

/// Words of the format that stand in speech for something else: "in the bowl", "a d and a c".
const NOT_SPOKEN: [&str; 6] = ["in", "m", "d", "s", "c", "f"];

/// What stands between a number and its unit without changing it.
const BETWEEN: [&str; 22] = [
    "level", "levelled", "leveled", "heaped", "heaping", "rounded", "scant", "generous", "good",
    "full", "whole", "big", "more", "extra", "further", "straight", "solid", "proper", "packed",
    "short", "long", "odd",
];

/// A stick of butter holds eight tablespoons (the marks of its wrapper in the United States).
const STICK_TABLESPOONS: f64 = 8.0;

/// A US pint and quart in cups.
const PINT_CUPS: f64 = 2.0;
const QUART_CUPS: f64 = 4.0;

/// Days of a week and of a month, as storage is spoken of.
const WEEK_S: f64 = 7.0 * 86_400.0;
const MONTH_S: f64 = 30.0 * 86_400.0;

/// A foot (international, exact).
const FOOT_M: f64 = 0.3048;

/// The unit that stands at a place, past a hyphen and words like "level", and where it ends.
pub(super) fn unit_at(all: &[Token], at: usize, number: f64) -> Option<(SpokenUnit, usize)> {
    let mut at = at;
    for _ in 0..4 {
        let token = all.get(at)?;
        if token.is_dash()
            || BETWEEN.contains(&token.word())
            || token.word() == "ish"
            || token.word() == "or" && all.get(at + 1).is_some_and(|next| next.word() == "so")
        {
            at += if token.word() == "or" { 2 } else { 1 };
        } else {
            break;
        }
    }
    let token = all.get(at)?;
    match token.what {
        What::Mark('°' | 'º') => return Some(degrees(all, at + 1)),
        What::Mark('℃') => return Some((SpokenUnit::Celsius, at + 1)),
        What::Mark('℉') => return Some((SpokenUnit::Fahrenheit, at + 1)),
        What::Mark('%') => return Some((SpokenUnit::Percent, at + 1)),
        What::Mark('"' | '″') => return Some((SpokenUnit::Length(0.0254), at + 1)),
        What::Mark(_) | What::Number(_) => return None,
        What::Word(_) => {}
    }
    let word = token.word();
    let next = all.get(at + 1).map_or("", Token::word);
    let volume = |count: f64, measure: Measure| SpokenUnit::Volume(count * measure.volume().si());
    Some(match (word, next) {
        ("degree" | "degrees" | "deg", _) => degrees(all, at + 1),
        ("celsius" | "centigrade", _) => (SpokenUnit::Celsius, at + 1),
        ("fahrenheit", _) => (SpokenUnit::Fahrenheit, at + 1),
        ("c", _) if number > 20.0 => (SpokenUnit::Celsius, at + 1),
        ("f", _) if number > 20.0 => (SpokenUnit::Fahrenheit, at + 1),
        ("fluid" | "fl", "ounce" | "ounces" | "oz") => (volume(1.0, Measure::FluidOunce), at + 2),
        ("per", "cent") => (SpokenUnit::Percent, at + 2),
        ("times", _) => (SpokenUnit::Times, at + 1),
        ("stick" | "sticks", _) => (volume(STICK_TABLESPOONS, Measure::Tablespoon), at + 1),
        ("pint" | "pints", _) => (volume(PINT_CUPS, Measure::Cup), at + 1),
        ("quart" | "quarts", _) => (volume(QUART_CUPS, Measure::Cup), at + 1),
        (
            "packet" | "packets" | "sachet" | "sachets" | "envelope" | "envelopes" | "package"
            | "packages",
            _,
        ) => (SpokenUnit::Packets, at + 1),
        ("mil" | "mils", "thick" | "wide" | "long" | "deep" | "high" | "tall") => {
            (SpokenUnit::Length(0.001), at + 1)
        }
        (
            "foot" | "feet",
            "long" | "wide" | "across" | "high" | "tall" | "deep" | "apart" | "by",
        ) => (SpokenUnit::Length(FOOT_M), at + 1),
        ("fortnight" | "fortnights", _) => (SpokenUnit::Time(2.0 * WEEK_S), at + 1),
        ("week" | "weeks", _) => (SpokenUnit::Time(WEEK_S), at + 1),
        ("month" | "months", _) => (SpokenUnit::Time(MONTH_S), at + 1),
        _ if NOT_SPOKEN.contains(&word) => return None,
        _ => (plain(word)?, at + 1),
    })
}

/// The scale after "degrees".
fn degrees(all: &[Token], at: usize) -> (SpokenUnit, usize) {
    match all.get(at).map_or("", Token::word) {
        "c" | "celsius" | "centigrade" => (SpokenUnit::Celsius, at + 1),
        "f" | "fahrenheit" => (SpokenUnit::Fahrenheit, at + 1),
        _ => (SpokenUnit::Degrees, at),
    }
}

/// Whether a word alone can be a unit: "grams", "tbsp", "degrees", "weeks".
pub fn is_unit_word(word: &str) -> bool {
    plain(word).is_some()
        || matches!(
            word,
            "degree"
                | "degrees"
                | "deg"
                | "°"
                | "°c"
                | "°f"
                | "c"
                | "f"
                | "celsius"
                | "centigrade"
                | "fahrenheit"
                | "stick"
                | "sticks"
                | "pint"
                | "pints"
                | "quart"
                | "quarts"
                | "week"
                | "weeks"
                | "month"
                | "months"
                | "times"
                | "%"
        )
}

/// A unit of one word, by the spellings of the format.
fn plain(word: &str) -> Option<SpokenUnit> {
    // "ten minutes' rest"
    let word = word
        .strip_suffix("s'")
        .or_else(|| word.strip_suffix("s’"))
        .unwrap_or(word);
    let spelling = SPOKEN
        .iter()
        .find(|(said, _)| *said == word)
        .map_or(word, |(_, spelling)| *spelling);
    let (_, unit) = SPELLINGS
        .iter()
        .find(|(known, _)| known.eq_ignore_ascii_case(spelling))?;
    Some(match *unit {
        Unit::Mass(size) => SpokenUnit::Mass(size),
        Unit::Volume(measure) => SpokenUnit::Volume(measure.volume().si()),
        Unit::Time(size) => SpokenUnit::Time(size),
        Unit::Length(size) => SpokenUnit::Length(size),
        Unit::Percent => SpokenUnit::Percent,
        _ => return None,
    })
}
