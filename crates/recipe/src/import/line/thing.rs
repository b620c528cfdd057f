//! One thing of a line after its amount: its name, and what the rest of the line says of it.

use super::aside::{at_will_off, choice_off, is_at_will, purpose, purpose_off, turn_off};
use super::head::{Head, SIZES, head, in_brackets, whole};
use super::name::{Named, named, picked_by_share};
use super::state::{starts_with_state, states_off};
use super::words::{bare, is_adverb, is_state, place};
use crate::document::model::Place;
use crate::import::model::{LineAmount, LineUnit};
use crate::larder::{Larder, Role};

/// What a line says of one thing.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Thing {
    pub amount: Option<LineAmount>,
    pub also: Option<LineAmount>,
    /// The words that name it.
    pub words: String,
    /// Where the larder has it.
    pub named: Option<Named>,
    pub place: Option<Place>,
    pub state: Option<String>,
    pub notes: Vec<String>,
    /// Whether the line offers something else instead.
    pub open: bool,
    /// Whether the line takes something off the amount again: "1 cup minus 1 tbsp".
    pub less: bool,
    /// Whether the line leaves the amount to the cook: "to taste", "or more", "optional".
    pub at_will: bool,
}

/// Reads what follows an amount.
pub(super) fn thing(larder: &Larder, head: Option<Head>, rest: &str) -> Thing {
    let mut thing = Thing::default();
    if let Some(head) = head {
        thing.amount = Some(head.amount);
        thing.also = head.also;
    }
    let mut size = None;
    let mut bracketed = Vec::new();
    let rest = without_brackets(rest, &mut thing, &mut size, &mut bracketed);
    let rest = rest.trim_start_matches(|c: char| !c.is_alphanumeric() && c != '%');
    let rest = less_off(after_word(after_word(rest, "of"), "the"), &mut thing);
    let (mut name, mut tail) = split_tail(rest);
    // "cooked, mashed potatoes": states before the name, with a comma.
    if !tail.is_empty()
        && name
            .split_whitespace()
            .all(|word| is_state(word) || is_adverb(word))
    {
        let end = rest
            .find(tail[0])
            .map_or(rest.len(), |at| at + tail[0].len());
        name = &rest[..end];
        tail.remove(0);
    }
    let name = purpose_off(name, &mut thing);
    let name = at_will_off(&name, &mut thing);
    let name = turn_off(&name, &mut thing);
    let name = choice_off(&name, &mut thing);
    let name = states_off(larder, &name, &mut thing);
    name.trim_matches(|c: char| !c.is_alphanumeric() && !matches!(c, '%' | '\''))
        .clone_into(&mut thing.words);
    look_up(larder, &mut thing);
    let bracketed = bracketed.iter().flat_map(|inside| inside.split(", "));
    let tail: Vec<(&str, bool)> = bracketed
        .map(|phrase| (phrase.trim(), true))
        .chain(
            tail.iter()
                .enumerate()
                .map(|(place, phrase)| (*phrase, place == 0)),
        )
        .collect();
    tails(larder, &tail, &mut thing, &mut size);
    let shares = format!("{rest} {}", thing.notes.join(" "));
    if let Some(named) = &mut thing.named {
        picked_by_share(named, &shares);
    }
    settle(larder, &mut thing, size);
    thing
}

/// "1 cup minus 1 tbsp": the second amount is taken off, which is said and not reckoned.
fn less_off<'t>(rest: &'t str, thing: &mut Thing) -> &'t str {
    let after = after_word(after_word(rest, "minus"), "less");
    match head(after) {
        Some(found) if after.len() < rest.len() => {
            thing.less = true;
            let off = rest.len() - after.len() + found.end;
            thing.notes.push(rest[..off].to_owned());
            after_word(rest[off..].trim_start(), "of")
        }
        _ => rest,
    }
}

/// A text after a word that it begins with.
pub(super) fn after_word<'t>(text: &'t str, word: &str) -> &'t str {
    match text.get(..word.len()) {
        Some(start) if start.eq_ignore_ascii_case(word) && text[word.len()..].starts_with(' ') => {
            text[word.len()..].trim_start()
        }
        _ => text,
    }
}

