//! An egg whose white and yolk go to two places: "1 egg, white in the dough and yolk for the top".

use super::words::{bare, place};
use crate::document::model::Place;
use crate::measure::read::prose::leading_number;

/// The line as two, of the whites and of the yolks.
pub(super) fn separated(text: &str) -> Option<[String; 2]> {
    let number = leading_number(text)?;
    let at = text.find([',', ';', '(', ':', '–'])?;
    let eggs = text
        .get(number.end..at)?
        .split_whitespace()
        .last()
        .map(bare)?;
    if !matches!(eggs.as_str(), "egg" | "eggs") {
        return None;
    }
    let rest = text[at..].replace(" and ", ",").replace(" & ", ",");
    let of = |part: &str| {
        let said = |piece: &&str| {
            let words: Vec<String> = piece.split_whitespace().map(bare).collect();
            let has = |word: &str| words.iter().any(|own| own.trim_end_matches('s') == word);
            has(part) && !has(if part == "white" { "yolk" } else { "white" })
        };
        let piece = rest.split([',', ';']).find(said)?;
        let many = if number.low > 1.0 { "s" } else { "" };
        let top = if place(piece, false) == Some(Place::Top) {
            " for the top"
        } else {
            ""
        };
        Some(format!(
            "{} egg {part}{many}{top}",
            text[..number.end].trim()
        ))
    };
    Some([of("white")?, of("yolk")?])
}

#[cfg(test)]
mod tests {
    use super::separated;

    #[test]
    fn white_and_yolk_of_one_egg_go_to_two_places() {
        for (line, white, yolk) in [
            (
                "1 egg, white in the dough and yolk for the top",
                "1 egg white",
                "1 egg yolk for the top",
            ),
            (
                "2 large eggs (yolks in the dough, whites to brush)",
                "2 egg whites for the top",
                "2 egg yolks",
            ),
        ] {
            let found = separated(line).expect("two");
            assert_eq!(found, [white, yolk], "{line}");
        }
        for line in [
            "1 egg, beaten",
            "3 eggs, and 1 yolk more for the top",
            "500 g flour, white or brown, and a yolk",
            "1 egg white, beaten with the yolk",
        ] {
            assert_eq!(separated(line), None, "{line}");
        }
    }
}
