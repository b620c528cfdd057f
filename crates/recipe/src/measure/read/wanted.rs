//! What a text has to be: which units fit, whether sums and nothing are allowed, how much at most.

use super::Unread;
use super::phrase::{Term, terms};
use super::units::{Sort, Unit};
use crate::document::model::Spooned;
use crate::source::{Span, code};
use numerics::quantity::Temperature;

/// What is wanted of a text, and how to say so.
pub struct Wanted {
    /// The sorts of unit that fit.
    pub sorts: &'static [Sort],
    /// "an ingredient is taken by mass, measure or count".
    pub says: &'static str,
    /// A right one.
    pub example: &'static str,
    /// Whether nothing, or less than nothing, is refused.
    pub positive: bool,
}

/// A mass above nothing.
pub const MASS: Wanted = Wanted {
    sorts: &[Sort::Mass],
    says: "a mass is wanted",
    example: "180 g",
    positive: true,
};
/// An amount of an ingredient.
pub const AMOUNT: Wanted = Wanted {
    sorts: &[Sort::Mass, Sort::Volume, Sort::Count],
    says: "an ingredient is taken by mass, measure or count",
    example: "180 g",
    positive: true,
};
/// A temperature.
pub const TEMPERATURE: Wanted = Wanted {
    sorts: &[Sort::Temperature],
    says: "a temperature is wanted",
    example: "26 °C",
    positive: false,
};
/// A time above nothing.
pub const TIME: Wanted = Wanted {
    sorts: &[Sort::Time],
    says: "a time is wanted",
    example: "55 min",
    positive: true,
};
/// A stretch of time; none at all is one too.
pub const SPAN: Wanted = Wanted {
    positive: false,
    ..TIME
};
/// A length above nothing.
pub const LENGTH: Wanted = Wanted {
    sorts: &[Sort::Length],
    says: "a length is wanted",
    example: "3 cm",
    positive: true,
};
/// A height over the sea.
pub const ALTITUDE: Wanted = Wanted {
    positive: false,
    example: "40 m",
    ..LENGTH
};
/// A share.
pub const SHARE: Wanted = Wanted {
    sorts: &[Sort::Share],
    says: "a share is wanted",
    example: "11 %",
    positive: false,
};
/// A volume above nothing.
pub const VOLUME: Wanted = Wanted {
    sorts: &[Sort::Volume],
    says: "a volume is wanted",
    example: "1420 mL",
    positive: true,
};
/// Work for each kilogram.
pub const POWER: Wanted = Wanted {
    sorts: &[Sort::Power],
    says: "work for each kilogram is wanted",
    example: "25 W/kg",
    positive: true,
};

/// The measures of a sum.
pub fn spooned(terms: &[Term]) -> Vec<Spooned> {
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
pub const fn size_si(unit: Unit) -> f64 {
    match unit {
        Unit::Mass(size) | Unit::Time(size) | Unit::Length(size) => size,
        Unit::Volume(measure) => measure.volume().si(),
        Unit::Percent => 0.01,
        Unit::Celsius | Unit::Fahrenheit | Unit::Power | Unit::Times | Unit::Count(_) => 1.0,
    }
}

/// Above this, in SI, a value of that sort is no value of a kitchen; degrees count as themselves.
pub const fn most(sort: Sort) -> f64 {
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
pub fn sum_si(terms: &[Term]) -> f64 {
    terms
        .iter()
        .map(|t| t.low * t.unit.map_or(1.0, size_si))
        .sum()
}

/// A temperature above the absolute zero.
pub fn temperature(text: &str, term: &Term, degrees: f64) -> Result<Temperature, Unread> {
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
pub fn single(text: &str, wanted: &Wanted) -> Result<f64, Unread> {
    let terms = fitting(text, wanted)?;
    match terms.iter().find(|t| t.high.is_some()) {
        Some(range) => Err(one_value_wanted(text, range)),
        None => Ok(sum_si(&terms)),
    }
}

/// One term without range.
pub fn one(text: &str, wanted: &Wanted) -> Result<Term, Unread> {
    let terms = fitting(text, wanted)?;
    let term = lone(text, &terms)?;
    if term.high.is_some() {
        return Err(one_value_wanted(text, term));
    }
    Ok(term.clone())
}

/// The only term.
pub fn lone<'a>(text: &str, terms: &'a [Term]) -> Result<&'a Term, Unread> {
    match terms {
        [term] => Ok(term),
        _ => Err(not_a_sum(text, terms)),
    }
}

/// Reads terms and checks that their units fit, that sums are sums, and that something is there.
pub fn fitting(text: &str, wanted: &Wanted) -> Result<Vec<Term>, Unread> {
    let terms = terms(text, wanted.sorts)?;
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
pub fn sums(text: &str, terms: &[Term]) -> Result<(), Unread> {
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
pub fn not_a_sum(text: &str, terms: &[Term]) -> Unread {
    let end = terms.last().map_or(text.len(), |t| t.span.end);
    Unread::new(
        code::NUMBER_UNREADABLE,
        Span::new(terms.first().map_or(0, |t| t.span.start), end),
        format!("“{}” cannot be read as one quantity.", text.trim()),
    )
    .hint("Only times (\"1 h 20 min\") and kitchen measures (\"1 cup + 3 Tbsp\") are written as sums.")
}

/// A range where one value is wanted.
pub fn one_value_wanted(text: &str, term: &Term) -> Unread {
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
pub fn not_positive(text: &str, which: &str) -> Unread {
    Unread::new(
        code::AMOUNT_NOT_POSITIVE,
        Span::new(0, text.len()),
        format!("“{}” is {which}; something is wanted.", text.trim()),
    )
    .hint("Write more than nothing, or take the line out.")
}
