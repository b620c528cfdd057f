//! Sentences that follow a swap: names in brackets, parts, lists from which a thing goes or into which one comes.

use numerics::quantity::Mass;
use recipe::document::parse_sentence;
use recipe::document::placeholder::{Part, Piece};
use recipe::measure::write::write_mass;
use recipe::source::Located;

/// A stretch of a sentence as it is written, and what it says.
struct Stretch<'a> {
    raw: &'a str,
    piece: Piece,
}

/// A sentence cut into its stretches.
fn stretches(text: &str) -> Vec<Stretch<'_>> {
    let cut = |one: Located<Piece>| {
        text.get(one.span.start..one.span.end).map(|raw| Stretch {
            raw,
            piece: one.value,
        })
    };
    parse_sentence(text, 0)
        .0
        .into_iter()
        .filter_map(cut)
        .collect()
}

/// The item that a piece names, by use, mention or temperature.
fn named(piece: &Piece) -> Option<&str> {
    match piece {
        Piece::Use { item, .. }
        | Piece::Besides { item, .. }
        | Piece::Mention(item)
        | Piece::Temperature(item) => Some(item),
        _ => None,
    }
}

/// Whether a sentence names an item in brackets.
pub fn names(text: &str, item: &str) -> bool {
    stretches(text)
        .iter()
        .any(|stretch| named(&stretch.piece) == Some(item))
}

/// Whether a sentence uses an item: whole or in part.
pub fn uses(text: &str, item: &str) -> bool {
    stretches(text)
        .iter()
        .any(|s| matches!(&s.piece, Piece::Use { item: one, .. } if one == item))
}

/// Calls an item by another name in every bracket. `which` says whether this bracket is meant.
pub fn rename(text: &str, old: &str, new: &str, which: impl Fn(&Piece) -> bool) -> String {
    let each = stretches(text).into_iter().map(|stretch| {
        if named(&stretch.piece) == Some(old) && which(&stretch.piece) {
            match stretch.raw.rfind(old) {
                Some(at) => format!(
                    "{}{new}{}",
                    &stretch.raw[..at],
                    &stretch.raw[at + old.len()..]
                ),
                None => stretch.raw.to_owned(),
            }
        } else {
            stretch.raw.to_owned()
        }
    });
    each.collect()
}

/// What becomes of the parts of an item whose mass changes.
#[derive(Clone, Copy)]
pub struct Reckoning {
    /// Its mass before.
    pub before: Mass,
    /// Its mass after.
    pub after: Mass,
    /// How many it was counted as, when it was counted.
    pub count: Option<f64>,
}

/// Writes the parts of an item anew. Parts by mass and count follow its mass; the last of them
/// takes what rounding leaves, unless the sentences speak of the rest. Shares and rests stay.
pub fn reckon_parts(texts: &mut [&mut String], item: &str, by: Reckoning) {
    let mut last = None;
    let mut rest = false;
    let mut parts = Vec::new();
    for (place, text) in texts.iter().enumerate() {
        for (number, stretch) in stretches(text).iter().enumerate() {
            if let Piece::Use { item: one, part } = &stretch.piece
                && one == item
            {
                rest |= matches!(part, Part::Rest);
                if let Some(share) = share_of(part, by) {
                    last = Some((place, number));
                    parts.push((place, number, share));
                }
            }
        }
    }
    let whole: f64 = parts.iter().map(|(.., share)| share).sum();
    let mut left = by.after;
    for (place, number, share) in parts {
        let ends = last == Some((place, number)) && !rest && (whole - 1.0).abs() < 0.02;
        let mass = if ends {
            super::draft::weighed(left)
        } else {
            super::draft::weighed(by.after * share)
        };
        left = left - mass;
        let rewritten = stretches(texts[place])
            .into_iter()
            .enumerate()
            .map(|(at, stretch)| {
                if at == number {
                    format!("[{} of {item}]", write_mass(mass))
                } else {
                    stretch.raw.to_owned()
                }
            })
            .collect();
        *texts[place] = rewritten;
    }
}

/// The share of the whole that a part by mass or count is; none for parts that follow by themselves.
fn share_of(part: &Part, by: Reckoning) -> Option<f64> {
    match part {
        Part::Mass(mass) if by.before > Mass::ZERO => Some(*mass / by.before),
        Part::Amount(recipe::document::model::Amount::Count { count, .. }) => {
            by.count.filter(|all| *all > 0.0).map(|all| count / all)
        }
        _ => None,
    }
}

