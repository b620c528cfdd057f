//! A text as its lines, each with its bytes; whatever ends a line, none is left out.

use crate::source::Span;

/// A line as pasted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Raw<'t> {
    /// Its number, from 1.
    pub number: usize,
    /// Its bytes, without what ends it.
    pub span: Span,
    /// The line.
    pub text: &'t str,
}

/// Every line of a text.
pub fn lines(text: &str) -> Vec<Raw<'_>> {
    let mut found = Vec::new();
    let mut start = 0;
    let mut letters = text.char_indices().peekable();
    let mut add = |from: usize, to: usize| {
        found.push(Raw {
            number: found.len() + 1,
            span: Span::new(from, to),
            text: &text[from..to],
        });
    };
    while let Some((at, letter)) = letters.next() {
        if !matches!(letter, '\n' | '\r' | '\u{2028}' | '\u{2029}') {
            continue;
        }
        add(start, at);
        start = at + letter.len_utf8();
        if letter == '\r' && letters.next_if(|(_, next)| *next == '\n').is_some() {
            start += 1;
        }
    }
    if start < text.len() {
        add(start, text.len());
    }
    found
}

/// What stands before a line's words: a bullet or box, and whether a number counts it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bare<'t> {
    /// The line without it.
    pub text: &'t str,
    /// Whether a bullet or box stood there.
    pub bullet: bool,
    /// Whether a number counted it: "2.", "2)", "Step 2:".
    pub counted: bool,
}

/// A line without its bullet, its number and the marks of emphasis.
pub fn bare(line: &str) -> Bare<'_> {
    let mut rest =
        line.trim_matches(|c: char| c.is_whitespace() || c == '\u{feff}' || c == '\u{200b}');
    let (mut bullet, mut counted) = (false, false);
    for _ in 0..4 {
        let before = rest;
        let trimmed = rest.trim_start_matches(|c: char| {
            matches!(
                c,
                '•' | '·'
                    | '▢'
                    | '□'
                    | '☐'
                    | '☑'
                    | '◦'
                    | '●'
                    | '○'
                    | '▪'
                    | '■'
                    | '‣'
                    | '∙'
                    | '*'
                    | '_'
                    | '✓'
                    | '➤'
                    | '►'
            ) || c.is_whitespace()
        });
        if trimmed.len() < rest.len() {
            bullet = true;
            rest = trimmed;
        }
        for box_sign in ["[ ]", "[x]", "- ", "– ", "— ", "> "] {
            if let Some(after) = rest.strip_prefix(box_sign) {
                bullet = true;
                rest = after.trim_start();
            }
        }
        if let Some(after) = past_number(rest) {
            counted = true;
            rest = after;
        }
        if rest == before {
            break;
        }
    }
    let rest = rest.trim_end_matches(|c: char| matches!(c, '*' | '_') || c.is_whitespace());
    Bare {
        text: rest,
        bullet,
        counted,
    }
}

/// What follows "2.", "2)", "Step 2:", "(2)".
fn past_number(line: &str) -> Option<&str> {
    let lower = line.get(..4).map(str::to_ascii_lowercase);
    let stepped = lower.as_deref() == Some("step");
    let rest = if stepped {
        line[4..].trim_start()
    } else {
        line
    };
    let rest = rest.strip_prefix('(').unwrap_or(rest);
    let digits = rest.len() - rest.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    if digits == 0 || digits > 2 {
        return None;
    }
    let after = &rest[digits..];
    let mark = after.chars().next();
    let past = match mark {
        Some('.' | ')' | ':') => after[1..].trim_start(),
        Some('-' | '–') if stepped => after.trim_start_matches(['-', '–']).trim_start(),
        _ if stepped => return Some(after.trim_start()),
        _ => return None,
    };
    // "1.5 dl" is an amount; "2." alone is a number and nothing more.
    let number_goes_on = after[1..].starts_with(|c: char| c.is_ascii_digit());
    (!number_goes_on).then_some(past)
}

#[cfg(test)]
mod tests {
    use super::{bare, lines};

    #[test]
    fn every_line_is_there_whatever_ends_it() {
        let text = "one\r\ntwo\n\nfour\rfive";
        let found: Vec<&str> = lines(text).iter().map(|line| line.text).collect();
        assert_eq!(found, ["one", "two", "", "four", "five"]);
        assert!(
            lines(text)
                .iter()
                .all(|l| &text[l.span.start..l.span.end] == l.text)
        );
    }

    #[test]
    fn a_bullet_or_number_is_no_part_of_the_words() {
        for (line, words, counted) in [
            ("• 2 eggs", "2 eggs", false),
            ("1) Warm the water", "Warm the water", true),
            ("Step 3: Pop it in", "Pop it in", true),
            ("1.5 dl sugar", "1.5 dl sugar", false),
            ("1 x 7g sachet", "1 x 7g sachet", false),
            ("- [ ] 500 g flour", "500 g flour", false),
            ("**Dough**", "Dough", false),
            ("12. Cool.", "Cool.", true),
        ] {
            let found = bare(line);
            assert_eq!((found.text, found.counted), (words, counted), "{line}");
        }
    }
}
