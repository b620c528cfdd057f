//! A sentence cut where another kind of work begins: "preheat the oven | and bake for half an hour".

use super::act::{Act, act, stands_alone};
use super::clause::oven_heats;
use crate::measure::read::sentence::{Token, times, tokens};

/// A sentence as parts that each say one kind of work, with that kind.
pub fn parts(sentence: &str) -> Vec<(&str, Option<Act>)> {
    struct Cut {
        start: usize,
        said: Option<Act>,
        /// Whether it only opens the sentence: "In the bowl of a mixer,".
        opens: bool,
    }
    let mut cuts: Vec<Cut> = Vec::new();
    // Where a clause begins that only covers what rests in the next one.
    let mut covers = None;
    for (start, end) in clauses(sentence) {
        let words = &sentence[start..end];
        let all = tokens(words);
        let all = past_time(&all);
        let thing = !cuts.is_empty() && warm_thing(all);
        let said = wakes(all).or_else(|| act(all)).filter(|_| !thing);
        let alone = cuts.is_empty() || stands_alone(all) && !thing;
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
            && !stands_alone(all)
            && (begins || times(words).is_empty())
            && !words.contains(':');
        // Two rests with a time each are two steps.
        let names = all
            .iter()
            .any(|token| matches!(token.word(), "rise" | "proof" | "prove"));
        let again = said == Some(Act::Rest)
            && (stands_alone(all) || names)
            && !times(words).is_empty()
            && cuts.last().is_some_and(|before| {
                before.said == said && !times(&sentence[before.start..start]).is_empty()
            });
        match cuts.last_mut() {
            Some(_) if again => cuts.push(Cut { start, said, opens }),
            Some(before) if before.opens && stands_alone(all) && said.is_some() => {
                before.said = said;
                before.opens = false;
            }
            // Knocking back belongs to dividing, and beating an egg to brushing with it.
            Some(before)
                if alone && readies(&sentence[before.start..start], before.said, said, all) =>
            {
                before.said = said;
            }
            // "Put the paste, the milk and the flour in the mixer bowl": where it goes is said last.
            Some(before) if !alone && puts_in(&sentence[before.start..start], before.said, all) => {
                before.said = Some(Act::Mix);
            }
            Some(before)
                if !alone
                    || said.is_none()
                    || before.said == said
                    || goes_with(before.said, said, all) =>
            {
                before.said = before.said.or(said);
            }
            // What only opens the sentence takes the kind of what follows.
            Some(before) if before.said.is_none() => before.said = said,
            _ => cuts.push(Cut {
                start: covers.filter(|_| said == Some(Act::Rest)).unwrap_or(start),
                said,
                opens,
            }),
        }
        let covered = all
            .iter()
            .map(Token::word)
            .find(|word| !matches!(*word, "and" | "then"));
        covers = (covered == Some("cover") && said.is_none() && !cuts.is_empty()).then_some(start);
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

/// Whether a clause is a thing of a list that is warm, and no order: "the paste, warm milk, an egg"; the order
/// would be "warm the milk".
fn warm_thing(all: &[Token]) -> bool {
    let mut words = all
        .iter()
        .map(Token::word)
        .filter(|word| !word.is_empty() && *word != "and");
    let (first, second, third) = (words.next(), words.next(), words.next());
    first == Some("warm")
        && matches!(
            second,
            Some("milk" | "water" | "cream" | "buttermilk" | "liquid" | "butter")
        )
        && third.is_none()
}

/// Whether two kinds of work beside each other in a sentence are one step.
fn goes_with(before: Option<Act>, after: Option<Act>, all: &[Token]) -> bool {
    let has = |list: &[&str]| all.iter().any(|token| list.contains(&token.word()));
    match (before, after) {
        (Some(Act::Wake), Some(Act::Rest))
        | (Some(Act::Mix), Some(Act::Heat))
        | (Some(Act::Shape), Some(Act::Finish))
        | (Some(Act::Finish | Act::Bake), Some(Act::Shape)) => true,
        // What is stirred into the liquid wakes with it; the flour is another step.
        (Some(Act::Wake), Some(Act::Mix)) => {
            !has(&["flour", "dough", "knead", "eggs", "egg", "butter", "bowl"])
        }
        // What is brushed on when the bread has come out is no part of the bake.
        (Some(Act::Bake), Some(Act::Finish)) => {
            !has(&["brush", "glaze", "dust", "sprinkle", "roll"])
        }
        _ => false,
    }
}

/// Whether what was begun with "put" ends in a bowl: that is mixing.
fn puts_in(before: &str, act: Option<Act>, all: &[Token]) -> bool {
    let first = tokens(before);
    let first = past_time(&first).first().map_or("", Token::word);
    act == Some(Act::Shape)
        && matches!(first, "put" | "place" | "pop" | "tip")
        && all
            .iter()
            .any(|token| matches!(token.word(), "bowl" | "mixer"))
}

/// Whether a clause only makes ready what the next one does.
fn readies(before: &str, act: Option<Act>, next: Option<Act>, all: &[Token]) -> bool {
    let first = tokens(before);
    let first = past_time(&first).first().map_or("", Token::word);
    match (act, next) {
        (Some(Act::Shape), Some(Act::Divide)) => {
            matches!(
                first,
                "knock" | "punch" | "deflate" | "turn" | "tip" | "press"
            )
        }
        // "Whisk flour and milk in a pan and stir over medium heat": that is cooking.
        (Some(Act::Mix), Some(Act::Heat)) => tokens(before)
            .iter()
            .any(|token| matches!(token.word(), "pan" | "saucepan" | "pot")),
        (Some(Act::Mix), Some(Act::Finish)) => {
            all.iter()
                .any(|token| matches!(token.word(), "brush" | "glaze"))
                && matches!(first, "beat" | "whisk" | "mix" | "stir" | "combine")
        }
        _ => false,
    }
}

/// A clause without the time of day that opens it: "next morning", "in the evening".
fn past_time(all: &[Token]) -> &[Token] {
    const OPENINGS: &[&[&str]] = &[
        &["the", "next", "day"],
        &["the", "next", "morning"],
        &["next", "day"],
        &["next", "morning"],
        &["in", "the", "morning"],
        &["in", "the", "evening"],
        &["the", "evening", "before"],
        &["the", "day", "before"],
        &["first", "of", "all"],
    ];
    OPENINGS
        .iter()
        .find(|words| {
            words
                .iter()
                .enumerate()
                .all(|(at, word)| all.get(at).is_some_and(|token| token.word() == *word))
        })
        .map_or(all, |words| &all[words.len()..])
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
        "cream", "dissolve", "crumble", "sprinkle", "whisk", "stir", "wake", "activate", "proof",
    ]) || has(&["mix", "put", "cream", "combine", "blend"])
        && has(&["milk", "water", "beer"]);
    let liquid = has(&["milk", "water", "liquid", "it", "beer", "cream"]) && into;
    (has(&["yeast"])
        && (verb || liquid || has(&["foamy", "frothy", "bubbly"]))
        && !has(&[
            "flour", "salt", "eggs", "butter", "oil", "potato", "dough", "mixture",
        ]))
    .then_some(Act::Wake)
}

#[cfg(test)]
mod tests {
    use super::{Act, parts};

    fn acts(sentence: &str) -> Vec<Act> {
        parts(sentence)
            .into_iter()
            .filter_map(|(_, act)| act)
            .collect()
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
                "Put the paste, warm milk, egg, sugar, yeast and flour in the mixer bowl and knead for 5 minutes.",
                vec![Act::Mix],
            ),
            (
                "Whisk the yeast into the milk with a spoonful of the sugar and leave for 10 minutes.",
                vec![Act::Wake],
            ),
        ] {
            assert_eq!(acts(sentence), wanted, "{sentence}");
        }
    }
}
