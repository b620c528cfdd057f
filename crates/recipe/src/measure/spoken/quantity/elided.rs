//! Units that a speaker leaves out because they were just said: "sixty grams of sugar and three of cardamom".

use super::super::{Meant, Spoken, SpokenUnit};
use numerics::quantity::{Duration, Length, Mass, Range, Temperature, Volume};

/// What goes on in the same unit stands within so many bytes.
const GAP_BYTES: usize = 64;

/// A number in the unit of what was said before it; none for units that are not carried on.
pub(super) fn in_unit_of(before: &Spoken, own: &Spoken) -> Option<Spoken> {
    let Meant::Number(low, high) = own.meant else {
        return None;
    };
    let meant = match before.unit {
        SpokenUnit::Mass(size) => Meant::Mass(Range {
            low: Mass::from_si(low * size),
            high: Mass::from_si(high * size),
        }),
        SpokenUnit::Volume(size) => Meant::Volume(Range {
            low: Volume::from_si(low * size),
            high: Volume::from_si(high * size),
        }),
        SpokenUnit::Time(size) => Meant::Time(Range {
            low: Duration::from_si(low * size),
            high: Duration::from_si(high * size),
        }),
        SpokenUnit::Length(size) => Meant::Length(Range {
            low: Length::from_si(low * size),
            high: Length::from_si(high * size),
        }),
        SpokenUnit::Celsius => Meant::Temperature(Range {
            low: Temperature::from_celsius(low),
            high: Temperature::from_celsius(high),
        }),
        SpokenUnit::Fahrenheit => Meant::Temperature(Range {
            low: Temperature::from_fahrenheit(low),
            high: Temperature::from_fahrenheit(high),
        }),
        SpokenUnit::Degrees => Meant::Degrees(low, high),
        _ => return None,
    };
    let mut carried = own.clone();
    carried.unit = before.unit;
    carried.meant = meant;
    Some(carried)
}

/// Gives a number the unit of the quantity before where the words between and behind say that it goes on.
pub(super) fn carry_on(text: &str, before: &Spoken, own: &mut Spoken) {
    let gap = text.get(before.span.end..own.span.start).unwrap_or("");
    if !matches!(own.meant, Meant::Number(..))
        || gap.len() > GAP_BYTES
        || gap.contains(['.', ';', '?', '!'])
    {
        return;
    }
    let words: Vec<String> = words_of(gap);
    let after = words_of(
        text.get(own.span.end..)
            .unwrap_or("")
            .split_inclusive([',', '.', ';', '?', '!', '\n'])
            .next()
            .unwrap_or(""),
    );
    let next = after.first().map_or("", String::as_str);
    let second = after.get(1).map_or("", String::as_str);
    let last = words.last().map_or("", String::as_str);
    let ends = matches!(
        next,
        "" | "on" | "at" | "with" | "without" | "after" | "once" | "and" | "then" | "in"
    );
    let weighed = matches!(before.unit, SpokenUnit::Mass(_) | SpokenUnit::Volume(_));
    let timed = matches!(before.unit, SpokenUnit::Time(_));
    // "four minutes and then another six", "ten minutes, then ten more"
    let another = (timed || weighed)
        && (last == "another" && (ends || next == "for")
            || next == "more" && matches!(second, "" | "on" | "at")
            || timed
                && next == "on"
                && matches!(second, "low" | "medium" | "high" | "slow" | "fast")
            || last == "then" && matches!(next, "without" | "with" | "uncovered"));
    // "sixty grams of sugar and three of cardamom"
    let of_next = weighed
        && next == "of"
        && !matches!(
            second,
            "them" | "those" | "these" | "the" | "us" | "you" | "it" | "each"
        )
        && matches!(last, "and" | "plus" | "then")
        && words.first().is_some_and(|word| word == "of");
    // "thirty minutes, and twenty for the rolls"
    let for_next = (timed || weighed)
        && words.len() <= 1
        && matches!(last, "" | "and" | "but")
        && next == "for"
        && matches!(second, "the" | "each");
    if (another || of_next || for_next)
        && let Some(carried) = in_unit_of(before, own)
    {
        *own = carried;
    }
}

/// "Not a gram over fifty-six": the number in the unit that was said first.
pub(super) fn not_over(text: &str, before: &Spoken, own: &Spoken) -> Option<Spoken> {
    let gap = text.get(before.span.end..own.span.start)?.trim();
    let denied = text
        .get(..before.span.start)?
        .trim_end()
        .to_lowercase()
        .ends_with("not");
    (before.article
        && denied
        && matches!(gap, "over" | "more than" | "above" | "past" | "longer than"))
    .then(|| in_unit_of(before, own))
    .flatten()
}

/// "Overnight, say nine hours", "eight or nine hours overnight": a night and how long it is, said as one.
pub(super) fn says_how_long(text: &str, before: &Spoken, own: &Spoken) -> bool {
    let gap = text.get(before.span.end..own.span.start).unwrap_or("x");
    let night = text
        .get(before.span.start..before.span.end)
        .is_some_and(|said| said.eq_ignore_ascii_case("overnight"));
    night
        && matches!(own.meant, Meant::Time(_))
        && matches!(
            gap.trim_matches(|c: char| c == ',' || c.is_whitespace()),
            "say" | "call it" | "so that's" | "that's"
        )
}

/// Whether a number is counted up to the one behind it: the "one, two" of "one, two, three cups".
pub(super) fn counts_up(text: &str, before: &Spoken, own: &Spoken) -> bool {
    let gap = text.get(before.span.end..own.span.start).unwrap_or("");
    let one_more = |low: f64, next: f64| (next - low - 1.0).abs() < 1e-9;
    matches!(before.meant, Meant::Number(..))
        && matches!(gap.trim(), "," | "…" | "...")
        && before.low >= 1.0
        && before.low < 10.0
        && one_more(before.low, own.low)
}

/// The same for what stands before it in the row, however far up the row has been counted.
pub(super) fn counted_before(text: &str, before: &Spoken, own: &Spoken) -> bool {
    let gap = text.get(before.span.end..own.span.start).unwrap_or("");
    matches!(before.meant, Meant::Number(..))
        && before.low < own.low
        && gap
            .chars()
            .all(|c| c.is_alphabetic() || matches!(c, ',' | ' ' | '…' | '.'))
        && gap.split_whitespace().count() <= 10
        && gap.trim_start().starts_with([',', '…'])
}

fn words_of(text: &str) -> Vec<String> {
    text.split(|c: char| !c.is_alphabetic() && c != '\'')
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect()
}
