//! Which things a sentence uses: where it plainly names one for the first time, the name becomes
//! the file's placeholder, so that amounts are printed and checked.

mod again;
mod thing;
mod words;

use crate::measure::read::sentence::{Token, What, tokens};
use again::{again, parts, told};
use thing::Met;
pub use thing::{Thing, things_beside, things_of};
use words::{ABOUT, ALL_OF_IT, MAKE_OTHER, PARTLY, UNITS};

/// Writes the placeholders of things that a sentence names into it. Brackets of the author are
/// doubled.
pub fn with_uses(sentence: &str, things: &mut [Thing]) -> String {
    let all = tokens(sentence);
    let mut cuts: Vec<(usize, usize, String)> = Vec::new();
    let mut taken = vec![false; all.len()];
    told(sentence, &all, things, (&mut cuts, &mut taken));
    let words: Vec<String> = all.iter().map(spelled).collect();
    parts(&all, &words, things, (&mut cuts, &mut taken));
    // Longer names first: "egg yolk" before "egg".
    let mut order: Vec<usize> = (0..things.len())
        .filter(|at| is_met(&words, &things[*at]))
        .collect();
    order.sort_by_key(|at| std::cmp::Reverse(things[*at].name.len()));
    for length in (1..=4).rev() {
        for &at in &order {
            if things[at].met != Met::NotYet || things[at].name.len() < length {
                continue;
            }
            let wanted = &things[at].name[things[at].name.len() - length..];
            let Some(start) =
                (0..all.len()).find(|start| !taken[*start] && matches_at(&words, *start, wanted))
            else {
                continue;
            };
            if ambiguous(things, at, length) {
                continue;
            }
            let end = start + length;
            let most = things[at].most_is_all && most_of(&all, start);
            let from = if most {
                Some(start)
            } else {
                begins(&all, start, end, things[at].take.as_deref())
            };
            if let Some(from) = from
                && !taken[from..end].contains(&true)
            {
                things[at].met = Met::Whole;
                taken[from..end].fill(true);
                cuts.push((
                    all[from].span.start,
                    all[end - 1].span.end,
                    format!("[{}]", things[at].placeholder),
                ));
            } else if is_part(&all, start) {
                things[at].met = Met::InPart;
            }
        }
    }
    groups(sentence, things, &mut cuts);
    again(&all, &words, things, (&mut cuts, &mut taken));
    cuts.sort_by_key(|cut| cut.0);
    let mut out = String::with_capacity(sentence.len() + 16);
    let mut done = 0;
    for (start, end, words) in cuts {
        if start < done {
            continue;
        }
        out.push_str(&sentence[done..start].replace('[', "[["));
        out.push_str(&words);
        done = end;
    }
    out.push_str(&sentence[done..].replace('[', "[["));
    out
}

/// Whether what follows a name makes another thing of it: "the milk mixture", "butter-free".
fn makes_other(all: &[Token], end: usize) -> bool {
    let follows = all.get(end);
    let hyphen = follows.is_some_and(Token::is_dash)
        && follows.is_some_and(|token| {
            all.get(end + 1)
                .is_some_and(|next| token.span.end == next.span.start)
        });
    follows.is_some_and(|token| MAKE_OTHER.contains(&token.word())) || hyphen
}

/// A unit as the file writes it.
fn unit_word(unit: &str) -> &str {
    match unit {
        "tablespoon" | "tablespoons" => "tbsp",
        "teaspoon" | "teaspoons" => "tsp",
        "grams" => "g",
        "cups" => "cup",
        other => other,
    }
}

