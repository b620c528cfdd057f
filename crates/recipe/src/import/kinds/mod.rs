//! What each line of a pasted text is: title, heading, ingredient, step and so on.

mod around;
mod heading;
mod letter;
mod seen;

use super::act;
use super::line::read_line;
use super::model::{Line, LineKind, Mark};
use super::split::{Bare, Raw, bare};
use crate::larder::Larder;
use crate::measure::read::sentence::{Token, What, tokens};
use around::{is_closing, is_junk, is_note, makes, time_of_all};
use heading::{heading_of, part_heading};
pub use letter::subject;
use letter::{Outer, letter};
use seen::{Seen, begins_with_amount, like_an_amount};
use std::collections::BTreeMap;

/// Which part of a text a line stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    /// Before anything of the recipe.
    Start,
    /// Among the things that go in.
    Amounts,
    /// Among the things done.
    Method,
    /// After it: notes.
    Notes,
    /// After it: what is no recipe.
    Rest,
}

/// Every line with its kind, in order; `said` has those that somebody has said, by number.
pub fn kinds(raws: &[Raw<'_>], said: &BTreeMap<usize, LineKind>, larder: &Larder) -> Vec<Line> {
    let mut part = Part::Start;
    let mut titled = false;
    let has_list = raws.iter().any(|raw| {
        heading_of(&bare(raw.text).text.to_lowercase())
            .is_some_and(|(part, _)| part == Part::Amounts)
    }) || raws
        .iter()
        .filter(|raw| like_an_amount(&bare(raw.text)))
        .count()
        >= 2;
    let letter = letter(raws);
    let mut lines: Vec<Line> = Vec::with_capacity(raws.len());
    for (index, raw) in raws.iter().enumerate() {
        let seen = Seen::new(raw, larder);
        let next = raws[index + 1..]
            .iter()
            .find(|raw| !raw.text.trim().is_empty());
        let next = next.map(|raw| bare(raw.text));
        let after_blank = index == 0 || raws[index - 1].text.trim().is_empty();
        let kind = match letter.get(&index) {
            Some(Outer::Subject) if !titled => {
                titled = true;
                LineKind::Title
            }
            Some(_) => LineKind::Other,
            None => {
                let around = Around {
                    next,
                    after_blank,
                    has_list,
                    letter: !letter.is_empty(),
                };
                kind(&seen, &mut part, &mut titled, around)
            }
        };
        let kind = said.get(&raw.number).copied().unwrap_or(kind);
        part = part_after(kind, part);
        lines.push(line(raw, kind, &seen));
    }
    lines
}

/// The part that a line of this kind leaves behind, when somebody has said what it is.
const fn part_after(kind: LineKind, part: Part) -> Part {
    match (kind, part) {
        (LineKind::Ingredient, Part::Start) => Part::Amounts,
        (LineKind::Step, Part::Start | Part::Amounts) => Part::Method,
        _ => part,
    }
}

/// What stands around a line.
#[derive(Clone, Copy)]
struct Around<'t> {
    /// The next line that is not blank.
    next: Option<Bare<'t>>,
    /// Whether a blank line stands before it.
    after_blank: bool,
    /// Whether the text has a list of things that go in.
    has_list: bool,
    /// Whether the text is a letter.
    letter: bool,
}

fn kind(seen: &Seen<'_>, part: &mut Part, titled: &mut bool, around: Around<'_>) -> LineKind {
    let Around {
        next,
        after_blank,
        has_list,
        letter,
    } = around;
    let lower = seen.lower.as_str();
    if seen.bare.text.is_empty() {
        return LineKind::Blank;
    }
    if !lower.chars().any(char::is_alphanumeric) || is_junk(lower, seen) {
        return LineKind::Other;
    }
    if let Some((begins, true)) = heading_of(lower) {
        *part = begins;
        // What readers wrote is no part of the recipe, and neither is what stands above it.
        let readers = [
            "comment",
            "review",
            "reply",
            "share",
            "related",
            "more recipes",
            "you may also",
        ];
        if begins == Part::Rest && readers.iter().any(|word| lower.contains(word)) {
            return LineKind::Other;
        }
        return LineKind::Heading;
    }
    if *part == Part::Rest {
        return LineKind::Other;
    }
    let in_method = matches!(part, Part::Method);
    if makes(seen, *part, in_method) {
        return LineKind::Makes;
    }
    if !in_method && time_of_all(seen) {
        return LineKind::Time;
    }
    if is_note(lower, seen) {
        return LineKind::Note;
    }
    if !*titled
        && *part == Part::Start
        && !seen.orders()
        && (!seen.amount || !seen.goes_in())
        && seen.words <= 14
        && !(letter && (seen.ends() || seen.words > 9 || seen.bare.text.ends_with([',', ':'])))
    {
        *titled = true;
        return LineKind::Title;
    }
    match part {
        Part::Start if letter && seen.talks() => LineKind::Other,
        Part::Start => start(seen, part, next, after_blank, has_list),
        Part::Amounts => amounts(seen, part, next, after_blank),
        Part::Method => {
            // A second recipe part: a heading, then things that go in.
            if part_heading(seen, next, after_blank) {
                if next.is_some_and(|next| begins_with_amount(&tokens(next.text)) && !next.counted)
                {
                    *part = Part::Amounts;
                }
                return LineKind::Heading;
            }
            // Among the steps of a second day stands what goes in then.
            if seen.lists() {
                *part = Part::Amounts;
                return LineKind::Ingredient;
            }
            if after_blank && is_closing(lower, seen) {
                return LineKind::Note;
            }
            if letter && seen.talks() {
                return LineKind::Other;
            }
            LineKind::Step
        }
        Part::Notes => LineKind::Note,
        Part::Rest => LineKind::Other,
    }
}

