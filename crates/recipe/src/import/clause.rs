//! Sentences of a step, cut into pieces of work, each with its times and heats.

use super::act::{Act, act, stands_alone};
use super::model::{Line, LineKind};
use crate::measure::read::sentence::{Said, Shown, Token, heats, times, tokens};
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
pub fn oven_heats(text: &str) -> Vec<Range<Temperature>> {
    let lower = text.to_lowercase();
    let says_oven = ["oven", "bake", "baking", "gas"]
        .iter()
        .any(|word| lower.contains(word));
    heats(text)
        .into_iter()
        .filter(|(said, shown)| of_oven(&lower, said, *shown, says_oven))
        .map(|(said, _)| said.value)
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

/// A sentence as parts that each say one kind of work, with that kind.
fn parts(sentence: &str) -> Vec<(&str, Option<Act>)> {
    struct Cut {
        start: usize,
        said: Option<Act>,
        /// Whether it only opens the sentence: "In the bowl of a mixer,".
        opens: bool,
    }
    let mut cuts: Vec<Cut> = Vec::new();
    for (start, end) in clauses(sentence) {
        let words = &sentence[start..end];
        let all = tokens(words);
        let said = wakes(&all).or_else(|| act(&all));
        let alone = cuts.is_empty() || stands_alone(&all);
        let begins = matches!(
            all.first().map_or("", Token::word),
            "after"
                | "once"
                | "when"
                | "while"
                | "meanwhile"
                | "before"
                | "during"
                | "about"
                | "if"
        );
        let opens = cuts.is_empty()
            && !stands_alone(&all)
            && (begins || times(words).is_empty())
            && !words.contains(':');
        // Two rests with a time each are two steps.
        let names = all
            .iter()
            .any(|token| matches!(token.word(), "rise" | "proof" | "prove"));
        let again = said == Some(Act::Rest)
            && (stands_alone(&all) || names)
            && !times(words).is_empty()
            && cuts.last().is_some_and(|before| {
                before.said == said && !times(&sentence[before.start..start]).is_empty()
            });
        match cuts.last_mut() {
            Some(_) if again => cuts.push(Cut { start, said, opens }),
            Some(before) if before.opens && stands_alone(&all) && said.is_some() => {
                before.said = said;
                before.opens = false;
            }
            Some(before)
                if !alone
                    || said.is_none()
                    || before.said == said
                    || goes_with(before.said, said) =>
            {
                before.said = before.said.or(said);
            }
            // What only opens the sentence takes the kind of what follows.
            Some(before) if before.said.is_none() => before.said = said,
            _ => cuts.push(Cut { start, said, opens }),
        }
    }
    if let [one] = &mut cuts[..]
        && one.said.is_none()
    {
        // "200 °C, 15 mins" is a bake without its verb.
        let oven = (!oven_heats(sentence).is_empty()).then(|| {
            if times(sentence).is_empty() {
                Act::Preheat
            } else {
                Act::Bake
            }
        });
        one.said = act(&tokens(sentence)).or(oven);
    }
    let ends = cuts
        .iter()
        .skip(1)
        .map(|cut| cut.start)
        .chain([sentence.len()]);
    cuts.iter()
        .zip(ends)
        .map(|(cut, end)| (trimmed(&sentence[cut.start..end]), cut.said))
        .filter(|(part, _)| part.chars().any(char::is_alphanumeric))
        .collect()
}

/// Whether two kinds of work beside each other in a sentence are one step.
fn goes_with(before: Option<Act>, after: Option<Act>) -> bool {
    matches!(
        (before, after),
        (Some(Act::Wake), Some(Act::Rest | Act::Mix))
            | (Some(Act::Mix), Some(Act::Heat))
            | (Some(Act::Shape), Some(Act::Finish))
            | (Some(Act::Finish), Some(Act::Shape))
            | (Some(Act::Bake), Some(Act::Finish | Act::Shape))
    )
}

/// Without what joined a part to its neighbours.
fn trimmed(part: &str) -> &str {
    let mut part = part
        .trim()
        .trim_end_matches([',', ';', ':', '-', '–', '—'])
        .trim();
    for word in [" and then", " then", " and", ", and", " &"] {
        part = part
            .strip_suffix(word)
            .unwrap_or(part)
            .trim_end_matches(',');
    }
    for word in ["and then ", "then ", "and ", ", ", "& "] {
        part = part.strip_prefix(word).unwrap_or(part);
    }
    part
}

/// The clauses of a sentence, by their bytes: cut at commas, semicolons, "and", "then".
fn clauses(sentence: &str) -> Vec<(usize, usize)> {
    let all = tokens(sentence);
    let mut starts = vec![0];
    let mut deep = 0_usize;
    for (index, token) in all.iter().enumerate() {
        if token.is('(') {
            deep += 1;
        } else if token.is(')') {
            deep = deep.saturating_sub(1);
        }
        if deep > 0 || index == 0 {
            continue;
        }
        let joins = token.is(',')
            || token.is(';')
            || token.is('—')
            || matches!(token.word(), "and" | "then")
            || token.is('&');
        if joins && let Some(next) = all.get(index + 1) {
            let after = if matches!(token.word(), "and" | "then") {
                token.span.start
            } else {
                next.span.start
            };
            if starts.last().is_some_and(|last| *last < after) {
                starts.push(after);
            }
        }
    }
    let ends: Vec<usize> = starts
        .iter()
        .skip(1)
        .copied()
        .chain([sentence.len()])
        .collect();
    starts.into_iter().zip(ends).collect()
}

/// Whether yeast is put into a liquid to wake: no flour is with it.
fn wakes(all: &[Token]) -> Option<Act> {
    let has = |list: &[&str]| all.iter().any(|t| list.contains(&t.word()));
    let into = all.windows(2).any(|pair| {
        matches!(pair[0].word(), "into" | "in" | "over" | "with" | "on")
            && matches!(
                pair[1].word(),
                "the" | "it" | "warm" | "lukewarm" | "milk" | "water" | "tepid"
            )
    });
    let verb = has(&[
        "dissolve", "crumble", "sprinkle", "whisk", "stir", "wake", "activate", "proof",
    ]);
    let liquid = has(&["milk", "water", "liquid", "it", "beer", "cream"]) && into;
    (has(&["yeast"])
        && (verb || liquid || has(&["foamy", "frothy", "bubbly"]))
        && !has(&["flour", "salt", "eggs", "butter", "oil", "potato", "dough"]))
    .then_some(Act::Wake)
}

/// The times that a part names.
pub fn times_of(text: &str) -> Vec<Range<Duration>> {
    times(text).into_iter().map(|said| said.value).collect()
}

#[cfg(test)]
mod tests {
    use super::{Act, parts, sentences};

    fn acts(sentence: &str) -> Vec<Act> {
        parts(sentence)
            .into_iter()
            .filter_map(|(_, act)| act)
            .collect()
    }

    #[test]
    fn sentences_end_where_the_next_begins() {
        assert_eq!(
            sentences("Rest 1.5 hours, approx. 90 min. Then bake. Cool"),
            ["Rest 1.5 hours, approx. 90 min.", "Then bake.", "Cool"]
        );
    }

    #[test]
    fn a_sentence_with_two_kinds_of_work_becomes_two_parts() {
        for (sentence, wanted) in [
            (
                "Preheat the oven to 200C and bake for 30 minutes.",
                vec![Act::Preheat, Act::Bake],
            ),
            (
                "Cover and let rise until doubled, about 1 hour.",
                vec![Act::Rest],
            ),
            (
                "Divide the dough into 15 pieces, roll each into a tight ball and set them in the pan.",
                vec![Act::Divide, Act::Shape],
            ),
            (
                "Bake for 12 minutes, then turn down to gas mark 4 and bake for another 5 minutes.",
                vec![Act::Bake],
            ),
            (
                "Set on lined baking sheets and let rise for 1 hour.",
                vec![Act::Shape, Act::Rest],
            ),
            (
                "Add the flour, the soft butter and the fine salt.",
                vec![Act::Mix],
            ),
            ("Brush again, sprinkle with the sesame.", vec![Act::Finish]),
            (
                "Whisk the yeast into the milk with a spoonful of the sugar and leave for 10 minutes.",
                vec![Act::Wake],
            ),
        ] {
            assert_eq!(acts(sentence), wanted, "{sentence}");
        }
    }
}
