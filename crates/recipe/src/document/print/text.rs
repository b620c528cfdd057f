//! TOML as it is printed: strings escaped, tables in braces, lists.

use std::fmt::Write as _;

/// A string as TOML, over several lines when it has several.
pub fn string(text: &str) -> String {
    let several = text.contains('\n');
    let mut out = String::from(if several { "\"\"\"\n" } else { "\"" });
    for letter in text.chars() {
        match letter {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push('\n'),
            '\t' => out.push_str("\\t"),
            '\r' => out.push_str("\\r"),
            c if c.is_control() => {
                // Writing to a string cannot fail.
                let _ = write!(out, "\\u{:04x}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out.push_str(if several { "\"\"\"" } else { "\"" });
    out
}

/// A string on one line, as a key may be.
pub fn quoted(text: &str) -> String {
    let lines: Vec<String> = text.split('\n').map(string).collect();
    let inner: Vec<&str> = lines.iter().map(|line| &line[1..line.len() - 1]).collect();
    format!("\"{}\"", inner.join("\\n"))
}

/// A list of strings.
pub fn strings<'a>(texts: impl IntoIterator<Item = &'a String>) -> String {
    let texts: Vec<String> = texts.into_iter().map(|text| string(text)).collect();
    format!("[{}]", texts.join(", "))
}

/// A table in braces that is filled key by key.
#[derive(Default)]
pub struct Braces {
    parts: Vec<String>,
}

impl Braces {
    /// Adds a value that is TOML already.
    pub fn raw(&mut self, key: &str, value: impl AsRef<str>) -> &mut Self {
        self.parts.push(format!("{key} = {}", value.as_ref()));
        self
    }

    /// Adds a string.
    pub fn text(&mut self, key: &str, value: impl AsRef<str>) -> &mut Self {
        self.raw(key, string(value.as_ref()))
    }

    /// Adds a string when there is one.
    pub fn maybe(&mut self, key: &str, value: Option<impl AsRef<str>>) -> &mut Self {
        if let Some(value) = value {
            self.text(key, value);
        }
        self
    }

    /// The table.
    pub fn done(&self) -> String {
        if self.parts.is_empty() {
            "{}".to_owned()
        } else {
            format!("{{ {} }}", self.parts.join(", "))
        }
    }

    /// Each key on a line of its own, as under a heading.
    pub fn lines(&self) -> String {
        self.parts
            .iter()
            .fold(String::new(), |all, part| all + part + "\n")
    }
}

#[cfg(test)]
mod tests {
    use super::string;

    #[test]
    fn quotes_backslashes_and_line_ends_are_escaped() {
        assert_eq!(string("a \"b\" \\ c"), r#""a \"b\" \\ c""#);
        assert_eq!(string("one\ntwo"), "\"\"\"\none\ntwo\"\"\"");
        assert_eq!(string("bell\u{7}"), "\"bell\\u0007\"");
    }
}