/// A line before the recipe has begun.
fn start(
    seen: &Seen<'_>,
    part: &mut Part,
    next: Option<Bare<'_>>,
    after_blank: bool,
    has_list: bool,
) -> LineKind {
    if part_heading(seen, next, after_blank) {
        *part = Part::Amounts;
        return LineKind::Heading;
    }
    if seen.needs() {
        *part = Part::Amounts;
        return LineKind::Ingredient;
    }
    if seen.goes_in() && (seen.amount || seen.bare.bullet) && !(seen.orders() && seen.ends()) {
        *part = Part::Amounts;
        return LineKind::Ingredient;
    }
    let works =
        !has_list && seen.orders() && (act::act(&seen.tokens).is_some() || seen.bare.counted);
    let tells = !has_list && seen.tells();
    if tells || works && (begins_here(seen) || seen.bare.counted) {
        *part = Part::Method;
        return LineKind::Step;
    }
    LineKind::About
}

/// Whether a sentence before any list begins the work itself: it names an amount, a time, or
/// begins with a verb of the kitchen.
fn begins_here(seen: &Seen<'_>) -> bool {
    let first = seen.tokens.first().map_or("", Token::word);
    act::is_verb(first)
        || seen
            .tokens
            .iter()
            .any(|t| matches!(t.what, What::Number(_)))
}

/// A line among the things that go in.
fn amounts(
    seen: &Seen<'_>,
    part: &mut Part,
    next: Option<Bare<'_>>,
    after_blank: bool,
) -> LineKind {
    if part_heading(seen, next, after_blank) {
        return LineKind::Heading;
    }
    let sentence = seen.ends() && seen.words >= 5;
    let works = seen.orders() && act::act(&seen.tokens).is_some();
    let listed = seen.amount && !seen.bare.counted;
    if listed && seen.run_on() {
        return LineKind::Ingredient;
    }
    let method = (seen.bare.counted && works)
        || (!listed && works && (sentence || after_blank || !seen.goes_in()))
        || (!listed && sentence && (after_blank || seen.words >= 8))
        || (listed && sentence && seen.words >= 12 && after_blank);
    if method {
        *part = Part::Method;
        return LineKind::Step;
    }
    LineKind::Ingredient
}

/// A line of the text, with what was read of it.
fn line(raw: &Raw<'_>, kind: LineKind, seen: &Seen<'_>) -> Line {
    let (mark, reason, readings) = if kind == LineKind::Ingredient {
        seen.read().clone()
    } else {
        (Mark::Understood, None, Vec::new())
    };
    Line {
        number: raw.number,
        span: raw.span,
        text: raw.text.to_owned(),
        kind,
        mark,
        reason,
        readings,
    }
}

/// A line of structured data whose kind is known.
pub fn plain_line(number: usize, text: &str, kind: LineKind) -> Line {
    Line {
        number,
        span: crate::source::Span::default(),
        text: text.to_owned(),
        kind,
        mark: Mark::Understood,
        reason: None,
        readings: Vec::new(),
    }
}

/// An ingredient of structured data.
pub fn as_ingredient(number: usize, text: &str, larder: &Larder) -> Line {
    let (mark, reason, readings) = read_line(bare(text).text, larder);
    Line {
        mark,
        reason,
        readings,
        ..plain_line(number, text, LineKind::Ingredient)
    }
}
