//! What the text itself can be wrong in: its bytes, its size, its TOML, each said in a cook's words.

use crate::source::{Diagnostic, Span, code};
use numerics::decimal::trimmed;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// The largest file that is read, in bytes: nearly a hundred times the longest example.
pub const LARGEST_BYTES: usize = 1_000_000;

/// How many faults of the text itself are said at once; more would be echoes of the first.
const MOST_FAULTS: usize = 3;

/// A text as its parts, and whether they can be trusted.
pub struct Parsed<'t> {
    /// The table of the whole file.
    pub table: DeTable<'t>,
    /// Faults of the text.
    pub faults: Vec<Diagnostic>,
    /// From here on it is not certain which value belongs to which key.
    pub lost_from: Option<usize>,
}

/// What is wrong with the size of a text, if anything.
pub fn too_large(bytes: usize) -> Option<Diagnostic> {
    (bytes > LARGEST_BYTES).then(|| {
        Diagnostic::whole(
            code::FILE_TOO_LARGE,
            format!(
                "The file holds {} MB; none that is read here is larger than {} MB.",
                trimmed(bytes as f64 / 1e6, 1),
                trimmed(LARGEST_BYTES as f64 / 1e6, 1)
            ),
        )
        .hint("Look whether it is the right file, and whether something was pasted into it by mistake.")
    })
}

/// A sign that turns the direction of writing, unseen: what is shown may then differ from what is
/// read. The embeddings, overrides and isolates of the Unicode Bidirectional Algorithm (UAX 9).
pub fn turned(text: &str) -> Option<Diagnostic> {
    let turns = |c: char| matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}');
    let (at, sign) = text.char_indices().find(|(_, c)| turns(*c))?;
    let said = Diagnostic::at(
        code::TEXT_UNREADABLE,
        Span::new(at, at + sign.len_utf8()),
        "An unseen sign here turns the direction of writing, so the text may look other than it reads.",
    );
    Some(said.hint(format!(
        "Take the sign U+{:04X} out: delete the letters around it and type them again.",
        u32::from(sign)
    )))
}

/// Bytes as text, or why they are none.
pub fn decode_utf8(bytes: &[u8]) -> Result<&str, Box<Diagnostic>> {
    let utf16 = bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]);
    let nul = bytes.iter().take(512).filter(|&&b| b == 0).count();
    if utf16 || nul > 8 {
        // A place in a text never ends inside a letter, and such a file may be UTF-8 all the same.
        let text = std::str::from_utf8(bytes).unwrap_or_default();
        let first = text.chars().next();
        return Err(Box::new(
            Diagnostic::at(
                code::TEXT_NOT_UTF8,
                Span::new(0, first.map_or(bytes.len().min(2), char::len_utf8)),
                "The file was saved as UTF-16; it is read as UTF-8.",
            )
            .hint("Save it again with the encoding UTF-8."),
        ));
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let at = error.valid_up_to();
        let before = &bytes[..at];
        let line = before.split(|&b| b == b'\n').count();
        let line_start = before.iter().rposition(|&b| b == b'\n').map_or(0, |n| n + 1);
        let column = String::from_utf8_lossy(&before[line_start..]).chars().count() + 1;
        let said = Diagnostic::at(
            code::TEXT_NOT_UTF8,
            Span::new(at, at + error.error_len().unwrap_or(1)),
            format!("The byte at line {line}, letter {column} is no part of UTF-8 text."),
        )
        .hint("Save the file again with the encoding UTF-8; it was probably saved as Latin-1 or Windows-1252.");
        Box::new(said)
    })
}

/// Parses a text. Never fails: what could be read is there, and what could not is said.
pub fn parse(text: &str) -> Parsed<'_> {
    let (table, errors) = DeTable::parse_recoverable(text);
    let mut places: Vec<(Span, String)> = errors
        .iter()
        .map(|e| {
            (
                e.span().map_or(Span::new(0, 0), Span::from),
                e.message().to_owned(),
            )
        })
        .collect();
    places.sort_by_key(|(span, _)| span.start);
    let lost_from = places
        .iter()
        .find(|(_, m)| !keeps_the_rest(m))
        .map(|(s, _)| line_start(text, s.start));
    let mut faults: Vec<Diagnostic> = Vec::new();
    // Up to here a fault has been said: one for each line.
    let mut said_to = None;
    for (span, message) in &places {
        if said_to.is_some_and(|end| span.start <= end) {
            continue;
        }
        if faults.len() == MOST_FAULTS {
            break;
        }
        said_to = Some(line_end(text, span.start));
        faults.push(in_plain_words(text, *span, message));
    }
    Parsed {
        table: table.into_inner(),
        faults,
        lost_from,
    }
}

/// Whether everything but this one value is still read as it was meant.
fn keeps_the_rest(message: &str) -> bool {
    [
        "duplicate key",
        "invalid date",
        "invalid time",
        "invalid datetime",
        "string values must be quoted",
        "unexpected leading zero",
        "missing escaped value",
        "invalid escape",
    ]
    .iter()
    .any(|start| message.starts_with(start))
}

/// Digits, a colon, two digits: meant as a time of the day.
fn looks_like_clock(written: &str) -> bool {
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    written.split_once(':').is_some_and(|(hours, minutes)| {
        hours.len() <= 2 && minutes.len() == 2 && digits(hours) && digits(minutes)
    })
}

/// Where the line of a place begins.
fn line_start(text: &str, at: usize) -> usize {
    let at = at.min(text.len());
    text.as_bytes()[..at]
        .iter()
        .rposition(|&b| b == b'\n')
        .map_or(0, |n| n + 1)
}

