//! Where a printed line may end: not between a number and its unit, anywhere in a word that is longer
//! than a column.
//!
//! Spaces that must not end a line become no-break spaces here, which costs the typesetter nothing.

use edit::ledger::model::Figure;

use super::Piece;
use crate::marks;

/// Space that ends no line.
const NO_BREAK: char = '\u{a0}';

/// Place without width where a line may end.
const MAY_BREAK: char = '\u{200b}';

/// Letters from which on a word may break.
const LONG: usize = 26;

/// Letters up to which a figure stays whole: "180 °C / 350 °F / gas 4" has 23.
const SHORT: usize = 24;

/// What may stand after a number and stays with it.
const UNITS: [&str; 24] = [
    "mg", "g", "kg", "mL", "cL", "dL", "L", "s", "min", "h", "d", "mm", "cm", "m", "in", "°C",
    "°F", "cup", "cups", "Tbsp", "tsp", "oz", "lb", "%",
];

/// A text as one run of words: line ends inside a paragraph are spaces on paper.
pub(super) fn words(text: &str) -> String {
    kept(&text.lines().map(str::trim).collect::<Vec<_>>().join(" "))
}

/// The same; nothing at all when there are no words.
pub(super) fn some_words(text: Option<&String>) -> Option<String> {
    text.map(|text| words(text))
        .filter(|text| !text.trim().is_empty())
}

/// The same of many.
pub(super) fn all_words(texts: &[String]) -> Vec<String> {
    texts
        .iter()
        .map(|text| words(text))
        .filter(|text| !text.trim().is_empty())
        .collect()
}

/// Words of a sentence between its figures.
pub(super) fn said(text: &str) -> Piece {
    Piece {
        figure: false,
        text: kept(text),
        whole: false,
    }
}

/// A figure: whole when it is short; of a longer one its number and unit.
pub(super) fn figure(shown: &str) -> Piece {
    let short = shown.chars().count() <= SHORT;
    Piece {
        figure: true,
        text: if short {
            shown.replace(' ', &NO_BREAK.to_string())
        } else {
            kept(shown)
        },
        whole: short && shown.contains(['–', '-']),
    }
}

/// A line of the margin, its figures kept; neighbours that need no box are one run.
pub(super) fn line(shown: &str, figures: &[Figure]) -> Vec<Piece> {
    let mut runs: Vec<Piece> = vec![];
    for piece in marks::pieces(shown, figures) {
        let piece = match piece {
            marks::Piece::Words(text) => said(text),
            marks::Piece::Figure(text) => figure(text),
        };
        match runs.last_mut() {
            Some(last) if !last.whole && !piece.whole => last.text.push_str(&piece.text),
            _ => runs.push(Piece {
                figure: false,
                ..piece
            }),
        }
    }
    runs
}

/// A text whose numbers stay with their units, and whose longest words may break.
fn kept(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(' ') {
        let (before, after) = (&rest[..at], &rest[at + 1..]);
        push_word(&mut out, before);
        let next = after.split([' ', NO_BREAK]).next().unwrap_or_default();
        out.push(if stays(&out, next) { NO_BREAK } else { ' ' });
        rest = after;
    }
    push_word(&mut out, rest);
    out
}

/// Whether what comes next stays with what ends here: a unit with its number, both sides of "×".
fn stays(before: &str, next: &str) -> bool {
    let number = |text: &str| text.starts_with(|sign: char| sign.is_numeric());
    let unit: String = next
        .chars()
        .take_while(|sign| sign.is_alphabetic() || matches!(sign, '°' | '%'))
        .collect();
    let after_number = before.ends_with(|sign: char| sign.is_numeric());
    after_number && (UNITS.contains(&unit.as_str()) || next == "×")
        || before.ends_with('×') && number(next)
}

/// Adds a word; a very long one may break before each of its letters.
fn push_word(out: &mut String, word: &str) {
    if word.chars().count() < LONG || word.contains(NO_BREAK) {
        out.push_str(word);
        return;
    }
    for (at, letter) in word.chars().enumerate() {
        if at > 0 {
            out.push(MAY_BREAK);
        }
        out.push(letter);
    }
}

#[cfg(test)]
mod tests {
    use super::{figure, kept, line};
    use edit::ledger::model::Figure;
    use recipe::provenance::{Had, Origin};

    #[test]
    fn a_number_stays_with_its_unit_and_a_size_with_all_its_sides() {
        assert_eq!(
            kept("a tin of 21.6 × 11.4 cm holds"),
            "a tin of 21.6\u{a0}×\u{a0}11.4\u{a0}cm holds"
        );
        assert_eq!(
            kept("½ cup, 3 eggs, 8 min at 150 °C."),
            "½\u{a0}cup, 3 eggs, 8\u{a0}min at 150\u{a0}°C."
        );
        assert_eq!(kept("10 minutes"), "10 minutes");
    }

    #[test]
    fn a_word_without_end_may_break_and_no_other() {
        assert_eq!(kept("bread and butter"), "bread and butter");
        let long = "semolinabread".repeat(3);
        assert_eq!(kept(&long).matches('\u{200b}').count(), 38);
    }

    #[test]
    fn a_short_figure_is_whole_and_a_range_wants_a_box() {
        assert_eq!(
            figure("10 × (48 g + 8 g)").text,
            "10\u{a0}×\u{a0}(48\u{a0}g\u{a0}+\u{a0}8\u{a0}g)"
        );
        assert!(figure("50–85 min").whole);
        assert!(!figure("180 °C / 350 °F").whole);
    }

    #[test]
    fn a_line_without_a_range_is_one_run() {
        let range = |shown: &str| Figure {
            name: String::new(),
            value: 0.0,
            unit: "s",
            shown: shown.to_owned(),
            origin: Origin::new("test", Had::Written),
        };
        assert_eq!(line("oven 180 °C", &[range("180 °C")]).len(), 1);
        assert_eq!(
            line("20 min (15–30 min)", &[range("20 min"), range("15–30 min")]).len(),
            3
        );
    }
}
