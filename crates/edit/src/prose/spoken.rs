//! Figures that an author writes as they are said: "an hour and twenty", "to three-fifty".

use numerics::quantity::{Range, Temperature};
use recipe::measure::Quantity;
use recipe::measure::read::sentence::Said;
use recipe::measure::spoken::{Meant, Spoken, spoken};

/// Numbers of an oven's dial. From the second on they are Fahrenheit: no dial in Celsius goes so high (common practice).
const DIAL: std::ops::RangeInclusive<f64> = 100.0..=550.0;
const FAHRENHEIT_FROM: f64 = 275.0;

/// What was read of a passage, with what is said in words beside it: the longer of two readings is what is meant.
pub(super) fn with_spoken(
    words: &str,
    oven: bool,
    mut found: Vec<Said<Quantity>>,
) -> Vec<Said<Quantity>> {
    for said in spoken(words).iter().filter(|said| said.in_words) {
        let value = match &said.meant {
            Meant::Time(range) => Quantity::Time(*range),
            Meant::Mass(range) => Quantity::Mass(*range),
            Meant::Number(low, high) if oven && read_off(words, said) => {
                let at = |degrees: f64| {
                    if *low >= FAHRENHEIT_FROM {
                        Temperature::from_fahrenheit(degrees)
                    } else {
                        Temperature::from_celsius(degrees)
                    }
                };
                Quantity::Temperature(Range {
                    low: at(*low),
                    high: at(*high),
                })
            }
            _ => continue,
        };
        let dial = matches!(value, Quantity::Temperature(_));
        let inside = |own: &Said<Quantity>| {
            own.span.start >= said.span.start && own.span.end <= said.span.end
        };
        let overlaps =
            |own: &Said<Quantity>| own.span.start < said.span.end && said.span.start < own.span.end;
        let parts = found.iter().filter(|own| overlaps(own)).count();
        let whole = found.iter().filter(|own| inside(own)).count();
        let longer = found
            .iter()
            .filter(|own| inside(own))
            .any(|own| own.span.end - own.span.start < said.span.end - said.span.start);
        let replaces = parts == whole && (longer && is_alike(&found, said, &value) || dial);
        if replaces {
            found.retain(|own| !inside(own));
            found.push(Said {
                span: said.span,
                value,
            });
        }
    }
    found.sort_by_key(|said| said.span.start);
    found
}

/// Whether what was read there is of the same kind.
fn is_alike(found: &[Said<Quantity>], said: &Spoken, value: &Quantity) -> bool {
    found
        .iter()
        .filter(|own| own.span.start < said.span.end && said.span.start < own.span.end)
        .all(|own| {
            std::mem::discriminant(&own.value) == std::mem::discriminant(value)
                || matches!(own.value, Quantity::Count { .. })
        })
}

/// Whether a number is read off a dial: "to three-fifty", "at one eighty".
fn read_off(words: &str, said: &Spoken) -> bool {
    let before = words[..said.span.start].trim_end();
    let last = before.rsplit(|c: char| !c.is_alphabetic()).next();
    DIAL.contains(&said.low) && matches!(last, Some("to" | "at"))
}

#[cfg(test)]
mod tests {
    use super::with_spoken;
    use recipe::measure::Quantity;
    use recipe::measure::read::sentence::quantities;

    fn read(words: &str, oven: bool) -> Vec<(String, f64)> {
        with_spoken(words, oven, quantities(words))
            .into_iter()
            .map(|said| {
                let value = match &said.value {
                    Quantity::Time(time) => time.low.si() / 60.0,
                    Quantity::Mass(mass) => mass.low.si() * 1000.0,
                    Quantity::Temperature(at) => at.low.celsius().round(),
                    _ => f64::NAN,
                };
                (words[said.span.start..said.span.end].to_owned(), value)
            })
            .collect()
    }

    #[test]
    fn figures_in_words_are_read_to_their_end() {
        assert_eq!(
            read("Let it rise for an hour and twenty.", false),
            [("an hour and twenty".to_owned(), 80.0)]
        );
        assert_eq!(
            read("Leave it two and a quarter hours.", false),
            [("two and a quarter hours".to_owned(), 135.0)]
        );
        assert_eq!(
            read("Heat the oven to three-fifty.", true),
            [("three-fifty".to_owned(), 177.0)]
        );
        assert_eq!(
            read("Bake at one eighty.", true),
            [("one eighty".to_owned(), 180.0)]
        );
    }

    #[test]
    fn what_is_no_heat_and_what_is_in_figures_stays_as_it_was() {
        let cut = "Cut it to three-fifty.";
        assert_eq!(with_spoken(cut, false, quantities(cut)), quantities(cut));
        for words in [
            "Rest 20 minutes, then 1 h 20 min more.",
            "Divide into two pieces of 250 g and bake for half an hour.",
        ] {
            let plain = quantities(words);
            assert_eq!(with_spoken(words, true, plain.clone()), plain, "{words}");
        }
    }
}
