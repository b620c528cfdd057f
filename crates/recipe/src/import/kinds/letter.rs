//! What a letter or an e-mail has around a recipe: whom it is from, greetings, farewells, who wrote.

use crate::import::split::Raw;
use std::collections::BTreeMap;

/// What a line of a letter is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outer {
    /// The subject, which names the recipe.
    Subject,
    /// Addresses, greetings, farewells, "Ana wrote:".
    Talk,
}

/// Labels of an e-mail's head.
const LABELS: &[&str] = &[
    "from:",
    "to:",
    "cc:",
    "bcc:",
    "date:",
    "sent:",
    "reply-to:",
    "subject:",
    "re:",
    "fwd:",
];

/// Words that begin a greeting.
const GREETINGS: &[&str] = &[
    "dear",
    "dearest",
    "hi",
    "hello",
    "hey",
    "hallo",
    "hiya",
    "greetings",
    "good morning",
    "good afternoon",
    "good evening",
    "good day",
    "my dear",
    "my dearest",
    "to whom",
];

/// Words that begin a farewell.
const FAREWELLS: &[&str] = &[
    "love",
    "lots of love",
    "with love",
    "much love",
    "all my love",
    "yours",
    "sincerely",
    "best",
    "kind regards",
    "warm regards",
    "warmest regards",
    "regards",
    "warmly",
    "all the best",
    "hugs",
    "kisses",
    "xo",
    "xoxo",
    "xx",
    "xxx",
    "cheers",
    "thanks",
    "thank you",
    "many thanks",
    "take care",
    "see you",
    "talk soon",
    "until soon",
    "until then",
    "bye",
    "goodbye",
    "affectionately",
    "your friend",
    "your loving",
    "with best wishes",
    "best wishes",
    "fondly",
    "with warm",
    "a hug",
    "big hug",
    "happy baking",
    "speak soon",
    "write soon",
];

