//! Reads quantities as people write them: the one reader of the whole tool. It never guesses.

pub mod number;
mod phrase;
mod shape;
pub mod units;

use crate::document::model::{Amount, Spooned};
use crate::source::{Code, Span, code};
use numerics::quantity::{
    Duration, Fraction, Length, Mass, Range, SpecificPower, Temperature, TemperatureDifference,
    Volume,
};
use phrase::{Term, terms};
pub use shape::{read_height, read_multiple, read_piece, read_tin_size};
use units::{Sort, Unit};

/// Why a text could not be read as what was wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unread {
    /// The name of the trouble.
    pub code: Code,
    /// The bytes of the text that are meant.
    pub span: Span,
    /// What is wrong, as a cook would say it.
    pub message: String,
    /// The way out.
    pub hint: Option<String>,
}

impl Unread {
    /// A trouble at a place.
    pub fn new(code: Code, span: Span, message: impl Into<String>) -> Self {
        Self {
            code,
            span,
            message: message.into(),
            hint: None,
        }
    }

    /// Adds the way out.
    #[must_use]
    pub fn hint(mut self, text: impl Into<String>) -> Self {
        self.hint = Some(text.into());
        self
    }
}

/// Any quantity, for texts in which its kind is not known beforehand. A single value is a range
/// whose ends are one.
#[derive(Clone, Debug, PartialEq)]
pub enum Quantity {
    /// A mass.
    Mass(Range<Mass>),
    /// Kitchen measures, added together.
    Measures(Vec<Spooned>),
    /// A temperature.
    Temperature(Range<Temperature>),
    /// A time.
    Time(Range<Duration>),
    /// A length.
    Length(Range<Length>),
    /// A share.
    Share(Range<Fraction>),
    /// So many times as much.
    Multiple(f64),
    /// A number of things.
    Count {
        /// How many.
        count: f64,
        /// What size or pack, in the singular.
        size: Option<String>,
    },
}

/// What is wanted of a text, and how to say so.
struct Wanted {
    /// The sorts of unit that fit.
    sorts: &'static [Sort],
    /// "an ingredient is taken by mass, measure or count".
    says: &'static str,
    /// A right one.
    example: &'static str,
    /// Whether nothing, or less than nothing, is refused.
    positive: bool,
}

const MASS: Wanted = Wanted {
    sorts: &[Sort::Mass],
    says: "a mass is wanted",
    example: "180 g",
    positive: true,
};
const AMOUNT: Wanted = Wanted {
    sorts: &[Sort::Mass, Sort::Volume, Sort::Count],
    says: "an ingredient is taken by mass, measure or count",
    example: "180 g",
    positive: true,
};
const TEMPERATURE: Wanted = Wanted {
    sorts: &[Sort::Temperature],
    says: "a temperature is wanted",
    example: "26 °C",
    positive: false,
};
const TIME: Wanted = Wanted {
    sorts: &[Sort::Time],
    says: "a time is wanted",
    example: "55 min",
    positive: true,
};
const LENGTH: Wanted = Wanted {
    sorts: &[Sort::Length],
    says: "a length is wanted",
    example: "3 cm",
    positive: true,
};
const ALTITUDE: Wanted = Wanted {
    positive: false,
    example: "40 m",
    ..LENGTH
};
const SHARE: Wanted = Wanted {
    sorts: &[Sort::Share],
    says: "a share is wanted",
    example: "11 %",
    positive: false,
};
const VOLUME: Wanted = Wanted {
    sorts: &[Sort::Volume],
    says: "a volume is wanted",
    example: "1420 mL",
    positive: true,
};
const POWER: Wanted = Wanted {
    sorts: &[Sort::Power],
    says: "work for each kilogram is wanted",
    example: "25 W/kg",
    positive: true,
};

/// Reads a mass: "180 g".
pub fn read_mass(text: &str) -> Result<Mass, Unread> {
    single(text, &MASS).map(Mass::from_si)
}

/// Reads a temperature: "26 °C".
pub fn read_temperature(text: &str) -> Result<Temperature, Unread> {
    let term = one(text, &TEMPERATURE)?;
    temperature(text, &term, term.low)
}

/// Reads a time: "55 min", "1 h 20 min".
pub fn read_time(text: &str) -> Result<Duration, Unread> {
    single(text, &TIME).map(Duration::from_si)
}

