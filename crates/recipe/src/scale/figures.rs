//! Figures that stand in an author's own words: "48 g", "45 × 20 cm", "after 25 minutes", "ten buns".

use crate::measure::read::sentence::{Token, What, tokens};
use crate::measure::spoken::{in_words, number_word};
use std::ops::Range;

/// One or more numbers with one unit, in running words.
#[derive(Clone, Debug, PartialEq)]
pub struct WrittenFigure {
    /// Where the numbers stand, each.
    pub numbers: Vec<(Range<usize>, f64)>,
    /// The unit as written.
    pub unit: String,
    /// All of it.
    pub span: Range<usize>,
}

/// Units that are looked for; longer spellings before those that begin them.
const UNITS: [&str; 19] = [
    "minutes", "minute", "min", "kg", "grams", "g", "mL", "ml", "mm", "cm", "cups", "cup", "Tbsp",
    "tbsp", "tsp", "inches", "inch", "in", "L",
];

/// Every figure in words, in order. "45 × 20 cm" and "10-12 minutes" are one each.
pub fn figures(words: &str) -> Vec<WrittenFigure> {
    let all = tokens(words);
    let mut found = Vec::new();
    let mut at = 0;
    while at < all.len() {
        let What::Number(value) = all[at].what else {
            at += 1;
            continue;
        };
        let span = all[at].span;
        let joined = words[..span.start]
            .chars()
            .next_back()
            .is_some_and(|c| c.is_alphanumeric() || c == '.' || c == ',');
        let mut numbers = vec![(span.start..span.end, value)];
        let mut next = at + 1;
        // Numbers joined by a times sign or a dash.
        while let (Some(sign), Some(number)) = (all.get(next), all.get(next + 1)) {
            let joins = sign.is('×') || sign.is_dash() || matches!(sign.word(), "x" | "to");
            let What::Number(value) = number.what else {
                break;
            };
            if !joins {
                break;
            }
            numbers.push((number.span.start..number.span.end, value));
            next += 2;
        }
        let unit = next + usize::from(all.get(next).is_some_and(Token::is_dash));
        at = next;
        let Some(token) = all.get(unit).filter(|_| !joined) else {
            continue;
        };
        let written = &words[token.span.start..token.span.end];
        if UNITS.contains(&written) {
            found.push(WrittenFigure {
                numbers,
                unit: written.to_owned(),
                span: span.start..token.span.end,
            });
            at = unit + 1;
        }
    }
    found
}

/// Counts above this are written in figures.
const LAST_IN_WORDS: u32 = 12;

/// A count as an author would write it in place of one that is written so.
fn count_like(written: &str, count: u32) -> String {
    let in_words_before = number_word(&written.to_lowercase()).is_some();
    let word = in_words(f64::from(count))
        .filter(|_| in_words_before && (1..=LAST_IN_WORDS).contains(&count));
    match word {
        Some(word) if written.starts_with(char::is_uppercase) => super::amounts::capital(&word),
        Some(word) => word,
        None => count.to_string(),
    }
}

/// Whether a word gives a count.
fn counts(word: &str, count: u32) -> bool {
    let lower = word.to_lowercase();
    number_word(&lower).is_some_and(|value| (value - f64::from(count)).abs() < 0.5)
        || lower.parse() == Ok(count)
}

/// Text in which "ten buns" or "10 tied buns" has another count; none when it names none.
pub fn recount(text: &str, product: &str, was: u32, now: u32) -> Option<String> {
    let mut out = text.to_owned();
    let mut words = Vec::new();
    let mut at = 0;
    for word in text.split(|c: char| !c.is_alphanumeric() && c != '-') {
        words.push((at, word));
        at += word.len()
            + text[at + word.len()..]
                .chars()
                .next()
                .map_or(0, char::len_utf8);
    }
    let words: Vec<(usize, &str)> = words
        .into_iter()
        .filter(|(_, word)| !word.is_empty())
        .collect();
    let mut changed = false;
    for (place, (start, word)) in words.iter().enumerate().rev() {
        let names = words.iter().skip(place + 1).take(2);
        let close = names.clone().any(|(end, name)| {
            *name == product && !text[start + word.len()..*end].contains(['.', ';', ':', ','])
        });
        if counts(word, was) && close {
            out.replace_range(*start..start + word.len(), &count_like(word, now));
            changed = true;
        }
    }
    changed.then_some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn units(words: &str) -> Vec<(Vec<f64>, String)> {
        figures(words)
            .into_iter()
            .map(|one| (one.numbers.iter().map(|n| n.1).collect(), one.unit))
            .collect()
    }

    #[test]
    fn figures_are_found_with_their_units() {
        assert_eq!(
            units("Roll each 48 g piece, 8g too; a sheet of 45 × 20 cm, 10-12 minutes, 3 pieces."),
            [
                (vec![48.0], "g".to_owned()),
                (vec![8.0], "g".to_owned()),
                (vec![45.0, 20.0], "cm".to_owned()),
                (vec![10.0, 12.0], "minutes".to_owned()),
            ]
        );
        assert_eq!(
            units("the 3 in the middle, E150 g"),
            [(vec![3.0], "in".to_owned())]
        );
        assert_eq!(units("28 °C / 82 °F"), []);
    }

    #[test]
    fn counts_follow_the_pieces() {
        let recount = |text| recount(text, "buns", 10, 5);
        assert_eq!(
            recount("You get ten buns.").as_deref(),
            Some("You get five buns.")
        );
        assert_eq!(
            recount("Ten tied buns, 10 buns").as_deref(),
            Some("Five tied buns, 5 buns")
        );
        assert_eq!(recount("ten minutes. The buns"), None);
        assert_eq!(
            super::recount("ten buns", "buns", 10, 30).as_deref(),
            Some("30 buns")
        );
    }
}
