//! One value of a file: what stands there, and what is said when it is not what its key wants.

use super::kind::Kind;
use super::places::Places;
use crate::source::{Code, Diagnostic, Located, Span, code};
use toml::de::DeValue;

/// What is read from and what has been said so far.
pub struct Reader<'t> {
    /// The text of the file.
    pub text: &'t str,
    /// Everything said.
    pub said: Vec<Diagnostic>,
    /// Whether something that must be there could not be had.
    pub broken: bool,
}

impl Reader<'_> {
    /// Says something after which the recipe cannot be handed out.
    pub fn breaks(&mut self, diagnostic: Diagnostic) {
        self.broken = true;
        self.said.push(diagnostic);
    }
}

/// At most so much of a text as a message can bear.
pub fn short(text: &str) -> String {
    let mut letters = text.chars();
    let start: String = letters.by_ref().take(60).collect();
    if letters.next().is_some() {
        format!("{start}...")
    } else {
        start
    }
}

/// What stands somewhere, with its article.
pub const fn kind_words(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) | DeValue::Float(_) => "a bare number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

/// A value of another kind than its key wants.
pub fn wrong_kind(
    key: &str,
    value: &DeValue<'_>,
    span: Span,
    wanted: &str,
    example: &str,
) -> Diagnostic {
    Diagnostic::at(
        code::VALUE_WRONG_KIND,
        span,
        format!("`{key}` wants {wanted}; here stands {}.", kind_words(value)),
    )
    .hint(format!("Write it as in {key} = {example}."))
}

/// Whether a text is a date in quotes.
pub fn looks_like_date(text: &str) -> bool {
    let text = text.trim();
    text.len() == 10 && text.bytes().all(|b| b.is_ascii_digit() || b == b'-')
}

/// A text, its line ends made one.
pub fn text_of(
    reader: &mut Reader<'_>,
    key: &str,
    value: &DeValue<'_>,
    span: Span,
) -> Option<Located<String>> {
    match value {
        DeValue::String(text) if text.trim().is_empty() => {
            reader.breaks(
                Diagnostic::at(code::VALUE_WRONG_KIND, span, format!("`{key}` is empty."))
                    .hint("Write something, or take the line out."),
            );
            None
        }
        DeValue::String(text) => Some(Located::new(text.replace("\r\n", "\n"), span)),
        other => {
            let example = match other {
                DeValue::Integer(n) => format!("\"{n}\""),
                DeValue::Float(n) => format!("\"{n}\""),
                _ => "\"...\"".to_owned(),
            };
            reader.breaks(wrong_kind(key, other, span, "text in quotes", &example));
            None
        }
    }
}

/// A quantity from its value.
pub fn quantity_of<T>(
    reader: &mut Reader<'_>,
    key: &str,
    value: &DeValue<'_>,
    span: Span,
    kind: &Kind<T>,
) -> Option<Located<T>> {
    let number = |code: Code, message: String| Diagnostic::at(code, span, message);
    match value {
        DeValue::String(text) => match (kind.read)(text) {
            Ok(quantity) => {
                let (low, high) = (kind.ends)(&quantity);
                // A value that is no number is neither above nor below: refuse it too.
                if !(low >= kind.low && high <= kind.high) {
                    reader.said.push(number(
                        code::VALUE_OUT_OF_REASON,
                        format!(
                            "“{}” is far outside what can be. {}",
                            short(text.trim()),
                            kind.bounds
                        ),
                    ));
                }
                Some(Located::new(quantity, span))
            }
            Err(unread) => {
                let place = Places::new(reader.text, span, text).of(unread.span);
                let mut diagnostic = Diagnostic::at(unread.code, place, unread.message);
                diagnostic.hints.extend(unread.hint);
                reader.breaks(diagnostic);
                None
            }
        },
        DeValue::Integer(n) if n.as_str().is_empty() => {
            reader.broken = true;
            None
        }
        DeValue::Float(n) if n.as_str().ends_with("nan") || n.as_str().ends_with("inf") => {
            reader.breaks(
                number(
                    code::NUMBER_UNREADABLE,
                    format!("`{key}` is not a number that can be reckoned with."),
                )
                .hint(format!(
                    "Write number and unit as text, as in {key} = \"{}\".",
                    kind.example
                )),
            );
            None
        }
        DeValue::Integer(_) | DeValue::Float(_) => {
            let written = reader.text.get(span.start..span.end).unwrap_or("");
            reader.breaks(
                number(
                    code::NUMBER_WITHOUT_UNIT,
                    format!(
                        "`{key}` is the bare number {}; its unit is missing.",
                        short(written)
                    ),
                )
                .hint(format!(
                    "Write number and unit as text, as in {key} = \"{}\".",
                    kind.example
                )),
            );
            None
        }
        other => {
            let example = format!("\"{}\"", kind.example);
            reader.breaks(wrong_kind(
                key,
                other,
                span,
                "a quantity in quotes",
                &example,
            ));
            None
        }
    }
}
