//! Reads quantities as people write them: the one reader of the whole tool. It never guesses.

mod money;
pub mod number;
mod phrase;
pub mod prose;
pub mod sentence;
mod shape;
pub mod units;
mod wanted;

use crate::document::model::{Amount, Spooned};
use crate::source::{Code, Span, code};
pub use money::read_money;
use numerics::quantity::{
    Duration, Fraction, Length, Mass, Range, SpecificPower, Temperature, TemperatureDifference,
    Volume,
};
use phrase::{Term, terms};
pub use shape::{read_height, read_multiple, read_piece, read_tin_size};
use units::{Sort, Unit};
use wanted::{
    ALTITUDE, AMOUNT, LENGTH, MASS, POWER, SHARE, SPAN, TEMPERATURE, TIME, VOLUME, Wanted, fitting,
    lone, not_positive, one, one_value_wanted, single, size_si, spooned, sum_si, temperature,
};

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

/// Reads a stretch of time that may be none at all: "0 min".
pub fn read_span(text: &str) -> Result<Duration, Unread> {
    single(text, &SPAN).map(Duration::from_si)
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

#[cfg(test)]
mod tests {
    use super::{Quantity, read_quantity};
    use numerics::quantity::{Duration, Mass, Range, Temperature};

    #[test]
    fn a_quantity_says_itself_what_it_is() {
        let grams = Mass::from_grams(180.0);
        let mass = Quantity::Mass(Range {
            low: grams,
            high: grams,
        });
        assert_eq!(read_quantity("180 g"), Ok(mass));
        let time = Quantity::Time(Range {
            low: Duration::from_minutes(45.0),
            high: Duration::from_minutes(75.0),
        });
        assert_eq!(read_quantity("45–75 min"), Ok(time));
        let long = Duration::from_minutes(80.0);
        assert_eq!(
            read_quantity("1 h 20 min"),
            Ok(Quantity::Time(Range {
                low: long,
                high: long
            }))
        );
        let warm = Temperature::from_celsius(26.0);
        let heat = Quantity::Temperature(Range {
            low: warm,
            high: warm,
        });
        assert_eq!(read_quantity("26 °C"), Ok(heat));
        let eggs = Quantity::Count {
            count: 3.0,
            size: Some("large".to_owned()),
        };
        assert_eq!(read_quantity("3 large"), Ok(eggs));
        assert_eq!(read_quantity("2 times"), Ok(Quantity::Multiple(2.0)));
        assert!(read_quantity("a pinch").is_err());
    }
}