/// Takes brackets out and says what stands in each.
fn without_brackets(
    rest: &str,
    thing: &mut Thing,
    size: &mut Option<&'static str>,
    others: &mut Vec<String>,
) -> String {
    let mut text = rest.to_owned();
    while let Some(open) = text.find('(') {
        let close = text[open..].find(')').map_or(text.len(), |n| open + n);
        let inside = text[open + 1..close].trim().to_owned();
        let end = (close + 1).min(text.len());
        text.replace_range(open..end, " ");
        if !bracket(&inside, thing, size) && !inside.is_empty() {
            others.push(inside);
        }
    }
    text.split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .replace(" ,", ",")
}

/// Reads what stands in brackets, when it is an amount, a size or a purpose.
fn bracket(inside: &str, thing: &mut Thing, size: &mut Option<&'static str>) -> bool {
    let lower = inside.to_lowercase();
    if let Some(amount) = &thing.amount {
        if let Some(also) = in_brackets(inside, amount) {
            if thing.also.is_none() {
                thing.also = Some(also);
            }
            return true;
        }
    } else if let Some(amount) = whole(inside) {
        thing.amount = Some(amount);
        return true;
    }
    if let Some(found) = size_word(&lower) {
        *size = Some(found);
    } else if is_at_will(&lower) {
        thing.at_will = true;
        thing.notes.push(inside.to_owned());
    } else if lower.starts_with("for ") || lower.starts_with("to ") {
        purpose(inside, thing);
    } else if lower.starts_with("or ") {
        thing.open = true;
        thing.notes.push(inside.to_owned());
    } else {
        return false;
    }
    true
}

/// "large", "size large", "large eggs".
fn size_word(text: &str) -> Option<&'static str> {
    let words: Vec<String> = text.split([' ', '-']).map(bare).collect();
    let plain = words.join(" ");
    let plain = plain
        .trim_end_matches(" eggs")
        .trim_end_matches(" size")
        .trim_end_matches(" sized");
    let plain = plain
        .trim_start_matches("size ")
        .replace("extra large", "extra-large");
    let plain = match plain.as_str() {
        "s" => "small",
        "m" => "medium",
        "l" => "large",
        "xl" => "extra-large",
        word => word,
    };
    SIZES.iter().copied().find(|size| *size == plain)
}

/// The name's phrase and the phrases after it.
fn split_tail(rest: &str) -> (&str, Vec<&str>) {
    let mut pieces = Vec::new();
    let mut start = 0;
    let marks = rest.match_indices([',', ';', ':', '–', '—', '-', '|', '.', '…']);
    for (at, mark) in marks {
        let before = rest[..at].chars().next_back();
        let after = rest[at + mark.len()..].chars().next();
        let spaced = before == Some(' ') && after.is_none_or(|c| c == ' ');
        let cuts = match mark {
            "-" | "–" | "—" => spaced || (mark != "-" && after == Some(' ')),
            "." => after.is_none_or(|c| c == ' ') && rest[start..at].len() > 3,
            "," => !after.is_some_and(|c| c.is_ascii_digit()),
            _ => true,
        };
        if cuts && at >= start {
            pieces.push(rest[start..at].trim());
            start = at + mark.len();
        }
    }
    pieces.push(rest[start..].trim());
    let name = pieces.remove(0);
    (
        name,
        pieces
            .into_iter()
            .filter(|piece| !piece.is_empty())
            .collect(),
    )
}

/// Looks the name up as it stands.
fn look_up(larder: &Larder, thing: &mut Thing) {
    thing.named = named(larder, &thing.words);
    if thing.named.is_none()
        && let Some((unit, name)) = unit_behind(larder, thing)
    {
        thing.named = named(larder, &name);
        thing.words = name;
        if let Some(LineAmount { pieces, .. }) = &mut thing.amount
            && let [piece] = &mut pieces[..]
        {
            piece.unit = unit;
        }
    }
}

