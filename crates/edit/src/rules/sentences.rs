//! Whether sentences can be followed with floury hands: short, active, one word for one thing.

use super::{Case, Rule};
use crate::code;
use crate::prose::{Passage, sentences, words};
use recipe::document::model::{Actions, Opening};
use recipe::source::Diagnostic;
use std::ops::Range;

pub const RULES: &[Rule] = &[
    long_steps,
    many_actions,
    openings,
    passives,
    long_sentences,
    empty_cues,
];

/// Words that one step may have; common practice of US newspaper and magazine style.
const MOST_WORDS: usize = 60;

fn steps<'a>(case: &'a Case) -> impl Iterator<Item = &'a Passage<'a>> {
    case.passages.iter().filter(|passage| passage.is_step())
}

/// Where a phrase stands in a text as whole words, capitals apart.
pub fn phrase(text: &str, wanted: &str) -> Option<Range<usize>> {
    let lower = text.to_lowercase();
    if lower.len() != text.len() {
        return None;
    }
    lower
        .match_indices(wanted)
        .map(|(at, _)| at..at + wanted.len())
        .find(|part| {
            let before = lower[..part.start].chars().next_back();
            let after = lower[part.end..].chars().next();
            !before.is_some_and(|c| c.is_alphanumeric() || c == '-')
                && !after.is_some_and(|c| c.is_alphanumeric() || c == '-')
        })
}

fn count(text: &str) -> usize {
    text.split_whitespace()
        .filter(|word| word.chars().any(|c| c.is_alphanumeric() || c == '_'))
        .count()
}

fn long_steps(case: &Case) -> Vec<Diagnostic> {
    steps(case)
        .filter_map(|passage| {
            let words = count(&passage.words);
            (words > MOST_WORDS).then(|| {
                Diagnostic::at(
                    code::STEP_LONG,
                    passage.whole(),
                    format!("This step has {words} words; whoever looks up from the bowl does not find the place again."),
                )
                .hint(format!("Make two steps of it; up to {MOST_WORDS} words can be kept in mind."))
            })
        })
        .collect()
}

/// Verbs of baking by which a sentence tells what to do.
const VERBS: [&str; 86] = [
    "add", "bake", "beat", "braid", "break", "bring", "brush", "butter", "chill", "chop", "close",
    "combine", "cook", "cool", "cover", "cream", "crush", "cut", "dissolve", "divide", "drain",
    "drizzle", "drop", "dust", "fill", "flatten", "flour", "flip", "fold", "form", "gather",
    "grate", "grease", "heat", "invert", "keep", "knead", "knock", "lay", "leave", "let", "lift",
    "line", "loosen", "lower", "make", "measure", "melt", "mix", "move", "open", "pinch", "place",
    "plait", "pour", "preheat", "press", "punch", "put", "reduce", "remove", "repeat", "rest",
    "roll", "rotate", "rub", "scatter", "score", "serve", "set", "shape", "sift", "slash", "slide",
    "slice", "smooth", "spray", "spread", "sprinkle", "stir", "take", "tap", "tear", "tie", "tip",
    "transfer",
];
/// The rest of them.
const MORE_VERBS: [&str; 23] = [
    "tuck", "turn", "twist", "wait", "warm", "wash", "weigh", "whip", "whisk", "work", "wrap",
    "pull", "stretch", "raise", "rise", "soak", "strain", "scrape", "seal", "stand", "start",
    "switch", "return",
];

fn is_verb(word: &str) -> bool {
    let lower = word.to_lowercase();
    VERBS.contains(&lower.as_str()) || MORE_VERBS.contains(&lower.as_str())
}

/// The words with which an action begins: first in a sentence or a clause, or after "and".
fn actions(text: &str) -> usize {
    let all = words(text);
    all.iter()
        .enumerate()
        .filter(|(place, (at, word))| {
            if !is_verb(word) {
                return false;
            }
            let before = text[..*at].trim_end();
            let last = place.checked_sub(1).map_or("", |one| all[one].1);
            before.is_empty()
                || before.ends_with(['.', ';', ':', ',', '!'])
                || ["and", "then"].contains(&last.to_lowercase().as_str())
        })
        .count()
}

fn many_actions(case: &Case) -> Vec<Diagnostic> {
    if case.inputs.recipe.house.actions() != Actions::Three {
        return Vec::new();
    }
    steps(case)
        .filter_map(|passage| {
            let done = actions(&passage.words);
            (done > 3).then(|| {
                Diagnostic::at(
                    code::STEP_MANY_ACTIONS,
                    passage.whole(),
                    format!("This step asks for {done} things; the house style allows three."),
                )
                .hint("Divide it where the hands are free for a moment.")
            })
        })
        .collect()
}

fn openings(case: &Case) -> Vec<Diagnostic> {
    if case.inputs.recipe.house.opening() != Opening::Verb {
        return Vec::new();
    }
    steps(case)
        .filter_map(|passage| {
            let all = words(&passage.words);
            let (at, first) = *all.first()?;
            (!is_verb(first)).then(|| {
                Diagnostic::at(
                    code::STEP_OPENING,
                    passage.at(&(at..at + first.len())),
                    format!(
                        "The step begins with “{first}”; the house style begins with what is done."
                    ),
                )
                .hint("Put the verb first: \"Knead ...\".")
            })
        })
        .collect()
}

