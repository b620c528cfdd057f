//! The name in a line, looked up in the larder; words that leave a thing what it is are passed over.

use super::words::{DESCRIPTORS, WEIGHTY, bare, holds};
use crate::larder::{Found, Larder};

/// What a name led to: keys of the larder, the usual one first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Named {
    /// One, or several when the name leaves the kind open.
    pub keys: Vec<String>,
}

/// The ingredient that a phrase names, when it names one and says nothing strange besides.
pub(super) fn named(larder: &Larder, phrase: &str) -> Option<Named> {
    let phrase = phrase.trim_matches(|c: char| !c.is_alphanumeric() && c != '%');
    if phrase.is_empty() {
        return None;
    }
    if let Some(found) = seek(larder, phrase) {
        return Some(found);
    }
    let words: Vec<&str> = phrase.split_whitespace().collect();
    if words.len() > 9 {
        return None;
    }
    // Words at the beginning that say nothing, then words anywhere.
    let idle = |word: &&str| word.ends_with('%') || holds(&DESCRIPTORS, &bare(word));
    let light = |word: &&str| idle(word) && !holds(&WEIGHTY, &bare(word));
    let without = |drop: &dyn Fn(&&str) -> bool| {
        let kept: Vec<&str> = words.iter().filter(|word| !drop(word)).copied().collect();
        (kept.len() < words.len() && !kept.is_empty()).then(|| kept.join(" "))
    };
    without(&light)
        .and_then(|phrase| seek(larder, &phrase))
        .or_else(|| {
            let start = words.iter().take_while(|word| idle(word)).count();
            (1..=start.min(words.len() - 1)).find_map(|from| seek(larder, &words[from..].join(" ")))
        })
        .or_else(|| without(&idle).and_then(|phrase| seek(larder, &phrase)))
}

/// An exact look-up.
fn seek(larder: &Larder, phrase: &str) -> Option<Named> {
    let known = larder.known(phrase);
    let keys: Vec<String> = known.iter().map(|one| one.key.clone()).collect();
    (!keys.is_empty()).then_some(Named { keys })
}

/// Names close to a phrase that is not known.
pub(super) fn near(larder: &Larder, phrase: &str) -> Option<String> {
    match larder.find(phrase) {
        Found::Near(names) => names.first().map(|name| (*name).to_owned()),
        _ => None,
    }
}

/// Of several chocolates, the one that a share of cocoa in the line picks.
pub(super) fn picked_by_share(named: &mut Named, line: &str) {
    if !named
        .keys
        .iter()
        .any(|key| key.starts_with("chocolate_dark"))
    {
        return;
    }
    let Some(share) = line.split('%').next().and_then(|before| {
        if before.len() == line.len() {
            return None;
        }
        let before = before.trim_end();
        let start = before.trim_end_matches(|c: char| c.is_ascii_digit()).len();
        before[start..].parse::<u32>().ok()
    }) else {
        return;
    };
    let key = match share {
        45..=59 => "chocolate_dark_45",
        60..=69 => "chocolate_dark_60",
        70..=85 => "chocolate_dark_70",
        _ => return,
    };
    named.keys = vec![key.to_owned()];
}