/// "2 garlic cloves", "6 cardamom pods": the unit stands behind the name.
fn unit_behind(larder: &Larder, thing: &Thing) -> Option<(LineUnit, String)> {
    let amount = thing.amount.as_ref()?;
    let [piece] = &amount.pieces[..] else {
        return None;
    };
    let sized = matches!(piece.unit, LineUnit::Thing(size) if SIZES.contains(&size));
    if piece.unit != LineUnit::Number && !sized {
        return None;
    }
    let (name, last) = thing.words.rsplit_once(' ')?;
    let (unit, end) = crate::measure::read::prose::leading_unit(last)?;
    let fits = end == last.len()
        && matches!(unit, LineUnit::Thing(word) if !SIZES.contains(&word))
        && bare(name) != "vanilla";
    (fits && named(larder, name).is_some()).then(|| (unit, name.to_owned()))
}

/// Reads the phrases after the name.
fn tails(
    larder: &Larder,
    tail: &[(&str, bool)],
    thing: &mut Thing,
    size: &mut Option<&'static str>,
) {
    let mut state_open = false;
    for (phrase, may_qualify) in tail {
        let phrase = after_word(phrase, "and");
        let lower = phrase.to_lowercase();
        if let Some(found) = size_word(&lower) {
            *size = Some(found);
        } else if is_at_will(&lower) {
            thing.at_will = true;
            thing.notes.push(phrase.to_owned());
        } else if lower.starts_with("or ") && named(larder, after_word(phrase, "or")).is_some() {
            thing.open = true;
            thing.notes.push(phrase.to_owned());
        } else if lower.starts_with("for ")
            || lower.starts_with("to ")
            || lower.starts_with("plus ")
        {
            purpose(phrase, thing);
        } else if *may_qualify && !starts_with_state(phrase) && qualifies(larder, phrase, thing) {
        } else if starts_with_state(phrase) || (state_open && lower.starts_with("then ")) {
            let phrase = purpose_off(phrase, thing);
            let phrase = at_will_off(&phrase, thing);
            let said = phrase.split(" from the ").next().unwrap_or(&phrase);
            let said = said.split(" plus ").next().unwrap_or(said).trim();
            match &mut thing.state {
                Some(state) => {
                    state.push_str(", ");
                    state.push_str(said);
                }
                none => *none = Some(said.to_owned()),
            }
            state_open = true;
            continue;
        } else {
            let kept = purpose_off(phrase, thing);
            if !kept.is_empty() {
                thing.notes.push(kept);
            }
        }
        state_open = false;
    }
}

/// "flour, bread", "butter, unsalted", "yeast, active dry".
fn qualifies(larder: &Larder, phrase: &str, thing: &mut Thing) -> bool {
    let settled = thing
        .named
        .as_ref()
        .is_some_and(|named| named.keys.len() == 1);
    let turned = format!("{phrase} {}", thing.words);
    let better = named(larder, &turned).filter(|found| {
        thing
            .named
            .as_ref()
            .is_none_or(|before| found != before && (!settled || found.keys.len() == 1))
    });
    let plain = |text: &str| text.split_whitespace().count() <= 3;
    if let Some(found) = better.filter(|_| plain(phrase)) {
        thing.named = Some(found);
        thing.words = turned;
        return true;
    }
    false
}

/// Puts the size on eggs, and the place by what the thing is.
fn settle(larder: &Larder, thing: &mut Thing, size: Option<&'static str>) {
    let role = thing
        .named
        .as_ref()
        .and_then(|named| larder.by_key(&named.keys[0]))
        .map(|one| one.role);
    let words = thing.words.to_lowercase();
    let said = size.or_else(|| {
        SIZES
            .iter()
            .copied()
            .rev()
            .find(|size| words.split(' ').any(|word| bare(word) == *size))
    });
    if let Some(size) = said
        && let Some(LineAmount { pieces, .. }) = &mut thing.amount
        && let [piece] = &mut pieces[..]
        && piece.unit == LineUnit::Number
    {
        piece.unit = LineUnit::Thing(size);
    }
    if thing.place == Some(Place::Bench) && !matches!(role, Some(Role::Flour)) {
        // Sugar and cocoa dust the top unless the bench is named.
        let again = thing.notes.iter().find_map(|note| place(note, false));
        let meal = ["semolina", "cornmeal", "polenta", "rice flour", "cornflour"]
            .iter()
            .any(|meal| words.contains(meal));
        if !meal {
            thing.place = again;
        }
    }
}
