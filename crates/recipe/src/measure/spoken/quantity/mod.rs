//! Finds every quantity in a stretch of speech: number or range, unit, what is added, how near it is meant.

mod elided;
mod fixed;
mod put_right;
mod single;

use super::idiom;
use super::number::{Number, number, past_dash, word};
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
            Heard::Quantity(mut quantity, end) => {
                let fan = (0..3).any(|more| word(&all, end + more) == "fan");
                if let Some(before) = found.last_mut() {
                    degrees_alike(text, before, &mut quantity, fan);
                    side_alike(text, before, &mut quantity, word(&all, end));
                    elided::carry_on(text, before, &mut quantity);
                }
                if let Some(before) = found.last()
                    && let Some(meant) = elided::not_over(text, before, &quantity)
                {
                    *quantity = meant;
                    found.pop();
                } else if let Some(before) = found.last() {
                    // "four hundred grams, no, sorry, four hundred and twenty"
                    let same = elided::in_unit_of(before, &quantity);
                    if let Some(same) = same
                        && put_right::put_right(text, before, &same)
                    {
                        *quantity = same;
                        found.pop();
                    } else if put_right::put_right(text, before, &quantity) {
                        found.pop();
                    }
                }
                // "Overnight, say nine hours"
                if let Some(before) = found.last()
                    && elided::says_how_long(text, before, &quantity)
                {
                    quantity.nearness = Nearness::About;
                    found.pop();
                }
                // "one, two, three cups"
                let measured = quantity.unit.size().is_some();
                if measured
                    && found
                        .last()
                        .is_some_and(|before| elided::counts_up(text, before, &quantity))
                {
                    single_out(&mut quantity);
                    while found
                        .last()
                        .is_some_and(|before| elided::counted_before(text, before, &quantity))
                    {
                        found.pop();
                    }
                }
                found.push(*quantity);
                end
            }
            Heard::Passed(end) => end,
            Heard::Nothing => at + 1,
        };
    }
    found
}

/// Leaves the last number of a row that was counted: three of "two, three cups".
fn single_out(quantity: &mut Spoken) {
    let high = quantity.high;
    quantity.low = high;
    match &mut quantity.meant {
        Meant::Mass(range) => range.low = range.high,
        Meant::Volume(range) => range.low = range.high,
        Meant::Time(range) => range.low = range.high,
        Meant::Length(range) => range.low = range.high,
        _ => {}
    }
}

/// "gas five, which is one-ninety", "a hundred and eighty, or one-sixty with the fan on".
fn degrees_alike(text: &str, before: &mut Spoken, own: &mut Spoken, fan: bool) {
    let gap = text.get(before.span.end..own.span.start).unwrap_or("");
    let Meant::Number(low, high) = own.meant else {
        return;
    };
    if !(100.0..=500.0).contains(&low) {
        return;
    }
    let same = ["which is", "that's", "so that's"]
        .iter()
        .any(|words| gap.contains(words));
    if matches!(before.meant, Meant::Gas(..)) && same && gap.len() <= SIDE_BYTES {
        own.unit = SpokenUnit::Degrees;
        own.meant = Meant::Degrees(low, high);
    } else if let (true, Meant::Number(from, to)) = (fan, before.meant.clone())
        && matches!(gap.trim(), ", or" | "or" | ",")
        && from > low
    {
        before.unit = SpokenUnit::Degrees;
        before.meant = Meant::Degrees(from, to);
        own.unit = SpokenUnit::Degrees;
        own.meant = Meant::Degrees(low, high);
    }
}

/// "six and a half inches across and four tall": a side without its unit has that of the side before.
fn side_alike(text: &str, before: &Spoken, own: &mut Spoken, next: &str) {
    let gap = text.get(before.span.end..own.span.start).unwrap_or("");
    // "twelve hours, ten at a push", "fifteen minutes with steam and twenty-five without"
    if let (SpokenUnit::Time(size), Meant::Number(low, high)) = (before.unit, &own.meant)
        && (matches!(gap.trim(), "," | ", or" | "or") && next == "at"
            || gap.len() <= SIDE_BYTES && gap.contains("with ") && next == "without")
    {
        own.unit = before.unit;
        own.meant = Meant::Time(Range {
            low: Duration::from_si(low * size),
            high: Duration::from_si(high * size),
        });
        return;
    }
    let SpokenUnit::Length(size) = before.unit else {
        return;
    };
    let dimension = matches!(
        next,
        "tall" | "high" | "deep" | "wide" | "long" | "across" | "thick"
    );
    if let Meant::Number(low, high) = own.meant
        && dimension
        && gap.len() <= SIDE_BYTES
        && !gap.contains(['.', ';', '?', '!'])
    {
        own.unit = before.unit;
        own.meant = Meant::Length(Range {
            low: Length::from_si(low * size),
            high: Length::from_si(high * size),
        });
    }
}

/// A second side stands within so many bytes of the first.
const SIDE_BYTES: usize = 24;

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

/// The first word of a quantity, and the word after it.
fn single_words(single: &Single) -> idiom::Words {
    idiom::Words {
        first: single.number.0,
        number_end: single.number.1 + 1,
        end: single.end,
        low: single.low,
        unit: single.unit,
        article: single.article,
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
        if idiom::is_one(self.all, at) {
            return Heard::Passed(at + 1);
        }
        let (start, between) = match self.word(at) {
            "between" => (at + 1, true),
            _ => (at, false),
        };
        if let Some(heard) = self.below_nought(at) {
            return heard;
        }
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
        if single.unit == SpokenUnit::None && Self::is_year(&single, &first)
            || idiom::ends_one(self.all, &single_words(&single))
        {
            return Heard::Passed(idiom::price(self.all, single.end));
        }
        if let Some(end) = self.pounds(&single) {
            return Heard::Passed(end);
        }
        let (single, second, end) = self.second_end(single, between);
        self.quantity(start, &single, second, end)
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
