//! Lines of a pasted text that the cook has written anew or named, kept beside the text in a file of their own.
//!
//! A line of that file is `12 ingredient: 2 large eggs`, or `12: 2 large eggs` when it is still to be
//! read as what it looks like. The pasted text itself is never changed.

use recipe::import::LineKind;
use std::collections::BTreeMap;

/// The words for what a line can be named.
pub const KINDS: [(LineKind, &str); 8] = [
    (LineKind::Ingredient, "ingredient"),
    (LineKind::Step, "step"),
    (LineKind::Heading, "heading"),
    (LineKind::Title, "title"),
    (LineKind::About, "about"),
    (LineKind::Makes, "makes"),
    (LineKind::Note, "note"),
    (LineKind::Other, "other"),
];

/// A line written anew.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mend {
    /// What it says now.
    pub text: String,
    /// What it is, when the cook has said so.
    pub kind: Option<LineKind>,
}

/// Mends by the number of their line, from 1.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Mends(pub BTreeMap<usize, Mend>);

impl Mends {
    /// Reads the file. A line of another form is left out.
    pub fn read(text: &str) -> Self {
        let one = |line: &str| {
            let (head, text) = line.split_once(':')?;
            let (number, kind) = match head.trim().split_once(' ') {
                Some((number, word)) => (number, Some(kind_of(word.trim())?)),
                None => (head.trim(), None),
            };
            let mend = Mend {
                text: text.trim().to_owned(),
                kind,
            };
            Some((number.parse().ok()?, mend))
        };
        Self(text.lines().filter_map(one).collect())
    }

    /// The file.
    pub fn text(&self) -> String {
        let mut text = String::new();
        for (number, mend) in &self.0 {
            let kind = mend.kind.and_then(word_of);
            let kind = kind.map_or_else(String::new, |word| format!(" {word}"));
            text += &format!("{number}{kind}: {}\n", mend.text);
        }
        text
    }

    /// The pasted text with its mended lines in their places.
    pub fn applied(&self, pasted: &str) -> String {
        let mut text = String::new();
        for (index, line) in pasted.split_inclusive('\n').enumerate() {
            match self.0.get(&(index + 1)) {
                Some(mend) => {
                    text += &mend.text;
                    if line.ends_with('\n') {
                        text.push('\n');
                    }
                }
                None => text += line,
            }
        }
        text
    }

    /// The lines that the cook has named.
    pub fn kinds(&self) -> BTreeMap<usize, LineKind> {
        let named = |(number, mend): (&usize, &Mend)| Some((*number, mend.kind?));
        self.0.iter().filter_map(named).collect()
    }
}

/// What a word names.
pub fn kind_of(word: &str) -> Option<LineKind> {
    let named = KINDS.iter().find(|(_, own)| *own == word);
    named.map(|(kind, _)| *kind)
}

/// The word of a kind.
pub fn word_of(kind: LineKind) -> Option<&'static str> {
    let named = KINDS.iter().find(|(own, _)| *own == kind);
    named.map(|(_, word)| *word)
}

#[cfg(test)]
mod tests {
    use super::{Mend, Mends};
    use recipe::import::LineKind;

    #[test]
    fn what_is_written_is_read_again() {
        let text = "2: 3 eggs: large\n12 step: Mix.\n13 other: \n";
        let mends = Mends::read(text);
        assert_eq!(mends.0.len(), 3);
        assert_eq!(
            mends.0[&12],
            Mend {
                text: "Mix.".to_owned(),
                kind: Some(LineKind::Step)
            }
        );
        assert_eq!(mends.text(), text);
        assert_eq!(
            Mends::read("x: y\n7 nonsense: z\nno colon"),
            Mends::default()
        );
    }

    #[test]
    fn mended_lines_stand_in_their_places() {
        let mends = Mends::read("2: 3 eggs\n");
        assert_eq!(mends.applied("Buns\n3 egs\n\nMix"), "Buns\n3 eggs\n\nMix");
        assert_eq!(mends.applied("one line"), "one line");
    }
}
