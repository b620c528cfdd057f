//! Quantities with words of their own, and times of day that are none: "gas mark four", "twice", "half past nine".

#![allow(clippy::float_cmp)] // numbers as they are said are whole, or the same number twice

use super::super::SpokenUnit;
use super::super::number::{Number, part, past_dash};
use super::super::unit::unit_at;
use super::{Heard, OVERNIGHT_H, Reader, Single};

/// The pound (exact).
pub(super) const POUND_KG: f64 = 0.453_592_37;

/// The ounce, a sixteenth of it.
pub(super) const OUNCE_KG: f64 = POUND_KG / 16.0;

/// What is counted without a unit and often said with "a": "a pinch", "half an egg".
pub(super) const COUNTED: [&str; 7] = ["egg", "clove", "pinch", "pod", "slice", "sprig", "yolk"];

impl Reader<'_> {
    /// "minus eighteen Celsius".
    pub(super) fn below_nought(&self, at: usize) -> Option<Heard> {
        let token = self.all.get(at)?;
        let next = self.all.get(at + 1)?;
        let apart = at == 0 || self.all[at - 1].span.end < token.span.start;
        let sign = token.is_dash() && apart && token.span.end == next.span.start;
        if token.word() != "minus" && !sign {
            return None;
        }
        let first = self.number(at + 1).filter(|number| !number.article)?;
        let mut single = self.single(at + 1, &first, false)?;
        let degrees = matches!(
            single.unit,
            SpokenUnit::Celsius | SpokenUnit::Fahrenheit | SpokenUnit::Degrees
        );
        // "at minus eighteen"
        let alone = single.unit == SpokenUnit::None && token.word() == "minus";
        if !degrees && !alone {
            return None;
        }
        (single.low, single.high) = (-single.high, -single.low);
        Some(self.quantity(at, &single, None, single.end))
    }

    /// "overnight", "gas mark four", "twice".
    pub(super) fn fixed(&self, at: usize) -> Option<Heard> {
        let plain = |low: f64, high: f64, unit: SpokenUnit, end: usize| Single {
            low,
            high,
            unit,
            more: 0.0,
            number: (at, end - 1),
            end,
            article: false,
            in_words: true,
            vague: false,
        };
        match (self.word(at), self.word(at + 1)) {
            ("overnight", _) => {
                let (low, high) = OVERNIGHT_H;
                let mut single = plain(low, high, SpokenUnit::Time(3600.0), at + 1);
                single.vague = true;
                Some(self.quantity(at, &single, None, at + 1))
            }
            ("half", "as" | "again")
                if (2..=4).any(|more| matches!(self.word(at + more), "again" | "as"))
                    && matches!(self.word(at + 2), "big" | "much" | "again" | "as" | "large") =>
            {
                let end = (at + 2..=at + 4)
                    .rev()
                    .find(|place| matches!(self.word(*place), "again" | "big" | "much" | "large"))
                    .map_or(at + 2, |place| place + 1);
                let single = plain(1.5, 1.5, SpokenUnit::Times, end);
                Some(self.quantity(at, &single, None, end))
            }
            // "Cream, the double sort"
            ("double", "sort" | "kind" | "stuff") => None,
            ("twice" | "doubled" | "double" | "doubles" | "doubling", _) => {
                let single = plain(2.0, 2.0, SpokenUnit::Times, at + 1);
                Some(self.quantity(at, &single, None, at + 1))
            }
            ("tripled" | "triple" | "thrice" | "trebled", _) => {
                let single = plain(3.0, 3.0, SpokenUnit::Times, at + 1);
                Some(self.quantity(at, &single, None, at + 1))
            }
            ("a" | "an", noun) if COUNTED.contains(&noun) => {
                let half = matches!(
                    (self.word(at + 2), part(self.all, at + 3)),
                    ("and", Some(_))
                );
                let (rest, end) = if half {
                    part(self.all, at + 3)?
                } else {
                    (0.0, at + 1)
                };
                let single = plain(1.0 + rest, 1.0 + rest, SpokenUnit::None, end);
                Some(self.quantity(at, &single, None, end))
            }
            ("another", _) => {
                let (unit, end) = unit_at(self.all, at + 1, 1.0)
                    .filter(|(unit, end)| unit.size().is_some() && *end == at + 2)?;
                Some(self.quantity(at, &plain(1.0, 1.0, unit, end), None, end))
            }
            ("both", noun) if noun.len() > 3 && noun.ends_with('s') => {
                let single = plain(2.0, 2.0, SpokenUnit::None, at + 1);
                Some(self.quantity(at, &single, None, at + 1))
            }
            // "Mine is a gas one"
            ("gas", "one") if at > 0 && matches!(self.word(at - 1), "a" | "the" | "old") => None,
            ("gas", "mark") | ("gas" | "mark", _) => {
                let skip = usize::from(self.word(at + 1) == "mark");
                let first = self.number(at + 1 + skip).filter(|n| !n.article)?;
                if !(0.25..=10.0).contains(&first.value) {
                    return None;
                }
                let high = self
                    .joiner(first.end, false)
                    .and_then(|next| self.number(next))
                    .filter(|second| !second.article && second.value > first.value);
                let end = high.map_or(first.end, |second| second.end);
                let mut single = plain(first.value, first.value, SpokenUnit::Gas, end);
                single.high = high.map_or(first.value, |second| second.value);
                single.number = (at + 1 + skip, end - 1);
                Some(self.quantity(at, &single, None, end))
            }
            _ => None,
        }
    }

    /// "hour and a half" without its article.
    pub(super) fn unit_alone(&self, at: usize) -> Heard {
        let found = unit_at(self.all, at, 1.0)
            .filter(|(unit, end)| unit.size().is_some() && *end == at + 1)
            .filter(|_| self.word(at + 1) == "and")
            .and_then(|(unit, end)| Some((unit, part(self.all, end + 1)?)))
            .filter(|(_, (_, end))| unit_at(self.all, *end, 1.0).is_none());
        let Some((unit, (rest, end))) = found else {
            return Heard::Nothing;
        };
        let single = Single {
            low: 1.0 + rest,
            high: 1.0 + rest,
            unit,
            more: 0.0,
            number: (at, end - 1),
            end,
            article: false,
            in_words: true,
            vague: false,
        };
        self.quantity(at, &single, None, end)
    }

    /// Where a time of day ends: "half past nine", "9:30", "nine o'clock", "ten to nine".
    pub(super) fn clock(&self, at: usize, first: &Number) -> Option<usize> {
        let next = first.end;
        if self.is_mark(next, ':') {
            let minutes = self.number(next + 1)?;
            return Some(minutes.end);
        }
        match self.word(next) {
            "past" => return Some(self.number(next + 1).map_or(next + 1, |n| n.end)),
            "o'clock" | "o’clock" | "oclock" | "am" | "pm" => return Some(next + 1),
            "a" | "p" if self.is_mark(next + 1, '.') && self.word(next + 2) == "m" => {
                return Some(next + 3);
            }
            _ => {}
        }
        if self.part_of_day(next) && Self::is_hour(first) {
            return Some(next);
        }
        // "half nine"
        let half_hour = self.word(at) == "half" && first.end == at + 1;
        if half_hour
            && let Some(hour) = self.number(next).filter(|n| !n.article && n.value >= 1.0)
            && unit_at(self.all, hour.end, hour.value).is_none()
        {
            return Some(hour.end);
        }
        // "quarter to ten", "ten to nine"
        // and no "from two thirty to two hundred and five"
        if self.word(next) == "to"
            && (first.value == 0.25 || first.value >= 5.0 && first.drawn.is_none())
            && let Some(hour) = self.number(next + 1).filter(|n| !n.article)
            && hour.value < first.value.max(13.0)
            && (hour.value < first.value || first.value < 1.0)
            && unit_at(self.all, hour.end, hour.value).is_none()
        {
            return Some(hour.end);
        }
        None
    }

    /// "at night", "in the morning", "tonight", "sharp".
    fn part_of_day(&self, at: usize) -> bool {
        let day = |word: &str| matches!(word, "morning" | "evening" | "afternoon");
        match self.word(at) {
            "at" | "last" => self.word(at + 1) == "night",
            "in" => self.word(at + 1) == "the" && day(self.word(at + 2)),
            "this" | "tomorrow" | "yesterday" => day(self.word(at + 1)),
            "on" => self.word(at + 1) == "the" && self.word(at + 2) == "dot",
            "tonight" | "sharp" => true,
            _ => false,
        }
    }

    /// Whether a number can be an hour of the clock: "six", "nine thirty".
    fn is_hour(number: &Number) -> bool {
        let (hour, minute) = number.drawn.unwrap_or((number.value, 0.0));
        !number.article
            && (1.0..=12.0).contains(&hour)
            && hour.fract() == 0.0
            && (0.0..60.0).contains(&minute)
    }

    /// Where a sum of money ends: "five pounds fifty", "two pounds a bag".
    pub(super) fn pounds(&self, single: &Single) -> Option<usize> {
        let SpokenUnit::Mass(size) = single.unit else {
            return None;
        };
        if (size - POUND_KG).abs() > 1e-6 || single.low != single.high {
            return None;
        }
        let end = single.end;
        // "one pound nine" with nothing paid is a weight.
        if single.more > 0.0 {
            return None;
        }
        if let Some(pence) = self.number(end).filter(|n| !n.article && n.end > end)
            && (5.0..100.0).contains(&pence.value)
            && unit_at(self.all, pence.end, pence.value).is_none()
        {
            return Some(pence.end);
        }
        let sold = matches!(self.word(end), "a" | "per")
            && matches!(
                self.word(end + 1),
                "packet"
                    | "bag"
                    | "jar"
                    | "kilo"
                    | "dozen"
                    | "box"
                    | "go"
                    | "time"
                    | "bottle"
                    | "pop"
            );
        let paid = (1..=4).any(|back| {
            single.number.0.checked_sub(back).is_some_and(|at| {
                matches!(
                    self.word(at),
                    "cost" | "costs" | "paid" | "pay" | "price" | "charge" | "charged" | "spent"
                )
            })
        });
        (sold || paid).then_some(if sold { end + 2 } else { end })
    }

    /// "nine by five", "8½ × 4½ × 2½ inches".
    pub(super) fn sides(&self, first: &Number) -> Option<(Vec<f64>, Option<f64>, usize)> {
        if first.article {
            return None;
        }
        let mut sides = vec![first.value];
        let mut unit = None;
        let mut end = first.end;
        loop {
            let length = |at: usize, value: f64| match unit_at(self.all, at, value) {
                Some((SpokenUnit::Length(size), after)) => Some((size, after)),
                _ => None,
            };
            if let Some((size, after)) = length(end, sides[0]) {
                unit = Some(size);
                end = after;
            }
            // "nine-by-five"
            let at = past_dash(self.all, end);
            let by = matches!(self.word(at), "by" | "x")
                || self.is_mark(end, '×')
                || self.is_mark(end, '*');
            let at = if matches!(self.word(at), "by" | "x") {
                past_dash(self.all, at + 1)
            } else {
                end + 1
            };
            let next = by.then(|| self.number(at)).flatten();
            match next.filter(|n| !n.article && sides.len() < 3) {
                Some(side) => {
                    sides.push(side.value);
                    end = side.end;
                }
                None => break,
            }
        }
        (sides.len() > 1).then_some((sides, unit, end))
    }
}
