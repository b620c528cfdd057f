//! Finds every quantity in a stretch of speech: number or range, unit, what is added, how near it is meant.

use super::number::{Number, number, part, past_dash, word};
use super::unit::unit_at;
use super::{Meant, Nearness, Spoken, SpokenUnit};
use crate::measure::read::sentence::{Token, What, tokens};
use crate::source::Span;
use numerics::quantity::{Duration, Fraction, Length, Mass, Range, Temperature, Volume};

/// What "overnight" is taken for, in hours (common practice).
const OVERNIGHT_H: (f64, f64) = (8.0, 12.0);

/// Minutes above which two numbers said in one breath are a range: "twenty twenty-five minutes".
const DRAWN_MINUTES: f64 = 300.0;

/// Every quantity that is said, in order.
pub fn spoken(text: &str) -> Vec<Spoken> {
    let all = tokens(text);
    let reader = Reader { text, all: &all };
    let mut found = Vec::new();
    let mut at = 0;
    while at < all.len() {
        at = match reader.at(at) {
            Heard::Quantity(quantity, end) => {
                found.push(*quantity);
                end
            }
            Heard::Passed(end) => end,
            Heard::Nothing => at + 1,
        };
    }
    found
}

/// What stands at a place.
enum Heard {
    /// A quantity, and the token after it.
    Quantity(Box<Spoken>, usize),
    /// Something that looks like one and is none: a time of day.
    Passed(usize),
    /// Nothing of the kind.
    Nothing,
}

/// A number or range with its unit, in its unit and in SI where the unit is a multiple of it.
#[derive(Clone, Copy)]
struct Single {
    low: f64,
    high: f64,
    unit: SpokenUnit,
    /// What both ends have besides, in SI: the twenty minutes of "an hour and twenty".
    more: f64,
    number: (usize, usize),
    end: usize,
    article: bool,
    in_words: bool,
    vague: bool,
}

impl Single {
    fn si(&self) -> Option<(f64, f64)> {
        let size = self.unit.size()?;
        Some((self.low * size + self.more, self.high * size + self.more))
    }
}

struct Reader<'t> {
    text: &'t str,
    all: &'t [Token],
}

