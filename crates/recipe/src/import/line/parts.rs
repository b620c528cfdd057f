//! How a line falls into the things that go in: at a plus, an and or a comma with an amount behind it.

use super::fruit::{fruit, peel, zest_and_juice};
use super::head::head;
use super::name::named;
use super::separated::separated;
use super::thing::{Thing, after_word, thing};
use super::words::{NO_INGREDIENT, bare, holds, place};
use crate::import::model::LineUnit;
use crate::larder::Larder;

/// Words between two things of one line.
const BETWEEN: &[&str] = &[
    ", plus ",
    " plus ",
    ", and ",
    " and ",
    " & ",
    " + ",
    "; ",
    ", ",
    " mixed with ",
    " with ",
];

/// The things of a line, in order; none when nothing of it can be one.
pub(super) fn parts(larder: &Larder, text: &str) -> Vec<Thing> {
    let text = text.trim().trim_end_matches([',', ';', '.']).trim();
    if text.is_empty() {
        return Vec::new();
    }
    if let Some(both) = separated(text) {
        return both.iter().map(|one_part| one(larder, one_part)).collect();
    }
    if let Some(things) = shared(larder, text) {
        return things;
    }
    if let Some((left, right)) = cut(larder, text) {
        let mut things = parts(larder, left);
        let before = things.last().cloned();
        let mut others = more(larder, right, before.as_ref());
        // "1 egg beaten with 1 tbsp milk, for brushing": both are.
        let stirred = text[left.len()..].trim_start().to_ascii_lowercase();
        let washes = [
            ", for glaz",
            ", for the glaze",
            ", for the top",
            ", for the wash",
            ", to glaz",
            ", for brush",
            ", to brush",
            "egg wash",
            "eggwash",
        ];
        let lower = right.to_ascii_lowercase();
        if stirred.starts_with("with ")
            || stirred.starts_with("mixed with ")
            || !stirred.starts_with(',') && washes.iter().any(|wash| lower.contains(wash))
        {
            for one in &mut things {
                one.place = one.place.or(others.last().and_then(|last| last.place));
            }
        }
        things.append(&mut others);
        return things;
    }
    if let Some(things) = zest_and_juice(larder, text) {
        return things;
    }
    if let Some(things) = labelled(larder, text) {
        return things;
    }
    vec![one(larder, text)]
}

/// One thing of a text that is not cut any further.
fn one(larder: &Larder, text: &str) -> Thing {
    for freely in ["up to ", "at least ", "optional: ", "optional "] {
        if text
            .get(..freely.len())
            .is_some_and(|start| start.eq_ignore_ascii_case(freely))
        {
            let mut found = one(larder, &text[freely.len()..]);
            found.at_will = true;
            return found;
        }
    }
    if let Some(found) = head(text) {
        let end = found.end;
        let rest = &text[end..];
        if !rest.trim().is_empty() {
            return peel(larder, found, rest);
        }
        // "1 clove": the unit is the name.
        if let [piece] = &found.amount.pieces[..]
            && matches!(piece.unit, LineUnit::Thing(_))
            && let Some(number) = crate::measure::read::prose::leading_number(text)
        {
            let mut bare = found.clone();
            bare.amount.pieces[0].unit = LineUnit::Number;
            return thing(larder, Some(bare), &text[number.end..]);
        }
        return thing(larder, Some(found), rest);
    }
    if let Some(found) = fruit(larder, text) {
        return found;
    }
    if let Some(rest) = uncounted(text) {
        return thing(larder, None, rest);
    }
    let found = behind(larder, text).unwrap_or_else(|| thing(larder, None, text));
    // "a nut of butter": of what is known, how much is not.
    if found.named.is_none()
        && let Some((what, name)) = text.split_once(" of ")
        && what.split_whitespace().count() <= 3
        && !holds(
            &NO_INGREDIENT,
            &bare(what.split(' ').next().unwrap_or(what)),
        )
        && named(larder, first_phrase(name)).is_some()
    {
        let mut known = thing(larder, None, name);
        known.notes.insert(0, what.to_owned());
        return known;
    }
    found
}

/// "a few drops of vanilla extract", "some raisins": what is uncounted has no amount.
fn uncounted(text: &str) -> Option<&str> {
    let lower = text.to_ascii_lowercase();
    let start = [
        "the rest of the ",
        "rest of the ",
        "the remaining ",
        "remaining ",
        "reserved ",
        "half of the ",
        "half the ",
        "a few ",
        "few ",
        "a little ",
        "a bit of ",
        "some ",
        "several ",
        "enough ",
        "plenty of ",
        "lots of ",
        "a touch of ",
        "a shake of ",
    ]
    .iter()
    .find(|start| lower.starts_with(**start))?
    .len();
    let rest = &text[start..];
    let unit = crate::measure::read::prose::leading_unit(rest);
    let end = unit.map_or(0, |(_, end)| end);
    Some(rest[end..].trim_start())
}

