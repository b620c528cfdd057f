//! Which things a sentence uses: where it plainly names one for the first time, the name becomes
//! the file's placeholder, so that amounts are printed and checked.

use crate::measure::read::sentence::{Token, What, tokens};

/// A thing that sentences may name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Thing {
    /// What stands in brackets: "milk", "egg for the top".
    pub placeholder: String,
    /// Its name, in lower case.
    name: Vec<String>,
    /// Whether a sentence has named it.
    named: bool,
}

impl Thing {
    /// A thing by its name.
    pub fn new(name: &str, placeholder: String) -> Self {
        let words = tokens(name);
        let words = words
            .iter()
            .map(|token| stem(token.word()).to_owned())
            .filter(|word| !word.is_empty());
        // A bracket in a name would end the placeholder.
        let named = placeholder.contains(['[', ']']) || placeholder.trim().is_empty();
        Self {
            name: words.collect(),
            placeholder,
            named,
        }
    }
}

/// Words that say that not all of a thing goes in.
const PARTLY: &[&str] = &[
    "of",
    "half",
    "most",
    "rest",
    "remaining",
    "some",
    "little",
    "any",
    "more",
    "extra",
    "bit",
    "third",
    "quarter",
    "reserved",
    "spare",
    "leftover",
    "no",
    "without",
    "dry",
    "from",
    "other",
    "if",
];

/// Words that make another thing of a name: "the milk mixture", "egg wash".
const MAKE_OTHER: &[&str] = &[
    "mixture",
    "wash",
    "dough",
    "paste",
    "mix",
    "bowl",
    "glaze",
    "water",
    "milk",
    "is",
    "has",
    "dissolves",
    "powder",
];

/// Units that may stand between an amount and a name.
const UNITS: &[&str] = &[
    "g",
    "kg",
    "ml",
    "l",
    "dl",
    "cl",
    "cup",
    "cups",
    "tbsp",
    "tsp",
    "tablespoon",
    "tablespoons",
    "teaspoon",
    "teaspoons",
    "oz",
    "lb",
];

/// Writes the placeholders of things that a sentence names into it. Brackets of the author are
/// doubled.
pub fn with_uses(sentence: &str, things: &mut [Thing]) -> String {
    let all = tokens(sentence);
    let mut cuts: Vec<(usize, usize, String)> = Vec::new();
    let mut taken = vec![false; all.len()];
    // Longer names first: "egg yolk" before "egg".
    let mut order: Vec<usize> = (0..things.len()).collect();
    order.sort_by_key(|at| std::cmp::Reverse(things[*at].name.len()));
    for length in (1..=4).rev() {
        for &at in &order {
            if things[at].named || things[at].name.len() < length || ambiguous(things, at, length) {
                continue;
            }
            let wanted = &things[at].name[things[at].name.len() - length..];
            let Some(start) =
                (0..all.len()).find(|start| !taken[*start] && matches_at(&all, *start, wanted))
            else {
                continue;
            };
            things[at].named = true;
            let end = start + length;
            if plain_use(&all, start, end) {
                let start = from(&all, start);
                taken[start..end].fill(true);
                cuts.push((
                    all[start].span.start,
                    all[end - 1].span.end,
                    things[at].placeholder.clone(),
                ));
            }
        }
    }
    cuts.sort_by_key(|cut| cut.0);
    let mut out = String::with_capacity(sentence.len() + 16);
    let mut done = 0;
    for (start, end, placeholder) in cuts {
        out.push_str(&sentence[done..start].replace('[', "[["));
        out.push('[');
        out.push_str(&placeholder);
        out.push(']');
        done = end;
    }
    out.push_str(&sentence[done..].replace('[', "[["));
    out
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
fn matches_at(all: &[Token], start: usize, wanted: &[String]) -> bool {
    wanted.iter().enumerate().all(|(index, word)| {
        all.get(start + index)
            .is_some_and(|token| stem(token.word()) == word)
    })
}

/// Whether all of it goes in here, by the words around it.
fn plain_use(all: &[Token], start: usize, end: usize) -> bool {
    let before = |back: usize| start.checked_sub(back).and_then(|at| all.get(at));
    let word = |back: usize| before(back).map_or("", Token::word);
    let partly = (1..=3).any(|back| {
        PARTLY.contains(&word(back))
            && (1..back).all(|nearer| {
                matches!(
                    word(nearer),
                    "the" | "this" | "that" | "your" | "a" | "warm" | "soft"
                )
            })
    });
    let other = all
        .get(end)
        .is_some_and(|token| MAKE_OTHER.contains(&token.word()) || token.is_dash());
    let joined = before(1).is_some_and(|token| token.is_dash() || token.word() == "floured");
    !partly && !other && !joined
}

/// Where what is replaced begins: at "the", or at the amount that the sentence gives.
fn from(all: &[Token], start: usize) -> usize {
    let before = |back: usize| start.checked_sub(back).and_then(|at| all.get(at));
    if before(1).is_some_and(|token| UNITS.contains(&token.word()))
        && before(2).is_some_and(|token| matches!(token.what, What::Number(_)))
    {
        return start - 2;
    }
    if before(1).is_some_and(|token| token.word() == "the") {
        return start - 1;
    }
    start
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
            .map(|name| Thing::new(name, (*name).to_owned()))
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
    fn an_amount_in_the_sentence_goes_with_its_name() {
        let mut all = things(&["instant yeast", "water"]);
        assert_eq!(
            with_uses("Stir 2 g instant yeast into 400 g water.", &mut all),
            "Stir [instant yeast] into [water]."
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
}
