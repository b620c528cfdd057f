//! Words by what they do to the end of a line: numbers, units, words that join, words that lead on.

use recipe::measure::spoken::{is_number_word, is_unit_word};

/// Words that a line keeps with the number before them, besides units.
const KEPT: &[&str] = &["pinch", "pinches", "per", "hundred", "thousand"];

/// Words between a number and its unit.
pub const HOW_FULL: &[&str] = &[
    "level", "heaped", "heaping", "rounded", "scant", "more", "generous",
];

/// Words before which a line may end: conjunctions, prepositions, relative pronouns.
pub const JOINING: &[&str] = &[
    "and", "or", "but", "so", "then", "nor", "yet", "until", "till", "with", "without", "in",
    "into", "on", "onto", "at", "for", "from", "to", "by", "over", "under", "after", "before",
    "when", "while", "because", "if", "as", "than", "about", "between", "through", "that", "which",
    "who", "where",
];

/// Words after which a line should not end.
pub const LEADING: &[&str] = &[
    "a", "an", "the", "your", "its", "this", "that", "these", "those", "my", "our", "their", "his",
    "her", "of", "to", "in", "on", "at", "for", "with", "from", "into", "and", "or", "but", "is",
    "are", "be", "by", "as", "than", "i", "we", "you", "it", "it's", "it’s", "very", "about",
    "not", "no", "some",
];

/// A word without marks around it, in small letters.
pub fn bare(word: &str) -> String {
    let bare = word.trim_matches(|sign: char| {
        !sign.is_alphanumeric() && !matches!(sign, '°' | '%') && !sign.is_numeric()
    });
    bare.to_lowercase()
}

/// Whether a word ends with a mark, so that what follows belongs to something else.
pub fn is_closed(word: &str) -> bool {
    word.ends_with(['.', ',', ';', ':', '!', '?', '…', ')', '”', '"', '–', '—'])
}

/// Whether a word is a number, in figures or in words.
pub fn is_number(word: &str) -> bool {
    let bare = bare(word);
    let figures = bare.chars().any(char::is_numeric)
        && bare.chars().all(|sign| {
            sign.is_numeric() || matches!(sign, '.' | ',' | '/' | '-' | '–' | '⁄' | '×' | 'x')
        });
    let parts = || bare.split('-');
    figures || (!bare.is_empty() && parts().all(is_number_word))
}

/// Whether a word is a unit.
pub fn is_unit(word: &str) -> bool {
    let bare = bare(word);
    is_unit_word(&bare) || KEPT.contains(&bare.as_str())
}
