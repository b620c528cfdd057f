//! What a speaker puts right in the same breath: "two, no, three cups".

use super::super::{Spoken, SpokenUnit};

/// What is said between a slip of the tongue and the figure that is meant, at its end.
const PUT_RIGHT: [&str; 14] = [
    "no",
    "yes",
    "sorry",
    "mean",
    "that",
    "wait",
    "rather",
    "well",
    "correction",
    "oops",
    "actually",
    "pardon",
    "er",
    "erm",
];

/// Whether the second of two quantities puts the first right: "two — no, three cups".
pub(super) fn put_right(text: &str, before: &Spoken, after: &Spoken) -> bool {
    let Some(gap) = text.get(before.span.end..after.span.start) else {
        return false;
    };
    let alike = before.unit == after.unit
        || before.unit.same_sort(after.unit)
        || before.unit == SpokenUnit::None;
    let words: Vec<String> = gap
        .split(|c: char| !c.is_alphabetic() && c != '\'')
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    // "then another six, scrub that, another four"
    let mut words = words;
    // "A hundred and five grams of milk, no, make that a hundred and fifteen"
    if words.len() > 2
        && words[0] == "of"
        && matches!(
            words[2].as_str(),
            "no" | "sorry" | "wait" | "scratch" | "oops" | "correction"
        )
    {
        words.drain(..2);
    }
    while words.last().is_some_and(|word| {
        matches!(
            word.as_str(),
            "another" | "it's" | "say" | "about" | "a" | "like"
        )
    }) {
        words.pop();
    }
    let Some(last) = words.last() else {
        return false;
    };
    // "ten, no, I'll say twelve minutes"
    let said_no = words.len() <= 4 && matches!(words[0].as_str(), "no" | "sorry" | "wait");
    let strong = said_no
        || words.len() <= 7
            && words.iter().any(|word| {
                matches!(
                    word.as_str(),
                    "excuse"
                        | "pardon"
                        | "scrub"
                        | "scratch"
                        | "oops"
                        | "sorry"
                        | "lies"
                        | "correction"
                )
            })
            && gap.starts_with([',', ' ', '—', '–', '.', ';']);
    // "a hundred and fifteen, oh, give over, Margaret, a hundred and fifty grams"
    let interrupted = words.len() <= 12
        && matches!(
            words[0].as_str(),
            "no" | "oh" | "sorry" | "wait" | "hang" | "er" | "oops"
        )
        && words.iter().any(|word| {
            matches!(
                word.as_str(),
                "no" | "wrong"
                    | "lies"
                    | "over"
                    | "wait"
                    | "nonsense"
                    | "sorry"
                    | "saying"
                    | "hang"
            )
        })
        && !words.iter().any(|word| word == "and");
    let before_last = words.len().checked_sub(2).map(|at| words[at].as_str());
    let marked = match last.as_str() {
        "that" => matches!(before_last, Some("make" | "scratch" | "scrub" | "strike")),
        "mean" => before_last == Some("i"),
        "well" => gap.contains(['—', '–', '-']) || gap.matches(',').count() > 1,
        last => PUT_RIGHT.contains(&last),
    };
    (marked && words.len() <= 4 || strong || interrupted)
        && alike
        && gap.contains([',', '—', '–', '-', '.', ';'])
}