/// Reads a range of times: "45-75 min".
pub fn read_time_range(text: &str) -> Result<Range<Duration>, Unread> {
    let terms = fitting(text, &TIME)?;
    match &terms[..] {
        [
            Term {
                low,
                high: Some(high),
                unit: Some(unit),
                ..
            },
        ] => {
            let size = size_si(*unit);
            Ok(Range {
                low: Duration::from_si(low * size),
                high: Duration::from_si(high * size),
            })
        }
        _ => Err(Unread::new(
            code::VALUE_WRONG_KIND,
            Span::new(0, text.len()),
            format!("“{}” is one time; a range is wanted.", text.trim()),
        )
        .hint("Write both ends and the unit once: \"45-75 min\".")),
    }
}

/// Reads a range of temperatures: "25-26 °C"; a single one is a range whose ends are one.
pub fn read_temperature_range(text: &str) -> Result<Range<Temperature>, Unread> {
    let terms = fitting(text, &TEMPERATURE)?;
    let term = lone(text, &terms)?;
    Ok(Range {
        low: temperature(text, term, term.low)?,
        high: temperature(text, term, term.high.unwrap_or(term.low))?,
    })
}

/// Reads a length above nothing: "3 cm".
pub fn read_length(text: &str) -> Result<Length, Unread> {
    single(text, &LENGTH).map(Length::from_si)
}

/// Reads a height over the sea, which may be below it: "1609 m".
pub fn read_altitude(text: &str) -> Result<Length, Unread> {
    single(text, &ALTITUDE).map(Length::from_si)
}

/// Reads a share: "11 %".
pub fn read_share(text: &str) -> Result<Fraction, Unread> {
    let value = single(text, &SHARE)?;
    if value < 0.0 {
        return Err(not_positive(text, "less than nothing"));
    }
    Ok(Fraction::from_si(value))
}

/// Reads a volume: "1420 mL", "6 cups".
pub fn read_volume(text: &str) -> Result<Volume, Unread> {
    single(text, &VOLUME).map(Volume::from_si)
}

/// Reads a difference of temperature: "5 °C", "9 °F".
pub fn read_temperature_difference(text: &str) -> Result<TemperatureDifference, Unread> {
    let term = one(
        text,
        &Wanted {
            says: "a difference of temperature is wanted",
            ..TEMPERATURE
        },
    )?;
    if term.low < 0.0 {
        return Err(not_positive(text, "less than nothing"));
    }
    let kelvin = if term.unit == Some(Unit::Fahrenheit) {
        term.low / 1.8
    } else {
        term.low
    };
    Ok(TemperatureDifference::from_si(kelvin))
}

/// Reads the work of a mixer: "25 W/kg".
pub fn read_power(text: &str) -> Result<SpecificPower, Unread> {
    single(text, &POWER).map(SpecificPower::from_si)
}

/// Reads an amount of an ingredient: "180 g", "1¾ cups + 3 Tbsp", "3 large".
pub fn read_amount(text: &str) -> Result<Amount, Unread> {
    let terms = fitting(text, &AMOUNT)?;
    if let Some(range) = terms.iter().find(|t| t.high.is_some()) {
        return Err(one_value_wanted(text, range));
    }
    Ok(match (terms[0].unit, terms[0].low) {
        (Some(Unit::Mass(size)), number) => Amount::Mass(Mass::from_si(number * size)),
        (Some(Unit::Volume(_)), _) => Amount::Measures(spooned(&terms)),
        (Some(Unit::Count(size)), count) => Amount::Count {
            count,
            size: Some(size.to_owned()),
        },
        (_, count) => Amount::Count { count, size: None },
    })
}

