//! The units that people write, what each measures, and which was probably meant by a stranger.

use crate::measure::Measure;
use crate::source::listed;

/// What a unit measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sort {
    /// How heavy.
    Mass,
    /// How much room it takes.
    Volume,
    /// How warm.
    Temperature,
    /// How long it takes.
    Time,
    /// How far.
    Length,
    /// A share of something.
    Share,
    /// Work for each kilogram.
    Power,
    /// So many times as much.
    Multiple,
    /// How many.
    Count,
}

impl Sort {
    /// With its article, as a message says it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Mass => "a mass",
            Self::Volume => "a volume",
            Self::Temperature => "a temperature",
            Self::Time => "a time",
            Self::Length => "a length",
            Self::Share => "a share",
            Self::Power => "work for each kilogram",
            Self::Multiple => "a multiple",
            Self::Count => "a count",
        }
    }
}

/// A unit as written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unit {
    /// So many kilograms.
    Mass(f64),
    /// A kitchen measure or metric volume.
    Volume(Measure),
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// So many seconds.
    Time(f64),
    /// So many metres.
    Length(f64),
    /// Per cent.
    Percent,
    /// Watts for each kilogram.
    Power,
    /// "times".
    Times,
    /// A size or a pack, in the singular: "large", "packet".
    Count(&'static str),
}

impl Unit {
    /// What it measures.
    pub const fn sort(self) -> Sort {
        match self {
            Self::Mass(_) => Sort::Mass,
            Self::Volume(_) => Sort::Volume,
            Self::Celsius | Self::Fahrenheit => Sort::Temperature,
            Self::Time(_) => Sort::Time,
            Self::Length(_) => Sort::Length,
            Self::Percent => Sort::Share,
            Self::Power => Sort::Power,
            Self::Times => Sort::Multiple,
            Self::Count(_) => Sort::Count,
        }
    }
}

/// Every spelling that the format knows. Avoirdupois ounce 28.349523125 g, pound 453.59237 g, inch
/// 25.4 mm, all exact (NIST Handbook 44, appendix C, from memory).
pub const SPELLINGS: &[(&str, Unit)] = &[
    ("g", Unit::Mass(1e-3)),
    ("kg", Unit::Mass(1.0)),
    ("mg", Unit::Mass(1e-6)),
    ("oz", Unit::Mass(0.028_349_523_125)),
    ("lb", Unit::Mass(0.453_592_37)),
    ("cup", Unit::Volume(Measure::Cup)),
    ("cups", Unit::Volume(Measure::Cup)),
    ("Tbsp", Unit::Volume(Measure::Tablespoon)),
    ("tsp", Unit::Volume(Measure::Teaspoon)),
    ("fl oz", Unit::Volume(Measure::FluidOunce)),
    ("L", Unit::Volume(Measure::Litre)),
    ("dL", Unit::Volume(Measure::Decilitre)),
    ("cL", Unit::Volume(Measure::Centilitre)),
    ("mL", Unit::Volume(Measure::Millilitre)),
    ("°C", Unit::Celsius),
    ("C", Unit::Celsius),
    ("°F", Unit::Fahrenheit),
    ("F", Unit::Fahrenheit),
    ("s", Unit::Time(1.0)),
    ("min", Unit::Time(60.0)),
    ("h", Unit::Time(3600.0)),
    ("d", Unit::Time(86_400.0)),
    ("mm", Unit::Length(1e-3)),
    ("cm", Unit::Length(1e-2)),
    ("m", Unit::Length(1.0)),
    ("in", Unit::Length(0.0254)),
    ("%", Unit::Percent),
    ("W/kg", Unit::Power),
    ("times", Unit::Times),
    ("time", Unit::Times),
];

