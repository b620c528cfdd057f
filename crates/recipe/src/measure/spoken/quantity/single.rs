//! A number or a range with its unit, what is added to it, and a second end behind the unit.

#![allow(clippy::float_cmp)] // numbers as they are said are whole, or the same number twice

use super::super::SpokenUnit;
use super::super::number::{Number, part};
use super::super::unit::unit_at;
use super::fixed::{COUNTED, OUNCE_KG, POUND_KG};
use super::{DRAWN_MINUTES, Heard, Reader, Single};
use crate::measure::read::sentence::Token;

impl Reader<'_> {
    /// Past what stands between two numbers of a range.
    pub(super) fn joiner(&self, at: usize, between: bool) -> Option<usize> {
        let token = self.all.get(at)?;
        let next = if token.is_dash() {
            at + 1
        } else if token.is(',') {
            // "ten, maybe twelve minutes"
            at + 1
        } else {
            match token.word() {
                "to" | "or" | "till" | "until" => at + 1,
                "and" if between => at + 1,
                "maybe" | "perhaps" | "possibly" => at,
                _ => return None,
            }
        };
        let more = match self.word(next) {
            "maybe" | "perhaps" | "possibly" | "even" | "about" | "around" => 1,
            "up" if self.word(next + 1) == "to" => 2,
            _ => 0,
        };
        (next + more > at).then_some(next + more)
    }

    /// A number or range that begins with `first`, with its unit and what is added to it.
    pub(super) fn single(&self, start: usize, first: &Number, between: bool) -> Option<Single> {
        let (mut low, mut high, mut end) = (first.value, first.value, first.end);
        let (mut in_words, mut vague) = (first.in_words, first.vague);
        if !first.article
            && let Some(next) = self.joiner(end, between)
            && let Some(second) = self.number(next).filter(|n| !n.article)
        {
            let comma = self.is_mark(end, ',');
            let doubtful = matches!(self.word(end + 1), "maybe" | "perhaps" | "possibly");
            let unit = unit_at(self.all, second.end, second.value).is_some();
            if self.all[end].is_dash() && first.value.fract() == 0.0 && second.value < 1.0 {
                low += second.value;
                high = low;
                end = second.end;
            } else if second.value > low
                && (!comma || (unit || doubtful) && second.value <= 2.0 * low)
                && (low >= 1.0 || second.value < 10.0)
            {
                high = second.value;
                end = second.end;
                in_words |= second.in_words;
                vague |= second.vague;
            }
        }
        // "Between four and five hundred grams": both are hundreds.
        if in_words
            && end > 0
            && self.word(end - 1) == "hundred"
            && (1.0..10.0).contains(&low)
            && low * 100.0 < high
        {
            low *= 100.0;
        }
        let number = (start, end - 1);
        let size = low.max(high);
        // "six and a bit ounces"
        if !first.article
            && self.word(end) == "and"
            && matches!(self.word(end + 1), "a")
            && matches!(self.word(end + 2), "bit" | "touch")
            && unit_at(self.all, end + 3, size).is_some()
        {
            end += 3;
            vague = true;
        }
        let mut unit = unit_at(self.all, end, size);
        // "Set the oven to four fifty, Celsius"
        if unit.is_none()
            && self.is_mark(end, ',')
            && matches!(self.word(end + 1), "celsius" | "centigrade" | "fahrenheit")
        {
            unit = unit_at(self.all, end + 1, size);
        }
        if unit.is_none() && low < 1.0 {
            // "half an hour", "three quarters of a teaspoon"
            let of = end + usize::from(self.word(end) == "of");
            let a = of + usize::from(matches!(self.word(of), "a" | "an" | "one"));
            unit = unit_at(self.all, a, size).filter(|(unit, _)| unit.size().is_some() && a > end);
        }
        let Some((unit, after)) = unit else {
            if first.article {
                return None;
            }
            // "half an egg"
            if low < 1.0
                && matches!(self.word(end), "a" | "an")
                && COUNTED.contains(&self.word(end + 1))
            {
                end += 1;
            }
            return Some(Single {
                low,
                high,
                unit: SpokenUnit::None,
                more: 0.0,
                number,
                end,
                article: false,
                in_words,
                vague,
            });
        };
        if let (SpokenUnit::Time(seconds), Some((one, other))) = (unit, first.drawn)
            && low * seconds / 60.0 > DRAWN_MINUTES
            && one < other
        {
            (low, high) = (one, other);
        }
        let (unit, after) = self.unit_put_right(unit, after).unwrap_or((unit, after));
        let mut single = Single {
            low,
            high,
            unit,
            more: 0.0,
            number,
            end: after,
            article: first.article,
            in_words,
            vague,
        };
        self.add(&mut single);
        Some(single)
    }

    /// "three tablespoons, I mean teaspoons".
    fn unit_put_right(&self, unit: SpokenUnit, end: usize) -> Option<(SpokenUnit, usize)> {
        let mark = self.is_mark(end, ',') || self.all.get(end).is_some_and(Token::is_dash);
        let at = end + usize::from(mark);
        let said = match (self.word(at), self.word(at + 1)) {
            ("i", "mean") => at + 2,
            ("no" | "sorry" | "rather", _) if mark => at + 1,
            _ => return None,
        };
        let said = said + usize::from(self.is_mark(said, ','));
        let (other, after) = unit_at(self.all, said, 1.0)?;
        unit.same_sort(other).then_some((other, after))
    }

    /// What is added to a quantity: "and a half", "and twenty", "plus two tablespoons", "less a teaspoon".
    pub(super) fn add(&self, single: &mut Single) {
        let Some(size) = single.unit.size() else {
            // "a packet and a third"
            if single.unit == SpokenUnit::Packets
                && self.word(single.end) == "and"
                && let Some((rest, end)) = part(self.all, single.end + 1)
                && unit_at(self.all, end, rest).is_none()
                && self.word(end) != "of"
            {
                single.low += rest;
                single.high += rest;
                single.end = end;
                single.article = false;
            }
            return;
        };
        for _ in 0..2 {
            let mut at = single.end;
            // "one pound, six ounces"
            if self.is_mark(at, ',') && single.unit == SpokenUnit::Mass(POUND_KG) {
                at += 1;
            }
            // "a third of a cup of sugar plus two teaspoons"
            if self.word(at) == "of"
                && let Some(more) = (2..=4).find(|more| self.word(at + more) == "plus")
            {
                at += more;
            }
            let (sign, skip) = match self.word(at) {
                "and" | "plus" => (1.0, 1),
                "less" | "minus" => (-1.0, 1),
                _ => (1.0, 0),
            };
            if skip == 1
                && let Some((rest, end)) = part(self.all, at + 1)
            {
                let of = end + usize::from(self.word(end) == "of");
                let a = of + usize::from(matches!(self.word(of), "a" | "an"));
                match unit_at(self.all, a, rest) {
                    Some((other, after)) if single.unit.same_sort(other) => {
                        single.more += sign * rest * other.size().unwrap_or(0.0);
                        single.end = after;
                    }
                    Some(_) => return,
                    None => {
                        single.more += sign * rest * size;
                        single.end = end;
                    }
                }
                single.article = false;
                continue;
            }
            let Some(next) = self.number(at + skip) else {
                return;
            };
            if let Some((other, after)) = unit_at(self.all, next.end, next.value) {
                let smaller = other.size().is_some_and(|small| small < size);
                if single.unit.same_sort(other) && smaller && (skip == 1 || !next.article) {
                    single.more += sign * next.value * other.size().unwrap_or(0.0);
                    single.end = after;
                    single.article = false;
                    continue;
                }
                return;
            }
            // "two pounds three"
            if single.unit == SpokenUnit::Mass(POUND_KG)
                && skip == 0
                && !next.article
                && next.value < 16.0
                && (next.value < 5.0 || self.ends_clause(next.end) || self.word(next.end) == "of")
                && self.word(next.end).len() <= 3
            {
                single.more += next.value * OUNCE_KG;
                single.end = next.end;
                single.article = false;
                return;
            }
            let small = match single.unit {
                SpokenUnit::Time(3600.0) => 60.0,
                SpokenUnit::Time(60.0) if skip == 0 => 1.0,
                _ => return,
            };
            let behind = self.word(next.end);
            let counted = behind.len() > 3 && behind.ends_with('s') && behind != "minutes";
            let fits = (5.0..60.0).contains(&next.value)
                && next.value % 5.0 == 0.0
                && sign > 0.0
                && !counted
                && !next.article
                && self
                    .joiner(next.end, false)
                    .is_none_or(|after| self.number(after).is_none_or(|n| n.article));
            if fits {
                single.more += next.value * small;
                single.end = next.end;
                single.article = false;
            }
            return;
        }
    }

    /// A second end after the unit: "forty-five minutes to an hour", "a teaspoon or two".
    pub(super) fn second_end(&self, single: Single, between: bool) -> (Single, Option<f64>, usize) {
        let end = single.end;
        let none = (single, None, end);
        if single.low < single.high || single.unit == SpokenUnit::None {
            return none;
        }
        // "eight hours at least, fourteen at most"
        let least =
            self.word(end) == "at" && self.word(end + 1) == "least" && self.is_mark(end + 2, ',');
        let Some(next) = self.joiner(if least { end + 2 } else { end }, between) else {
            return none;
        };
        let comma = self.is_mark(end, ',');
        if comma && let Some((other, high)) = self.same_unit_again(next, &single) {
            return (single, Some(high), other);
        }
        let Some(first) = self.number(next) else {
            return none;
        };
        let Some(other) = self.single(next, &first, false) else {
            return none;
        };
        if least && other.unit == SpokenUnit::None && other.low > single.low {
            let mut widened = single;
            widened.high = other.low;
            return (widened, None, other.end);
        }
        let own = single.si();
        if let (Some((low, _)), Some((_, high))) = (own, other.si()) {
            let fits = single.unit.same_sort(other.unit) && high > low && high <= 4.0 * low;
            // "ten minutes, twenty grams": a comma alone joins only what is doubtful.
            let doubtful = matches!(self.word(end + 1), "maybe" | "perhaps" | "possibly");
            if fits && (!comma || doubtful) {
                let mut widened = single;
                widened.article = false;
                return (widened, Some(high), other.end);
            }
            return none;
        }
        // "thirty-four minutes, thirty-six at the outside"
        let at_most = match (self.word(other.end), self.word(other.end + 1)) {
            ("tops" | "max" | "maximum", _) | ("at", "most") => true,
            ("at", "the") => matches!(self.word(other.end + 2), "outside" | "most" | "very"),
            _ => false,
        };
        let alone = other.unit == SpokenUnit::None && (!comma || at_most);
        if alone
            && other.low == other.high
            && other.low > single.low
            && other.low <= 4.0 * single.low
        {
            let counted = self.word(other.end);
            let noun = counted.len() > 3 && counted.ends_with('s');
            if !noun {
                let mut widened = single;
                widened.high = other.low;
                widened.article = false;
                return (widened, None, other.end);
            }
        }
        none
    }

    /// "an hour and a half, two hours": the same unit once more, and not more than twice as much.
    pub(super) fn same_unit_again(&self, next: usize, single: &Single) -> Option<(usize, f64)> {
        let (_, low) = single.si()?;
        let other = match self.number(next) {
            Some(first) => self.single(next, &first, false)?,
            None => match self.unit_alone(next) {
                Heard::Quantity(quantity, end) => {
                    let size = quantity.unit.size()?;
                    let high = quantity.high * size;
                    let fits = quantity.unit == single.unit && high > low && high <= 2.0 * low;
                    return fits.then_some((end, high));
                }
                _ => return None,
            },
        };
        let (_, high) = other.si()?;
        let fits = other.unit == single.unit && high > low && high <= 2.0 * low;
        let alone = !matches!(self.word(other.end), "of");
        (fits && alone).then_some((other.end, high))
    }

    /// Whether a number alone is a year: "nineteen seventy-six", "2019".
    pub(super) fn is_year(single: &Single, first: &Number) -> bool {
        let range = (1900.0..2100.0).contains(&single.low);
        let said_so = first.drawn.is_some() || !first.in_words;
        range && said_so && single.low == single.high
    }
}