/// What hands do, as it is said when nobody is named who does it.
const DONE: [&str; 26] = [
    "added",
    "mixed",
    "kneaded",
    "stirred",
    "shaped",
    "divided",
    "placed",
    "folded",
    "brushed",
    "poured",
    "rolled",
    "combined",
    "beaten",
    "whisked",
    "sprinkled",
    "transferred",
    "greased",
    "preheated",
    "melted",
    "cut",
    "weighed",
    "dusted",
    "put",
    "spread",
    "sifted",
    "heated",
];
/// Words after which something is told that is no instruction.
const TELLING: [&str; 11] = [
    "until", "when", "once", "while", "if", "after", "before", "as", "that", "which", "because",
];

fn passives(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for passage in steps(case) {
        for sentence in sentences(&passage.words) {
            let own = &passage.words[sentence.clone()];
            let all = words(own);
            let place = all.windows(2).position(|pair| {
                let be = ["is", "are"].contains(&pair[0].1.to_lowercase().as_str());
                let begins = pair[0].0;
                let clause = own[..begins].rsplit([',', ';', ':']).next().unwrap_or("");
                let told = words(clause)
                    .iter()
                    .any(|(_, word)| TELLING.contains(&word.to_lowercase().as_str()));
                be && DONE.contains(&pair[1].1.to_lowercase().as_str()) && !told
            });
            if let Some(place) = place {
                let (start, (at, last)) = (all[place].0, all[place + 1]);
                let part = sentence.start + start..sentence.start + at + last.len();
                found.push(
                    Diagnostic::at(
                        code::STEP_IN_PASSIVE,
                        passage.at(&part),
                        format!("“{}” does not tell the reader to do it, and whether it is done already stays open.", &passage.written[part.clone()]),
                    )
                    .hint("Say it as an instruction: \"Add the milk.\""),
                );
            }
        }
    }
    found
}

/// Words of a sentence that can still be read aloud in one breath; common practice.
const LONG: usize = 20;

fn long_sentences(case: &Case) -> Vec<Diagnostic> {
    let mut lengths: Vec<usize> = Vec::new();
    let mut longest: Option<(usize, recipe::source::Span)> = None;
    for passage in case.passages.iter().filter(|passage| passage.is_prose()) {
        for sentence in sentences(&passage.words) {
            let words = count(&passage.words[sentence.clone()]);
            lengths.push(words);
            if longest.is_none_or(|(most, _)| words > most) {
                longest = Some((words, passage.at(&sentence)));
            }
        }
    }
    lengths.sort_unstable();
    let median = lengths.get(lengths.len() / 2).copied().unwrap_or(0);
    let Some((most, span)) = longest.filter(|_| lengths.len() >= 3 && median > LONG) else {
        return Vec::new();
    };
    vec![
        Diagnostic::at(
            code::SENTENCES_LONG,
            span,
            format!("Half of the sentences have more than {LONG} words, this one {most}."),
        )
        .hint("Cut them where a new thing is done."),
    ]
}

/// Cues that name nothing to see, hear or feel.
const EMPTY: [&str; 11] = [
    "until done",
    "until it is done",
    "until ready",
    "until it is ready",
    "till done",
    "until cooked",
    "until baked",
    "until cooked through",
    "as needed",
    "when done",
    "until finished",
];

fn empty_cues(case: &Case) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for passage in case.passages {
        let of_a_step = passage.of.is_some();
        if !of_a_step {
            continue;
        }
        let told = |part: &Range<usize>| {
            passage.words[part.end..]
                .trim_start()
                .starts_with([':', '(', '—', '–'])
        };
        let bare = ["done", "ready", "cooked", "baked", "risen enough"];
        let only =
            bare.contains(&passage.words.trim().to_lowercase().as_str()) && !passage.is_step();
        let part = if only {
            Some(0..passage.words.len())
        } else {
            EMPTY.iter().find_map(|cue| phrase(&passage.words, cue))
        };
        let Some(part) = part.filter(|part| !told(part)) else {
            continue;
        };
        found.push(
            Diagnostic::at(
                code::CUE_SAYS_NOTHING,
                passage.at(&part),
                format!("“{}” names nothing that can be seen, felt or heard; whoever bakes it for the first time does not know.", &passage.written[part.clone()]),
            )
            .hint("Say what is seen: twice its size, a dent that fills slowly, golden brown, a hollow sound."),
        );
    }
    found
}

#[cfg(test)]
mod tests {
    use super::{actions, phrase};

    #[test]
    fn actions_are_verbs_where_a_clause_begins() {
        assert_eq!(
            actions("Roll out, spread with jam, fold and tie in a knot."),
            4
        );
        assert_eq!(
            actions("The dough is soft; let it rest until the roll is firm."),
            1
        );
    }

    #[test]
    fn a_phrase_is_found_as_whole_words() {
        assert_eq!(phrase("Bake until done.", "until done"), Some(5..15));
        assert_eq!(phrase("Adjust", "just"), None);
    }
}