/// Sizes and packs by which things are counted: singular, plural.
pub const COUNTED: &[(&str, &str)] = &[
    ("small", "small"),
    ("medium", "medium"),
    ("large", "large"),
    ("extra large", "extra large"),
    ("jumbo", "jumbo"),
    ("peewee", "peewee"),
    ("whole", "whole"),
    ("EU small", "EU small"),
    ("EU medium", "EU medium"),
    ("EU large", "EU large"),
    ("EU extra large", "EU extra large"),
    ("UK small", "UK small"),
    ("UK medium", "UK medium"),
    ("UK large", "UK large"),
    ("UK extra large", "UK extra large"),
    ("US small", "US small"),
    ("US medium", "US medium"),
    ("US large", "US large"),
    ("US extra large", "US extra large"),
    ("packet", "packets"),
    ("package", "packages"),
    ("pack", "packs"),
    ("envelope", "envelopes"),
    ("sachet", "sachets"),
    ("cube", "cubes"),
    ("cake", "cakes"),
    ("stick", "sticks"),
    ("bar", "bars"),
    ("block", "blocks"),
    ("piece", "pieces"),
    ("slice", "slices"),
    ("clove", "cloves"),
    ("pod", "pods"),
    ("bean", "beans"),
    ("sprig", "sprigs"),
    ("can", "cans"),
    ("jar", "jars"),
    ("egg", "eggs"),
    ("yolk", "yolks"),
    ("white", "whites"),
    ("head", "heads"),
    ("date", "dates"),
    ("fig", "figs"),
    ("orange", "oranges"),
    ("lemon", "lemons"),
    ("lime", "limes"),
    ("apple", "apples"),
    ("banana", "bananas"),
    ("leaf", "leaves"),
    ("half", "halves"),
    ("bunch", "bunches"),
];

/// Words that people use for a unit, and the spelling of the format. They are named, not accepted.
const MEANT: &[(&str, &str)] = &[
    ("gr", "g"),
    ("gm", "g"),
    ("gms", "g"),
    ("gram", "g"),
    ("grams", "g"),
    ("gramme", "g"),
    ("grammes", "g"),
    ("kgs", "kg"),
    ("kilo", "kg"),
    ("kilos", "kg"),
    ("kilogram", "kg"),
    ("kilograms", "kg"),
    ("milligram", "mg"),
    ("milligrams", "mg"),
    ("ounce", "oz"),
    ("ounces", "oz"),
    ("lbs", "lb"),
    ("pound", "lb"),
    ("pounds", "lb"),
    ("tb", "Tbsp"),
    ("tbs", "Tbsp"),
    ("tbsps", "Tbsp"),
    ("tablespoon", "Tbsp"),
    ("tablespoons", "Tbsp"),
    ("tsps", "tsp"),
    ("teasp", "tsp"),
    ("teaspoon", "tsp"),
    ("teaspoons", "tsp"),
    ("fl.oz", "fl oz"),
    ("fl. oz", "fl oz"),
    ("fl. oz.", "fl oz"),
    ("floz", "fl oz"),
    ("fluid ounce", "fl oz"),
    ("fluid ounces", "fl oz"),
    ("litre", "L"),
    ("litres", "L"),
    ("liter", "L"),
    ("liters", "L"),
    ("millilitre", "mL"),
    ("millilitres", "mL"),
    ("milliliter", "mL"),
    ("milliliters", "mL"),
    ("cc", "mL"),
    ("°", "°C or °F"),
    ("º", "°C or °F"),
    ("degree", "°C or °F"),
    ("degrees", "°C or °F"),
    ("deg", "°C or °F"),
    ("º c", "°C"),
    ("ºc", "°C"),
    ("° c", "°C"),
    ("℃", "°C"),
    ("celsius", "°C"),
    ("degrees c", "°C"),
    ("degrees celsius", "°C"),
    ("ºf", "°F"),
    ("° f", "°F"),
    ("℉", "°F"),
    ("fahrenheit", "°F"),
    ("degrees f", "°F"),
    ("degrees fahrenheit", "°F"),
    ("sec", "s"),
    ("secs", "s"),
    ("second", "s"),
    ("seconds", "s"),
    ("mins", "min"),
    ("minute", "min"),
    ("minutes", "min"),
    ("hr", "h"),
    ("hrs", "h"),
    ("hour", "h"),
    ("hours", "h"),
    ("day", "d"),
    ("days", "d"),
    ("millimetre", "mm"),
    ("millimetres", "mm"),
    ("centimetre", "cm"),
    ("centimetres", "cm"),
    ("centimeter", "cm"),
    ("centimeters", "cm"),
    ("metre", "m"),
    ("metres", "m"),
    ("meter", "m"),
    ("meters", "m"),
    ("inch", "in"),
    ("inches", "in"),
    ("\"", "in"),
    ("″", "in"),
    ("pkt", "packet"),
    ("pkts", "packet"),
    ("pkg", "packet"),
    ("pkgs", "packet"),
    ("pct", "%"),
    ("percent", "%"),
    ("per cent", "%"),
    ("x", "times"),
    ("×", "times"),
    ("spoon", "Tbsp or tsp"),
    ("spoons", "Tbsp or tsp"),
    ("t", "Tbsp or tsp"),
    ("c", "cup or °C"),
];