/// "2 tbsp each: sesame seeds, poppy seeds", "salt and sugar, 1 tsp each".
fn shared(larder: &Larder, text: &str) -> Option<Vec<Thing>> {
    let lower = text.to_ascii_lowercase();
    let (found, names) = if let Some(found) = head(text) {
        let rest = text[found.end..].trim_start();
        let end = "each".len();
        if !rest.to_ascii_lowercase().starts_with("each")
            || rest[end..].starts_with(char::is_alphanumeric)
        {
            return None;
        }
        (found, rest[end..].trim_start_matches([' ', ':', ',']))
    } else {
        let start = lower.trim_end().strip_suffix("each")?.trim_end();
        let comma = start.rfind([',', '-', '–', ':', '('])?;
        let amount = text[comma..start.len()].trim_start_matches([',', '-', '–', ':', '(', ' ']);
        let found = head(amount)?;
        if !amount[found.end..].trim().is_empty() {
            return None;
        }
        (found, text[..comma].trim())
    };
    let names = after_word(names, "of");
    let mut names = listed(names);
    // What ends the list and is a state belongs to each: "walnuts and hazelnuts, toasted".
    let first_state = (1..names.len())
        .rev()
        .take_while(|at| super::state::starts_with_state(&names[*at]))
        .last();
    let states = first_state.map_or_else(Vec::new, |from| names.split_off(from));
    let things: Vec<Thing> = names
        .iter()
        .map(|name| {
            let with_states = [std::slice::from_ref(name), states.as_slice()]
                .concat()
                .join(", ");
            thing(larder, Some(found.clone()), &with_states)
        })
        .collect();
    (things.len() > 1).then_some(things)
}

/// The names of a list: "salt, sugar and pepper".
fn listed(text: &str) -> Vec<String> {
    text.replace(", and ", ",")
        .replace(" and ", ",")
        .replace(" & ", ",")
        .replace(" plus ", ",")
        .split(',')
        .map(|name| name.trim().to_owned())
        .filter(|name| !name.is_empty())
        .collect()
}

/// The first place where a second thing begins, outside of brackets.
fn cut<'t>(larder: &Larder, text: &'t str) -> Option<(&'t str, &'t str)> {
    let lower = text.to_ascii_lowercase();
    let mut depth = 0_usize;
    for (at, letter) in text.char_indices() {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        // Every word between two things begins with one of these.
        if depth > 0 || at == 0 || !matches!(letter, ' ' | ',' | ';') {
            continue;
        }
        let Some(word) = BETWEEN.iter().find(|word| lower[at..].starts_with(**word)) else {
            continue;
        };
        let (left, right) = (text[..at].trim(), text[at + word.len()..].trim());
        if left.is_empty() || right.is_empty() {
            continue;
        }
        if is_second(larder, left, right, word) {
            return Some((left, right));
        }
    }
    None
}

/// Whether what stands right of a word is a thing of its own, or more of the one left of it.
fn is_second(larder: &Larder, left: &str, right: &str, word: &str) -> bool {
    let joins =
        word.contains("plus") || word.contains("and") || word.contains('+') || word.contains('&');
    let before = || one(larder, left);
    let lower = right.to_lowercase();
    if extra(&lower).is_some() {
        let for_something = lower.contains(" for ") || lower.contains(" to ");
        return (joins || word.starts_with(','))
            && for_something
            && place(&right_purpose(&lower), true).is_some()
            && before().named.is_some();
    }
    let Some(found) = head(right) else {
        // "salt and pepper", without amounts.
        let both = word == " and " || word == " & ";
        return both
            && head(left).is_none()
            && behind(larder, left).is_none()
            && named(larder, left).is_some()
            && named(larder, first_phrase(right)).is_some()
            && named(larder, &format!("{left}{word}{}", first_phrase(right))).is_none();
    };
    let rest = right[found.end..].trim();
    let left_thing = before();
    if left_thing.named.is_none() || left_thing.amount.is_none() {
        return false;
    }
    let measured = found
        .amount
        .pieces
        .iter()
        .all(|piece| piece.unit != LineUnit::Number);
    if rest.is_empty()
        || rest.starts_with("for ")
        || rest.starts_with("to ")
        || rest.starts_with("extra ")
        || rest.starts_with("more ")
    {
        return joins && measured;
    }
    one(larder, right).named.is_some()
}

/// The name of a phrase, before commas and purposes.
fn first_phrase(text: &str) -> &str {
    let end = [",", " for ", " to ", "("]
        .iter()
        .filter_map(|mark| text.find(mark))
        .min();
    &text[..end.unwrap_or(text.len())]
}

/// What follows "extra", "more", "a little more".
fn extra(lower: &str) -> Option<usize> {
    [
        "a little extra ",
        "a little more ",
        "some extra ",
        "some more ",
        "a bit extra ",
        "a bit more ",
        "extra ",
        "more ",
        "additional ",
        "a little ",
    ]
    .iter()
    .find(|start| lower.starts_with(**start))
    .map(|start| start.len())
}