/// Lines of a letter by their place, and whether the text is one at all.
pub fn letter(raws: &[Raw<'_>]) -> BTreeMap<usize, Outer> {
    let mut found = BTreeMap::new();
    let lower: Vec<String> = raws
        .iter()
        .map(|raw| raw.text.trim().to_lowercase().replace('’', "'"))
        .collect();
    head(&lower, &mut found);
    let mut end = None;
    for at in 0..lower.len() {
        if lower[at].is_empty() || found.contains_key(&at) {
            continue;
        }
        let begins = at == 0 || lower[at - 1].is_empty() || found.contains_key(&(at - 1));
        if is_greeting(&lower[at]) && begins || is_handed_on(&lower[at]) {
            found.insert(at, Outer::Talk);
        } else if (begins || is_last(&lower, at)) && at > 1 && is_farewell(&lower, at) {
            found.insert(at, Outer::Talk);
            end = Some(at);
        } else if end.is_some_and(|end| signs(&lower, end, at)) {
            found.insert(at, Outer::Talk);
        } else {
            end = None;
        }
    }
    found
}

/// The head of an e-mail: its first subject names the recipe.
fn head(lower: &[String], found: &mut BTreeMap<usize, Outer>) {
    let labelled = |at: usize| {
        lower
            .get(at)
            .is_some_and(|line| LABELS.iter().any(|label| line.starts_with(label)))
    };
    let mut subject = false;
    let mut at = 0;
    while at < lower.len() {
        let end = (at..lower.len())
            .find(|next| !labelled(*next))
            .unwrap_or(lower.len());
        let names = (at..end).any(|one| lower[one].starts_with("subject:"));
        if end - at >= 2 || names {
            for (one, line) in lower.iter().enumerate().take(end).skip(at) {
                let is = line.starts_with("subject:") && !subject;
                subject |= is;
                found.insert(one, if is { Outer::Subject } else { Outer::Talk });
            }
        }
        at = end.max(at + 1);
    }
}

/// The words of a subject, without its label and the marks of answers: "Subject: Re: Fwd: buns".
pub fn subject(line: &str) -> &str {
    let mut rest = line.trim();
    loop {
        let before = rest;
        for label in ["subject:", "re:", "fwd:", "fw:", "aw:"] {
            if let Some(start) = rest.get(..label.len())
                && start.eq_ignore_ascii_case(label)
            {
                rest = rest[label.len()..].trim_start();
            }
        }
        if rest == before {
            return rest;
        }
    }
}

/// How many words a line has.
fn count(line: &str) -> usize {
    line.split_whitespace().count()
}

/// Whether a line begins with one of some words, and they end there.
fn begins_with(line: &str, list: &[&str]) -> bool {
    list.iter().any(|words| {
        line.strip_prefix(words).is_some_and(|rest| {
            !rest.starts_with(|c: char| c.is_alphanumeric() || c == '-' || c == '\'')
        })
    })
}

/// "Dear Ingrid,", "Hi all!"
fn is_greeting(line: &str) -> bool {
    begins_with(line, GREETINGS)
        && count(line) <= 8
        && line.ends_with([',', '!', ':', '.', '-', '–', '—'])
}

/// "On Tuesday Ana wrote:", "---- Forwarded message ----".
fn is_handed_on(line: &str) -> bool {
    let ruled = line.trim_matches(|c: char| matches!(c, '-' | '_' | '=' | ' '));
    (line.ends_with("wrote:") || line.ends_with("writes:")) && count(line) <= 20
        || [
            "original message",
            "forwarded message",
            "begin forwarded message:",
            "forwarded message:",
        ]
        .contains(&ruled)
}

/// "Love,", "See you soon", "Kisses from all of us,": a few words, and after them who writes or nothing.
fn is_farewell(lower: &[String], at: usize) -> bool {
    let line = lower[at].as_str();
    let next = lower[at + 1..].iter().find(|line| !line.is_empty());
    let signed = next.is_none_or(|next| is_name(next));
    begins_with(line, FAREWELLS)
        && count(line) <= 7
        && (signed || line.ends_with(',') && count(line) <= 3)
        && !line.chars().any(|c| c.is_ascii_digit())
}

/// Whether nothing but who writes stands behind a line.
fn is_last(lower: &[String], at: usize) -> bool {
    let mut after = lower[at + 1..].iter().filter(|line| !line.is_empty());
    after.clone().count() <= 2 && after.all(|line| is_name(line))
}

/// Whether a line behind a farewell belongs to it: who writes, another word of farewell.
fn signs(lower: &[String], end: usize, at: usize) -> bool {
    let near = lower[end + 1..at]
        .iter()
        .filter(|line| !line.is_empty())
        .count()
        < 2;
    near && is_name(&lower[at])
}

/// Whether a line may be who writes: a few words without an amount.
fn is_name(line: &str) -> bool {
    count(line) <= 4 && !line.chars().any(|c| c.is_ascii_digit()) && !line.ends_with(':')
}

#[cfg(test)]
mod tests {
    use super::{Outer, letter, subject};
    use crate::import::split::lines;

    fn talk(text: &str) -> Vec<usize> {
        letter(&lines(text))
            .into_iter()
            .filter(|(_, what)| *what == Outer::Talk)
            .map(|(at, _)| at + 1)
            .collect()
    }

    #[test]
    fn what_stands_around_a_letter_is_told() {
        let text =
            "From: Ana\nSubject: Re: Fwd: rye rolls\n\nDear Eva,\n\nMix it.\n\nSee you soon\n\nAna";
        assert_eq!(talk(text), [1, 4, 8, 10]);
        assert_eq!(letter(&lines(text)).get(&1), Some(&Outer::Subject));
        assert_eq!(subject("Subject: Re: Fwd: rye rolls"), "rye rolls");
    }

    #[test]
    fn words_of_a_recipe_are_no_greeting_and_no_farewell() {
        for text in [
            "Best buns\n\n500 g flour\n\nBest eaten the same day with butter and jam.",
            "Dear Grandmother's loaf\n\nMix 500 g flour and 300 g water.",
            "To: taste\n\nThanks to the cold night the dough is easy to shape, so roll it.",
        ] {
            assert!(talk(text).is_empty(), "{text}: {:?}", talk(text));
        }
    }
}
