//! What goes in when only the sentences say it: "stir 2 g instant yeast into 400 g water".

use super::clause::sentences;
use super::line::{read_line, says_state};
use super::model::{LineUnit, Reading};
use super::place::{place, shapes};
use crate::larder::Larder;
use crate::measure::read::prose::leading_amount;
use crate::measure::read::sentence::{Token, What, count_word, tokens};

/// Words at which the name of a thing ends.
const STOPS: &[&str] = &[
    "into",
    "in",
    "until",
    "over",
    "with",
    "to",
    "for",
    "on",
    "onto",
    "from",
    "then",
    "while",
    "at",
    "if",
    "when",
    "so",
    "that",
    "together",
    "through",
    "around",
    "as",
    "before",
    "after",
    "by",
    "but",
    "till",
    "is",
    "are",
    "little",
    "gradually",
    "slowly",
    "once",
    "each",
    "between",
    "where",
    "which",
    "without",
    "under",
    "again",
    "or",
    "while",
    "using",
    "along",
    "aside",
    "apart",
    "away",
    "back",
    "mixed",
    "stirred",
    "whisked",
    "thinned",
    "rubbed",
];

/// Units of what is not put in.
const NOT_AMOUNTS: &[&str] = &[
    "minute", "minutes", "min", "mins", "hour", "hours", "hr", "hrs", "h", "second", "seconds",
    "sec", "day", "days", "cm", "mm", "inch", "inches", "in", "m", "degrees", "c", "f", "pieces",
    "times", "balls", "strips", "rolls", "buns", "loaves", "portions", "ropes", "parts", "equal",
    "weeks", "months", "more", "x",
];

/// Things that the sentences of a paragraph put in by amount; `shaped` says whether there are pieces
/// already, and is kept up to date.
pub fn in_text(text: &str, larder: &Larder, shaped: &mut bool) -> Vec<Reading> {
    let mut found = Vec::new();
    for sentence in sentences(text) {
        let begins = if *shaped { Some(0) } else { shapes(sentence) };
        found.extend(put_in(sentence, larder, begins));
        *shaped |= begins.is_some();
    }
    found
}

/// Things that a sentence puts in by amount.
pub fn in_sentence(text: &str, larder: &Larder) -> Vec<Reading> {
    put_in(text, larder, None)
}

/// The same, where pieces are there from a byte of the sentence on.
fn put_in(text: &str, larder: &Larder, pieces_from: Option<usize>) -> Vec<Reading> {
    let all = tokens(text);
    let mut found = Vec::new();
    let mut at = 0;
    while at < all.len() {
        let Some(end) = phrase(text, &all, at) else {
            at += 1;
            continue;
        };
        let (start, stop) = (all[at].span.start, all[end - 1].span.end);
        let words = &text[start..stop];
        // "An egg" is one, where it is counted and not chosen.
        let article = matches!(all[at].word(), "a" | "an") && counts_egg(&all, at);
        let counted = article.then(|| format!("1{}", &text[all[at].span.end..stop]));
        let (_, _, readings) = read_line(counted.as_deref().unwrap_or(words), larder);
        let mut any = false;
        for mut reading in readings {
            let unmeasured = vague(&all, at) && reading.amount.is_none();
            let nothing = reading.amount.is_none() && !(unmeasured && reading.key.is_some());
            if nothing || reading.key.is_none() && !stuff(&reading) {
                continue;
            }
            reading.said = (!any).then(|| without_state(words, &reading).to_owned());
            any = true;
            let pieces = pieces_from.is_some_and(|from| start >= from);
            reading.place = reading.place.or_else(|| place(text, start, stop, pieces));
            found.push(reading);
        }
        at = if any { end } else { at + 1 };
    }
    found
}

/// The words of an amount and its thing, without what is done to it: "1 yolk beaten".
fn without_state<'t>(words: &'t str, reading: &Reading) -> &'t str {
    let last = reading.words.split_whitespace().last().unwrap_or("");
    let Some(at) = words.rfind(last).filter(|_| !last.is_empty()) else {
        return words;
    };
    let end = at + last.len();
    let tail = words[end..].split_whitespace();
    if words[end..].starts_with(' ') && tail.clone().all(says_state) {
        &words[..end]
    } else {
        words
    }
}