/// The words from "for" or "to" on.
fn right_purpose(lower: &str) -> String {
    let padded = format!(" {lower}");
    let at = [" for ", " to "]
        .iter()
        .filter_map(|word| padded.find(word))
        .min();
    at.map_or_else(String::new, |at| padded[at..].trim().to_owned())
}

/// The second thing of a line; where it has no name of its own it is more of the first.
fn more(larder: &Larder, right: &str, before: Option<&Thing>) -> Vec<Thing> {
    let mut things = if let Some(start) = extra(&right.to_ascii_lowercase()) {
        vec![thing(larder, None, &right[start..])]
    } else {
        parts(larder, right)
    };
    if let (Some(first), Some(before)) = (things.first_mut(), before)
        && first.named.is_none()
        && (first.words.is_empty() || matches!(bare(&first.words).as_str(), "extra" | "more"))
    {
        // The place is told again by what the thing is.
        let purpose = first.notes.first().cloned().unwrap_or_default();
        let mut again = thing(larder, None, &format!("{} {purpose}", before.words));
        again.named.clone_from(&before.named);
        again.words.clone_from(&before.words);
        again.amount = first.amount.take();
        again.also = first.also.take();
        again.state = first.state.take();
        *first = again;
    }
    things
}

/// "Egg wash: 1 egg", "For the tin: 20 g butter": a label before an ingredient.
fn labelled(larder: &Larder, text: &str) -> Option<Vec<Thing>> {
    let (label, rest) = text.split_once(':')?;
    let (label, rest) = (label.trim(), rest.trim());
    if rest.is_empty() || head(label).is_some() || named(larder, label).is_some() {
        return None;
    }
    let first = bare(label.split_whitespace().next()?);
    let purpose = label.to_lowercase();
    if holds(&NO_INGREDIENT, &first) && place(&purpose, true).is_none() {
        return None;
    }
    let mut things = parts(larder, rest);
    if things.iter().any(|one| one.named.is_none()) {
        return None;
    }
    for one in &mut things {
        one.place = one.place.or_else(|| place(&purpose, true));
        one.at_will |= purpose.starts_with("optional");
        one.notes.insert(0, label.to_owned());
    }
    Some(things)
}

/// The amount behind the name: "Flour: 500 g", "milk 250ml", "eggs (large) x 2".
fn behind(larder: &Larder, text: &str) -> Option<Thing> {
    let marks = |c: char| {
        matches!(
            c,
            ' ' | ':' | '-' | '–' | '—' | ',' | '.' | '…' | '|' | '=' | ';'
        )
    };
    let mut previous = ' ';
    for (at, letter) in text.char_indices() {
        let starts = at > 0 && (marks(previous) || previous == '(') && !marks(letter);
        previous = letter;
        if !starts || letter == '(' {
            continue;
        }
        let mut from = at;
        // "x 2"
        if let Some(after) = text[at..].strip_prefix(['x', 'X']) {
            let number = after.trim_start();
            if !number.starts_with(|c: char| c.is_ascii_digit()) {
                continue;
            }
            from = text.len() - number.len();
        }
        let Some(found) = head(&text[from..]) else {
            continue;
        };
        let before = text[..at].trim_end_matches(|c: char| marks(c) || c == '(');
        let strong = text[before.len()..at].contains([':', '–', '—', '|', '=', '.', '…', '('])
            || text[before.len()..at].contains(" - ");
        let mut after = text[from + found.end..].trim_start();
        if text[before.len()..at].contains('(') {
            after = after.strip_prefix(')').unwrap_or(after);
        }
        // A baker's percentage behind the amount.
        if let Some(share) = after.strip_suffix('%')
            && share
                .trim()
                .bytes()
                .all(|b| b.is_ascii_digit() || matches!(b, b'.' | b','))
        {
            after = "";
        }
        let number = found
            .amount
            .pieces
            .iter()
            .any(|piece| piece.unit == LineUnit::Number);
        let ends = after.is_empty()
            || after.starts_with([',', ';', '(', '-', '–', '—', '|', '/'])
            || after.starts_with("for ");
        if before.is_empty() || (!ends && (number || !strong)) {
            continue;
        }
        let known = named(larder, &without_brackets(before)).is_some()
            || thing(larder, None, before).named.is_some();
        let words = before.split_whitespace().count();
        let first = bare(before.split_whitespace().next().unwrap_or_default());
        let strange = holds(&NO_INGREDIENT, &first) || number || !strong || words > 4;
        if !known && strange {
            continue;
        }
        let rest = format!("{before}, {after}");
        let rest = rest.trim_end_matches([',', ' ']);
        // A size behind a bare number: "2 large".
        return Some(thing(larder, Some(found), rest));
    }
    None
}

fn without_brackets(text: &str) -> String {
    text.split('(').next().unwrap_or(text).trim().to_owned()
}
