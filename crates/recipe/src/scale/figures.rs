//! Figures that stand in an author's own words: "48 g", "45 × 20 cm", "after 25 minutes", "ten buns".

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
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(start) = words[at..]
        .find(|c: char| c.is_ascii_digit())
        .map(|i| i + at)
    {
        let joined = words[..start]
            .chars()
            .next_back()
            .is_some_and(|c| c.is_alphanumeric() || c == '.' || c == ',');
        let (numbers, end) = numbers(words, start);
        at = end.max(start + 1);
        if joined || numbers.is_empty() {
            continue;
        }
        let rest = words[end..].trim_start_matches([' ', '\u{a0}', '-']);
        let unit = UNITS.iter().find(|unit| {
            rest.strip_prefix(**unit)
                .is_some_and(|after| !after.starts_with(char::is_alphanumeric))
        });
        if let Some(unit) = unit {
            let stop = words.len() - rest.len() + unit.len();
            found.push(WrittenFigure {
                numbers,
                unit: (*unit).to_owned(),
                span: start..stop,
            });
            at = stop;
        }
    }
    found
}

/// Numbers joined by a times sign or a dash, and where they end.
fn numbers(words: &str, start: usize) -> (Vec<(Range<usize>, f64)>, usize) {
    let mut all = Vec::new();
    let mut at = start;
    loop {
        let length = words[at..]
            .find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',')
            .unwrap_or(words.len() - at);
        let text = words[at..at + length].trim_end_matches(['.', ',']);
        let Ok(value) = text.replace(',', ".").parse::<f64>() else {
            return (all, at);
        };
        let end = at + text.len();
        all.push((at..end, value));
        let rest = words[end..].trim_start();
        let next = ["×", "x", "-", "–", "to"]
            .iter()
            .find_map(|sign| rest.strip_prefix(sign))
            .map(str::trim_start)
            .filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
        match next {
            Some(rest) => at = words.len() - rest.len(),
            None => return (all, end),
        }
    }
}

/// Numbers as words, from one.
const WORDS: [&str; 12] = [
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve",
];

/// A count as an author would write it in place of one that is written so.
fn count_like(written: &str, count: u32) -> String {
    let word = usize::try_from(count)
        .ok()
        .and_then(|count| WORDS.get(count.checked_sub(1)?));
    let lower = written.to_lowercase();
    match word {
        Some(word) if WORDS.contains(&lower.as_str()) => {
            if written.starts_with(char::is_uppercase) {
                super::amounts::capital(word)
            } else {
                (*word).to_owned()
            }
        }
        _ => count.to_string(),
    }
}

/// The count that a word gives.
fn counted(word: &str) -> Option<u32> {
    let lower = word.to_lowercase();
    let place = WORDS.iter().position(|one| *one == lower);
    place
        .and_then(|place| u32::try_from(place + 1).ok())
        .or_else(|| lower.parse().ok())
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
        if counted(word) == Some(was) && close {
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