/// Whether a stretch of words ends or begins a list.
const QUALIFIERS: [&str; 8] = [
    " cold from the refrigerator",
    " straight from the refrigerator",
    " crumbled into it",
    " crumbled in",
    " in pieces",
    " in small pieces",
    ", melted and cooled",
    ", softened",
];

/// Takes an item out of a sentence: out of its list, or with the whole sentence when it was all
/// that the sentence was about. Every use of it goes.
pub fn take_out(text: &str, item: &str) -> String {
    let mut text = text.to_owned();
    // Each turn takes out one use; a sentence has no more uses than brackets.
    for _ in 0..text.matches('[').count() {
        let Some((before, after)) = around(&text, item) else {
            break;
        };
        let joined = joined(before, after).unwrap_or_else(|| without_sentence(before, after));
        text = joined;
    }
    text.trim().to_owned()
}

/// What stands before and after the first use or naming of an item, its own qualifiers left out.
fn around<'a>(text: &'a str, item: &str) -> Option<(&'a str, &'a str)> {
    let all = stretches(text);
    let place = all
        .iter()
        .position(|stretch| named(&stretch.piece) == Some(item))?;
    let start: usize = all[..place].iter().map(|s| s.raw.len()).sum();
    let mut end = start + all[place].raw.len();
    let temperature = format!("[{item} temperature]");
    for words in [" at ", ", warmed to ", " warmed to "] {
        let whole = format!("{words}{temperature}");
        if text[end..].starts_with(&whole) {
            end += whole.len();
            if words.starts_with(',') && text[end..].starts_with(',') {
                end += 1;
            }
        }
    }
    for words in QUALIFIERS {
        if text[end..].starts_with(words) {
            end += words.len();
        }
    }
    Some((&text[..start], &text[end..]))
}

/// The two ends of a list put together again; none when it was no list.
fn joined(before: &str, after: &str) -> Option<String> {
    if before.ends_with(", ") && after.starts_with(", ") {
        return Some(format!("{before}{}", &after[2..]));
    }
    if let Some(list) = before.strip_suffix(", ")
        && after.starts_with(" and ")
    {
        return Some(format!("{list}{after}"));
    }
    for link in [", then ", " and ", " with ", " mixed with "] {
        if let Some(list) = before.strip_suffix(link)
            && list.ends_with(']')
        {
            let list = if link == " and " {
                last_comma_to_and(list)
            } else {
                list.to_owned()
            };
            return Some(format!("{list}{after}"));
        }
    }
    for link in [", then ", ", ", " and ", " with ", " into "] {
        if let Some(rest) = after.strip_prefix(link)
            && rest.starts_with('[')
        {
            return Some(format!("{before}{rest}"));
        }
    }
    None
}

/// "[a], [b]" as "[a] and [b]".
fn last_comma_to_and(list: &str) -> String {
    match list.rfind(", [") {
        Some(at) if list[at + 2..].matches('[').count() == 1 => {
            format!("{} and {}", &list[..at], &list[at + 2..])
        }
        _ => list.to_owned(),
    }
}

/// The text without the sentence in which the two ends meet; when other things are used in it, only
/// the words at the join go.
fn without_sentence(before: &str, after: &str) -> String {
    let start = before.rfind(". ").map_or(0, |at| at + 2);
    let end = after.find(". ").map_or(after.len(), |at| at + 2);
    if before[start..].contains('[') || after[..end].contains('[') {
        return format!("{}{after}", before.trim_end());
    }
    format!("{}{}", &before[..start], &after[end..])
}

/// Puts words beside the first use of an item, as one more of its list: "[a] and [b]".
pub fn put_beside(text: &str, item: &str, words: &str) -> Option<String> {
    let all = stretches(text);
    let place = all
        .iter()
        .position(|s| matches!(&s.piece, Piece::Use { item: one, .. } if one == item))?;
    let start: usize = all[..place].iter().map(|s| s.raw.len()).sum();
    let mut end = start + all[place].raw.len();
    let temperature = format!(" at [{item} temperature]");
    if text[end..].starts_with(&temperature) {
        end += temperature.len();
    }
    for qualifier in QUALIFIERS {
        if text[end..].starts_with(qualifier) {
            end += qualifier.len();
        }
    }
    let (before, after) = (&text[..end], &text[end..]);
    let in_list = after.starts_with(", [") || after.starts_with(" and [");
    let link = if in_list { ", " } else { " and " };
    // "a and [b]" and one more: "a, [b] and more".
    if !in_list && let Some(list) = text[..start].strip_suffix("] and ") {
        return Some(format!(
            "{list}], {}{link}{words}{after}",
            &text[start..end]
        ));
    }
    Some(format!("{before}{link}{words}{after}"))
}