/// Behind words that name several things at once, those of them that no sentence has named.
fn groups(sentence: &str, things: &mut [Thing], cuts: &mut Vec<(usize, usize, String)>) {
    let lower = sentence.to_ascii_lowercase();
    let mut names: Vec<Option<String>> = things.iter().map(|thing| thing.group.clone()).collect();
    names.sort();
    names.dedup();
    for group in names {
        let words: Vec<&str> = match &group {
            Some(group) => vec![group.as_str()],
            None => ALL_OF_IT.to_vec(),
        };
        let place = words
            .iter()
            .filter_map(|words| lower.find(words).map(|at| at + words.len()))
            .max();
        let Some(place) = place else { continue };
        // "Everything except the butter": what is named there comes later.
        let except = lower[place..]
            .find(['.', ';'])
            .map_or(&lower[place..], |end| &lower[place..place + end]);
        let except = ["except", "but the", "apart from", "other than", "minus"]
            .iter()
            .any(|word| except.contains(word));
        let excepted = |thing: &Thing| {
            except
                && tokens(&lower[place..]).iter().any(|token| {
                    thing
                        .name
                        .last()
                        .is_some_and(|last| last == stem(token.word()))
                })
        };
        let mut found = Vec::new();
        for thing in things
            .iter_mut()
            .filter(|thing| thing.group == group && thing.met != Met::Whole)
        {
            if !excepted(thing) {
                thing.met = Met::Whole;
                found.push(format!("[{}]", thing.placeholder));
            }
        }
        if !found.is_empty() {
            cuts.push((place, place, format!(" ({})", found.join(", "))));
        }
    }
}

/// Whether the words before a name say that a part of it goes in here.
fn is_part(all: &[Token], start: usize) -> bool {
    const PARTS: &[&str] = &[
        "of",
        "half",
        "most",
        "rest",
        "remaining",
        "some",
        "third",
        "quarter",
        "reserved",
    ];
    all[start.saturating_sub(3)..start]
        .iter()
        .any(|token| PARTS.contains(&token.word()) || matches!(token.what, What::Number(_)))
}

/// Whether "most of the" stands before a name.
fn most_of(all: &[Token], start: usize) -> bool {
    let before = |back: usize| start.checked_sub(back).map_or("", |at| all[at].word());
    let the = usize::from(before(1) == "the");
    before(1 + the) == "of" && before(2 + the) == "most"
}

/// Whether the last words of a name fit another thing too.
fn ambiguous(things: &[Thing], at: usize, length: usize) -> bool {
    let ending = |name: &[String]| {
        name.len() >= length
            && name[name.len() - length..] == things[at].name[things[at].name.len() - length..]
    };
    things
        .iter()
        .enumerate()
        .any(|(other, thing)| other != at && ending(&thing.name))
}

/// Whether words stand at a place.
fn matches_at(words: &[String], start: usize, wanted: &[String]) -> bool {
    words
        .get(start..start + wanted.len())
        .is_some_and(|own| own == wanted)
}

/// Whether a sentence has the last word of a thing's name, without which it has none of its names.
fn is_met(words: &[String], thing: &Thing) -> bool {
    thing.name.last().is_some_and(|last| words.contains(last))
}

/// A word in the singular, or a number in figures.
fn spelled(token: &Token) -> String {
    match token.what {
        What::Number(value) => numerics::decimal::trimmed(value, 3),
        _ => stem(token.word()).to_owned(),
    }
}

/// Where the placeholder begins when all of a thing goes in at a name: at "the", or at the amount
/// that the sentence repeats; none when it is a part, or another thing.
fn begins(all: &[Token], start: usize, end: usize, take: Option<&str>) -> Option<usize> {
    let word = |at: Option<usize>| at.and_then(|at| all.get(at)).map_or("", Token::word);
    let before = |at: usize, back: usize| at.checked_sub(back);
    if makes_other(all, end) {
        return None;
    }
    let mut at = start;
    while ABOUT.contains(&word(before(at, 1))) {
        at -= 1;
    }
    let of = word(before(at, 1)) == "of";
    let unit = at.checked_sub(1 + usize::from(of));
    if UNITS.contains(&word(unit))
        && let Some(number) = unit.and_then(|unit| unit.checked_sub(1))
        && let What::Number(value) = all[number].what
    {
        let same = take.is_some_and(|take| same_amount(take, value, word(unit)));
        return same.then(|| {
            if word(before(number, 1)) == "the" {
                number - 1
            } else {
                number
            }
        });
    }
    // "half a teaspoon of dried yeast".
    if UNITS.contains(&word(unit))
        && let Some(half) = unit.and_then(|unit| unit.checked_sub(2))
        && word(Some(half)) == "half"
        && word(Some(half + 1)) == "a"
    {
        let same = take.is_some_and(|take| same_amount(take, 0.5, word(unit)));
        return same.then_some(half);
    }
    let dash = before(at, 1)
        .and_then(|at| all.get(at))
        .is_some_and(Token::is_dash);
    let partly = (1..=3).any(|back| {
        PARTLY.contains(&word(before(at, back)))
            && (1..back).all(|nearer| {
                matches!(
                    word(before(at, nearer)),
                    "the" | "this" | "that" | "your" | "a"
                )
            })
    });
    let number = before(at, 1)
        .and_then(|at| all.get(at))
        .is_some_and(|token| matches!(token.what, What::Number(_)));
    if partly
        || dash
        || number
        || matches!(
            word(before(at, 1)),
            "floured" | "buttered" | "oiled" | "with-flour"
        )
        || dusts(all, start)
    {
        return None;
    }
    if word(before(at, 1)) == "the" && at == start {
        return Some(at - 1);
    }
    Some(start)
}

