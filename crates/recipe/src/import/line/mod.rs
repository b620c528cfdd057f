//! Reads one pasted ingredient line: how much, of what, for where, in what state, and what is left open.

mod aside;
mod clean;
mod fruit;
mod head;
mod judge;
mod name;
mod parts;
mod separated;
mod state;
mod thing;
mod weight;
mod words;

use super::model::{LineUnit, Mark, Reading};
use crate::larder::Larder;
use thing::Thing;
use words::{FAMILIES, NO_INGREDIENT, TOOLS, bare, holds};

/// Longer lines are prose.
const LONGEST: usize = 400;

/// Reads one line of a list of ingredients.
///
/// The reason is there when the line is not wholly understood, or when something was taken for
/// granted. No amount is ever made up: each stands in the line, or is the sum of its packs.
///
/// ```
/// use recipe::import::{Mark, line::read_line};
/// use recipe::larder::Larder;
///
/// let (mark, reason, things) = read_line("1 tbsp sugar", &Larder::open());
/// assert_eq!((mark, reason), (Mark::Understood, None));
/// assert_eq!(things[0].key.as_deref(), Some("sugar_granulated"));
/// ```
pub fn read_line(text: &str, larder: &Larder) -> (Mark, Option<String>, Vec<Reading>) {
    let nothing = |why: &str| (Mark::NotUnderstood, Some(why.to_owned()), Vec::new());
    if text.len() > LONGEST {
        return nothing("The line is longer than one of a list of ingredients.");
    }
    let cleaned = clean::clean(text);
    if cleaned.is_empty() {
        return nothing("Nothing is written here.");
    }
    if clean::is_heading(text, &cleaned) {
        return nothing("This is a heading.");
    }
    let things = parts::parts(larder, &cleaned);
    if things.is_empty() || things.iter().any(|thing| is_none(thing, &cleaned)) {
        return nothing("No ingredient is found in this line.");
    }
    let mut mark = Mark::Understood;
    let mut reason: Option<String> = None;
    let mut readings = Vec::new();
    for thing in things {
        let reading = judge::judge(larder, thing);
        if reading.mark > mark {
            mark = reading.mark;
            reason.clone_from(&reading.reason);
        } else if reason.is_none() {
            reason.clone_from(&reading.reason);
        }
        readings.push(reading);
    }
    (mark, reason, readings)
}

/// Whether a word says a state, or how far it goes: "beaten", "lightly".
pub fn says_state(word: &str) -> bool {
    words::is_state(word) || words::is_adverb(word)
}

/// Whether a thing is no ingredient: nothing known and nothing measured, or a tool.
fn is_none(thing: &Thing, line: &str) -> bool {
    if thing.named.is_some() {
        return false;
    }
    let words: Vec<String> = thing.words.split_whitespace().map(bare).collect();
    if words.iter().all(String::is_empty) || words.len() > 6 {
        return true;
    }
    if words.last().is_some_and(|last| holds(&TOOLS, last)) {
        return true;
    }
    let first = line.split_whitespace().next().map(bare).unwrap_or_default();
    if holds(&NO_INGREDIENT, &first) {
        return true;
    }
    let counted = thing.amount.as_ref().is_some_and(|amount| {
        amount
            .pieces
            .iter()
            .any(|piece| piece.unit == LineUnit::Number)
    });
    match &thing.amount {
        None => {
            let family =
                words.len() <= 3 && words.last().is_some_and(|last| holds(&FAMILIES, last));
            thing.place.is_none() && !thing.at_will && !family
        }
        // "3 wise men" may be anything; two words at most name a thing that is counted.
        Some(_) => counted && words.len() > 3,
    }
}