/// Reads whatever quantity is written.
pub fn read_quantity(text: &str) -> Result<Quantity, Unread> {
    let any = Wanted {
        sorts: &[
            Sort::Mass,
            Sort::Volume,
            Sort::Temperature,
            Sort::Time,
            Sort::Length,
            Sort::Share,
            Sort::Multiple,
            Sort::Count,
        ],
        says: "a quantity is wanted",
        example: "180 g",
        positive: false,
    };
    let terms = fitting(text, &any)?;
    let first = &terms[0];
    let (low, high) = (first.low, first.high.unwrap_or(first.low));
    Ok(match first.unit {
        Some(Unit::Mass(size)) => Quantity::Mass(Range {
            low: Mass::from_si(low * size),
            high: Mass::from_si(high * size),
        }),
        Some(Unit::Volume(_)) => {
            if first.high.is_some() {
                return Err(one_value_wanted(text, first));
            }
            Quantity::Measures(spooned(&terms))
        }
        Some(Unit::Celsius | Unit::Fahrenheit) => Quantity::Temperature(Range {
            low: temperature(text, first, low)?,
            high: temperature(text, first, high)?,
        }),
        Some(Unit::Time(size)) => {
            let more: f64 = sum_si(&terms[1..]);
            Quantity::Time(Range {
                low: Duration::from_si(low * size + more),
                high: Duration::from_si(high * size + more),
            })
        }
        Some(Unit::Length(size)) => Quantity::Length(Range {
            low: Length::from_si(low * size),
            high: Length::from_si(high * size),
        }),
        Some(Unit::Percent) => Quantity::Share(Range {
            low: Fraction::from_percent(low),
            high: Fraction::from_percent(high),
        }),
        Some(Unit::Times) => Quantity::Multiple(low),
        Some(Unit::Count(size)) => Quantity::Count {
            count: low,
            size: Some(size.to_owned()),
        },
        Some(Unit::Power) | None => Quantity::Count {
            count: low,
            size: None,
        },
    })
}

/// The measures of a sum.
fn spooned(terms: &[Term]) -> Vec<Spooned> {
    terms
        .iter()
        .filter_map(|term| match term.unit {
            Some(Unit::Volume(measure)) => Some(Spooned {
                count: term.low,
                measure,
            }),
            _ => None,
        })
        .collect()
}

/// What one of a unit is in SI; degrees have none and count as themselves.
const fn size_si(unit: Unit) -> f64 {
    match unit {
        Unit::Mass(size) | Unit::Time(size) | Unit::Length(size) => size,
        Unit::Volume(measure) => measure.volume().si(),
        Unit::Percent => 0.01,
        Unit::Celsius | Unit::Fahrenheit | Unit::Power | Unit::Times | Unit::Count(_) => 1.0,
    }
}

/// Above this, in SI, a value of that sort is no value of a kitchen; degrees count as themselves.
const fn most(sort: Sort) -> f64 {
    match sort {
        Sort::Mass | Sort::Temperature => 1e4,
        Sort::Volume | Sort::Share => 10.0,
        Sort::Time => 366.0 * 86_400.0,
        Sort::Length | Sort::Power => 1e5,
        Sort::Multiple => 1e3,
        Sort::Count => 1e6,
    }
}

/// The sum of terms in SI.
fn sum_si(terms: &[Term]) -> f64 {
    terms
        .iter()
        .map(|t| t.low * t.unit.map_or(1.0, size_si))
        .sum()
}

/// A temperature above the absolute zero.
fn temperature(text: &str, term: &Term, degrees: f64) -> Result<Temperature, Unread> {
    let value = match term.unit {
        Some(Unit::Fahrenheit) => Temperature::from_fahrenheit(degrees),
        _ => Temperature::from_celsius(degrees),
    };
    if value.si() < 0.0 {
        return Err(Unread::new(
            code::VALUE_OUT_OF_REASON,
            term.span,
            format!("“{}” is colder than anything can be.", text.trim()),
        ));
    }
    Ok(value)
}

/// One value, sums added, in SI.
fn single(text: &str, wanted: &Wanted) -> Result<f64, Unread> {
    let terms = fitting(text, wanted)?;
    match terms.iter().find(|t| t.high.is_some()) {
        Some(range) => Err(one_value_wanted(text, range)),
        None => Ok(sum_si(&terms)),
    }
}

/// One term without range.
fn one(text: &str, wanted: &Wanted) -> Result<Term, Unread> {
    let terms = fitting(text, wanted)?;
    let term = lone(text, &terms)?;
    if term.high.is_some() {
        return Err(one_value_wanted(text, term));
    }
    Ok(term.clone())
}

/// The only term.
fn lone<'a>(text: &str, terms: &'a [Term]) -> Result<&'a Term, Unread> {
    match terms {
        [term] => Ok(term),
        _ => Err(not_a_sum(text, terms)),
    }
}