/// Puts words in the place of the first use of an item.
pub fn put_instead(text: &str, item: &str, words: &str) -> Option<String> {
    let all = stretches(text);
    let place = all
        .iter()
        .position(|s| matches!(&s.piece, Piece::Use { item: one, .. } if one == item))?;
    let start: usize = all[..place].iter().map(|s| s.raw.len()).sum();
    let end = start + all[place].raw.len();
    Some(format!("{}{words}{}", &text[..start], &text[end..]))
}

/// Puts words behind the first use of an item, inside the same breath: "[flour] mixed with [yeast]".
pub fn put_behind(text: &str, item: &str, words: &str) -> Option<String> {
    let all = stretches(text);
    let place = all
        .iter()
        .position(|s| matches!(&s.piece, Piece::Use { item: one, .. } if one == item))?;
    let end: usize = all[..=place].iter().map(|s| s.raw.len()).sum();
    Some(format!("{}{words}{}", &text[..end], &text[end..]))
}

/// Replaces a word or words wherever they stand for themselves, outside brackets; a capital stays.
pub fn replace_words(text: &str, old: &str, new: &str) -> String {
    let each = stretches(text)
        .into_iter()
        .map(|stretch| match stretch.piece {
            Piece::Words(_) => words_replaced(stretch.raw, old, new),
            _ => stretch.raw.to_owned(),
        });
    each.collect()
}

/// Replaces whole words of a text without brackets.
fn words_replaced(text: &str, old: &str, new: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = find_word(rest, old) {
        out.push_str(&rest[..at]);
        let capital = rest[at..].starts_with(char::is_uppercase);
        if capital {
            out.push_str(&crate::ledger::say::capital(new));
        } else {
            out.push_str(new);
        }
        rest = &rest[at + old.len()..];
    }
    out.push_str(rest);
    out
}

/// Where whole words stand in a text, capitals or not.
pub fn find_word(text: &str, word: &str) -> Option<usize> {
    if word.is_empty() || !word.is_ascii() {
        return None;
    }
    let lower = text.to_ascii_lowercase();
    let word = word.to_ascii_lowercase();
    let letter = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || c == '-');
    lower
        .match_indices(&word)
        .find(|(at, _)| {
            let before = lower[..*at].chars().next_back();
            let after = lower[at + word.len()..].chars().next();
            !letter(before) && !letter(after)
        })
        .map(|(at, _)| at)
}

/// Takes a thing out of the plain words: out of a list ("the eggs and the butter"), or the whole
/// sentence when it names nothing in brackets.
pub fn take_words_out(text: &str, word: &str) -> String {
    let mut kept = String::new();
    for sentence in sentences(text) {
        if find_word(&plain(sentence), word).is_none() {
            kept.push_str(sentence);
            continue;
        }
        let lists = [
            (format!("the {word} and the "), "the "),
            (format!("{word} and "), ""),
            (format!(" and the {word}"), ""),
            (format!(" and {word}"), ""),
            (format!("the {word}, "), ""),
        ];
        let found = lists
            .iter()
            .find_map(|(list, stays)| find_list(sentence, list).map(|at| (at, list, *stays)));
        if let Some((at, list, stays)) = found {
            kept.push_str(&sentence[..at]);
            kept.push_str(stays);
            kept.push_str(&sentence[at + list.len()..]);
        } else if sentence.contains('[') {
            kept.push_str(sentence);
        }
    }
    kept.trim().to_owned()
}

/// A list that ends at the end of a word.
fn find_list(text: &str, list: &str) -> Option<usize> {
    let lower = text.to_ascii_lowercase();
    let at = lower.find(list)?;
    let after = lower[at + list.len()..].chars().next();
    let open = list.ends_with(' ');
    (open || !after.is_some_and(char::is_alphanumeric)).then_some(at)
}

/// The plain words of a sentence, brackets left out.
pub fn plain(text: &str) -> String {
    stretches(text)
        .into_iter()
        .filter(|stretch| matches!(stretch.piece, Piece::Words(_)))
        .map(|stretch| stretch.raw)
        .collect::<Vec<_>>()
        .join(" ")
}

/// Sentences with the space behind them.
fn sentences(text: &str) -> Vec<&str> {
    let mut all = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find(". ") {
        all.push(&rest[..at + 2]);
        rest = &rest[at + 2..];
    }
    all.push(rest);
    all
}

#[cfg(test)]
mod tests;
