//! Sentences of a step, cut into pieces of work, each with its times and heats.

use super::act::Act;
use super::cut::parts;
use super::model::{Line, LineKind};
use crate::measure::read::sentence::{Said, Shown, heats, times};
use numerics::quantity::{Duration, Range, Temperature};

/// One piece of work as the text says it.
#[derive(Clone, Debug, PartialEq)]
pub struct Doing {
    /// Number of the line it stands in.
    pub line: usize,
    /// Place of that line among all lines.
    pub place: usize,
    /// The author's words.
    pub sentence: String,
    /// Which kind of work.
    pub act: Act,
}

/// The oven temperatures that a step names, in order.
pub fn oven_heats(text: &str) -> Vec<Said<Range<Temperature>>> {
    let lower = text.to_lowercase();
    let says_oven = ["oven", "bake", "baking", "gas"]
        .iter()
        .any(|word| lower.contains(word));
    heats(text)
        .into_iter()
        .filter(|(said, shown)| of_oven(&lower, said, *shown, says_oven))
        .map(|(said, _)| said)
        .collect()
}

/// Whether a heat is the oven's: no dough, liquid or crumb is so hot.
fn of_oven(lower: &str, said: &Said<Range<Temperature>>, shown: Shown, says_oven: bool) -> bool {
    if shown != Shown::Degrees {
        return true;
    }
    let before = lower.get(..said.span.start).unwrap_or("");
    let near = before.rsplit(['.', ';', '(']).next().unwrap_or("");
    let frying = near.contains("oil ")
        || near.contains("fry")
        || near.contains("syrup")
        || near.contains("sugar to");
    let celsius = said.value.high.celsius();
    !frying
        && (celsius >= 125.0
            || celsius >= 60.0 && near.contains("oven") && says_oven && !near.contains("internal"))
}

/// Everything done in the steps of a text, in order; a title inside them is none of it.
pub fn doings(lines: &[Line], title: Option<&str>) -> Vec<Doing> {
    let mut found: Vec<Doing> = Vec::new();
    for (place, line) in lines
        .iter()
        .enumerate()
        .filter(|(_, line)| line.kind == LineKind::Step)
    {
        // The marks of emphasis are no part of the words.
        let words = super::split::bare(&line.text)
            .text
            .replace("**", "")
            .replace("__", "");
        for sentence in sentences(&words) {
            // "It makes two loaves" is said and not done.
            if super::yields::told(sentence).is_some() {
                continue;
            }
            if found.is_empty()
                && title.is_some_and(|title| sentence.trim_end_matches('.') == title)
            {
                continue;
            }
            let kept = if aside(sentence) {
                vec![(sentence, None)]
            } else {
                parts(sentence)
            };
            for (part, act) in kept {
                join(&mut found, (line.number, place), part, act);
            }
            if let Some(last) = found.last_mut()
                && !last.sentence.ends_with(['.', '!', '?', ':', ')'])
            {
                last.sentence.push('.');
            }
        }
    }
    found
}

/// Whether a sentence says what may be done, and not what is done.
fn aside(sentence: &str) -> bool {
    let lower = sentence.to_lowercase();
    sentence.starts_with('(')
        || [
            " can be ",
            " may be ",
            " can also ",
            "if you like",
            "optional",
        ]
        .iter()
        .any(|words| lower.contains(words))
}

/// Adds a part: to the one before it when it says nothing of its own or goes on with the same.
fn join(found: &mut Vec<Doing>, (line, place): (usize, usize), part: &str, act: Option<Act>) {
    let last = found.last_mut();
    let goes_on = last.as_ref().is_some_and(|before| {
        before.place == place
            && match (before.act, act) {
                (_, None) => true,
                (Act::Wake, Some(Act::Rest)) => !part.to_lowercase().contains("rise"),
                (one, Some(other)) if one == other => {
                    !matches!(one, Act::Rest | Act::Fold | Act::Preheat)
                        || times(&before.sentence).is_empty()
                        || times(part).is_empty()
                }
                _ => false,
            }
    });
    match (last, act) {
        (Some(before), _) if goes_on || act.is_none() => {
            let glue = if before.sentence.ends_with(['.', '!', '?', ';', ':']) {
                " "
            } else {
                ", "
            };
            before.sentence = format!("{}{glue}{part}", before.sentence);
        }
        (before, act) => {
            if let Some(before) = before
                && !before.sentence.ends_with(['.', '!', '?', ':', ')'])
            {
                before.sentence.push('.');
            }
            found.push(Doing {
                line,
                place,
                sentence: capital(part),
                act: act.unwrap_or(Act::Finish),
            });
        }
    }
}

/// With a capital at its beginning.
fn capital(part: &str) -> String {
    let mut letters = part.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// A text as its sentences.
pub fn sentences(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut start = 0;
    for (at, letter) in text.char_indices() {
        if !matches!(letter, '.' | '!' | '?') {
            continue;
        }
        let end = at + 1;
        let rest = &text[end..];
        let next = rest.trim_start().chars().next();
        let space = rest.starts_with(char::is_whitespace);
        // "min. of", "approx. 20": no sentence begins with a small letter.
        let begins = next.is_none_or(|c| {
            c.is_uppercase() || c.is_ascii_digit() || matches!(c, '“' | '"' | '(' | '‘')
        });
        let short = text[start..at].rsplit(' ').next().is_some_and(|word| {
            matches!(
                word.to_lowercase().as_str(),
                "approx" | "tbsp" | "tsp" | "no" | "oz" | "lb" | "min" | "hr"
            ) && next.is_some_and(|c| c.is_ascii_digit())
        });
        if (rest.is_empty() || space) && begins && !short {
            found.push(text[start..end].trim());
            start = end;
        }
    }
    found.push(text[start..].trim());
    found.retain(|sentence| sentence.chars().any(char::is_alphanumeric));
    found
}

/// The times that a part names.
pub fn times_of(text: &str) -> Vec<Range<Duration>> {
    times(text).into_iter().map(|said| said.value).collect()
}

#[cfg(test)]
mod tests {
    use super::sentences;

    #[test]
    fn sentences_end_where_the_next_begins() {
        assert_eq!(
            sentences("Rest 1.5 hours, approx. 90 min. Then bake. Cool"),
            ["Rest 1.5 hours, approx. 90 min.", "Then bake.", "Cool"]
        );
    }
}