/// Whether words that measure nothing begin here, behind which a thing is named all the same:
/// "a spoonful of sugar", "the zest of one orange".
fn vague(all: &[Token], at: usize) -> bool {
    let word = |ahead: usize| all.get(at + ahead).map_or("", Token::word);
    let spoon = matches!(word(0), "a" | "an")
        && matches!(word(1), "glass" | "glassful" | "bit" | "touch" | "scrape");
    let peel = |ahead: usize| {
        matches!(word(ahead), "zest" | "juice" | "rind" | "peel") && word(ahead + 1) == "of"
    };
    let before = at.checked_sub(1).map_or("", |before| all[before].word());
    let fruit = matches!(word(0), "the" | "grated" | "finely") && (1..4).any(peel)
        || peel(0) && !matches!(before, "the" | "grated");
    spoon || fruit
}

/// Whether a reading that the larder does not know is of something to eat: weighed or spooned, and
/// no dough or vessel.
fn stuff(reading: &Reading) -> bool {
    let words = reading.words.to_lowercase();
    let weighed = reading.amount.as_ref().is_some_and(|amount| {
        amount
            .pieces
            .iter()
            .all(|piece| !matches!(piece.unit, LineUnit::Number | LineUnit::Thing(_)))
    });
    let other = [
        "dough", "piece", "ball", "loaf", "each", "mixture", "roll", "strip",
    ]
    .iter()
    .any(|word| words.contains(word));
    weighed
        && !other
        && !super::tin::names_vessel(&words)
        && words.split_whitespace().count() <= 5
        && !words.is_empty()
}

/// Where the phrase that begins with an amount here ends; none when no amount begins here.
fn phrase(text: &str, all: &[Token], at: usize) -> Option<usize> {
    if !(amount_begins(text, all, at) || vague(all, at)) {
        return None;
    }
    let mut end = at + 1;
    let mut deep = 0_usize;
    while let Some(token) = all.get(end) {
        if token.is('(') {
            deep += 1;
        } else if token.is(')') {
            deep = deep.saturating_sub(1);
        }
        let word = token.word();
        let before = all[end - 1].word();
        // "3 and a half cups", "a teaspoon and a half": the number goes on.
        let half = word == "and"
            && all.get(end + 1).is_some_and(|t| t.word() == "a")
            && all
                .get(end + 2)
                .is_some_and(|t| matches!(t.word(), "half" | "quarter"))
            && (end == at + 1 || end == at + 2);
        // "550 g of flour a handful at a time": another thing is said.
        let again = matches!(word, "a" | "an")
            && !matches!(
                before,
                "of" | "half" | "and" | "about" | "quarter" | "quarters"
            )
            && end > at + 1;
        let stop = deep == 0
            && !half
            && (token.is('.') && end > at + 2
                || token.is(';')
                || token.is('!')
                || token.is(':')
                || token.is('—')
                || STOPS.contains(&word)
                || again
                || token.is(',')
                || word == "and"
                || word == "plus" && amount_begins(text, all, end + 1));
        if stop || end - at > 16 {
            break;
        }
        end += if half { 3 } else { 1 };
    }
    let end = end.min(all.len());
    (end > at + 1).then_some(end)
}

/// Packs and gestures that a sentence may measure with.
const GESTURES: &[&str] = &[
    "pinch",
    "knob",
    "dash",
    "handful",
    "drop",
    "splash",
    "packet",
    "stick",
    "clove",
    "dessertspoon",
    "teacup",
    "gill",
    "sprig",
    "bunch",
    "pod",
    "dollop",
    "glug",
    "spoon",
];

