//! What a pasted line weighs, said as every face says it.

use crate::ledger::say::mass;
use recipe::import::Reading;

/// What a line puts in: "210 g", "120–150 g" as far as published measures lie apart, or none
/// when its weight cannot be known.
pub fn grams(reading: &Reading) -> Option<String> {
    let range = reading.mass?;
    let (low, high) = (mass(range.low), mass(range.high));
    if low == high {
        return Some(low);
    }
    let (number, unit) = low.split_once(crate::ledger::say::NBSP)?;
    Some(match high.split_once(crate::ledger::say::NBSP) {
        Some((_, other)) if other == unit => format!("{number}–{high}"),
        _ => format!("{low}–{high}"),
    })
}

#[cfg(test)]
mod tests {
    use super::grams;
    use numerics::quantity::{Mass, Range};
    use recipe::import::{Mark, Reading};

    fn reading(low_g: f64, high_g: f64) -> Reading {
        Reading {
            mark: Mark::Understood,
            reason: None,
            amount: None,
            also: None,
            words: "butter".to_owned(),
            key: None,
            place: None,
            state: None,
            note: None,
            said: None,
            mass: Some(Range {
                low: Mass::from_grams(low_g),
                high: Mass::from_grams(high_g),
            }),
        }
    }

    #[test]
    fn one_weight_or_a_range_with_one_unit() {
        assert_eq!(grams(&reading(210.0, 210.0)).as_deref(), Some("210\u{a0}g"));
        assert_eq!(
            grams(&reading(120.0, 150.0)).as_deref(),
            Some("120–150\u{a0}g")
        );
        let none = Reading {
            mass: None,
            ..reading(1.0, 1.0)
        };
        assert_eq!(grams(&none), None);
    }
}
