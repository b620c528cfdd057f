//! A sentence as numbers, words and marks, each with its bytes.

use crate::measure::read::number::{Cursor, begins, number};
use crate::measure::spoken::number_word;
use crate::source::Span;

/// One word, number or mark of a sentence.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Token {
    /// Its bytes.
    pub span: Span,
    /// What it is.
    pub what: What,
}

/// What a token is.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum What {
    /// A number, as the one reader of numbers reads it.
    Number(f64),
    /// Letters, in lower case.
    Word(String),
    /// Anything else but space.
    Mark(char),
}

impl Token {
    /// The word, if it is one.
    pub fn word(&self) -> &str {
        match &self.what {
            What::Word(word) => word,
            _ => "",
        }
    }

    /// Whether it is this mark.
    pub fn is(&self, mark: char) -> bool {
        self.what == What::Mark(mark)
    }

    /// Whether it is a dash.
    pub fn is_dash(&self) -> bool {
        matches!(self.what, What::Mark('-' | '–' | '—' | '−' | '‐' | '‑'))
    }
}

/// The tokens of a sentence.
pub(crate) fn tokens(text: &str) -> Vec<Token> {
    let mut found = Vec::new();
    let mut cursor = Cursor::new(text);
    loop {
        cursor.skip_space();
        let start = cursor.at;
        let Some(letter) = cursor.peek() else {
            return found;
        };
        let digit_after =
            cursor.rest()[letter.len_utf8()..].starts_with(|c: char| c.is_ascii_digit());
        let what =
            if begins(letter) && (!matches!(letter, '.' | ',') || digit_after && letter == '.') {
                match number_of(&mut cursor) {
                    Some(value) => What::Number(value),
                    None => What::Mark('#'),
                }
            } else if letter.is_alphabetic() {
                let word = cursor.take_while(|c| c.is_alphabetic() || matches!(c, '\'' | '’'));
                What::Word(word.to_lowercase())
            } else {
                cursor.at += letter.len_utf8();
                What::Mark(letter)
            };
        found.push(Token {
            span: cursor.since(start),
            what,
        });
    }
}

/// A number; a comma or full stop that ends a clause is none of it.
fn number_of(cursor: &mut Cursor<'_>) -> Option<f64> {
    let rest = cursor.rest();
    let run = rest
        .find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ','))
        .unwrap_or(rest.len());
    let written = &rest[..run];
    let kept = written.trim_end_matches(['.', ',']).len();
    if kept > 0 && kept < run {
        let plain = written[..kept].replace(',', ".").parse::<f64>().ok();
        cursor.at += kept;
        return plain.filter(|value| value.is_finite());
    }
    let mut ahead = cursor.clone();
    if let Ok(value) = number(&mut ahead) {
        *cursor = ahead;
        return Some(value);
    }
    // Goes past what no number is, by at least one letter.
    cursor.at += run.max(rest.chars().next().map_or(1, char::len_utf8));
    None
}

/// A number written as a word.
pub(crate) fn count_word(word: &str) -> Option<f64> {
    match word {
        "a" | "an" | "another" => Some(1.0),
        "couple" => Some(2.0),
        "dozen" => Some(12.0),
        "zero" => None,
        _ => number_word(word),
    }
}