impl Reader<'_> {
    fn word(&self, at: usize) -> &str {
        word(self.all, at)
    }

    fn number(&self, at: usize) -> Option<Number> {
        number(self.text, self.all, at)
    }

    fn is_mark(&self, at: usize, mark: char) -> bool {
        self.all.get(at).is_some_and(|token| token.is(mark))
    }

    /// What stands at a place.
    fn at(&self, at: usize) -> Heard {
        if let Some(heard) = self.fixed(at) {
            return heard;
        }
        let (start, between) = match self.word(at) {
            "between" => (at + 1, true),
            _ => (at, false),
        };
        let Some(first) = self.number(start) else {
            return self.unit_alone(at);
        };
        if let Some(end) = self.clock(start, &first) {
            return Heard::Passed(end);
        }
        if let Some((sides, unit, end)) = self.sides(&first) {
            let meant = Meant::Sides(sides, unit);
            return self.done(start, end, &first, meant);
        }
        let Some(single) = self.single(start, &first, between) else {
            return Heard::Nothing;
        };
        if single.unit == SpokenUnit::None && self.is_year(&single) {
            return Heard::Passed(single.end);
        }
        let (single, second, end) = self.second_end(single);
        self.quantity(start, &single, second, end)
    }

    /// "overnight", "gas mark four", "twice".
    fn fixed(&self, at: usize) -> Option<Heard> {
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
            ("twice", _) => {
                let single = plain(2.0, 2.0, SpokenUnit::Times, at + 1);
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
    fn unit_alone(&self, at: usize) -> Heard {
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
    fn clock(&self, at: usize, first: &Number) -> Option<usize> {
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
    fn sides(&self, first: &Number) -> Option<(Vec<f64>, Option<f64>, usize)> {
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

    /// Past what stands between two numbers of a range.
    fn joiner(&self, at: usize, between: bool) -> Option<usize> {
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
    fn single(&self, start: usize, first: &Number, between: bool) -> Option<Single> {
        let (mut low, mut high, mut end) = (first.value, first.value, first.end);
        let (mut in_words, mut vague) = (first.in_words, first.vague);
        if !first.article
            && let Some(next) = self.joiner(end, between)
            && let Some(second) = self.number(next).filter(|n| !n.article)
        {
            let comma = self.is_mark(end, ',');
            let unit = unit_at(self.all, second.end, second.value).is_some();
            if self.all[end].is_dash() && first.value.fract() == 0.0 && second.value < 1.0 {
                low += second.value;
                high = low;
                end = second.end;
            } else if second.value > low
                && (!comma || unit && second.value <= 2.0 * low)
                && (low >= 1.0 || second.value < 10.0)
            {
                high = second.value;
                end = second.end;
                in_words |= second.in_words;
                vague |= second.vague;
            }
        }
        let number = (start, end - 1);
        let size = low.max(high);
        let mut unit = unit_at(self.all, end, size);
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

    /// What is added to a quantity: "and a half", "and twenty", "plus two tablespoons", "less a teaspoon".
    fn add(&self, single: &mut Single) {
        let Some(size) = single.unit.size() else {
            return;
        };
        for _ in 0..2 {
            let at = single.end;
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
            let small = match single.unit {
                SpokenUnit::Time(seconds) if seconds == 3600.0 => 60.0,
                SpokenUnit::Time(seconds) if seconds == 60.0 && skip == 0 => 1.0,
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
    fn second_end(&self, single: Single) -> (Single, Option<f64>, usize) {
        let end = single.end;
        let none = (single, None, end);
        if single.low < single.high || single.unit == SpokenUnit::None {
            return none;
        }
        let Some(next) = self.joiner(end, false) else {
            return none;
        };
        let Some(first) = self.number(next) else {
            return none;
        };
        let comma = self.is_mark(end, ',');
        let Some(other) = self.single(next, &first, false) else {
            return none;
        };
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
        let alone = other.unit == SpokenUnit::None && !comma;
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

    /// Whether a number alone is a year.
    fn is_year(&self, single: &Single) -> bool {
        let range = (1900.0..2100.0).contains(&single.low);
        range && single.low == single.high && self.word(single.end) != "grams"
    }

    /// Puts it together.
    fn quantity(&self, start: usize, single: &Single, high_si: Option<f64>, end: usize) -> Heard {
        let (low, high) = (single.low, single.high);
        let si = single
            .si()
            .map(|(low, high)| (low, high_si.unwrap_or(high)));
        let meant = match (single.unit, si) {
            (SpokenUnit::Mass(_), Some((low, high))) => Meant::Mass(Range {
                low: Mass::from_si(low),
                high: Mass::from_si(high),
            }),
            (SpokenUnit::Volume(_), Some((low, high))) => Meant::Volume(Range {
                low: Volume::from_si(low),
                high: Volume::from_si(high),
            }),
            (SpokenUnit::Time(_), Some((low, high))) => Meant::Time(Range {
                low: Duration::from_si(low),
                high: Duration::from_si(high),
            }),
            (SpokenUnit::Length(_), Some((low, high))) => Meant::Length(Range {
                low: Length::from_si(low),
                high: Length::from_si(high),
            }),
            (SpokenUnit::Celsius, _) => Meant::Temperature(Range {
                low: Temperature::from_celsius(low),
                high: Temperature::from_celsius(high),
            }),
            (SpokenUnit::Fahrenheit, _) => Meant::Temperature(Range {
                low: Temperature::from_fahrenheit(low),
                high: Temperature::from_fahrenheit(high),
            }),
            (SpokenUnit::Degrees, _) => Meant::Degrees(low, high),
            (SpokenUnit::Gas, _) => Meant::Gas(low, high),
            (SpokenUnit::Percent, _) => Meant::Share(Range {
                low: Fraction::from_percent(low),
                high: Fraction::from_percent(high),
            }),
            (SpokenUnit::Times, _) => Meant::Times(low, high),
            (SpokenUnit::Packets, _) => Meant::Packets(low, high),
            _ => Meant::Number(low, high),
        };
        let (shown_low, shown_high) = match (single.unit.size(), si) {
            (Some(size), Some((low, high))) => (low / size, high / size),
            _ => (low, high),
        };
        let number = self.span(single.number.0, single.number.1 + 1);
        Heard::Quantity(
            Box::new(Spoken {
                span: self.span(start, end),
                number,
                low: shown_low,
                high: shown_high,
                unit: single.unit,
                meant,
                nearness: self.nearness(start, end, single.vague),
                article: single.article,
                in_words: single.in_words,
            }),
            end,
        )
    }

    /// Sides as a quantity.
    fn done(&self, start: usize, end: usize, first: &Number, meant: Meant) -> Heard {
        let span = self.span(start, end);
        Heard::Quantity(
            Box::new(Spoken {
                span,
                number: span,
                low: first.value,
                high: first.value,
                unit: match meant {
                    Meant::Sides(_, Some(size)) => SpokenUnit::Length(size),
                    _ => SpokenUnit::None,
                },
                meant,
                nearness: self.nearness(start, end, false),
                article: false,
                in_words: first.in_words,
            }),
            end,
        )
    }

    fn span(&self, start: usize, end: usize) -> Span {
        Span::new(self.all[start].span.start, self.all[end - 1].span.end)
    }

    /// How near it is meant, by the words on both sides.
    fn nearness(&self, start: usize, end: usize, vague: bool) -> Nearness {
        let before = |back: usize| start.checked_sub(back).map_or("", |at| self.word(at));
        let article = usize::from(matches!(before(1), "a" | "the" | "an"));
        let (last, second) = (before(1 + article), before(2 + article));
        match (second, last) {
            ("at", "least") | ("less", "than") | ("a", "minimum") => return Nearness::AtLeast,
            ("up", "to") | ("at", "most") | ("a", "maximum") => return Nearness::AtMost,
            ("more", "than") => return Nearness::Over,
            ("shy" | "short", "of") => return Nearness::Under,
            ("close", "to") | ("something", "like") => return Nearness::About,
            _ => {}
        }
        match last {
            "about" | "around" | "roughly" | "approximately" | "circa" | "approx" | "maybe"
            | "say" => return Nearness::About,
            "nearly" | "almost" | "under" | "below" => return Nearness::Under,
            "over" | "above" | "past" => return Nearness::Over,
            _ => {}
        }
        let after = (self.word(end), self.word(end + 1));
        let hedged = matches!(
            after,
            ("or", "so" | "thereabouts")
                | ("give", "or")
                | ("roughly" | "ish" | "approximately", _)
        ) || after.0 == "about" && self.ends_clause(end + 1)
            || self.word(past_dash(self.all, end)) == "ish";
        let inside = (start..end).any(|at| matches!(self.word(at), "ish" | "odd" | "so"));
        if hedged || inside || vague {
            Nearness::About
        } else {
            Nearness::Exact
        }
    }

    fn ends_clause(&self, at: usize) -> bool {
        self.all
            .get(at)
            .is_none_or(|token| matches!(token.what, What::Mark('.' | ',' | ';' | '!' | '?')))
    }
}