/// Where the line of a place ends.
fn line_end(text: &str, at: usize) -> usize {
    let at = at.min(text.len());
    text.as_bytes()[at..]
        .iter()
        .position(|&b| b == b'\n')
        .map_or(text.len(), |n| at + n)
}

/// Says one fault of the text as a cook would.
fn in_plain_words(text: &str, span: Span, message: &str) -> Diagnostic {
    let written = text.get(span.start..span.end).unwrap_or("");
    let short: String = written.chars().take(40).collect();
    let starts = |start: &str| message.starts_with(start);
    if let Some(said) = curly_quotes(text, span) {
        return said;
    }
    let unreadable = |words: String| Diagnostic::at(code::TEXT_UNREADABLE, span, words);
    if starts("duplicate key") {
        return unreadable(format!(
            "`{short}` stands twice in one table; only one can count."
        ))
        .hint("Take one of the two out, or give the second its own table.");
    }
    if starts("invalid date") || (looks_like_date(written) && starts("invalid")) {
        return Diagnostic::at(
            code::DATE_IMPOSSIBLE,
            span,
            format!("“{short}” is not a day of the calendar."),
        )
        .hint("Write a date as year-month-day: 2026-02-28.");
    }
    if looks_like_clock(written) {
        return unreadable(format!("“{short}” is no time of the day."))
            .hint("Hours go from 00 to 23 and minutes from 00 to 59, as in at = 09:25. What is after midnight belongs to the next day.");
    }
    if starts("string values must be quoted") {
        return unreadable(format!("“{short}” stands without quotes."))
            .hint(format!("Write \"{short}\"."));
    }
    if starts("invalid basic string")
        || starts("invalid literal string")
        || starts("invalid multi-line")
    {
        return unreadable("A text is not closed: its last quote is missing.".to_owned())
            .hint("Put the closing quote at the end of the text.");
    }
    if starts("missing escaped value") || starts("invalid escape") {
        return unreadable("A backslash stands before a letter that it cannot change.".to_owned())
            .hint("Write a backslash that is meant as one twice: \\\\.");
    }
    if starts("unexpected leading zero") {
        return unreadable("A bare number does not begin with 0.".to_owned());
    }
    if starts("unclosed array") || starts("unclosed inline table") || starts("unclosed table") {
        let bracket = message.split('`').nth(1).unwrap_or("]");
        return unreadable(format!("A bracket is not closed: {bracket} is missing."))
            .hint(format!("Put {bracket} where the list or the table ends."));
    }
    if starts("missing comma") {
        return unreadable("A comma is missing between two entries.".to_owned())
            .hint("Put a comma before this place.");
    }
    if starts("extra comma") {
        return unreadable("There is a comma too many.".to_owned()).hint("Take one comma out.");
    }
    if starts("key with no value") || starts("missing value") || starts("missing assignment") {
        return unreadable("A key stands without a value.".to_owned())
            .hint("Write key = value, as in title = \"Overnight loaf\".");
    }
    if starts("unexpected key or value") {
        return unreadable("After the value stands something more.".to_owned())
            .hint("Begin a new line for the next key; a remark begins with #.");
    }
    if message.contains("recurs") {
        return unreadable("Brackets stand inside brackets, deeper than any recipe.".to_owned());
    }
    if starts("unquoted keys") || starts("invalid unquoted key") || starts("invalid key") {
        return unreadable("A line does not begin with a key.".to_owned())
            .hint("A key is made of letters, digits and -, and is followed by = and its value.");
    }
    if message.contains("number") || message.contains("integer") || message.contains("float") {
        return Diagnostic::at(
            code::NUMBER_UNREADABLE,
            span,
            format!("“{short}” is not a number."),
        );
    }
    unreadable("This place cannot be read as TOML.".to_owned())
        .hint("Look here and at the line before for a missing quote, bracket or comma.")
        .because(format!("The TOML reader says: {message}"))
}

/// Whether a letter is a quote as word processors set it.
const fn is_curly(letter: char) -> bool {
    matches!(letter, '“' | '”' | '„' | '‘' | '’')
}

/// A value that stands in curly quotes, from its first quote to its last on that line.
fn curly_quotes(text: &str, span: Span) -> Option<Diagnostic> {
    let rest = text.get(span.start..line_end(text, span.start))?;
    let inner = rest.strip_prefix(is_curly)?;
    let first = rest.len() - inner.len();
    let (inner, end) = match inner.find(is_curly) {
        Some(at) => {
            let last = inner[at..].chars().next().map_or(0, char::len_utf8);
            (&inner[..at], first + at + last)
        }
        None => (inner.trim_end(), first + inner.trim_end().len()),
    };
    let said = Diagnostic::at(
        code::TEXT_UNREADABLE,
        Span::new(span.start, span.start + end),
        "The quotes are the curly ones of a word processor; write straight ones.",
    );
    let short: String = inner.chars().take(40).collect();
    Some(said.hint(format!("Write \"{}\".", short.trim())))
}

/// Whether a text is meant as a date.
fn looks_like_date(text: &str) -> bool {
    let bytes = text.as_bytes();
    bytes.len() >= 8 && bytes[..4].iter().all(u8::is_ascii_digit) && bytes[4] == b'-'
}

/// How many tables and list entries there are, down to the third level: enough to count stages,
/// items and steps before any is read.
pub fn parts(table: &DeTable<'_>) -> usize {
    fn inside(value: &Spanned<DeValue<'_>>, depth: usize) -> usize {
        match value.get_ref() {
            DeValue::Array(list) if depth > 0 => {
                list.len() + list.iter().map(|v| inside(v, depth - 1)).sum::<usize>()
            }
            DeValue::Table(table) if depth > 0 => {
                table.values().map(|v| inside(v, depth - 1)).sum()
            }
            _ => 0,
        }
    }
    table.values().map(|v| inside(v, 4)).sum()
}