/// Whether an amount of something begins at a token.
fn amount_begins(text: &str, all: &[Token], at: usize) -> bool {
    let Some(token) = all.get(at) else {
        return false;
    };
    let next = all.get(at + 1).map_or("", Token::word);
    let before = at.checked_sub(1).and_then(|before| all.get(before));
    match &token.what {
        What::Number(_) => {
            let after_number = all.get(at + 1);
            let range = after_number.is_some_and(|t| t.is_dash() || t.word() == "to");
            let half = next == "and" && all.get(at + 2).is_some_and(|t| t.word() == "a");
            let unit = if range {
                all.get(at + 3).map_or("", Token::word)
            } else if half {
                all.get(at + 4).map_or("", Token::word)
            } else {
                next
            };
            let heat = after_number.is_some_and(|t| t.is('°') || t.is('º') || t.is('%'));
            let inside = before
                .is_some_and(|t| t.is_dash() || matches!(t.word(), "to" | "x" | "mark" | "gas"));
            !unit.is_empty() && !heat && !inside && !NOT_AMOUNTS.contains(&unit)
        }
        What::Word(word) => match word.as_str() {
            // "about 1 kg", "around two cups"
            "about" | "around" | "roughly" | "approximately" => {
                !matches!(next, "a" | "an") && amount_begins(text, all, at + 1)
            }
            "a" | "an" | "half" | "quarter" | "three" | "level" | "heaped" | "heaping"
            | "rounded" | "scant" | "generous" => {
                let inside = before.is_some_and(|t| {
                    matches!(
                        t.word(),
                        "half" | "a" | "an" | "quarter" | "quarters" | "about"
                    ) || t.word() == "of"
                        && at
                            .checked_sub(2)
                            .is_some_and(|at| matches!(all[at].word(), "quarter" | "quarters"))
                });
                next == "little" && word == "a"
                    || !inside && measures(&text[token.span.start..])
                    || counts_egg(all, at)
            }
            _ => {
                count_word(word).is_some()
                    && !matches!(word.as_str(), "another" | "couple" | "dozen")
                    && (measures(&text[token.span.start..]) || counts_egg(all, at))
            }
        },
        What::Mark(_) => false,
    }
}

/// Whether a text begins with a number in words and a unit: "half a gram", "two teaspoonfuls".
fn measures(rest: &str) -> bool {
    leading_amount(rest).is_some_and(|said| match said.piece.unit {
        LineUnit::Number => false,
        LineUnit::Thing(unit) => GESTURES.contains(&unit),
        _ => true,
    })
}

/// Whether a number in words counts eggs: "an egg", "two beaten eggs", "three yolks".
fn counts_egg(all: &[Token], at: usize) -> bool {
    let egg = all[at + 1..].iter().take(5).position(|token| {
        matches!(
            token.word(),
            "egg" | "eggs" | "yolk" | "yolks" | "white" | "whites"
        )
    });
    egg.is_some_and(|egg| {
        all[at + 1..at + 1 + egg].iter().all(|token| {
            matches!(
                token.word(),
                "beaten"
                    | "large"
                    | "small"
                    | "medium"
                    | "whole"
                    | "lightly"
                    | "cold"
                    | "fresh"
                    | "more"
                    | "extra"
                    | "well"
                    | "good"
                    | "big"
                    | "free"
                    | "range"
            ) || token.is('-')
        })
    })
}

/// Whether a list of what goes in is told as a sentence: "For two plaits you need 1 kg of flour, ...".
pub fn is_sentence(line: &str) -> bool {
    line.trim_end().ends_with(['.', '!']) && line.split_whitespace().count() > 14
}

/// Whether a reading takes a part of what another one put in: "100 g of the flour".
pub fn is_part(one: &Reading, all: &[Reading]) -> bool {
    let said = one.said.as_deref().unwrap_or("").to_lowercase();
    [" of the ", " of that ", " of this ", " of your "]
        .iter()
        .any(|words| said.contains(words))
        && all
            .iter()
            .any(|other| other != one && same_name(one, other))
}

/// Whether a list has a reading already: the same thing, by the same amount.
pub fn is_listed(one: &Reading, listed: &[Reading]) -> bool {
    listed
        .iter()
        .any(|other| same_name(one, other) && (one.amount == other.amount || one.amount.is_none()))
}

/// Whether a name is another's, or its last words.
fn same_name(one: &Reading, other: &Reading) -> bool {
    let (short, long) = (one.words.to_lowercase(), other.words.to_lowercase());
    one.key.is_some() && one.key == other.key
        || long
            .strip_suffix(short.as_str())
            .is_some_and(|rest| rest.is_empty() || rest.ends_with(' '))
}
