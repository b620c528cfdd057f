//! The state in which a thing goes in, taken from both ends of its name: "very soft", "lightly beaten".

use super::name::named;
use super::thing::Thing;
use super::words::{NO_STATES, bare, holds, is_adverb, is_state};
use crate::larder::Larder;

/// Takes states from both ends of the name.
pub(super) fn states_off(larder: &Larder, name: &str, thing: &mut Thing) -> String {
    let other = std::mem::take(&mut thing.words);
    let words: Vec<&str> = name.split_whitespace().collect();
    let mut from = 0;
    let mut last_state = 0;
    while from < words.len() {
        let word = words[from];
        let link =
            matches!(bare(word).as_str(), "and" | "then" | "but") && last_state == from && from > 0;
        if is_state(word) && !belongs(larder, &words[from..]) {
            last_state = from + 1;
        } else if !(is_adverb(word) || link) {
            break;
        }
        from += 1;
    }
    let mut start = last_state;
    if start == words.len() {
        start = 0;
    }
    // "good-quality melted butter": a state behind words that say nothing.
    if start > 0 {
        thing
            .state
            .get_or_insert_with(|| words[..start].join(" ").trim_end_matches(',').to_owned());
    }
    let mut end = words.len();
    let mut kept = end;
    while end > start + 1 {
        let word = words[end - 1];
        if is_state(word) {
            kept = end - 1;
        } else if !(is_adverb(word) || matches!(bare(word).as_str(), "and" | "then")) {
            break;
        } else if kept == end {
            kept = end - 1;
        }
        end -= 1;
    }
    let trailing = &words[kept..];
    if !trailing.is_empty() && trailing.iter().any(|word| is_state(word)) {
        let said = trailing.join(" ");
        let said = said.trim_start_matches("and ").to_owned();
        thing.state.get_or_insert(said);
    } else {
        kept = words.len();
    }
    let left = words[start..kept].join(" ");
    if thing.open && named(larder, &left).is_none() {
        let right: Vec<&str> = other.split_whitespace().collect();
        for from in 0..right.len() {
            let whole = format!("{left} {}", right[from..].join(" "));
            if named(larder, &whole).is_some() {
                return whole;
            }
        }
    }
    left
}

/// Whether a word that can be a state is part of the name here: "soft brown sugar", "sliced almonds".
pub(super) fn belongs(larder: &Larder, words: &[&str]) -> bool {
    let first = bare(words[0]);
    let rest = words[1..].join(" ");
    match first.as_str() {
        "soft" => ["brown", "light", "dark", "cheese", "wheat", "white"]
            .iter()
            .any(|next| rest.to_lowercase().starts_with(next)),
        "frozen" | "boiling" | "warm" | "cold" | "hot" | "lukewarm" | "melted" | "softened"
        | "chopped" | "toasted" | "sifted" | "beaten" | "chilled" => false,
        _ => {
            let full = named(larder, &words.join(" "));
            full.is_some() && full != named(larder, &rest)
        }
    }
}

/// Whether a phrase begins as a state does.
pub(super) fn starts_with_state(phrase: &str) -> bool {
    let lower = phrase.to_lowercase();
    if lower.starts_with("at room temp")
        || lower.starts_with("room temp")
        || lower.starts_with("at cool room")
    {
        return true;
    }
    let mut words = phrase
        .split_whitespace()
        .skip_while(|word| is_adverb(word) || matches!(bare(word).as_str(), "then" | "and"));
    words.next().is_some_and(|word| {
        let plain = bare(word);
        is_state(word) || plain.len() > 4 && plain.ends_with("ed") && !holds(&NO_STATES, &plain)
    })
}