/// The unit of that spelling, in capitals or not where that leaves no doubt: `ml` is mL and `tbsp`
/// is Tbsp, but `c` may be a cup, and `T` or `t` either spoon.
pub fn unit(word: &str) -> Option<Unit> {
    SPELLINGS
        .iter()
        .find(|(spelling, _)| *spelling == word)
        .or_else(|| {
            let same = |spelling: &str| spelling.to_lowercase() == word.to_lowercase();
            let certain = !matches!(word, "c" | "f");
            SPELLINGS
                .iter()
                .find(|(spelling, _)| certain && same(spelling))
        })
        .map(|(_, unit)| *unit)
        .or_else(|| counted(word).map(Unit::Count))
}

/// The size or pack of that spelling, in the singular.
pub fn counted(word: &str) -> Option<&'static str> {
    COUNTED
        .iter()
        .find(|(one, many)| *one == word || *many == word)
        .map(|(one, _)| *one)
}

/// What was probably meant by a word that is no unit, of the sorts that are wanted: the nearest
/// spelling, or several joined by "or" where it could be each of them. Below five letters only one
/// letter may differ, else a word that has nothing to do with it is near.
pub fn meant(word: &str, sorts: &[Sort]) -> Option<String> {
    let lower = word.trim_end_matches('.').to_lowercase();
    let letters = lower.chars().count();
    if letters == 0 || letters > 30 {
        return None;
    }
    let wanted = |spelling: &str| unit(spelling).is_some_and(|unit| sorts.contains(&unit.sort()));
    let known = SPELLINGS
        .iter()
        .map(|(s, _)| (*s, *s))
        .chain(
            COUNTED
                .iter()
                .flat_map(|(one, many)| [(*one, *one), (*many, *one)]),
        )
        .chain(MEANT.iter().copied());
    let allowed = if letters < 5 { 1 } else { (letters + 1) / 3 };
    let mut nearest = allowed;
    let mut found: Vec<&str> = Vec::new();
    for (spelling, meanings) in known {
        let spelling = spelling.to_lowercase();
        // One letter changed in a word of one letter is another word.
        let distance = strsim::osa_distance(&lower, &spelling);
        if distance > nearest || (distance > 0 && distance >= letters) {
            continue;
        }
        for meaning in meanings.split(" or ").filter(|meaning| wanted(meaning)) {
            if distance < nearest {
                nearest = distance;
                found.clear();
            }
            if !found.contains(&meaning) {
                found.push(meaning);
            }
        }
    }
    match found.len() {
        0 | 4.. => None,
        _ => Some(listed(&found, "or")),
    }
}

#[cfg(test)]
mod tests {
    use super::{Sort, meant};

    const AMOUNT: [Sort; 3] = [Sort::Mass, Sort::Volume, Sort::Count];

    #[test]
    fn a_guess_is_of_the_sort_that_is_wanted() {
        let amount = |word| meant(word, &AMOUNT);
        assert_eq!(amount("pkt").as_deref(), Some("packet"));
        assert_eq!(amount("pkg").as_deref(), Some("packet"));
        assert_eq!(amount("tb").as_deref(), Some("Tbsp"));
        assert_eq!(amount("teasp").as_deref(), Some("tsp"));
        assert_eq!(amount("gramm").as_deref(), Some("g"));
        assert_eq!(amount("dag"), None);
        assert_eq!(amount("degrees"), None);
        assert_eq!(amount("t").as_deref(), Some("Tbsp or tsp"));
        assert_eq!(amount("c").as_deref(), Some("cup"));
        assert_eq!(meant("mni", &[Sort::Time]).as_deref(), Some("min"));
        assert_eq!(
            meant("deg", &[Sort::Temperature]).as_deref(),
            Some("°C or °F")
        );
    }

    #[test]
    fn what_could_be_several_is_asked() {
        assert_eq!(meant("qg", &[Sort::Mass]).as_deref(), Some("g, kg or mg"));
    }
}
