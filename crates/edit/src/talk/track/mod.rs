//! The words of a film with their times, read from plain text, `SubRip` or `WebVTT`.
//!
//! `WebVTT`: W3C, "`WebVTT`: The Web Video Text Tracks Format" (read), with its parser's rules for blocks;
//! what that parser would drop is kept here and said. `SubRip` has no standard: common practice.

mod captions;
mod check;
pub mod code;
mod encoding;
mod marked;
mod notes;
mod payload;
mod time;
mod written;

pub(in crate::talk) use notes::Notes;
use recipe::source::Checked;
use std::ops::Range;
use std::time::Duration;
pub use time::clock;
pub use written::Places;
use written::Written;

/// What is said in a film, in the order of the file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Track {
    /// Its cues.
    pub cues: Vec<Cue>,
    /// Its language (BCP 47), when the file says it.
    pub language: Option<String>,
    /// The kind of file it was read from.
    pub kind: Kind,
    /// Marks of colour, slant, place on the screen or remark that were not kept, and where the first stands.
    pub left_out: Option<(Range<usize>, usize)>,
    /// The text of the file, into which every place points. For UTF-8 its bytes are the file's.
    pub text: String,
}

/// A kind of file that holds a track.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Kind {
    /// Words, with or without marks such as `[0:16]`.
    #[default]
    Text,
    /// `SubRip`, .srt.
    SubRip,
    /// `WebVTT`, .vtt.
    WebVtt,
}

impl Kind {
    /// What it is called.
    pub const fn said(self) -> &'static str {
        match self {
            Self::Text => "plain text",
            Self::SubRip => "SubRip",
            Self::WebVtt => "WebVTT",
        }
    }
}

/// A stretch of words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cue {
    /// When it begins, since the film's beginning; none when the file does not say it.
    pub from: Option<Duration>,
    /// When it ends; none when the file does not say it.
    pub to: Option<Duration>,
    /// The words, lines as in the file, without tags.
    pub text: String,
    /// Its bytes in the file, time code left out.
    pub span: Range<usize>,
    /// Who speaks, when the file says it.
    pub speaker: Option<String>,
    /// Where its letters stand in the file.
    pub places: Places,
}

impl Cue {
    /// The words in one line; every letter at the same byte as in `text`.
    pub fn line(&self) -> String {
        self.text.replace('\n', " ")
    }

    /// The bytes in the file of a range of `text`.
    pub fn place(&self, within: Range<usize>) -> Range<usize> {
        self.places.range(&within, &self.span)
    }

    /// Its words and their places from the second line on.
    fn without_first_line(&self) -> (String, Places) {
        let whole = Written {
            text: self.text.clone(),
            places: self.places.clone(),
        };
        let rest = match self.text.find('\n') {
            Some(end) => whole.after(end + 1),
            None => Written::default(),
        };
        (rest.text, rest.places)
    }

    fn of(written: Written, span: Range<usize>) -> Self {
        Self {
            text: written.text,
            places: written.places,
            span,
            ..Self::default()
        }
    }
}

/// A line of a file: where it begins, and its text without its end.
#[derive(Clone, Copy)]
struct Line<'a> {
    at: usize,
    text: &'a str,
}

impl Line<'_> {
    fn span(&self) -> Range<usize> {
        self.at..self.at + self.text.len()
    }

    fn is_blank(&self) -> bool {
        self.text.trim().is_empty()
    }
}

/// Lines ended by LF, CR LF or CR alone, as `WebVTT` ends them. A byte order mark is no part of the first.
fn lines(text: &str) -> Vec<Line<'_>> {
    let mut lines = Vec::new();
    let mut at = if text.starts_with('\u{feff}') { 3 } else { 0 };
    while at <= text.len() {
        let rest = &text[at..];
        let length = rest.find(['\n', '\r']).unwrap_or(rest.len());
        lines.push(Line {
            at,
            text: &rest[..length],
        });
        let end = if rest[length..].starts_with("\r\n") {
            2
        } else {
            1
        };
        at += length + end;
    }
    lines
}

/// Reads a file with a talk or with captions, whatever kind it is. Nothing that is said is left out;
/// what is wrong with it is said.
pub fn read(bytes: &[u8]) -> Checked<Track> {
    let mut notes = Notes::default();
    let text = encoding::decode(bytes, &mut notes);
    let lines = lines(&text);
    let mut track = if captions::is_webvtt(&lines) {
        captions::webvtt(&lines, &mut notes)
    } else if captions::is_subrip(&lines) {
        captions::subrip(&lines, &mut notes)
    } else {
        marked::marked(&lines, &mut notes)
    };
    // A file that is no text has been told of already.
    if !notes.has(code::TRACK_NOT_TEXT) {
        check::check(&mut track, &mut notes);
    }
    track.text = text;
    Checked {
        output: track,
        diagnostics: notes.all(),
    }
}

#[cfg(test)]
mod tests;
