//! Quantities with words of their own, and times of day that are none: "gas mark four", "twice", "half past nine".

#![allow(clippy::float_cmp)] // numbers as they are said are whole, or the same number twice

use super::super::SpokenUnit;
use super::super::number::{Number, part};
use super::super::unit::unit_at;
use super::{Heard, OVERNIGHT_H, Reader, Single};

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
        if !degrees {
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
            ("twice" | "doubled" | "double" | "doubles" | "doubling", _) => {
                let single = plain(2.0, 2.0, SpokenUnit::Times, at + 1);
                Some(self.quantity(at, &single, None, at + 1))
            }
            ("tripled" | "triple" | "thrice" | "trebled", _) => {
                let single = plain(3.0, 3.0, SpokenUnit::Times, at + 1);
                Some(self.quantity(at, &single, None, at + 1))
            }
            ("a" | "an", "egg") => {
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
            ("both", noun) if noun.len() > 3 && noun.ends_with('s') => {
                let single = plain(2.0, 2.0, SpokenUnit::None, at + 1);
                Some(self.quantity(at, &single, None, at + 1))
            }
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
        // "half nine"
        let half_hour = self.word(at) == "half" && first.end == at + 1;
        if half_hour
            && let Some(hour) = self.number(next).filter(|n| !n.article && n.value >= 1.0)
            && unit_at(self.all, hour.end, hour.value).is_none()
        {
            return Some(hour.end);
        }
        // "quarter to ten", "ten to nine"
        if self.word(next) == "to"
            && (first.value == 0.25 || first.value >= 5.0)
            && let Some(hour) = self.number(next + 1).filter(|n| !n.article)
            && hour.value < first.value.max(13.0)
            && (hour.value < first.value || first.value < 1.0)
            && unit_at(self.all, hour.end, hour.value).is_none()
        {
            return Some(hour.end);
        }
        None
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
            let by = matches!(self.word(end), "by" | "x")
                || self.is_mark(end, '×')
                || self.is_mark(end, '*');
            let next = by.then(|| self.number(end + 1)).flatten();
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