/// Whether an amount of the file is this number of this unit.
fn same_amount(take: &str, value: f64, unit: &str) -> bool {
    let unit = unit_word(unit);
    let take = take.strip_suffix('s').unwrap_or(take);
    take == format!("{} {unit}", numerics::decimal::trimmed(value, 3))
        || take == format!("{} {unit}", crate::measure::mixed(value))
}

/// Whether what is named is for dusting: "sprinkle with flour", "dust with flour".
fn dusts(all: &[Token], start: usize) -> bool {
    all[start].word() == "flour"
        && all[start.saturating_sub(3)..start]
            .iter()
            .any(|token| matches!(token.word(), "dust" | "sprinkle" | "dusted" | "sprinkled"))
}

/// A word without the ending of the plural.
fn stem(word: &str) -> &str {
    if word.len() > 3 && !word.ends_with("ss") {
        word.strip_suffix('s').unwrap_or(word)
    } else {
        word
    }
}

#[cfg(test)]
mod tests {
    use super::{Thing, with_uses};

    fn things(names: &[&str]) -> Vec<Thing> {
        names
            .iter()
            .map(|name| Thing::new(name, (*name).to_owned(), None, None))
            .collect()
    }

    #[test]
    fn the_first_plain_mention_becomes_the_placeholder() {
        let mut all = things(&[
            "strong white flour",
            "caster sugar",
            "egg yolks",
            "whole eggs",
            "milk",
            "butter",
        ]);
        assert_eq!(
            with_uses(
                "Stir the flour and sugar together, add the eggs and the yolks [all].",
                &mut all
            ),
            "Stir [strong white flour] and [caster sugar] together, add [whole eggs] and [egg yolks] [[all]."
        );
        assert_eq!(
            with_uses(
                "Warm half of the milk; brush with butter-free oil.",
                &mut all
            ),
            "Warm half of the milk; brush with butter-free oil."
        );
        assert_eq!(
            with_uses("Dust with flour. Add the milk.", &mut all),
            "Dust with flour. Add the milk."
        );
    }

    #[test]
    fn an_amount_goes_with_its_name_when_it_is_all_of_it() {
        let grams = |name: &str, take: &str| {
            Thing::new(name, name.to_owned(), Some(&take.to_owned()), None)
        };
        let mut all = [
            grams("instant yeast", "2 g"),
            grams("water", "400 g"),
            grams("sugar", "80 g"),
        ];
        assert_eq!(
            with_uses(
                "Stir 2 g of instant yeast and 20 g sugar into the 400 g lukewarm water.",
                &mut all
            ),
            "Stir [instant yeast] and 20 g sugar into [water]."
        );
    }

    #[test]
    fn a_name_that_fits_two_is_left_alone() {
        let mut all = things(&["brown sugar", "white sugar"]);
        assert_eq!(
            with_uses("Add the sugar and the brown sugar.", &mut all),
            "Add the sugar and [brown sugar]."
        );
    }

    #[test]
    fn everything_is_all_that_is_not_named() {
        let mut all = things(&["flour", "salt", "butter"]);
        assert_eq!(
            with_uses("Mix all the ingredients except the butter.", &mut all),
            "Mix all the ingredients ([flour], [salt]) except the butter."
        );
        let mut wash = [Thing::new(
            "egg yolk",
            "egg yolk for the top".to_owned(),
            None,
            Some(&"egg wash".to_owned()),
        )];
        assert_eq!(
            with_uses("Brush with the egg wash.", &mut wash),
            "Brush with the egg wash ([egg yolk for the top])."
        );
    }
}
