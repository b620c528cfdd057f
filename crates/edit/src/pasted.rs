//! What was read from a pasted line, said as every face says it.

use crate::ledger::say::mass;
use recipe::document::model::Place;
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

/// The ingredient with its state and place: "unsalted butter, softened, for the tin".
pub fn named(reading: &Reading) -> String {
    let mut words = reading.words.clone();
    let place = reading.place.map(|place| match place {
        Place::Bench => "for the bench",
        Place::Tin => "for the tin",
        Place::Top => "for the top",
    });
    let more = [reading.state.as_deref(), reading.note.as_deref(), place];
    for more in more.into_iter().flatten() {
        words += ", ";
        words += more;
    }
    words
}

#[cfg(test)]
mod tests {
    use super::{grams, named};
    use numerics::quantity::{Mass, Range};
    use recipe::document::model::Place;
    use recipe::import::Reading;

    fn reading(low_g: f64, high_g: f64) -> Reading {
        Reading {
            amount: None,
            also: None,
            words: "butter".to_owned(),
            key: None,
            place: Some(Place::Tin),
            state: Some("softened".to_owned()),
            note: None,
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

    #[test]
    fn a_thing_is_named_with_its_state_and_place() {
        assert_eq!(named(&reading(1.0, 1.0)), "butter, softened, for the tin");
    }
}
