//! What goes in when only the sentences say it: "stir 2 g instant yeast into 400 g water".

use super::act;
use super::line::read_line;
use super::model::{LineUnit, Mark, Reading};
use crate::document::model::Place;
use crate::larder::Larder;
use crate::measure::read::sentence::{Token, What, tokens};

/// Words at which the name of a thing ends.
const STOPS: &[&str] = &[
    "into", "in", "until", "over", "with", "to", "for", "on", "onto", "from", "then", "while",
    "at", "if", "when", "so", "that", "together", "through", "around", "as", "before", "after",
    "by",
];

/// Units of what is not put in.
const NOT_AMOUNTS: &[&str] = &[
    "minute", "minutes", "min", "mins", "hour", "hours", "hr", "hrs", "h", "second", "seconds",
    "sec", "day", "days", "cm", "mm", "inch", "inches", "in", "m", "degrees", "c", "f", "pieces",
    "times", "balls", "strips", "rolls", "buns", "loaves", "portions", "ropes", "parts", "equal",
    "weeks", "months", "more", "x",
];

/// Things that a sentence puts in by amount, with their marks.
pub fn in_sentence(text: &str, larder: &Larder) -> Vec<(Mark, Reading)> {
    let all = tokens(text);
    let mut found = Vec::new();
    let mut at = 0;
    while at < all.len() {
        let Some(end) = phrase(&all, at) else {
            at += 1;
            continue;
        };
        let words = &text[all[at].span.start..all[end - 1].span.end];
        let (mark, _, readings) = read_line(words, larder);
        let mut any = false;
        for mut reading in readings {
            let unmeasured = vague(&all, at) && reading.amount.is_none();
            let nothing = reading.amount.is_none() && !(unmeasured && reading.key.is_some());
            if nothing || reading.key.is_none() && !stuff(&reading) {
                continue;
            }
            any = true;
            reading.place = reading
                .place
                .or_else(|| place(text, all[at].span.start, all[end - 1].span.end));
            found.push((mark, reading));
        }
        at = if any { end } else { at + 1 };
    }
    found
}

/// Whether words that measure nothing begin here, behind which a thing is named all the same:
/// "a spoonful of sugar", "the zest of one orange".
fn vague(all: &[Token], at: usize) -> bool {
    let word = |ahead: usize| all.get(at + ahead).map_or("", Token::word);
    let spoon = matches!(word(0), "a" | "an")
        && matches!(
            word(1),
            "spoonful" | "spoon" | "glass" | "glassful" | "bit" | "touch" | "scrape"
        );
    let fruit = matches!(word(0), "the" | "grated" | "finely")
        && (1..4).any(|ahead| {
            matches!(word(ahead), "zest" | "juice" | "rind" | "peel") && word(ahead + 1) == "of"
        });
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
fn phrase(all: &[Token], at: usize) -> Option<usize> {
    if !(amount_begins(all, at) || vague(all, at)) {
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
        let next = all.get(end + 1).map_or("", Token::word);
        let stop = deep == 0
            && (token.is('.') && end > at + 2
                || token.is(';')
                || token.is('!')
                || token.is(':')
                || STOPS.contains(&word)
                || (token.is(',') || word == "and" || word == "plus")
                    && (amount_begins(all, end + 1)
                        || act::is_verb(next)
                        || word == "and"
                        || token.is(',')));
        if stop || end - at > 16 {
            break;
        }
        end += 1;
    }
    (end > at + 1).then_some(end)
}

/// Whether an amount of something begins at a token.
fn amount_begins(all: &[Token], at: usize) -> bool {
    let Some(token) = all.get(at) else {
        return false;
    };
    let next = all.get(at + 1).map_or("", Token::word);
    match &token.what {
        What::Number(_) => {
            let after_number = all.get(at + 1);
            let range = after_number.is_some_and(|t| t.is_dash() || t.word() == "to");
            let unit = if range {
                all.get(at + 3).map_or("", Token::word)
            } else {
                next
            };
            let heat = after_number.is_some_and(|t| t.is('°') || t.is('º') || t.is('%'));
            let before = at.checked_sub(1).and_then(|before| all.get(before));
            let inside = before
                .is_some_and(|t| t.is_dash() || matches!(t.word(), "to" | "x" | "mark" | "gas"));
            !unit.is_empty() && !heat && !inside && !NOT_AMOUNTS.contains(&unit)
        }
        What::Word(word) => {
            matches!(word.as_str(), "a" | "an")
                && matches!(
                    next,
                    "pinch"
                        | "handful"
                        | "knob"
                        | "dash"
                        | "splash"
                        | "cup"
                        | "tablespoon"
                        | "teaspoon"
                        | "little"
                        | "drop"
                )
                || word == "half"
                    && matches!(next, "a")
                    && matches!(
                        all.get(at + 2).map_or("", Token::word),
                        "cup"
                            | "litre"
                            | "liter"
                            | "teaspoon"
                            | "tablespoon"
                            | "kilo"
                            | "pound"
                            | "pint"
                            | "ounce"
                    )
                || matches!(
                    word.as_str(),
                    "one" | "two" | "three" | "four" | "five" | "six"
                ) && (matches!(
                    next,
                    "egg"
                        | "eggs"
                        | "cup"
                        | "cups"
                        | "tablespoon"
                        | "tablespoons"
                        | "teaspoon"
                        | "teaspoons"
                        | "large"
                        | "medium"
                        | "packet"
                        | "packets"
                        | "sticks"
                        | "lb"
                        | "oz"
                        | "pound"
                        | "pounds"
                        | "ounce"
                        | "ounces"
                        | "pint"
                        | "pints"
                        | "yolk"
                        | "yolks"
                ))
        }
        What::Mark(_) => false,
    }
}

/// For what a thing is, from the clause around it.
fn place(text: &str, start: usize, end: usize) -> Option<Place> {
    let lower = text.to_lowercase();
    // Lower case may move bytes in rare scripts; then nothing is said.
    if lower.len() != text.len() {
        return None;
    }
    let before = lower[..start].rsplit(['.', ';']).next().unwrap_or("");
    let after = lower[end..].split(['.', ';']).next().unwrap_or("");
    let clause = after.split([',']).next().unwrap_or("");
    if [
        "over the top",
        "on top",
        "over the loaf",
        "over the loaves",
        "over the buns",
        "over the rolls",
        "onto the top",
    ]
    .iter()
    .any(|words| after.contains(words))
        || before.contains("brush")
    {
        return Some(Place::Top);
    }
    if before.contains("dust the")
        || before.contains("flour the")
        || [
            "for dusting",
            "on the bench",
            "on the worktop",
            "on the work surface",
        ]
        .iter()
        .any(|words| after.contains(words))
    {
        return Some(Place::Bench);
    }
    if before.contains("grease")
        || [
            "into a tin",
            "into the tin",
            "in the tin",
            "into a pan",
            "into the pan",
            "into a tray",
            "onto a tray",
            "into a baking",
            "over the tray",
            "for the tin",
            "for greasing",
        ]
        .iter()
        .any(|words| clause.contains(words))
    {
        return Some(Place::Tin);
    }
    None
}