/// Reads terms and checks that their units fit, that sums are sums, and that something is there.
fn fitting(text: &str, wanted: &Wanted) -> Result<Vec<Term>, Unread> {
    let terms = terms(text)?;
    for term in &terms {
        let written = &text[term.span.start..term.span.end];
        let Some(unit) = term.unit else {
            if wanted.sorts.contains(&Sort::Count) && terms.len() == 1 {
                continue;
            }
            return Err(Unread::new(
                code::NUMBER_WITHOUT_UNIT,
                term.span,
                format!("“{written}” stands without its unit; {}.", wanted.says),
            )
            .hint(format!(
                "Write number and unit, as in \"{}\".",
                wanted.example
            )));
        };
        let sort = unit.sort();
        if !wanted.sorts.contains(&sort) {
            return Err(Unread::new(
                code::UNIT_DOES_NOT_FIT,
                term.span,
                format!("“{written}” is {}; {}.", sort.words(), wanted.says),
            )
            .hint(format!("Write it as in \"{}\".", wanted.example)));
        }
    }
    for term in &terms {
        let size = term.unit.map_or(1.0, size_si);
        let far = term.low.abs().max(term.high.unwrap_or(0.0).abs()) * size;
        if far > most(term.unit.map_or(Sort::Count, Unit::sort)) {
            return Err(Unread::new(
                code::VALUE_OUT_OF_REASON,
                term.span,
                "The value is far above anything of a kitchen.",
            )
            .hint("Look for a lost decimal mark, or another unit that was meant."));
        }
    }
    if terms.len() > 1 {
        sums(text, &terms)?;
    }
    if wanted.positive {
        if terms
            .iter()
            .any(|t| t.low < 0.0 || t.high.is_some_and(|h| h < 0.0))
        {
            return Err(not_positive(text, "less than nothing"));
        }
        if terms.iter().any(|t| t.low == 0.0) {
            return Err(not_positive(text, "nothing"));
        }
    }
    Ok(terms)
}

/// Times stand beside each other, the longer unit first; measures are joined by a plus.
fn sums(text: &str, terms: &[Term]) -> Result<(), Unread> {
    let sizes: Vec<f64> = terms.iter().map(|t| t.unit.map_or(0.0, size_si)).collect();
    let all = |sort: Sort| {
        terms
            .iter()
            .all(|t| t.unit.is_some_and(|u| u.sort() == sort))
    };
    let falling = sizes.windows(2).all(|pair| pair[0] > pair[1]);
    let plain = terms.iter().all(|t| t.high.is_none());
    let joined = terms[1..].iter().all(|t| t.added);
    if plain && ((all(Sort::Time) && falling) || (all(Sort::Volume) && joined)) {
        Ok(())
    } else if joined
        && let [first, others @ ..] = terms
        && let Some(other) = others
            .iter()
            .find(|t| t.unit.map(Unit::sort) != first.unit.map(Unit::sort))
    {
        Err(Unread::new(
            code::UNIT_DOES_NOT_FIT,
            other.span,
            format!(
                "“{}” is {}, what stands before it is {}; only what is alike can be added.",
                &text[other.span.start..other.span.end],
                other.unit.map_or("a count", |u| u.sort().words()),
                first.unit.map_or("a count", |u| u.sort().words()),
            ),
        )
        .hint("Write the amount in one sort of unit, or make two items of it."))
    } else {
        Err(not_a_sum(text, terms))
    }
}

/// Several terms where one is wanted.
fn not_a_sum(text: &str, terms: &[Term]) -> Unread {
    let end = terms.last().map_or(text.len(), |t| t.span.end);
    Unread::new(
        code::NUMBER_UNREADABLE,
        Span::new(terms.first().map_or(0, |t| t.span.start), end),
        format!("“{}” cannot be read as one quantity.", text.trim()),
    )
    .hint("Only times (\"1 h 20 min\") and kitchen measures (\"1 cup + 3 Tbsp\") are written as sums.")
}

/// A range where one value is wanted.
fn one_value_wanted(text: &str, term: &Term) -> Unread {
    Unread::new(
        code::VALUE_WRONG_KIND,
        term.span,
        format!(
            "“{}” is a range; one value is wanted.",
            text[term.span.start..term.span.end].trim()
        ),
    )
    .hint("Write the usual value here; a range of times goes into `range`.")
}

/// Nothing, or less, where something is wanted.
fn not_positive(text: &str, which: &str) -> Unread {
    Unread::new(
        code::AMOUNT_NOT_POSITIVE,
        Span::new(0, text.len()),
        format!("“{}” is {which}; something is wanted.", text.trim()),
    )
}
