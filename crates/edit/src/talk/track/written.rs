//! Words cut out of a file, each of which knows where in the file it stands.

use std::ops::Range;

/// Where the letters of a cue stand in the file it was read from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Places(Vec<(usize, usize)>);

impl Places {
    /// The byte of the file at which a byte of the text stands.
    fn of(&self, at: usize, otherwise: usize) -> usize {
        let after = self.0.partition_point(|(text, _)| *text <= at);
        match after.checked_sub(1).and_then(|index| self.0.get(index)) {
            Some((text, file)) => file + (at - text),
            None => otherwise + at,
        }
    }

    /// The range of the file for a range of the text of a cue that covers `whole` of the file.
    pub(super) fn range(&self, within: &Range<usize>, whole: &Range<usize>) -> Range<usize> {
        let start = self
            .of(within.start, whole.start)
            .clamp(whole.start, whole.end);
        let last = within.end.saturating_sub(1).max(within.start);
        // From the last byte on, so that a tag after it is not taken in.
        let end =
            (self.of(last, whole.start) + within.end.saturating_sub(last)).clamp(start, whole.end);
        start..end
    }
}

/// A text in the making.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Written {
    pub text: String,
    pub places: Places,
}

impl Written {
    /// Adds a piece that stands at a byte of the file.
    pub fn push(&mut self, piece: &str, file: usize) {
        if piece.is_empty() {
            return;
        }
        if self.text.is_empty() || self.places.of(self.text.len(), 0) != file {
            self.places.0.push((self.text.len(), file));
        }
        self.text.push_str(piece);
    }

    /// The byte of the file at which a byte of the text stands.
    pub fn file(&self, at: usize) -> usize {
        self.places.of(at, 0)
    }

    /// Adds a part of another.
    pub fn push_part(&mut self, other: &Self, part: Range<usize>) {
        let mut from = part.start;
        let inside = other.places.0.iter().map(|(text, _)| *text);
        let cuts = inside.filter(|text| *text > part.start && *text < part.end);
        for to in cuts.chain([part.end]) {
            self.push(&other.text[from..to], other.places.of(from, 0));
            from = to;
        }
    }

    /// The same without blank lines and without blanks at the ends of lines.
    pub fn tidy(&self) -> Self {
        let mut out = Self::default();
        let mut at = 0;
        for line in self.text.split('\n') {
            let start = at + (line.len() - line.trim_start().len());
            let end = start + line.trim().len();
            if end > start {
                if !out.text.is_empty() {
                    // The line end that was just passed.
                    out.push("\n", self.places.of(at.saturating_sub(1), 0));
                }
                out.push_part(self, start..end);
            }
            at += line.len() + 1;
        }
        out
    }

    /// The rest from a byte on.
    pub fn after(&self, at: usize) -> Self {
        let mut out = Self::default();
        out.push_part(self, at..self.text.len());
        out
    }
}

#[cfg(test)]
mod tests {
    use super::Written;

    #[test]
    fn every_letter_knows_its_place() {
        let file = "  one <i>two</i>  \n\n three &amp; four";
        let mut written = Written::default();
        let cut = [("  one ", 0), ("two", 9), ("  \n\n three ", 16)];
        for (piece, at) in cut {
            assert_eq!(&file[at..at + piece.len()], piece);
            written.push(piece, at);
        }
        written.push("&", 27);
        written.push(" four", 32);
        let tidy = written.tidy();
        assert_eq!(tidy.text, "one two\nthree & four");
        let whole = 0..file.len();
        for word in ["one", "two", "three", "four"] {
            let at = tidy.text.find(word).expect("the word");
            let place = tidy.places.range(&(at..at + word.len()), &whole);
            assert_eq!(&file[place], word);
        }
        assert_eq!(&file[tidy.places.range(&(0..7), &whole)], "one <i>two");
        assert_eq!(tidy.after(8).text, "three & four");
    }
}
