//! Where in the file each letter of a quoted text stands, escapes and folded lines included.

use crate::source::Span;

/// Maps offsets in the value of a string to offsets in the file.
pub struct Places {
    /// The whole string, quotes included.
    whole: Span,
    /// Where runs of letters begin that stand in the file as they stand in the value:
    /// (offset in the value, offset in the file), both rising.
    runs: Vec<(usize, usize)>,
    /// Length of the value.
    length: usize,
}

impl Places {
    /// Of the string that stands in `text` at `span` and has this value.
    pub fn new(text: &str, span: Span, value: &str) -> Self {
        let raw = text.get(span.start..span.end).unwrap_or("");
        let runs = runs(raw, span.start, value).unwrap_or_default();
        Self {
            whole: span,
            runs,
            length: value.len(),
        }
    }

    /// The bytes of the file for bytes of the value; the whole string when they cannot be told.
    pub fn of(&self, span: Span) -> Span {
        if self.runs.is_empty() || span.end > self.length {
            return self.whole;
        }
        let start = self.at(span.start);
        let end = if span.end > span.start {
            self.at(span.end - 1) + 1
        } else {
            start
        };
        Span::new(start, end.max(start))
    }

    /// One byte.
    fn at(&self, offset: usize) -> usize {
        let run = self
            .runs
            .partition_point(|(value, _)| *value <= offset)
            .saturating_sub(1);
        self.runs
            .get(run)
            .map_or(self.whole.start, |(value, file)| file + (offset - value))
    }
}

/// Walks the written string beside its value.
fn runs(raw: &str, start: usize, value: &str) -> Option<Vec<(usize, usize)>> {
    let quotes = ["\"\"\"", "'''", "\"", "'"]
        .into_iter()
        .find(|q| raw.starts_with(q))?;
    let mut at = quotes.len();
    if quotes.len() == 3 {
        at += ["\r\n", "\n"]
            .iter()
            .find(|n| raw[at..].starts_with(**n))
            .map_or(0, |n| n.len());
    }
    let mut found = vec![(0, start + at)];
    let letters = value.char_indices().peekable();
    for (offset, letter) in letters {
        let rest = raw.get(at..)?;
        let here = rest.chars().next()?;
        let next_offset = offset + letter.len_utf8();
        if here == '\\' && quotes.starts_with('"') {
            if let Some(folded) = folded_line(rest) {
                at += folded;
                found.push((offset, start + at));
                // The letter itself comes after the fold.
                let after = raw.get(at..)?;
                if after.starts_with('\\') {
                    at += escape(after)?;
                    found.push((next_offset, start + at));
                } else {
                    at += after.chars().next()?.len_utf8();
                }
                continue;
            }
            at += escape(rest)?;
            found.push((next_offset, start + at));
        } else if here == letter {
            at += here.len_utf8();
        } else if rest.starts_with("\r\n") && letter == '\n' {
            at += 2;
            found.push((next_offset, start + at));
        } else {
            return None;
        }
    }
    Some(found)
}

/// Length of a backslash with the line ends and spaces that it swallows.
fn folded_line(rest: &str) -> Option<usize> {
    let after = rest.strip_prefix('\\')?;
    let blank = after.len() - after.trim_start_matches([' ', '\t', '\r', '\n']).len();
    after[..blank].contains('\n').then_some(1 + blank)
}

/// Length of an escape.
fn escape(rest: &str) -> Option<usize> {
    Some(match rest.chars().nth(1)? {
        'x' => 4,
        'u' => 6,
        'U' => 10,
        other => 1 + other.len_utf8(),
    })
}

#[cfg(test)]
mod tests {
    use super::{Places, Span};

    #[test]
    fn a_letter_is_found_behind_escapes_and_folded_lines() {
        let text = "do = \"\"\"\nA \\\"b\\\" \\\n   [milk]\"\"\"";
        let value = "A \"b\" [milk]";
        let places = Places::new(text, Span::new(5, text.len()), value);
        let span = places.of(Span::new(6, 12));
        assert_eq!(&text[span.start..span.end], "[milk]");
    }
}
