//! The recipe file as it is written line by line, with what was assumed marked where it stands.

use super::model::Assumed;

/// Letters after which no more is written; a file holds at most a million bytes.
const MOST_BYTES: usize = 700_000;

/// The lines so far.
#[derive(Debug, Default)]
pub struct Sheet {
    out: Vec<String>,
    bytes: usize,
    assumed: Vec<Assumed>,
}

impl Sheet {
    /// Adds a line.
    pub fn line(&mut self, text: impl Into<String>) {
        let text = text.into();
        if self.bytes + text.len() > MOST_BYTES {
            return;
        }
        self.bytes += text.len() + 1;
        // A value over several lines counts as many.
        self.out.extend(text.split('\n').map(str::to_owned));
    }

    /// Adds an empty line, never two.
    pub fn gap(&mut self) {
        if self.out.last().is_some_and(|line| !line.is_empty()) {
            self.line("");
        }
    }

    /// Adds a comment.
    pub fn comment(&mut self, text: &str) {
        let text = clean(text).replace('\n', " ");
        let text: String = text.chars().take(400).collect();
        self.line(format!("# {}", text.trim()));
    }

    /// Adds a comment inside a list.
    pub fn indented(&mut self, text: &str) {
        let text = clean(text).replace('\n', " ");
        let text: String = text.chars().take(400).collect();
        self.line(format!("  # {}", text.trim()));
    }

    /// Says above the next line that its value is assumed; the same is said once.
    pub fn assume(&mut self, what: &str, sentence: &str) {
        if self
            .assumed
            .iter()
            .any(|one| one.what == what && one.sentence == sentence)
        {
            return;
        }
        self.comment(&format!("Assumed: {what}: {sentence}"));
        self.assumed.push(Assumed {
            what: what.to_owned(),
            sentence: sentence.to_owned(),
            file_line: Some(self.out.len() + 1),
        });
    }

    /// The text, and what was assumed.
    pub fn done(self) -> (String, Vec<Assumed>) {
        let mut text = self.out.join("\n");
        text.push('\n');
        (text, self.assumed)
    }
}

/// A text without what a file refuses: control letters and unseen signs that turn the writing.
pub fn clean(text: &str) -> String {
    text.chars()
        .filter(|c| !matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{feff}'))
        .map(|c| if c.is_control() && c != '\n' { ' ' } else { c })
        .collect()
}

/// A string as TOML, on one line.
pub fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for letter in clean(text).chars() {
        match letter {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push(' '),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}
